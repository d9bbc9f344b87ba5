// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <trialfit/trade/domain.hpp>
#include <trialfit/trade/engine/timing_curve.hpp>
#include <trialfit/trade/reference/written.hpp>
#include <utility>

namespace trialfit::trade {
namespace {

std::vector<double> speeds_of(const std::vector<AdvanceCurve>& curves) {
    std::vector<double> speeds;
    for (const AdvanceCurve& curve : curves)
        for (const CurvePoint& point : curve.points())
            speeds.push_back(point.rpm);
    std::sort(speeds.begin(), speeds.end());
    speeds.erase(std::unique(speeds.begin(), speeds.end()), speeds.end());
    return speeds;
}

AdvanceRow row_at(const Crank& crank, double fixed_degrees, const std::vector<AdvanceCurve>& curves,
                  double rpm) {
    AdvanceRow row;
    row.rpm = rpm;
    row.degrees = fixed_degrees;
    for (const AdvanceCurve& curve : curves) {
        row.degrees += curve.degrees_at(rpm);
        row.covered = row.covered && curve.covers(rpm);
    }
    row.drop = piston_drop(crank, -row.degrees);
    row.milliseconds = rpm > 0.0 ? milliseconds_of_degrees(row.degrees, rpm) : 0.0;
    return row;
}

}  // namespace

AdvanceCurve::AdvanceCurve(std::vector<CurvePoint> points) : points_(std::move(points)) {}

Result<AdvanceCurve> AdvanceCurve::of(std::vector<CurvePoint> points) {
    if (points.empty()) return Reason{"an advance curve needs at least one point (rpm, degrees)"};
    const Domain domain = Domain().not_negative("speed of an advance curve", points.front().rpm);
    if (!domain) return domain.why();
    for (std::size_t i = 1; i < points.size(); ++i)
        if (!(points[i].rpm > points[i - 1].rpm))
            return Reason{"the speeds of an advance curve must rise, and " + shown(points[i].rpm) +
                          " rpm follows " + shown(points[i - 1].rpm) + " rpm"};
    return AdvanceCurve(std::move(points));
}

bool AdvanceCurve::covers(double rpm) const {
    return rpm >= points_.front().rpm && rpm <= points_.back().rpm;
}

double AdvanceCurve::degrees_at(double rpm) const {
    const auto above =
        std::lower_bound(points_.begin(), points_.end(), rpm,
                         [](const CurvePoint& point, double speed) { return point.rpm < speed; });
    if (above == points_.begin()) return points_.front().degrees;
    if (above == points_.end()) return points_.back().degrees;
    const CurvePoint& below = *(above - 1);
    return std::lerp(below.degrees, above->degrees, (rpm - below.rpm) / (above->rpm - below.rpm));
}

double milliseconds_of_degrees(double degrees, double rpm) {
    return degrees / (6.0 * rpm) * 1e3;
}

Result<std::vector<AdvanceRow>> advance_table(const Crank& crank, double fixed_degrees,
                                              const std::vector<AdvanceCurve>& curves,
                                              const std::vector<double>& speeds_rpm) {
    std::vector<AdvanceRow> rows;
    for (const double rpm : speeds_rpm.empty() ? speeds_of(curves) : speeds_rpm) {
        if (const Domain domain = Domain().not_negative("speed", rpm); !domain) return domain.why();
        rows.push_back(row_at(crank, fixed_degrees, curves, rpm));
    }
    return rows;
}

}  // namespace trialfit::trade
