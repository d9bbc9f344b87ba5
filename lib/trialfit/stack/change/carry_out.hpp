// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <trialfit/job/job.hpp>
#include <trialfit/stack/change/changes.hpp>
#include <trialfit/stack/model/model.hpp>
#include <variant>
#include <vector>

// A job after work was done on its parts: faces cut, cones lapped, rings skimmed, parts centred,
// shims changed.
namespace trialfit::stack {

/// +1 for a hub's cone, which gets larger when it is lapped, -1 for a shaft's.
[[nodiscard]] double lap_sign(const job::Job& job, job::ConeRef cone);
/// A cone's diameter once it is lapped: all that comes off is taken off where the lap is listed.
[[nodiscard]] quantity::Size lapped(const job::Job& job, const LappedBy& lap);

/// The seat by which a part is held in the model; the others, where there
/// are any, are closures that say the same again. None for the part that all else stands on.
[[nodiscard]] std::optional<job::SeatId> holding_seat(const Model& model, job::PartId part);

/// The job after the work. A cut face is new metal: what touches it (rings that end at it, threads,
/// checks, parts that sit on it) meets the new face, while the faces that were dimensioned from it
/// lie where they lay. So the old face stays as a face of its own, listed after the part's others
/// under a name of its own, with the sizes that led to and from it; a cone whose gauge plane it
/// was, a ring's end beyond it, readings and seats at a measured offset stay with it
/// (job/former.hpp). Indices of parts and faces stay as they were; so do those of seats, save that
/// a part with several seats keeps the holding one only (the rest were facts about the old metal,
/// kept by model_after). Cones are taken off where the lap is listed: a hub's gets larger, a
/// shaft's smaller. `before`'s readings stay in the job so that they can still bind it.
/// Job::carried says which sizes the work made, kept and dropped.
[[nodiscard]] job::Job carried_out(const Model& before, const Changes& changes);

/// The model of `after`, a job made from before's by carried_out, bound by all that bound `before`:
/// its readings and its sizes given more than once were about the old metal, whose sizes are all in
/// the new job. Complaints where a face is tied to nothing. `after` must outlive the model.
[[nodiscard]] std::variant<Model, job::Complaints> model_after(const Model& before,
                                                               const job::Job& after);

}  // namespace trialfit::stack
