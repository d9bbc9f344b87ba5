// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/stack/answers.hpp>

namespace trialfit::paper {

/// The answer in plain words, one paragraph without line breaks: "Does not fit: the rotor's rim
/// lands on the plate's front 4.00 mm before the rotor seats on the cone."
[[nodiscard]] std::string headline(const stack::CheckAnswer& answer);

}  // namespace trialfit::paper
