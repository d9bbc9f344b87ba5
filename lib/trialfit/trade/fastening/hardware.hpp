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

/// A crank between two case halves, as two-stroke workshop manuals measure it.
struct CrankcaseStack {
    double half_one = 0.0;  ///< joint face to bearing seat
    double half_two = 0.0;
    double gasket = 0.0;     ///< compressed
    double bearings = 0.0;   ///< widths together
    double shoulders = 0.0;  ///< crank, over its shoulders
    double fixed_shims = 0.0;
};
/// Room A = halves + gasket.
[[nodiscard]] double crankcase_room(const CrankcaseStack& stack);
/// What fills it, B = bearings + shoulders + fixed shims.
[[nodiscard]] double crankcase_fill(const CrankcaseStack& stack);
/// Shim for a wanted float: A - B - float; negative where there is no room. The other way, the
/// float that a shim leaves, is the same difference.
[[nodiscard]] double shim_for_float(const CrankcaseStack& stack, double end_float);
[[nodiscard]] double float_with_shim(const CrankcaseStack& stack, double shim);

/// A computed shim rounded down to the steps in which shims come (a motorcycle workshop manual,
/// step 0.05). step > 0.
[[nodiscard]] double shim_rounded_down(double shim, double step);

}  // namespace trialfit::trade
