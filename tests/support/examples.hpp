// SPDX-License-Identifier: MIT
// Every job under examples/, read as the program reads it.
#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <trialfit/reading/read.hpp>
#include <vector>

namespace trialfit::testing {

inline std::string text_of(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

inline job::Job job_in(const std::filesystem::path& path) {
    const reading::Outcome outcome = reading::read_job(text_of(path), path.filename().string());
    if (!outcome.job) {
        const std::string why = outcome.complaints.empty() ? "" : outcome.complaints.front().fault;
        throw std::runtime_error(path.string() + " was refused: " + why);
    }
    return *outcome.job;
}

/// Every job of the examples; throws where there are none or one is refused.
inline std::vector<job::Job> every_example() {
    std::vector<std::filesystem::path> paths;
    for (const auto& entry : std::filesystem::directory_iterator(TRIALFIT_SOURCE_DIR "/examples")) {
        if (entry.path().extension() == ".yaml") paths.push_back(entry.path());
    }
    std::sort(paths.begin(), paths.end());
    if (paths.empty()) throw std::runtime_error("no examples");
    std::vector<job::Job> jobs;
    jobs.reserve(paths.size());
    for (const auto& path : paths)
        jobs.push_back(job_in(path));
    return jobs;
}

}  // namespace trialfit::testing
