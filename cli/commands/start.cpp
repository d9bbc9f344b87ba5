// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <memory>
#include <optional>
#include <trialfit/draw/section/lettered.hpp>
#include <trialfit/paper/start/start.hpp>
#include <trialfit/paper/start/worksheet.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/reading/read.hpp>

#include "ask.hpp"
#include "command.hpp"
#include "commands/start_jam.hpp"
#include "exit_codes.hpp"
#include "files/input.hpp"
#include "files/installed.hpp"
#include "files/output_file.hpp"
#include "files/page.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

struct StartGiven {
    std::string kind;
    JamGiven jam;
    bool worksheet = false;
    bool ask = false;
    std::string paper;
};

std::string kinds_listed() {
    std::string out =
        fmt::format("  {:<11} {}\n", "jam", "a rotor that jams, from two depth readings, at once");
    for (const paper::StartKind& kind : paper::start_kinds())
        out += fmt::format("  {:<11} {}\n", kind.name, kind.what);
    return out;
}

int refuse_for_jam() {
    return refuse_line("`start jam` asks for no more than its two depths",
                       "trialfit start jam --alone 13.97 --together 10.02");
}

// The kind that is named, the first where none is; complains of an unknown one.
const paper::StartKind* kind_of(const StartGiven& given) {
    std::vector<std::string> names{"jam"};
    for (const paper::StartKind& each : paper::start_kinds()) {
        names.emplace_back(each.name);
        if (given.kind.empty() || each.name == given.kind) return &each;
    }
    refuse_line("no kind of job is called '" + given.kind + "'",
                did_you_mean(given.kind, names, "`trialfit start --help` lists them"));
    return nullptr;
}

int worksheet(const paper::StartKind& kind, quantity::Unit units, const StartGiven& given) {
    const auto paper = paper_named(given.paper.empty() ? "A4" : given.paper);
    if (!paper) return kWrong;
    PageGiven page;
    page.file = given.jam.file;
    page.force = given.jam.force;
    if (const int code = may_hand_over(page); code != kHolds) return code;
    const std::string text = paper::start_template(kind, units);
    const Loaded in_template{*reading::read_job(text, "").job, text};
    const auto pictures = draw::lettered(in_template.job, paper::letters_drawn(kind));
    if (const auto* complaints = std::get_if<job::Complaints>(&pictures))
        return complain(*complaints, in_template);
    return hand_over(paper::worksheet_html(
                         kind, units, std::get<std::vector<draw::Lettered>>(pictures), paper->name),
                     page);
}

int write_template(const paper::StartKind& kind, quantity::Unit units, const StartGiven& given) {
    const std::string text = for_editors(paper::start_template(kind, units));
    const std::optional<std::string>& to = given.jam.file;
    if (to.value_or("-") == "-") return deliver(text, kHolds);
    const int code = write_whole({.name = *to, .overwrite = given.jam.force, .job = {}}, text);
    if (code != kHolds) return code;
    const std::string file = paper::shell_word(*to);
    return deliver(
        fmt::format("Wrote {}. Put your own sizes in, then: trialfit check {}\n", file, file),
        kHolds);
}

int run(const StartGiven& given) {
    if (given.ask && given.worksheet)
        return refuse_line("--ask and --worksheet are two ways to give sizes",
                           "print the page with --worksheet first, then type it in with --ask");
    if (!given.paper.empty() && !given.worksheet)
        return refuse_line("--paper is for the page to measure by", "add --worksheet");
    if (given.kind == "jam")
        return given.ask || given.worksheet ? refuse_for_jam() : start_jam(given.jam);
    if (given.jam.any())
        return refuse_line("--alone, --together and what goes with them belong to `start jam`",
                           "trialfit start jam --alone 13.97 --together 10.02");
    const paper::StartKind* kind = kind_of(given);
    if (kind == nullptr) return kWrong;
    const quantity::Unit units = given.jam.inches ? quantity::Unit::inch : quantity::Unit::mm;
    if (given.worksheet) return worksheet(*kind, units, given);
    if (given.ask) return ask(*kind, units, given.jam.file, given.jam.force);
    return write_template(*kind, units, given);
}

}  // namespace

Command add_start(CLI::App& program) {
    auto given = std::make_shared<StartGiven>();
    CLI::App* line = program.add_subcommand("start", "A commented job file to begin from");
    line->add_option("KIND", given->kind, "What kind of job, see below; the first where not said");
    line->add_option("-o,--output", given->jam.file, "Write it to FILE, not to standard output")
        ->type_name("FILE");
    line->add_flag("--force", given->jam.force, "Overwrite FILE where it is there already");
    line->add_flag("--worksheet", given->worksheet,
                   "A page to print and to measure by, instead of the file")
        ->group("To measure");
    line->add_flag("--ask", given->ask, "Ask for the sizes here, write FILE and check it")
        ->group("To measure");
    line->add_option("--paper", given->paper, "Of the page: A4 (unless said), A3 or Letter")
        ->type_name("NAME")
        ->group("To measure");
    line->add_flag("--inches", given->jam.inches, "Lengths are in inches");
    add_jam_options(*line, given->jam);
    line->group("Commands");
    set_help(*line, "[KIND] [options]",
             "Kinds of job:\n" + kinds_listed() +
                 "\nExamples:\n"
                 "  trialfit start jam --alone 13.97 --together 10.02 --clearance 0.5 \\\n"
                 "    --off plate=10.00,keep=5.5 -o jam.yaml\n"
                 "  trialfit start -o engine.yaml\n"
                 "  trialfit start ignition --worksheet -o page.html\n"
                 "  trialfit start ignition --ask -o engine.yaml\n"
                 "  trialfit start endfloat > gearbox.yaml");
    std::vector<std::string> kinds{"jam"};
    for (const paper::StartKind& each : paper::start_kinds())
        kinds.emplace_back(each.name);
    return {.line = line, .run = [given] { return run(*given); }, .choices = std::move(kinds)};
}

}  // namespace trialfit::cli
