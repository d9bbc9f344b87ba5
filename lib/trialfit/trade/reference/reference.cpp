// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <trialfit/quantity/nearest.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/trade/reference/kinds.hpp>
#include <trialfit/trade/reference/reference.hpp>
#include <trialfit/trade/reference/written.hpp>
#include <utility>

namespace trialfit::trade {

namespace {

struct Entry {
    ReferenceKind kind;
    Result<Reference> (*look_up)(const QueryWords&);
};

const std::vector<Entry>& entries() {
    static const std::vector<Entry> all{
        {{"thread", "thread M10x1.25-6g", "limits, areas and engagement of a thread"},
         thread_reference},
        {{"fit", "fit 25H7/g6", "limits and clearance of a hole and a shaft"}, fit_reference},
        {{"size", "size 17k5", "limits of a size by its tolerance class"}, size_reference},
        {{"general", "general 12.5 m", "general tolerance of a bare length"}, general_reference},
        {{"cone", "cone 1:5", "angles of a taper, and travel along it"}, cone_reference},
        {{"taper", "taper 14 20 29", "the same from two diameters and a length"}, taper_reference},
        {{"shim", "shim", "thicknesses in which shims are made"}, shim_reference},
        {{"material", "material aluminium", "properties of a material"}, material_reference},
        {{"piston", "piston 43 87 1.4mm", "stroke, rod and a height or an angle (17deg)"},
         piston_reference},
        {{"nut", "nut M10", "sizes of nuts and of the plain washer"}, nut_reference},
        {{"key", "key 17", "parallel key for a shaft; Woodruff key (key 3x5)"}, key_reference},
        {{"bolt", "bolt M10 8.8", "strength and loads of a bolt by its class"}, bolt_reference},
        {{"engagement", "engagement M10 8.8", "least thread in steel, cast iron and aluminium"},
         engagement_reference},
        {{"shrink", "shrink 25 40 0.02", "stresses of a hub shrunk on a straight shaft"},
         shrink_reference},
        {{"end", "end 20", "conical shaft end 1:10 with its key and thread"}, end_reference},
        {{"gauge", "gauge 50", "limits of error of calipers, micrometers, dials"}, gauge_reference},
        {{"gap", "gap", "customary air gaps and end floats"}, gap_reference},
        {{"lathe", "lathe 0.1 0.4", "ridges by feed and nose; customary cuts, grades"},
         lathe_reference},
        {{"balance", "balance G6.3 6000 2.5", "unbalance allowed by grade, rpm and kg"},
         balance_reference},
        {{"seat", "seat 1:8 18 0.12 60Nm", "what a cone holds, by force (9000N) or torque"},
         seat_reference},
        {{"torque", "torque M10 8.8 0.12", "preload and torque of a bolt, by its friction"},
         torque_reference},
        {{"ring", "ring 24 100 25 steel", "mass and inertia of a plain ring"}, ring_reference},
        {{"growth", "growth 60 80K steel", "what warming does to a length"}, growth_reference},
    };
    return all;
}

std::vector<std::string> names() {
    std::vector<std::string> out;
    for (const Entry& each : entries())
        out.emplace_back(each.kind.name);
    return out;
}

// Numbers of hundreds of digits end in none.
bool is_finite(const ReferenceRow& row) {
    return std::isfinite(row.value.value_or(0.0)) && std::isfinite(row.upper.value_or(0.0));
}

std::string told(std::string_view source) {
    constexpr std::string_view kFromMemory = "from memory";
    std::string out(source);
    if (const std::size_t at = out.find(kFromMemory); at != std::string::npos)
        out.replace(at, kFromMemory.size(), "not checked against the standard");
    return out;
}

}  // namespace

const std::vector<ReferenceKind>& reference_kinds() {
    static const std::vector<ReferenceKind> kinds = [] {
        std::vector<ReferenceKind> out;
        for (const Entry& each : entries())
            out.push_back(each.kind);
        return out;
    }();
    return kinds;
}

Result<Reference> reference(const std::vector<std::string>& words) {
    std::string listed;
    for (const std::string& name : names())
        listed += (listed.empty() ? "" : ", ") + name;
    if (words.empty()) return Reason{"a table of what? there are: " + listed};
    const auto found = std::find_if(entries().begin(), entries().end(), [&](const Entry& each) {
        return each.kind.name == words.front();
    });
    if (found == entries().end()) {
        const std::string near = quantity::nearest(words.front(), names());
        return Reason{"there is no table of '" + words.front() + "'; " +
                      (near.empty() ? "there are: " + listed : "did you mean '" + near + "'?")};
    }
    const QueryWords rest(words.begin() + 1, words.end());
    const Result<Reference> looked_up = found->look_up(rest);
    if (!looked_up) return looked_up.why();
    if (!std::all_of(looked_up->rows.begin(), looked_up->rows.end(), is_finite))
        return Reason{"one of these numbers is too large or too small to work with"};
    Reference out = *looked_up;
    out.kind = words.front();
    out.asked = joined(rest);
    return out;
}

std::string joined(const QueryWords& words) {
    std::string out;
    for (const std::string& each : words)
        out += (out.empty() ? "" : " ") + each;
    return out;
}

std::optional<double> length_mm(std::string_view written) {
    const std::string_view text = trimmed(written);
    const std::size_t end = text.find_last_of("0123456789.");
    if (end == std::string_view::npos) return {};
    const auto value = decimal_or_fraction(trimmed(text.substr(0, end + 1)));
    const std::string_view suffix = trimmed(text.substr(end + 1));
    const auto unit = suffix.empty() ? quantity::Unit::mm : quantity::unit_named(suffix);
    if (!value || !unit || !(*value > 0.0)) return {};
    return quantity::convert(*value, *unit, quantity::Unit::mm);
}

std::optional<double> with_unit(std::string_view written, std::string_view unit) {
    const std::string_view text = trimmed(written);
    if (!text.ends_with(unit)) return {};
    const auto value = decimal(trimmed(text.substr(0, text.size() - unit.size())));
    return value && *value > 0.0 ? value : std::nullopt;
}

Reason ask_like(std::string_view fault, std::string_view kind) {
    for (const Entry& each : entries())
        if (each.kind.name == kind)
            return Reason{std::string(fault) + "; ask like `table " +
                          std::string(each.kind.example) + "`"};
    return Reason{std::string(fault)};
}

ReferenceRow figure(std::string what, double value, std::string unit, std::string_view source) {
    return {.what = std::move(what),
            .value = value,
            .upper = {},
            .words = {},
            .unit = std::move(unit),
            .source = told(source)};
}

ReferenceRow between(std::string what, double lower, double upper, std::string unit,
                     std::string_view source) {
    ReferenceRow row = figure(std::move(what), lower, std::move(unit), source);
    row.upper = upper;
    return row;
}

ReferenceRow saying(std::string what, std::string words, std::string_view source) {
    return {.what = std::move(what),
            .value = {},
            .upper = {},
            .words = std::move(words),
            .unit = {},
            .source = told(source)};
}

}  // namespace trialfit::trade
