// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <trialfit/draw/section/section.hpp>
#include <trialfit/match/answers.hpp>
#include <trialfit/reading/join/joiner.hpp>
#include <trialfit/stack/check/check.hpp>
#include <variant>

namespace trialfit::match {

/// A job in its present state (stack::as_built), judged by the worst case with its readings.
struct Present {
    job::Job job;
    stack::Options how;
};

/// Carries out the whole record of a job as it was read, and lets its readings bind its sizes.
[[nodiscard]] std::variant<Present, job::Complaints> present(const job::Job& as_read);

/// The section of a candidate as it comes; nothing where it cannot be drawn.
[[nodiscard]] std::optional<draw::Section> section_of(const reading::Joiner& joiner,
                                                      const Candidate& candidate);

}  // namespace trialfit::match
