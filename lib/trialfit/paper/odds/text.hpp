// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/odds/answers.hpp>
#include <trialfit/paper/document/document.hpp>
#include <trialfit/stack/answers.hpp>

namespace trialfit::paper {

/// The odds for a person: what `check` warns of, the odds of all together, then of each check,
/// which pair touches first, and the deciding sizes and a histogram of the least sure. Failures
/// rarer than 1 in a million are not told apart.
[[nodiscard]] Document document_of(const stack::CheckAnswer& check, const odds::OddsAnswer& answer);

/// "fails about 1 in 40", "holds with odds of 32 %", "fails under 1 in a million",
/// "FAILS, odds 0 %": the odds to hold with those to fail beside them, which have digits of their
/// own where they are tiny.
[[nodiscard]] std::string chance_in_words(double holds, double fails);

}  // namespace trialfit::paper
