// SPDX-License-Identifier: MIT
#include <memory>
#include <trialfit/paper/timing/text.hpp>
#include <trialfit/timing/timing.hpp>

#include "command.hpp"
#include "exit_codes.hpp"
#include "input.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

struct TimingGiven {
    std::string job;
    bool json = false;
    bool brief = false;
    WhatIfGiven what_if;
};

int run(const TimingGiven& given) {
    const auto loaded = load(given.job, "", given.what_if);
    if (!loaded) return kWrong;
    const auto outcome = timing::timing(loaded->job);
    if (const auto* complaints = std::get_if<job::Complaints>(&outcome))
        return complain(*complaints, *loaded);
    const auto& answer = std::get<timing::TimingAnswer>(outcome);
    return deliver(given.json ? paper::timing_json(answer)
                              : paper::timing_text(answer, output_style(given.brief)),
                   answer.verdict == stack::Verdict::holds ? kHolds : kFails);
}

}  // namespace

Command add_timing(CLI::App& program) {
    auto given = std::make_shared<TimingGiven>();
    CLI::App* line = program.add_subcommand("timing", "When it fires, and how to set it");
    line->add_option("JOB", given->job, "The job file; - for standard input")->required();
    add_form_options(*line, given->json, given->brief);
    add_what_if(*line, given->what_if);
    line->group("Commands");
    set_help(*line, "JOB [options]",
             "Examples:\n"
             "  trialfit timing engine.yaml\n"
             "  trialfit timing engine.yaml --json\n\n"
             "The job's 'timing' section says what is known and what is asked. Ends with 1\n"
             "where the stator's slot does not reach, or may not in the worst case.");
    return {.line = line, .run = [given] { return run(*given); }};
}

}  // namespace trialfit::cli
