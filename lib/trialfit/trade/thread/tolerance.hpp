// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/trade/result.hpp>

// Tolerances and deviations of metric threads, micrometres: ISO 965-1:2013. The standard's tables
// follow a rule: the grade 6 formula is replaced by the nearest number of the R40 series, the other
// grades are whole steps along that series, and what falls on a half micrometre goes to the even
// one. The few cells where the tables depart from the rule are stored. Diameters 0.99 to 355 mm,
// pitches 0.2 to 8 mm; a pitch that the tables do not list is computed by the same rule.
namespace trialfit::trade {

enum class ThreadTolerance {
    bolt_major,  ///< Td, grades 4, 6, 8
    bolt_pitch,  ///< Td2, grades 3 to 9
    nut_minor,   ///< TD1, grades 4 to 8
    nut_pitch,   ///< TD2, grades 4 to 8
};

/// The tolerance of a grade at a pitch and a basic major diameter, both mm, in whole micrometres.
/// Grade 6 formulas: Td = 180 P^(2/3) - 3.15/sqrt(P); Td2 = 90 P^0.4 dm^0.1 with dm the geometric
/// mean of the diameter step; TD1 = 433 P - 190 P^1.22 below 1 mm and 230 P^0.7 from there on
/// (ISO 965-1:2013, clause on formulas). A step (0.99, 1.4, 2.8, 5.6 ... 355) includes its upper
/// end. A reason for other grades and sizes.
[[nodiscard]] Result<double> thread_tolerance_um(ThreadTolerance of, int grade, double pitch_mm,
                                                 double d_mm);

/// The fundamental deviation of a position: es of e, f, g, h (zero or negative), EI of G, H (zero
/// or positive), micrometres (ISO 965-1:2013, table 1, stored; between its pitches 50, 30 or 15 +
/// 11 P in whole micrometres). A reason where the standard has none.
[[nodiscard]] Result<double> thread_deviation_um(char position, double pitch_mm);

/// Lengths of thread engagement, mm: group S is up to `normal_over`, N over it up to
/// `normal_up_to`, L beyond (ISO 965-1:2013, table 2, stored). A reason where the table has no such
/// diameter and pitch.
struct EngagementGroup {
    double normal_over_mm = 0.0;
    double normal_up_to_mm = 0.0;
};
[[nodiscard]] Result<EngagementGroup> engagement_group(double pitch_mm, double d_mm);

}  // namespace trialfit::trade
