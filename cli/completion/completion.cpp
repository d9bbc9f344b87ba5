// SPDX-License-Identifier: MIT
#include "completion/completion.hpp"

#include <memory>
#include <string>
#include <trialfit/job/job.hpp>
#include <utility>

#include "exit_codes.hpp"
#include "files/input.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

struct CompletionGiven {
    std::string shell;
    std::string names;
};

// A line each: the kind, a tab, the name.
int tell_names(const std::string& file) {
    const auto loaded = load(file);
    if (!loaded) return kWrong;
    const job::Job& job = loaded->job;
    std::string out;
    const auto add = [&out](std::string_view kind, const std::string& name) {
        if (name.find('\n') == std::string::npos) out += std::string(kind) + "\t" + name + "\n";
    };
    for (const job::Check& each : job.checks)
        add("check", each.name);
    for (const job::AirGap& each : job.air_gaps)
        add("check", each.name);
    for (const job::Part& part : job.parts) {
        add("part", part.name);
        for (const job::Face& face : part.faces)
            add("face", part.name + "." + face.name);
    }
    return deliver(out, kHolds);
}

int run_completion(const CompletionGiven& given) {
    if (!given.names.empty()) return tell_names(given.names);
    if (given.shell == "bash") return deliver(bash_completion(make_program()), kHolds);
    if (given.shell == "zsh") return deliver(zsh_completion(make_program()), kHolds);
    if (given.shell == "fish") return deliver(fish_completion(make_program()), kHolds);
    const std::vector<std::string> shells{"bash", "zsh", "fish"};
    if (given.shell.empty())
        return refuse_line("completion is of a shell", "name one: bash, zsh or fish");
    return refuse_line("no completion is there for '" + given.shell + "'",
                       did_you_mean(given.shell, shells, "there is one for bash, zsh and fish"));
}

}  // namespace

Command add_completion(CLI::App& program) {
    auto given = std::make_shared<CompletionGiven>();
    CLI::App* line =
        program.add_subcommand("completion", "A script by which a shell completes a command line");
    line->add_option("SHELL", given->shell, "bash, zsh or fish");
    line->add_option("--names", given->names,
                     "The names of a job's checks, parts and faces, a line each")
        ->type_name("FILE");
    line->group("For editors and shells");
    set_help(*line, "SHELL",
             "Examples:\n"
             "  source <(trialfit completion bash)\n"
             "  trialfit completion fish > ~/.config/fish/completions/trialfit.fish\n\n"
             "Where Trialfit is installed as a package, bash, zsh and fish find it by\n"
             "themselves.");
    return {.line = line,
            .run = [given] { return run_completion(*given); },
            .choices = {"bash", "zsh", "fish"}};
}

}  // namespace trialfit::cli
