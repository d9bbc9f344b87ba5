// SPDX-License-Identifier: MIT
#include <cmath>
#include <trialfit/trade/cone/taper.hpp>
#include <trialfit/trade/reference/kinds.hpp>
#include <trialfit/trade/reference/written.hpp>

// Tables of tapers: cone, taper.
namespace trialfit::trade {

namespace {

constexpr std::string_view kGeometry = "geometry; ISO 3040:2016, clause 3";

constexpr double kMinute_deg = 1.0 / 60.0;
constexpr double kBearing_mm = 20.0;  // a length of cone such as small engines have

Reference of_taper(double taper) {
    const TaperFigures figures = taper_figures(taper);
    Reference out;
    const double travel = std::abs(travel_for_diameter(taper, kHundredth_mm));
    const double by_angle =
        std::abs(diameter_for_half_angle_error(taper, kMinute_deg, kBearing_mm));
    // Three figures say it; the row has them all.
    const double rounded = std::round(travel * 1e4) / 1e4;
    out.answer = "0.01 mm on the diameter is " + shown(rounded) + " mm along the cone.";
    out.rows = {
        figure("taper, diameter per length", figures.taper, "", kGeometry),
        figure("1 in", figures.one_in, "", kGeometry),
        figure("angle, axis to side", figures.half_deg, "deg", kGeometry),
        figure("angle, side to side", figures.included_deg, "deg", kGeometry),
        figure("inches of diameter per foot", figures.per_foot_in, "in", "12 inches to the foot"),
        figure("travel along it for 0.01 mm on the diameter", travel, "mm", "1 / taper"),
        figure("diameter for 1 mm along it", std::abs(diameter_for_travel(taper, 1.0)), "mm",
               kGeometry),
        figure("gap all round, hub 1 mm off its seat", std::abs(radial_gap_at(taper, 1.0)), "mm",
               kGeometry),
        figure("stand-off for a key 0.01 mm too high, floors along the cone",
               std::abs(key_stand_off(taper, kHundredth_mm)), "mm", "2 / taper"),
        figure("friction above which it holds by itself", std::abs(figures.self_holding_friction),
               "", "tangent of the angle, axis to side"),
        figure("diameter that a minute of error in the side's angle makes over 20 mm", by_angle,
               "mm", kGeometry),
        figure("stand-off for that", std::abs(travel_for_diameter(taper, by_angle)), "mm",
               "1 / taper"),
    };
    return out;
}

// Two discs that the cone touches, with the distance of their centres, or with the taper.
Result<Reference> discs_reference(const QueryWords& words) {
    constexpr std::string_view kDiscs = "Machinery's Handbook, 31st ed., p. 701";
    const auto large = words.size() < 3 ? std::nullopt : length_mm(words[0]);
    const auto small = words.size() < 3 ? std::nullopt : length_mm(words[1]);
    if (!large || !small || !(*large > *small))
        return ask_like(
            "discs are the larger, the smaller, and the distance of their centres or the taper "
            "(taper discs 40 30 120)",
            "taper");
    const std::string last = joined(QueryWords(words.begin() + 2, words.end()));
    if (const auto distance = length_mm(last)) {
        if (!(*distance > (*large - *small) / 2.0))
            return Reason{"discs as near as " + last + " lie in one another"};
        const double found = taper_of_per_foot(per_foot_of_discs(*large, *small, *distance));
        if (found > kSteepestTaper)
            return Reason{"a taper of " + shown(found) + " is steeper than 90 degrees"};
        return of_taper(found);
    }
    const auto given = taper(last);
    if (!given) return given.why();
    const double per_foot = std::abs(taper_figures(*given).per_foot_in);
    Reference out = of_taper(*given);
    out.rows.insert(
        out.rows.begin(),
        figure("discs' centres apart", disc_distance(*large, *small, per_foot), "mm", kDiscs));
    return out;
}

}  // namespace

Result<Reference> cone_reference(const QueryWords& words) {
    if (words.empty()) return ask_like("no taper is given", "cone");
    const auto found = taper(joined(words));
    if (!found) return found.why();
    return of_taper(*found);
}

Result<Reference> taper_reference(const QueryWords& words) {
    if (!words.empty() && words.front() == "discs")
        return discs_reference(QueryWords(words.begin() + 1, words.end()));
    if (words.size() != 3)
        return ask_like("a taper is two diameters and the length between them", "taper");
    std::vector<double> lengths;
    for (const std::string& each : words) {
        const auto length = length_mm(each);
        if (!length) return ask_like("'" + each + "' is no length", "taper");
        lengths.push_back(*length);
    }
    const double found = std::abs(taper_of_ends(lengths[0], lengths[1], lengths[2]));
    if (found == 0.0) return Reason{"both diameters are the same: that is no cone"};
    if (found > kSteepestTaper)
        return Reason{"a taper of " + shown(found) +
                      " is steeper than 90 degrees; the length comes last"};
    return of_taper(found);
}

}  // namespace trialfit::trade
