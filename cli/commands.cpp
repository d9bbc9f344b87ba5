// SPDX-License-Identifier: MIT
#include "commands.hpp"

#include <string>
#include <trialfit/version.hpp>
#include <utility>

namespace trialfit::cli {

namespace {

constexpr const char* kExamples =
    "Begin with:\n"
    "  trialfit start -o engine.yaml     then put your own sizes in\n"
    "  trialfit check engine.yaml\n"
    "`trialfit COMMAND --help` shows a command's options and examples.\n\n"
    "Ends with 0 where all that was asked holds, 1 where something fails or is\n"
    "doubtful, 2 where the command line or the job file is wrong, 3 for a fault of\n"
    "the program itself or an answer that could not be written.";

}  // namespace

Program make_program() {
    auto line = std::make_unique<CLI::App>(
        "Trialfit makes the trial fit on paper: whether the parts on a shaft end fit,\n"
        "and what touches first.");
    CLI::App& program = *line;
    program.set_version_flag("--version", std::string("trialfit ") + kVersion, "The version");
    program.set_help_flag("--help,-h", "This text");
    set_help(program, "COMMAND JOB [options]", kExamples);
    program.allow_extras();
    // A word after the command is never a second one: a file may be called "plan".
    program.require_subcommand(0, 1);
    std::vector<Command> commands = add_commands(program);
    for (const Command& each : commands)
        each.line->allow_extras();
    return {.line = std::move(line), .commands = std::move(commands)};
}

}  // namespace trialfit::cli
