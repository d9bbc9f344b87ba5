// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "job_command.hpp"

namespace trialfit::cli {

CLI::App* add_job_command(CLI::App& program, JobGiven& given, std::string_view name,
                          std::string_view about, std::string_view needs) {
    CLI::App* line = program.add_subcommand(std::string(name), std::string(about));
    line->add_option("JOB", given.job, fmt::format("The job file{}; - for standard input", needs))
        ->required();
    if (given.readings == Readings::bind)
        line->add_flag("--as-written", given.judge.as_written,
                       "Set the readings aside: the sizes as written");
    add_form_options(*line, given.judge.json, given.judge.brief);
    add_what_if(*line, given.judge.what_if);
    line->group("Commands");
    return line;
}

}  // namespace trialfit::cli
