// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <trialfit/trade/cone/key.hpp>
#include <trialfit/trade/cone/shaft_end.hpp>
#include <trialfit/trade/fastening/hardware.hpp>
#include <trialfit/trade/fastening/property_class.hpp>
#include <trialfit/trade/reference/kinds.hpp>
#include <trialfit/trade/reference/written.hpp>
#include <trialfit/trade/shop/lathe.hpp>
#include <trialfit/trade/strength/materials.hpp>

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

// Classes 8, 10 and 12 were seen, the others not.
std::string_view proof_source(std::string_view nut_class) {
    return nut_class == "5" || nut_class == "6" ? "ISO 898-2 (from memory)" : "ISO 898-2";
}

constexpr std::string_view kKeyRoom = "difference of the figures above";

// What the slots leave over the key, and how much of them it fills.
void add_room(Reference& out, double height, double shaft_depth, double hub_depth) {
    out.rows.push_back(figure("clearance over the key",
                              0.0 - key_excess(height, shaft_depth, hub_depth), "mm", kKeyRoom));
    out.rows.push_back(figure("share of the slots' depth that the key fills",
                              100.0 * height / (shaft_depth + hub_depth), "%",
                              "height over both depths"));
    out.notes = {"A key locates a rotor; it is never counted on to drive one."};
}

Reference of_woodruff(const WoodruffKey& key) {
    Reference out;
    out.answer = "Woodruff key " + shown(key.width) + " x " + shown(key.height) +
                 " mm, from a disc of " + shown(key.disc_dia) + " mm.";
    out.rows = {figure("key, width", key.width, "mm", key.source),
                figure("key, height", key.height, "mm", key.source),
                figure("disc, diameter", key.disc_dia, "mm", key.source),
                figure("slot in the shaft, depth", key.shaft_depth, "mm", key.source),
                figure("slot in the hub, depth", key.hub_depth, "mm", key.source)};
    if (const auto length = woodruff_length(key.height, key.disc_dia))
        out.rows.push_back(
            figure("length along the shaft", *length, "mm", "chord 2 sqrt(h (D - h))"));
    add_room(out, key.height, key.shaft_depth, key.hub_depth);
    return out;
}

// "3x5", "3 x 5" by width and height; with an inch unit, by width and disc.
Result<Reference> woodruff_reference(std::string_view asked) {
    const std::size_t cross = asked.find('x');
    if (cross == std::string_view::npos) {
        Reference out;
        out.answer = "Woodruff keys, width x height: shaft slot, hub slot.";
        for (const WoodruffKey& each : woodruff_keys())
            out.rows.push_back(saying(shown(each.width) + " x " + shown(each.height),
                                      shown(each.shaft_depth) + " and " + shown(each.hub_depth) +
                                          " mm deep, disc " + shown(each.disc_dia),
                                      each.source));
        return out;
    }
    const std::string_view after = asked.substr(cross + 1);
    const bool inches = after.find("in") != std::string_view::npos;
    const auto one = length_mm(std::string(asked.substr(0, cross)) + (inches ? "in" : ""));
    const auto other = length_mm(after);
    if (!one || !other) return ask_like("'" + std::string(asked) + "' is no key", "key");
    const auto key = inches ? inch_woodruff_key(*one, *other) : woodruff_key(*one, *other);
    if (!key) return key.why();
    return of_woodruff(*key);
}

// "38.10+41.25+0.30" as a sum of lengths.
std::optional<double> sum_mm(std::string_view written) {
    double sum = 0.0;
    while (true) {
        const std::size_t plus = written.find('+');
        const auto length = length_mm(written.substr(0, plus));
        if (!length) return {};
        sum += *length;
        if (plus == std::string_view::npos) return sum;
        written.remove_prefix(plus + 1);
    }
}

// The room between two case halves, what fills it, and the float wanted: the shims that leave it.
Result<Reference> shim_for_room(const QueryWords& words) {
    constexpr std::string_view kManuals =
        "two-stroke workshop manuals: halves and gasket less "
        "bearings and shoulders less float";
    constexpr double kStep_mm = 0.05;
    const auto room = sum_mm(words[0]);
    const auto fill = sum_mm(words[1]);
    const auto least = length_mm(words[2]);
    const auto most = length_mm(words[3]);
    if (!room || !fill) return ask_like("lengths are summed like 38.1+41.25+0.3", "shim");
    if (!least || !most || *least > *most)
        return ask_like("the float is two lengths, the least first", "shim");
    const double thickest = shim_for_float(*room, *fill, *least);
    if (!(thickest > 0.0)) return Reason{"there is no room for a shim and that float"};
    Reference out;
    out.answer = "Room " + shown(*room) + " mm, filled with " + shown(*fill) +
                 " mm, for a float of " + shown(*least) + " to " + shown(*most) + " mm.";
    out.rows = {
        between("shims that leave it", std::max(shim_for_float(*room, *fill, *most), 0.0), thickest,
                "mm", kManuals),
        figure("the thickest of these, rounded down to 0.05", shim_rounded_down(thickest, kStep_mm),
               "mm", "a motorcycle workshop manual")};
    out.notes = {"Each length has an error of its own, and they add up: a job file judges them."};
    return out;
}

}  // namespace

Result<Reference> shim_reference(const QueryWords& words) {
    Reference out;
    if (words.size() == 4) return shim_for_room(words);
    if (!words.empty())
        return ask_like(
            "shims for a float need the room, what fills it, the least and the most float (shim "
            "38.1+41.25+0.3 30+49 0.2 0.4)",
            "shim");
    out.answer = "Shims come in these thicknesses; measure each before it goes in.";
    for (const ShimSet& set : shim_sets())
        out.rows.push_back(saying(std::string(set.what), thicknesses(set), set.source));
    out.notes = {
        "A computed shim is rounded down to the step in which shims come, commonly 0.05 mm (a "
        "motorcycle workshop manual)."};
    return out;
}

Result<Reference> material_reference(const QueryWords& words) {
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

Result<Reference> nut_reference(const QueryWords& words) {
    if (words.empty()) return ask_like("no thread is named", "nut");
    const std::string text = joined(words);
    const auto form = thread(text);
    if (!form || !is_metric(form->series))
        return ask_like("'" + text + "' is no metric size", "nut");
    const double dia = form->d_mm;
    Reference out;
    out.answer = "Nuts and washer for " + form->written + ".";
    add_nut(out, "nut", NutKind::regular_iso_4032, dia);
    add_nut(out, "thin nut", NutKind::thin_iso_4035, dia);
    add_nut(out, "nut, DIN 934", NutKind::din_934, dia);
    for (const char* each : {"5", "6", "8", "10", "12"})
        if (const auto load = nut_proof_load_N(*form, each))
            out.rows.push_back(
                figure(std::string("regular nut of class ") + each + ", proof load", *load, "N",
                       form->series == ThreadSeries::metric_fine ? "ISO 898-6 (from memory)"
                                                                 : proof_source(each)));
    if (const auto washer = plain_washer(dia)) {
        out.rows.push_back(figure("washer, bore", washer->bore, "mm", washer->source));
        out.rows.push_back(figure("washer, outside", washer->od, "mm", washer->source));
        out.rows.push_back(between("washer, thickness", washer->thickness_min,
                                   washer->thickness_max, "mm", washer->source));
    }
    if (out.rows.empty()) return hexagon_nut(NutKind::regular_iso_4032, dia).why();
    return out;
}

Result<Reference> key_reference(const QueryWords& words) {
    if (words.empty()) return ask_like("no shaft diameter is given", "key");
    if (words.front() == "woodruff")
        return woodruff_reference(joined(QueryWords(words.begin() + 1, words.end())));
    if (joined(words).find('x') != std::string::npos) return woodruff_reference(joined(words));
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
                figure("slot in the hub, depth", key->hub_depth, "mm", key->source)};
    add_room(out, key->height, key->shaft_depth, key->hub_depth);
    return out;
}

Result<Reference> end_reference(const QueryWords& words) {
    if (words.empty()) return ask_like("no large diameter is given", "end");
    const auto dia = length_mm(joined(words));
    if (!dia) return ask_like("'" + joined(words) + "' is no diameter", "end");
    const auto end = conical_shaft_end(*dia);
    if (!end) return end.why();
    Reference out;
    out.answer = "Conical shaft end 1:10 of " + shown(end->large_dia) + " mm, short series.";
    out.rows = {figure("large diameter", end->large_dia, "mm", end->source),
                figure("cone and thread, length", end->length, "mm", end->source),
                figure("cone, length", end->cone_length, "mm", end->source),
                figure("thread, length", end->thread_length, "mm", end->source),
                figure("diameter half-way along", end->mid_dia, "mm", "d1 - l2/20"),
                figure("small diameter", end->small_dia, "mm", "d1 - l2/10"),
                figure("key, width", end->key_width, "mm", end->source),
                figure("key, height", end->key_height, "mm", end->source),
                figure("slot in the shaft, depth", end->key_shaft_depth, "mm", end->source),
                saying("thread", std::string(end->thread), end->source)};
    return out;
}

Result<Reference> gauge_reference(const QueryWords& words) {
    const auto length = words.empty() ? std::optional<double>(25.0) : length_mm(joined(words));
    if (!length) return ask_like("'" + joined(words) + "' is no length", "gauge");
    Reference out;
    out.answer =
        "Limits of error at " + shown(*length) + " mm, half-widths, of gauges in good order.";
    const auto add = [&](std::string what, Instrument instrument, Reach reach) {
        if (const auto limit = instrument_limit(instrument, *length, reach))
            out.rows.push_back(figure(std::move(what), limit->value, "mm", limit->source));
    };
    add("caliper, vernier 0.05", Instrument::vernier_caliper, Reach::outside);
    add("the same, inside or depth", Instrument::vernier_caliper, Reach::inside_or_depth);
    add("caliper, 0.02 or digital", Instrument::fine_caliper, Reach::outside);
    add("the same, inside or depth", Instrument::fine_caliper, Reach::inside_or_depth);
    add("micrometer", Instrument::micrometer, Reach::outside);
    // A dial's limit is of its own short range, whatever the length: alone it says nothing of that.
    if (out.rows.empty()) return instrument_limit(Instrument::fine_caliper, *length).why();
    add("dial gauge, over its range of 10", Instrument::dial_gauge, Reach::outside);
    out.notes = {
        "A worn scale or a hurried hand does not read this well. ISO 13385-1 leaves the "
        "limits to the caliper's maker."};
    return out;
}

}  // namespace trialfit::trade
