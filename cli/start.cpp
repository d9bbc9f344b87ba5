// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <memory>
#include <optional>
#include <trialfit/paper/start/start.hpp>
#include <trialfit/paper/text/words.hpp>

#include "command.hpp"
#include "exit_codes.hpp"
#include "output_file.hpp"
#include "start_jam.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

struct StartGiven {
    std::string kind;
    JamGiven jam;
};

std::string kinds_listed() {
    std::string out =
        fmt::format("  {:<11} {}\n", "jam", "a rotor that jams, from two depth readings, at once");
    for (const paper::StartKind& kind : paper::start_kinds())
        out += fmt::format("  {:<11} {}\n", kind.name, kind.what);
    return out;
}

int run(const StartGiven& given) {
    if (given.kind == "jam") return start_jam(given.jam);
    if (given.jam.any())
        return refuse_line("--alone, --together and what goes with them belong to `start jam`",
                           "trialfit start jam --alone 13.97 --together 10.02");
    const paper::StartKind* kind = &paper::start_kinds().front();
    std::vector<std::string> names{"jam"};
    for (const paper::StartKind& each : paper::start_kinds()) {
        names.emplace_back(each.name);
        if (each.name == given.kind) kind = &each;
    }
    if (!given.kind.empty() && kind->name != given.kind)
        return refuse_line("no kind of job is called '" + given.kind + "'",
                           did_you_mean(given.kind, names, "`trialfit start --help` lists them"));
    const std::optional<std::string>& to = given.jam.file;
    if (to.value_or("-") == "-") return deliver(kind->text, kHolds);
    const int code =
        write_whole({.name = *to, .overwrite = given.jam.force, .job = {}}, kind->text);
    if (code != kHolds) return code;
    const std::string file = paper::shell_word(*to);
    return deliver(
        fmt::format("Wrote {}. Put your own sizes in, then: trialfit check {}\n", file, file),
        kHolds);
}

}  // namespace

Command add_start(CLI::App& program) {
    auto given = std::make_shared<StartGiven>();
    CLI::App* line = program.add_subcommand("start", "A commented job file to begin from");
    line->add_option("KIND", given->kind, "What kind of job, see below; the first where not said");
    line->add_option("-o,--output", given->jam.file, "Write it to FILE, not to standard output")
        ->type_name("FILE");
    line->add_flag("--force", given->jam.force, "Overwrite FILE where it is there already");
    add_jam_options(*line, given->jam);
    line->group("Commands");
    set_help(*line, "[KIND] [options]",
             "Kinds of job:\n" + kinds_listed() +
                 "\nExamples:\n"
                 "  trialfit start jam --alone 13.97 --together 10.02 --clearance 0.5 \\\n"
                 "    --off plate=10.00,keep=5.5 -o jam.yaml\n"
                 "  trialfit start -o engine.yaml\n"
                 "  trialfit start endfloat > gearbox.yaml");
    return {.line = line, .run = [given] { return run(*given); }};
}

}  // namespace trialfit::cli
