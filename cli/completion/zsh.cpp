// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "completion/completion.hpp"
#include "completion/words.hpp"

namespace trialfit::cli {

namespace {

constexpr const char* kZshNames = R"zsh(
_trialfit_names() {  # KIND...: names of the job that stands on the line
  local job word kind
  local -a names
  for word in ${words[2,-1]}; do [[ -f $word ]] && { job=$word; break }; done
  [[ -z $job ]] && return 1
  for kind in $@; do
    names+=(${(f)"$(_call_program names trialfit completion --names ${(q)job} 2>/dev/null | sed -n "s/^$kind"$'\t'"//p")"})
  done
  (( $#names )) && compadd "${names_options[@]}" -a names
}
_trialfit_faces() { local -a names_options; names_options=(-S =); _trialfit_names face }
_trialfit_parts() { local -a names_options; names_options=(-S =); _trialfit_names part }
_trialfit_asked() { local -a names_options; names_options=(); _trialfit_names check face }
_trialfit_jobs() { _files -g '*.(yaml|yml)(-.)' }
)zsh";

// What stands between brackets and colons of _arguments.
std::string harmless(const std::string& text) {
    std::string out;
    for (const char c : text) {
        if (c == '[' || c == ']' || c == ':' || c == '\\') out += '\\';
        out += c;
    }
    return out;
}

std::string action(const OptionWords& option) {
    switch (option.wanted) {
        case Wanted::nothing:
            return "";
        case Wanted::file:
            return ":file:_files";
        case Wanted::face:
            return ":face:_trialfit_faces";
        case Wanted::part:
            return ":part:_trialfit_parts";
        case Wanted::word:
            return ":value:(" + listed(option.words) + ")";
        case Wanted::something:
            break;
    }
    return ":value: ";
}

std::string arguments(const CommandWords& command) {
    std::string out = "      _arguments -s";
    for (const OptionWords& option : command.options)
        for (const std::string& name : option.names)
            out += " \\\n        " +
                   single_quoted("*" + name + "[" + harmless(option.about) + "]" + action(option));
    if (!command.choices.empty())
        out += " \\\n        " + single_quoted("1:what:(" + listed(command.choices) + ")");
    if (command.takes_names)
        out += " \\\n        '1:job:_trialfit_jobs' \\\n        '*:check or face:_trialfit_asked'";
    else if (command.takes_files)
        out += " \\\n        '*:job:_trialfit_jobs'";
    return out + " ;;\n";
}

}  // namespace

std::string zsh_completion(const Program& program) {
    std::string described;
    std::string cases;
    for (const CommandWords& command : words_of(program)) {
        described += "    " + single_quoted(harmless(command.name) + ":" + command.about) + "\n";
        cases += "    " + command.name + ")\n" + arguments(command);
    }
    return "#compdef trialfit\n# Completion of trialfit for zsh, made by `trialfit completion "
           "zsh`.\n" +
           std::string(kZshNames) +
           fmt::format(
               "\n_trialfit() {{\n  local -a commands\n  commands=(\n{}  )\n"
               "  if (( CURRENT == 2 )); then\n"
               "    _describe command commands\n    return\n  fi\n"
               "  local command=$words[2]\n  shift words\n  (( CURRENT-- ))\n"
               "  case $command in\n{}  esac\n}}\n\n"
               "if [[ $funcstack[1] == _trialfit ]]; then _trialfit \"$@\"; "
               "else compdef _trialfit trialfit; fi\n",
               described, cases);
}

}  // namespace trialfit::cli
