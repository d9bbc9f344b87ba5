// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/job/job.hpp>
#include <vector>

// What turning a face back does to what was said in terms of that face. The metal that stays does
// not move. Whatever the job measures from the face as it was (other faces, the part's zero, a
// cone's gauge plane, a ring's end beyond it, a stand-off) goes on being measured from there: the
// place keeps its old size under a name of its own, `front_before_cut`, and touches nothing. The
// face itself lies at its finish size from the face that the cut is measured from. What is bounded
// by the face (rings, threads, seats on it, checks and gaps) goes with it.
namespace trialfit::job {

/// Nominal position of each face of a part outboard of its zero, in the file's unit, by the first
/// sizes that lead there; NaN for one that no sizes lead to.
[[nodiscard]] std::vector<double> nominal_positions(const Part& part);

/// The cut of a face, or null.
[[nodiscard]] const Cut* cut_of(const Job& job, FaceRef face);

/// +1 where the face lies outboard of the one that its cut is measured from, -1 where inboard.
/// Where the distance is unmeasured, a ring between the two says so; else it counts as outboard.
[[nodiscard]] double outboard_sign(const Part& part, const Cut& cut);

/// The thickness at a cut now, nominal, >= 0: between the face and the one it is measured from.
[[nodiscard]] double thickness(const Part& part, const Cut& cut);

/// The same at most, by the limits of the sizes that lead there.
[[nodiscard]] double greatest_thickness(const Part& part, const Cut& cut);

/// The same at least: what surely remains of it.
[[nodiscard]] double least_thickness(const Part& part, const Cut& cut);

/// The gauge that will read a cut (index into Job::gauges): the one that the job names, else that
/// of the size between the two faces, else of any size that leads to the face; nothing where none
/// is known.
[[nodiscard]] std::optional<GaugeId> gauge_of(const Part& part, const Cut& cut);

/// Whether anything else goes by the place where the face is before it is cut.
[[nodiscard]] bool measured_by_others(const Job& job, FaceRef face);

/// A free name for that place: "front_before_cut", "front_before_cut_2".
[[nodiscard]] std::string former_name(const Part& part, FaceId face);

}  // namespace trialfit::job
