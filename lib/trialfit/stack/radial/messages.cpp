// SPDX-License-Identifier: MIT
#include <algorithm>
#include <trialfit/stack/model/index.hpp>
#include <trialfit/stack/radial/radial.hpp>
#include <utility>
#include <variant>

// What is said of radial gaps and of tilt beside their figures.
namespace trialfit::stack {

namespace {

std::vector<NotGiven> missing_of(const std::vector<RadialGap>& pairs) {
    std::vector<NotGiven> missing;
    for (const RadialGap& pair : pairs)
        for (const NotGiven& each : pair.not_given)
            if (std::ranges::find(missing, each) == missing.end()) missing.push_back(each);
    return missing;
}

// Rings of which nobody has measured a diameter have no radial gap.
void add_unmeasured_rings(const job::Job& job, std::vector<NotGiven>& missing) {
    using What = NotGiven::What;
    for (const job::PartId p : job::indices(job.parts)) {
        const std::vector<job::Ring>& rings = job.parts[at(p)].rings;
        for (const job::RingId r : job::indices(rings)) {
            const std::string name = job::ring_name(job, {p, r});
            if (rings[at(r)].bore.size.is_unmeasured())
                missing.push_back({What::bore_limits, name});
            if (rings[at(r)].outside.size.is_unmeasured())
                missing.push_back({What::outside_limits, name});
        }
    }
}

// Parts with metal that do not say how they lean; what all else stands on leans by definition not.
std::vector<std::string> taken_square(const job::Job& job) {
    std::vector<std::string> names;
    for (const job::Part& part : job.parts)
        if (!part.seats.empty() && !part.rings.empty() && !says_how_it_leans(part))
            names.push_back(part.name);
    return names;
}

std::vector<TakenCold::Fit> cold_registers(const Model& model) {
    std::vector<TakenCold::Fit> fits;
    const job::Job& job = model.job();
    for (const job::PartId p : job::indices(job.parts)) {
        const job::Part& part = job.parts[at(p)];
        if (!part.centred || part.centred->by == job::CentredBy::cone) continue;
        if (part.centred->by == job::CentredBy::bearing || warm_register(model, p).known) continue;
        fits.push_back({.part = part.name, .on = part.centred->on_written});
    }
    return fits;
}

}  // namespace

std::vector<NotAssessed> radial_not_assessed(const Model& model,
                                             const std::vector<RadialGap>& pairs) {
    const job::Job& job = model.job();
    if (!asks_radial(job)) return {LeftOut::radial};
    std::vector<NotAssessed> list;
    std::vector<NotGiven> missing = missing_of(pairs);
    add_unmeasured_rings(job, missing);
    if (!missing.empty()) list.emplace_back(RadialNotGiven{.missing = std::move(missing)});
    if (auto square = taken_square(job); !square.empty())
        list.emplace_back(TakenSquare{.parts = std::move(square)});
    const bool gaps = std::ranges::any_of(
        job.checks, [](const auto& check) { return std::holds_alternative<job::GapOf>(check.of); });
    if (gaps && any_leans(job)) list.emplace_back(LeftOut::tilt_off_face_gaps);
    if (auto cold = cold_registers(model); !job.states.empty() && !cold.empty())
        list.emplace_back(TakenCold{.fits = std::move(cold)});
    return list;
}

std::vector<Note> radial_notes(const std::vector<Clearance>& clearances,
                               const std::vector<RadialGap>& pairs) {
    const auto several = [](const auto& pair) { return pair.several_directions; };
    if (std::ranges::none_of(pairs, several) && std::ranges::none_of(clearances, several))
        return {};
    return {WorstDirections{}};
}

}  // namespace trialfit::stack
