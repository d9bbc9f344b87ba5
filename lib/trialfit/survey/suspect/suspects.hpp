// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/stack/model/model.hpp>
#include <trialfit/survey/answers.hpp>
#include <trialfit/survey/trial_fit/contacts.hpp>
#include <vector>

namespace trialfit::survey {

/// An observation's own error as the rest sees it: observed less what the rest says, -v/r, and the
/// standard deviation of that, sd/sqrt(r), r = q/sd^2 being its redundancy (Ghilani and Wolf,
/// Adjustment Computations, chapter on blunder detection). All 0 where nothing checks it.
struct OwnError {
    double off_by = 0.0;
    double sd = 0.0;
    double redundancy = 0.0;
    double standardised = 0.0;
};
[[nodiscard]] OwnError own_error(const stack::SizeColumns& sizes,
                                 const stack::Ties::Adjustment& adjustment, Eigen::Index size);

/// Everything that could explain a disagreement, the greatest drop in chi-square first: each
/// reading, each size, each gauge taken as off by one amount in all that it read, and for each
/// reading that states what touched, the other ways in which the parts may have lain (the stated
/// pair swapped among them). `bound` carries the readings, which lay as `contacts` says; `unbound`
/// is the same without them.
[[nodiscard]] std::vector<Suspect> suspects(const stack::Model& unbound, const stack::Model& bound,
                                            const stack::Ties::Adjustment& adjustment,
                                            const Contacts& contacts);

/// Of all suspects those that these data cannot tell from the first (kTold), a known slip and a
/// reading first.
[[nodiscard]] std::vector<Suspect> not_told_apart(const std::vector<Suspect>& all);

}  // namespace trialfit::survey
