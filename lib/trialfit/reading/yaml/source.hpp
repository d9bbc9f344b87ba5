// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <trialfit/job/complaint.hpp>
#include <vector>

namespace trialfit::reading {

/// Why a text is no text of a job file at all: too long, not UTF-8, with characters that nobody
/// types. Nothing where it may be parsed. `text` as it came, with or without byte order mark.
[[nodiscard]] std::optional<job::Complaint> refuse_text(std::string_view text);

/// The text of a job file as it is parsed, and where each of its bytes stands.
class Source {
public:
    /// `text` as it came: a byte order mark is left out, a lone carriage return ends a line.
    explicit Source(std::string_view text);

    [[nodiscard]] const std::string& text() const { return text_; }
    /// Line and column (in characters) of the byte at `offset`; one past the end is the end.
    [[nodiscard]] job::Place place(std::size_t offset) const;
    [[nodiscard]] std::size_t lines() const { return starts_.size(); }
    /// The line (counted from 0) that the byte at `offset` is in.
    [[nodiscard]] std::size_t line_of(std::size_t offset) const;
    /// Offset of the first byte of a line, counted from 0.
    [[nodiscard]] std::size_t start_of(std::size_t line) const { return starts_.at(line); }
    /// A line without its end, counted from 0.
    [[nodiscard]] std::string_view line(std::size_t line) const;

private:
    [[nodiscard]] std::size_t characters_before(std::size_t offset) const;

    std::string text_;
    std::vector<std::uint32_t> starts_;
    /// Characters before every kStride-th byte: a place is found in the same time however long the
    /// line is.
    std::vector<std::uint32_t> counts_;
};

/// `text` as a complaint quotes it: on one line, and cut short where it runs on.
[[nodiscard]] std::string clipped(std::string_view text);
/// The same in quotes: 'text'.
[[nodiscard]] std::string quoted(std::string_view text);

}  // namespace trialfit::reading
