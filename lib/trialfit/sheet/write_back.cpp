// SPDX-License-Identifier: MIT
#include <algorithm>
#include <trialfit/quantity/figures.hpp>
#include <trialfit/reading/read.hpp>
#include <trialfit/sheet/write_back.hpp>
#include <utility>

namespace trialfit::sheet {

namespace {

std::string with_half_width(double length, double half_width) {
    const std::string figure = quantity::plain(length);
    return half_width > 0.0 ? figure + " ±" + quantity::plain(half_width) : figure + " exact";
}

void add_shims(const plan::StackMade& stack, reading::RecordedEntry& entry) {
    std::vector<std::string> pieces;
    bool changed = !stack.taken_out.empty();
    for (const plan::Piece& piece : stack.stack) {
        pieces.push_back(piece.written);
        changed = changed || !piece.fitted;
    }
    if (changed) entry.fitted.emplace_back(stack.part, pieces);
}

}  // namespace

reading::RecordedEntry planned_entry(const plan::PlanMade& plan, const std::string& date) {
    reading::RecordedEntry entry;
    entry.date = date;
    entry.planned = true;
    for (const plan::CutMade& cut : plan.cuts) {
        auto& list = cut.by_amount ? entry.taken_off : entry.as_cut;
        list.emplace_back(cut.face,
                          with_half_width(cut.by_amount ? cut.remove : cut.finish, cut.holds));
    }
    for (const plan::SkimMade& skim : plan.skims)
        entry.as_skimmed.emplace_back(skim.ring, with_half_width(skim.finish, skim.holds));
    for (const plan::LapMade& lap : plan.laps)
        entry.lapped.emplace_back(lap.cone, quantity::plain(lap.off_diameter));
    for (const plan::CentringMade& centring : plan.centrings)
        entry.centred.emplace_back(centring.part, "0.." + quantity::plain(centring.to));
    for (const plan::StackMade& stack : plan.shims)
        add_shims(stack, entry);
    return entry;
}

std::variant<stack::CheckAnswer, job::Complaints> judged(std::string_view text,
                                                         const std::string& file,
                                                         const TrialFitOptions& how) {
    reading::Outcome outcome = reading::read_job(text, file);
    if (!outcome.job) return std::move(outcome.complaints);
    return trial_fit(*outcome.job, how);
}

bool findings_hold(const stack::CheckAnswer& answer) {
    const auto holds = [](const auto& each) { return each.verdict == stack::Verdict::holds; };
    return std::ranges::all_of(answer.clearances, holds) &&
           std::ranges::all_of(answer.radial, holds) && std::ranges::all_of(answer.checks, holds);
}

}  // namespace trialfit::sheet
