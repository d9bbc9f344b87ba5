// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <trialfit/odds/odds.hpp>
#include <trialfit/paper/check/several.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/sheet/section_text.hpp>
#include <trialfit/sheet/before_after.hpp>
#include <trialfit/stack/check/check.hpp>
#include <trialfit/study/differences.hpp>
#include <utility>
#include <variant>
#include <vector>

#include "busy.hpp"
#include "command.hpp"
#include "exit_codes.hpp"
#include "input.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

struct CheckGiven {
    std::vector<std::string> jobs;
    JudgeOptions judge;
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
    const odds::OddsAnswer chances = while_busy([&] { return odds::odds(model, asked); });
    if (level) {
        odds::judge_by_odds(answer, chances, *level);
    } else {
        odds::give_odds(answer, chances);
        odds::warn_beside_rss(answer);
    }
}

// The cheapest plan, where the next step is to plan and it is found at once. `trialfit plan FILE`
// knows nothing of what was supposed.
std::optional<plan::PlanAnswer> work_at_once(const CheckGiven& given,
                                             const stack::CheckAnswer& answer,
                                             const stack::Model& model,
                                             const stack::Options& options) {
    if (answer.verdict == stack::Verdict::holds || !answer.may_change || given.judge.brief ||
        given.judge.what_if.any() || !given.judge.as_of.empty() || given.judge.odds)
        return std::nullopt;
    return sheet::cheapest_at_once(model, options, &answer);
}

// A job, its model, which borrows it, and what is found of it; the exit code where there is no
// answer.
struct Checked {
    std::unique_ptr<const Loaded> loaded;
    stack::Model model;
    stack::CheckAnswer answer;
};

std::variant<Checked, int> checked(const std::string& file, const CheckGiven& given,
                                   stack::Options& options) {
    auto read = load(file, given.judge.as_of, given.judge.what_if);
    if (!read) return kWrong;
    auto loaded = std::make_unique<const Loaded>(std::move(*read));
    if (!bind_readings(options, given.judge, *loaded)) return kWrong;
    auto built = while_busy([&] { return stack::model_for(loaded->job, options); });
    if (const auto* complaints = std::get_if<job::Complaints>(&built))
        return complain(*complaints, *loaded);
    auto& model = std::get<stack::Model>(built);
    stack::CheckAnswer answer = while_busy([&] { return stack::check(model, options); });
    return Checked{std::move(loaded), std::move(model), std::move(answer)};
}

int code_of(const stack::CheckAnswer& answer) {
    return answer.verdict == stack::Verdict::holds ? kHolds : kFails;
}

// The section in text below the answer; nothing of a job that has nothing to draw.
std::string picture_of(const stack::Model& model, const stack::Options& options,
                       const stack::CheckAnswer& answer, std::size_t width) {
    const auto drawn = draw::section(model, options, answer);
    const auto* const section = std::get_if<draw::Section>(&drawn);
    return section == nullptr ? std::string() : "\n" + paper::section_text(*section, width);
}

int run_one(const CheckGiven& given, stack::Options options) {
    auto outcome = checked(given.jobs.front(), given, options);
    if (const int* const code = std::get_if<int>(&outcome)) return *code;
    auto& [loaded, model, answer] = std::get<Checked>(outcome);
    std::optional<plan::PlanAnswer> cheapest;
    if (!given.judge.json) cheapest = work_at_once(given, answer, model, options);
    weigh_doubts(answer, model, options, given.judge.odds);
    if (given.judge.json) return deliver(paper::check_json(answer), code_of(answer));
    paper::Style style = output_style(given.judge.brief);
    style.all_rows = given.all;
    std::string text = paper::check_text(answer, style, cheapest ? &*cheapest : nullptr);
    if (given.picture) text += picture_of(model, options, answer, style.width);
    return deliver(text, code_of(answer));
}

// What is wrong with one job does not keep the others from being judged.
int run_several(const CheckGiven& given, const stack::Options& options) {
    std::vector<paper::CheckedJob> told;
    std::vector<Checked> all;
    std::vector<std::size_t> which;
    int code = kHolds;
    for (const std::string& file : given.jobs) {
        stack::Options own = options;
        auto outcome = checked(file, given, own);
        told.push_back({.file = file, .answer = {}, .differs = {}});
        if (const int* const wrong = std::get_if<int>(&outcome)) {
            code = std::max(code, *wrong);
            continue;
        }
        which.push_back(told.size() - 1);
        all.push_back(std::move(std::get<Checked>(outcome)));
        Checked& last = all.back();
        weigh_doubts(last.answer, last.model, own, given.judge.odds);
        code = std::max(code, code_of(last.answer));
    }
    // A program gets the faults instead (told_as_json).
    if (code == kWrong && given.judge.json) return code;
    std::vector<const job::Job*> jobs;
    jobs.reserve(all.size());
    for (const Checked& each : all)
        jobs.push_back(&each.loaded->job);
    for (const study::Difference& each : study::differences(jobs))
        for (std::size_t i = 0; i < which.size(); ++i)
            told[which[i]].differs.push_back({each.name, each.written[i]});
    for (std::size_t i = 0; i < which.size(); ++i)
        told[which[i]].answer = std::move(all[i].answer);
    return deliver(given.judge.json ? paper::several_json(told)
                                    : paper::several_text(told, output_style(given.judge.brief)),
                   code);
}

int run(const CheckGiven& given) {
    stack::Options options = stack_options(given.judge);
    options.all_pairs = given.all;
    if (given.picture && (given.judge.json || given.jobs.size() > 1))
        return refuse_line("--picture is drawn below the answer about one job, in text",
                           "leave out --json, and name one job");
    if (given.jobs.size() == 1) return run_one(given, options);
    if (std::count(given.jobs.begin(), given.jobs.end(), "-") > 1)
        return refuse_line("standard input is read only once", "name it '-' once");
    return run_several(given, options);
}

}  // namespace

int check_file(const std::string& name) {
    return run({.jobs = {name}, .judge = {}});
}

Command add_check(CLI::App& program) {
    auto given = std::make_shared<CheckGiven>();
    CLI::App* line = program.add_subcommand("check", "Does it fit, and what touches first");
    line->add_option("JOB", given->jobs, "The job file, or several; - for standard input")
        ->required();
    add_judge_options(*line, given->judge);
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
