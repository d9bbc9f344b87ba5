// SPDX-License-Identifier: MIT
#include <published/formulas.hpp>

#include <trialfit/quantity/size.hpp>
#include <trialfit/trade/shop/lathe.hpp>

using namespace trialfit::trade;
using namespace trialfit::testing;

namespace {

Figures range_named(const std::vector<CitedRange>& ranges, const std::string& name) {
    for (const CitedRange& range : ranges) {
        if (range.what != name) continue;
        CHECK(!range.source.empty());
        return {{"lower", range.lower},
                {"upper", range.upper},
                {"lower_in", range.lower / 25.4},
                {"upper_in", range.upper / 25.4}};
    }
    throw std::runtime_error("no range named " + name);
}

Figures cuts(Given& given) {
    return range_named(facing_cuts(), given.word("of"));
}
Figures grades(Given& given) {
    return range_named(process_grades(), given.word("of"));
}

Figures habits(Given& given) {
    const CitedRange least = least_cut(given("edge_radius"));
    return {{"depth", customary_depth(given("feed"))},
            {"unsupported", unsupported_length(given("dia"))},
            {"least_lower", least.lower},
            {"least_upper", least.upper}};
}

Figures surface(Given& given) {
    const SurfaceHeight height = value_of(surface_height(given("feed"), given("nose_radius")));
    return {{"usual_um", height.usual * 1e3}, {"exact_um", height.exact * 1e3}};
}

Figures sharp(Given& given) {
    return {{"height", value_of(sharp_tool_height(given("feed"), given("side"), given("end")))}};
}

Figures instrument(Given& given) {
    const std::map<std::string, Instrument> kinds{{"vernier caliper", Instrument::vernier_caliper},
                                                  {"fine caliper", Instrument::fine_caliper},
                                                  {"micrometer", Instrument::micrometer},
                                                  {"dial gauge", Instrument::dial_gauge}};
    const Reach reach = given.has("inside") ? Reach::inside_or_depth : Reach::outside;
    if (given.has("inside")) given.word("inside");
    const Cited limit =
        value_of(instrument_limit(kinds.at(given.word("of")), given("length", 0.0), reach));
    CHECK(!limit.source.empty());
    return {{"um", limit.value * 1e3},
            {"standard_um", trialfit::quantity::reading(0.0, limit.value).sd() * 1e3}};
}

TEST_CASE("lathe work and instruments are as published") {
    check_formulas("trade_lathe.yaml", {{"cut", cuts},
                                        {"grades", grades},
                                        {"habits", habits},
                                        {"surface", surface},
                                        {"sharp tool", sharp},
                                        {"instrument", instrument}});
}

}  // namespace
