// SPDX-License-Identifier: MIT
#include <trialfit/paper/check/cautions.hpp>
#include <trialfit/paper/json/parts.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>

namespace trialfit::paper {

void add_bounds(Json& out, const stack::Bounds& bounds) {
    if (bounds.open()) {
        for (const char* key : {"nominal", "middle", "worst", "rss"})
            out[key] = nullptr;
        return;
    }
    out["nominal"] = bounds.nominal;
    out["middle"] = bounds.middle;
    out["worst"] = range_json(bounds.worst);
    out["rss"] = range_json(bounds.rss);
}

namespace {

// A ring's name with its part's, which is that of its face: "plate.front", "disc" -> "plate.disc".
std::string qualified(const std::string& face, const std::string& ring) {
    return face.substr(0, face.find('.') + 1) + ring;
}

void add_states(Json& out, const std::string& state, const std::vector<stack::InState>& all) {
    if (state.empty()) return;
    out["state"] = state;
    out["in_states"] = list_json(all, [](const stack::InState& each) {
        Json one{{"state", each.state}};
        add_bounds(one, each.value);
        one["verdict"] = word(each.verdict);
        return one;
    });
}

Json state_json(const stack::StateTold& state) {
    Json out{{"state", state.name}, {"all_c", state.all_c}, {"parts_c", Json::object()}};
    for (const auto& [part, temperature] : state.parts)
        out["parts_c"][part] = temperature;
    if (state.drawn_home)
        out["drawn_home"] = {{"nominal", state.drawn_home->nominal},
                             {"worst", range_json(state.drawn_home->worst)}};
    return out;
}

// What a check, a pair along the axis and one across it end alike.
template <typename Judged>
void add_verdict(Json& out, const Judged& c) {
    out["verdict"] = word(c.verdict);
    if (c.not_judged_for) out["not_judged_for"] = words(*c.not_judged_for);
    if (c.odds) out["odds"] = *c.odds;
}

// What a pair asks and has.
template <typename Pair>
void add_gap(Json& out, const Pair& c) {
    out["at_least"] = c.at_least;
    out["more_than"] = c.more_than;
    add_bounds(out, c.gap);
    add_verdict(out, c);
    out["tightest"] = c.tightest;
}

Json clearance_json(const stack::Clearance& c) {
    Json out{{"between", {c.inboard, c.outboard}}};
    out["rings"] = {qualified(c.inboard, c.inboard_ring), qualified(c.outboard, c.outboard_ring)};
    add_gap(out, c);
    add_states(out, c.state, c.in_states);
    return out;
}

Json radial_json(const stack::RadialGap& c) {
    Json out{{"between", {c.inner, c.outer}}};
    add_gap(out, c);
    out["not_given"] = words(c.not_given);
    add_states(out, c.state, c.in_states);
    return out;
}

Json first_contact_json(const stack::FirstContact& contact) {
    Json proud;
    proud["nominal"] = contact.stands_proud.nominal;
    proud["worst"] = range_json(contact.stands_proud.worst);
    proud["rss"] = range_json(contact.stands_proud.rss);
    Json out;
    out["between"] = {contact.inboard, contact.outboard};
    out["rings"] = {qualified(contact.inboard, contact.inboard_ring),
                    qualified(contact.outboard, contact.outboard_ring)};
    out["part"] = contact.part;
    out["seat"] = contact.seat.empty() ? "the cone" : contact.seat;
    out["stands_proud"] = std::move(proud);
    if (!contact.state.empty()) out["state"] = contact.state;
    return out;
}

Json contribution_json(const stack::Contribution& c) {
    Json out;
    out["size"] = c.size;
    out["written"] = c.written;
    out["line"] = c.at.line;
    out["column"] = c.at.column;
    out["nominal"] = c.value.nominal;
    out["limits"] = Json::array({c.value.lower, c.value.upper});
    out["sensitivity"] = c.sensitivity;
    out["half_width"] = c.half_width;
    out["worst_share"] = c.worst_share;
    out["variance_share"] = c.variance_share;
    Json halved;
    add_bounds(halved, c.if_halved);
    out["if_halved"] = std::move(halved);
    if (c.fails_if_halved) out["fails_if_halved"] = *c.fails_if_halved;
    return out;
}

Json head(std::string_view command, const std::string& file, quantity::Unit units,
          stack::Judge judge, double inflate) {
    Json out = json_head(command);
    out["file"] = file;
    out["units"] = quantity::name(units);
    out["judge"] = word(judge);
    out["inflate"] = inflate;
    return out;
}

}  // namespace

Json check_result_json(const stack::CheckResult& c) {
    Json out;
    out["check"] = c.name;
    out["kind"] = word(c.kind);
    out["between"] = {c.first, c.second};
    add_bounds(out, c.value);
    out["at_least"] = or_null(c.at_least);
    out["at_most"] = or_null(c.at_most);
    if (!c.at_least_written.empty()) out["at_least_written"] = c.at_least_written;
    if (!c.at_most_written.empty()) out["at_most_written"] = c.at_most_written;
    if (c.greatest) {
        Json widest;
        add_bounds(widest, *c.greatest);
        out["greatest"] = std::move(widest);
    }
    if (c.share) out["share"] = *c.share;
    if (c.at_least_share) out["at_least_share"] = *c.at_least_share;
    if (c.at_most_share) out["at_most_share"] = *c.at_most_share;
    add_verdict(out, c);
    add_states(out, c.state, c.in_states);
    return out;
}

std::string check_json(const stack::CheckAnswer& answer) {
    Json out = head("check", answer.file, answer.units, answer.judge, answer.inflate);
    if (answer.odds_level) {
        out["judge"] = "odds";
        out["odds_level"] = *answer.odds_level;
    }
    out["title"] = answer.title;
    out["verdict"] = word(answer.verdict);
    if (!answer.warnings.empty()) out["warnings"] = words(answer.warnings);
    if (!answer.not_judged.empty()) out["not_judged"] = words(answer.not_judged);
    if (!answer.states.empty()) out["states"] = list_json(answer.states, state_json);
    out["clearances"] = list_json(answer.clearances, clearance_json);
    out["implied_left_out"] = answer.implied_left_out;
    out["checks"] = list_json(answer.checks, check_result_json);
    out["radial"] = list_json(answer.radial, radial_json);
    out["first_contact"] = or_null(answer.first_contact, first_contact_json);
    out["notes"] = words(answer.notes);
    out["not_assessed"] = words(answer.not_assessed);
    out["cautions"] = cautions_json(answer.cautions, NextWork::judge);
    return json_text(out);
}

std::string why_json(const stack::WhyAnswer& answer) {
    Json out = head("why", answer.file, answer.units, answer.judge, answer.inflate);
    if (!answer.warnings.empty()) out["warnings"] = words(answer.warnings);
    out["name"] = name_of(answer);
    out["kind"] = word(answer.kind);
    out["between"] = {answer.first, answer.second};
    if (!answer.deciding.empty()) out["deciding"] = answer.deciding;
    add_bounds(out, answer.value);
    out["at_least"] = or_null(answer.at_least);
    out["at_most"] = or_null(answer.at_most);
    out["more_than"] = answer.more_than;
    out["verdict"] = word(answer.verdict);
    if (!answer.state.empty()) out["state"] = answer.state;
    out["sd"] = answer.sd;
    if (answer.odds) out["odds"] = *answer.odds;
    if (answer.fails) out["fails"] = *answer.fails;
    out["constant"] = answer.constant;
    out["chain"] = list_json(answer.chain, contribution_json);
    out["notes"] = words(answer.notes);
    return json_text(out);
}

}  // namespace trialfit::paper
