// SPDX-License-Identifier: MIT
#include <charconv>
#include <memory>
#include <trialfit/paper/plan_text.hpp>
#include <trialfit/plan/job_plan.hpp>

#include "command.hpp"
#include "exit_codes.hpp"
#include "input.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

struct PlanGiven {
    std::string job;
    JudgeOptions judge;
    std::string top = "3";
};

int run(const PlanGiven& given) {
    auto options = stack_options(given.judge);
    if (!options) return kWrong;
    const auto loaded = load(given.job, given.judge.as_of);
    if (!loaded) return kWrong;
    if (!bind_readings(*options, given.judge, *loaded)) return kWrong;
    const auto built = stack::model_for(loaded->job, *options);
    if (const auto* complaints = std::get_if<job::Complaints>(&built))
        return complain(*complaints, *loaded);
    const plan::PlanAnswer answer = plan::plan(std::get<stack::Model>(built), {.stack = *options});
    return deliver(
        given.judge.json ? paper::plan_json(answer) : paper::plan_text(answer, output_style()),
        answer.plans.empty() ? kFails : kHolds);
}

}  // namespace

Command add_plan(CLI::App& program) {
    auto given = std::make_shared<PlanGiven>();
    CLI::App* line = program.add_subcommand("plan", "What to cut and which shims to fit");
    line->add_option("JOB", given->job, "The job file; - for standard input")->required();
    add_judge_options(*line, given->judge);
    line->group("Commands");
    set_help(*line, "JOB [options]", "Examples:\n  trialfit plan engine.yaml\n");
    return {.line = line, .run = [given] { return run(*given); }};
}

}  // namespace trialfit::cli
