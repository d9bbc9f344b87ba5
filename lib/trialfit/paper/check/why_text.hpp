// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/document/document.hpp>
#include <trialfit/stack/answers.hpp>

namespace trialfit::paper {

/// The chain behind one figure, for people: the figure and its verdict first, then each size that
/// it stands on, biggest contributor first, with its sensitivity and its shares, then what
/// measuring the biggest ones better would gain. Chains of more than 60 sizes are cut short; JSON
/// has them whole.
[[nodiscard]] Document document_of(const stack::WhyAnswer& answer);

}  // namespace trialfit::paper
