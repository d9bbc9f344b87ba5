// SPDX-License-Identifier: MIT
#include <fmt/chrono.h>
#include <fmt/format.h>

#include <algorithm>
#include <ctime>
#include <string_view>
#include <trialfit/job/former.hpp>
#include <trialfit/reading/edit/edit.hpp>
#include <trialfit/reading/read.hpp>
#include <trialfit/stack/change/as_built.hpp>
#include <utility>

#include "command.hpp"
#include "plan_files.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

// A plain number; then the lathe's own half-width stands for the gauge that is not named.
bool bare(const std::string& size) {
    return !size.empty() && size.find_first_not_of("0123456789.-") == std::string::npos;
}

// As the lathe holds it, for a size whose gauge is not named.
std::string as_held(const std::string& size, double holds) {
    return holds > 0.0 ? fmt::format("{} ±{:.9g}", size, holds) : size + " exact";
}

struct AsCut {
    std::string written;  // as on the command line
    std::string what;
    std::string size;
};

std::optional<AsCut> as_cut_of(const std::string& written) {
    const std::size_t equals = written.find('=');
    if (equals == std::string::npos || equals == 0 || equals + 1 == written.size()) {
        refuse_line("--as-cut '" + written + "' is not FACE=SIZE",
                    "write it like plate.front=5.52");
        return std::nullopt;
    }
    return AsCut{
        .written = written, .what = written.substr(0, equals), .size = written.substr(equals + 1)};
}

// The face, the skimmed ring or the centred part that an option names, as changes of the job.
struct Works {
    reading::RecordedEntry entry;
    std::vector<reading::Change> others;

    void add(const job::Job& job, const AsCut& cut) {
        if (skimmed(job, cut) || centred(job, cut)) return;
        double holds = 0.0;
        for (const job::Part& part : job.parts)
            for (const job::Cut& each : part.cuts)
                if (part.name + "." + part.faces.at(static_cast<std::size_t>(each.face)).name ==
                    cut.what)
                    holds = each.holds;
        entry.as_cut.emplace_back(cut.what, bare(cut.size) ? as_held(cut.size, holds) : cut.size);
    }
    [[nodiscard]] std::vector<reading::Change> changes() const {
        std::vector<reading::Change> all = others;
        if (!entry.as_cut.empty()) all.emplace_back(entry);
        return all;
    }

private:
    bool skimmed(const job::Job& job, const AsCut& cut) {
        const auto ring = job::ring_named(job, cut.what);
        if (!ring) return false;
        const auto& skims = job.parts.at(static_cast<std::size_t>(ring->part)).skims;
        const auto skim = std::find_if(skims.begin(), skims.end(), [&](const job::Skim& each) {
            return each.ring == ring->index;
        });
        if (skim == skims.end()) return false;
        others.emplace_back(reading::RingDiameter{
            .ring = cut.what,
            .bore = skim->bore,
            .dia = bare(cut.size) ? as_held(cut.size, skim->holds) : cut.size});
        return true;
    }

    bool centred(const job::Job& job, const AsCut& cut) {
        const bool can_be =
            std::any_of(job.parts.begin(), job.parts.end(), [&](const job::Part& part) {
                return part.name == cut.what && part.centred && part.centred->centre_to;
            });
        if (!can_be) return false;
        others.emplace_back(reading::CentredBetter{
            .part = cut.what, .clearance = bare(cut.size) ? "0.." + cut.size : cut.size});
        return true;
    }
};

// What is said of a line that nobody wrote is said of the option that stands for it.
job::Complaint of_option(job::Complaint complaint, const std::string& written) {
    constexpr std::string_view kNames = "the record names ";
    constexpr std::string_view kWhich = ", which is ";
    std::string& fault = complaint.fault;
    if (fault.starts_with(kNames)) {
        fault.erase(0, kNames.size());
        if (const std::size_t which = fault.find(kWhich); which != std::string::npos)
            fault.replace(which, kWhich.size(), " is ");
    }
    complaint.at = {};
    complaint.fault = "--as-cut '" + written + "': " + fault;
    return complaint;
}

// Complaints that the file as it stands does not raise.
job::Complaints only_new(const job::Complaints& all, const job::Complaints& known) {
    job::Complaints fresh;
    std::copy_if(all.begin(), all.end(), std::back_inserter(fresh), [&](const auto& one) {
        return std::none_of(known.begin(), known.end(), [&](const job::Complaint& other) {
            return other.fault == one.fault && other.mend == one.mend;
        });
    });
    return fresh;
}

// Tells what is wrong with each option by itself; whether nothing is.
bool all_in_order(const Loaded& loaded, const std::vector<AsCut>& cuts) {
    const job::Complaints known = reading::read_job(loaded.text, loaded.job.file).complaints;
    job::Complaints told;
    bool in_order = true;
    for (const AsCut& cut : cuts) {
        Works works;
        works.entry.date = next_day(loaded.job);
        works.add(loaded.job, cut);
        const reading::Edited edited = reading::edited(loaded.text, works.changes());
        in_order = in_order && edited.text.has_value();
        for (const job::Complaint& each : only_new(edited.complaints, known))
            told.push_back(of_option(each, cut.written));
    }
    if (!told.empty()) tell_complaints(told, "trialfit", "");
    return in_order;
}

}  // namespace

std::string next_day(const job::Job& job) {
    const std::string today = fmt::format("{:%Y-%m-%d}", fmt::localtime(std::time(nullptr)));
    return job.record.empty() ? today : std::max(today, job.record.back().date);
}

std::optional<Loaded> with_as_cut(const Loaded& loaded, const std::vector<std::string>& as_cut) {
    std::vector<AsCut> cuts;
    Works works;
    works.entry.date = next_day(loaded.job);
    for (const std::string& each : as_cut) {
        auto cut = as_cut_of(each);
        if (!cut) return std::nullopt;
        for (const AsCut& other : cuts)
            if (other.what == cut->what) {
                refuse_line("--as-cut names '" + cut->what + "' twice, as '" + other.size +
                                "' and as '" + cut->size + "'",
                            "give the size that it has now");
                return std::nullopt;
            }
        works.add(loaded.job, *cut);
        cuts.push_back(std::move(*cut));
    }
    if (!all_in_order(loaded, cuts)) return std::nullopt;
    const reading::Edited edited = reading::edited(loaded.text, works.changes());
    reading::Outcome outcome;
    if (edited.text) outcome = reading::read_job(*edited.text, loaded.job.file);
    if (!outcome.job) {
        refuse_line("these --as-cut do not go together", "give them one by one to see which");
        return std::nullopt;
    }
    auto built = stack::as_built(*outcome.job, outcome.job->record.size());
    Loaded now{.job = std::move(*outcome.job), .text = *edited.text};
    if (const auto* complaints = std::get_if<job::Complaints>(&built)) {
        complain(*complaints, now);
        return std::nullopt;
    }
    now.job = std::move(std::get<job::Job>(built));
    return now;
}

}  // namespace trialfit::cli
