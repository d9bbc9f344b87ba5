// SPDX-License-Identifier: MIT
#include <published/formulas.hpp>

#include <trialfit/trade/cone/key.hpp>
#include <trialfit/trade/cone/shaft_end.hpp>
#include <trialfit/trade/fastening/hardware.hpp>

using namespace trialfit::trade;
using namespace trialfit::testing;

namespace {

Figures shaft_end(Given& given) {
    const ConicalShaftEnd end = value_of(conical_shaft_end(given("dia")));
    if (given.has("thread")) CHECK(end.thread == given.word("thread"));
    return {{"l1", end.length},        {"l2", end.cone_length},    {"l3", end.thread_length},
            {"mid", end.mid_dia},      {"small", end.small_dia},   {"key_b", end.key_width},
            {"key_h", end.key_height}, {"t1", end.key_shaft_depth}};
}

Figures parallel(Given& given) {
    const ParallelKey key = value_of(parallel_key(given("shaft")));
    return {{"b", key.width},
            {"h", key.height},
            {"t1", key.shaft_depth},
            {"t2", key.hub_depth},
            {"over_top", -key_excess(key.height, key.shaft_depth, key.hub_depth)}};
}

Figures woodruff(Given& given) {
    const WoodruffKey key = value_of(woodruff_key(given("b"), given("h")));
    return {{"dia", key.disc_dia},
            {"length", value_of(woodruff_length(key.height, key.disc_dia))},
            {"t1", key.shaft_depth},
            {"t2", key.hub_depth}};
}

Figures inch_woodruff(Given& given) {
    constexpr double kInch = 25.4;
    const double dia = given("dia_in");
    const WoodruffKey key = value_of(inch_woodruff_key(given("b_in") * kInch, dia * kInch));
    return {{"height", key.height / kInch},
            {"shaft", key.shaft_depth / kInch},
            {"hub", key.hub_depth / kInch}};
}

Figures nut(Given& given) {
    const std::map<std::string, NutKind> kinds{{"ISO 4032", NutKind::regular_iso_4032},
                                               {"ISO 4035", NutKind::thin_iso_4035},
                                               {"DIN 934", NutKind::din_934}};
    const Nut found = value_of(hexagon_nut(kinds.at(given.word("kind")), given("d")));
    return {{"max", found.height_max}, {"min", found.height_min}, {"flats", found.across_flats}};
}

Figures washer(Given& given) {
    const Washer found = value_of(plain_washer(given("d")));
    return {{"bore", found.bore},
            {"od", found.od},
            {"thickness", found.thickness},
            {"min", found.thickness_min},
            {"max", found.thickness_max}};
}

Figures gap(Given& given) {
    const std::string name = given.word("of");
    for (const CitedRange& range : customary_gaps())
        if (range.what == name)
            return {{"lower", range.lower},
                    {"upper", range.upper},
                    {"lower_in", range.lower / 25.4},
                    {"upper_in", range.upper / 25.4}};
    throw std::runtime_error("no gap named " + name);
}

Figures shims(Given& given) {
    const std::string name = given.word("of");
    for (const ShimSet& set : shim_sets()) {
        if (set.what != name) continue;
        Figures figures{{"how_many", static_cast<double>(set.thicknesses.size())}};
        for (std::size_t i = 0; i < set.thicknesses.size(); ++i) {
            figures["t" + std::to_string(i + 1)] = set.thicknesses[i];
            figures["t" + std::to_string(i + 1) + "_in"] = set.thicknesses[i] / 25.4;
        }
        return figures;
    }
    throw std::runtime_error("no shims named " + name);
}

Figures end_float(Given& given) {
    const double room = given("half_one") + given("half_two") + given("gasket");
    const double fill = given("bearings") + given("shoulders") + given("fixed_shims", 0.0);
    Figures figures{{"room", room}, {"fill", fill}};
    if (given.has("wanted_least")) {
        figures["shim_most"] = shim_for_float(room, fill, given("wanted_least"));
        figures["shim_least"] = shim_for_float(room, fill, given("wanted_most"));
    }
    if (given.has("shim")) figures["float"] = shim_for_float(room, fill, given("shim"));
    return figures;
}

Figures rounded(Given& given) {
    return {{"shim", shim_rounded_down(given("shim"), given("step"))}};
}

TEST_CASE("keys, nuts, washers, shims and shaft ends are as published") {
    check_formulas("trade_hardware.yaml", {{"shaft end", shaft_end},
                                           {"parallel key", parallel},
                                           {"Woodruff key", woodruff},
                                           {"inch Woodruff key", inch_woodruff},
                                           {"nut", nut},
                                           {"washer", washer},
                                           {"gap", gap},
                                           {"shims", shims},
                                           {"end float", end_float},
                                           {"rounded shim", rounded}});
}

}  // namespace
