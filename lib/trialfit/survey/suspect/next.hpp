// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/stack/model/model.hpp>
#include <trialfit/survey/answers.hpp>
#include <vector>

namespace trialfit::survey {

/// For the check that decides the job now (the worst verdict, then the least to spare in the worst
/// case): the sizes that, measured once more by the
/// finest gauge that reads such a distance (gauges.hpp), would narrow it most, each by a tenth at
/// least (at most three, best first). A size of variance c
/// measured again with variance g takes cov^2/(c + g) off the check's variance, cov being the
/// covariance of the two (a Kalman update of one scalar observation; Ghilani and Wolf, sequential
/// adjustment).
[[nodiscard]] std::vector<MeasureNext> measure_next(const stack::Model& bound,
                                                    const stack::Ties::Adjustment& adjustment);

}  // namespace trialfit::survey
