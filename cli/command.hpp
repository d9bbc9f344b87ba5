// SPDX-License-Identifier: MIT
#pragma once

#include <CLI/CLI.hpp>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <trialfit/stack/check/check.hpp>
#include <vector>

#include "files/input.hpp"

namespace trialfit::cli {

/// A command of the program: its part of the command line, and what to do where it was chosen.
/// `run` is called after the whole command line was understood, and returns the exit code.
struct Command {
    CLI::App* line = nullptr;
    std::function<int()> run;
    /// What its first argument may be, where that is one of a few words.
    std::vector<std::string> choices{};
};

/// All of them, in the order of `trialfit --help`: that of the list in cli/CMakeLists.txt.
[[nodiscard]] std::vector<Command> add_commands(CLI::App& program);
/// One a file.
[[nodiscard]] Command add_start(CLI::App& program);
[[nodiscard]] Command add_check(CLI::App& program);
[[nodiscard]] Command add_why(CLI::App& program);
[[nodiscard]] Command add_odds(CLI::App& program);
[[nodiscard]] Command add_plan(CLI::App& program);
[[nodiscard]] Command add_survey(CLI::App& program);
[[nodiscard]] Command add_seat(CLI::App& program);
[[nodiscard]] Command add_spin(CLI::App& program);
[[nodiscard]] Command add_timing(CLI::App& program);
[[nodiscard]] Command add_match(CLI::App& program);
[[nodiscard]] Command add_draw(CLI::App& program);
[[nodiscard]] Command add_record(CLI::App& program);
[[nodiscard]] Command add_sheet(CLI::App& program);
[[nodiscard]] Command add_table(CLI::App& program);
[[nodiscard]] Command add_cautions(CLI::App& program);
[[nodiscard]] Command add_schema(CLI::App& program);
[[nodiscard]] Command add_manual(CLI::App& program);
[[nodiscard]] Command add_completion(CLI::App& program);

/// What `trialfit check FILE` does.
[[nodiscard]] int check_file(const std::string& name);

/// A value that an option does not take: FAULT; MEND, said once the whole line is understood.
class WrongValue : public CLI::ParseError {
public:
    explicit WrongValue(std::string fault, std::string mend = "");
    [[nodiscard]] const std::string& mend() const { return mend_; }

private:
    std::string mend_;
};

/// An option that takes a number from `least` to `most`; `into` is what it is if it is left out.
CLI::Option* add_number(CLI::App& line, const std::string& option, std::uint64_t& into,
                        std::uint64_t least, std::uint64_t most, const std::string& about);
CLI::Option* add_number(CLI::App& line, const std::string& option, double& into, double least,
                        double most, const std::string& about);

/// One that is nothing if it is left out; `mend` closes the complaint of another value.
CLI::Option* add_number(CLI::App& line, const std::string& option,
                        std::optional<std::uint64_t>& into, std::uint64_t least, std::uint64_t most,
                        const std::string& about, std::string_view mend);

/// What `check`, `why`, `odds` and `plan` share.
struct JudgeOptions {
    stack::Judge judge = stack::Judge::worst;
    /// The chance asked for by `--judge odds=CHANCE`, between 0 and 1.
    std::optional<double> odds;
    double inflate = 1.0;
    bool json = false;
    bool brief = false;
    bool as_written = false;
    std::string as_of;
    WhatIfGiven what_if;
};
void add_judge_options(CLI::App& line, JudgeOptions& options);
/// --color, for a command whose answer is text.
void add_colour(CLI::App& line);
/// The two forms of an answer other than the whole text, and --color.
void add_form_options(CLI::App& line, bool& json, bool& brief);
/// The state of the record that load() is to take.
void add_as_of(CLI::App& line, std::string& when);
/// The same as the stack's options.
[[nodiscard]] stack::Options stack_options(const JudgeOptions& given);

/// Lets the job's readings bind its sizes, unless they are to be set aside. False where they cannot
/// be made out, which has then been complained of.
[[nodiscard]] bool bind_readings(stack::Options& options, const JudgeOptions& given,
                                 const Loaded& loaded);

/// Gives `line` its usage ("JOB [options]") and an example to close its help with.
void set_help(CLI::App& line, std::string_view usage, std::string_view examples);

/// That usage, with the command's name before it.
[[nodiscard]] std::string usage_of(const CLI::App& line);

/// Refuses the command line: FAULT; MEND on standard error. Returns kWrong.
int refuse_line(std::string_view fault, std::string_view mend = "");

/// "did you mean 'X'?", or `otherwise` where no name is near.
[[nodiscard]] std::string did_you_mean(std::string_view word, const std::vector<std::string>& names,
                                       std::string_view otherwise = "");

}  // namespace trialfit::cli
