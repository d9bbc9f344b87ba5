// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/stack/answers.hpp>

// Results for programs: indented JSON, ended by a line end, one file of schemas/ each. Lengths in
// the file's unit, in full double precision; a figure that nobody can know is null.
namespace trialfit::paper {

/// Validates against schemas/check.schema.json.
[[nodiscard]] std::string check_json(const stack::CheckAnswer& answer);

/// Validates against schemas/why.schema.json.
[[nodiscard]] std::string why_json(const stack::WhyAnswer& answer);

}  // namespace trialfit::paper
