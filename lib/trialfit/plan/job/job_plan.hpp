// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <trialfit/numerics/planner/solve.hpp>
#include <trialfit/plan/answers.hpp>
#include <trialfit/plan/job/from_job.hpp>
#include <trialfit/stack/check/check.hpp>

namespace trialfit::plan {

struct JobOptions {
    /// What checks before and after are judged by; its readings are those that bind the model.
    stack::Options stack;
    /// What stack::check finds of the model by `stack`, where that is known already.
    const stack::CheckAnswer* before = nullptr;
    /// How many plans at most, >= 1.
    std::size_t top = 3;
    /// Judges by odds in place of the stack's judge; `judge_after` then judges the findings of a
    /// whole check anew (engagements and overlaps, whose chance hangs on several differences at
    /// once).
    Shifts by_odds;
    std::optional<double> odds_level;
    std::function<void(stack::CheckAnswer& answer, const job::Job& job)> judge_after;
    numerics::SearchControl watch;
};

/// What to cut, lap and shim so that every automatic clearance and every check of the model's job
/// holds, cheapest first. Cost = sum over cuts of cost + per_mm times
/// the nominal removal, over laps of cost + 0.1 times what comes off the diameters, and shim_cost
/// for each piece that does not lie there already; taking shims out costs nothing.
///
/// Shims that move a check with an aim are set to it: what they cost does not count, save between
/// plans that come as near to it.
///
/// Ties: nearest to the aims, then fewest shims, then file order; shims that do no harm stay.
///
/// A skim costs as a cut does, per_mm going by the diameter; centring a part by hand costs what the
/// job says, and is done before any skim.
///
/// Every plan is verified by doing its work on the job (stack::carried_out), assembling it anew and
/// checking it; that is `after`. A plan that does not hold there is not shown, and the answer is
/// then not proven. Rings that a plan would bring into each other are minded from then on, and the
/// search is made again.
///
/// Not proven, though found and checked: by odds, what hangs on several differences at once
/// (engagements, overlaps) or on directions (radial gaps, tilt), unless a search that asks for less
/// finds the same; and radial gaps that a tilted part leans over, where something moves along the
/// axis.
[[nodiscard]] PlanAnswer plan(const stack::Model& model, const JobOptions& options);

}  // namespace trialfit::plan
