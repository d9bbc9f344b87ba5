// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/document/document.hpp>
#include <trialfit/plan/answers.hpp>
#include <trialfit/spin/answers.hpp>

namespace trialfit::paper {

/// Whether it is carried over the top and sparks, in plain words, one paragraph without line
/// breaks.
[[nodiscard]] std::string spin_headline(const spin::SpinAnswer& answer);

/// What `spin` found, for people: the answer first, then what turns, the way to the spark, what
/// would do, how it runs, the reasons for a weak spark and cautions. `cheapest`: the cheapest plan
/// of the job, where it was looked for: what it mends of those reasons.
[[nodiscard]] Document document_of(const spin::SpinAnswer& answer,
                                   const plan::PlanAnswer* cheapest = nullptr);

}  // namespace trialfit::paper
