// SPDX-License-Identifier: MIT
#include "plan_files.hpp"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <algorithm>
#include <ctime>
#include <trialfit/paper/complaints.hpp>
#include <trialfit/paper/words.hpp>
#include <trialfit/reading/edit.hpp>
#include <trialfit/reading/read.hpp>
#include <trialfit/stack/as_built.hpp>
#include <utility>

#include "command.hpp"
#include "exit_codes.hpp"
#include "output_file.hpp"
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

// A plain number; then the lathe's own half-width stands for the gauge that is not named.
bool bare(const std::string& size) {
    return !size.empty() && size.find_first_not_of("0123456789.") == std::string::npos;
}

std::string held(const job::Job& job, const std::string& face, const std::string& size) {
    for (const job::Part& part : job.parts)
        for (const job::Cut& cut : part.cuts)
            if (part.name + "." + part.faces.at(static_cast<std::size_t>(cut.face)).name == face)
                return cut.holds > 0.0 ? fmt::format("{} ±{:.9g}", size, cut.holds)
                                       : size + " exact";
    return size + " exact";  // the complaint is then of the face alone
}

std::string today() {
    return fmt::format("{:%Y-%m-%d}", fmt::localtime(std::time(nullptr)));
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

std::optional<Loaded> with_as_cut(const Loaded& loaded, const std::vector<std::string>& as_cut) {
    reading::RecordedEntry entry;
    entry.date = today();
    for (const std::string& each : as_cut) {
        const std::size_t equals = each.find('=');
        if (equals == std::string::npos || equals == 0 || equals + 1 == each.size()) {
            refuse_line("--as-cut '" + each + "' is not FACE=SIZE",
                        "write it like plate.front=5.52");
            return std::nullopt;
        }
        const std::string face = each.substr(0, equals);
        const std::string size = each.substr(equals + 1);
        entry.as_cut.emplace_back(face, bare(size) ? held(loaded.job, face, size) : size);
    }
    const auto text = changed_text(loaded, {entry});
    if (!text) return std::nullopt;
    reading::Outcome outcome = reading::read_job(*text, loaded.job.file);
    if (!outcome.job) {
        tell(paper::complaints_text(outcome.complaints, loaded.job.file, *text, error_style()));
        return std::nullopt;
    }
    auto built = stack::as_built(*outcome.job, outcome.job->record.size());
    Loaded now{.job = std::move(*outcome.job), .text = *text};
    if (const auto* complaints = std::get_if<job::Complaints>(&built)) {
        complain(*complaints, now);
        return std::nullopt;
    }
    now.job = std::move(std::get<job::Job>(built));
    return now;
}

int write_plan(const Loaded& loaded, const plan::PlanMade& plan, const std::string& name,
               bool force) {
    reading::RecordedEntry entry;
    entry.date = today();
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
    for (const stack::LappedBy& lap : plan.changes.laps) {
        const job::Part& part = loaded.job.parts.at(static_cast<std::size_t>(lap.cone.part));
        const quantity::Size& dia =
            part.cones.at(static_cast<std::size_t>(lap.cone.index)).dia.size;
        const bool hub = std::any_of(part.seats.begin(), part.seats.end(), [&](const job::Seat& s) {
            return s.kind == job::SeatKind::cone_on_cone && s.own == lap.cone.index;
        });
        changes.emplace_back(reading::ConeDiameter{
            .cone = job::cone_name(loaded.job, lap.cone),
            .dia = with_half_width(dia.middle() + (hub ? lap.off_diameter : -lap.off_diameter),
                                   dia.half_width())});
    }
    if (!entry.as_cut.empty() || !entry.fitted.empty()) changes.emplace_back(entry);
    const auto text = changed_text(loaded, changes);
    if (!text) return kWrong;
    const int code = write_whole(name, *text, force);
    if (code == kHolds) tell("Wrote " + paper::shell_word(name) + ", with the plan carried out.\n");
    return code;
}

}  // namespace trialfit::cli
