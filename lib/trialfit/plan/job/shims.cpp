// SPDX-License-Identifier: MIT
#include <trialfit/plan/job/shims.hpp>

namespace trialfit::plan {

RoundedFrom rounded_from(const job::Rounding& rounding) {
    const double step = rounding.step;
    const double hair = 1e-6 * step;
    switch (rounding.way) {
        case job::RoundingWay::down:
            return {.least = -hair, .most = step - 2.0 * hair, .grid = step};
        case job::RoundingWay::up:
            return {.least = 2.0 * hair - step, .most = hair, .grid = step};
        case job::RoundingWay::nearest:
            return {.least = 2.0 * hair - 0.5 * step, .most = 0.5 * step + hair, .grid = step};
        case job::RoundingWay::last_digit:
            break;
    }
    // Whole steps two to either side, and what is rounded to them.
    return {.least = -2.5 * step, .most = 2.5 * step - hair, .grid = 5.0 * step};
}

}  // namespace trialfit::plan
