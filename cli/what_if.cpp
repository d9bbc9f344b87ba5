// SPDX-License-Identifier: MIT
#include "what_if.hpp"

namespace trialfit::cli {

void add_what_if(CLI::App& line, WhatIfGiven& given) {
    const auto several = [&](const char* name, std::vector<std::string>& into, const char* type,
                             const char* what) {
        line.add_option(name, into, what)->type_name(type)->allow_extra_args(false);
    };
    several("--with", given.with, "WHAT=SIZE",
            "As if: a face, plate.front=5.46, shims,\n"
            "stator.shims=0.5+0.3, a cone or a ring's bore or od;\n"
            "may be given again, and nothing is written");
    several("--take", given.take, "FACE=AMOUNT", "As if so much came off a face: plate.front=0.60");
}

}  // namespace trialfit::cli
