// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <string>
#include <trialfit/reading/section/sections.hpp>
#include <trialfit/reading/size/angles.hpp>
#include <trialfit/reading/timing/parts.hpp>
#include <trialfit/reading/values.hpp>

// Starting: what turns, what starts it, what it has to get over.
namespace trialfit::reading {

namespace {

constexpr double kPoundInch2_kg_m2 = 0.45359237 * 0.0254 * 0.0254;  // both exact

constexpr AcceptedNumber kInertia{
    job::kLeastInertia_kg_m2, job::kMostInertia_kg_m2,
    "whatever turns has some: it is greater than 0, and at most 10000 kg m2"};
constexpr AcceptedNumber kDrag{0.0, job::kMostStarterTorque_nm,
                               "it is a torque, at most 100000 N m"};
constexpr AcceptedNumber kEnergy{0.0, job::kMostEnergy_j, "it is in joule, at most 10000000"};
constexpr AcceptedNumber kTurns{job::kLeastTurns, job::kMostTurns,
                                "it is how often the crank turns, from 0.01 to 1000"};
constexpr AcceptedNumber kCompression{
    job::kLeastCompression, job::kMostCompression,
    "it is the trapped volume over what is left of it at the top: more "
    "than 1, and at most 100"};
constexpr AcceptedNumber kExponent{
    job::kLeastExponent, job::kMostExponent,
    "it is the n of p V^n = constant, from 0.5 to 2, and 1.25..1.35 for "
    "most engines"};
constexpr AcceptedNumber kAir{job::kLeastAir_kpa, job::kMostAir_kpa,
                              "it is the absolute pressure in kPa, about 101 at sea level"};
constexpr AcceptedNumber kShare{0.0, 1.0, "it is a share of the air's pressure, from 0 to 1"};
constexpr AcceptedNumber kSpinSpeed{job::kLeastSpin_rpm, job::kMostSpin_rpm,
                                    "it is a speed of the crank, from 1 to 1000000 rpm"};
constexpr AcceptedNumber kClosesAt{0.0, kMostFromTop_deg,
                                   "it is an angle before top dead centre, at most 180 degrees"};

std::optional<job::Span> within_bounds(Reader& reader, const Node* node, std::string_view key,
                                       const std::optional<job::Span>& found,
                                       const AcceptedNumber& bounds) {
    if (!found) return std::nullopt;
    if (found->least >= bounds.least && found->greatest <= bounds.greatest) return found;
    reader.error(*node, fmt::format("'{}' is {}", key, quoted(node->scalar)),
                 std::string(bounds.rule));
    return std::nullopt;
}

std::optional<job::Span> span_at(Reader& reader, const Fields& fields, std::string_view key,
                                 std::string_view unit, const AcceptedNumber& bounds) {
    const Node* const node = fields.find(key);
    return within_bounds(reader, node, key, span_of(reader, node, fmt::format("'{}'", key), unit),
                         bounds);
}

std::optional<job::Span> inertia_at(Reader& reader, const Fields& fields, std::string_view key) {
    const Node* const node = fields.find(key);
    const auto found = span_in(reader, node, fmt::format("'{}'", key),
                               {{"kg cm2", 1e-4},
                                {"kg m2", 1.0},
                                {"g cm2", 1e-7},
                                {"kg mm2", 1e-6},
                                {"lb in2", kPoundInch2_kg_m2}});
    return within_bounds(reader, node, key, found, kInertia);
}

// Whether one of the three is given, and no more: each says how fast it turns by itself.
bool one_starter(Reader& reader, const Node& node, const Fields& fields) {
    constexpr std::string_view kMend = "keep one of 'energy', 'torque' with 'turns', and 'speed'";
    const Node* given = nullptr;
    std::string_view first;
    for (const std::string_view key : {"energy", "torque", "speed"}) {
        if (!fields.written(key)) continue;
        if (!first.empty()) {
            const Node* const second = fields.find(key);
            reader.error(second != nullptr ? *second : node,
                         fmt::format("the starter is given twice, by '{}' and by '{}'", first, key),
                         std::string(kMend));
            return false;
        }
        first = key;
        given = fields.find(key);
    }
    if (first.empty())
        reader.error(node, "the starter says neither its energy, nor its torque, nor its speed",
                     "write '{energy: 20..30 J}', '{torque: 8 N m, turns: 1}' or "
                     "'{speed: 450..550 rpm}'");
    if (const Node* const turns = fields.find("turns"); turns != nullptr && first != "torque")
        reader.error(*turns, "'turns' goes with a torque, and 'torque' is not given",
                     "leave it out, or add 'torque: FIGURE N m'");
    return given != nullptr;
}

std::optional<job::Starter> read_starter(Reader& reader, const Node& node) {
    const Fields fields(reader, node, "'starter'", {"energy", "torque", "turns", "speed"});
    if (!fields.ok() || !one_starter(reader, node, fields)) return std::nullopt;
    if (fields.written("energy")) {
        const auto energy = span_at(reader, fields, "energy", "J", kEnergy);
        if (energy) return job::StarterEnergy{*energy};
    } else if (fields.written("speed")) {
        const auto speed = span_at(reader, fields, "speed", "rpm", kSpinSpeed);
        if (speed) return job::StarterSpeed{*speed};
    } else {
        const auto torque = span_at(reader, fields, "torque", "N m", kDrag);
        static_cast<void>(fields.need("turns", "turns: FIGURE"));
        const auto turns = span_at(reader, fields, "turns", "", kTurns);
        if (torque && turns) return job::StarterTorque{.torque_nm = *torque, .turns = *turns};
    }
    return std::nullopt;
}

}  // namespace

void read_spin(Reader& reader, const Node& node) {
    const Fields fields(reader, node, "'spin'",
                        {"crank_inertia", "drag", "starter", "bore", "compression", "exponent",
                         "closes_at", "air_pressure", "under_piston", "spark_from", "idle"});
    if (!fields.ok()) return;
    job::Spin spin;
    spin.at = reader.place(node);
    spin.crank_inertia_kg_m2 = inertia_at(reader, fields, "crank_inertia");
    spin.drag_nm = span_at(reader, fields, "drag", "N m", kDrag);
    if (const Node* starter = fields.find("starter")) {
        spin.starter_at = reader.place(*starter);
        spin.starter = read_starter(reader, *starter);
    }
    if (const Node* bore = fields.find("bore"))
        spin.bore = size_at_least(reader, bore, Bare::exact, "the bore", Least::above_zero);
    spin.compression = span_at(reader, fields, "compression", "", kCompression);
    spin.exponent = span_at(reader, fields, "exponent", "", kExponent);
    spin.closes_at = angle_or_length_of(reader, fields.find("closes_at"), "'closes_at'", kClosesAt);
    spin.air_kpa = span_at(reader, fields, "air_pressure", "kPa", kAir);
    spin.under_piston = span_at(reader, fields, "under_piston", "", kShare);
    spin.spark_from_rpm = span_at(reader, fields, "spark_from", "rpm", kSpinSpeed);
    spin.idle_rpm = span_at(reader, fields, "idle", "rpm", kSpinSpeed);
    reader.job.spin = std::move(spin);
}

}  // namespace trialfit::reading
