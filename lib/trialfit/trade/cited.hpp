// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>

namespace trialfit::trade {

/// A value and where it stands.
struct Cited {
    double value = 0.0;
    std::string_view source;
};

/// A range and where it stands; lower == upper where one figure is printed.
struct CitedRange {
    std::string_view what;
    double lower = 0.0;
    double upper = 0.0;
    std::string_view source;
};

}  // namespace trialfit::trade
