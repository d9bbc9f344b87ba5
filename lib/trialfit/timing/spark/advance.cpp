// SPDX-License-Identifier: MIT
#include <algorithm>
#include <trialfit/timing/spark/advance.hpp>
#include <trialfit/trade/engine/timing_curve.hpp>

namespace trialfit::timing {

namespace {

using job::Curve;
using job::CurveOn;

trade::Result<trade::AdvanceCurve> advance_curve(const Curve& curve) {
    return trade::AdvanceCurve::of(curve.points);
}

std::vector<double> speeds_of(const std::vector<Curve>& curves) {
    std::vector<double> speeds;
    for (const Curve& curve : curves)
        for (const trade::CurvePoint& point : curve.points)
            speeds.push_back(point.rpm);
    std::sort(speeds.begin(), speeds.end());
    speeds.erase(std::unique(speeds.begin(), speeds.end()), speeds.end());
    return speeds;
}

// The curves that add up to the one at `last`, from the ground up.
std::vector<const Curve*> chain_of(const std::vector<Curve>& curves, std::size_t last) {
    std::vector<const Curve*> chain{&curves[last]};
    // Each adds to one listed before it, so this ends.
    while (chain.back()->on == CurveOn::curve)
        chain.push_back(&curves.at(static_cast<std::size_t>(chain.back()->on_curve.value())));
    std::reverse(chain.begin(), chain.end());
    return chain;
}

bool is_added_to(const std::vector<Curve>& curves, std::size_t which) {
    return std::any_of(curves.begin(), curves.end(), [which](const Curve& each) {
        return each.on_curve == static_cast<int>(which);
    });
}

trade::Result<Setting> setting_of(const Engine& engine, const std::vector<const Curve*>& chain,
                                  double fixed_deg, const std::vector<double>& speeds) {
    Setting out;
    out.name = chain.back()->name;
    const bool on_fixed = chain.front()->on == CurveOn::fire_at;
    if (on_fixed) out.adds_up.emplace_back("fire_at");
    std::vector<trade::AdvanceCurve> curves;
    for (const Curve* each : chain) {
        out.adds_up.push_back(each->name);
        const auto curve = advance_curve(*each);
        if (!curve) return curve.why();
        curves.push_back(*curve);
    }
    const auto rows =
        trade::advance_table(engine.crank, on_fixed ? fixed_deg : 0.0, curves, speeds);
    if (!rows) return rows.why();
    for (const trade::AdvanceRow& row : *rows) {
        Spark spark{.rpm = row.rpm,
                    .degrees = row.degrees,
                    .height = row.drop,
                    .milliseconds = {},
                    .covered = row.covered};
        if (row.rpm > 0.0) spark.milliseconds = row.milliseconds;
        out.sparks.push_back(spark);
    }
    return out;
}

}  // namespace

trade::Result<std::vector<Setting>> settings(const Engine& engine, double fixed_deg) {
    const std::vector<Curve>& curves = engine.timing.curves;
    const std::vector<double> speeds = speeds_of(curves);
    std::vector<Setting> out;
    for (std::size_t i = 0; i < curves.size(); ++i) {
        if (is_added_to(curves, i)) continue;
        auto setting = setting_of(engine, chain_of(curves, i), fixed_deg, speeds);
        if (!setting) return setting.why();
        out.push_back(*setting);
    }
    return out;
}

std::vector<Comparison> comparisons(const std::vector<Setting>& settings) {
    std::vector<Comparison> out;
    for (std::size_t i = 1; i < settings.size(); ++i) {
        const Setting& one = settings.front();
        const Setting& other = settings[i];
        Comparison comparison{.one = one.name, .other = other.name, .rows = {}};
        for (std::size_t k = 0; k < one.sparks.size(); ++k) {
            const Spark& a = one.sparks[k];
            const Spark& b = other.sparks.at(k);
            Comparison::Row row{.rpm = a.rpm,
                                .one_deg = a.degrees,
                                .other_deg = b.degrees,
                                .more_deg = b.degrees - a.degrees,
                                .more_milliseconds = {}};
            if (a.milliseconds && b.milliseconds)
                row.more_milliseconds = *b.milliseconds - *a.milliseconds;
            comparison.rows.push_back(row);
        }
        out.push_back(std::move(comparison));
    }
    return out;
}

}  // namespace trialfit::timing
