// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/plan/demand/demands.hpp>
#include <trialfit/plan/demand/marked.hpp>
#include <vector>

namespace trialfit::plan {

/// Adds what the nested rings and the job's air gaps ask for.
void ask_radial(const stack::Model& model, const Marked& marked, const std::vector<Nesting>& nested,
                Demands& into);

/// Adds the rounding rules of seats that have one. The thickness wanted is the one that brings the
/// first aim which the seat moves to its value, all else as planned; the stack must be what the
/// rule makes of it. A note where no aim is moved.
void ask_rounding(const job::Job& job, Demands& into);

/// A note for each seat whose shims move more than one check with an aim.
void tell_aims(const job::Job& job, Demands& into);

/// How skims may leave no two rings that overlap in diameter at the two ends of an automatic
/// clearance.
struct Partings {
    std::vector<std::vector<PlanDemand>> ways;  ///< none where they cannot
    bool left_out = false;                      ///< there are too many ways: none is given
    bool skims_near = false;                    ///< a ring at either end may be skimmed at all
};
[[nodiscard]] Partings partings(const job::Job& job, const Demands& decided,
                                const stack::Clearance& pair);

/// Adds that a ring whose bore and outside may both be skimmed keeps its wall.
void ask_walls(const job::Job& job, Demands& into);

}  // namespace trialfit::plan
