// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/job/job.hpp>
#include <trialfit/numerics/random/sampler.hpp>
#include <trialfit/odds/answers.hpp>
#include <trialfit/stack/check/check.hpp>
#include <utility>
#include <variant>

namespace trialfit::odds {

struct Options {
    stack::Options stack;
    numerics::Sampling sampling;
    /// Only the chance of each check and clearance: no curves, no drivers, nothing on all together
    /// or on what touches first.
    bool chances_only = false;
    /// Only what `check` finds doubtful.
    bool doubtful_only = false;
    /// Only of this one.
    std::optional<stack::JudgedId> only;
};

/// Options for odds that stand beside another answer: few draws on one thread, the same every time.
[[nodiscard]] Options beside(const stack::Options& options);

/// The odds of every check and automatic clearance, and of all together. A check
/// on one difference is exact; engagements, overlaps, first contact and the chance of all together
/// are sampled, with the exact chances as control variates. Sizes that closures or readings tie are
/// jointly normal with their adjusted covariance; all others keep their own spreads.
[[nodiscard]] std::variant<OddsAnswer, job::Complaints> odds(const job::Job& job,
                                                             const Options& options);
/// The same of a model that is made already, by the readings of `options.stack`
/// (stack::model_for).
[[nodiscard]] OddsAnswer odds(const stack::Model& model, const Options& options);

/// Puts the odds of `odds` beside the findings of `check` on the same job.
void give_odds(stack::CheckAnswer& answer, const OddsAnswer& odds);

/// Where an answer judged by RSS has odds beside it: a warning where what holds by RSS fails more
/// often than 1 in 370, the two tails of a normal beyond three standard deviations. RSS takes every
/// half-width for three standard deviations; a reading's uniform spread is wider than that.
void warn_beside_rss(stack::CheckAnswer& answer);

/// Judges every finding anew by its odds: holds where they are at least `level` (0 to 1), else
/// fails where it fails at nominal, else doubtful.
void judge_by_odds(stack::CheckAnswer& answer, const OddsAnswer& odds, double level);

/// Puts into the answer of `why` the chance that its check holds and, for a gap, the chance to fail
/// if each size alone had half its spread; sizes that readings tie are left as they are.
void give_drivers(stack::WhyAnswer& answer, const OddsAnswer& odds);

}  // namespace trialfit::odds
