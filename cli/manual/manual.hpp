// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "commands.hpp"

// The manual, in the language of man(7), made from what --help shows and from the schema of a job.
namespace trialfit::cli {

/// trialfit(1).
[[nodiscard]] std::string program_page(const Program& program);

/// trialfit-COMMAND(1).
[[nodiscard]] std::string command_page(const Command& command);

/// trialfit-job(5), from the text of the job's schema.
[[nodiscard]] std::string job_page(std::string_view schema);

}  // namespace trialfit::cli
