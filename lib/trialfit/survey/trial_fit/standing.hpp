// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/stack/model/model.hpp>
#include <trialfit/survey/trial_fit/contacts.hpp>

namespace trialfit::survey {

/// Marks the readings, taken after work on the parts (Reading::entries > 0), that read short by
/// more than sizes and gauges explain, as those of a part that stands off its seat
/// (TrialFit::stands_off): the one cone or seat on the reading's way that, moved outboard, takes
/// the reading to what it is. That is an answer and no contradiction: an old reading may be wrong
/// in many ways, but what was cut and tried again is expected to have gone home. With r and s what
/// the reading's misfit is, seated, given all else (others.hpp), the part stands off by |r| where
/// its sign is that of a part moved outboard and |r| > 3.29 s, the odds of which are 1 in 1,000, or
/// no sizes within their limits give the reading. Of several seats on the way, the last fitted
/// part's is taken; the pair that holds it is the stated one, or else the tightest with another
/// fitted part under it.
void find_standing_off(const stack::Model& model, Contacts& contacts);

}  // namespace trialfit::survey
