// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

// Pages in the language of man(7).
namespace trialfit::cli {

/// Text that means nothing to roff but itself, line by line.
[[nodiscard]] std::string roff_escaped(std::string_view text);

/// Writes one page.
class RoffPage {
public:
    /// `name` as "trialfit-check", `about` in a line, without a stop.
    RoffPage(std::string_view name, int section, std::string_view about);

    void heading(std::string_view text);
    void subheading(std::string_view text);
    /// Paragraphs are parted by empty lines.
    void text(std::string_view text);
    /// Lines as they are.
    void lines(std::string_view text);
    /// What is explained, and the explanation. `what` is bold, `value` a word to put something for.
    void item(std::string_view what, std::string_view value, std::string_view about);

    [[nodiscard]] std::string take() && { return std::move(out_); }

private:
    std::string out_;
};

}  // namespace trialfit::cli
