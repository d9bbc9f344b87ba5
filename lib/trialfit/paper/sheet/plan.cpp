// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/paper/plan/text.hpp>
#include <trialfit/paper/plan/words.hpp>
#include <trialfit/paper/sheet/blocks.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/words.hpp>

namespace trialfit::paper {

namespace {

using Kind = SheetCell::Kind;

std::string least_left(const plan::SkimMade& skim, const Lengths& lengths) {
    std::string left;
    if (skim.keep > 0.0) left = "wall not under " + lengths.least(skim.keep);
    if (!skim.until) return left;
    if (!left.empty()) left += "; ";
    return left + (skim.bore ? "not over " + lengths.most(*skim.until)
                             : "not under " + lengths.least(*skim.until));
}

template <typename Made>
std::string window_of(const Made& made, const Lengths& lengths) {
    if (made.no_window) return told_readings(made, lengths.decimals);
    return lengths.window(made.window) +
           (made.read_by.empty() ? std::string() : " by " + listed(made.read_by));
}

template <typename Made>
std::string taken_off(const Made& made, const Lengths& lengths) {
    return lengths.beside(told_removal(made.now, made.finish, lengths.decimals), made.remove);
}

SheetTable cut_table(const plan::PlanMade& plan, const Lengths& lengths) {
    SheetTable out{.caption = "In this order; any readings inside their windows go together",
                   .columns = {{.heading = "Done", .paper_only = true},
                               {.heading = "Cut"},
                               {.heading = "measured from"},
                               {.heading = "Now", .figures = true},
                               {.heading = "Take off", .figures = true},
                               {.heading = "Finish", .figures = true},
                               {.heading = "Window", .figures = true},
                               {.heading = "Limit", .figures = true},
                               {.heading = "As cut", .paper_only = true}}};
    for (const plan::CutMade& cut : in_order_of_work(plan))
        out.rows.push_back(
            {{.kind = Kind::tick},
             {.kind = Kind::strong, .text = cut.face},
             {.text = cut.from},
             {.text = lengths(cut.now)},
             {.text = taken_off(cut, lengths)},
             {.kind = Kind::strong,
              .text = lengths.beside(told_finish(cut.finish, lengths.decimals), cut.finish)},
             {.text = window_of(cut, lengths)},
             {.text = "not under " + lengths.least(cut.keep)},
             {.kind = Kind::blank}});
    for (const plan::LapMade& lap : plan.laps)
        out.rows.push_back({{.kind = Kind::tick},
                            {.kind = Kind::strong, .text = "lap " + lap.cone},
                            {.text = "diameters, both parts together"},
                            {},
                            {.text = lengths(lap.off_diameter)},
                            {.kind = Kind::strong, .text = lengths(lap.moves) + " further on"},
                            {.text = lengths.window(lap.window)},
                            {},
                            {.kind = Kind::blank}});
    for (const plan::SkimMade& skim : plan.skims)
        out.rows.push_back(
            {{.kind = Kind::tick},
             {.kind = Kind::strong, .text = "skim " + skim.ring + (skim.bore ? " bore" : " od")},
             {.text = "on diameter"},
             {.text = lengths(skim.now)},
             {.text = taken_off(skim, lengths)},
             {.kind = Kind::strong,
              .text = lengths.beside(told_finish(skim.finish, lengths.decimals), skim.finish)},
             {.text = window_of(skim, lengths)},
             {.text = least_left(skim, lengths)},
             {.kind = Kind::blank}});
    return out;
}

SheetTable shim_table(const plan::PlanMade& plan, const Lengths& lengths) {
    SheetTable out{.caption = "Shims: measure each one, a nominal thickness is not a size",
                   .columns = {{.heading = "Done", .paper_only = true},
                               {.heading = "Between"},
                               {.heading = "Fit"},
                               {.heading = "Height in all", .figures = true},
                               {.heading = "There now", .figures = true},
                               {.heading = "Measured", .paper_only = true}}};
    for (const plan::StackMade& shims : plan.shims) {
        if (!changed(shims)) continue;
        out.rows.push_back({{.kind = Kind::tick},
                            {.text = shims.against + " and " + shims.face},
                            {.kind = Kind::strong, .text = told_stack(shims.stack)},
                            {.text = lengths(shims.height)},
                            {.text = lengths(shims.before)},
                            {.kind = Kind::blank}});
    }
    return out;
}

std::vector<std::string> remarks(const plan::PlanMade& plan, bool proven, int decimals) {
    std::vector<std::string> out;
    for (const plan::CentringMade& centring : plan.centrings)
        out.push_back(
            fmt::format("First centre {}: {}.", centring.part, told_centring(centring, decimals)));
    for (const plan::CutMade& cut : in_order_of_work(plan)) {
        out.push_back(fmt::format("{}: {}.", cut.face, told_passes(cut.passes, decimals)));
        if (!cut.note.empty()) out.back() += fmt::format(" Note: {}.", cut.note);
        if (cut.turns) out.back() += " It turns: have it balanced before it runs.";
        if (cut.thin) out.back() += " What is left is thin for its diameter and bows in the chuck.";
    }
    for (const plan::LapMade& lap : plan.laps)
        if (!lap.note.empty()) out.push_back(lap.cone + ": " + lap.note);
    for (const plan::SkimMade& skim : plan.skims) {
        out.push_back(fmt::format("{}: {}.", skim.ring, told_passes(skim.passes, decimals)));
        if (!skim.note.empty()) out.back() += fmt::format(" Note: {}.", skim.note);
        for (const std::string& watch : skim_cautions(skim))
            out.push_back(fmt::format("Skimming {}: {}.", skim.ring, watch));
    }
    if (!plan.cuts.empty())
        out.emplace_back(
            "Face parallel to the face measured from; deburr. After each cut measure, write the "
            "size down, and plan again: the cuts after it may then be smaller.");
    if (!proven) out.emplace_back("Not proven to be the least work.");
    return out;
}

std::vector<SheetBlock> conflict_blocks(const plan::NoPlan& why, const plan::PlanAnswer& answer) {
    const ToldConflict told = told_conflict(why, answer);
    std::vector<SheetBlock> out;
    if (!told.stuck.empty())
        out.push_back({.paragraphs = {"Fails now, and nothing that the job allows moves it:"},
                       .bullets = told.stuck});
    if (!told.members.empty()) {
        const std::string way = "What stands in each other's way:";
        out.push_back({.paragraphs = {way}, .bullets = told.members});
    }
    SheetBlock least;
    if (!told.meaning.empty()) least.paragraphs.push_back(told.meaning);
    least.paragraphs.push_back("The least that would make a plan: " + told.least);
    out.push_back(std::move(least));
    return out;
}

}  // namespace

std::vector<SheetBlock> plan_blocks(const sheet::SheetAnswer& answer, const Lengths& lengths) {
    if (!answer.plan) return {};
    std::vector<SheetBlock> out;
    out.push_back(
        {.heading = answer.plan->plans.empty() ? "What would have to change" : "Work at the lathe",
         .paragraphs = {plan_headline(*answer.plan)}});
    if (answer.plan->plans.empty()) {
        if (answer.plan->conflict)
            for (SheetBlock& each : conflict_blocks(*answer.plan->conflict, *answer.plan))
                out.push_back(std::move(each));
        return out;
    }
    const plan::PlanMade& plan = answer.plan->plans.front();
    if (leaves_all(plan)) return out;
    if (!plan.cuts.empty() || !plan.laps.empty() || !plan.skims.empty())
        out.back().table = cut_table(plan, lengths);
    SheetTable shims = shim_table(plan, lengths);
    if (!shims.rows.empty()) out.push_back({.table = std::move(shims)});
    out.back().bullets = remarks(plan, plan.proven, lengths.decimals);
    return out;
}

}  // namespace trialfit::paper
