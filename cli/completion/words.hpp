// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "commands.hpp"

// What can stand where on the command line, for any shell.
namespace trialfit::cli {

/// What an option wants after it.
enum class Wanted { nothing, something, file, face, part, word };

struct OptionWords {
    std::vector<std::string> names;  ///< "--output", "-o"
    std::string about;               ///< its first sentence, on one line
    Wanted wanted = Wanted::nothing;
    std::vector<std::string> words;  ///< of Wanted::word
};

struct CommandWords {
    std::string name;
    std::string about;
    std::vector<OptionWords> options;
    std::vector<std::string> choices;  ///< words that its first argument may be
    bool takes_files = false;
    bool takes_names = false;  ///< after the job: a check, or faces
};

[[nodiscard]] std::vector<CommandWords> words_of(const Program& program);

/// In single quotes, for a shell.
[[nodiscard]] std::string single_quoted(const std::string& text);

/// All of them, parted by `by`.
[[nodiscard]] std::string listed(const std::vector<std::string>& words, const char* by = " ");

}  // namespace trialfit::cli
