// SPDX-License-Identifier: MIT
#include <cmath>
#include <trialfit/odds/sampling/distribution_of.hpp>

namespace trialfit::odds {

numerics::Distribution distribution_of(const quantity::Size& size) {
    const double middle = size.middle();
    const double h = size.half_width();
    const double k = size.spread.sigmas;
    if (h == 0.0) return numerics::exactly(middle);
    switch (size.spread.shape) {
        case quantity::Shape::normal:
            return numerics::normal(middle, h / k);
        case quantity::Shape::truncated_normal:
            return numerics::truncated_normal(middle, h / k, k);
        case quantity::Shape::uniform: {
            const double scatter = size.spread.scatter_sd;
            if (scatter == 0.0) return numerics::uniform(size.lower, size.upper);
            return numerics::gauge(middle, std::fmax(0.0, h - 3.0 * scatter), scatter);
        }
        case quantity::Shape::triangular:
            return numerics::triangular(size.lower, middle, size.upper);
        case quantity::Shape::exact:
            break;
    }
    return numerics::exactly(middle);
}

}  // namespace trialfit::odds
