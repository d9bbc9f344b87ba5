// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <numbers>
#include <trialfit/survey/chi_square.hpp>

namespace trialfit::survey {

double chi_square_survival(double x, int freedom) {
    if (freedom <= 0 || x <= 0.0) return 1.0;
    const double half = x / 2.0;
    const bool odd = freedom % 2 == 1;
    double sum = odd ? std::erfc(std::sqrt(half)) : 0.0;
    // Terms half^k exp(-half) / Gamma(k + 1), k from 0 or 1/2 up in steps of one, in logarithms:
    // the factors by themselves run out of range.
    double log_term =
        odd ? std::log(half) / 2.0 - half - std::log(std::sqrt(std::numbers::pi) / 2.0) : -half;
    for (int k = odd ? 3 : 2; k <= freedom; k += 2) {
        sum += std::exp(log_term);
        log_term += std::log(half) - std::log(k / 2.0);
    }
    return std::min(1.0, sum);
}

}  // namespace trialfit::survey
