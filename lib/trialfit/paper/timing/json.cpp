// SPDX-License-Identifier: MIT
#include <trialfit/paper/check/cautions.hpp>
#include <trialfit/paper/json/parts.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/timing/text.hpp>
#include <trialfit/paper/timing/words.hpp>
#include <trialfit/paper/words/words.hpp>

namespace trialfit::paper {

namespace {

using timing::TimingAnswer;

Json share_json(const timing::Share& share) {
    return {{"of", share.of},
            {"written", share.written},
            {"half_width_deg", share.half_width_deg},
            {"sd_deg", share.sd_deg},
            {"worst_share", share.worst_share},
            {"variance_share", share.variance_share}};
}

Json firing_json(const timing::Firing& firing) {
    const timing::CrankPoint& set = firing.set;
    return {{"written", firing.written},
            {"degrees", set.degrees},
            {"height", set.height},
            {"gauge_reading", set.gauge_reading},
            {"height_per_deg", set.height_per_deg},
            {"worst_deg", range_json(set.worst)},
            {"rss_deg", range_json(set.rss)},
            {"sd_deg", set.sd_deg},
            {"allowed_deg", or_null(firing.allowed_deg, range_json)},
            {"allowed_height", or_null(firing.allowed_height, range_json)},
            {"gauge", or_null(firing.gauge)},
            {"gauge_half_width", firing.gauge_half_width},
            {"gauge_keeps_it",
             or_null(firing.gauge_keeps_it, [](stack::Verdict verdict) { return word(verdict); })},
            {"shares", list_json(set.shares, share_json)}};
}

Json now_json(const timing::FiresNow& now) {
    return {{"written", now.written},
            {"degrees", now.degrees},
            {"height", now.height},
            {"worst_deg", range_json(now.worst)}};
}

Json found_top_json(const timing::FoundTop& top) {
    Json out{{"top_deg", top.top_deg},
             {"middle_deg", top.middle_deg},
             {"worst_deg", top.worst_deg},
             {"sd_deg", top.sd_deg},
             {"set_worst_deg", top.set_worst_deg},
             {"set_sd_deg", top.set_sd_deg}};
    if (top.height) {
        out["height"] = *top.height;
        out["holds"] = top.holds;
    }
    return out;
}

Json top_json(const timing::Top& top) {
    return {{"by_stops", or_null(top.by_stops, found_top_json)},
            {"by_dwell", or_null(top.by_dwell, found_top_json)},
            {"gauges", list_json(top.gauges, [](const timing::GaugeDwell& dwell) {
                 return Json{{"gauge", dwell.gauge},
                             {"half_width", dwell.half_width},
                             {"before_deg", dwell.before_deg},
                             {"after_deg", dwell.after_deg}};
             })}};
}

Json offset_json(const timing::Offset& offset) {
    return {{"degrees", offset.degrees}, {"arc", offset.arc}, {"chord", offset.chord}};
}

Json circle_json(const timing::MarkCircle& circle) {
    return {{"dia", circle.one_degree.dia},
            {"one_degree", offset_json(circle.one_degree)},
            {"firing", or_null(circle.firing, offset_json)},
            {"turn", or_null(circle.turn, offset_json)}};
}

Json mark_json(const timing::MarkFit& mark) {
    return {{"mark", mark.name},
            {"written", mark.written},
            {"degrees", mark.degrees},
            {"limits_deg", range_json(mark.limits)},
            {"height", or_null(mark.height)},
            {"early_deg", mark.off_deg},
            {"fits", mark.fits},
            {"fits_turned_round", mark.fits_turned_round}};
}

Json marks_json(const timing::Marks& marks) {
    Json out{{"rim", or_null(marks.rim, circle_json)},
             {"stator", or_null(marks.stator, circle_json)},
             {"found", list_json(marks.found, mark_json)},
             {"nearest", Json()}};
    if (marks.nearest) out["nearest"] = marks.found.at(*marks.nearest).name;
    return out;
}

Json room_json(const timing::Room& room) {
    return {{"arc", room.arc}, {"degrees", room.degrees}, {"least_deg", room.least_deg}};
}

Json turn_json(const timing::Turn& turn) {
    return {
        {"earlier_deg", turn.degrees},
        {"worst_deg", range_json(turn.worst)},
        {"arc", turn.arc},
        {"free_arc", turn.free_arc},
        {"short_arc", turn.short_arc},
        {"short_arc_worst", turn.short_arc_worst},
        {"short_side", turn.short_arc_worst > 0.0 ? Json(turn.short_earlier ? "earlier" : "later")
                                                  : Json(nullptr)},
        {"verdict", word(turn.verdict)},
        {"furthest_deg", turn.furthest_deg},
        {"furthest_height", turn.furthest_height}};
}

Json slot_json(const timing::SlotTravel& slot) {
    return {{"dia", slot.dia},
            {"earlier", room_json(slot.earlier)},
            {"later", room_json(slot.later)},
            {"turn", or_null(slot.turn, turn_json)}};
}

Json setting_json(const timing::Setting& setting) {
    return {{"setting", setting.name},
            {"adds_up", setting.adds_up},
            {"sparks", list_json(setting.sparks, [](const timing::Spark& spark) {
                 return Json{{"rpm", spark.rpm},
                             {"degrees", spark.degrees},
                             {"height", spark.height},
                             {"milliseconds", or_null(spark.milliseconds)},
                             {"covered", spark.covered}};
             })}};
}

Json comparison_json(const timing::Comparison& comparison) {
    return {{"one", comparison.one},
            {"other", comparison.other},
            {"rows", list_json(comparison.rows, [](const timing::Comparison::Row& row) {
                 return Json{{"rpm", row.rpm},
                             {"one_deg", row.one_deg},
                             {"other_deg", row.other_deg},
                             {"earlier_deg", row.more_deg},
                             {"earlier_milliseconds", or_null(row.more_milliseconds)}};
             })}};
}

Json engine_json(const TimingAnswer& answer) {
    return {{"stroke", answer.stroke},
            {"rod", answer.rod},
            {"pin_offset", answer.pin_offset},
            {"plug_tilt_deg", answer.plug_tilt_deg},
            {"gauge", or_null(answer.gauge)},
            {"gauge_half_width", answer.gauge_half_width},
            {"turns", or_null(answer.turns, [](trade::Turning turning) { return word(turning); })}};
}

}  // namespace

std::string timing_json(const TimingAnswer& answer) {
    Json out = json_head("timing");
    out["file"] = answer.file;
    out["units"] = quantity::name(answer.units);
    out["title"] = answer.title;
    if (!answer.warnings.empty()) out["warnings"] = words(answer.warnings);
    out["verdict"] = word(answer.verdict);
    out["engine"] = engine_json(answer);
    out["stator_turns"] = or_null(answer.stator_turns, [](const timing::StatorTurns& turns) {
        return Json{{"earlier", word(turns.earlier)}, {"later", word(turns.later)}};
    });
    out["firing"] = or_null(answer.firing, firing_json);
    out["now"] = or_null(answer.now, now_json);
    out["top"] = top_json(answer.top);
    out["marks"] = marks_json(answer.marks);
    out["slot"] = or_null(answer.slot, slot_json);
    out["settings"] = list_json(answer.settings, setting_json);
    out["comparisons"] = list_json(answer.comparisons, comparison_json);
    out["not_judged"] = words(answer.not_judged);
    out["notes"] = words(answer.notes);
    out["cautions"] = cautions_json(answer.cautions, NextWork::time);
    return json_text(out);
}

}  // namespace trialfit::paper
