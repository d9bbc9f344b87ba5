// SPDX-License-Identifier: MIT
#include <trialfit/paper/json/parts.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/survey/feelers.hpp>
#include <trialfit/paper/survey/text.hpp>
#include <trialfit/paper/survey/words.hpp>
#include <trialfit/paper/words/words.hpp>

namespace trialfit::paper {

namespace {

Json reading_json(const survey::ReadingFound& r) {
    Json out{{"reading", r.name},
             {"between", {r.from, r.to}},
             {"is", r.is},
             {"half_width", r.half_width}};
    out["should_be"] = r.should_be;
    out["should_be_sd"] = r.should_be_sd;
    out["off_by"] = r.off_by;
    out["standardised"] = r.standardised;
    out["redundancy"] = r.redundancy;
    out["smallest_noticed"] = or_null(r.smallest_noticed);
    if (r.jammed_part.empty()) {
        out["jammed"] = nullptr;
    } else {
        out["jammed"] = {{"part", r.jammed_part},
                         {"between", {r.touching_inboard, r.touching_outboard}},
                         {"stated", r.touching_stated}};
        out["jammed"]["also"] = list_json(r.also_jammed, [](const survey::ReadingFound::Jammed& j) {
            return Json{{"part", j.part}, {"between", {j.inboard, j.outboard}}};
        });
    }
    out["odds_to_next"] = or_null(r.odds_to_next);
    out["next_best"] = r.next_best;
    return out;
}

Json size_json(const survey::SizeFound& s) {
    return {{"size", s.label},
            {"written", s.written},
            {"as_written", s.as_written},
            {"adjusted", s.adjusted},
            {"sd_before", s.sd_before},
            {"sd_after", s.sd_after},
            {"standardised", s.standardised},
            {"redundancy", s.redundancy},
            {"line", s.at.line}};
}

std::string_view kind_key(survey::SuspectKind kind) {
    switch (kind) {
        case survey::SuspectKind::reading:
            return "reading";
        case survey::SuspectKind::size:
            return "size";
        case survey::SuspectKind::gauge:
            return "gauge";
        case survey::SuspectKind::touching:
            break;
    }
    return "touching";
}

Json suspect_json(const survey::Suspect& s) {
    Json out{{"name", s.name}, {"kind", kind_key(s.kind)}};
    if (s.at.line > 0) out["line"] = s.at.line;
    out["off_by"] = s.off_by;
    if (s.kind == survey::SuspectKind::reading || s.kind == survey::SuspectKind::size) {
        out["is"] = s.is;
        out["should_be"] = s.should_be;
    }
    out["sd"] = s.should_be_sd;
    out["chi_square_drop"] = s.chi_square_drop;
    out["slip"] = words(s.slip);
    if (!s.lay.empty()) out["lay"] = s.lay;
    if (!s.not_home.empty()) out["not_home"] = {{"part", s.not_home}, {"by", s.stood_off}};
    return out;
}

Json split_json(const survey::SplitBy& split) {
    Json out{{"what", split.what}};
    out["between"] = split.from.empty() ? Json(nullptr) : Json{split.from, split.to};
    out["gauge"] = split.gauge;
    out["outcomes"] = Json::array();
    for (const auto& each : split.outcomes)
        out["outcomes"].push_back({{"is", each.is}, {"left", each.left}});
    return out;
}

Json unmeasured_json(const survey::UnmeasuredFound& each) {
    Json out{{"size", each.label}};
    if (each.at.line > 0) out["line"] = each.at.line;
    out["value"] = or_null(each.value);
    out["worst"] = each.value ? range_json(each.worst) : Json();
    return out;
}

Json stands_off_json(const survey::StandsOffFound& s) {
    const bool held = !s.inboard.empty();
    Json out{{"reading", s.reading}, {"part", s.part}, {"by", s.by}, {"sd", s.doubt}};
    out["between"] = held ? Json{s.inboard, s.outboard} : Json(nullptr);
    out["stated"] = s.stated;
    out["clears"] = held ? Json(s.clears) : Json(nullptr);
    return out;
}

}  // namespace

std::string survey_json(const survey::SurveyAnswer& answer) {
    Json out = json_head("survey");
    out["file"] = answer.file;
    out["title"] = answer.title;
    if (!answer.warnings.empty()) out["warnings"] = words(answer.warnings);
    out["units"] = quantity::name(answer.units);
    out["judgement"] = judgement_word(answer.judgement);
    out["chi_square"] = answer.chi_square;
    out["freedom"] = answer.freedom;
    out["probability"] = answer.probability;
    out["reference_variance"] = answer.reference_variance;
    out["readings"] = list_json(answer.readings, reading_json);
    out["sizes"] = list_json(answer.sizes, size_json);
    out["unmeasured"] = list_json(answer.unmeasured, unmeasured_json);
    out["suspects"] = list_json(answer.suspects, suspect_json);
    out["one_explains"] = answer.one_explains;
    out["odds_to_next"] = or_null(answer.odds_to_next);
    out["split"] = or_null(answer.split, split_json);
    out["stands_off"] = list_json(answer.stands_off, stands_off_json);
    out["measure_next"] = list_json(answer.measure_next, [](const survey::MeasureNext& each) {
        return Json{{"check", each.check},
                    {"size", each.size},
                    {"gauge", each.gauge},
                    {"sd_now", each.sd_now},
                    {"sd_then", each.sd_then}};
    });
    out["feelers"] = list_json(answer.feelers, feelers_json);
    out["notes"] = words(answer.notes);
    return json_text(out);
}

}  // namespace trialfit::paper
