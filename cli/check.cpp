// SPDX-License-Identifier: MIT
#include <memory>
#include <optional>
#include <trialfit/odds/odds.hpp>
#include <trialfit/paper/check/text.hpp>
#include <trialfit/paper/json/answers.hpp>
#include <trialfit/stack/check/check.hpp>

#include "busy.hpp"
#include "command.hpp"
#include "exit_codes.hpp"
#include "input.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

struct CheckGiven {
    std::string job;
    JudgeOptions judge;
    bool all = false;
};

// What is doubtful gets its odds, and everything that RSS judges; where odds are asked for, they
// judge everything.
void weigh_doubts(stack::CheckAnswer& answer, const job::Job& job, const stack::Options& options,
                  std::optional<double> level) {
    const bool by_rss = !level && answer.judge == stack::Judge::rss;
    if (!level && !by_rss && answer.verdict == stack::Verdict::holds) return;
    odds::Options asked = odds::beside(options);
    asked.chances_only = true;
    asked.doubtful_only = !level && !by_rss;
    const auto outcome = while_busy([&] { return odds::odds(job, asked); });
    const auto* chances = std::get_if<odds::OddsAnswer>(&outcome);
    if (chances == nullptr) return;
    if (level) {
        odds::judge_by_odds(answer, *chances, *level);
    } else {
        odds::give_odds(answer, *chances);
        odds::warn_beside_rss(answer);
    }
}

int run(const CheckGiven& given) {
    auto options = stack_options(given.judge);
    if (!options) return kWrong;
    options->all_pairs = given.all;
    const auto loaded = load(given.job, given.judge.as_of, given.judge.what_if);
    if (!loaded) return kWrong;
    if (!bind_readings(*options, given.judge, *loaded)) return kWrong;
    auto outcome = while_busy([&] { return stack::check(loaded->job, *options); });
    if (const auto* complaints = std::get_if<job::Complaints>(&outcome))
        return complain(*complaints, *loaded);
    auto& answer = std::get<stack::CheckAnswer>(outcome);
    weigh_doubts(answer, loaded->job, *options, odds_level(given.judge));
    paper::Style style = output_style(given.judge.brief);
    style.all_rows = given.all;
    return deliver(given.judge.json ? paper::check_json(answer) : paper::check_text(answer, style),
                   answer.verdict == stack::Verdict::holds ? kHolds : kFails);
}

}  // namespace

int check_file(const std::string& name) {
    return run({.job = name, .judge = {}});
}

Command add_check(CLI::App& program) {
    auto given = std::make_shared<CheckGiven>();
    CLI::App* line = program.add_subcommand("check", "Does it fit, and what touches first");
    line->add_option("JOB", given->job, "The job file; - for standard input")->required();
    add_judge_options(*line, given->judge);
    line->add_flag("--all", given->all,
                   "Every pair of faces that could meet, not only the tightest");
    line->group("Commands");
    set_help(*line, "JOB [options]",
             "Examples:\n"
             "  trialfit check engine.yaml\n"
             "  trialfit check engine.yaml --judge rss --inflate 1.5\n"
             "  trialfit check - --json < engine.yaml\n\n"
             "Ends with 0 where all holds, 1 where something fails or is doubtful.");
    return {.line = line, .run = [given] { return run(*given); }};
}

}  // namespace trialfit::cli
