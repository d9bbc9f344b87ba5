// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <trialfit/paper/check/findings.hpp>
#include <trialfit/paper/check/headline.hpp>
#include <trialfit/paper/check/several.hpp>
#include <trialfit/paper/json/parts.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/words.hpp>

namespace trialfit::paper {

namespace {

using stack::Verdict;

// More than these differences of one job crowd its line.
constexpr std::size_t kMostDiffering = 3;

std::string differing(const CheckedJob& job) {
    if (!job.answer) return "-";
    if (job.differs.empty()) return "nothing";
    std::vector<std::string> told;
    for (const CheckedJob::Differs& each : job.differs)
        if (!each.written.empty() && told.size() < kMostDiffering)
            told.push_back(each.name + " " + each.written);
    if (job.differs.size() > told.size())
        told.push_back(fmt::format("{} more", job.differs.size() - told.size()));
    return fmt::format("{}", fmt::join(told, "; "));
}

std::string file_words(const CheckedJob& job) {
    return listed(job.file);
}

std::string several_headline(const std::vector<CheckedJob>& jobs) {
    std::vector<std::string> fit;
    for (const CheckedJob& each : jobs)
        if (each.answer && each.answer->verdict == Verdict::holds) fit.push_back(file_words(each));
    const bool two = jobs.size() == 2;
    if (fit.empty())
        return two ? "Neither job is sure to fit."
                   : fmt::format("None of the {} jobs is sure to fit.", jobs.size());
    if (fit.size() == jobs.size())
        return two ? "Both jobs fit." : fmt::format("All {} jobs fit.", jobs.size());
    return fmt::format("{} of the {} jobs {}: {}.", fit.size(), jobs.size(),
                       fit.size() == 1 ? "fits" : "fit", joined(fit));
}

void add_row(const CheckedJob& job, Table& table) {
    const Cell differs(listed(differing(job), 200));
    if (!job.answer) {
        table.add({differs, "-", "-", Cell("NOT READ", Ink::bad)}, file_words(job));
        return;
    }
    const stack::CheckAnswer& answer = *job.answer;
    const std::vector<CheckFinding> all = findings(answer);
    const int decimals = decimals_for(answer.units, all);
    const CheckFinding* const which = deciding(all, answer.judge);
    const Cell verdict(loud_word(answer.verdict), ink(answer.verdict));
    if (which == nullptr) {
        table.add({differs, "-", "-", verdict}, file_words(job));
        return;
    }
    table.add({differs, needed(*which, decimals), range(which->value.worst, decimals), verdict},
              fmt::format("{}: {}", file_words(job), listed(titled(*which), 200)));
}

Json job_json(const CheckedJob& job) {
    const auto differs = [](const CheckedJob::Differs& each) {
        return Json{{"size", each.name}, {"written", or_null(each.written)}};
    };
    Json out{{"file", job.file}, {"differs", list_json(job.differs, differs)}};
    out["verdict"] = job.answer ? Json(word(job.answer->verdict)) : Json();
    out["answer"] = job.answer ? Json(headline(*job.answer)) : Json();
    return out;
}

}  // namespace

Document document_of(const std::vector<CheckedJob>& jobs) {
    Table table{
        .columns = {Column::names("What differs"), "needed", "worst case", Column::words("")}};
    bool all_hold = true;
    for (const CheckedJob& each : jobs) {
        add_row(each, table);
        all_hold = all_hold && each.answer && each.answer->verdict == Verdict::holds;
    }
    Document out;
    out.under(Headline{.text = several_headline(jobs), .ink = all_hold ? Ink::good : Ink::strong});
    out.add(std::move(table));
    return out.add_details(Document{}.add(
        Paragraph{"Each line has what decides that job. `trialfit check FILE` tells the rest."}));
}

std::string several_json(const std::vector<CheckedJob>& jobs) {
    Json out{{"trialfit", 1}, {"command", "check"}, {"jobs", list_json(jobs, job_json)}};
    return json_text(out);
}

}  // namespace trialfit::paper
