// SPDX-License-Identifier: MIT
// Nuts, washers, shims and customary clearances. Lengths in mm.
#pragma once

#include <string_view>
#include <trialfit/trade/cited.hpp>
#include <trialfit/trade/result.hpp>
#include <vector>

namespace trialfit::trade {

/// Kinds of hexagon nut. Fine-pitch nuts (ISO 8673 and 8675) have the heights of 4032 and 4035
/// (from memory).
enum class NutKind { regular_iso_4032, thin_iso_4035, din_934 };

/// A nut's sizes. Where the source has the height's greatest only, height_min is 0.
struct Nut {
    double thread_dia = 0.0;
    double height_max = 0.0;
    double height_min = 0.0;
    double across_flats = 0.0;
    std::string_view source;
};

/// The nut for a metric thread of that diameter. A reason where the table has none.
[[nodiscard]] Result<Nut> hexagon_nut(NutKind kind, double thread_dia);

/// Plain washer ISO 7089.
struct Washer {
    double thread_dia = 0.0;
    double bore = 0.0;
    double od = 0.0;
    double thickness = 0.0;
    double thickness_min = 0.0;
    double thickness_max = 0.0;
    std::string_view source;
};
/// A reason where the table has none.
[[nodiscard]] Result<Washer> plain_washer(double thread_dia);

/// Thicknesses in which shim rings DIN 988 are made (from memory).
[[nodiscard]] const std::vector<double>& shim_ring_thicknesses();

/// Shim sets seen in workshop manuals and on sale: their thicknesses, thinnest first.
struct ShimSet {
    std::string_view what;
    std::vector<double> thicknesses;
    std::string_view source;
};
[[nodiscard]] const std::vector<ShimSet>& shim_sets();

/// Customary gaps and end floats, mm.
[[nodiscard]] const std::vector<CitedRange>& customary_gaps();

/// Shim for a wanted float: what there is room for (halves and gasket), less what fills it
/// (bearings, shoulders, shims that stay), less the float; negative where there is no room. The
/// other way, the float that a shim leaves, is the same difference.
[[nodiscard]] double shim_for_float(double room, double fill, double end_float);

/// A computed shim rounded down to the steps in which shims come (a motorcycle workshop manual,
/// step 0.05). step > 0.
[[nodiscard]] double shim_rounded_down(double shim, double step);

}  // namespace trialfit::trade
