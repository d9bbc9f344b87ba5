// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <string_view>

// Job files to begin from: commented, whole, with invented sizes that say so.
namespace trialfit::paper {

struct StartKind {
    std::string_view name;
    /// One line for a list.
    std::string_view what;
    /// The job file.
    std::string_view text;
};

/// The first is the one for somebody who does not say which.
[[nodiscard]] const std::array<StartKind, 4>& start_kinds();

/// The texts, one a source file.
[[nodiscard]] std::string_view start_ignition();
[[nodiscard]] std::string_view start_endfloat();
[[nodiscard]] std::string_view start_impeller();
[[nodiscard]] std::string_view start_spacer();

}  // namespace trialfit::paper
