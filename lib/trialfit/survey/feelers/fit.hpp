// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Core>
#include <optional>
#include <trialfit/survey/feelers/answers.hpp>
#include <vector>

// What readings of a radial gap by feeler say of the axes: plain least squares, no job.
//
// The gap between two circles whose centres lie apart by d is, towards the clock angle a, the
// difference of the radii plus the part of d that points to a, to first order in d over the radius
// (what is left out, d^2 / 2 radius, is under 0.0002 for 0.1 in a bore of 70). Of two circles, one
// still and one turning with a mark at the clock angle r,
//
//   gap(a, r, z) = mean + z taper/2 + S [(offset + z leans/2) . u(a) - (runout + z cocked/2) . u(a
//   - r)]
//
// u(a) being the direction of a, z the height from -1 at the inboard end of the heights read to +1
// at the outboard end, S = +1 where the still circle is the outer one and -1 where it is the inner.
// Weights 1/sd^2 (C. D. Ghilani and P. R. Wolf, Adjustment Computations, chapters on weighted least
// squares and on blunder detection); the circles' equation is geometry.
namespace trialfit::survey {

/// One gap read. Angles in degrees on the clock seen from outboard; lengths in one unit; sd > 0.
struct FeelerObservation {
    double clock_deg = 0.0;
    double rotor_deg = 0.0;
    double height = 0.0;
    double gap = 0.0;
    double sd = 0.0;
};

/// Where each term stands among the ten unknowns.
inline constexpr Eigen::Index kUnknowns = 10;
struct FeelerBlock {
    Eigen::Index at = 0;
    Eigen::Index size = 1;
};
[[nodiscard]] FeelerBlock block_of(FeelerTerm term);

/// The unknowns, 0 where not told, and their covariance: mean, offset (2), runout (2), half the
/// taper, half of what the still one leans by (2), half of what the turning one is cocked by (2);
/// vectors as towards 12 o'clock and towards 3 o'clock.
struct FeelerUnknowns {
    Eigen::VectorXd value;
    Eigen::MatrixXd covariance;
};

struct FeelerFit {
    FeelerUnknowns unknowns;
    /// Of each vector that is told along one line only: that line's direction, 0 to 180 degrees.
    std::vector<std::pair<FeelerTerm, double>> along_deg;
    std::vector<FeelerNotTold> not_told;
    /// Observed less fitted, and the redundancy, of each reading.
    Eigen::VectorXd residual;
    Eigen::VectorXd redundancy;
    double chi_square = 0.0;
    int freedom = 0;

    [[nodiscard]] bool told(FeelerTerm term) const;
    /// Whether the figure for `term` may hold some of what another term could not be told from it.
    [[nodiscard]] bool mixed(FeelerTerm term) const;
};

/// Fits the gap to one or more readings, with as many of its terms as the readings can tell apart,
/// in the order of FeelerTerm: a term is left out where it would make some uncertainty ten times or
/// more what it would be if the terms were independent of each other.
[[nodiscard]] FeelerFit fit_feelers(const std::vector<FeelerObservation>& readings,
                                    bool still_outside);

/// What a fitted gap comes to, with its standard uncertainty by the law of propagation (JCGM
/// 100:2008, 5.2.2), the derivatives taken numerically. `least` and `most` are round the clock, the
/// turn and the heights read.
struct GapReach {
    FeelerFigure least;
    FeelerFigure most;
};
/// As it lies.
[[nodiscard]] GapReach as_it_lies(const FeelerUnknowns& gap);
/// With the still part moved so that the axes meet at half height.
[[nodiscard]] GapReach evened_up(const FeelerUnknowns& gap);
/// The greatest least gap, and the least greatest one, that moving the still part sideways can
/// give: with D the distance that it leans by from end to end, and a, b what the two ends would
/// have were it centred there, the centres' distances from the axis at the two ends come to D at
/// least, so least = min(a, b, (a + b - D) / 2), and most likewise.
[[nodiscard]] GapReach best_setting(const FeelerUnknowns& gap);
/// By how much the turning part is eccentric, at the end where it is more so.
[[nodiscard]] FeelerFigure eccentricity(const FeelerUnknowns& gap);

/// A vector among the unknowns, times `times`.
[[nodiscard]] FeelerVector vector_of(const FeelerFit& fit, FeelerTerm term, double times);
[[nodiscard]] FeelerFigure figure_of(const FeelerFit& fit, FeelerTerm term, double times);

}  // namespace trialfit::survey
