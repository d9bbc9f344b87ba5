// SPDX-License-Identifier: MIT
#include <memory>
#include <trialfit/paper/seat/text.hpp>
#include <trialfit/seat/seat.hpp>

#include "command.hpp"
#include "exit_codes.hpp"
#include "input.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

struct SeatGiven {
    std::string job;
    bool as_written = false;
    bool json = false;
    bool brief = false;
    WhatIfGiven what_if;
};

int run(const SeatGiven& given) {
    const auto loaded = load(given.job, "", given.what_if);
    if (!loaded) return kWrong;
    stack::Options options;
    if (!bind_readings(options, {.as_written = given.as_written}, *loaded)) return kWrong;
    const auto outcome = seat::seat(loaded->job, options);
    if (const auto* complaints = std::get_if<job::Complaints>(&outcome))
        return complain(*complaints, *loaded);
    const auto& answer = std::get<seat::SeatAnswer>(outcome);
    return deliver(
        given.json ? paper::seat_json(answer) : paper::seat_text(answer, output_style(given.brief)),
        answer.verdict == stack::Verdict::holds ? kHolds : kFails);
}

}  // namespace

Command add_seat(CLI::App& program) {
    auto given = std::make_shared<SeatGiven>();
    CLI::App* line = program.add_subcommand(
        "seat", "Does the cone hold at this nut torque, within the limits of thread and hub");
    line->add_option("JOB", given->job, "The job file, with a 'seat' section; - for standard input")
        ->required();
    line->add_flag("--as-written", given->as_written,
                   "Set the readings aside: the sizes as written");
    add_form_options(*line, given->json, given->brief);
    add_what_if(*line, given->what_if);
    line->group("Commands");
    set_help(*line, "JOB [options]",
             "Examples:\n"
             "  trialfit seat examples/loose-rotor.yaml\n\n"
             "Ends with 0 where the seat holds in the worst case of every stated range, 1 where\n"
             "it does not, or not everything could be judged, 2 where the job has no seat\n"
             "section or is wrong. Strength is judged only where the file states a class, a\n"
             "grade of material or a strength; 'material: steel' is none of them.");
    return {.line = line, .run = [given] { return run(*given); }};
}

}  // namespace trialfit::cli
