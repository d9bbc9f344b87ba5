// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <trialfit/job/complaint.hpp>
#include <trialfit/reading/yaml/source.hpp>

namespace trialfit::reading {

/// Puts a fault of the YAML itself into the words of somebody who never heard of it. `at` and
/// `message` are the YAML reader's offset and text; it is often a line late, so the lines about it
/// are searched for the usual slips first.
[[nodiscard]] job::Complaint yaml_fault(const Source& source, std::size_t at,
                                        const std::string& message);

/// Offset of the quote that ends the quoted value which begins at `at`, or npos where it never
/// ends.
[[nodiscard]] std::size_t end_of_quote(const std::string& text, std::size_t at);

/// The last bracket that is never closed; nothing where there is none.
[[nodiscard]] std::optional<job::Complaint> open_bracket(const Source& source);

/// A quoted value that begins at `at` and never ends.
[[nodiscard]] job::Complaint open_quote(const Source& source, std::size_t at);

}  // namespace trialfit::reading
