// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <trialfit/job/spin.hpp>
#include <trialfit/spin/answers.hpp>

// The balance of energy from where the cylinder closes to the spark: w^2 = w0^2 - 2 L/J, where L is
// what compression and drag take. Each figure is monotone in all that it is made of, and is taken
// at the two corners and at the middle: proven, since each is a product, a quotient or a
// difference of what is >= 0.
namespace trialfit::spin {

/// What turns where the cylinder closes. `inertia` and `drag` may be unknown: what hangs on them is
/// then nothing. Energy rises with the starter's figures, falls with the drag (of a torque) and
/// rises with the inertia (of a speed); the speed rises with the energy and falls with the inertia.
[[nodiscard]] Started started(const job::Starter& starter, const std::optional<Estimate>& inertia,
                              const std::optional<job::Span>& drag);

/// What is at stake: `start` with its energy known, what both ways take, the speed that the spark
/// asks for.
struct Stakes {
    Started start;
    std::optional<Estimate> inertia_kg_m2;
    Estimate loss_to_top_j;
    std::optional<Estimate> loss_to_firing_j;
    std::optional<Estimate> spark_from_rpm;
};

/// Rises with the energy, falls with the loss; nothing where the energy is not known.
[[nodiscard]] std::optional<Held> carried_over(const Stakes& stakes);

/// Speed left at the firing point, 0 where it stops before: falls with the loss; rises with the
/// starter's speed and the inertia where a speed is held; rises with its energy and falls with the
/// inertia where an energy is. Nothing where inertia, energy or firing point is not known.
[[nodiscard]] std::optional<Held> spark(const Stakes& stakes);

/// What would do. Nothing where spark() is, or the speed that the spark asks for is not known.
[[nodiscard]] std::optional<StarterNeeded> needed(const Stakes& stakes);

/// Speed left at the firing point at the middle of all ranges, were the inertia another.
[[nodiscard]] double middle_speed_with(const Stakes& stakes, double inertia_kg_m2);

}  // namespace trialfit::spin
