// SPDX-License-Identifier: MIT
#include <trialfit/paper/check/headline.hpp>
#include <trialfit/paper/json/parts.hpp>
#include <trialfit/paper/match/text.hpp>
#include <trialfit/paper/match/words.hpp>
#include <trialfit/paper/plan/words.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>

namespace trialfit::paper {

namespace {

using match::Candidate;
using match::MatchAnswer;

Json complaint_json(const reading::FileComplaint& each, const MatchAnswer& answer) {
    const job::Complaint& what = each.complaint;
    return {{"file", answer.files[each.file]},
            {"line", what.at.line > 0 ? Json(what.at.line) : Json()},
            {"column", what.at.line > 0 ? Json(what.at.column) : Json()},
            {"fault", what.fault},
            {"mend", mend_of(what)}};
}

Json candidate_json(const Candidate& each, const MatchAnswer& answer) {
    const auto name = [&](std::size_t file) { return answer.files[file]; };
    Json out{{"kit", list_json(each.files, name)}, {"fits", word(each.standing)}};
    out["verdict"] = each.check ? Json(word(each.check->verdict)) : Json();
    out["answer"] = each.check ? Json(headline(*each.check)) : Json();
    out["seat"] = each.seat ? Json(word(each.seat->verdict)) : Json();
    out["spin"] = each.spin ? Json(word(each.spin->verdict)) : Json();
    out["running"] = told_running(each);
    const bool by_plan = each.standing == match::Standing::after_plan;
    const bool as_it_comes = each.standing == match::Standing::holds;
    out["cost"] = by_plan ? Json(each.plan->plans.front().cost) : as_it_comes ? Json(0.0) : Json();
    out["work"] =
        by_plan ? Json(told_works(each.plan->plans.front(), plan_decimals(*each.plan))) : Json();
    out["proven"] = each.plan ? Json(each.plan->proven) : Json();
    out["odds"] = or_null(each.odds);
    out["price"] = or_null(each.price);
    out["faults"] = list_json(each.complaints, [&](const reading::FileComplaint& complaint) {
        return complaint_json(complaint, answer);
    });
    return out;
}

}  // namespace

std::string match_json(const MatchAnswer& answer) {
    Json out{{"trialfit", 1},           {"command", "match"},
             {"engine", answer.engine}, {"units", quantity::name(answer.units)},
             {"asked", answer.asked},   {"stopped", answer.stopped}};
    out["kits"] = list_json(answer.candidates,
                            [&](const Candidate& each) { return candidate_json(each, answer); });
    return json_text(out);
}

}  // namespace trialfit::paper
