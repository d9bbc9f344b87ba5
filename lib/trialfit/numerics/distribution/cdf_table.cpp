// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstddef>
#include <trialfit/numerics/distribution/cdf_table.hpp>

namespace trialfit::numerics {

CdfTable::CdfTable(const SumDistribution& sum, Side side) : side_(side), from_(sum.mean()) {
    constexpr double kTail = 1e-14;
    if (sum.sd() <= 0.0) return;
    from_ = sum.quantile(kTail);
    // Seen from the other end, 1 - kTail would be rounded.
    const double to = from_ + 2.0 * (sum.mean() - from_);
    const double symmetric_end = sum.survival(to) <= kTail ? to : sum.quantile(1.0 - kTail);
    step_ = (symmetric_end - from_) / static_cast<double>(kCells);
    const double sign = side == Side::below ? 1.0 : -1.0;
    value_.reserve(kCells + 1);
    rise_.reserve(kCells + 1);
    for (std::size_t i = 0; i <= kCells; ++i) {
        const double x = from_ + step_ * static_cast<double>(i);
        value_.push_back(side == Side::below ? sum.cdf(x) : sum.survival(x));
        rise_.push_back(sign * step_ * sum.density(x));
    }
}

double CdfTable::operator()(double x) const {
    const bool below = side_ == Side::below;
    if (step_ <= 0.0) return (below ? from_ < x : from_ > x) ? 1.0 : 0.0;
    const double place = (x - from_) / step_;
    if (place <= 0.0) return below ? 0.0 : 1.0;
    if (place >= static_cast<double>(kCells)) return below ? 1.0 : 0.0;
    const auto i = static_cast<std::size_t>(place);
    const double t = place - static_cast<double>(i);
    const double u = 1.0 - t;
    const double cubic = value_[i] * u * u * (1.0 + 2.0 * t) +
                         value_[i + 1] * t * t * (3.0 - 2.0 * t) +
                         t * u * (u * rise_[i] - t * rise_[i + 1]);
    return std::clamp(cubic, 0.0, 1.0);
}

}  // namespace trialfit::numerics
