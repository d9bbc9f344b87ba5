// SPDX-License-Identifier: MIT
// Inside the room: one demand on the sizes and the chance that it is not met.
#pragma once

#include <trialfit/numerics/infinity.hpp>
#include <trialfit/odds/sampling/rows.hpp>

namespace trialfit::odds {

/// A form between limits, in the file's unit; `more_than`: over `lower`, not merely at it.
struct LimitedForm {
    stack::Form form;
    double lower = -numerics::kInfinity;
    double upper = numerics::kInfinity;
    bool more_than = false;
};

/// The chance that `demand` is not met. Exact. A form without spread meets a limit that it lies on
/// to within rounding; one with spread has no such slack, so that the unit does not matter. Where
/// readings or a second dimension tie its sizes, their spread is a normal one only nearly: what the
/// worst case rules out has no chance, and what fails throughout it has none to hold.
[[nodiscard]] double failing(const Spreads& spreads, const LimitedForm& demand);

/// Whether the chance that `demand` is not met is below 1e-18 by a bound that costs next to nothing
/// (W. Hoeffding, "Probability inequalities for sums of bounded random variables", J. Amer.
/// Statist. Assoc. 58, 1963, a normal's own exponent for the normals). False where the bound does
/// not tell.
[[nodiscard]] bool never_fails(const Spreads& spreads, const LimitedForm& demand);

/// Whether what meets `surer` meets `demand`, save for a chance below 1e-15.
[[nodiscard]] bool implied(const Spreads& spreads, const LimitedForm& demand,
                           const LimitedForm& surer);

/// A quantile of a form, kept within its worst case where its sizes are tied.
[[nodiscard]] double quantile(const Spreads& spreads, const stack::Form& form,
                              const numerics::SumDistribution& sum, double p);

}  // namespace trialfit::odds
