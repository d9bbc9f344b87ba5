// SPDX-License-Identifier: MIT
#include <memory>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/seat/text.hpp>
#include <trialfit/seat/seat.hpp>

#include "job_command.hpp"

namespace trialfit::cli {

namespace {

int run_seat(const JobGiven& given) {
    const auto told = [&](const seat::SeatAnswer& answer, const auto&...) {
        return given.judge.json ? paper::seat_json(answer)
                                : paper::seat_text(answer, output_style(given.judge.brief));
    };
    return run_on_job(given, seat::seat, told, [](const seat::SeatAnswer& answer) {
        return answer.verdict == stack::Verdict::holds;
    });
}

}  // namespace

Command add_seat(CLI::App& program) {
    auto given = std::make_shared<JobGiven>();
    CLI::App* line = add_job_command(
        program, *given, "seat",
        "Does the cone hold at this nut torque, within the limits of thread and hub",
        ", with a 'seat' section");
    set_help(*line, "JOB [options]",
             "Examples:\n"
             "  trialfit seat examples/loose-rotor.yaml\n\n"
             "Ends with 0 where the seat holds in the worst case of every stated range, 1 where\n"
             "it does not, or not everything could be judged, 2 where the job has no seat\n"
             "section or is wrong. Strength is judged only where the file states a class, a\n"
             "grade of material or a strength; 'material: steel' is none of them.");
    return {.line = line, .run = [given] { return run_seat(*given); }};
}

}  // namespace trialfit::cli
