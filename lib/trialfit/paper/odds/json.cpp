// SPDX-License-Identifier: MIT
#include <trialfit/paper/json/parts.hpp>
#include <trialfit/paper/odds/text.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/words/words.hpp>

namespace trialfit::paper {

namespace {

Json interval(const numerics::Probability& p) {
    return Json::array({p.lower, p.upper});
}

// Adds what `found` says to the finding of `check`.
void add_odds(Json& out, const odds::CheckOdds& found) {
    if (!found.not_judged_for) {
        out["odds"] = found.holds.value;
        out["fails"] = found.fails;
        if (!found.exact) out["odds_interval"] = interval(found.holds);
    } else {
        out["not_judged_for"] = words(found.not_judged_for);
    }
    const auto add = [&](const char* key, double figure) {
        out[key] = found.open ? Json() : Json(figure);
    };
    add("mean", found.mean);
    add("sd", found.sd);
    add("skewness", found.skewness);
    out["quantiles"] = Json::array();
    for (const auto& q : found.quantiles)
        out["quantiles"].push_back({{"p", q.p}, {"value", q.value}});
    out["density"] = {
        {"from", found.curve.from}, {"step", found.curve.step}, {"values", found.curve.density}};
    out["drivers"] = Json::array();
    for (const auto& d : found.drivers) {
        out["drivers"].push_back({{"size", name_of(d)},
                                  {"share_of_variance", d.share_of_variance},
                                  {"fails_if_halved", d.fails_if_halved}});
    }
}

}  // namespace

std::string odds_json(const stack::CheckAnswer& check, const odds::OddsAnswer& answer) {
    Json out = Json::parse(check_json(check));
    out["command"] = "odds";
    out["adjusted"] = answer.adjusted;
    for (Json& each : out["checks"]) {
        for (const auto& found : answer.checks) {
            if (each["check"] == found.name) add_odds(each, found);
        }
    }
    for (Json& each : out["clearances"]) {
        for (const auto& found : answer.clearances) {
            if (each["between"] == Json{found.first, found.second}) add_odds(each, found);
        }
    }
    for (Json& each : out["radial"]) {
        for (const auto& found : answer.radial) {
            if (each["between"] != Json{found.first, found.second}) continue;
            each["odds"] = found.holds.value;
            each["fails"] = found.fails;
            if (!found.exact) each["odds_interval"] = interval(found.holds);
        }
    }
    out["all"] = Json::object();
    if (!answer.not_judged.empty()) out["all"]["not_judged"] = words(answer.not_judged);
    if (answer.judged > 0) {
        out["all"]["odds"] = answer.all.value;
        out["all"]["fails"] = answer.all_fails;
    }
    if (answer.judged > 0 && !answer.all_exact) out["all"]["odds_interval"] = interval(answer.all);
    out["touches_first"] = Json::array();
    for (const auto& each : answer.touches_first) {
        out["touches_first"].push_back({{"between", {each.inboard, each.outboard}},
                                        {"part", each.part},
                                        {"odds", each.chance.value},
                                        {"odds_interval", interval(each.chance)}});
    }
    out["nothing_touches"] = answer.nothing_touches;
    out["samples"] = answer.samples;
    out["seed"] = answer.seed;
    for (const std::string& note : words(answer.notes))
        out["notes"].push_back(note);
    return json_text(out);
}

}  // namespace trialfit::paper
