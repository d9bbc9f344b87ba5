// SPDX-License-Identifier: MIT
#include <boost/math/special_functions/gamma.hpp>
#include <trialfit/numerics/distribution/chi_square.hpp>

namespace trialfit::numerics {

double chi_square_survival(double x, int freedom) {
    if (freedom <= 0 || x <= 0.0) return 1.0;
    return boost::math::gamma_q(freedom / 2.0, x / 2.0);
}

}  // namespace trialfit::numerics
