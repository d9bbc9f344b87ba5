// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "completion/completion.hpp"
#include "completion/words.hpp"

namespace trialfit::cli {

namespace {

constexpr const char* kFishNames = R"fish(
function __trialfit_names  # KIND AFTER: names of the job that stands on the line
    for word in (commandline -opc)[2..-1]
        if test -f "$word"
            trialfit completion --names "$word" 2>/dev/null | string match -r "^$argv[1]\t.*" \
                | string replace -r '^[^\t]*\t' '' | string replace -r '$' "$argv[2]"
            return
        end
    end
end

complete -c trialfit -f
)fish";

std::string value(const OptionWords& option) {
    switch (option.wanted) {
        case Wanted::nothing:
            return "";
        case Wanted::file:
            return " -r -F";
        case Wanted::face:
            return " -x -a '(__trialfit_names face =)'";
        case Wanted::part:
            return " -x -a '(__trialfit_names part =)'";
        case Wanted::word:
            return " -x -a " + single_quoted(listed(option.words));
        case Wanted::something:
            break;
    }
    return " -x";
}

std::string line_of(const std::string& seen, const OptionWords& option) {
    std::string out = "complete -c trialfit -n " + single_quoted(seen);
    for (const std::string& name : option.names)
        out += name.starts_with("--") ? " -l " + name.substr(2) : " -s " + name.substr(1);
    return out + value(option) + " -d " + single_quoted(option.about) + "\n";
}

std::string lines_of(const CommandWords& command) {
    const std::string seen = "__fish_seen_subcommand_from " + command.name;
    std::string out = fmt::format("complete -c trialfit -n __fish_use_subcommand -a {} -d {}\n",
                                  command.name, single_quoted(command.about));
    for (const OptionWords& option : command.options)
        out += line_of(seen, option);
    const std::string begin = "complete -c trialfit -n " + single_quoted(seen);
    if (!command.choices.empty())
        out += begin + " -a " + single_quoted(listed(command.choices)) + "\n";
    if (command.takes_files) out += begin + " -k -a '(__fish_complete_suffix .yaml)'\n";
    if (command.takes_names)
        out += begin + " -a '(__trialfit_names check; __trialfit_names face)'\n";
    return out;
}

}  // namespace

std::string fish_completion(const Program& program) {
    std::string out = "# Completion of trialfit for fish, made by `trialfit completion fish`.\n";
    out += kFishNames;
    for (const CommandWords& command : words_of(program))
        out += lines_of(command);
    return out;
}

}  // namespace trialfit::cli
