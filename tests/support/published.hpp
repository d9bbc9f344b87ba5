// SPDX-License-Identifier: MIT
// Published cases as readable data. A file holds
//
//   source: where the figures stand (a case may name its own)
//   cases:
//     - {case: 25H7, given: {...}, expect: {upper: 0.021}, within: 0.0005}
//
// `within` is half the last printed digit unless the case says why not.
#pragma once

#include <doctest/doctest.h>
#include <yaml-cpp/yaml.h>

#include <cmath>
#include <map>
#include <stdexcept>
#include <string>

namespace trialfit::testing {

/// Calls `body(case)` for every case of tests/published/<file>; throws where the file is missing,
/// has no cases, or a case names no source (its own or the file's).
template <typename Body>
void for_each_case(const std::string& file, Body body) {
    const YAML::Node root = YAML::LoadFile(TRIALFIT_SOURCE_DIR "/tests/published/" + file);
    if (!root["cases"] || root["cases"].size() == 0) throw std::runtime_error(file + ": no cases");
    for (const YAML::Node& each : root["cases"]) {
        if (!root["source"] && !each["source"])
            throw std::runtime_error(file + ": a case without a source");
        body(each);
    }
}

/// Every expected figure of a case must be among the found ones, and within its own or the case's
/// allowance.
inline void check_all(const YAML::Node& row, const std::map<std::string, double>& found) {
    for (const auto& cell : row["expect"]) {
        const auto name = cell.first.as<std::string>();
        const YAML::Node within = row["within"];
        const double allowed = within.IsMap() ? within[name].as<double>() : within.as<double>();
        CAPTURE(row["case"].as<std::string>());
        CAPTURE(name);
        CAPTURE(found.at(name));
        CHECK(std::abs(found.at(name) - cell.second.as<double>()) <= allowed);
    }
}

}  // namespace trialfit::testing
