// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/paper/figures.hpp>
#include <trialfit/paper/plan_text.hpp>
#include <trialfit/paper/sheet_blocks.hpp>
#include <trialfit/paper/words.hpp>

namespace trialfit::paper {

namespace {

using Kind = SheetCell::Kind;

SheetTable cut_table(const plan::PlanMade& plan, const Lengths& lengths) {
    SheetTable out{.caption = "Cuts: finish anywhere in the window",
                   .columns = {{.heading = "Done", .paper_only = true},
                               {.heading = "Turn back"},
                               {.heading = "measured from"},
                               {.heading = "Now", .figures = true},
                               {.heading = "Take off", .figures = true},
                               {.heading = "Finish", .figures = true},
                               {.heading = "Window", .figures = true},
                               {.heading = "Not under", .figures = true},
                               {.heading = "As cut", .paper_only = true}}};
    for (const plan::CutMade& cut : plan.cuts)
        out.rows.push_back({{.kind = Kind::tick},
                            {.kind = Kind::strong, .text = cut.face},
                            {.text = cut.from},
                            {.text = lengths(cut.now)},
                            {.text = lengths(cut.remove)},
                            {.kind = Kind::strong, .text = lengths(cut.finish)},
                            {.text = lengths.range(cut.window)},
                            {.text = lengths(cut.keep)},
                            {.kind = Kind::blank}});
    for (const plan::LapMade& lap : plan.laps)
        out.rows.push_back({{.kind = Kind::tick},
                            {.kind = Kind::strong, .text = "lap " + lap.cone},
                            {.text = "diameters, both parts together"},
                            {},
                            {.text = lengths(lap.off_diameter)},
                            {.kind = Kind::strong, .text = lengths(lap.moves) + " further on"},
                            {.text = lengths.range(lap.window)},
                            {},
                            {.kind = Kind::blank}});
    return out;
}

std::string pieces(const std::vector<plan::Piece>& stack, const Lengths& lengths) {
    std::string out;
    for (const plan::Piece& piece : stack)
        out += (out.empty() ? "" : " + ") + lengths(piece.thickness);
    return out.empty() ? "none" : out;
}

SheetTable shim_table(const plan::PlanMade& plan, const Lengths& lengths) {
    SheetTable out{.caption = "Shims: measure each one, a nominal thickness is not a size",
                   .columns = {{.heading = "Done", .paper_only = true},
                               {.heading = "Between"},
                               {.heading = "Fit"},
                               {.heading = "Together", .figures = true},
                               {.heading = "Lay there", .figures = true},
                               {.heading = "Measured", .paper_only = true}}};
    for (const plan::StackMade& shims : plan.shims)
        out.rows.push_back({{.kind = Kind::tick},
                            {.text = shims.against + " and " + shims.face},
                            {.kind = Kind::strong, .text = pieces(shims.stack, lengths)},
                            {.text = lengths(shims.height)},
                            {.text = lengths(shims.before)},
                            {.kind = Kind::blank}});
    return out;
}

std::vector<std::string> remarks(const plan::PlanMade& plan, bool proven) {
    std::vector<std::string> out;
    for (const plan::CutMade& cut : plan.cuts) {
        if (!cut.note.empty()) out.push_back(cut.face + ": " + cut.note);
        if (cut.thin)
            out.push_back(cut.face +
                          ": what is left is thin for its diameter and bows in the chuck.");
    }
    for (const plan::LapMade& lap : plan.laps)
        if (!lap.note.empty()) out.push_back(lap.cone + ": " + lap.note);
    out.emplace_back("After each cut measure, write the size down, and plan again.");
    if (!proven) out.emplace_back("Not proven to be the least work.");
    return out;
}

}  // namespace

std::vector<SheetBlock> plan_blocks(const sheet::SheetAnswer& answer, const Lengths& lengths) {
    if (!answer.plan || answer.plan->nothing_to_change) return {};
    std::vector<SheetBlock> out;
    out.push_back({.heading = "Cut sheet", .paragraphs = {plan_headline(*answer.plan)}});
    if (answer.plan->plans.empty()) return out;
    const plan::PlanMade& plan = answer.plan->plans.front();
    if (!plan.cuts.empty() || !plan.laps.empty()) out.back().table = cut_table(plan, lengths);
    if (!plan.shims.empty()) out.push_back({.table = shim_table(plan, lengths)});
    out.back().bullets = remarks(plan, plan.proven);
    return out;
}

}  // namespace trialfit::paper
