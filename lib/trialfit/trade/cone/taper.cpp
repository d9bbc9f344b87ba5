// SPDX-License-Identifier: MIT
#include <cmath>
#include <numbers>
#include <optional>
#include <string>
#include <trialfit/trade/cone/taper.hpp>
#include <trialfit/trade/reference/written.hpp>

namespace trialfit::trade {

namespace {

constexpr double kRadians = std::numbers::pi / 180.0;

struct Split {
    std::string_view before;
    std::string_view after;
};

// `text` parted at the first `word`, both sides trimmed.
std::optional<Split> split(std::string_view text, std::string_view word) {
    const std::size_t at = text.find(word);
    if (at == std::string_view::npos) return {};
    return Split{trimmed(text.substr(0, at)), trimmed(text.substr(at + word.size()))};
}

std::optional<double> positive(std::string_view text) {
    const auto value = decimal_or_fraction(text);
    if (!value || *value <= 0.0) return {};
    return value;
}

std::optional<double> per_foot(std::string_view text) {
    for (const std::string_view words : {"in per ft", "in/ft", "inch per foot", "in per foot"}) {
        const auto parts = split(text, words);
        if (!parts || !parts->after.empty()) continue;
        const auto inches = positive(parts->before);
        if (inches) return taper_of_per_foot(*inches);
    }
    return {};
}

std::optional<double> two_ends(std::string_view text) {
    const auto outer = split(text, " over ");
    if (!outer) return {};
    const auto ends = split(outer->before, " to ");
    const auto length = positive(outer->after);
    if (!ends || !length) return {};
    const auto start = positive(ends->before);
    const auto end = positive(ends->after);
    if (!start || !end) return {};
    return std::abs(taper_of_ends(*start, *end, *length));
}

std::optional<double> by_angle(std::string_view text) {
    const auto parts = split(text, "deg");
    if (!parts) return {};
    const auto angle = positive(parts->before);
    if (!angle || (parts->after != "included" && parts->after != "half")) return {};
    const double half_deg = parts->after == "half" ? *angle : *angle / 2.0;
    if (half_deg >= 90.0) return {};
    return taper_of_half_angle_deg(half_deg);
}

std::optional<double> one_in(std::string_view text) {
    for (const std::string_view word : {":", " in "}) {
        const auto parts = split(text, word);
        if (!parts) continue;
        const auto diameter = positive(parts->before);
        const auto length = positive(parts->after);
        if (diameter && length) return *diameter / *length;
    }
    return {};
}

}  // namespace

Result<double> taper(std::string_view written) {
    const std::string_view text = trimmed(written);
    const std::string quoted = "'" + std::string(text) + "'";
    std::optional<double> found = decimal(text);
    for (const auto& reader : {one_in, per_foot, two_ends, by_angle})
        if (!found) found = reader(text);
    if (!found || !std::isfinite(*found))
        return Reason{quoted +
                      " is no taper; write 1 in 5, 1:5, 0.2, 1.5 in per ft, 14 to 20 over 29 or "
                      "11.42 deg included"};
    if (*found == 0.0)
        return Reason{quoted + " does not taper at all; a cone needs a taper other than 0"};
    if (std::abs(*found) > kSteepestTaper)
        return Reason{quoted + " is " + shown(*found) +
                      " of diameter per length, steeper than 90 degrees included; was the ratio "
                      "turned round (1 in 5 is 0.2)?"};
    return *found;
}

double taper_of_ends(double start, double end, double length) {
    return (start - end) / length;
}

double taper_of_half_angle_deg(double half_deg) {
    return 2.0 * std::tan(half_deg * kRadians);
}

double taper_of_per_foot(double inches_per_foot) {
    return inches_per_foot / 12.0;
}

double per_foot_of_discs(double large, double small, double distance) {
    const double k = (large - small) / (2.0 * distance);
    return 24.0 * k / std::sqrt(1.0 - k * k);
}

double disc_distance(double large, double small, double inches_per_foot) {
    const double tangent = inches_per_foot / 24.0;
    const double sine = tangent / std::hypot(1.0, tangent);
    return (large - small) / (2.0 * sine);
}

TaperFigures taper_figures(double taper) {
    TaperFigures figures;
    figures.taper = taper;
    figures.one_in = 1.0 / taper;
    figures.half_deg = std::atan(taper / 2.0) / kRadians;
    figures.included_deg = 2.0 * figures.half_deg;
    figures.per_foot_in = 12.0 * taper;
    figures.travel_per_diameter = 1.0 / taper;
    figures.self_holding_friction = taper / 2.0;
    return figures;
}

double travel_for_diameter(double taper, double diameter_change) {
    return diameter_change / taper;
}

double diameter_for_travel(double taper, double travel) {
    return travel * taper;
}

double radial_gap_at(double taper, double stand_off) {
    return stand_off * taper / 2.0;
}

double key_stand_off(double taper, double excess) {
    return 2.0 * excess / taper;
}

double diameter_for_half_angle_error(double taper, double half_error_deg, double contact_length) {
    const double half = std::atan(taper / 2.0);
    return 2.0 * contact_length * (std::tan(half + half_error_deg * kRadians) - std::tan(half));
}

}  // namespace trialfit::trade
