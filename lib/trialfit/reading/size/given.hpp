// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <trialfit/job/job.hpp>
#include <trialfit/reading/size/size_text.hpp>
#include <vector>

namespace trialfit::reading {

/// A size with its words and the gauge that read it, or why there is none. It has no place.
struct GivenOutcome {
    std::optional<job::Given> given;
    std::string fault;
    std::string mend;
};

/// Reads one written size for a job (its unit, general tolerance and gauges), as read_size() does.
/// `bare`: what a number without limits means.
[[nodiscard]] GivenOutcome read_given(std::string_view written, const job::Job& context, Bare bare);

/// The shims of a pile in words: "0.5+0.3", "0.5 + 0.3"; none for "none". A plus parts two shims
/// where it has blanks on both sides or on none: "0.5 +0.02 -0.01" is one with a tolerance.
[[nodiscard]] std::vector<std::string> pieces_of(std::string_view pile);

}  // namespace trialfit::reading
