// SPDX-License-Identifier: MIT
#include <trialfit/paper/check/cautions.hpp>
#include <trialfit/paper/json/parts.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/spin/parts.hpp>
#include <trialfit/paper/spin/text.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>

namespace trialfit::paper {

namespace {

using spin::SpinAnswer;

Json part_json(const spin::PartInertia& part) {
    return {{"part", part.part},
            {"material", part.material},
            {"density_kg_m3", part.density_kg_m3},
            {"density_source", part.density_source},
            {"mass_kg", estimate_json(part.mass_kg)},
            {"inertia_kg_m2", estimate_json(part.inertia_kg_m2)},
            {"without", or_null(part.without, [](const spin::WithoutPart& without) {
                 return Json{{"inertia_kg_m2", without.inertia_kg_m2},
                             {"at_firing_rpm", without.at_firing_rpm}};
             })}};
}

Json inertia_json(const spin::Inertia& inertia) {
    return {{"parts", list_json(inertia.parts, part_json)},
            {"crank_kg_m2", or_null(inertia.crank_kg_m2, estimate_json)},
            {"known_kg_m2", estimate_json(inertia.known_kg_m2)},
            {"whole", inertia.whole}};
}

Json path_json(const spin::CompressionPath& path) {
    return {{"degrees", estimate_json(path.degrees)},
            {"gas_j", estimate_json(path.gas_j)},
            {"work_j", estimate_json(path.work_j)},
            {"drag_j", or_null(path.drag_j, estimate_json)},
            {"loss_j", or_null(path.loss_j, estimate_json)}};
}

Json compression_json(const spin::Compression& compression) {
    return {{"closes_deg", estimate_json(compression.closes_deg)},
            {"trapped_cm3", estimate_json(compression.trapped_cm3)},
            {"to_firing", or_null(compression.to_firing, path_json)},
            {"to_top", path_json(compression.to_top)}};
}

Json started_json(const spin::Started& started) {
    return {{"by", word(started.by)},
            {"energy_j", or_null(started.energy_j, estimate_json)},
            {"rpm", or_null(started.rpm, estimate_json)}};
}

Json held_json(const spin::Held& held) {
    Json out{{"has", estimate_json(held.has)}, {"needs", Json()}, {"verdict", word(held.verdict)}};
    if (held.verdict != stack::Verdict::not_judged) out["needs"] = estimate_json(held.needs);
    return out;
}

Json needed_json(const spin::StarterNeeded& needed) {
    return {{"energy_j", estimate_json(needed.energy_j)},
            {"inertia",
             {{"limit", needed.inertia.at_most ? "at_most" : "at_least"},
              {"least_kg_m2", or_null(needed.inertia.least_kg_m2)},
              {"middle_kg_m2", or_null(needed.inertia.middle_kg_m2)},
              {"greatest_kg_m2", or_null(needed.inertia.greatest_kg_m2)}}}};
}

Json running_json(const spin::Running& running) {
    return {{"at", running.at == spin::Running::At::idle ? "idle" : "full_speed"},
            {"rpm", estimate_json(running.rpm)},
            {"ring", or_null(running.ring)},
            {"rim_m_s", or_null(running.rim_m_s, estimate_json)},
            {"stored_j", or_null(running.stored_j, estimate_json)}};
}

Json checks_json(const std::vector<stack::CheckResult>& checks) {
    return list_json(checks, [](const stack::CheckResult& check) {
        Json out = check_result_json(check);
        out["short_of"] = or_null(short_of(check));
        return out;
    });
}

}  // namespace

std::string spin_json(const SpinAnswer& answer) {
    Json out = json_head("spin");
    out["file"] = answer.file;
    out["units"] = quantity::name(answer.units);
    out["title"] = answer.title;
    if (!answer.warnings.empty()) out["warnings"] = words(answer.warnings);
    out["verdict"] = word(answer.verdict);
    out["inertia"] = inertia_json(answer.inertia);
    out["compression"] = or_null(answer.compression, compression_json);
    out["started"] = or_null(answer.started, started_json);
    out["carried"] = or_null(answer.carried, held_json);
    out["spark"] = or_null(answer.spark, held_json);
    out["needed"] = or_null(answer.needed, needed_json);
    out["unevenness"] = or_null(answer.unevenness, estimate_json);
    out["running"] = list_json(answer.running, running_json);
    out["over_poles"] = checks_json(answer.over_poles);
    out["air_gaps"] = checks_json(answer.air_gaps);
    out["not_judged"] = words(answer.not_judged);
    out["notes"] = words(answer.notes);
    out["not_assessed"] = words(answer.not_assessed);
    out["cautions"] = cautions_json(answer.cautions, NextWork::start);
    return json_text(out);
}

}  // namespace trialfit::paper
