// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/reading/names/references.hpp>
#include <trialfit/reading/section/sections.hpp>
#include <trialfit/reading/values.hpp>
#include <utility>

// Materials, states, and the tightening of the nut.
namespace trialfit::reading {

namespace {

constexpr double kAbsoluteZero_c = -273.15;
constexpr AcceptedNumber kTemperature{kAbsoluteZero_c, 2000.0,
                                      "temperatures are in degrees Celsius, from -273.15 to 2000"};
constexpr AcceptedNumber kExpansion{-1e-3, 1e-3, "it is per kelvin, as in 23e-6"};
constexpr AcceptedNumber kDensity{1.0, 1e5, "it is in kg/m3, as in 2700"};
constexpr AcceptedNumber kModulus{1.0, 1e7, "it is in MPa, as in 71700"};
constexpr AcceptedNumber kPoisson{-0.999, 0.4999, "it lies between -1 and 0.5, as in 0.33"};
constexpr double kMostFriction = 1.5;
constexpr double kLeastFriction = 0.01;
constexpr double kMostTorque_nm = 1e5;
constexpr double kMostAcceleration_rad_s2 = 1e8;
constexpr double kMostSpeed_rpm = 1e6;
constexpr AcceptedNumber kStrength{0.001, 1e6, "it is in MPa, as in 250"};

void read_material(Reader& reader, const Node& node) {
    const Fields fields(
        reader, node, "this material",
        {"material", "expansion", "density", "modulus", "poisson", "strength", "tensile"});
    if (!fields.ok()) return;
    job::OwnMaterial material;
    material.at = reader.place(node);
    const Node* const name = fields.need("material", "material: NAME");
    material.name = text_of(reader, name, "the name of a material");
    const int before = material.name.empty() ? -1 : reader.materials.find(material.name);
    if (before >= 0)
        reader.error(
            *name,
            fmt::format(
                "there are two materials named {}; the first is in {}", quoted(material.name),
                reader.line_words(reader.job.materials[static_cast<std::size_t>(before)].at)),
            "give one of them another name");
    const auto figure = [&](std::string_view key, const AcceptedNumber& bounds) {
        return number_in(reader, fields.find(key), fmt::format("'{}'", key), bounds);
    };
    material.expansion_per_k = figure("expansion", kExpansion);
    material.density_kg_m3 = figure("density", kDensity);
    material.modulus_mpa = figure("modulus", kModulus);
    material.poisson = figure("poisson", kPoisson);
    material.strength_mpa = figure("strength", kStrength);
    material.tensile_mpa = figure("tensile", kStrength);
    if (material.strength_mpa && material.tensile_mpa &&
        *material.strength_mpa > *material.tensile_mpa)
        reader.error(
            *fields.find("tensile"),
            fmt::format("{} yields at {:.6g} MPa and breaks at {:.6g}", quoted(material.name),
                        *material.strength_mpa, *material.tensile_mpa),
            "'strength' is the yield strength, 'tensile' the greater one; swap them");
    reader.materials.add(material.name);
    reader.job.materials.push_back(std::move(material));
}

// One figure in degrees Celsius. A range along a part is a thing that people know and that one
// factor on all its lengths cannot say.
std::optional<double> temperature(Reader& reader, const Node* node, const std::string& what) {
    const bool range =
        node != nullptr && ((node->is_scalar() && node->scalar.find("..") != std::string::npos) ||
                            node->is_list() || node->is_map());
    if (!range) return figure_of(reader, node, what, "C", kTemperature);
    reader.error(*node, fmt::format("{} is more than one figure", what),
                 "a part has one temperature in a state; for one that is hotter at one end, write "
                 "two states, or two parts that sit on each other");
    return std::nullopt;
}

void read_state(Reader& reader, const Entry& entry) {
    check_name(reader, entry.key, "state");
    job::State state;
    state.name = entry.key.scalar;
    state.at = reader.place(entry.key);
    const std::string what = fmt::format("the temperature of state {}", quoted(state.name));
    if (state.name == job::kAsMeasured || state.name == job::kTightened)
        reader.error(
            entry.key,
            fmt::format("state {} is one that answers name by themselves", quoted(state.name)),
            "give it another name");
    if (entry.value.is_empty())
        reader.error(entry.key, fmt::format("state {} has no temperature", quoted(state.name)),
                     fmt::format("write '{}: 20 C'", clipped(state.name)));
    if (entry.value.is_scalar())
        state.all_c = temperature(reader, &entry.value, what).value_or(state.all_c);
    if (entry.value.is_list())
        reader.error(entry.value, fmt::format("{} is a list", what),
                     "write '20 C', or '{all: 90 C, rotor: 70 C}'");
    for (const Entry& each : entries(entry.value)) {
        const Node* const value = each.value.is_empty() ? nullptr : &each.value;
        if (value == nullptr)
            reader.error(each.key, fmt::format("{} has no temperature", quoted(each.key.scalar)),
                         "write it like '90 C'");
        const auto figure = temperature(
            reader, value,
            each.key.scalar == "all" ? what
                                     : fmt::format("the temperature of {} in state {}",
                                                   quoted(each.key.scalar), quoted(state.name)));
        if (each.key.scalar == "all") {
            state.all_c = figure.value_or(state.all_c);
            continue;
        }
        const job::PartId part =
            part_ref(reader, &each.key, fmt::format("state {} names", quoted(state.name)));
        if (part >= 0 && figure) state.part_c[part] = *figure;
    }
    reader.job.states.push_back(std::move(state));
}

}  // namespace

void read_materials(Reader& reader, const Node& materials) {
    for (const Node& material :
         items_of(reader, &materials, "'materials'", "'- {material: NAME, expansion: 23e-6}'"))
        read_material(reader, material);
}

void read_states(Reader& reader, const Node& states) {
    if (!expect_names(reader, states, "'states'",
                      "'states: {fit: 20 C, run: {all: 90 C, rotor: 70 C}}'"))
        return;
    for (const Entry& entry : entries(states))
        read_state(reader, entry);
}

void read_seat_service(Reader& reader, const Node& seat) {
    const Fields fields(reader, seat, "'seat'",
                        {"hub", "nut", "nut_torque", "thread_friction", "under_nut_friction",
                         "cone_friction", "engine_torque", "crank_acceleration", "speed"});
    if (!fields.ok()) return;
    job::SeatService service;
    service.at = reader.place(seat);
    const auto span = [&](std::string_view key, std::string_view unit) {
        return span_of(reader, fields.find(key), fmt::format("'{}'", key), unit);
    };
    const auto bounded = [&](std::string_view key, std::string_view unit, double most) {
        const auto found = span(key, unit);
        if (found && found->greatest > most)
            reader.error(*fields.find(key),
                         fmt::format("'{}' is {}", key, quoted(fields.find(key)->scalar)),
                         fmt::format("{:.0f} {} is the most that makes sense here", most, unit));
        return found;
    };
    const auto friction = [&](std::string_view key) {
        const auto found = span(key, "");
        if (found && found->greatest <= kMostFriction && found->least < kLeastFriction)
            reader.error(*fields.find(key),
                         fmt::format("'{}' is {}", key, quoted(fields.find(key)->scalar)),
                         "nothing slides without friction; even oiled steel has more than 0.05");
        if (found && found->greatest > kMostFriction)
            reader.error(*fields.find(key),
                         fmt::format("'{}' is {}", key, quoted(fields.find(key)->scalar)),
                         "a coefficient of friction is a share of 1, as in 0.10..0.16");
        return found;
    };
    if (const Node* const hub = fields.find("hub"))
        service.hub = part_ref(reader, hub, "the hub of 'seat' is");
    if (const Node* const nut = fields.find("nut"))
        service.nut = feature_ref<job::Thread>(reader, nut, "the nut of 'seat' is");
    service.nut_torque_nm = bounded("nut_torque", "N m", kMostTorque_nm);
    service.thread_friction = friction("thread_friction");
    service.under_nut_friction = friction("under_nut_friction");
    service.cone_friction = friction("cone_friction");
    service.engine_torque_nm = bounded("engine_torque", "N m", kMostTorque_nm);
    service.crank_acceleration_rad_s2 =
        bounded("crank_acceleration", "rad/s2", kMostAcceleration_rad_s2);
    service.speed_rpm = bounded("speed", "rpm", kMostSpeed_rpm);
    reader.job.seat = service;
}

}  // namespace trialfit::reading
