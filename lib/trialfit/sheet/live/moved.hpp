// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <trialfit/sheet/live/live.hpp>
#include <vector>

// What a page does with its figures: it moves each by what is typed, and adds up what the groups of
// fields change (paper/sheet/live.js does the same).
namespace trialfit::sheet {

/// Of each field what is typed into it; nothing where it is blank.
using LiveSizes = std::vector<std::optional<LiveSize>>;

/// The figures of `finding` at what is typed into `fields`.
[[nodiscard]] LiveFigures at_typed(const LiveFinding& finding, const std::vector<LiveField>& fields,
                                   const LiveSizes& typed, double inflate);

/// Whether both give the same to within rounding. `rss`: the RSS ranges are compared, too.
[[nodiscard]] bool alike(const LiveFigures& one, const LiveFigures& other, bool rss);

/// Whether a field filled in moves them, or a size that drops out with it.
[[nodiscard]] bool stand_alike(const LiveFigures& one, const LiveFigures& other, bool rss);

}  // namespace trialfit::sheet
