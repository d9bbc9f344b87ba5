// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "completion/completion.hpp"
#include "completion/words.hpp"

namespace trialfit::cli {

namespace {

// `trialfit` is named by the word that stands first on the line, as it may lie anywhere.
constexpr const char* kBashRest = R"bash(
_trialfit() {
  local cur=${COMP_WORDS[COMP_CWORD]} prev=${COMP_WORDS[COMP_CWORD - 1]} command= job= word i
  for ((i = 1; i < COMP_CWORD; i++)); do
    word=${COMP_WORDS[i]}
    if [[ $word == -* || $word == = ]]; then continue; fi
    if [[ -z $command ]]; then command=$word; elif [[ -z $job && -f $word ]]; then job=$word; fi
  done
  [[ $cur == = ]] && return
  local wanted
  wanted=$(_trialfit_wanted "$command $prev")
  case $wanted in
    file) COMPREPLY=($(compgen -f -- "$cur")); return ;;
    face | part)
      compopt -o nospace
      COMPREPLY=($(compgen -W "$(_trialfit_names "$1" "$job" "$wanted" | sed 's/$/=/')" -- "$cur"))
      return ;;
    something) return ;;
    ?*) COMPREPLY=($(compgen -W "$wanted" -- "$cur")); return ;;
  esac
  if [[ -z $command ]]; then
    COMPREPLY=($(compgen -W "$(_trialfit_commands) --help --version" -- "$cur"))
  elif [[ $cur == -* ]]; then
    COMPREPLY=($(compgen -W "$(_trialfit_options "$command")" -- "$cur"))
  elif [[ -n $job && $command == why ]]; then
    local name
    while IFS= read -r name; do
      if [[ $name == "${cur//\\/}"* ]]; then COMPREPLY+=("$(printf %q "$name")"); fi
    done < <(_trialfit_names "$1" "$job" check; _trialfit_names "$1" "$job" face)
  else
    COMPREPLY=($(compgen -W "$(_trialfit_choices "$command")" -- "$cur")
               $(compgen -f -X '!*.y*ml' -- "$cur") $(compgen -d -S / -- "$cur"))
    [[ ${COMPREPLY[0]-} == */ ]] && compopt -o nospace
  fi
}

_trialfit_names() {  # PROGRAM JOB KIND
  [[ -n $2 ]] && "$1" completion --names "$2" 2>/dev/null | sed -n "s/^$3"$'\t'"//p"
}

complete -F _trialfit trialfit
)bash";

std::string_view word_of(Wanted wanted) {
    switch (wanted) {
        case Wanted::file:
            return "file";
        case Wanted::face:
            return "face";
        case Wanted::part:
            return "part";
        default:
            return "something";
    }
}

// A function that prints words for the case that it is asked for.
std::string function(std::string_view name, const std::string& cases) {
    return fmt::format("{}() {{\n  case $1 in\n{}  esac\n}}\n", name, cases);
}

std::string one_case(const std::string& pattern, const std::string& words) {
    return fmt::format("    {}) echo {} ;;\n", pattern, single_quoted(words));
}

}  // namespace

std::string bash_completion(const Program& program) {
    std::vector<std::string> commands;
    std::string options;
    std::string choices;
    std::string wanted;
    for (const CommandWords& command : words_of(program)) {
        commands.push_back(command.name);
        std::vector<std::string> all;
        for (const OptionWords& option : command.options) {
            all.insert(all.end(), option.names.begin(), option.names.end());
            if (option.wanted == Wanted::nothing) continue;
            const std::string words = option.wanted == Wanted::word
                                          ? listed(option.words)
                                          : std::string(word_of(option.wanted));
            for (const std::string& name : option.names)
                wanted += one_case(fmt::format("'{} {}'", command.name, name), words);
        }
        options += one_case(command.name, listed(all));
        if (!command.choices.empty()) choices += one_case(command.name, listed(command.choices));
    }
    return "# Completion of trialfit for bash, made by `trialfit completion bash`.\n" +
           fmt::format("_trialfit_commands() {{\n  echo {}\n}}\n",
                       single_quoted(listed(commands))) +
           function("_trialfit_options", options) + function("_trialfit_choices", choices) +
           function("_trialfit_wanted", wanted) + kBashRest;
}

}  // namespace trialfit::cli
