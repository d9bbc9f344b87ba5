// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/job/job.hpp>
#include <trialfit/stack/model/model.hpp>
#include <trialfit/survey/answers.hpp>
#include <variant>
#include <vector>

namespace trialfit::survey {

/// Adjusts all sizes and readings of the job to one another by weighted least squares, weights
/// 1/sd^2 (C. D. Ghilani and P. R. Wolf, Adjustment Computations, chapters on conditional least
/// squares and blunder detection), and judges whether they agree. A disagreement is one that chance
/// alone would bring in fewer than 1 of 1,000 jobs, or that no sizes within their limits can give.
/// Of a job with entries of its record in force, the readings taken last are judged, with the parts
/// as they were then; those taken earlier bind the sizes.
[[nodiscard]] std::variant<SurveyAnswer, job::Complaints> survey(const job::Job& job);

/// Whether readings, sizes and feelers all agree, or there is nothing to compare, and no part
/// stands off its seat at the last trial fit.
[[nodiscard]] bool all_agree(const SurveyAnswer& answer);

/// Whether what the feelers read leaves a setting in which the job's air gaps keep their limits:
/// false where it is certain that none does.
[[nodiscard]] bool limits_can_be_kept(const SurveyAnswer& answer);

/// How the parts lay for each reading, for stack::Options::readings: what makes the readings bind
/// the sizes in every other command.
[[nodiscard]] std::variant<std::vector<stack::TrialFit>, job::Complaints> evidence(
    const job::Job& job);

}  // namespace trialfit::survey
