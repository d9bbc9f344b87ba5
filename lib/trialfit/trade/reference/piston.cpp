// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <trialfit/trade/engine/crank_slider.hpp>
#include <trialfit/trade/engine/timing_point.hpp>
#include <trialfit/trade/engine/timing_top.hpp>
#include <trialfit/trade/reference/kinds.hpp>
#include <trialfit/trade/reference/written.hpp>

// The table of a piston's height and the crank's angle.
namespace trialfit::trade {

namespace {

constexpr std::string_view kKind = "piston";
constexpr std::string_view kHeywood = "Heywood, Internal Combustion Engine Fundamentals, eq. 2.6";
constexpr std::string_view kPlainGeometry = "geometry";

struct Asked {
    double stroke = 0.0;
    double rod = 0.0;
    double offset = 0.0;
    double tilt_deg = 0.0;
    bool in_degrees = false;
    double at = 0.0;
    std::optional<double> rpm;
};

std::optional<double> angle(std::string_view written) {
    const std::string_view text = trimmed(written);
    if (!text.ends_with("deg")) return {};
    return decimal(trimmed(text.substr(0, text.size() - 3)));
}

// `1.4 mm` and `1.4mm` are the same: a unit goes to the number before it.
QueryWords with_units_joined(const QueryWords& words) {
    QueryWords out;
    for (const std::string& each : words) {
        const bool unit = each == "mm" || each == "in" || each == "um" || each == "thou" ||
                          each == "deg" || each == "rpm";
        if (unit && !out.empty()) {
            out.back() += each;
        } else {
            out.push_back(each);
        }
    }
    return out;
}

// `offset 0.5` and `tilt 15deg`, in any order; the speed was taken out before.
std::optional<Reason> read_extras(const QueryWords& words, Asked& asked) {
    for (std::size_t i = 3; i < words.size(); i += 2) {
        const bool offset = words[i] == "offset";
        if ((!offset && words[i] != "tilt") || i + 1 == words.size())
            return ask_like(
                "'" + words[i] + "' is neither 'offset 0.5', 'tilt 15deg' nor '5000rpm'", kKind);
        const std::string& given = words[i + 1];
        const bool negative = given.starts_with('-');
        const auto value =
            offset ? length_mm(std::string_view(given).substr(negative ? 1 : 0)) : angle(given);
        if (!value) return ask_like("'" + given + "' is no " + words[i], kKind);
        (offset ? asked.offset : asked.tilt_deg) = offset && negative ? -*value : *value;
    }
    return {};
}

Result<Asked> asked_of(QueryWords words) {
    std::optional<double> rpm;
    std::erase_if(words, [&](const std::string& each) {
        const auto found = with_unit(each, "rpm");
        if (found) rpm = found;
        return found.has_value();
    });
    if (words.size() < 3) return ask_like("a piston is stroke, rod and a height or angle", kKind);
    Asked asked;
    asked.rpm = rpm;
    const auto stroke = length_mm(words[0]);
    if (!stroke) return ask_like("'" + words[0] + "' is no stroke", kKind);
    const auto rod = length_mm(words[1]);
    if (!rod) return ask_like("'" + words[1] + "' is no rod", kKind);
    asked.stroke = *stroke;
    asked.rod = *rod;
    const std::string& at = words[2];
    if (decimal(at))
        return Reason{"'" + at + "' may be a height or an angle; write '" + at + "mm' or '" + at +
                      "deg'"};
    const auto degrees = angle(at);
    const auto height = length_mm(at);
    if (!degrees && !height) return ask_like("'" + at + "' is neither height nor angle", kKind);
    asked.in_degrees = degrees.has_value();
    asked.at = degrees ? *degrees : *height;
    if (const auto reason = read_extras(words, asked)) return *reason;
    return asked;
}

// Three figures for a sentence.
std::string brief(double value, double steps) {
    return shown(std::round(value * steps) / steps);
}

void add_point(Reference& out, const Asked& asked, const Crank& crank, double before,
               double height) {
    out.rows.push_back(figure("crank angle before the top", before, "deg", kHeywood));
    if (asked.offset != 0.0 && !asked.in_degrees)
        if (const auto after = degrees_from_top(crank, height, StrokeSide::after_top))
            out.rows.push_back(figure("crank angle after the top", *after, "deg", kHeywood));
    out.rows.push_back(figure("piston below its top", height, "mm", kHeywood));
    constexpr double kNothing = 1e-12;  // mm for a degree: the rounding of a piston that stands
    constexpr double kStraight = 0.5;   // of the way to where it stands
    const double moves = std::abs(crank_motion(crank, -before, 0.0).mm_per_deg);
    const double slope = moves < kNothing ? 0.0 : moves;
    out.rows.push_back(figure("piston travel for one degree there", slope, "mm", kHeywood));
    // Where the piston all but stands, a straight line says many times too much.
    const double bottom = 360.0 - down_stroke_deg(crank);
    const double from_rest = std::min(before, std::abs(bottom - before));
    if (kHundredth_mm < slope * kStraight * from_rest)
        out.rows.push_back(
            figure("crank angle for 0.01 mm there", kHundredth_mm / slope, "deg", kHeywood));
    if (const auto dwell = top_by_dwell(crank, kHundredth_mm))
        out.rows.push_back(figure("crank angle within 0.01 mm of the top, each side",
                                  std::max(dwell->before_deg, dwell->after_deg), "deg", kHeywood));
}

void add_speeds(Reference& out, const Crank& crank, double before, double rpm) {
    const FastestPiston fastest = fastest_piston(crank, rpm);
    out.rows.push_back(figure("piston speed there",
                              std::abs(crank_motion(crank, -before, rpm).speed_m_s), "m/s",
                              kHeywood));
    out.rows.push_back(figure("greatest piston speed", fastest.motion.speed_m_s, "m/s", kHeywood));
    out.rows.push_back(
        figure("crank angle after the top at that", fastest.after_top_deg, "deg", kHeywood));
}

}  // namespace

Result<Reference> piston_reference(const QueryWords& words) {
    const auto asked = asked_of(with_units_joined(words));
    if (!asked) return asked.why();
    const auto crank = crank_of(asked->stroke, asked->rod, asked->offset);
    if (!crank) return crank.why();
    if (asked->in_degrees && (asked->at < 0.0 || asked->at > 180.0))
        return Reason{"the crank angle before the top is 0 to 180 degrees"};
    const double height = asked->in_degrees ? piston_drop(*crank, -asked->at) : asked->at;
    const auto before = degrees_from_top(*crank, height, StrokeSide::before_top);
    if (!asked->in_degrees && !before) return before.why();
    const double degrees = asked->in_degrees ? asked->at : *before;
    const auto reading = gauge_reading(height, asked->tilt_deg);
    if (!reading) return reading.why();
    Reference out;
    out.answer =
        brief(height, 1e3) + " mm below the top is " + brief(degrees, 1e2) + " degrees before it.";
    add_point(out, *asked, *crank, degrees, height);
    if (asked->rpm) add_speeds(out, *crank, degrees, *asked->rpm);
    if (asked->tilt_deg != 0.0)
        out.rows.push_back(
            figure("gauge in the tilted plug hole reads", *reading, "mm", kPlainGeometry));
    return out;
}

}  // namespace trialfit::trade
