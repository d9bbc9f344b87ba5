// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <trialfit/trade/fastening/thread_strength.hpp>
#include <trialfit/trade/thread/limits.hpp>
#include <trialfit/trade/thread/profile.hpp>
#include <trialfit/trade/thread/tolerance.hpp>

namespace trialfit::trade {

/// What `table thread` shows of a designation; each part has its formula and source where it is
/// declared.
struct ThreadFigures {
    ThreadForm form;
    BasicProfile basic;
    /// Limits of the designation's own side, and of the other side in its usual class only where
    /// the designation names no class.
    std::optional<ThreadLimits> bolt;
    std::optional<ThreadLimits> nut;
    double stress_area_mm2 = 0.0;
    double core_area_mm2 = 0.0;
    StripAreas strip;                      ///< with the usual class on the side that is not named
    double equal_strength_mm = 0.0;        ///< engagement that develops the bolt in a nut as strong
    std::optional<EngagementGroup> group;  ///< group N of ISO 965-1; nothing where it has none
};

/// A reason where the designation cannot be read or its standard sets no limits.
[[nodiscard]] Result<ThreadFigures> thread_figures(std::string_view designation);

}  // namespace trialfit::trade
