// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/plan/answers.hpp>
#include <vector>

// Sentences about plans, shared by the headline and the sheet.
namespace trialfit::paper {

/// Decimals that the sizes of a plan are given with: as many as the lathe's `holds` needs.
[[nodiscard]] int plan_decimals(const plan::PlanAnswer& answer);

/// The planned finish size, whole: with `decimals`, or as many more as it has.
[[nodiscard]] std::string told_finish(double finish, int decimals);
/// What comes off, such that it is what the printed sizes differ by.
[[nodiscard]] std::string told_removal(double now, double finish, int decimals);
/// The readings that pass, and the gauge: "5.53..5.59 by caliper".
[[nodiscard]] std::string told_readings(const plan::CutMade& cut, int decimals);
/// Of a cut by amount: what must come off at least.
[[nodiscard]] std::string told_least_off(const plan::CutMade& cut, int decimals);
[[nodiscard]] std::string told_readings(const plan::SkimMade& skim, int decimals);

/// "0.5 + 0.3", or "none".
[[nodiscard]] std::string told_stack(const std::vector<plan::Piece>& pieces);
/// "down to steps of 0.05".
[[nodiscard]] std::string told_rounding(const job::Rounding& rounding);
/// Whether anything in the seat is to be changed.
[[nodiscard]] bool changed(const plan::StackMade& stack);
/// Whether the plan asks for nothing at all.
[[nodiscard]] bool leaves_all(const plan::PlanMade& plan);

/// What to read at the trial fit once the work is done.
[[nodiscard]] std::string told_reading(const plan::ReadingAfter& reading, const Lengths& lengths);

/// All that a plan asks for in one sentence: "turn the plate's front to 5.53 and ...".
[[nodiscard]] std::string told_works(const plan::PlanMade& plan, int decimals);

/// Rough passes and the light one.
[[nodiscard]] std::string told_passes(const plan::Passes& passes, int decimals);
/// "the rotor's magnets" bore", "the stator's poles on the outside".
[[nodiscard]] std::string told_turned(const plan::SkimMade& skim);
/// Before and after a ring is skimmed: magnets, laminations, balance.
[[nodiscard]] std::vector<std::string> skim_cautions(const plan::SkimMade& skim);
/// Of a size that may be past its finish as things stand: what to do first; else empty.
[[nodiscard]] std::string told_may_be(const plan::CutMade& cut, int decimals);
[[nodiscard]] std::string told_may_be(const plan::SkimMade& skim, int decimals);
/// How a part is brought to the middle, and how to see that it is there.
[[nodiscard]] std::string told_centring(const plan::CentringMade& centring, int decimals);

/// Why there is no plan, in sentences. What nothing moves (`stuck`), or what stands in each other's
/// way (`members`) and what that means; then the least that would make a plan.
struct ToldConflict {
    std::vector<std::string> stuck;
    std::vector<std::string> members;
    std::string meaning;
    std::string least;
};
[[nodiscard]] ToldConflict told_conflict(const plan::NoPlan& why, const plan::PlanAnswer& answer);

/// What stands in the way, and the least that would help.
[[nodiscard]] std::string told_stands(const plan::Stands& stands, const plan::PlanAnswer& answer);
[[nodiscard]] std::string told_relaxation(const plan::Stands& stands, double by,
                                          const plan::PlanAnswer& answer);

}  // namespace trialfit::paper
