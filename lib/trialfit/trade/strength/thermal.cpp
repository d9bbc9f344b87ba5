// SPDX-License-Identifier: MIT
#include <algorithm>
#include <trialfit/trade/domain.hpp>
#include <trialfit/trade/strength/thermal.hpp>

namespace trialfit::trade {

double thermal_growth(double length, double expansion_per_k, double warming_k) {
    return length * expansion_per_k * warming_k;
}

double warming_for_growth_k(double growth, double dia, double expansion_per_k) {
    return growth / (dia * expansion_per_k);
}

double held_bar_stress_mpa(double length, double expansion_per_k, double warming_k,
                           double modulus_mpa, double room) {
    const double held_back = thermal_growth(length, expansion_per_k, warming_k) - room;
    return modulus_mpa * std::max(held_back, 0.0) / length;
}

double room_for_stress(double length, double expansion_per_k, double warming_k, double modulus_mpa,
                       double stress_mpa) {
    return thermal_growth(length, expansion_per_k, warming_k) - stress_mpa * length / modulus_mpa;
}

Result<TiedStress> tied_bars(const TiedBar& more, const TiedBar& less, double warming_k) {
    const Domain domain = Domain()
                              .positive("area", std::min(more.area_mm2, less.area_mm2))
                              .positive("modulus", std::min(more.modulus_mpa, less.modulus_mpa))
                              .not_negative("difference of the expansions",
                                            more.expansion_per_k - less.expansion_per_k);
    if (!domain) return domain.why();
    const double apart = (more.expansion_per_k - less.expansion_per_k) * warming_k;
    const double force_n = apart / (1.0 / (more.area_mm2 * more.modulus_mpa) +
                                    1.0 / (less.area_mm2 * less.modulus_mpa));
    TiedStress stress;
    stress.more_mpa = force_n / more.area_mm2;
    stress.less_mpa = force_n / less.area_mm2;
    stress.strain = less.expansion_per_k * warming_k + stress.less_mpa / less.modulus_mpa;
    return stress;
}

}  // namespace trialfit::trade
