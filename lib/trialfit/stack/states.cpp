// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstddef>
#include <optional>
#include <trialfit/stack/metal.hpp>
#include <trialfit/stack/states.hpp>
#include <trialfit/stack/tightened/load.hpp>
#include <utility>
#include <variant>

namespace trialfit::stack {

namespace {

double temperature_c(const job::State& state, job::PartId part) {
    const auto found = state.part_c.find(part);
    return found == state.part_c.end() ? state.all_c : found->second;
}

bool as_measured(const job::Job& job, const job::State& state) {
    // NOLINTNEXTLINE(readability-use-anyofallof): indices are counted, not iterated over
    for (const job::PartId p : job::indices(job.parts)) {
        if (temperature_c(state, p) != kMeasuredAt_c) return false;
    }
    return true;
}

// Of each part; nothing where it is not known.
std::vector<std::optional<double>> expansions(const job::Job& job) {
    std::vector<std::optional<double>> all;
    all.reserve(job.parts.size());
    for (const job::PartId p : job::indices(job.parts)) {
        const auto figure = metal(job, p).expansion_per_k;
        all.push_back(figure ? std::optional(figure->value) : std::nullopt);
    }
    return all;
}

bool has_seat(const job::Part& part, bool (*wanted)(const job::Seat&)) {
    return std::ranges::any_of(part.seats, wanted);
}

std::vector<std::string> parts_with(const job::Job& job, bool (*wanted)(const job::Seat&)) {
    std::vector<std::string> names;
    for (const job::Part& part : job.parts)
        if (has_seat(part, wanted)) names.push_back(part.name);
    return names;
}

}  // namespace

std::vector<job::State> states_of(const job::Job& job) {
    std::vector<job::State> states;
    if (job.states.empty()) return states;
    const bool given = std::ranges::any_of(
        job.states, [&](const job::State& state) { return as_measured(job, state); });
    if (!given)
        states.push_back({.name = kAsMeasured, .at = {}, .all_c = kMeasuredAt_c, .part_c = {}});
    states.insert(states.end(), job.states.begin(), job.states.end());
    return states;
}

std::vector<StateTold> states_told(const Model& cold) {
    const job::Job& job = cold.job();
    std::vector<StateTold> told;
    for (const job::State& state : states_of(job)) {
        told.push_back({.name = state.name, .all_c = state.all_c});
        for (const auto& [part, temperature] : state.part_c)
            told.back().parts.emplace_back(job.parts.at(part.at()).name, temperature);
    }
    const quantity::Size* const draw = cold.known_draw_up();
    if (draw == nullptr) return told;
    if (told.empty()) told.push_back({.name = kAsMeasured});
    told.push_back({.name = kTightened,
                    .drawn_home = StateTold::DrawnHome{draw->nominal, {draw->lower, draw->upper}}});
    return told;
}

std::vector<Model> in_states(const Model& cold) {
    const job::Job& job = cold.job();
    const bool draws = cold.known_draw_up() != nullptr;
    std::vector<Model> models;
    const std::vector<std::optional<double>> expansion = expansions(job);
    for (const job::State& state : states_of(job)) {
        Warmth warmth{.state = state.name, .growth = {}};
        for (const job::PartId p : job::indices(job.parts)) {
            const double warming = temperature_c(state, p) - kMeasuredAt_c;
            const auto& of_part = expansion[p.at()];
            warmth.growth.push_back(1.0 + of_part.value_or(0.0) * warming);
            if (!of_part && warming != 0.0) warmth.unknown.push_back(p);
        }
        models.push_back(cold.in_state(warmth));
    }
    if (models.empty()) models.push_back(draws ? cold.in_state({.state = kAsMeasured}) : cold);
    if (draws) models.push_back(cold.tightened());
    return models;
}

std::vector<Note> heat_notes(const job::Job& job) {
    std::vector<Note> notes;
    if (job.states.empty()) return notes;
    auto offset = parts_with(job, [](const job::Seat& s) { return s.offset.has_value(); });
    if (!offset.empty()) notes.emplace_back(OffsetGrowsWithSeat{.parts = std::move(offset)});
    auto cone =
        parts_with(job, [](const job::Seat& s) { return s.kind == job::SeatKind::cone_on_cone; });
    if (!cone.empty()) notes.emplace_back(FollowsNut{.parts = std::move(cone)});
    std::vector<std::string> twice;
    for (const job::Part& part : job.parts)
        if (part.seats.size() > 1) twice.push_back(part.name);
    if (!twice.empty()) notes.emplace_back(FollowsFirstSeat{.parts = std::move(twice)});
    return notes;
}

std::vector<NotAssessed> heat_not_assessed(const job::Job& job) {
    return {job.states.empty() ? LeftOut::heat : LeftOut::heat_along_parts};
}

std::optional<GrowthNotKnown> growth_not_known(const Model& model,
                                               const std::vector<job::PartId>& parts) {
    if (parts.empty()) return std::nullopt;
    GrowthNotKnown found{.state = model.state(), .no_material = {}, .unknown = {}};
    for (const job::PartId part : parts) {
        const Metal of = metal(model.job(), part);
        const std::string& name = model.job().parts.at(part.at()).name;
        if (of.name.empty()) {
            found.no_material.push_back(name);
        } else {
            found.unknown.push_back({.part = name, .material = of.name});
        }
    }
    return found;
}

std::vector<NotAssessed> draw_up_not_assessed(const Model& cold) {
    const job::Job& job = cold.job();
    const auto on_cone = [](const job::Part& part) {
        return part.turns && has_seat(part, [](const job::Seat& seat) {
                   return seat.kind == job::SeatKind::cone_on_cone;
               });
    };
    const auto hub = std::ranges::find_if(job.parts, on_cone);
    if (hub == job.parts.end()) return {};
    if (cold.known_draw_up() != nullptr) return {LeftOut::draw_up_with_heat};
    std::variant<DrawUp, DrawUpUnknown> found = draw_up(cold);
    auto* const unknown = std::get_if<DrawUpUnknown>(&found);
    if (unknown == nullptr) return {};
    return {DrawUpNotKnown{.hub = hub->name, .why = std::move(*unknown)}};
}

}  // namespace trialfit::stack
