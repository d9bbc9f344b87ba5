// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <trialfit/paper/check/findings.hpp>
#include <trialfit/paper/plan/words.hpp>
#include <trialfit/paper/sheet/plan_sheet.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/table.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/quantity/figures.hpp>
#include <trialfit/stack/bounds.hpp>

namespace trialfit::paper {

namespace {

using plan::CutMade;
using plan::PlanAnswer;

std::string line_of(std::string_view what, const std::string& text, const Style& style) {
    constexpr std::size_t kLabel = 12;
    return paragraph(text, style.width, "     " + left(what, kLabel));
}

std::vector<std::string> what_to_watch(const CutMade& cut) {
    std::vector<std::string> all;
    if (cut.thin)
        all.emplace_back(
            "thin for its diameter: it bows in the chuck and springs back; hold it "
            "flat on its back and take light cuts");
    if (cut.turns) all.emplace_back("it turns: have it balanced before it runs");
    if (!cut.note.empty()) all.push_back(harmless(cut.note));
    all.emplace_back("only this face: what was measured from it stays where it is");
    all.emplace_back("face parallel to " + spoken(cut.from) + "; deburr");
    return all;
}

std::string cut_lines(const CutMade& cut, int number, int decimals, const Style& style) {
    std::string out = fmt::format("  {}. Cut {}\n", number, listed(cut.face));
    out += line_of("measure", "from " + listed(cut.from), style);
    out += line_of("size now", fixed(cut.now, decimals), style);
    out += line_of("finish", told_finish(cut.finish, decimals), style);
    out += line_of("window", told_readings(cut, decimals), style);
    out += line_of("metal off", told_removal(cut.now, cut.finish, decimals), style);
    out += line_of("passes", told_passes(cut.passes, decimals), style);
    out += line_of("limit", fmt::format("Do not go below {}.", enough(cut.keep, decimals)), style);
    std::string what = "watch";
    for (const std::string& watch : what_to_watch(cut)) {
        out += line_of(what, watch, style);
        what.clear();
    }
    return out;
}

std::string lap_lines(const plan::LapMade& lap, int number, int decimals, const Style& style) {
    std::string out = fmt::format("  {}. Lap {} with its partner\n", number, listed(lap.cone));
    out += line_of("off",
                   fmt::format("{} on diameter, both parts together", brief(lap.off_diameter, 3)),
                   style);
    out += line_of(
        "moves in",
        fmt::format("{}: measure that, not the diameter", fixed(lap.moves, decimals + 1)), style);
    out += line_of("at most", fmt::format("{} on diameter", brief(lap.at_most, 3)), style);
    out += line_of("watch", "wash every trace of the compound off, twice; keep it out of the seal",
                   style);
    if (!lap.note.empty()) out += line_of("", harmless(lap.note), style);
    return out;
}

std::string centring_lines(const plan::CentringMade& centring, int number, int decimals,
                           const Style& style) {
    std::string out = fmt::format("  {}. Centre {} by hand, before any diameter is touched\n",
                                  number, listed(centring.part));
    return out + line_of("how", told_centring(centring, decimals), style);
}

std::string skim_lines(const plan::SkimMade& skim, int number, int decimals, const Style& style) {
    std::string out = fmt::format("  {}. Skim {} {}\n", number, listed(skim.ring),
                                  skim.bore ? "in the bore" : "on the outside");
    out += line_of("size now", fixed(skim.now, decimals) + " on diameter", style);
    out += line_of("finish", told_finish(skim.finish, decimals) + " on diameter", style);
    out += line_of("window", told_readings(skim, decimals), style);
    out += line_of("metal off",
                   fmt::format("{} on diameter: half of it, {}, is gained all round",
                               told_removal(skim.now, skim.finish, decimals),
                               fixed(0.5 * std::abs(quantity::rounded(skim.now, decimals) -
                                                    quantity::rounded(skim.finish, decimals)),
                                     decimals + 1)),
                   style);
    out += line_of("passes", told_passes(skim.passes, decimals + 1), style);
    std::string left;
    if (skim.keep > 0.0)
        left = fmt::format("Do not leave a wall of less than {} (it will be {}).",
                           enough(skim.keep, decimals), fixed(skim.wall, decimals));
    if (skim.until)
        left += fmt::format(
            "{}Do not go {} {} on diameter.", left.empty() ? "" : " ",
            skim.bore ? "above" : "below",
            skim.bore ? paper::at_most(*skim.until, decimals) : enough(*skim.until, decimals));
    out += line_of("limit", left, style);
    if (!skim.note.empty()) out += line_of("note", harmless(skim.note), style);
    std::string what = "watch";
    for (const std::string& watch : skim_cautions(skim)) {
        out += line_of(what, watch, style);
        what.clear();
    }
    return out;
}

std::string shim_lines(const plan::StackMade& stack, int number, const Style& style) {
    const auto only = [&](bool fitted) {
        std::vector<plan::Piece> some;
        std::copy_if(stack.stack.begin(), stack.stack.end(), std::back_inserter(some),
                     [fitted](const plan::Piece& piece) { return piece.fitted == fitted; });
        return some;
    };
    std::string out = fmt::format("  {}. Shims between {} and {}\n", number, listed(stack.against),
                                  listed(stack.face));
    if (!stack.taken_out.empty()) out += line_of("take out", told_stack(stack.taken_out), style);
    if (!only(true).empty()) out += line_of("leave in", told_stack(only(true)), style);
    if (!only(false).empty()) out += line_of("put in", told_stack(only(false)), style);
    out += line_of(
        "height",
        fmt::format("{} in all, {} before", brief(stack.height, 6), brief(stack.before, 6)), style);
    if (stack.wanted && stack.round)
        out += line_of("rounded",
                       fmt::format("{} from {}, which the aim asks for",
                                   told_rounding(*stack.round), brief(*stack.wanted, 6)),
                       style);
    out += line_of("watch", "measure each piece: what is sold as 0.5 may be 0.53", style);
    return out;
}

stack::Range judged_range(const PlanAnswer& answer, const stack::Bounds& value) {
    return shown_range(value, answer.judge);
}

std::string told_need(const Finding& f, int decimals) {
    if (f.at_least && f.at_most) return range({*f.at_least, *f.at_most}, decimals);
    if (f.at_most) return "≤" + fixed(*f.at_most, decimals);
    if (f.at_least) return (f.more_than ? ">" : "≥") + fixed(*f.at_least, decimals);
    return "-";
}

std::string told_verdict(const Finding& f) {
    std::string out(loud_word(f.verdict));
    // Never as certain, and short enough for a column.
    constexpr double kSurest = 0.9999;
    if (!f.odds) return out;
    if (*f.odds > kSurest) return out + " >0.9999";
    return out + (*f.odds < 1.0 - kSurest ? std::string(" <0.0001") : " " + brief(*f.odds, 4));
}

std::string told_phrase(const PlanAnswer& answer, const stack::CheckAnswer& after) {
    const std::vector<Finding> all = findings(after);
    const bool odds =
        std::any_of(all.begin(), all.end(), [](const Finding& f) { return f.odds.has_value(); });
    return std::string(phrase(answer.judge)) + (odds ? ", odds beside them" : "");
}

// A clearance matters where it did not hold, or where the work moves it.
bool matters(const Finding& before, const Finding& after) {
    return before.verdict != stack::Verdict::holds || after.verdict != stack::Verdict::holds ||
           std::abs(before.value.nominal - after.value.nominal) > stack::kRounding;
}

}  // namespace

std::string plan_sheet(const PlanAnswer& answer, const plan::PlanMade& plan, const Style& style) {
    if (leaves_all(plan)) return {};
    const int decimals = plan_decimals(answer);
    std::string out = "\n" + painted(style, Ink::strong, "Work at the lathe, in this order") + "\n";
    int number = 0;
    for (const plan::CentringMade& centring : plan.centrings)
        out += centring_lines(centring, ++number, decimals, style);
    for (const plan::StackMade& stack : plan.shims)
        if (changed(stack)) out += shim_lines(stack, ++number, style);
    const std::vector<CutMade> cuts = in_order_of_work(plan);
    for (const CutMade& cut : cuts)
        out += cut_lines(cut, ++number, decimals, style);
    for (const plan::LapMade& lap : plan.laps)
        out += lap_lines(lap, ++number, decimals, style);
    for (const plan::SkimMade& skim : plan.skims)
        out += skim_lines(skim, ++number, decimals, style);
    if (cuts.size() + plan.skims.size() > 1)
        out += paragraph(
            "The costly part is cut last. Any readings inside their windows go together; a window "
            "leaves room for the others, and may lie off the finish that is the least work.",
            style.width);
    return out;
}

std::string plan_findings(const PlanAnswer& answer, const stack::CheckAnswer& after,
                          const Style& style) {
    const std::vector<Finding> then = findings(after);
    const std::vector<Finding> now = findings(answer.before);
    std::vector<Finding> both = then;
    both.insert(both.end(), now.begin(), now.end());
    const int decimals = decimals_for(answer.units, both);
    Table out;
    const bool planned = !answer.plans.empty();
    out.columns = {{.heading = "Check", .set = Column::Set::names},
                   {.heading = "needed"},
                   {.heading = planned ? "before" : "now"},
                   {.heading = "", .set = Column::Set::left}};
    if (planned) {
        out.columns.push_back({.heading = "after"});
        out.columns.push_back({.heading = "", .set = Column::Set::left});
    }
    for (const Finding& f : then) {
        const auto same = std::find_if(now.begin(), now.end(), [&](const Finding& other) {
            return other.about == f.about && other.name == f.name;
        });
        if (same == now.end()) continue;
        if (f.about == Finding::About::clearance && !matters(*same, f)) continue;
        out.rows.push_back({.cells = {{.text = listed(f.name, 120)},
                                      {.text = told_need(f, decimals)},
                                      {.text = range(judged_range(answer, same->value), decimals)},
                                      {.text = told_verdict(*same), .ink = ink(same->verdict)}}});
        if (!planned) continue;
        out.rows.back().cells.push_back({.text = range(judged_range(answer, f.value), decimals)});
        out.rows.back().cells.push_back({.text = told_verdict(f), .ink = ink(f.verdict)});
    }
    std::string text = "\n" + table(out, style);
    if (out.rows.empty()) return {};
    return text + paragraph(fmt::format("Ranges {}. Clearances that hold and do not move are left "
                                        "out; `trialfit check` lists them.",
                                        told_phrase(answer, after)),
                            style.width);
}

}  // namespace trialfit::paper
