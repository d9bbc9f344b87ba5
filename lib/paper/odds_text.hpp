// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/odds/answers.hpp>
#include <trialfit/paper/style.hpp>
#include <trialfit/stack/answers.hpp>

namespace trialfit::paper {

/// The odds for a person: the chance of all together, then of each check as people say it, which
/// pair touches first, what drives the risk, and a histogram of the riskiest.
[[nodiscard]] std::string odds_text(const odds::OddsAnswer& answer, const Style& style);

/// The odds for a program: what `check --json` gives, with the odds added to each finding and
/// `all`; validates against schemas/odds.schema.json.
[[nodiscard]] std::string odds_json(const stack::CheckAnswer& check,
                                    const odds::OddsAnswer& answer);

/// "fails about 1 in 40", "holds about 1 in 30", "is certain to hold", "never holds": a chance to
/// hold with the chance to fail beside it, which has digits of its own where it is tiny.
[[nodiscard]] std::string chance_in_words(double holds, double fails);

}  // namespace trialfit::paper
