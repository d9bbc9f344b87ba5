// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <variant>

#include "busy.hpp"
#include "command.hpp"
#include "exit_codes.hpp"
#include "terminal.hpp"

// The shape of a command that asks one question of one job file: parse, answer, print.
namespace trialfit::cli {

/// Whether the readings bind the sizes of what is asked; where they do, --as-written sets them
/// aside.
enum class Readings { bind, are_asked_about };

struct JobGiven {
    Readings readings = Readings::bind;
    /// The answer tells of its own progress.
    bool tells_progress = false;
    std::string job;
    JudgeOptions judge;
};

/// The subcommand `name` with what all of these commands take: the job, the form of the answer,
/// what is supposed. `needs`: what the file must hold, as ", with a 'seat' section".
[[nodiscard]] CLI::App* add_job_command(CLI::App& program, JobGiven& given, std::string_view name,
                                        std::string_view about, std::string_view needs = "");

/// `ask(job, options)` gives an answer or complaints, `told(answer, job, options)` what is printed,
/// `holds(answer)` whether all that was asked holds. Returns the exit code.
template <typename Ask, typename Told, typename Holds>
[[nodiscard]] int run_on_job(const JobGiven& given, const Ask& ask, const Told& told,
                             const Holds& holds) {
    const auto loaded = load(given.job, given.judge.as_of, given.judge.what_if);
    if (!loaded) return kWrong;
    stack::Options options = stack_options(given.judge);
    const bool binds = given.readings == Readings::bind;
    if (binds && !bind_readings(options, given.judge, *loaded)) return kWrong;
    const auto work = [&] { return ask(loaded->job, options); };
    const auto outcome = given.tells_progress ? work() : while_busy(work);
    if (const auto* complaints = std::get_if<job::Complaints>(&outcome))
        return complain(*complaints, *loaded);
    const auto& answer = std::get<0>(outcome);
    return deliver(told(answer, loaded->job, options), holds(answer) ? kHolds : kFails);
}

}  // namespace trialfit::cli
