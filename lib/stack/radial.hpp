// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/job/job.hpp>
#include <trialfit/stack/answers.hpp>
#include <trialfit/stack/model.hpp>
#include <vector>

// Radial gaps (design 3, "Radial"): half the difference of the diameters, less half the indicator
// reading of each part's runout, less half the diametral clearance of each register, bearing or set
// of bolts between the two axes, less tilt times height. As one part turns, its eccentricity comes
// to stand against that of the still one, so for one of each the least gap round the turn is
// exactly that; where several lie on one side, their unknown directions are taken at their worst.
namespace trialfit::stack {

/// The forms of one radial gap, at the two ends of the length over which the rings can lie within
/// one another: the gap is the least of `least`; the widest place round the turn the greatest of
/// `greatest`.
struct RadialQuestion {
    std::string inner;
    std::string outer;
    std::vector<Form> least;
    std::vector<Form> greatest;
    std::vector<std::string> not_given;
};
/// `one` and `other` in either order: the outer one is that with the larger bore.
[[nodiscard]] RadialQuestion radial_question(const Model& model, job::FeatureRef one,
                                             job::FeatureRef other);

/// The least of several forms, in every bound.
[[nodiscard]] Bounds least_of(const Model& model, const std::vector<Form>& forms, double inflate);

/// Every pair of nested rings, one turning and one still, that lie within one another along the
/// axis anywhere in the range of the bounds, in the state that decides; empty where asks_radial()
/// is false. At least radial_clearance (running_clearance where the job gives none), or what an air
/// gap asks of the two rings. A bearing's own two rings are left out. Beyond kAllPairsUpTo rings,
/// pairs that no eccentricity of the job could bring near their limit are passed over.
[[nodiscard]] std::vector<RadialGap> radial_gaps(const std::vector<Model>& states, Judge judge,
                                                 double inflate);

/// Of each two parts the tightest pair, and any with a worse verdict; worst first.
[[nodiscard]] std::vector<RadialGap> listed(std::vector<RadialGap> pairs, bool all);

/// The answer to an air gap of the job, in the state that decides.
[[nodiscard]] CheckResult answer(const std::vector<Model>& states, const job::AirGap& check,
                                 Judge judge, double inflate);

/// What the job does not say and these gaps would hang on, in words; "radial gaps ..." as a whole
/// where it says nothing.
[[nodiscard]] std::vector<std::string> radial_not_assessed(const job::Job& job,
                                                           const std::vector<RadialGap>& pairs);

}  // namespace trialfit::stack
