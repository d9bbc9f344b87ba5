// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <string>
#include <string_view>
#include <trialfit/reading/timing/parts.hpp>
#include <trialfit/reading/values.hpp>
#include <unordered_map>
#include <utility>

namespace trialfit::reading {

namespace {

constexpr AcceptedNumber kSpeed{0.0, 1e6, "it is a speed in revolutions per minute"};
constexpr AcceptedNumber kAdvance{-360.0, 360.0, "it is an angle in degrees of crank, at most 360"};
constexpr std::string_view kTop = "top";
constexpr std::string_view kFireAtWord = "fire_at";

void read_points(Reader& reader, const Node& points, job::Curve& curve) {
    constexpr std::string_view kExample = "'[[1000, 25], [4000, 17]]'";
    if (!expect_list(reader, points, "'points'", kExample)) return;
    for (const Node& point : points.children) {
        if (!point.is_list() || point.children.size() != 2) {
            reader.error(point, "a point of a curve is not a speed and an angle",
                         fmt::format("write the points like {}", kExample));
            continue;
        }
        const Node& speed = point.children.front();
        const auto rpm = number_in(reader, &speed, "a speed of the curve", kSpeed);
        const auto degrees =
            number_in(reader, &point.children.back(), "an advance of the curve", kAdvance);
        if (!rpm || !degrees) continue;
        if (!curve.points.empty() && *rpm <= curve.points.back().rpm)
            reader.error(speed,
                         fmt::format("the speed {} does not rise above the one before",
                                     quoted(speed.scalar)),
                         "list the points by rising speed");
        curve.points.push_back({.rpm = *rpm, .degrees = *degrees});
    }
}

// What a curve adds to; `earlier` are the curves listed before it.
void read_on(Reader& reader, const Node* on, const NameIndex& earlier, const job::Timing& timing,
             job::Curve& curve) {
    const std::string word = text_of(reader, on, "what a curve counts from");
    if (word.empty() || word == kTop) return;
    if (word == kFireAtWord) {
        curve.on = job::CurveOn::fire_at;
        if (!timing.fire_at)
            reader.error(*on, "this curve adds to 'fire_at', which is not given",
                         "add 'fire_at: ANGLE' to 'timing', or leave 'counts_from' out for a "
                         "curve counted from the top");
        return;
    }
    curve.on = job::CurveOn::curve;
    curve.on_curve = earlier.find(word);
    if (*curve.on_curve >= 0) return;
    const std::string meant = earlier.nearest(word);
    reader.error(*on, fmt::format("no curve before this one is called {}", quoted(word)),
                 meant.empty()
                     ? "a curve counts from 'top', from 'fire_at' or from a curve listed before it"
                     : fmt::format("did you mean '{}'?", meant));
}

}  // namespace

void read_curves(Reader& reader, const Node& curves, job::Timing& timing) {
    if (!expect_list(reader, curves, "'curves'", "'- {curve: NAME, points: [[1000, 25]]}'")) return;
    NameIndex names;
    std::unordered_map<std::string, job::Place> lines;
    for (const Node& node : curves.children) {
        const Fields fields(reader, node, "this curve", {"curve", "points", "counts_from"},
                            "counts_from");
        job::Curve curve;
        curve.at = reader.place(node);
        curve.name = text_of(reader, fields.need("curve", "curve: NAME"), "the name of a curve");
        if (curve.name == kTop || curve.name == kFireAtWord)
            reader.error(node, fmt::format("a curve cannot be called {}", quoted(curve.name)),
                         "that is what a curve may count from; give it another name");
        if (const Node* points = fields.need("points", "points: [[RPM, ANGLE], [RPM, ANGLE]]"))
            read_points(reader, *points, curve);
        read_on(reader, fields.find("counts_from"), names, timing, curve);
        const auto [first, fresh] = lines.emplace(curve.name, curve.at);
        if (!fresh && !curve.name.empty())
            reader.error(node,
                         fmt::format("there are two curves named {}; the first is in {}",
                                     quoted(curve.name), reader.line_words(first->second)),
                         "give one of them another name");
        names.add(curve.name);
        timing.curves.push_back(std::move(curve));
    }
}

}  // namespace trialfit::reading
