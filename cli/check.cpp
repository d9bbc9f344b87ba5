// SPDX-License-Identifier: MIT
#include <memory>
#include <trialfit/paper/check_text.hpp>
#include <trialfit/paper/json.hpp>
#include <trialfit/stack/check.hpp>

#include "command.hpp"
#include "exit_codes.hpp"
#include "input.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

struct Given {
    std::string job;
    JudgeOptions judge;
    bool all = false;
};

int run(const Given& given) {
    auto options = stack_options(given.judge);
    if (!options) return kWrong;
    options->all_pairs = given.all;
    const auto loaded = load(given.job);
    if (!loaded) return kWrong;
    if (!bind_readings(*options, given.judge, *loaded)) return kWrong;
    const auto outcome = stack::check(loaded->job, *options);
    if (const auto* complaints = std::get_if<job::Complaints>(&outcome))
        return complain(*complaints, *loaded);
    const auto& answer = std::get<stack::CheckAnswer>(outcome);
    return deliver(
        given.judge.json ? paper::check_json(answer) : paper::check_text(answer, output_style()),
        answer.verdict == stack::Verdict::holds ? kHolds : kFails);
}

}  // namespace

Command add_check(CLI::App& program) {
    auto given = std::make_shared<Given>();
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
