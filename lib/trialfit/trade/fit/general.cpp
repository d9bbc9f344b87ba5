// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <trialfit/trade/fit/general.hpp>
#include <trialfit/trade/reference/written.hpp>

namespace trialfit::trade {

namespace {

constexpr std::string_view kLetters = "fmcv";
constexpr std::array kUpperEnds_mm{3.0, 6.0, 30.0, 120.0, 400.0, 1000.0, 2000.0, 4000.0};
constexpr double kLeast_mm = 0.5;
constexpr double kNone = 0.0;

// ISO 2768-1:1989, table 1, half-widths in mm by class and step.
constexpr std::array<std::array<double, kUpperEnds_mm.size()>, 4> kHalfWidths_mm{{
    {0.05, 0.05, 0.1, 0.15, 0.2, 0.3, 0.5, kNone},
    {0.1, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 2},
    {0.2, 0.3, 0.5, 0.8, 1.2, 2, 3, 4},
    {kNone, 0.5, 1, 1.5, 2.5, 4, 6, 8},
}};

}  // namespace

std::optional<GeneralClass> general_class(std::string_view written) {
    const std::size_t at = kLetters.find(written);
    if (written.size() != 1 || at == std::string_view::npos) return {};
    return static_cast<GeneralClass>(at);
}

char letter(GeneralClass of) {
    return kLetters.at(static_cast<std::size_t>(of));
}

Result<double> general_half_width_mm(GeneralClass of, double length_mm) {
    // A length converted from inches may come out a last bit beyond the end of its step.
    constexpr double kRounding_mm = 1e-9;
    const double length = std::abs(length_mm);
    const Reason none{std::string("ISO 2768-") + letter(of) + " has no tolerance for " +
                      shown(length_mm) + " mm; state this size's own limits"};
    if (!(length >= kLeast_mm - kRounding_mm)) return none;
    const auto* const step =
        std::lower_bound(kUpperEnds_mm.begin(), kUpperEnds_mm.end(), length - kRounding_mm);
    if (step == kUpperEnds_mm.end()) return none;
    const double half_width = kHalfWidths_mm.at(static_cast<std::size_t>(of))
                                  .at(static_cast<std::size_t>(step - kUpperEnds_mm.begin()));
    if (half_width == kNone) return none;
    return half_width;
}

}  // namespace trialfit::trade
