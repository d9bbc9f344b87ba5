// SPDX-License-Identifier: MIT
#include <trialfit/paper/json/parts.hpp>
#include <trialfit/paper/survey/feelers.hpp>
#include <trialfit/paper/survey/words.hpp>

namespace trialfit::paper {

namespace {

using survey::FeelerTerm;
using survey::NotTold;
using survey::SettingReach;

const char* term_key(FeelerTerm term) {
    switch (term) {
        case FeelerTerm::mean:
            return "mean";
        case FeelerTerm::offset:
            return "offset";
        case FeelerTerm::runout:
            return "runout";
        case FeelerTerm::taper:
            return "taper";
        case FeelerTerm::still_leans:
            return "still_leans";
        case FeelerTerm::turning_cocked:
            break;
    }
    return "turning_cocked";
}

const char* why_key(NotTold why) {
    switch (why) {
        case NotTold::one_height:
            return "one_height";
        case NotTold::not_turned:
            return "not_turned";
        case NotTold::one_place:
            return "one_place";
        case NotTold::turned_with_feeler:
            return "turned_with_feeler";
        case NotTold::too_few:
            break;
    }
    return "too_few";
}

const char* setting_key(SettingReach setting) {
    if (setting == SettingReach::can) return "can";
    return setting == SettingReach::cannot ? "cannot" : "cannot_tell";
}

Json feeler_figure(const survey::FeelerFigure& figure) {
    return {{"is", figure.is}, {"sd", figure.sd}};
}

Json feeler_vector(const survey::FeelerVector& vector) {
    return {{"is", vector.amount.is},
            {"sd", vector.amount.sd},
            {"towards_deg", vector.towards_deg},
            {"towards_sd_deg", vector.towards_sd_deg},
            {"along_deg", or_null(vector.along_deg)},
            {"seen", vector.seen}};
}

Json feeler_reading(const survey::FeelerReadingFound& r) {
    return {{"line", r.at.line},
            {"clock_deg", r.clock_deg},
            {"rotor_deg", r.rotor_deg},
            {"at", r.height},
            {"is", r.is},
            {"sd", r.sd},
            {"should_be", r.should_be},
            {"off_by", r.off_by},
            {"standardised", r.standardised},
            {"redundancy", r.redundancy},
            {"suspect", r.suspect},
            {"left_out", r.left_out}};
}

Json feeler_not_told_json(const survey::FeelerNotTold& each) {
    return {{"term", term_key(each.term)},
            {"why", why_key(each.why)},
            {"shows_in", list_json(each.shows_in, term_key)}};
}

Json even_up_json(const survey::EvenUp& move) {
    return {{"part", move.part},
            {"by", feeler_figure(move.by)},
            {"towards_deg", move.towards_deg},
            {"room", or_null(move.room)},
            {"least", feeler_figure(move.least)},
            {"most", feeler_figure(move.most)}};
}

Json feeler_limit(const survey::FeelerLimit& limit) {
    Json out{{"check", limit.check}};
    out["at_least"] = or_null(limit.at_least);
    if (limit.at_least) out["can_reach"] = setting_key(limit.can_reach);
    out["at_most"] = or_null(limit.at_most);
    if (limit.at_most) out["can_keep"] = setting_key(limit.can_keep);
    if (limit.varies_by) {
        out["varies_by"] = feeler_figure(*limit.varies_by);
        out["can_stay"] = setting_key(limit.can_stay);
    }
    return out;
}

}  // namespace

Json feelers_json(const survey::FeelersFound& found) {
    Json out{{"feeler", found.name},
             {"between", {found.still, found.turning}},
             {"gauge", found.gauge},
             {"half_width", found.half_width},
             {"judgement", judgement_word(found.judgement)},
             {"chi_square", found.chi_square},
             {"freedom", found.freedom},
             {"probability", found.probability},
             {"span", found.span}};
    out["mean"] = feeler_figure(found.mean);
    out["by_diameters"] = or_null(found.by_diameters, feeler_figure);
    out["against_diameters"] =
        found.against_diameters ? feeler_figure(found.against_diameters->by) : Json(nullptr);
    out["offset"] = or_null(found.offset, feeler_vector);
    out["runout"] = or_null(found.runout, feeler_vector);
    out["taper"] = or_null(found.taper, feeler_figure);
    out["still_leans"] = or_null(found.still_leans, feeler_vector);
    out["turning_cocked"] = or_null(found.turning_cocked, feeler_vector);
    out["not_told"] = list_json(found.not_told, feeler_not_told_json);
    out["least_now"] = or_null(found.least_now, feeler_figure);
    out["most_now"] = or_null(found.most_now, feeler_figure);
    out["best_least"] = or_null(found.best_least, feeler_figure);
    out["best_most"] = or_null(found.best_most, feeler_figure);
    out["eccentricity"] = or_null(found.eccentricity, feeler_figure);
    out["even_up"] = or_null(found.even_up, even_up_json);
    out["limits"] = list_json(found.limits, feeler_limit);
    out["offset_stated"] = or_null(found.offset_stated);
    out["runout_stated"] = or_null(found.runout_stated);
    out["readings"] = list_json(found.readings, feeler_reading);
    return out;
}

}  // namespace trialfit::paper
