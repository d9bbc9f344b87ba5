// SPDX-License-Identifier: MIT
#include <cmath>
#include <numbers>
#include <trialfit/trade/domain.hpp>
#include <trialfit/trade/engine/compression.hpp>

namespace trialfit::trade {

namespace {

// 1 kPa on 1 cm3.
constexpr double kJoulePerKpaCm3 = 1e-3;
constexpr double kCm3PerMm3 = 1e-3;

// ((V1/V2)^(n-1) - 1)/(n - 1), without the cancelling near n = 1.
double share_of_work(double volume_ratio, double exponent) {
    const double log_ratio = std::log(volume_ratio);
    const double over = exponent - 1.0;
    return over == 0.0 ? log_ratio : std::expm1(over * log_ratio) / over;
}

}  // namespace

Result<Cylinder> cylinder_of(double bore, double closing_drop, double ratio) {
    const Domain domain = Domain()
                              .positive("bore", bore)
                              .positive("the stroke from where the cylinder closes", closing_drop)
                              .positive("compression ratio less 1", ratio - 1.0);
    if (!domain) return domain.why();
    return Cylinder{.bore = bore, .closing_drop = closing_drop, .ratio = ratio};
}

double volume_cm3(const Cylinder& cylinder, double drop) {
    const double area = std::numbers::pi / 4.0 * cylinder.bore * cylinder.bore;
    return area * (cylinder.closing_drop / (cylinder.ratio - 1.0) + drop) * kCm3PerMm3;
}

double compression_work_j(const Cylinder& cylinder, const Trapped& gas, double drop) {
    const double from = volume_cm3(cylinder, cylinder.closing_drop);
    const double swept = from - volume_cm3(cylinder, drop);
    // Of the lengths, so that a cylinder whose volumes vanish has a ratio still.
    const double left = cylinder.closing_drop / (cylinder.ratio - 1.0);
    const double volume_ratio = (left + cylinder.closing_drop) / (left + drop);
    return gas.kpa * kJoulePerKpaCm3 *
           (from * share_of_work(volume_ratio, gas.exponent) - gas.under_piston * swept);
}

}  // namespace trialfit::trade
