// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <string>
#include <trialfit/job/job.hpp>
#include <trialfit/stack/answers.hpp>
#include <trialfit/stack/model/model.hpp>
#include <trialfit/stack/radial/axes.hpp>
#include <vector>

// Radial gaps: half the difference of the diameters, less half the indicator
// reading of each part's runout, less half the diametral clearance of each register, bearing or set
// of bolts between the two axes, less tilt times height. What these eccentricities are as vectors,
// and what of them meets what over a turn, is in radial_axes.hpp. The bounds, worst case and RSS
// alike, take unknown directions at their worst: a direction has no middle and no half-width for
// RSS to add up. The odds draw them.
namespace trialfit::stack {

/// One radial gap. At each end of the length over which the rings can lie within one another, the
/// least gap round the turn is width - roams - |sum of still vectors| - |sum of turning vectors|,
/// the widest place the same with plus signs; the gap is the least of the ends.
struct RadialQuestion {
    std::string inner;
    std::string outer;
    /// Half the difference of the diameters.
    Form width;
    /// Half of each play between a turning part and a still one: the shaft is pushed about in it as
    /// it turns, so it meets the worst direction whatever the others are.
    Form roams;
    std::vector<Vectors> ends;
    /// Of each end, with all vectors in their worst directions.
    std::vector<Form> least;
    std::vector<Form> greatest;
    std::vector<NotGiven> not_given;
};
/// `one` and `other` in either order: the outer one is that with the larger bore.
/// Why that question is not judged where it stands on how parts grow of which nothing says it;
/// nothing where it does not.
[[nodiscard]] std::optional<NotJudgedFor> radial_not_judged_for(const Model& model,
                                                                job::RingRef one,
                                                                job::RingRef other);
[[nodiscard]] RadialQuestion radial_question(const Model& model, job::RingRef one,
                                             job::RingRef other);

/// The least and the greatest of several forms, in every bound.
[[nodiscard]] Bounds least_of(const Model& model, const std::vector<Form>& forms, double inflate);
[[nodiscard]] Bounds greatest_of(const Model& model, const std::vector<Form>& forms,
                                 double inflate);

/// Every pair of nested rings, one turning and one still, that lie within one another along the
/// axis anywhere in the range of the bounds, in the state that decides; empty where asks_radial()
/// is false. At least radial_clearance (running_clearance where the job gives none), or what an air
/// gap asks of the two rings. A bearing's own two rings are left out. Beyond kAllPairsUpTo rings,
/// pairs that no eccentricity of the job could bring near their limit are passed over.
[[nodiscard]] std::vector<RadialGap> radial_gaps(const std::vector<Model>& states, Judge judge,
                                                 double inflate);

/// Two rings, one turning and one still, of which the one has room within the other's bore.
struct NestedRings {
    job::RingRef inner;
    job::RingRef outer;
};
/// All such pairs, wherever they lie along the axis: radial_gaps() is asked of those that
/// lie_over_one_another(). Without a bearing's own two rings, and rings of unmeasured diameter.
[[nodiscard]] std::vector<NestedRings> nested_anywhere(const Model& model);
/// How far each of the two reaches beyond where the other begins: they can lie over one another
/// where both can be more than nothing.
[[nodiscard]] std::array<Form, 2> lie_over_one_another(const Model& model, const NestedRings& pair);
/// The least radial gap of the two that passes.
[[nodiscard]] double radial_needed(const job::Job& job, const NestedRings& pair);

/// Of each two parts the tightest pair, and any with a worse verdict; worst first.
[[nodiscard]] std::vector<RadialGap> listed(std::vector<RadialGap> pairs, bool all);

/// The answer to an air gap of the job, in the state that decides.
[[nodiscard]] CheckResult answer(const std::vector<Model>& states, const job::AirGap& check,
                                 Judge judge, double inflate);

/// What the job does not say and these gaps would hang on; LeftOut::radial where it says nothing.
[[nodiscard]] std::vector<NotAssessed> radial_not_assessed(const Model& model,
                                                           const std::vector<RadialGap>& pairs);

/// What the figures assume of directions, where that makes a difference.
[[nodiscard]] std::vector<Note> radial_notes(const std::vector<Clearance>& clearances,
                                             const std::vector<RadialGap>& pairs);

}  // namespace trialfit::stack
