// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <trialfit/draw/section/section.hpp>
#include <variant>
#include <vector>

// The section of a job with letters in place of figures, for a page to measure by: all parts
// together, and each part alone. No size of the job stands on it.
namespace trialfit::draw {

/// A letter and what it stands for, by names: the distance of two faces ("plate.back",
/// "plate.front"), or a diameter: a ring and "bore" or "od" ("plate.disc", "od"), or a cone and
/// "cone" ("rotor.bore", "cone"), at its gauge plane.
struct LetterAt {
    std::string_view letter;
    std::string_view from;
    std::string_view to;
};

/// All parts together, with the distances from one part to another, then each part that has a
/// letter. Complaints as section(); one where a letter names what the job has not.
[[nodiscard]] std::variant<std::vector<Lettered>, job::Complaints> lettered(
    const job::Job& job, const std::vector<LetterAt>& letters);

}  // namespace trialfit::draw
