// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <trialfit/odds/odds.hpp>
#include <trialfit/paper/check/several.hpp>
#include <trialfit/paper/check/text.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/sheet/section_text.hpp>
#include <trialfit/sheet/before_after.hpp>
#include <trialfit/stack/check/check.hpp>
#include <trialfit/study/differences.hpp>
#include <utility>
#include <variant>
#include <vector>

#include "job_command.hpp"

namespace trialfit::cli {

namespace {

struct CheckGiven {
    JobGiven each;
    std::vector<std::string> jobs;
    bool all = false;
    bool picture = false;
};

// What is doubtful gets its odds, and everything that RSS judges; where odds are asked for, they
// judge everything.
void weigh_doubts(stack::CheckAnswer& answer, const stack::Model& model,
                  const stack::Options& options, std::optional<double> level) {
    const bool by_rss = !level && answer.judge == stack::Judge::rss;
    if (!level && !by_rss && answer.verdict == stack::Verdict::holds) return;
    odds::Options asked = odds::beside(options);
    asked.chances_only = true;
    asked.doubtful_only = !level && !by_rss;
    const odds::OddsAnswer chances = odds::odds(model, asked);
    if (level) {
        odds::judge_by_odds(answer, chances, *level);
    } else {
        odds::give_odds(answer, chances);
        odds::warn_beside_rss(answer);
    }
}

// The cheapest plan, where the next step is to plan and it is found at once. `trialfit plan FILE`
// knows nothing of what was supposed.
std::optional<plan::PlanAnswer> work_at_once(const JudgeOptions& judge,
                                             const stack::CheckAnswer& answer,
                                             const stack::Model& model,
                                             const stack::Options& options) {
    if (answer.verdict == stack::Verdict::holds || !answer.may_change || judge.brief ||
        judge.json || judge.what_if.any() || !judge.as_of.empty() || judge.odds)
        return std::nullopt;
    return sheet::cheapest_at_once(model, options, &answer);
}

// What is found of a job, and what stands below it where one job is asked about.
struct Checked {
    stack::CheckAnswer check;
    std::optional<plan::PlanAnswer> cheapest;
    std::optional<draw::Section> section;
};

std::variant<Checked, job::Complaints> checked(const CheckGiven& given, const job::Job& job,
                                               stack::Options options) {
    options.all_pairs = given.all;
    const auto built = stack::model_for(job, options);
    if (const auto* complaints = std::get_if<job::Complaints>(&built)) return *complaints;
    const auto& model = std::get<stack::Model>(built);
    Checked found{.check = stack::check(model, options), .cheapest = {}, .section = {}};
    if (given.jobs.size() == 1)
        found.cheapest = work_at_once(given.each.judge, found.check, model, options);
    weigh_doubts(found.check, model, options, given.each.judge.odds);
    if (!given.picture) return found;
    auto drawn = draw::section(model, options, found.check);
    if (auto* const section = std::get_if<draw::Section>(&drawn))
        found.section = std::move(*section);
    return found;
}

bool holds(const Checked& found) {
    return found.check.verdict == stack::Verdict::holds;
}

int run_one(const CheckGiven& given) {
    JobGiven one = given.each;
    one.job = given.jobs.front();
    const auto ask = [&](const job::Job& job, const stack::Options& options) {
        return checked(given, job, options);
    };
    const auto told = [&](const Checked& found, const auto&...) {
        if (one.judge.json) return paper::check_json(found.check);
        paper::Style style = output_style(one.judge.brief);
        style.all_rows = given.all;
        std::string text =
            paper::check_text(found.check, style, found.cheapest ? &*found.cheapest : nullptr);
        // Nothing of a job that has nothing to draw.
        if (found.section) text += "\n" + paper::section_text(*found.section, style.width);
        return text;
    };
    return run_on_job(one, ask, told, holds);
}

// What is wrong with one job does not keep the others from being judged.
int run_several(const CheckGiven& given) {
    const auto ask = [&](const job::Job& job, const stack::Options& options) {
        return checked(given, job, options);
    };
    std::vector<paper::CheckedJob> told;
    std::vector<Answered<Checked>> all;
    std::vector<std::size_t> which;
    int code = kHolds;
    for (const std::string& file : given.jobs) {
        JobGiven one = given.each;
        one.job = file;
        auto outcome = ask_of_job(one, ask);
        told.push_back({.file = file, .answer = {}, .differs = {}});
        if (const int* const wrong = std::get_if<int>(&outcome)) {
            code = std::max(code, *wrong);
            continue;
        }
        which.push_back(told.size() - 1);
        all.push_back(std::move(std::get<0>(outcome)));
        code = std::max<int>(code, holds(all.back().answer) ? kHolds : kFails);
    }
    // A program gets the faults instead (told_as_json).
    const JudgeOptions& judge = given.each.judge;
    if (code == kWrong && judge.json) return code;
    std::vector<const job::Job*> jobs;
    jobs.reserve(all.size());
    for (const auto& each : all)
        jobs.push_back(&each.loaded->job);
    for (const study::Difference& each : study::differences(jobs))
        for (std::size_t i = 0; i < which.size(); ++i)
            told[which[i]].differs.push_back({each.name, each.written[i]});
    for (std::size_t i = 0; i < which.size(); ++i)
        told[which[i]].answer = std::move(all[i].answer.check);
    return deliver(judge.json ? paper::several_json(told)
                              : paper::several_text(told, output_style(judge.brief)),
                   code);
}

int run(const CheckGiven& given) {
    if (given.picture && (given.each.judge.json || given.jobs.size() > 1))
        return refuse_line("--picture is drawn below the answer about one job, in text",
                           "leave out --json, and name one job");
    if (given.jobs.size() == 1) return run_one(given);
    if (std::count(given.jobs.begin(), given.jobs.end(), "-") > 1)
        return refuse_line("standard input is read only once", "name it '-' once");
    return run_several(given);
}

}  // namespace

int check_file(const std::string& name) {
    return run({.each = {}, .jobs = {name}});
}

Command add_check(CLI::App& program) {
    auto given = std::make_shared<CheckGiven>();
    CLI::App* line = program.add_subcommand("check", "Does it fit, and what touches first");
    line->add_option("JOB", given->jobs, "The job file, or several; - for standard input")
        ->required();
    add_judge_options(*line, given->each.judge);
    line->add_flag("--all", given->all,
                   "Every pair of faces that could meet, not only the tightest");
    line->add_flag("--picture", given->picture, "A small section in text below the answer");
    line->group("Commands");
    set_help(*line, "JOB... [options]",
             "Examples:\n"
             "  trialfit check engine.yaml\n"
             "  trialfit check plate-a.yaml plate-b.yaml plate-c.yaml\n"
             "  trialfit check engine.yaml --judge rss --inflate=1.5\n"
             "  trialfit check - --json < engine.yaml\n\n"
             "Ends with 0 where all holds, 1 where something fails or is doubtful.");
    return {.line = line, .run = [given] { return run(*given); }};
}

}  // namespace trialfit::cli
