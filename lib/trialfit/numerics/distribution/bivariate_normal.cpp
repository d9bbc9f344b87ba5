// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <numbers>
#include <trialfit/numerics/distribution/bivariate_normal.hpp>
#include <trialfit/numerics/distribution/distribution.hpp>
#include <trialfit/numerics/distribution/gauss.hpp>

namespace trialfit::numerics {

namespace {

// exp(-(h^2 + k^2 - 2 h k sin a) / (2 cos^2 a)) at the angle a = pi/2 - from_right; written so that
// it holds its digits as the angle nears a right one.
double plackett(double h, double k, double from_right) {
    const double sine = std::sin(from_right);
    const double half = std::sin(from_right / 2.0);
    const double apart = h - k;
    return std::exp(-(apart * apart + 4.0 * h * k * half * half) / (2.0 * sine * sine));
}

// The integral of the above over the angle's distance from a right one, from `near` to `far`, in
// panels which shrink towards the right angle where the integrand turns sharply.
double plackett_integral(double h, double k, double near, double far) {
    const GaussLegendre& gauss = gauss_legendre();
    double sum = 0.0;
    while (far > std::max(near, 1e-18)) {
        const double start = std::max(near, far / 3.0);
        const double half = (far - start) / 2.0;
        double panel = 0.0;
        for (std::size_t i = 0; i < gauss.at.size(); ++i)
            panel += gauss.weight[i] * plackett(h, k, start + half + half * gauss.at[i]);
        sum += half * panel;
        far = start;
    }
    return sum / (2.0 * std::numbers::pi);
}

}  // namespace

double bivariate_normal(double h, double k, double r) {
    if (std::isinf(h) || std::isinf(k)) {
        if (std::min(h, k) < 0.0 && std::isinf(std::min(h, k))) return 0.0;
        return normal_cdf(std::min(h, k));
    }
    if (r >= 1.0) return normal_cdf(std::min(h, k));
    if (r <= -1.0) return std::max(0.0, normal_cdf(h) - normal_cdf(-k));
    const double right = std::numbers::pi / 2.0;
    if (r >= 0.0)
        return normal_cdf(h) * normal_cdf(k) + plackett_integral(h, k, std::acos(r), right);
    const double opposite = h < -k ? 0.0 : normal_cdf(h) - normal_cdf(-k);
    return opposite + plackett_integral(h, -k, 0.0, std::acos(-r));
}

double bivariate_rectangle(double h0, double h1, double k0, double k1, double r) {
    return bivariate_normal(h1, k1, r) - bivariate_normal(h0, k1, r) - bivariate_normal(h1, k0, r) +
           bivariate_normal(h0, k0, r);
}

}  // namespace trialfit::numerics
