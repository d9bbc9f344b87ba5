// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <numbers>
#include <trialfit/odds/gauss.hpp>
#include <trialfit/odds/joint.hpp>
#include <trialfit/odds/law.hpp>

namespace trialfit::odds {

namespace {

// exp(-(h^2 + k^2 - 2 h k sin a) / (2 cos^2 a)) at the angle a = pi/2 - from_right; written so that
// it holds its digits as the angle nears a right one.
double plackett(double h, double k, double from_right) {
    const double sine = std::sin(from_right);
    const double half = std::sin(from_right / 2.0);
    const double apart = h - k;
    return std::exp(-(apart * apart + 4.0 * h * k * half * half) / (2.0 * sine * sine));
}

// The integral of the above over the angle from 0 to asin r, r in (0, 1), in panels which shrink
// towards the right angle where the integrand turns sharply.
double plackett_integral(double h, double k, double r) {
    const GaussLegendre& gauss = gauss_legendre();
    const double nearest = std::acos(r);
    double far = std::numbers::pi / 2.0;
    double sum = 0.0;
    while (far > nearest) {
        const double near = std::max(nearest, far / 1.5);
        const double half = (far - near) / 2.0;
        for (std::size_t i = 0; i < gauss.at.size(); ++i)
            sum += half * gauss.weight[i] * plackett(h, k, near + half + half * gauss.at[i]);
        far = near;
    }
    return sum / (2.0 * std::numbers::pi);
}

}  // namespace

double bivariate_normal(double h, double k, double r) {
    if (std::isinf(h) || std::isinf(k)) {
        if (std::min(h, k) == -INFINITY) return 0.0;
        return normal_cdf(std::min(h, k));
    }
    if (r >= 1.0) return normal_cdf(std::min(h, k));
    if (r <= -1.0) return std::max(0.0, normal_cdf(h) - normal_cdf(-k));
    if (r < 0.0) {
        const double apart = normal_cdf(h) * normal_cdf(k);
        return std::max(0.0, apart - plackett_integral(h, -k, -r));
    }
    return normal_cdf(h) * normal_cdf(k) + plackett_integral(h, k, r);
}

double bivariate_rectangle(double h0, double h1, double k0, double k1, double r) {
    return bivariate_normal(h1, k1, r) - bivariate_normal(h0, k1, r) - bivariate_normal(h1, k0, r) +
           bivariate_normal(h0, k0, r);
}

}  // namespace trialfit::odds
