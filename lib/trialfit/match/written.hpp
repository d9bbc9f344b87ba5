// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/match/answers.hpp>
#include <trialfit/reading/join/joiner.hpp>
#include <vector>

namespace trialfit::match {

/// A candidate as one job file, or why there is none.
struct Written {
    std::optional<std::string> text;
    std::vector<reading::FileComplaint> complaints;
};

/// The joined text (reading::Joiner::text), read again: it is given only where it then has the
/// candidate's own answer, every figure of it but for a billionth.
[[nodiscard]] Written written(const reading::Joiner& joiner, const Candidate& candidate);

}  // namespace trialfit::match
