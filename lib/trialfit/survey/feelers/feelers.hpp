// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/job/job.hpp>
#include <trialfit/stack/model/model.hpp>
#include <trialfit/survey/feelers/answers.hpp>
#include <vector>

namespace trialfit::survey {

/// What each of the job's sets of feeler readings tells: mean, offset of the still part, runout of
/// the turning one, taper and cocking as far as the readings tell them apart (feelers_fit.hpp),
/// what does not agree, how to even the gap up, and whether any setting meets the air gaps asked
/// for. `model` is that of the job as the file is read; heights are those of its nominal sizes.
///
/// Of a leaf read by a gauge good to +-a the sd is a/sqrt(3); of a leaf that goes and one that does
/// not, w apart, sqrt(a^2/3 + w^2/12) about their middle (uniform spreads, JCGM 100:2008, 4.3.7).
/// A reading that alone explains a disagreement is left out of the figures, and said to be.
[[nodiscard]] std::vector<FeelersFound> feelers_found(const stack::Model& model);

}  // namespace trialfit::survey
