// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/odds/answers.hpp>
#include <trialfit/paper/document/text.hpp>
#include <trialfit/stack/answers.hpp>

namespace trialfit::paper {

/// The odds for a person: what `check` warns of, the odds of all together, then of each check,
/// which pair touches first, and the deciding sizes and a histogram of the least sure. Failures
/// rarer than 1 in a million are not told apart.
[[nodiscard]] Document document_of(const stack::CheckAnswer& check, const odds::OddsAnswer& answer);
/// The same as text, within the style's width.
[[nodiscard]] inline std::string odds_text(const stack::CheckAnswer& check,
                                           const odds::OddsAnswer& answer, const Style& style) {
    return text_of(document_of(check, answer), style);
}

/// The odds for a program: what `check --json` gives, with the odds added to each finding and
/// `all`; validates against schemas/odds.schema.json.
[[nodiscard]] std::string odds_json(const stack::CheckAnswer& check,
                                    const odds::OddsAnswer& answer);

/// "fails about 1 in 40", "holds with odds of 32 %", "fails under 1 in a million",
/// "FAILS, odds 0 %": the odds to hold with those to fail beside them, which have digits of their
/// own where they are tiny.
[[nodiscard]] std::string chance_in_words(double holds, double fails);

}  // namespace trialfit::paper
