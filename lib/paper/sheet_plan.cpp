// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/paper/figures.hpp>
#include <trialfit/paper/plan_text.hpp>
#include <trialfit/paper/plan_words.hpp>
#include <trialfit/paper/sheet_blocks.hpp>
#include <trialfit/paper/words.hpp>

namespace trialfit::paper {

namespace {

using Kind = SheetCell::Kind;

std::string least_left(const plan::SkimMade& skim, const Lengths& lengths) {
    if (skim.keep > 0.0) return "wall " + lengths(skim.keep);
    return skim.until ? lengths(*skim.until) : std::string();
}

// Finish and window never rounded out of the sizes that pass, unlike other lengths.
SheetTable cut_table(const plan::PlanMade& plan, const Lengths& lengths) {
    SheetTable out{.caption = "Cuts, in the order of work; finish anywhere in the window",
                   .columns = {{.heading = "Done", .paper_only = true},
                               {.heading = "Turn back"},
                               {.heading = "measured from"},
                               {.heading = "Now", .figures = true},
                               {.heading = "Take off", .figures = true},
                               {.heading = "Finish", .figures = true},
                               {.heading = "Window", .figures = true},
                               {.heading = "Not under", .figures = true},
                               {.heading = "As cut", .paper_only = true}}};
    for (const plan::CutMade& cut : in_order_of_work(plan))
        out.rows.push_back(
            {{.kind = Kind::tick},
             {.kind = Kind::strong, .text = cut.face},
             {.text = cut.from},
             {.text = lengths(cut.now)},
             {.text = lengths(cut.remove)},
             {.kind = Kind::strong,
              .text = lengths.beside(told_finish(cut, lengths.decimals), cut.finish)},
             {.text = lengths.window(cut.window)},
             {.text = lengths(cut.keep)},
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
             {.text = lengths(skim.remove)},
             {.kind = Kind::strong,
              .text = lengths.beside(told_finish(skim, lengths.decimals), skim.finish)},
             {.text = lengths.window(skim.window)},
             {.text = least_left(skim, lengths)},
             {.kind = Kind::blank}});
    return out;
}

SheetTable shim_table(const plan::PlanMade& plan, const Lengths& lengths) {
    SheetTable out{.caption = "Shims: measure each one, a nominal thickness is not a size",
                   .columns = {{.heading = "Done", .paper_only = true},
                               {.heading = "Between"},
                               {.heading = "Fit"},
                               {.heading = "Together", .figures = true},
                               {.heading = "Lay there", .figures = true},
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
        if (cut.turns) out.back() += " It turns: have it balanced again.";
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
        {.heading = answer.plan->plans.empty() ? "What would have to change" : "Cut sheet",
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
