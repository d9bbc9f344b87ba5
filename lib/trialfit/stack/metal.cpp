// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <string_view>
#include <trialfit/stack/metal.hpp>
#include <trialfit/trade/fastening/hardware.hpp>
#include <trialfit/trade/fastening/property_class.hpp>
#include <trialfit/trade/strength/materials.hpp>
#include <trialfit/trade/thread/profile.hpp>
#include <utility>

namespace trialfit::stack {

namespace {

std::optional<Figure> cited(const std::optional<trade::Cited>& figure) {
    if (!figure) return std::nullopt;
    return Figure{figure->value, std::string(figure->source)};
}

const job::OwnMaterial* own_material(const job::Job& job, const std::string& name) {
    const auto found = std::ranges::find(job.materials, name, &job::OwnMaterial::name);
    return found == job.materials.end() ? nullptr : &*found;
}

trade::ThreadClass class_of(const trade::ThreadForm& form, bool nut) {
    if (form.tolerance && form.tolerance->internal == nut) return *form.tolerance;
    return trade::usual_class(form, nut);
}

ThreadMetal of_bolt_class(const job::Thread& thread) {
    const auto strength = trade::bolt_strength(thread.property_class, thread.form.d_mm);
    if (!strength) return {};
    const char first = thread.property_class.front();
    const std::string_view standard_source =
        first == 'A'   ? "ISO 3506-1 (not checked against the standard)"
        : first == 'g' ? "SAE J429 (not checked against the standard)"
                       : "ISO 898-1";
    const std::string source = fmt::format("{}, class {} of line {}", standard_source,
                                           thread.property_class, thread.property_class_at.line);
    return {.yield_mpa = Figure{strength->yield_MPa, source},
            .tensile_mpa = Figure{strength->tensile_MPa, source}};
}

// The least height in the table is what the proof load is carried by, so the strength that comes
// out is the least that the class can have.
ThreadMetal of_nut_class(const job::Thread& thread) {
    const auto load = trade::nut_proof_load_N(thread.form, thread.property_class);
    const auto size = trade::hexagon_nut(trade::NutKind::regular_iso_4032, thread.form.d_mm);
    const auto areas = trade::strip_areas(thread.form);
    if (!load || !size || !areas || size->height_min <= 0.0) return {};
    const double tensile = 2.0 * *load / (areas->nut_mm2_per_mm * size->height_min);
    return {.yield_mpa = std::nullopt,
            .tensile_mpa =
                Figure{tensile, fmt::format("nut class {}, line {}: proof load of ISO "
                                            "898-2 on the height of ISO 4032",
                                            thread.property_class, thread.property_class_at.line)}};
}

}  // namespace

std::optional<trade::Elastic> Metal::elastic() const {
    if (!modulus_mpa || !poisson) return std::nullopt;
    return trade::Elastic{modulus_mpa->value, poisson->value};
}

Metal metal(const job::Job& job, job::PartId part) {
    Metal found;
    found.name = job.parts.at(part.at()).material;
    if (found.name.empty()) return found;
    if (const auto known = trade::material(found.name)) {
        found.density_kg_m3 = cited(known->density_kg_m3);
        found.modulus_mpa = cited(known->modulus_mpa);
        found.poisson = cited(known->poisson);
        found.expansion_per_k = cited(known->expansion_per_k);
        found.yield_mpa = cited(known->yield_mpa);
        found.tensile_mpa = cited(known->tensile_mpa);
    }
    const job::OwnMaterial* const own = own_material(job, found.name);
    if (own == nullptr) return found;
    const auto take = [&](const std::optional<double>& figure, std::optional<Figure>& into) {
        if (figure) into = Figure{*figure, fmt::format("line {}", own->at.line)};
    };
    take(own->density_kg_m3, found.density_kg_m3);
    take(own->modulus_mpa, found.modulus_mpa);
    take(own->poisson, found.poisson);
    take(own->expansion_per_k, found.expansion_per_k);
    take(own->strength_mpa, found.yield_mpa);
    // A job's own yield with the table's tensile strength would be two metals in one.
    if (own->strength_mpa) found.tensile_mpa.reset();
    take(own->tensile_mpa, found.tensile_mpa);
    return found;
}

ThreadPair thread_pair(const job::Job& job, const job::EngagementOf& engagement) {
    const auto& one = job::at(job, engagement.one).form.tolerance;
    const auto& other = job::at(job, engagement.other).form.tolerance;
    bool one_is_nut = engagement.one.part > engagement.other.part;
    if (other) one_is_nut = !other->internal;
    if (one) one_is_nut = one->internal;
    return one_is_nut ? ThreadPair{.bolt = engagement.other, .nut = engagement.one}
                      : ThreadPair{.bolt = engagement.one, .nut = engagement.other};
}

trade::Result<trade::StripAreas> strip_areas(const job::Job& job, const ThreadPair& pair) {
    const trade::ThreadForm& bolt = job::at(job, pair.bolt).form;
    const trade::ThreadForm& nut = job::at(job, pair.nut).form;
    const auto bolt_limits = trade::thread_limits(bolt, class_of(bolt, false));
    if (!bolt_limits) return bolt_limits.why();
    const auto nut_limits = trade::thread_limits(nut, class_of(nut, true));
    if (!nut_limits) return nut_limits.why();
    return trade::strip_areas(*bolt_limits, *nut_limits, bolt.pitch_mm);
}

ThreadMetal thread_metal(const job::Job& job, job::ThreadRef thread, bool nut) {
    const job::Thread& given = job::at(job, thread);
    if (!given.property_class.empty()) {
        if (nut) {
            ThreadMetal by_class = of_nut_class(given);
            if (by_class.tensile_mpa) return by_class;
        }
        ThreadMetal by_class = of_bolt_class(given);
        if (by_class.tensile_mpa) return by_class;
    }
    Metal of_part = metal(job, thread.part);
    return {.yield_mpa = std::move(of_part.yield_mpa),
            .tensile_mpa = std::move(of_part.tensile_mpa)};
}

std::variant<PairStrength, ThreadStrengthNotKnown> pair_strength(const job::Job& job,
                                                                 const ThreadPair& pair) {
    const ThreadMetal bolt = thread_metal(job, pair.bolt, false);
    const ThreadMetal nut = thread_metal(job, pair.nut, true);
    if (bolt.tensile_mpa && nut.tensile_mpa)
        return PairStrength{.bolt_mpa = *bolt.tensile_mpa, .nut_mpa = *nut.tensile_mpa};
    if (bolt.yield_mpa && nut.yield_mpa)
        return PairStrength{.bolt_mpa = *bolt.yield_mpa, .nut_mpa = *nut.yield_mpa};
    const bool bolt_lacks = !bolt.tensile_mpa;
    return ThreadStrengthNotKnown{.thread =
                                      job::thread_name(job, bolt_lacks ? pair.bolt : pair.nut)};
}

std::variant<trade::EngagementNeeded, StrengthUnknown> engagement_for_strength(
    const job::Job& job, const job::EngagementOf& engagement) {
    const ThreadPair pair = thread_pair(job, engagement);
    const auto found = pair_strength(job, pair);
    if (const auto* unknown = std::get_if<ThreadStrengthNotKnown>(&found))
        return StrengthUnknown(*unknown);
    const auto& strength = std::get<PairStrength>(found);
    const auto areas = strip_areas(job, pair);
    if (!areas) return StrengthUnknown(areas.why());
    return trade::engagement_needed(trade::stress_area_mm2(job::at(job, pair.bolt).form), *areas,
                                    strength.bolt_mpa.value, strength.nut_mpa.value);
}

}  // namespace trialfit::stack
