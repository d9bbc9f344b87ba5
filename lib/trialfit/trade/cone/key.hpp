// SPDX-License-Identifier: MIT
// Keys and their slots. Lengths in mm. A key locates a rotor; it is never counted on to drive one.
#pragma once

#include <string_view>
#include <trialfit/trade/result.hpp>
#include <vector>

namespace trialfit::trade {

/// A parallel key and its slots for shafts over one diameter up to and including another.
struct ParallelKey {
    double shaft_over = 0.0;
    double shaft_incl = 0.0;
    double width = 0.0;
    double height = 0.0;
    double shaft_depth = 0.0;  ///< t1
    double hub_depth = 0.0;    ///< t2
    std::string_view source;
};

/// A Woodruff key (a slice of a disc) and its slots, series A.
struct WoodruffKey {
    double width = 0.0;
    double height = 0.0;
    double disc_dia = 0.0;
    double shaft_depth = 0.0;
    double hub_depth = 0.0;
    std::string_view source;
};

/// BS 4235-1 / DIN 6885-1 (ISO 773 lineage), shafts over 6 to 58. A reason outside of that.
[[nodiscard]] Result<ParallelKey> parallel_key(double shaft_dia);
/// All of them, thinnest shaft first.
[[nodiscard]] const std::vector<ParallelKey>& parallel_keys();

/// DIN 6888 (1956), by width and height. A reason where the table has no such key.
[[nodiscard]] Result<WoodruffKey> woodruff_key(double width, double height);
[[nodiscard]] const std::vector<WoodruffKey>& woodruff_keys();

/// Inch Woodruff keys by width and disc diameter, in mm (Shigley's Mechanical Engineering Design,
/// table 7-7). A reason where the table has no such key.
[[nodiscard]] Result<WoodruffKey> inch_woodruff_key(double width, double disc_dia);

/// Length of the flat of a disc of `disc_dia` cut to `height`: 2 sqrt(h (D - h)). Plain geometry.
/// A reason unless 0 <= height <= disc_dia.
[[nodiscard]] Result<double> woodruff_length(double height, double disc_dia);

/// What a key is higher than its room: height - (shaft_depth + hub_depth); + = too high, to go with
/// key_stand_off of taper.hpp; negative = its clearance over the top.
[[nodiscard]] double key_excess(double height, double shaft_depth, double hub_depth);

}  // namespace trialfit::trade
