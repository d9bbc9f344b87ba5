// SPDX-License-Identifier: MIT
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>
#include <string_view>

#include "what_if.hpp"

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
    WhatIfGiven what_if;
};
/// `papers`: what is said of --paper.
void add_page_options(CLI::App& line, PageGiven& given, const std::string& papers);

/// Whether the page could be written where it is to go, before the work that it takes; kHolds, or
/// the code of what stands against it.
[[nodiscard]] int may_hand_over(const PageGiven& given);

/// Writes a page to the file named and says so, or to standard output where none (or "-") was.
/// Returns kHolds, or the code of what went wrong.
[[nodiscard]] int hand_over(std::string_view page, const PageGiven& given);

}  // namespace trialfit::cli
