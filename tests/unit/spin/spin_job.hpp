// SPDX-License-Identifier: MIT
// A job with a shaft, a disc on it and an engine, as text. Invented figures.
#pragma once

#include <stdexcept>
#include <string>
#include <trialfit/reading/read.hpp>
#include <trialfit/spin/spin.hpp>
#include <utility>
#include <vector>

namespace trialfit::testing {

/// The disc: steel, 7850 kg/m3, 100 by 20 with a hole of 20.
inline const std::string kDiscJob = R"(trialfit: 1
units: mm
parts:
  - part: case
    faces: {floor: zero}
  - part: crank
    turns: true
    sits: {face: shoulder, against: case.floor, offset: 5 exact}
    faces: {shoulder: zero, end: 60 exact from shoulder}
    rings: {stub: {from: shoulder, to: end, bore: 0, od: 19}}
  - part: disc
    turns: true
    material: steel
    sits: {face: in, against: crank.shoulder}
    faces: {in: zero, out: 20 exact from in}
    rings: {body: {from: in, to: out, bore: 20 exact, od: 100 exact}}
timing: {stroke: 44 exact, rod: 90 exact, fire_at: 8 deg}
spin:
  crank_inertia: 20 kg cm2
  drag: 0.5 N m
  starter: {speed: 900 rpm}
  bore: 45 exact
  compression: 6.4
  exponent: 1.3
  closes_at: 92 deg
  air_pressure: 100 kPa
  under_piston: 0.8
  spark_from: 450 rpm
  idle: 1200 rpm
)";

/// The job with each `first` of `changes` once in it put right by its `second`.
inline std::string changed(std::string text,
                           const std::vector<std::pair<std::string, std::string>>& changes) {
    for (const auto& [from, to] : changes) {
        const std::size_t at = text.find(from);
        if (at == std::string::npos) throw std::runtime_error("no '" + from + "' to change");
        text.replace(at, from.size(), to);
    }
    return text;
}

inline job::Job job_of(const std::string& text) {
    reading::Outcome outcome = reading::read_job(text, "disc.yaml");
    if (!outcome.job) throw std::runtime_error("refused: " + outcome.complaints.front().fault);
    return std::move(*outcome.job);
}

inline spin::SpinAnswer spun(const std::string& text) {
    const job::Job job = job_of(text);
    auto outcome = spin::spin(job, {});
    if (const auto* complaints = std::get_if<job::Complaints>(&outcome))
        throw std::runtime_error(complaints->front().fault);
    return std::get<spin::SpinAnswer>(std::move(outcome));
}

}  // namespace trialfit::testing
