// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/paper/plan/text.hpp>
#include <trialfit/paper/plan/words.hpp>
#include <trialfit/paper/sheet/sections.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>
#include <trialfit/plan/order_of_work.hpp>

namespace trialfit::paper {

namespace {

constexpr Cell::Kind kTick = Cell::Kind::tick;
constexpr Cell::Kind kBlank = Cell::Kind::blank;

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

Table cut_table(const plan::PlanMade& plan, const Lengths& lengths) {
    Table out{
        .columns = {Column::for_paper("Done"), Column::names("Cut"), Column::words("measured from"),
                    "Now", "Take off", "Finish", "Window", "Limit", Column::for_paper("As cut")},
        .caption = "In this order; any readings inside their windows go together"};
    const auto finish = [&lengths](double size) {
        return Cell::strong(lengths.beside(told_finish(size, lengths.decimals), size));
    };
    for (const plan::CutMade& cut : plan::in_order_of_work(plan)) {
        const bool off = cut.by_amount;
        out.add({kTick, Cell::strong(cut.face), cut.from, off ? Cell(kBlank) : lengths(cut.now),
                 off ? finish(cut.remove) : taken_off(cut, lengths), off ? "-" : finish(cut.finish),
                 off ? told_readings(cut, lengths.decimals) : window_of(cut, lengths),
                 "not under " + lengths.least(cut.keep), kBlank});
    }
    for (const plan::LapMade& lap : plan.laps)
        out.add({kTick, Cell::strong("lap " + lap.cone), "diameters, both parts together", "",
                 lengths(lap.off_diameter), Cell::strong(lengths(lap.moves) + " further on"),
                 lengths.window(lap.window), "", kBlank});
    for (const plan::SkimMade& skim : plan.skims)
        out.add({kTick, Cell::strong("skim " + skim.ring + (skim.bore ? " bore" : " od")),
                 "on diameter", lengths(skim.now), taken_off(skim, lengths), finish(skim.finish),
                 window_of(skim, lengths), least_left(skim, lengths), kBlank});
    return out;
}

Table shim_table(const plan::PlanMade& plan, const Lengths& lengths) {
    Table out{.columns = {Column::for_paper("Done"), Column::names("Between"), Column::words("Fit"),
                          "Height in all", "There now", Column::for_paper("Measured")},
              .caption = "Shims: measure each one, a nominal thickness is not a size"};
    for (const plan::StackMade& shims : plan.shims)
        if (changed(shims))
            out.add({kTick, shims.against + " and " + shims.face,
                     Cell::strong(told_stack(shims.stack)), lengths(shims.height),
                     lengths(shims.before), kBlank});
    return out;
}

std::vector<std::string> remarks(const plan::PlanMade& plan, bool proven, int decimals) {
    std::vector<std::string> out;
    for (const plan::CentringMade& centring : plan.centrings)
        out.push_back(
            fmt::format("First centre {}: {}.", centring.part, told_centring(centring, decimals)));
    for (const plan::CutMade& cut : plan::in_order_of_work(plan)) {
        out.push_back(fmt::format("{}: {}.", cut.face, told_passes(cut.passes, decimals)));
        if (cut.may_be) out.back() += fmt::format(" {}.", capital(told_may_be(cut, decimals)));
        if (!cut.note.empty()) out.back() += fmt::format(" Note: {}.", cut.note);
        if (cut.turns) out.back() += " It turns: have it balanced before it runs.";
        if (cut.thin) out.back() += " What is left is thin for its diameter and bows in the chuck.";
    }
    for (const plan::LapMade& lap : plan.laps)
        if (!lap.note.empty()) out.push_back(lap.cone + ": " + lap.note);
    for (const plan::SkimMade& skim : plan.skims) {
        out.push_back(fmt::format("{}: {}.", skim.ring, told_passes(skim.passes, decimals)));
        if (skim.may_be) out.back() += fmt::format(" {}.", capital(told_may_be(skim, decimals)));
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

}  // namespace

std::string keeps_not_judged(const sheet::SheetAnswer& answer) {
    std::string out;
    if (!answer.plan || answer.plan->plans.empty()) return out;
    for (const plan::CutMade& cut : answer.plan->plans.front().cuts)
        if (cut.by_amount)
            out += " " + words(job::Warning(job::KeepNotJudged{
                             .face = cut.face, .keep = cut.keep, .units = answer.units}));
    return out;
}

Document plan_section(const sheet::SheetAnswer& answer, const Lengths& lengths) {
    Document out;
    if (!answer.plan) return out;
    const bool none = answer.plan->plans.empty();
    out.add(Heading{none ? "What would have to change" : "Work at the lathe"});
    out.add(Paragraph{plan_headline(*answer.plan)});
    if (none) return out.add(no_plan(*answer.plan, true));
    const plan::PlanMade& plan = answer.plan->plans.front();
    if (leaves_all(plan)) return out;
    out.add(cut_table(plan, lengths)).add(shim_table(plan, lengths));
    std::vector<std::string> told = remarks(plan, plan.proven, lengths.decimals);
    for (const plan::ReadingAfter& each : plan.readings)
        told.push_back(told_reading(each, lengths));
    return out.add(list_of(told));
}

}  // namespace trialfit::paper
