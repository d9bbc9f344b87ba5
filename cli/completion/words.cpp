// SPDX-License-Identifier: MIT
#include "completion/words.hpp"

#include <algorithm>

namespace trialfit::cli {

namespace {

std::string first_line_of(const std::string& about) {
    std::string out = about.substr(0, about.find(": "));
    std::replace(out.begin(), out.end(), '\n', ' ');
    return out;
}

OptionWords words_of(const CLI::Option& option) {
    OptionWords out{.names = {}, .about = first_line_of(option.get_description())};
    for (const std::string& name : option.get_lnames())
        out.names.push_back("--" + name);
    for (const std::string& name : option.get_snames())
        out.names.push_back("-" + name);
    if (option.get_type_size() == 0) return out;
    const std::string type = option.get_type_name();
    out.wanted = Wanted::something;
    if (type.starts_with("FILE")) out.wanted = Wanted::file;
    if (type.starts_with("FACE=") || type == "WHAT=SIZE") out.wanted = Wanted::face;
    if (type.starts_with("PART=")) out.wanted = Wanted::part;
    if (type == "HOW") out.words = {"worst", "rss", "odds=0.99"};
    if (option.check_lname("color")) out.words = {"auto", "always", "never"};
    if (option.check_lname("paper")) out.words = {"A4", "A3", "Letter"};
    if (!out.words.empty()) out.wanted = Wanted::word;
    return out;
}

CommandWords words_of(const Command& command) {
    const CLI::App& line = *command.line;
    CommandWords out{.name = line.get_name(),
                     .about = first_line_of(line.get_description()),
                     .options = {},
                     .choices = command.choices};
    for (const CLI::Option* each : line.get_options()) {
        const std::string name = each->get_name();
        if (!each->get_positional()) {
            out.options.push_back(words_of(*each));
            continue;
        }
        out.takes_files = out.takes_files || name == "JOB" || name == "ENGINE" || name == "KIT";
        out.takes_names = out.takes_names || (name == "WHAT" && out.takes_files);
    }
    return out;
}

}  // namespace

std::vector<CommandWords> words_of(const Program& program) {
    std::vector<CommandWords> out;
    out.reserve(program.commands.size());
    for (const Command& each : program.commands)
        out.push_back(words_of(each));
    return out;
}

std::string single_quoted(const std::string& text) {
    std::string out = "'";
    for (const char c : text)
        out += c == '\'' ? std::string("'\\''") : std::string(1, c);
    return out + "'";
}

std::string listed(const std::vector<std::string>& words, const char* by) {
    std::string out;
    for (const std::string& word : words)
        out += (out.empty() ? "" : by) + word;
    return out;
}

}  // namespace trialfit::cli
