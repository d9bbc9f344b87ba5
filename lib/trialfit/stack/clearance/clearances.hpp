// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <trialfit/stack/answers.hpp>
#include <trialfit/stack/model/model.hpp>
#include <trialfit/stack/radial/axes.hpp>
#include <vector>

namespace trialfit::stack {

struct Search {
    /// Every pair found, in the order of the later part, then the earlier.
    std::vector<Clearance> pairs;
    /// Whether pairs were passed over because pairs in between prove that they clear.
    bool implied_left_out = false;
};

/// Every automatic clearance of the job: each inboard ring end of a later part over each
/// outboard ring end of an earlier part whose ring overlaps it in diameter, the seat's own pair
/// excepted. At least `running_clearance` between a turning and a still part, more than zero
/// between the rest.
///
/// Up to kAllPairsUpTo rings, every pair is looked at. Beyond that, work grows in proportion to the
/// rings: the rings seen so far are kept as the skyline that the next part meets, and a ring that
/// is hidden under others which clear it in the worst case is not looked at again: whatever clears
/// those clears it too, and whatever fouls it fouls those by more. The overall verdict and the
/// first contact are the same either way. `beyond` is the number of rings above which this is done.
inline constexpr int kAllPairsUpTo = 160;
[[nodiscard]] Search clearances(const Model& model, Judge judge, double inflate,
                                int beyond = kAllPairsUpTo);

/// The same in each of the job's states (in_states()): of every pair the state that decides, the
/// one with the worst verdict and the least to spare.
[[nodiscard]] Search clearances(const std::vector<Model>& states, Judge judge, double inflate);

/// The part that comes to rest before its seat, or may, if any: the later part of the pair with the
/// most negative nominal gap, or where none is negative the most negative worst one. It stands
/// proud by max(0, -min gap) over that part's pairs. Of a pair that the nut draws together the
/// figures are those pushed home by hand, unless nothing may touch then.
[[nodiscard]] std::optional<FirstContact> first_contact(const Model& model,
                                                        const std::vector<Clearance>& all_pairs);

/// Of each two parts the pair with the smallest nominal gap, and any other pair with a worse
/// verdict than that; `all` keeps every pair and only marks the tightest. Worst verdict first, then
/// the smallest nominal gap.
[[nodiscard]] std::vector<Clearance> listed(std::vector<Clearance> pairs, bool all);

/// What tilt takes off a clearance: where the two parts lean against each other, their faces come
/// nearer by slope * dia / 2 on one side, at the outer edge of what overlaps. A face that runs out
/// by t (total indicator reading) at a diameter d takes t/2 D/d at the diameter D. Lengths in the
/// file's unit.
[[nodiscard]] Vectors tilt_of(const Model& model, const Clearance& pair);

/// Why the gap of a pair is not judged where it stands on how parts grow of which nothing says it;
/// empty where it does not.
[[nodiscard]] std::optional<NotJudgedFor> clearance_not_judged_for(const Model& model,
                                                                   const Clearance& pair);
/// The gap between the two faces at the axis, and less what tilt takes in the worst directions;
/// each with every part that floats at the end of its play that makes it least.
[[nodiscard]] Form gap_at_axis(const Model& model, const Clearance& pair);
[[nodiscard]] Form least_gap(const Model& model, const Clearance& pair);
/// What least_gap() is with the parts that float at their stated place.
[[nodiscard]] Form tilted_gap(const Model& model, const Clearance& pair);

/// The two ring ends of a clearance, as places on the axis.
[[nodiscard]] Station inboard_station(const Clearance& pair);
[[nodiscard]] Station outboard_station(const Clearance& pair);

}  // namespace trialfit::stack
