// SPDX-License-Identifier: MIT
#include <algorithm>
#include <memory>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/spin/text.hpp>
#include <trialfit/sheet/before_after.hpp>
#include <trialfit/spin/spin.hpp>

#include "job_command.hpp"

namespace trialfit::cli {

namespace {

int run_spin(const JobGiven& given) {
    const auto told = [&](const spin::SpinAnswer& answer, const job::Job& job,
                          const stack::Options& options) {
        if (given.judge.json) return paper::spin_json(answer);
        // `trialfit plan FILE` knows nothing of what was supposed.
        const auto plan =
            given.judge.what_if.any() ? std::nullopt : sheet::mends_at_once(answer, job, options);
        return paper::spin_text(answer, output_style(given.judge.brief), plan ? &*plan : nullptr);
    };
    return run_on_job(given, spin::spin, told, [](const spin::SpinAnswer& answer) {
        return answer.verdict == stack::Verdict::holds;
    });
}

}  // namespace

Command add_spin(CLI::App& program) {
    auto given = std::make_shared<JobGiven>();
    CLI::App* line =
        add_job_command(program, *given, "spin",
                        "Does the rotor carry the engine over compression, fast enough to spark",
                        ", with a 'spin' section");
    set_help(*line, "JOB [options]",
             "Examples:\n"
             "  trialfit spin examples/kicks-no-spark.yaml\n"
             "  trialfit spin engine.yaml --with weight.disc.od=86\n\n"
             "Ends with 0 where it is carried over the top and sparks in the worst case of every\n"
             "stated range, and the job's checks of magnets over poles and of air gaps hold; 1\n"
             "where not, or not everything could be judged; 2 where the job has no spin section\n"
             "or is wrong. Heavier is not better by itself: the answer says what decides.");
    return {.line = line, .run = [given] { return run_spin(*given); }};
}

}  // namespace trialfit::cli
