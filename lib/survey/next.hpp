// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/stack/model.hpp>
#include <trialfit/survey/answers.hpp>
#include <vector>

namespace trialfit::survey {

/// For the check nearest to its limit in its own sd: the sizes that, measured once more by the
/// job's best gauge, would narrow it most (at most three, best first). A size of variance c
/// measured again with variance g takes cov^2/(c + g) off the check's variance, cov being the
/// covariance of the two (a Kalman update of one scalar observation; Ghilani and Wolf, sequential
/// adjustment).
[[nodiscard]] std::vector<MeasureNext> measure_next(const stack::Model& bound,
                                                    const stack::Ties::Adjustment& adjustment);

}  // namespace trialfit::survey
