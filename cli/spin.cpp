// SPDX-License-Identifier: MIT
#include <algorithm>
#include <memory>
#include <trialfit/paper/spin/text.hpp>
#include <trialfit/sheet/before_after.hpp>
#include <trialfit/spin/spin.hpp>

#include "command.hpp"
#include "exit_codes.hpp"
#include "input.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

struct SpinGiven {
    std::string job;
    bool as_written = false;
    bool json = false;
    bool brief = false;
    WhatIfGiven what_if;
};

int run(const SpinGiven& given) {
    const auto loaded = load(given.job, "", given.what_if);
    if (!loaded) return kWrong;
    stack::Options options;
    if (!bind_readings(options, {.as_written = given.as_written}, *loaded)) return kWrong;
    const auto outcome = spin::spin(loaded->job, options);
    if (const auto* complaints = std::get_if<job::Complaints>(&outcome))
        return complain(*complaints, *loaded);
    const auto& answer = std::get<spin::SpinAnswer>(outcome);
    // `trialfit plan FILE` knows nothing of what was supposed.
    const auto plan =
        given.what_if.any() ? std::nullopt : sheet::mends_at_once(answer, loaded->job, options);
    const auto* const cheapest = plan ? &*plan : nullptr;
    return deliver(given.json ? paper::spin_json(answer)
                              : paper::spin_text(answer, output_style(given.brief), cheapest),
                   answer.verdict == stack::Verdict::holds ? kHolds : kFails);
}

}  // namespace

Command add_spin(CLI::App& program) {
    auto given = std::make_shared<SpinGiven>();
    CLI::App* line = program.add_subcommand(
        "spin", "Does the rotor carry the engine over compression, fast enough to spark");
    line->add_option("JOB", given->job, "The job file, with a 'spin' section; - for standard input")
        ->required();
    line->add_flag("--as-written", given->as_written,
                   "Set the readings aside: the sizes as written");
    add_form_options(*line, given->json, given->brief);
    add_what_if(*line, given->what_if);
    line->group("Commands");
    set_help(*line, "JOB [options]",
             "Examples:\n"
             "  trialfit spin examples/kicks-no-spark.yaml\n"
             "  trialfit spin engine.yaml --with weight.disc.od=86\n\n"
             "Ends with 0 where it is carried over the top and sparks in the worst case of every\n"
             "stated range, and the job's checks of magnets over poles and of air gaps hold; 1\n"
             "where not, or not everything could be judged; 2 where the job has no spin section\n"
             "or is wrong. Heavier is not better by itself: the answer says what decides.");
    return {.line = line, .run = [given] { return run(*given); }};
}

}  // namespace trialfit::cli
