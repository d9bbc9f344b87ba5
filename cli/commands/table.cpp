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
    set_help(
        *line, "WHAT... [options]",
        "What there is:\n" + listing() +
            "\nLengths in mm, or with their unit (1.5in). More can be asked of some:\n"
            "  taper discs 40 30 120                two discs and their centres, or the taper\n"
            "  piston 43 87 1.4mm offset 0.5 tilt 15deg 5000rpm\n"
            "  shim 38.1+41.25+0.3 30+49 0.2 0.4    by the room, what fills it, and the float\n"
            "  lathe 0.1 sharp 30deg 7deg           a sharp tool, by its edges\n"
            "  shrink 25 40 100MPa                  by the stress of the hub\n"
            "  engagement M10 8.8 130MPa            in a metal of that shear strength\n"
            "  seat 1:8 18 0.12 60Nm 0.5MPa         the length of cone for a pressure\n"
            "  seat 1:8 18 0.12 0.1mm 20 40         by the draw-up, with length and hub outside\n"
            "  ring 24 100 25 steel 6000rpm 200MPa 8Nm off 60\n"
            "  growth 60 80K brass against steel    two metals; room 0.05 and 50MPa as well");
    std::vector<std::string> kinds;
    for (const trade::ReferenceKind& each : trade::reference_kinds())
        kinds.emplace_back(each.name);
    return {.line = line, .run = [given] { return run(*given); }, .choices = std::move(kinds)};
}

}  // namespace trialfit::cli
