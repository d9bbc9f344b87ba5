// SPDX-License-Identifier: MIT
#pragma once

#include <CLI/CLI.hpp>
#include <memory>
#include <vector>

#include "command.hpp"

namespace trialfit::cli {

/// The whole command line: what --help, the manual and completion are made from.
struct Program {
    std::unique_ptr<CLI::App> line;
    std::vector<Command> commands;
};

[[nodiscard]] Program make_program();

}  // namespace trialfit::cli
