// SPDX-License-Identifier: MIT
#include <cmath>
#include <string>
#include <trialfit/trade/thread/limits.hpp>
#include <trialfit/trade/thread/limits_unified.hpp>
#include <trialfit/trade/thread/profile.hpp>
#include <trialfit/trade/thread/tolerance.hpp>

namespace trialfit::trade {

namespace {

double to_micrometre(double mm) {
    return std::round(mm * 1e3) / 1e3;
}

// What both sides of a metric thread need: deviations and tolerances in mm.
struct MetricFields {
    double pitch_deviation = 0.0;
    double crest_deviation = 0.0;
    double pitch_tolerance = 0.0;
    double crest_tolerance = 0.0;
};

Result<MetricFields> fields_of(const ThreadForm& form, const ThreadClass& of) {
    const double p = form.pitch_mm;
    const double d = form.d_mm;
    const auto pitch_deviation = thread_deviation_um(of.pitch.position, p);
    if (!pitch_deviation) return pitch_deviation.why();
    const auto crest_deviation = thread_deviation_um(of.crest.position, p);
    if (!crest_deviation) return crest_deviation.why();
    const auto pitch_tolerance =
        thread_tolerance_um(of.internal ? ThreadTolerance::nut_pitch : ThreadTolerance::bolt_pitch,
                            of.pitch.grade, p, d);
    if (!pitch_tolerance) return pitch_tolerance.why();
    const auto crest_tolerance =
        thread_tolerance_um(of.internal ? ThreadTolerance::nut_minor : ThreadTolerance::bolt_major,
                            of.crest.grade, p, d);
    if (!crest_tolerance) return crest_tolerance.why();
    return MetricFields{*pitch_deviation / 1e3, *crest_deviation / 1e3, *pitch_tolerance / 1e3,
                        *crest_tolerance / 1e3};
}

ThreadLimits metric_bolt(const ThreadForm& form, const ThreadClass& of,
                         const MetricFields& fields) {
    const BasicProfile basic = basic_profile(form);
    const double pitch_max = to_micrometre(to_micrometre(basic.pitch_mm) + fields.pitch_deviation);
    const double pitch_min = to_micrometre(pitch_max - fields.pitch_tolerance);
    const double major_max = to_micrometre(form.d_mm + fields.crest_deviation);
    ThreadLimits limits;
    limits.tolerance = of;
    limits.major = {to_micrometre(major_max - fields.crest_tolerance), major_max};
    limits.pitch = {pitch_min, pitch_max};
    // The root from the pitch diameter before it is rounded: M5-6g is 3.869, not 3.868.
    const double root =
        basic.pitch_mm + fields.pitch_deviation - fields.pitch_tolerance - 0.616025 * form.pitch_mm;
    limits.minor = {to_micrometre(root),
                    to_micrometre(to_micrometre(basic.minor_mm) + fields.pitch_deviation)};
    return limits;
}

ThreadLimits metric_nut(const ThreadForm& form, const ThreadClass& of, const MetricFields& fields) {
    const BasicProfile basic = basic_profile(form);
    const double pitch_min = to_micrometre(to_micrometre(basic.pitch_mm) + fields.pitch_deviation);
    const double minor_min = to_micrometre(to_micrometre(basic.minor_mm) + fields.crest_deviation);
    ThreadLimits limits;
    limits.tolerance = of;
    limits.major = {to_micrometre(form.d_mm + fields.pitch_deviation), {}};
    limits.pitch = {pitch_min, to_micrometre(pitch_min + fields.pitch_tolerance)};
    limits.minor = {minor_min, to_micrometre(minor_min + fields.crest_tolerance)};
    return limits;
}

}  // namespace

ThreadClass usual_class(const ThreadForm& form, bool internal) {
    if (!is_metric(form.series)) return {internal, 2, {}, {}};
    const bool small = form.d_mm <= 1.4;
    ToleranceField field{6, small ? 'h' : 'g'};
    if (internal) field = {small ? 5 : 6, 'H'};
    return {internal, 0, field, field};
}

Result<ThreadLimits> thread_limits(const ThreadForm& form, const ThreadClass& of) {
    const bool metric = is_metric(form.series);
    if ((of.unified == 0) != metric)
        return Reason{"'" + form.written + "' is " + (metric ? "metric" : "unified") +
                      ": its classes are " + (metric ? "like 6g and 6H" : "1A to 3A and 1B to 3B")};
    if (!metric) return unified_limits(form, of);
    const auto fields = fields_of(form, of);
    if (!fields) return fields.why();
    return of.internal ? metric_nut(form, of, *fields) : metric_bolt(form, of, *fields);
}

Result<ThreadLimits> thread_limits(const ThreadForm& form) {
    if (!form.tolerance)
        return Reason{"'" + form.written +
                      "' names no tolerance class; add one, as in M10-6g or 3/8-24 UNF-2A"};
    return thread_limits(form, *form.tolerance);
}

}  // namespace trialfit::trade
