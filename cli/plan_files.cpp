// SPDX-License-Identifier: MIT
#include "plan_files.hpp"

#include <fmt/format.h>

#include <trialfit/paper/complaints.hpp>
#include <trialfit/paper/words.hpp>
#include <trialfit/reading/edit.hpp>
#include <utility>

#include "command.hpp"
#include "exit_codes.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

std::optional<std::string> changed_text(const Loaded& loaded,
                                        const std::vector<reading::Change>& changes) {
    const reading::Edited edited = reading::edited(loaded.text, changes);
    if (!edited.text)
        tell(paper::complaints_text(edited.complaints, loaded.job.file, edited.about,
                                    error_style()));
    return edited.text;
}

std::string figure(double length) {
    std::string text = fmt::format("{:.9f}", length);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
}

std::string with_half_width(double length, double half_width) {
    return half_width > 0.0 ? figure(length) + " ±" + figure(half_width)
                            : figure(length) + " exact";
}

}  // namespace

int write_plan(const Loaded& loaded, const plan::PlanMade& plan, const Target& to) {
    reading::RecordedEntry entry;
    entry.date = next_day(loaded.job);
    entry.note = "planned by trialfit plan, not yet measured: put in each size as it came out";
    for (const plan::CutMade& cut : plan.cuts)
        entry.as_cut.emplace_back(cut.face, with_half_width(cut.finish, cut.holds));
    for (const plan::StackMade& stack : plan.shims) {
        std::vector<std::string> pieces;
        bool changed = !stack.taken_out.empty();
        for (const plan::Piece& piece : stack.stack) {
            pieces.push_back(piece.written);
            changed = changed || !piece.fitted;
        }
        if (changed) entry.fitted.emplace_back(stack.part, pieces);
    }
    std::vector<reading::Change> changes;
    for (const plan::LapMade& lap : plan.laps)
        changes.emplace_back(reading::ConeDiameter{
            .cone = lap.cone,
            .dia = with_half_width(lap.dia_after.middle(), lap.dia_after.half_width())});
    for (const plan::SkimMade& skim : plan.skims)
        changes.emplace_back(reading::RingDiameter{
            .ring = skim.ring, .bore = skim.bore, .dia = with_half_width(skim.finish, skim.holds)});
    for (const plan::CentringMade& centring : plan.centrings)
        changes.emplace_back(reading::CentredBetter{.part = centring.part,
                                                    .clearance = "0.." + figure(centring.to)});
    if (!entry.as_cut.empty() || !entry.fitted.empty()) changes.emplace_back(entry);
    const auto text = changed_text(loaded, changes);
    if (!text) return kWrong;
    const int code = write_whole(to, *text);
    if (code == kHolds)
        tell("Wrote " + paper::shell_word(to.name) + ", with the plan carried out.\n");
    return code;
}

}  // namespace trialfit::cli
