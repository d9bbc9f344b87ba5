// SPDX-License-Identifier: MIT
#include <trialfit/odds/odds.hpp>
#include <trialfit/sheet/trial_fit.hpp>
#include <trialfit/stack/change/as_built.hpp>
#include <trialfit/survey/survey.hpp>
#include <utility>
#include <vector>

namespace trialfit {

std::variant<stack::CheckAnswer, job::Complaints> trial_fit(const job::Job& job,
                                                            const TrialFitOptions& options) {
    auto built = stack::as_built(job, options.entries.value_or(job.record.size()));
    if (auto* complaints = std::get_if<job::Complaints>(&built)) return std::move(*complaints);
    const job::Job& now = std::get<job::Job>(built);
    stack::Options asked = options.stack;
    asked.readings.clear();
    if (!options.as_written) {
        auto evidence = survey::evidence(now);
        if (auto* complaints = std::get_if<job::Complaints>(&evidence))
            return std::move(*complaints);
        asked.readings = std::move(std::get<std::vector<stack::TrialFit>>(evidence));
    }
    auto checked = stack::check(now, asked);
    auto* const answer = std::get_if<stack::CheckAnswer>(&checked);
    if (answer == nullptr || !options.odds_level) return checked;
    odds::Options beside = odds::beside(asked);
    beside.chances_only = true;
    const auto chances = odds::odds(now, beside);
    if (const auto* all = std::get_if<odds::OddsAnswer>(&chances))
        odds::judge_by_odds(*answer, *all, *options.odds_level);
    return checked;
}

}  // namespace trialfit
