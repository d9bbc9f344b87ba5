// SPDX-License-Identifier: MIT
#pragma once

#include <cmath>

/// |got - wanted| / |wanted|, and 0 where both are the same.
[[nodiscard]] inline double relative_error(double got, double wanted) {
    return got == wanted ? 0.0 : std::abs(got - wanted) / std::abs(wanted);
}
