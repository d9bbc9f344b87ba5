// SPDX-License-Identifier: MIT
#include <memory>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/timing/text.hpp>
#include <trialfit/timing/timing.hpp>

#include "job_command.hpp"

namespace trialfit::cli {

namespace {

int run_timing(const JobGiven& given) {
    const auto ask = [](const job::Job& job, const stack::Options&) { return timing::timing(job); };
    const auto told = [&](const timing::TimingAnswer& answer, const auto&...) {
        return given.judge.json ? paper::timing_json(answer)
                                : paper::timing_text(answer, output_style(given.judge.brief));
    };
    return run_on_job(given, ask, told, [](const timing::TimingAnswer& answer) {
        return answer.verdict == stack::Verdict::holds;
    });
}

}  // namespace

Command add_timing(CLI::App& program) {
    auto given = std::make_shared<JobGiven>();
    given->readings = Readings::are_asked_about;
    CLI::App* line = add_job_command(program, *given, "timing", "When it fires, and how to set it");
    set_help(*line, "JOB [options]",
             "Examples:\n"
             "  trialfit timing engine.yaml\n"
             "  trialfit timing engine.yaml --json\n\n"
             "The job's 'timing' section says what is known and what is asked. Ends with 1\n"
             "where the stator's slot does not reach, or may not in the worst case.");
    return {.line = line, .run = [given] { return run_timing(*given); }};
}

}  // namespace trialfit::cli
