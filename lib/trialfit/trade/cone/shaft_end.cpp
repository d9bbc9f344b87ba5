// SPDX-License-Identifier: MIT
#include <trialfit/trade/cone/shaft_end.hpp>
#include <trialfit/trade/cone/taper.hpp>
#include <trialfit/trade/reference/written.hpp>

namespace trialfit::trade {
namespace {

constexpr std::string_view kBook = "Mechanical Engineer's Pocket Book, 3rd ed., 5.4.11";
constexpr std::string_view kRecalled = "ISO/R 775, short series (from memory)";

// The diameters follow from the lengths, so only these are stored.
ConicalShaftEnd end_of(double large_dia, double length, double cone_length, double key_width,
                       double key_height, double key_shaft_depth, std::string_view thread,
                       std::string_view source) {
    const double mid_dia = large_dia - diameter_for_travel(kShaftEndTaper, cone_length / 2.0);
    const double small_dia = large_dia - diameter_for_travel(kShaftEndTaper, cone_length);
    return {large_dia,       length,    cone_length, length - cone_length,
            mid_dia,         small_dia, key_width,   key_height,
            key_shaft_depth, thread,    source};
}

}  // namespace

const std::vector<ConicalShaftEnd>& conical_shaft_ends() {
    static const std::vector<ConicalShaftEnd> ends{
        end_of(16, 28, 16, 3, 3, 1.8, "M10x1.25", kBook),
        end_of(18, 28, 16, 4, 4, 2.5, "M10x1.25", kRecalled),
        end_of(19, 28, 16, 4, 4, 2.5, "M10x1.25", kBook),
        end_of(20, 36, 22, 4, 4, 2.5, "M12x1.25", kBook),
        end_of(22, 36, 22, 4, 4, 2.5, "M12x1.25", kRecalled),
        end_of(24, 36, 22, 5, 5, 3.0, "M12x1.25", kBook),
        end_of(25, 42, 24, 5, 5, 3.0, "M16x1.5", kBook),
        end_of(28, 42, 24, 5, 5, 3.0, "M16x1.5", kRecalled),
    };
    return ends;
}

Result<ConicalShaftEnd> conical_shaft_end(double large_dia) {
    for (const ConicalShaftEnd& end : conical_shaft_ends())
        if (end.large_dia == large_dia) return end;
    return Reason{"no conical shaft end of " + shown(large_dia) +
                  " mm is tabulated (16, 18, 19, 20, 22, 24, 25, 28)"};
}

}  // namespace trialfit::trade
