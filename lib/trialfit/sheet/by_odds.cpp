// SPDX-License-Identifier: MIT
#include <optional>
#include <trialfit/odds/clearance/shift.hpp>
#include <trialfit/odds/odds.hpp>
#include <trialfit/odds/sampling/distribution_of.hpp>
#include <trialfit/odds/sampling/rows.hpp>
#include <trialfit/sheet/by_odds.hpp>
#include <utility>
#include <variant>
#include <vector>

namespace trialfit::sheet {

namespace {

std::optional<odds::OddsAnswer> chances(const job::Job& job, const stack::Options& options) {
    odds::Options how = odds::beside(options);
    how.chances_only = true;
    auto outcome = odds::odds(job, how);
    auto* const found = std::get_if<odds::OddsAnswer>(&outcome);
    return found == nullptr ? std::nullopt : std::optional(std::move(*found));
}

}  // namespace

void judge_by_odds(double level, const stack::Options& options, plan::JobOptions& asked) {
    asked.odds_level = level;
    asked.by_odds = [](const stack::Model& model, const plan::Spreading& value,
                       const stack::Range& within, double chance) {
        std::vector<numerics::Contributor> all = odds::contributors(model, value.form);
        for (const plan::Spreading::Added& each : value.added)
            all.push_back({.sensitivity = each.sensitivity,
                           .distribution = odds::distribution_of(each.size)});
        return odds::shifts(numerics::SumDistribution(all, value.form.constant), within.lo,
                            within.hi, chance);
    };
    asked.judge_after = [level, options](stack::CheckAnswer& answer, const job::Job& job) {
        if (const auto found = chances(job, options)) odds::judge_by_odds(answer, *found, level);
    };
}

void show_odds(const stack::Options& options, plan::JobOptions& asked) {
    asked.judge_after = [options](stack::CheckAnswer& answer, const job::Job& job) {
        const auto found = chances(job, options);
        if (!found) return;
        odds::give_odds(answer, *found);
        odds::warn_beside_rss(answer);
    };
}

}  // namespace trialfit::sheet
