// SPDX-License-Identifier: MIT
// Advance over speed: a fixed setting with one or more curves added. Advance in degrees before the
// true top, negative = after it; speeds in revolutions per minute.
#pragma once

#include <string>
#include <trialfit/trade/engine/crank_slider.hpp>
#include <trialfit/trade/engine/turning.hpp>
#include <vector>

namespace trialfit::trade {

/// Straight between its points, flat beyond the first and the last. At least one point, speeds
/// >= 0 and rising.
class AdvanceCurve {
public:
    /// A reason where there is no point, a speed is negative or the speeds do not rise.
    [[nodiscard]] static Result<AdvanceCurve> of(std::vector<CurvePoint> points);

    [[nodiscard]] double degrees_at(double rpm) const;
    /// Whether `rpm` lies within the given points, not on the flat beyond them.
    [[nodiscard]] bool covers(double rpm) const;
    [[nodiscard]] const std::vector<CurvePoint>& points() const { return points_; }

private:
    explicit AdvanceCurve(std::vector<CurvePoint> points);
    std::vector<CurvePoint> points_;
};

/// Milliseconds that the crank takes for `degrees` at `rpm` (> 0): degrees / (6 rpm) * 1000.
[[nodiscard]] double milliseconds_of_degrees(double degrees, double rpm);

/// The spark at one speed.
struct AdvanceRow {
    double rpm = 0.0;
    double degrees = 0.0;  ///< fixed and all curves together
    double drop = 0.0;     ///< of the piston below its top then, mm, >= 0 before and after alike
    double milliseconds = 0.0;  ///< before the top; negative = after; 0 at no speed
    bool covered = true;        ///< within every curve's points
};

/// One row for each of `speeds_rpm`; where that is empty, for every speed at which a curve has a
/// point, rising. A reason where a speed is negative.
[[nodiscard]] Result<std::vector<AdvanceRow>> advance_table(
    const Crank& crank, double fixed_degrees, const std::vector<AdvanceCurve>& curves,
    const std::vector<double>& speeds_rpm = {});

}  // namespace trialfit::trade
