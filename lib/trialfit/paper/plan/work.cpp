// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <trialfit/paper/check/findings.hpp>
#include <trialfit/paper/plan/words.hpp>
#include <trialfit/paper/plan/work.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/plan/order_of_work.hpp>
#include <trialfit/quantity/figures.hpp>
#include <trialfit/stack/bounds.hpp>

namespace trialfit::paper {

namespace {

using plan::CutMade;
using plan::PlanAnswer;

std::vector<std::string> what_to_watch(const CutMade& cut, int decimals) {
    std::vector<std::string> all;
    if (cut.thin)
        all.emplace_back(
            "thin for its diameter: it bows in the chuck and springs back; hold it "
            "flat on its back and take light cuts");
    if (cut.turns) all.emplace_back("it turns: have it balanced before it runs");
    if (!cut.note.empty()) all.push_back(cut.note);
    if (cut.may_be) all.push_back(told_may_be(cut, decimals));
    all.emplace_back("only this face: what was measured from it stays where it is");
    all.emplace_back("face parallel to " + spoken(cut.from) + "; deburr");
    return all;
}

// What to watch: the first with its label, the rest under it.
void add_watch(Item& step, const std::vector<std::string>& all) {
    std::string_view label = "watch";
    for (const std::string& watch : all) {
        step.facts.push_back({std::string(label), watch});
        label = "";
    }
}

// Of a thickness that nobody has measured only what comes off is known.
Item amount_step(const CutMade& cut, int decimals) {
    Item out{.text = "Cut " + listed(cut.face),
             .facts = {{"metal off", told_finish(cut.remove, decimals) + ", no less than " +
                                         told_least_off(cut, decimals)},
                       {"passes", told_passes(cut.passes, decimals)},
                       {"limit", fmt::format("Do not leave less than {} from {}: measure it first, "
                                             "nobody has.",
                                             enough(cut.keep, decimals), listed(cut.from))}}};
    add_watch(out, what_to_watch(cut, decimals));
    return out;
}

Item cut_step(const CutMade& cut, int decimals) {
    if (cut.by_amount) return amount_step(cut, decimals);
    Item out{.text = "Cut " + listed(cut.face),
             .facts = {{"measure", "from " + listed(cut.from)},
                       {"size now", fixed(cut.now, decimals)},
                       {"finish", told_finish(cut.finish, decimals)},
                       {"window", told_readings(cut, decimals)},
                       {"metal off", told_removal(cut.now, cut.finish, decimals)},
                       {"passes", told_passes(cut.passes, decimals)},
                       {"limit", fmt::format("Do not go below {}.", enough(cut.keep, decimals))}}};
    add_watch(out, what_to_watch(cut, decimals));
    return out;
}

Item lap_step(const plan::LapMade& lap, int decimals) {
    Item out{
        .text = fmt::format("Lap {} with its partner", listed(lap.cone)),
        .facts = {
            {"off", brief(lap.off_diameter, 3) + " on diameter, both parts together"},
            {"moves in", fixed(lap.moves, decimals + 1) + ": measure that, not the diameter"},
            {"at most", brief(lap.at_most, 3) + " on diameter"},
            {"watch", "wash every trace of the compound off, twice; keep it out of the seal"}}};
    if (!lap.note.empty()) out.facts.push_back({"", lap.note});
    return out;
}

Item centring_step(const plan::CentringMade& centring, int decimals) {
    return {.text = fmt::format("Centre {} by hand, before any diameter is touched",
                                listed(centring.part)),
            .facts = {{"how", told_centring(centring, decimals)}}};
}

std::string skim_limits(const plan::SkimMade& skim, int decimals) {
    std::string out;
    if (skim.keep > 0.0)
        out = fmt::format("Do not leave a wall of less than {} (it will be {}).",
                          enough(skim.keep, decimals), fixed(skim.wall, decimals));
    if (skim.until)
        out += fmt::format(
            "{}Do not go {} {} on diameter.", out.empty() ? "" : " ", skim.bore ? "above" : "below",
            skim.bore ? paper::at_most(*skim.until, decimals) : enough(*skim.until, decimals));
    return out;
}

Item skim_step(const plan::SkimMade& skim, int decimals) {
    const double gained = 0.5 * std::abs(quantity::rounded(skim.now, decimals) -
                                         quantity::rounded(skim.finish, decimals));
    Item out{.text = fmt::format("Skim {} {}", listed(skim.ring),
                                 skim.bore ? "in the bore" : "on the outside"),
             .facts = {{"size now", fixed(skim.now, decimals) + " on diameter"},
                       {"finish", told_finish(skim.finish, decimals) + " on diameter"},
                       {"window", told_readings(skim, decimals)},
                       {"metal off", fmt::format("{} on diameter: half of it, {}, is gained all "
                                                 "round",
                                                 told_removal(skim.now, skim.finish, decimals),
                                                 fixed(gained, decimals + 1))},
                       {"passes", told_passes(skim.passes, decimals + 1)},
                       {"limit", skim_limits(skim, decimals)}}};
    if (!skim.note.empty()) out.facts.push_back({"note", skim.note});
    if (skim.may_be) out.facts.push_back({"first", told_may_be(skim, decimals)});
    add_watch(out, skim_cautions(skim));
    return out;
}

Item shim_step(const plan::StackMade& stack) {
    const auto only = [&](bool fitted) {
        std::vector<plan::Piece> some;
        std::ranges::copy_if(stack.stack, std::back_inserter(some),
                             [fitted](const plan::Piece& piece) { return piece.fitted == fitted; });
        return some;
    };
    Item out{.text =
                 fmt::format("Shims between {} and {}", listed(stack.against), listed(stack.face))};
    const auto add = [&out](std::string label, std::string text) {
        out.facts.push_back({std::move(label), std::move(text)});
    };
    if (!stack.taken_out.empty()) add("take out", told_stack(stack.taken_out));
    if (!only(true).empty()) add("leave in", told_stack(only(true)));
    if (!only(false).empty()) add("put in", told_stack(only(false)));
    add("height",
        fmt::format("{} in all, {} before", brief(stack.height, 6), brief(stack.before, 6)));
    if (stack.wanted && stack.round)
        add("rounded", fmt::format("{} from {}, which the aim asks for",
                                   told_rounding(*stack.round), brief(*stack.wanted, 6)));
    add("watch", "measure each piece: what is sold as 0.5 may be 0.53");
    return out;
}

std::string told_verdict(const CheckFinding& f) {
    std::string out(loud_word(f.verdict));
    // Never as certain, and short enough for a column.
    constexpr double kSurest = 0.9999;
    if (!f.odds) return out;
    if (*f.odds > kSurest) return out + " >0.9999";
    return out + (*f.odds < 1.0 - kSurest ? std::string(" <0.0001") : " " + brief(*f.odds, 4));
}

std::string told_phrase(const PlanAnswer& answer, const stack::CheckAnswer& after) {
    const std::vector<CheckFinding> all = findings(after);
    const bool odds =
        std::ranges::any_of(all, [](const CheckFinding& f) { return f.odds.has_value(); });
    return std::string(phrase(answer.judge)) + (odds ? ", odds beside them" : "");
}

std::string told_shown(const stack::Bounds& value, stack::Judge judge, int decimals) {
    return judge == stack::Judge::rss ? told_rss(value, decimals) : told_worst(value, decimals);
}

// A clearance matters where it did not hold, or where the work moves it.
bool matters(const CheckFinding& before, const CheckFinding& after) {
    return before.verdict != stack::Verdict::holds || after.verdict != stack::Verdict::holds ||
           before.value.open() || after.value.open() ||
           std::abs(before.value.nominal - after.value.nominal) > stack::kRounding;
}

}  // namespace

Document plan_work(const PlanAnswer& answer, const plan::PlanMade& plan) {
    Document out;
    if (leaves_all(plan)) return out;
    const int decimals = plan_decimals(answer);
    List steps{.mark = List::Mark::number};
    for (const plan::CentringMade& centring : plan.centrings)
        steps.items.push_back(centring_step(centring, decimals));
    for (const plan::StackMade& stack : plan.shims)
        if (changed(stack)) steps.items.push_back(shim_step(stack));
    const std::vector<CutMade> cuts = plan::in_order_of_work(plan);
    for (const CutMade& cut : cuts)
        steps.items.push_back(cut_step(cut, decimals));
    for (const plan::LapMade& lap : plan.laps)
        steps.items.push_back(lap_step(lap, decimals));
    for (const plan::SkimMade& skim : plan.skims)
        steps.items.push_back(skim_step(skim, decimals));
    out.add(Heading{"Work at the lathe, in this order"}).under(std::move(steps));
    if (cuts.size() + plan.skims.size() > 1)
        out.under(
            Paragraph{"The costly part is cut last. Any readings inside their windows go together; "
                      "a window leaves room for the others, and may lie off the finish that is the "
                      "least work."});
    return out;
}

Document plan_findings(const PlanAnswer& answer, const stack::CheckAnswer& after) {
    const std::vector<CheckFinding> then = findings(after);
    const std::vector<CheckFinding> now = findings(answer.before);
    std::vector<CheckFinding> both = then;
    both.insert(both.end(), now.begin(), now.end());
    const int decimals = decimals_for(answer.units, both);
    const bool planned = !answer.plans.empty();
    Table out{.columns = {Column::names("Check"), "needed", planned ? "before" : "now",
                          Column::words("")}};
    if (planned) out.columns.insert(out.columns.end(), {"after", Column::words("")});
    for (const CheckFinding& f : then) {
        const auto same = std::ranges::find_if(now, [&](const CheckFinding& other) {
            return other.about == f.about && other.name == f.name;
        });
        if (same == now.end()) continue;
        if (f.about == CheckFinding::About::clearance && !matters(*same, f)) continue;
        out.add({listed(f.name, 120),
                 needed(f, decimals),
                 told_shown(same->value, answer.judge, decimals),
                 {told_verdict(*same), ink(same->verdict)}});
        if (!planned) continue;
        out.rows.back().cells.emplace_back(told_shown(f.value, answer.judge, decimals));
        out.rows.back().cells.emplace_back(told_verdict(f), ink(f.verdict));
    }
    Document set;
    if (out.rows.empty()) return set;
    return set.add(std::move(out))
        .under(Paragraph{fmt::format("Ranges {}. Clearances that hold and do not move are left "
                                     "out; `trialfit check` lists them.",
                                     told_phrase(answer, after))});
}

}  // namespace trialfit::paper
