// SPDX-License-Identifier: MIT
#include <trialfit/odds/odds.hpp>
#include <trialfit/odds/rows.hpp>
#include <trialfit/odds/shift.hpp>
#include <trialfit/sheet/by_odds.hpp>
#include <variant>
#include <vector>

namespace trialfit::sheet {

void judge_by_odds(double level, const stack::Options& options, plan::JobOptions& asked) {
    asked.odds_level = level;
    asked.by_odds = [](const stack::Model& model, const plan::Spreading& value,
                       const stack::Range& within, double chance) {
        const odds::Spreads spreads(model, {value.form});
        std::vector<odds::Contributor> all = spreads.contributors(value.form);
        for (const plan::Spreading::Added& each : value.added)
            all.push_back({.sensitivity = each.sensitivity, .law = odds::law_of(each.size)});
        return odds::shifts(odds::SumDistribution(all, value.form.constant), within.lo, within.hi,
                            chance);
    };
    asked.judge_after = [level, options](stack::CheckAnswer& answer, const job::Job& job) {
        odds::Options how = odds::beside(options);
        how.chances_only = true;
        const auto outcome = odds::odds(job, how);
        if (const auto* chances = std::get_if<odds::OddsAnswer>(&outcome))
            odds::judge_by_odds(answer, *chances, level);
    };
}

}  // namespace trialfit::sheet
