// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <memory>
#include <trialfit/paper/reference/text.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/trade/reference/reference.hpp>

#include "command.hpp"
#include "exit_codes.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

struct TableGiven {
    std::vector<std::string> what;
    bool json = false;
};

std::string listing() {
    std::string out;
    for (const trade::ReferenceKind& kind : trade::reference_kinds())
        out += fmt::format("  trialfit table {:<22} {}\n", kind.example, kind.what);
    return out;
}

int run(const TableGiven& given) {
    const auto found = trade::reference(given.what);
    if (!found) return refuse_line(paper::harmless(found.reason()));
    return deliver(
        given.json ? paper::reference_json(*found) : paper::reference_text(*found, output_style()),
        kHolds);
}

}  // namespace

Command add_table(CLI::App& program) {
    auto given = std::make_shared<TableGiven>();
    CLI::App* line = program.add_subcommand("table", "Reference values, each with its source");
    line->add_option("WHAT", given->what, "What to look up, see below")->expected(0, -1);
    line->add_flag("--json", given->json, "The answer as JSON, for programs");
    add_colour(*line);
    line->group("Commands");
    set_help(*line, "WHAT... [options]",
             "What there is:\n" + listing() +
                 "\nLengths in mm, or with their unit (1.5in). A piston may add 'offset 0.5' and\n"
                 "'tilt 15deg'.");
    std::vector<std::string> kinds;
    for (const trade::ReferenceKind& each : trade::reference_kinds())
        kinds.emplace_back(each.name);
    return {.line = line, .run = [given] { return run(*given); }, .choices = std::move(kinds)};
}

}  // namespace trialfit::cli
