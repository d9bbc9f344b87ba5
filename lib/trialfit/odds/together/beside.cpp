// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <trialfit/numerics/random/estimate.hpp>
#include <trialfit/odds/odds.hpp>
#include <trialfit/stack/bounds.hpp>
#include <utility>

// The odds put beside what other answers have found.
namespace trialfit::odds {

Options beside(const stack::Options& options) {
    constexpr std::uint64_t kDraws = 100'000;
    Options asked;
    asked.stack = options;
    asked.sampling.samples = kDraws;
    asked.sampling.threads = 1;
    return asked;
}

void give_odds(stack::CheckAnswer& answer, const OddsAnswer& odds) {
    for (stack::CheckResult& check : answer.checks) {
        for (const CheckOdds& found : odds.checks) {
            if (found.name == check.name && !found.not_judged_for) {
                check.odds = found.holds.value;
                check.fails = found.fails;
            }
        }
    }
    for (stack::Clearance& pair : answer.clearances) {
        for (const CheckOdds& found : odds.clearances) {
            if (found.first == pair.inboard && found.second == pair.outboard) {
                pair.odds = found.holds.value;
                pair.fails = found.fails;
            }
        }
    }
    for (stack::RadialGap& pair : answer.radial) {
        for (const CheckOdds& found : odds.radial) {
            if (found.first == pair.inner && found.second == pair.outer) {
                pair.odds = found.holds.value;
                pair.fails = found.fails;
            }
        }
    }
}

void warn_beside_rss(stack::CheckAnswer& answer) {
    constexpr double kOften = 1.0 / 370.0;  // the two tails of a normal beyond three sd
    if (answer.judge != stack::Judge::rss || answer.odds_level) return;
    std::optional<stack::OftenFails> often;
    const auto look = [&](const std::string& name, stack::Verdict verdict,
                          const std::optional<double>& fails) {
        if (verdict != stack::Verdict::holds || !fails || *fails <= kOften) return;
        if (often) {
            ++often->more;
        } else {
            often = stack::OftenFails{.name = name, .one_in = numerics::one_in(*fails)};
        }
    };
    for (const stack::CheckResult& check : answer.checks)
        look(check.name, check.verdict, check.fails);
    for (const stack::Clearance& pair : answer.clearances)
        look(pair.inboard + " to " + pair.outboard, pair.verdict, pair.fails);
    for (const stack::RadialGap& pair : answer.radial)
        look(pair.inner + " in " + pair.outer, pair.verdict, pair.fails);
    if (often) answer.warnings.emplace_back(std::move(*often));
}

void judge_by_odds(stack::CheckAnswer& answer, const OddsAnswer& odds, double level) {
    give_odds(answer, odds);
    answer.odds_level = level;
    answer.verdict = answer.verdict_apart;
    const auto judge = [&](double chance, double nominal_margin) {
        if (chance >= level) return stack::Verdict::holds;
        return nominal_margin < -stack::kRounding ? stack::Verdict::fails
                                                  : stack::Verdict::doubtful;
    };
    for (stack::CheckResult& check : answer.checks) {
        if (check.odds) check.verdict = judge(*check.odds, check.nominal_margin);
        answer.verdict = stack::worse(answer.verdict, check.verdict);
    }
    for (stack::Clearance& pair : answer.clearances) {
        if (pair.odds) pair.verdict = judge(*pair.odds, pair.gap.nominal - pair.at_least);
        answer.verdict = stack::worse(answer.verdict, pair.verdict);
    }
    for (stack::RadialGap& pair : answer.radial) {
        if (pair.odds) pair.verdict = judge(*pair.odds, pair.gap.nominal - pair.at_least);
        answer.verdict = stack::worse(answer.verdict, pair.verdict);
    }
}

void give_drivers(stack::WhyAnswer& answer, const OddsAnswer& odds) {
    for (const auto* list : {&odds.checks, &odds.clearances, &odds.radial}) {
        const auto found = std::find_if(list->begin(), list->end(), [&](const CheckOdds& each) {
            return each.first == answer.first && each.second == answer.second &&
                   each.at_least == answer.at_least && each.at_most == answer.at_most;
        });
        if (found == list->end()) continue;
        answer.odds = found->holds.value;
        answer.fails = found->fails;
        // An engagement's or an overlap's drivers are those of the one difference that decides.
        if (answer.kind != stack::CheckKind::gap && answer.kind != stack::CheckKind::air_gap)
            return;
        for (stack::Contribution& each : answer.chain) {
            const auto driver = std::find_if(
                found->drivers.begin(), found->drivers.end(),
                [&](const RiskDriver& candidate) { return candidate.size == each.size; });
            if (driver == found->drivers.end()) continue;
            each.fails_if_halved = driver->fails_if_halved;
            // Where directions matter, they spread the figure too, whatever the limits say.
            each.variance_share = driver->share_of_variance;
        }
        return;
    }
}

}  // namespace trialfit::odds
