// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>
#include <trialfit/trade/result.hpp>
#include <vector>

namespace trialfit::trade {

/// Taper of the ends below, diameter per length.
inline constexpr double kShaftEndTaper = 0.1;

/// A conical shaft end 1:10 of the short series, with parallel key and nut. Lengths in mm.
struct ConicalShaftEnd {
    double large_dia = 0.0;      ///< d1, at the shoulder
    double length = 0.0;         ///< l1, cone and thread
    double cone_length = 0.0;    ///< l2
    double thread_length = 0.0;  ///< l3
    double mid_dia = 0.0;        ///< half-way along the cone: d1 - l2/20
    double small_dia = 0.0;      ///< d1 - l2/10
    double key_width = 0.0;
    double key_height = 0.0;
    double key_shaft_depth = 0.0;  ///< t1, at the middle diameter
    std::string_view thread;
    std::string_view source;
};

/// The end of large diameter d1. Mechanical Engineer's Pocket Book, 3rd ed., 5.4.11; that this is
/// the table of ISO/R 775 is from memory. A reason where the table has no such end.
[[nodiscard]] Result<ConicalShaftEnd> conical_shaft_end(double large_dia);

/// All of them, thinnest first.
[[nodiscard]] const std::vector<ConicalShaftEnd>& conical_shaft_ends();

}  // namespace trialfit::trade
