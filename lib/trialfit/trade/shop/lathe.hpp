// SPDX-License-Identifier: MIT
// What a lathe does to a face and what instruments read it to. Lengths in mm. Guidance for the
// person at the machine, not limits that a plan is computed from: a job states what its lathe
// holds.
#pragma once

#include <string_view>
#include <trialfit/trade/cited.hpp>
#include <trialfit/trade/result.hpp>
#include <vector>

namespace trialfit::trade {

/// Customary depths of cut and feeds in facing, mm and mm per turn.
[[nodiscard]] const std::vector<CitedRange>& facing_cuts();

/// Least depth that a tool still cuts instead of rubbing: 0.2 to 0.4 of its cutting-edge radius
/// (S. Wojciechowski, Materials 2022, 15, 59; the ratio from memory).
[[nodiscard]] CitedRange least_cut(double edge_radius);

/// Depth of cut up to 5 feeds, a general habit (US Army TC 9-524).
[[nodiscard]] double customary_depth(double feed);

/// How far a part may stand out of the chuck without support: 1.5 diameters (US Army TC 9-524).
[[nodiscard]] double unsupported_length(double dia);

/// Height of the ridges that a round-nosed tool leaves, mm.
struct SurfaceHeight {
    double usual = 0.0;  ///< f^2 / (8 r)
    double exact = 0.0;  ///< r - sqrt(r^2 - f^2/4), of two meeting circles
};
/// `feed` mm per turn, nose radius r. A. Ghosh and A. K. Mallik, Manufacturing Science, prob. 24
/// p. 260. A reason where the radius is not > 0 or the feed not within 0..2 r.
[[nodiscard]] Result<SurfaceHeight> surface_height(double feed, double nose_radius);

/// The same of a sharp tool: f / (tan side + cot end), side-edge and end-edge cutting angles in
/// degrees. Ghosh and Mallik, same problem. A reason where the feed is negative, the side angle not
/// within 0..90 or the end angle not above 0 and below 90.
[[nodiscard]] Result<double> sharp_tool_height(double feed, double side_edge_deg,
                                               double end_edge_deg);

/// Tolerance grades (IT) that a way of working covers, from finest to coarsest as lower and upper.
[[nodiscard]] const std::vector<CitedRange>& process_grades();

/// What is read with.
enum class Instrument {
    vernier_caliper,  ///< scale interval 0.05
    fine_caliper,     ///< scale interval 0.02, or digital 0.01
    micrometer,       ///< outside
    dial_gauge        ///< 0.01, 10 mm range; the length is not used
};

/// Which way a caliper is used; the others take only `outside`.
enum class Reach { outside, inside_or_depth };

/// Limit of error, half-width in mm, of an instrument in good order at a measured length (a
/// micrometer's: the upper end of its range of 25). A worn scale or a hurried hand
/// does not read this well. A reason where the length is not covered.
[[nodiscard]] Result<Cited> instrument_limit(Instrument instrument, double length,
                                             Reach reach = Reach::outside);

}  // namespace trialfit::trade
