// SPDX-License-Identifier: MIT
#pragma once

#include <cmath>
#include <optional>
#include <trialfit/job/job.hpp>
#include <trialfit/stack/answers.hpp>
#include <trialfit/stack/messages.hpp>
#include <trialfit/stack/model/model.hpp>
#include <vector>

// The job in each of its states: part materials and temperatures scale each part's sizes
// by 1 + alpha (T - 20 C). Sizes are as measured at 20 C (ISO 1: the reference temperature of
// dimensions).
namespace trialfit::stack {

inline constexpr double kMeasuredAt_c = 20.0;
using job::kAsMeasured;

/// The states that a job's temperatures are looked at in: its own, and first of all the state as
/// measured unless one of them has every part at 20 C. Empty where the job gives none.
[[nodiscard]] std::vector<job::State> states_of(const job::Job& job);

/// The states that a model is looked at in, for an answer: those of states_of() (the state as
/// measured where the job gives none), then "tightened" where the draw-up of the hub can be worked
/// out. Empty where the model is looked at as it stands only.
[[nodiscard]] std::vector<StateTold> states_told(const Model& cold);

/// The model in each of those states, in that order; the model alone where there are none.
[[nodiscard]] std::vector<Model> in_states(const Model& cold);

/// What is not assessed of tightening: that the draw-up is not known, and why, or what the state
/// "tightened" leaves out. Empty where no hub sits on a cone.
[[nodiscard]] std::vector<NotAssessed> draw_up_not_assessed(const Model& cold);

/// The parts of model.growth_unknown() that a figure of it stands on.
template <typename Figure>
[[nodiscard]] std::vector<job::PartId> unknown_growth_under(const Model& model,
                                                            const Figure& figure) {
    constexpr double kMoves = 1e-9;
    std::vector<job::PartId> parts;
    for (const Model::Grown& grown : model.with_unknown_grown())
        if (std::abs(figure(*grown.model) - figure(model)) > kMoves)
            parts.insert(parts.end(), grown.parts.begin(), grown.parts.end());
    return parts;
}

/// Why a figure that stands on how these parts grow is not judged; nothing where there are none.
[[nodiscard]] std::optional<GrowthNotKnown> growth_not_known(const Model& model,
                                                             const std::vector<job::PartId>& parts);

/// What is assumed of heat, and what is not assessed of it; "heat" as a whole where the job gives
/// no states.
[[nodiscard]] std::vector<Note> heat_notes(const job::Job& job);
[[nodiscard]] std::vector<NotAssessed> heat_not_assessed(const job::Job& job);

}  // namespace trialfit::stack
