// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <trialfit/numerics/random/estimate.hpp>
#include <trialfit/odds/odds.hpp>
#include <trialfit/stack/bounds.hpp>
#include <utility>
#include <vector>

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

namespace {

void put(stack::CheckResult& check, const CheckOdds& found) {
    if (found.not_judged_for) return;
    check.odds = found.holds.value;
    check.fails = found.fails;
}

template <typename Pair>
void put(Pair& pair, const CheckOdds& found) {
    pair.odds = found.holds.value;
    pair.fails = found.fails;
}

const stack::JudgedId& id_of(const stack::CheckResult& check) {
    return check.id;
}

template <typename Found>
void give(std::vector<Found>& to, const std::vector<CheckOdds>& odds) {
    std::map<stack::JudgedId, const CheckOdds*> by_id;
    for (const CheckOdds& each : odds)
        by_id.emplace(each.id, &each);
    for (Found& each : to)
        if (const auto found = by_id.find(id_of(each)); found != by_id.end())
            put(each, *found->second);
}

}  // namespace

void give_odds(stack::CheckAnswer& answer, const OddsAnswer& odds) {
    give(answer.checks, odds.checks);
    give(answer.clearances, odds.clearances);
    give(answer.radial, odds.radial);
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
            return each.id == answer.id;
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
