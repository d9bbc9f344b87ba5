// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <variant>

// What `odds` says beside its figures, as data; its words are in paper/words/.
namespace trialfit::odds {

/// Eccentricities of unknown direction are drawn in any direction, and add up as vectors.
struct RandomDirections {};

/// Quantiles and deciding sizes are given of the first so many findings only.
struct DescribedFirst {
    std::size_t findings = 0;
};

/// Upper limits of engagements and overlaps that the chance of all together leaves out.
struct UpperLimitsLeftOut {
    std::size_t limits = 0;
};

/// Pairs that may touch first and were not drawn, since others are deeper.
struct ContactsLeftOut {
    std::size_t pairs = 0;
};

/// So many sizes that closures bind together count as jointly normal, and are spread otherwise;
/// odds that are not next to certain stand on them.
struct CountedAsNormal {
    std::size_t sizes = 0;
};

using Note = std::variant<RandomDirections, CountedAsNormal, DescribedFirst, UpperLimitsLeftOut,
                          ContactsLeftOut>;

}  // namespace trialfit::odds
