// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/draw/section/lettered.hpp>
#include <trialfit/plan/answers.hpp>
#include <vector>

namespace trialfit::stack {
class Model;
}

namespace trialfit::sheet {

/// The letter of a plan's n-th turned face or ring, counted from 0 over the cuts in their order of
/// work and then the skims: "A" to "Z", then "A1".
[[nodiscard]] std::string letter_of(std::size_t n);

/// The parts that a plan turns, each alone and as it is to be, with those letters at the sizes to
/// be made. Nothing where the plan turns nothing or such a part cannot be drawn.
[[nodiscard]] std::vector<draw::Lettered> turned_parts(const stack::Model& model,
                                                       const plan::PlanMade& plan);

}  // namespace trialfit::sheet
