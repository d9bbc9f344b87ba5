// SPDX-License-Identifier: MIT
#include <cmath>
#include <trialfit/trade/hardware.hpp>
#include <trialfit/trade/key.hpp>
#include <trialfit/trade/materials.hpp>
#include <trialfit/trade/reference_kinds.hpp>
#include <trialfit/trade/written.hpp>

// Tables of what is bought: shims, nuts, washers, keys, materials.
namespace trialfit::trade {

namespace {

// Inch sizes in mm have more digits than anybody can measure: to 0.1 um.
std::string thicknesses(const ShimSet& set) {
    std::string out;
    for (const double each : set.thicknesses)
        out += (out.empty() ? "" : ", ") + shown(std::round(each * 1e4) / 1e4);
    return out + " mm";
}

void add_cited(Reference& out, const std::string& what, const std::optional<Cited>& value,
               const std::string& unit) {
    if (value)
        out.rows.push_back(figure(what, value->value, unit, value->source));
    else
        out.rows.push_back(saying(what, "no source at hand", ""));
}

void add_nut(Reference& out, const std::string& name, NutKind kind, double dia) {
    const auto nut = hexagon_nut(kind, dia);
    if (!nut) return;
    if (nut->height_min > 0.0)
        out.rows.push_back(
            between(name + ", height", nut->height_min, nut->height_max, "mm", nut->source));
    else
        out.rows.push_back(figure(name + ", greatest height", nut->height_max, "mm", nut->source));
    out.rows.push_back(figure(name + ", across flats", nut->across_flats, "mm", nut->source));
}

}  // namespace

Result<Reference> shim_reference(const Words& words) {
    if (!words.empty()) return ask_like("'" + joined(words) + "' is too much", "shim");
    Reference out;
    out.answer = "Shims come in these thicknesses; measure each before it goes in.";
    for (const ShimSet& set : shim_sets())
        out.rows.push_back(saying(std::string(set.what), thicknesses(set), set.source));
    out.notes = {
        "A computed shim is rounded down to the step in which shims come, commonly 0.05 mm (a "
        "motorcycle workshop manual)."};
    return out;
}

Result<Reference> material_reference(const Words& words) {
    if (words.empty()) {
        std::string names;
        for (const std::string& each : material_names())
            names += (names.empty() ? "" : ", ") + each;
        return Reason{"no material is named; there are: " + names};
    }
    const auto found = material(joined(words));
    if (!found) return found.why();
    Reference out;
    out.answer = std::string(found->name) + ": " + std::string(found->description) + ".";
    add_cited(out, "density", found->density_kg_m3, "kg/m3");
    add_cited(out, "Young's modulus", found->modulus_mpa, "MPa");
    add_cited(out, "Poisson's ratio", found->poisson, "");
    add_cited(out, "expansion", found->expansion_per_k, "1/K");
    const bool graded = found->yield_mpa || found->tensile_mpa;
    if (found->yield_mpa) add_cited(out, "yield strength", found->yield_mpa, "MPa");
    if (found->tensile_mpa) add_cited(out, "tensile strength", found->tensile_mpa, "MPa");
    out.notes = {"Typical figures at room temperature. A job may state its own."};
    out.notes.emplace_back(
        graded ? "Strengths swing with heat treatment: these are of the state named."
               : "How strong it is hangs on the grade: a plain name has no strength. Name the "
                 "grade, or state 'strength' in the job.");
    return out;
}

Result<Reference> nut_reference(const Words& words) {
    if (words.empty()) return ask_like("no thread is named", "nut");
    const std::string text = joined(words);
    const bool metric = text.starts_with('M') || text.starts_with('m');
    const auto dia = decimal(std::string_view(text).substr(metric ? 1 : 0));
    if (!dia) return ask_like("'" + text + "' is no metric size", "nut");
    Reference out;
    out.answer = "Nuts and washer for M" + shown(*dia) + ".";
    add_nut(out, "nut", NutKind::regular_iso_4032, *dia);
    add_nut(out, "thin nut", NutKind::thin_iso_4035, *dia);
    add_nut(out, "old nut", NutKind::din_934, *dia);
    if (const auto washer = plain_washer(*dia)) {
        out.rows.push_back(figure("washer, bore", washer->bore, "mm", washer->source));
        out.rows.push_back(figure("washer, outside", washer->od, "mm", washer->source));
        out.rows.push_back(between("washer, thickness", washer->thickness_min,
                                   washer->thickness_max, "mm", washer->source));
    }
    if (out.rows.empty()) return hexagon_nut(NutKind::regular_iso_4032, *dia).why();
    return out;
}

Result<Reference> key_reference(const Words& words) {
    if (words.empty()) return ask_like("no shaft diameter is given", "key");
    const auto dia = length_mm(joined(words));
    if (!dia) return ask_like("'" + joined(words) + "' is no shaft diameter", "key");
    const auto key = parallel_key(*dia);
    if (!key) return key.why();
    Reference out;
    out.answer = "A shaft of " + shown(*dia) + " mm takes a parallel key " + shown(key->width) +
                 " wide and " + shown(key->height) + " high.";
    out.rows = {figure("key, width", key->width, "mm", key->source),
                figure("key, height", key->height, "mm", key->source),
                figure("slot in the shaft, depth", key->shaft_depth, "mm", key->source),
                figure("slot in the hub, depth", key->hub_depth, "mm", key->source),
                figure("clearance over the key",
                       0.0 - key_excess(key->height, key->shaft_depth, key->hub_depth), "mm",
                       "difference of the figures above")};
    out.notes = {"A key locates a rotor; it is never counted on to drive one."};
    return out;
}

}  // namespace trialfit::trade
