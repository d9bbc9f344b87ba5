// SPDX-License-Identifier: MIT
#include <published/formulas.hpp>

#include <trialfit/trade/cone/taper.hpp>
#include <trialfit/trade/strength/materials.hpp>
#include <trialfit/trade/strength/thermal.hpp>

using namespace trialfit::trade;
using namespace trialfit::testing;

namespace {

double expansion_of(const std::string& name) {
    return value_of(material(name)).expansion_per_k.value().value;
}

Figures properties(Given& given) {
    const Material found = value_of(material(given.word("material")));
    Figures figures;
    const auto put = [&](const char* name, const std::optional<Cited>& cited, double unit) {
        if (!cited) return;
        figures[name] = cited->value / unit;
        CHECK_MESSAGE(!cited->source.empty(), name);
    };
    put("expansion_1e6", found.expansion_per_k, 1e-6);
    put("density", found.density_kg_m3, 1.0);
    put("modulus", found.modulus_mpa, 1.0);
    put("poisson", found.poisson, 1.0);
    return figures;
}

Figures held_bar(Given& given) {
    const double length = given("length");
    const double expansion = given("expansion_1e6") * 1e-6;
    const double warming = given("warming_k");
    const double modulus = given("modulus");
    return {{"growth", thermal_growth(length, expansion, warming)},
            {"stress", held_bar_stress_mpa(length, expansion, warming, modulus, 0.0)},
            {"stress_with_room",
             held_bar_stress_mpa(length, expansion, warming, modulus, given("room"))},
            {"room_for_stress",
             room_for_stress(length, expansion, warming, modulus, given("allowed", 0.0))}};
}

Figures rod_in_tube(Given& given) {
    constexpr double kQuarterPi = 0.78539816339744830962;
    const double bore = given("tube_od") - 2.0 * given("tube_wall");
    const double rod = given("rod_dia");
    const TiedBar copper{kQuarterPi * rod * rod, given("rod_modulus"),
                         given("rod_expansion_1e6") * 1e-6};
    const TiedBar steel{kQuarterPi * (given("tube_od") * given("tube_od") - bore * bore),
                        given("tube_modulus"), given("tube_expansion_1e6") * 1e-6};
    const double warming = given("warming_k");
    const double length = given("length");
    const TiedStress stress = value_of(tied_bars(copper, steel, warming));
    return {{"area_ratio", copper.area_mm2 / steel.area_mm2},
            {"rod_stress", stress.more_mpa},
            {"tube_stress", stress.less_mpa},
            {"growth", stress.strain * length},
            {"rod_free", thermal_growth(length, copper.expansion_per_k, warming)},
            {"tube_free", thermal_growth(length, steel.expansion_per_k, warming)}};
}

Figures difference(Given& given) {
    const double length = given("length");
    const double warming = given("warming_k");
    const double more = thermal_growth(length, expansion_of(given.word("of")), warming) -
                        thermal_growth(length, expansion_of(given.word("against")), warming);
    Figures figures{{"um", more * 1e3}, {"mm", more}};
    if (given.has("one_in")) figures["axial"] = travel_for_diameter(1.0 / given("one_in"), more);
    return figures;
}

TEST_CASE("materials expand as the books say") {
    check_formulas("trade_thermal.yaml", {{"properties", properties},
                                          {"held bar", held_bar},
                                          {"rod in tube", rod_in_tube},
                                          {"difference", difference}});
}

}  // namespace
