// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <trialfit/trade/domain.hpp>
#include <trialfit/trade/engine/crank_slider.hpp>
#include <trialfit/trade/reference/written.hpp>
#include <trialfit/trade/strength/rotor.hpp>

namespace trialfit::trade {
namespace {

constexpr double kDegree = std::numbers::pi / 180.0;

double square(double value) {
    return value * value;
}

// Heights of the pin over the crank's axis. Differences of squares, not squares, so that a rod
// hardly longer than the radius loses nothing.
double height_at(double reach, double offset) {
    return std::sqrt((reach - offset) * (reach + offset));
}
double top_height(const Crank& c) {
    return height_at(c.rod + c.radius, c.offset);
}
double bottom_height(const Crank& c) {
    return height_at(c.rod - c.radius, c.offset);
}

double top_q(const Crank& c) {
    return std::atan2(c.offset, top_height(c));
}

// The two parts of the angle: the crank pin stands `opening` to either side of the line from the
// crank's axis to the piston's pin, and that line leans `lean` from where it was at the top.
struct Opening {
    double lean = 0.0;
    double opening = 0.0;
};

// With A = sqrt(e^2 + s^2): sin^2(opening/2) = (L+R-A)(L-R+A)/(4RA), cos^2 = (A+R-L)(A+R+L)/(4RA).
// Both factors that vanish, at the top and at the bottom, are taken from the drop itself, because
// (L+R)^2 - A^2 = x (2 s_top - x); subtracting lengths would cost half the digits there.
Opening opening_at(const Crank& c, double drop) {
    const double top = top_height(c);
    const double bottom = bottom_height(c);
    const double rise = std::max(stroke_of(c) - drop, 0.0);
    const double pin = top - drop;
    const double a = std::hypot(c.offset, pin);
    const double from_top = drop * (2.0 * top - drop) / (c.rod + c.radius + a);
    const double from_bottom = rise * (2.0 * bottom + rise) / (a + c.rod - c.radius);
    const double sine = std::sqrt(from_top * (c.rod - c.radius + a));
    const double cosine = std::sqrt(from_bottom * (c.rod + c.radius + a));
    return {std::atan2(c.offset * drop, square(c.offset) + pin * top),
            2.0 * std::atan2(sine, cosine)};
}

double angle_at(const Crank& c, double drop, StrokeSide side) {
    const Opening at = opening_at(c, drop);
    return side == StrokeSide::after_top ? at.opening + at.lean : at.opening - at.lean;
}

Domain drop_domain(const Crank& crank, double drop) {
    const double stroke = stroke_of(crank);
    Domain domain = Domain().not_negative("piston height below the top", drop);
    constexpr double kRounding =
        1e-12;  // of the stroke, which an offset pin's crank only gives back
    if (drop <= stroke * (1.0 + kRounding)) return domain;
    return domain.that(false, "a piston height of " + shown(drop) +
                                  " below the top lies beyond the stroke of " + shown(stroke));
}

}  // namespace

Result<Crank> crank_of_radius(double radius, double rod, double offset) {
    Domain domain = Domain().positive("stroke", 2.0 * radius).positive("rod", rod);
    if (domain && !(rod > radius + std::abs(offset)))
        domain.that(false, "the rod (" + shown(rod) +
                               ") must be longer than half the stroke plus the offset (" +
                               shown(radius + std::abs(offset)) + ")");
    if (!domain) return domain.why();
    return Crank{radius, rod, offset};
}

Result<Crank> crank_of(double stroke, double rod, double offset) {
    Result<Crank> nearly = crank_of_radius(stroke / 2.0, rod, offset);
    if (!nearly || offset == 0.0) return nearly;
    const double upper = 4.0 * (rod - offset) * (rod + offset) - square(stroke);
    const double lower = (2.0 * rod - stroke) * (2.0 * rod + stroke);
    return crank_of_radius(stroke / 2.0 * std::sqrt(upper / lower), rod, offset);
}

double stroke_of(const Crank& c) {
    // 4 L R / (s_top + s_bottom): the difference of the heights without their cancelling.
    return 4.0 * c.rod * c.radius / (top_height(c) + bottom_height(c));
}

double top_q_deg(const Crank& crank) {
    return top_q(crank) / kDegree;
}

double bottom_q_deg(const Crank& crank) {
    return 180.0 + std::atan2(crank.offset, bottom_height(crank)) / kDegree;
}

double down_stroke_deg(const Crank& crank) {
    return bottom_q_deg(crank) - top_q_deg(crank);
}

double piston_drop(const Crank& c, double after_top_deg) {
    const double t = after_top_deg * kDegree;
    const double q = top_q(c) + t;
    const double aside = c.radius * std::sin(q) - c.offset;
    const double level = height_at(c.rod, aside);
    const double swung = 4.0 * c.radius * (c.rod + c.radius) * square(std::sin(t / 2.0));
    return swung / (top_height(c) - c.radius * std::cos(q) + level);
}

Result<double> degrees_from_top(const Crank& crank, double drop, StrokeSide side) {
    if (const Domain domain = drop_domain(crank, drop); !domain) return domain.why();
    return angle_at(crank, drop, side) / kDegree;
}

double drop_of_half_span(const Crank& c, double half_span_deg) {
    const double half = half_span_deg * kDegree;
    const double reach = c.rod + c.radius;
    const double level = height_at(c.rod, c.radius * std::sin(half));
    const double a = c.radius * std::cos(half) + level;
    // L+R-A as in piston_drop, then x from (L+R)^2 - A^2 = s_top^2 - s^2 = x (s_top + s).
    const double fallen = 4.0 * c.radius * reach * square(std::sin(half / 2.0)) /
                          (reach - c.radius * std::cos(half) + level);
    return fallen * (reach + a) / (top_height(c) + height_at(a, c.offset));
}

CrankMotion crank_motion(const Crank& c, double after_top_deg, double rpm) {
    const double q = top_q(c) + after_top_deg * kDegree;
    const double w = radians_per_second(rpm);
    const double aside = c.radius * std::sin(q) - c.offset;
    const double aside_1 = c.radius * std::cos(q);
    const double aside_2 = -c.radius * std::sin(q);
    const double level = height_at(c.rod, aside);
    const double slope = c.radius * std::sin(q) + aside * aside_1 / level;
    const double curve = c.radius * std::cos(q) + (square(aside_1) + aside * aside_2) / level +
                         square(aside * aside_1) / (level * square(level));
    CrankMotion motion;
    motion.drop = piston_drop(c, after_top_deg);
    motion.mm_per_deg = slope * kDegree;
    motion.speed_m_s = slope * w * 1e-3;
    motion.acceleration_m_s2 = curve * w * w * 1e-3;
    motion.rod_angle_deg = std::atan2(aside, level) / kDegree;
    motion.rod_rate_rad_s = aside_1 / level * w;
    return motion;
}

FastestPiston fastest_piston(const Crank& crank, double rpm) {
    double early = 0.0;
    double late = down_stroke_deg(crank);
    constexpr int kHalvings = 60;
    for (int i = 0; i < kHalvings; ++i) {
        const double middle = early + (late - early) / 2.0;
        (crank_motion(crank, middle, 1.0).acceleration_m_s2 > 0.0 ? early : late) = middle;
    }
    return {early, crank_motion(crank, early, rpm)};
}

}  // namespace trialfit::trade
