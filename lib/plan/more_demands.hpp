// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/plan/demands.hpp>
#include <trialfit/plan/marked.hpp>
#include <vector>

namespace trialfit::plan {

/// Adds what the nested rings and the job's air gaps ask for.
void ask_radial(const stack::Model& model, const Marked& marked, const std::vector<Nesting>& nested,
                Demands& into);

/// Adds the rounding rules of seats that have one. The thickness wanted is the one that brings the
/// first aim which the seat moves to its value, all else as planned; the stack must be what the
/// rule makes of it. A note where no aim is moved.
void ask_rounding(const job::Job& job, Demands& into);

}  // namespace trialfit::plan
