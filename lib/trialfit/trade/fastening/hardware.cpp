// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <trialfit/quantity/units.hpp>
#include <trialfit/trade/fastening/hardware.hpp>
#include <trialfit/trade/reference/written.hpp>

namespace trialfit::trade {
namespace {

using quantity::kMmPerInch;
constexpr std::string_view kRegular = "ISO 4032";
constexpr std::string_view kRegularRecalled = "ISO 4032 (from memory)";
constexpr std::string_view kThin = "ISO 4035";
constexpr std::string_view kThinRecalled = "ISO 4035 (from memory)";
constexpr std::string_view kOld = "DIN 934 lineage (across flats from memory)";
constexpr std::string_view kOldRecalled = "DIN 934 (from memory)";
constexpr std::string_view kWasher = "ISO 7089, limits of the thickness from memory";
constexpr std::string_view kWasherRecalled = "ISO 7089 (from memory)";
constexpr std::string_view kArmyIgnition = "US Army TM 5-4240-501-14P, ignition chapter";
constexpr std::string_view kArmyCrank = "US Army TM 5-4240-501-14P, crankshaft chapter";
constexpr std::string_view kArticle = "general article on small engines (weak source)";
constexpr std::string_view kSnow1980 = "two-stroke snowmobile shop manual 1980, engine tolerances";
constexpr std::string_view kSnow2004 = "two-stroke snowmobile shop manual 2004, engine dimensions";

constexpr std::array kRegularNuts{
    Nut{5, 4.7, 4.4, 8, kRegularRecalled},     Nut{6, 5.2, 4.9, 10, kRegularRecalled},
    Nut{8, 6.8, 6.44, 13, kRegular},           Nut{10, 8.4, 8.04, 16, kRegular},
    Nut{12, 10.8, 10.37, 18, kRegular},        Nut{14, 12.8, 12.1, 21, kRegularRecalled},
    Nut{16, 14.8, 14.1, 24, kRegular},         Nut{20, 18.0, 16.9, 30, kRegularRecalled},
    Nut{24, 21.5, 20.2, 36, kRegularRecalled},
};
constexpr std::array kThinNuts{
    Nut{5, 2.7, 2.45, 8, kThinRecalled},    Nut{6, 3.2, 2.9, 10, kThinRecalled},
    Nut{8, 4.0, 3.70, 13, kThin},           Nut{10, 5.0, 4.70, 16, kThin},
    Nut{12, 6.0, 5.70, 18, kThin},          Nut{14, 7.0, 6.42, 21, kThinRecalled},
    Nut{16, 8.0, 7.42, 24, kThinRecalled},  Nut{20, 10.0, 9.10, 30, kThinRecalled},
    Nut{24, 12.0, 10.9, 36, kThinRecalled},
};
constexpr std::array kOldNuts{
    Nut{5, 4.0, 0.0, 8, kOldRecalled}, Nut{6, 5.0, 0.0, 10, kOldRecalled},
    Nut{8, 6.5, 0.0, 13, kOld},        Nut{10, 8.0, 0.0, 17, kOld},
    Nut{12, 10.0, 0.0, 19, kOld},      Nut{14, 11.0, 0.0, 22, kOldRecalled},
    Nut{16, 13.0, 0.0, 24, kOld},      Nut{20, 16.0, 0.0, 30, kOldRecalled},
};
constexpr std::array kWashers{
    Washer{5, 5.3, 10, 1.0, 0.9, 1.1, kWasherRecalled},
    Washer{6, 6.4, 12, 1.6, 1.4, 1.8, kWasherRecalled},
    Washer{8, 8.4, 16, 1.6, 1.4, 1.8, kWasher},
    Washer{10, 10.5, 20, 2.0, 1.8, 2.2, kWasher},
    Washer{12, 13.0, 24, 2.5, 2.3, 2.7, kWasherRecalled},
    Washer{14, 15.0, 28, 2.5, 2.3, 2.7, kWasherRecalled},
    Washer{16, 17.0, 30, 3.0, 2.7, 3.3, kWasher},
    Washer{20, 21.0, 37, 3.0, 2.7, 3.3, kWasherRecalled},
};

template <typename Piece, std::size_t n>
Result<Piece> piece_for(const std::array<Piece, n>& pieces, double thread_dia,
                        std::string_view what) {
    const auto* const found = std::find_if(pieces.begin(), pieces.end(), [&](const Piece& piece) {
        return piece.thread_dia == thread_dia;
    });
    if (found != pieces.end()) return *found;
    return Reason{"no " + std::string(what) + " for M" + shown(thread_dia) +
                  " is tabulated; measure it"};
}

}  // namespace

Result<Nut> hexagon_nut(NutKind kind, double thread_dia) {
    switch (kind) {
        case NutKind::thin_iso_4035:
            return piece_for(kThinNuts, thread_dia, "thin nut");
        case NutKind::din_934:
            return piece_for(kOldNuts, thread_dia, "nut DIN 934");
        case NutKind::regular_iso_4032:
            break;
    }
    return piece_for(kRegularNuts, thread_dia, "nut");
}

Result<Washer> plain_washer(double thread_dia) {
    return piece_for(kWashers, thread_dia, "washer");
}

const std::vector<double>& shim_ring_thicknesses() {
    static const std::vector<double> thicknesses{0.1, 0.15, 0.2, 0.3, 0.5, 1.0, 1.1, 1.2,
                                                 1.3, 1.4,  1.5, 1.6, 1.7, 1.8, 1.9, 2.0};
    return thicknesses;
}

const std::vector<ShimSet>& shim_sets() {
    static const std::vector<ShimSet> sets{
        {"shim rings DIN 988", shim_ring_thicknesses(), "DIN 988 (from memory)"},
        {"crank shims, magneto side", {0.15, 0.20, 0.30}, kSnow1980},
        {"crank shims", {0.10, 0.20, 0.30, 0.50}, kSnow2004},
        {"crankcase gaskets",
         {0.005 * kMmPerInch, 0.009 * kMmPerInch, 0.015 * kMmPerInch},
         kArmyCrank},
    };
    return sets;
}

const std::vector<CitedRange>& customary_gaps() {
    static const std::vector<CitedRange> gaps{
        {"rotor to armature, least radial gap", 0.004 * kMmPerInch, 0.004 * kMmPerInch,
         kArmyIgnition},
        {"rotor to bearing support, pushed on", 0.025 * kMmPerInch, 0.025 * kMmPerInch,
         kArmyIgnition},
        {"rim magneto air gap, narrow", 0.006 * kMmPerInch, 0.010 * kMmPerInch, kArticle},
        {"rim magneto air gap, wide", 0.010 * kMmPerInch, 0.014 * kMmPerInch, kArticle},
        {"crank end float, small four-stroke, at most", 0.008 * kMmPerInch, 0.008 * kMmPerInch,
         kArmyCrank},
        {"crank end float, two-stroke 1980", 0.20, 0.40, kSnow1980},
        {"crank end float, two-stroke 2004", 0.10, 0.30, kSnow2004},
        {"crankcase gasket, two-stroke 1980", 0.30, 0.30, kSnow1980},
        {"crankcase gasket, two-stroke 2004, compressed", 0.30, 0.30, kSnow2004},
    };
    return gaps;
}

double shim_for_float(double room, double fill, double end_float) {
    return room - fill - end_float;
}

double shim_rounded_down(double shim, double step) {
    // A shim that is a whole number of steps already may come out a last bit below it.
    constexpr double kRounding = 1e-9;
    return std::floor(shim / step + kRounding) * step;
}

}  // namespace trialfit::trade
