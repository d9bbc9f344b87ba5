// SPDX-License-Identifier: MIT
// Timing sections made in memory. Invented figures.
#pragma once

#include <string>
#include <trialfit/timing/timing.hpp>
#include <utility>

namespace trialfit::testing {

inline job::Given exactly(double value) {
    return {.size = quantity::exact(value), .written = "exact"};
}
inline job::Given about(double value, double half_width) {
    return {.size = quantity::toleranced(value, -half_width, half_width), .written = "limits"};
}
inline job::AngleGiven degrees(job::Given value) {
    return {.value = std::move(value), .in = job::AngleIn::degrees};
}
inline job::AngleGiven height(job::Given value) {
    return {.value = std::move(value), .in = job::AngleIn::length};
}

/// Stroke 43, rod 87, a gauge good to 0.01.
inline job::Job engine() {
    job::Job job;
    job.file = "engine.yaml";
    job.gauges.push_back({.name = "dial", .half_width = 0.01});
    job.timing = job::Timing{.stroke = exactly(43.0), .rod = exactly(87.0), .gauge = 0};
    return job;
}

inline timing::TimingAnswer answer(const job::Job& job) {
    return std::get<timing::TimingAnswer>(timing::timing(job));
}

}  // namespace trialfit::testing
