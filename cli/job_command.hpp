// SPDX-License-Identifier: MIT
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <variant>

#include "busy.hpp"
#include "command.hpp"
#include "exit_codes.hpp"
#include "terminal.hpp"

// The shape of a command that asks one question of one job file: parse, answer, print.
namespace trialfit::cli {

/// Whether the readings bind the sizes of what is asked; where they do, --as-written sets them
/// aside. `bound_by_the_answer`: once it has set planned work aside.
enum class Readings { bind, are_asked_about, bound_by_the_answer };

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

/// A job in its present state, how it is judged, and the answer about it.
template <typename Answer>
struct Answered {
    /// Where it stays, for an answer that borrows it.
    std::unique_ptr<const Loaded> loaded;
    stack::Options options;
    Answer answer;
};

template <typename Ask>
[[nodiscard]] auto asked(const Ask& ask, const Loaded& loaded, const stack::Options& options) {
    if constexpr (std::is_invocable_v<const Ask&, const job::Job&, const stack::Options&>)
        return ask(loaded.job, options);
    else
        return ask(loaded, options);
}

/// Reads the job, lets its readings bind, and asks. `ask(job, options)`, or `ask(loaded, options)`
/// where the text is needed too, gives a variant whose first alternative is the answer; else
/// complaints, which are then told, or, of a command that has told what is wrong itself, an exit
/// code. Returns the exit code where there is no answer.
template <typename Ask>
[[nodiscard]] auto ask_of_job(const JobGiven& given, const Ask& ask) {
    using Outcome = decltype(asked(ask, std::declval<const Loaded&>(), stack::Options()));
    using Answer = std::variant_alternative_t<0, Outcome>;
    using Result = std::variant<Answered<Answer>, int>;
    auto read = load(given.job, given.judge.as_of, given.judge.what_if);
    if (!read) return Result(kWrong);
    auto loaded = std::make_unique<const Loaded>(std::move(*read));
    stack::Options options = stack_options(given.judge);
    const bool binds = given.readings == Readings::bind;
    if (binds && !bind_readings(options, given.judge, *loaded)) return Result(kWrong);
    const auto work = [&] { return asked(ask, *loaded, options); };
    Outcome outcome = given.tells_progress ? work() : while_busy(work);
    if (const auto* complaints = std::get_if<job::Complaints>(&outcome))
        return Result(complain(*complaints, *loaded));
    constexpr bool kMayTellACode = std::variant_size_v<Outcome> == 3;
    if constexpr (kMayTellACode)
        if (const int* code = std::get_if<int>(&outcome)) return Result(*code);
    return Result(
        Answered<Answer>{std::move(loaded), std::move(options), std::move(std::get<0>(outcome))});
}

/// As ask_of_job; `told(answer, job, options)` is what is printed, `holds(answer)` whether all
/// that was asked holds. Returns the exit code.
template <typename Ask, typename Told, typename Holds>
[[nodiscard]] int run_on_job(const JobGiven& given, const Ask& ask, const Told& told,
                             const Holds& holds) {
    const auto outcome = ask_of_job(given, ask);
    if (const int* code = std::get_if<int>(&outcome)) return *code;
    const auto& found = std::get<0>(outcome);
    return deliver(told(found.answer, found.loaded->job, found.options),
                   holds(found.answer) ? kHolds : kFails);
}

}  // namespace trialfit::cli
