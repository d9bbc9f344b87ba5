// SPDX-License-Identifier: MIT
#include <CLI/CLI.hpp>
#include <algorithm>
#include <csignal>
#include <cstdlib>
#include <exception>
#include <fstream>
#include <new>
#include <optional>
#include <string>
#include <string_view>
#include <trialfit/paper/text/words.hpp>

#include "command.hpp"
#include "commands.hpp"
#include "exit_codes.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

std::string help_hint(const CLI::App& line) {
    const std::string command = line.get_parent() == nullptr ? "" : line.get_name() + " ";
    return "`trialfit " + command + "--help` shows how";
}

// The first word that neither the program nor the chosen command knows, options before others.
std::optional<std::string> unknown_word(const CLI::App& line) {
    const std::vector<std::string> words = line.remaining();
    for (const std::string& word : words)
        if (word.size() > 1 && word.front() == '-' && word != "--") return word;
    for (const std::string& word : words)
        if (word != "--") return word;
    return std::nullopt;
}

std::vector<std::string> option_names(const CLI::App& line) {
    std::vector<std::string> out;
    for (const CLI::Option* option : line.get_options())
        for (const std::string& name : option->get_lnames())
            out.push_back("--" + name);
    return out;
}

int refuse_word(const CLI::App& line, const std::string& word, bool command_wanted) {
    if (word.front() == '-')
        return refuse_line(
            "no option is called '" + word + "'",
            did_you_mean(word.substr(0, word.find('=')), option_names(line), help_hint(line)));
    if (!command_wanted) return refuse_line("'" + word + "' is one word too many", help_hint(line));
    if (std::ifstream(word).good())
        return refuse_line("the command comes before the job",
                           "to check it: `trialfit check " + paper::shell_word(word) + "`");
    std::vector<std::string> names;
    for (const CLI::App* each : line.get_subcommands({}))
        names.push_back(each->get_name());
    return refuse_line("no command is called '" + word + "'",
                       did_you_mean(word, names, help_hint(line)));
}

// A command line that CLI11 refused, in our words where it only missed what was misspelt.
int refuse_parse(const CLI::App& program, const CLI::App& line, const CLI::ParseError& error) {
    if (const auto word = unknown_word(line)) return refuse_word(line, *word, &line == &program);
    const std::string fault = error.what();
    if (const auto* const wrong = dynamic_cast<const WrongValue*>(&error))
        return refuse_line(fault, wrong->mend());
    if (error.get_name() == "ArgumentMismatch")
        return refuse_line(fault.substr(0, fault.find(':')) + " wants a value", help_hint(line));
    return refuse_line(fault, help_hint(line));
}

int run(int argc, char** argv) {
    const Program made = make_program();
    CLI::App& program = *made.line;
    const CLI::App* line = &program;
    const Command* chosen = nullptr;
    const auto choose = [&] {
        for (const Command& each : made.commands)
            if (each.line->parsed()) chosen = &each;
        if (chosen != nullptr) line = chosen->line;
    };
    try {
        program.parse(argc, argv);
        choose();
    } catch (const CLI::CallForHelp&) {
        return deliver(program.help(), kHolds);
    } catch (const CLI::CallForVersion& version) {
        return deliver(std::string(version.what()) + "\n", kHolds);
    } catch (const CLI::ParseError& error) {
        choose();
        return refuse_parse(program, *line, error);
    }
    // Words before the command are the program's, those after it the command's.
    for (const CLI::App* each : {static_cast<const CLI::App*>(&program), line})
        if (const auto word = unknown_word(*each))
            return refuse_word(*each, *word, chosen == nullptr);
    if (chosen == nullptr) {
        tell(program.help());
        return kWrong;
    }
    return chosen->run();
}

constexpr const char* kNoMemory = "out of memory";

// Whether the answer was asked for as JSON, on a command line that may be wrong elsewhere.
bool asks_json(int argc, char** argv) {
    return std::any_of(argv, argv + argc,
                       [](const char* word) { return std::string_view(word) == "--json"; });
}

// What is wrong with a command line or a job goes out as the answer does: as JSON where that was
// asked for.
int run_and_tell(int argc, char** argv) {
    const int code = run(argc, argv);
    return code == kWrong && asks_json(argc, argv) ? deliver(told_as_json(), code) : code;
}

// A fault in another thread than the first, which no handler of ours is above.
[[noreturn]] void end_by_fault() {
    tell(
        "trialfit: error: out of memory, or a fault of trialfit itself; nothing was answered or "
        "written: give it more memory or --threads 1, or report it with the job file\n");
    std::_Exit(kFault);
}

}  // namespace

}  // namespace trialfit::cli

int main(int argc, char** argv) {
    using namespace trialfit::cli;
    std::set_terminate(end_by_fault);
    // A file that grows beyond what is allowed is told of as a full disk is.
    (void)std::signal(SIGXFSZ, SIG_IGN);
    try {
        return run_and_tell(argc, argv);
    } catch (const std::bad_alloc&) {
        refuse("trialfit", kNoMemory,
               "nothing was answered or written; give it more memory, or a smaller job");
    } catch (const std::exception& fault) {
        refuse("trialfit",
               std::string("this is a fault of trialfit itself, not of the job: ") + fault.what(),
               "please report it with the job file");
    } catch (...) {
        refuse("trialfit", "this is a fault of trialfit itself, not of the job",
               "please report it with the job file");
    }
    return kFault;
}
