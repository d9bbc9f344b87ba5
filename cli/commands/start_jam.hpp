// SPDX-License-Identifier: MIT
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>
#include <vector>

namespace trialfit::cli {

/// `start jam`: what two depth readings say, and the job that they begin.
struct JamGiven {
    std::string alone;
    std::string together;
    std::string clearance;
    std::string gauge;
    std::string touching = "plate";
    std::vector<std::string> off;
    bool inches = false;
    bool json = false;
    bool brief = false;
    /// Where the job is to be written; nothing or "-" for nowhere.
    std::optional<std::string> file;
    bool force = false;

    [[nodiscard]] bool any() const {
        return !alone.empty() || !together.empty() || !clearance.empty() || !gauge.empty() ||
               !off.empty();
    }
};

void add_jam_options(CLI::App& line, JamGiven& given);

/// Answers, and writes the job where it is asked for. Returns the exit code: kHolds where the rotor
/// seats and nothing else was asked, kFails where it stands off or not all could be judged.
[[nodiscard]] int start_jam(const JamGiven& given);

}  // namespace trialfit::cli
