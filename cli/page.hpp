// SPDX-License-Identifier: MIT
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>
#include <string_view>

// What the commands that make a page share.
namespace trialfit::cli {

/// A sheet of paper standing, mm.
struct Paper {
    std::string name;
    double width = 0.0;
    double height = 0.0;
};
/// A4, A3, Letter, in any case; complains on standard error and returns nothing for others.
[[nodiscard]] std::optional<Paper> paper_named(const std::string& name);

/// What every command that makes a page is given.
struct PageGiven {
    std::string job;
    std::optional<std::string> file;
    std::string paper = "A4";
    bool force = false;
    bool as_written = false;
    std::string as_of;
};
/// `papers`: what is said of --paper.
void add_page_options(CLI::App& line, PageGiven& given, const std::string& papers);

/// Writes a page to `file` and says so, or to standard output where no file (or "-") was named.
/// Returns kHolds, or the code of what went wrong.
[[nodiscard]] int hand_over(std::string_view page, const std::optional<std::string>& file,
                            bool overwrite);

}  // namespace trialfit::cli
