// SPDX-License-Identifier: MIT
#include <memory>
#include <trialfit/paper/check/cautions.hpp>

#include "command.hpp"
#include "exit_codes.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

Command add_cautions(CLI::App& program) {
    auto json = std::make_shared<bool>(false);
    CLI::App* line = program.add_subcommand("cautions", "What can hurt someone in this work");
    line->add_flag("--json", *json, "Codes and texts as JSON, for programs");
    line->group("Commands");
    set_help(
        *line, "[options]",
        "Examples:\n"
        "  trialfit cautions\n\n"
        "Every caution, whole. check, plan, seat, spin, timing, sheet and record name those that\n"
        "their job calls for.");
    return {.line = line, .run = [json] {
                return deliver(
                    *json ? paper::every_caution_json() : paper::every_caution(output_style()),
                    kHolds);
            }};
}

}  // namespace trialfit::cli
