// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "commands.hpp"

// Scripts that complete the command line, made from the options of the commands. The names of a
// job's checks, faces and parts are asked of the program itself, as the job stands.
namespace trialfit::cli {

[[nodiscard]] std::string bash_completion(const Program& program);
[[nodiscard]] std::string zsh_completion(const Program& program);
[[nodiscard]] std::string fish_completion(const Program& program);

}  // namespace trialfit::cli
