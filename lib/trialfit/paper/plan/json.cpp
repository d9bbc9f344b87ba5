// SPDX-License-Identifier: MIT
#include <trialfit/paper/check/cautions.hpp>
#include <trialfit/paper/json/parts.hpp>
#include <trialfit/paper/plan/text.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>

namespace trialfit::paper {

namespace {

// What a cut or a skim is read by, and the readings that pass; null where none is sure to.
template <typename Made>
void add_window(const Made& made, Json& out) {
    out["window"] = made.no_window ? Json() : range_json(made.window);
    out["read_within"] = made.read_within;
    if (!made.read_by.empty()) out["read_by"] = made.read_by;
}

Json cut_json(const plan::CutMade& cut) {
    Json out{{"face", cut.face},     {"from", cut.from}, {"finish", cut.finish},
             {"remove", cut.remove}, {"now", cut.now},   {"holds", cut.holds},
             {"keep", cut.keep},     {"cost", cut.cost}};
    if (cut.by_amount) {
        out["by_amount"] = true;
        out["finish"] = nullptr;
        out["now"] = nullptr;
    }
    add_window(cut, out);
    if (cut.by_amount) {
        out["least_off"] = cut.window.lo;
        out["window"] = nullptr;
    }
    if (cut.may_be) out["may_be"] = *cut.may_be;
    if (!cut.note.empty()) out["note"] = cut.note;
    out["passes"] = {
        {"rough", cut.passes.rough}, {"depth", cut.passes.depth}, {"last", cut.passes.last}};
    return out;
}

Json lap_json(const plan::LapMade& lap) {
    Json out{{"cone", lap.cone},
             {"off_diameter", lap.off_diameter},
             {"window", range_json(lap.window)},
             {"moves", lap.moves},
             {"at_most", lap.at_most},
             {"cost", lap.cost}};
    if (!lap.note.empty()) out["note"] = lap.note;
    return out;
}

Json skim_json(const plan::SkimMade& skim) {
    Json out{{"ring", skim.ring},
             {"turn", skim.bore ? "bore" : "od"},
             {"finish", skim.finish},
             {"remove", skim.remove},
             {"now", skim.now},
             {"holds", skim.holds},
             {"wall", skim.wall},
             {"keep", skim.keep},
             {"until", or_null(skim.until)},
             {"cost", skim.cost}};
    add_window(skim, out);
    if (skim.may_be) out["may_be"] = *skim.may_be;
    if (!skim.note.empty()) out["note"] = skim.note;
    return out;
}

Json centring_json(const plan::CentringMade& centring) {
    return {{"part", centring.part}, {"on", centring.on},       {"play", centring.play},
            {"to", centring.to},     {"gains", centring.gains}, {"cost", centring.cost}};
}

Json thicknesses(const std::vector<plan::Piece>& pieces) {
    return list_json(pieces, [](const plan::Piece& piece) { return piece.thickness; });
}

Json stack_json(const plan::StackMade& stack) {
    Json out{{"part", stack.part},
             {"stack", thicknesses(stack.stack)},
             {"between", {stack.against, stack.face}},
             {"taken_out", thicknesses(stack.taken_out)},
             {"height", stack.height},
             {"before", stack.before},
             {"cost", stack.cost}};
    if (stack.wanted) out["wanted"] = *stack.wanted;
    return out;
}

Json planned_check(const stack::CheckResult& after, const stack::CheckResult& before) {
    Json out{{"check", after.name}, {"kind", word(after.kind)}};
    add_bounds(out, after.value);
    out["at_least"] = or_null(after.at_least);
    out["at_most"] = or_null(after.at_most);
    if (after.share) out["share"] = *after.share;
    out["verdict"] = word(after.verdict);
    if (after.odds) out["odds"] = *after.odds;
    Json was;
    add_bounds(was, before.value);
    was["verdict"] = word(before.verdict);
    out["before"] = std::move(was);
    return out;
}

Json planned_clearance(const stack::Clearance& after) {
    Json out{{"between", {after.inboard, after.outboard}}, {"at_least", after.at_least}};
    add_bounds(out, after.gap);
    out["verdict"] = word(after.verdict);
    if (after.odds) out["odds"] = *after.odds;
    return out;
}

Json reading_after(const plan::ReadingAfter& each) {
    return {{"from", each.from},
            {"to", each.to},
            {"nominal", each.nominal},
            {"worst", range_json(each.worst)},
            {"as_in", or_null(each.as_in)}};
}

Json one_plan(const plan::PlanMade& plan, const stack::CheckAnswer& before) {
    Json out{{"cost", plan.cost},
             {"cuts", list_json(plan.cuts, cut_json)},
             {"laps", list_json(plan.laps, lap_json)},
             {"centrings", list_json(plan.centrings, centring_json)},
             {"skims", list_json(plan.skims, skim_json)},
             {"shims", list_json(plan.shims, stack_json)},
             {"readings_after", list_json(plan.readings, reading_after)},
             {"checks", Json::array()},
             {"clearances", list_json(plan.after.clearances, planned_clearance)},
             {"proven", plan.proven}};
    if (plan.set_to_aim) out["set_to_aim"] = true;
    if (plan.needs_metal) out["needs_metal"] = true;
    for (std::size_t c = 0; c < plan.after.checks.size(); ++c)
        out["checks"].push_back(planned_check(plan.after.checks[c], before.checks.at(c)));
    return out;
}

const char* kind_word(plan::Stands::Kind kind) {
    using Kind = plan::Stands::Kind;
    switch (kind) {
        case Kind::clearance:
            return "clearance";
        case Kind::least:
            return "at_least";
        case Kind::most:
            return "at_most";
        case Kind::keep:
            return "keep";
        case Kind::lap:
            return "lap";
        case Kind::skim:
            return "skim";
        case Kind::rounding:
            return "round";
        case Kind::shims:
            break;
    }
    return "shims";
}

Json stands_json(const plan::Stands& stands) {
    Json out{{"kind", kind_word(stands.kind)}, {"name", stands.name}, {"limit", stands.limit}};
    if (!stands.difference.empty()) out["difference"] = stands.difference;
    if (!stands.state.empty()) out["state"] = stands.state;
    out["now"] = or_null(stands.best);
    if (stands.odds) out["odds"] = *stands.odds;
    return out;
}

Json conflict_json(const plan::NoPlan& why) {
    Json out{{"members", list_json(why.members, stands_json)}, {"irreducible", why.irreducible}};
    if (why.opposed) out["opposed"] = true;
    out["relax"] = or_null(why.relaxed, stands_json);
    out["by"] = why.relaxed ? Json(why.relaxed_by) : Json();
    out["sought"] = why.sought;
    out["immovable"] = list_json(why.immovable, stands_json);
    return out;
}

}  // namespace

std::string plan_json(const plan::PlanAnswer& answer) {
    Json out{{"trialfit", 1},
             {"command", "plan"},
             {"file", answer.file},
             {"units", quantity::name(answer.units)},
             {"judge", answer.odds_level ? "odds" : word(answer.judge)},
             {"inflate", answer.inflate},
             {"title", answer.title},
             {"before", word(answer.before.verdict)}};
    if (answer.odds_level) out["odds_level"] = *answer.odds_level;
    if (!answer.warnings.empty()) out["warnings"] = words(answer.warnings);
    out["plans"] = list_json(
        answer.plans, [&](const plan::PlanMade& plan) { return one_plan(plan, answer.before); });
    out["proven"] = answer.proven;
    out["ties"] = answer.ties;
    out["more_ties"] = answer.more_ties;
    if (answer.stopped) out["stopped"] = true;
    out["conflict"] = or_null(answer.conflict, conflict_json);
    out["notes"] = words(answer.notes);
    out["not_assessed"] = words(answer.not_assessed);
    out["cautions"] = cautions_json(answer.before.cautions, NextWork::cut);
    return json_text(out);
}

}  // namespace trialfit::paper
