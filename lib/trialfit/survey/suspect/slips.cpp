// SPDX-License-Identifier: MIT
#include <cmath>
#include <trialfit/survey/suspect/slips.hpp>
#include <vector>

namespace trialfit::survey {

namespace {

// A slip is recognised when the error lies within this many sd of it.
constexpr double kAlike = 2.0;

struct Misreading {
    double by;  // in the file's unit
    Slip slip;
};

// The usual misreadings of a caliper and of an inch micrometer (common practice, no source).
std::vector<Misreading> misreadings_in(quantity::Unit unit) {
    using Kind = Slip::Kind;
    const bool inches = unit == quantity::Unit::inch || unit == quantity::Unit::thou;
    const auto misread = [&](double by, Kind kind = Kind::misread) {
        const quantity::Unit read_in = inches ? quantity::Unit::inch : quantity::Unit::mm;
        return Misreading{.by = quantity::convert(by, read_in, unit),
                          .slip = {.kind = kind, .by = by, .inches = inches}};
    };
    if (inches) return {misread(0.025, Kind::turn_of_thimble), misread(0.1), misread(0.05)};
    return {misread(1.0), misread(0.5), misread(10.0)};
}

}  // namespace

std::optional<Slip> slip_of(const Suspect& suspect, double is, double sd, quantity::Unit unit) {
    const double should = suspect.should_be;
    for (const Misreading& each : misreadings_in(unit))
        if (std::abs(std::abs(suspect.off_by) - each.by) <= kAlike * sd) return each.slip;
    if (std::abs(is + should) <= kAlike * sd) return Slip{.kind = Slip::Kind::wrong_sign};
    if (std::abs(is * quantity::kMmPerInch - should) <= kAlike * sd)
        return Slip{.kind = Slip::Kind::inch_as_mm};
    if (std::abs(is / quantity::kMmPerInch - should) <= kAlike * sd)
        return Slip{.kind = Slip::Kind::mm_as_inch};
    return std::nullopt;
}

}  // namespace trialfit::survey
