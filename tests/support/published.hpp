// SPDX-License-Identifier: MIT
// Published cases as readable data. A file holds
//
//   source: where the figures stand (a case may name its own)
//   cases:
//     - {case: 25H7, given: {...}, expect: {upper: 0.021}, within: 0.0005}
//
// `within` is half the last printed digit unless the case says why not.
#pragma once

#include <yaml-cpp/yaml.h>

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

}  // namespace trialfit::testing
