// SPDX-License-Identifier: MIT
#include <algorithm>
#include <trialfit/trade/domain.hpp>
#include <trialfit/trade/strength/balance.hpp>
#include <trialfit/trade/strength/rotor.hpp>

namespace trialfit::trade {

Result<BalanceLimit> balance_limit(double grade_mm_s, double rpm, double mass_kg) {
    const Domain domain = Domain()
                              .positive("balance grade", grade_mm_s)
                              .positive("speed", rpm)
                              .positive("mass", mass_kg);
    if (!domain) return domain.why();
    constexpr double kGramMillimetresPerOunceInch = 28.349523125 * 25.4;
    const double w = radians_per_second(rpm);
    BalanceLimit limit;
    limit.eccentricity_um = 1000.0 * grade_mm_s / w;
    limit.unbalance_g_mm = limit.eccentricity_um * mass_kg;
    limit.unbalance_oz_in = limit.unbalance_g_mm / kGramMillimetresPerOunceInch;
    limit.force_n = limit.unbalance_g_mm * 1e-6 * w * w;
    return limit;
}

Result<PlaneShare> two_plane_split(double unbalance_g_mm, double left, double right) {
    const Domain domain = Domain()
                              .not_negative("unbalance", unbalance_g_mm)
                              .not_negative("distance to the left plane", left)
                              .not_negative("distance to the right plane", right)
                              .positive("distance between the planes", left + right);
    if (!domain) return domain.why();
    constexpr double kLeastShare = 0.3;
    const double share = std::clamp(right / (left + right), kLeastShare, 1.0 - kLeastShare);
    return PlaneShare{unbalance_g_mm * share, unbalance_g_mm * (1.0 - share)};
}

}  // namespace trialfit::trade
