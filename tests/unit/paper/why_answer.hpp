// SPDX-License-Identifier: MIT
// A chain made by hand. Invented figures.
#pragma once

#include <string>
#include <trialfit/stack/answers.hpp>
#include <utility>

namespace trialfit::testing {

inline stack::Contribution contribution(std::string size, std::string written, int line,
                                        quantity::Size value, double sensitivity,
                                        double worst_share, double variance_share,
                                        stack::Bounds if_halved) {
    stack::Contribution out;
    out.size = std::move(size);
    out.written = std::move(written);
    out.at = {line, 14};
    out.value = value;
    out.sensitivity = sensitivity;
    out.half_width = (sensitivity < 0 ? -sensitivity : sensitivity) * value.half_width();
    out.worst_share = worst_share;
    out.variance_share = variance_share;
    out.if_halved = if_halved;
    return out;
}

/// A gap of 1.00 of which 0.60 is needed: 0.45 is left in the worst case.
inline stack::WhyAnswer doubtful_gap() {
    stack::WhyAnswer a;
    a.file = "pump.yaml";
    a.name = "rotor clear of coils";
    a.first = "stator.coil_out";
    a.second = "rotor.cup_floor";
    a.value = {1.0, 1.0, {0.45, 1.55}, {0.65, 1.35}};
    a.at_least = 0.6;
    a.verdict = stack::Verdict::doubtful;
    a.sd = 0.1167;
    a.constant = -2.0;
    a.chain = {
        contribution("stator.coil_out from stator.base", "14.0 ±0.3", 52,
                     quantity::toleranced(14.0, -0.3, 0.3), -1.0, 0.5455, 0.7347,
                     {1.0, 1.0, {0.6, 1.4}, {0.76, 1.24}}),
        contribution("rotor.bore dia", "15.60 ±0.04", 61, quantity::toleranced(15.6, -0.04, 0.04),
                     -5.0, 0.3636, 0.2449, {1.0, 1.0, {0.55, 1.45}, {0.68, 1.32}}),
        contribution("plate.front from plate.back", "10.00 ±0.05", 40,
                     quantity::toleranced(10.0, -0.05, 0.05), -1.0, 0.0909, 0.0204,
                     {1.0, 1.0, {0.475, 1.525}, {0.65, 1.35}}),
        contribution("case.gasket", "1.6 exact", 90, quantity::exact(1.6), 1.0, 0.0, 0.0,
                     {1.0, 1.0, {0.45, 1.55}, {0.65, 1.35}})};
    return a;
}

}  // namespace trialfit::testing
