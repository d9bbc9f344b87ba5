// SPDX-License-Identifier: MIT
#include <trialfit/paper/check/cautions.hpp>
#include <trialfit/paper/json/parts.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/seat/text.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>

namespace trialfit::paper {

namespace {

Json verdict_or_null(const std::optional<stack::Verdict>& verdict) {
    return verdict ? Json(word(*verdict)) : Json();
}

Json finding_json(const seat::SeatFinding& f) {
    Json out{{"id", key(f.id)}, {"what", words(f)}, {"unit", f.unit}};
    out.update(estimate_json(f.value));
    out["at_least"] = or_null(f.at_least);
    out["at_most"] = or_null(f.at_most);
    out["verdict"] = verdict_or_null(f.verdict);
    out["source"] = f.source;
    out["limit_source"] = f.limit_source;
    return out;
}

Json input(const seat::Input& i) {
    Json out{{"what", words(i.what)}, {"unit", i.unit}};
    out.update(estimate_json(i.value));
    out["source"] = i.source;
    return out;
}

Json moved(const seat::Moved& m) {
    return {{"name", m.name},
            {"before", {{"nominal", m.nominal_before}, {"worst", range_json(m.worst_before)}}},
            {"drawn_up", {{"nominal", m.nominal_after}, {"worst", range_json(m.worst_after)}}},
            {"at_least", or_null(m.at_least)},
            {"at_most", or_null(m.at_most)},
            {"verdict_before", word(m.verdict_before)},
            {"verdict", word(m.verdict)}};
}

Json changed_json(const seat::Changed& each) {
    return {{"id", key(each.id)},
            {"what", words(each)},
            {"unit", each.unit},
            {"now", estimate_json(each.now)},
            {"at_keep", estimate_json(each.then)},
            {"verdict_at_keep", verdict_or_null(each.verdict_then)}};
}

Json cut(const seat::CutCost& c) {
    Json out{{"face", c.face},
             {"line", c.line},
             {"size", c.size_now},
             {"keep", c.keep},
             {"verdict", word(c.verdict)}};
    out["changed"] = list_json(c.changed, changed_json);
    out["impossible"] = c.impossible ? Json(c.impossible->fault) : Json();
    return out;
}

Json most_by(const std::variant<seat::FindingId, std::string>& by) {
    const auto* const check = std::get_if<std::string>(&by);
    return check != nullptr ? Json(*check) : Json(key(std::get<seat::FindingId>(by)));
}

Json torque_limits(const seat::TorqueLimits& limits) {
    return {{"cone_needs", or_null(limits.cone_needs)},
            {"most", or_null(limits.most)},
            {"most_by", limits.most ? most_by(limits.most_by) : Json()}};
}

}  // namespace

std::string seat_json(const seat::SeatAnswer& answer) {
    Json out = json_head("seat");
    out["file"] = answer.file;
    out["title"] = answer.title;
    out["units"] = quantity::name(answer.units);
    out["verdict"] = word(answer.verdict);
    out["hub"] = answer.hub;
    out["shaft"] = answer.shaft;
    out["nut"] = answer.nut;
    out["seated"] = {{"verdict", word(answer.seated.verdict)}, {"why", words(answer.seated.why)}};
    out["warnings"] = words(answer.warnings);
    out["not_judged"] = words(answer.not_judged);
    out["nut_torque"] = or_null(answer.nut_torque_nm, estimate_json);
    out["holds"] = or_null(answer.held_nm, estimate_json);
    out["needed"] = or_null(answer.needed_nm);
    out["torque_limits"] = torque_limits(answer.torque_limits);
    out["findings"] = list_json(answer.findings, finding_json);
    out["draw_up"] = answer.draw_up_known ? estimate_json(answer.draw_up) : Json();
    out["drawn_up"] = list_json(answer.moved, moved);
    out["cuts"] = list_json(answer.cuts, cut);
    out["inputs"] = list_json(answer.inputs, input);
    out["notes"] = words(answer.notes);
    out["not_assessed"] = words(answer.not_assessed);
    out["cautions"] = cautions_json(answer.cautions, NextWork::tighten);
    return json_text(out);
}

}  // namespace trialfit::paper
