// SPDX-License-Identifier: MIT
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

namespace trialfit::cli {

/// What every command that answers may suppose of its job: "WHAT=SIZE", "FACE=AMOUNT".
struct WhatIfGiven {
    std::vector<std::string> with;
    std::vector<std::string> take;

    [[nodiscard]] bool any() const { return !with.empty() || !take.empty(); }
};

void add_what_if(CLI::App& line, WhatIfGiven& given);

}  // namespace trialfit::cli
