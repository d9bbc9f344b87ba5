// SPDX-License-Identifier: MIT
#pragma once

namespace trialfit::test {

/// A made-up job that uses every construct of the format once. It means little as an assembly.
inline constexpr const char* kEverything = R"(trialfit: 1
title: "Everything: once"
units: mm
running_clearance: 0.5
general_tolerance: m
shim_cost: 0.2
gauges: {caliper: 0.03, micrometer: ±0.005}
materials:
  - {material: bell bronze, expansion: 18e-6, density: 8800, modulus: 100000, poisson: 0.34, strength: 180}
states: {fit: 20 C, run: {all: 90 C, hub: 70 C}}
parts:
  - part: case
    material: bell bronze
    faces: {floor: zero, rim: 46.0 ±0.1 from floor}
    rings: {pocket: {from: floor, below: 5, bore: 30, od: 110}}
  - part: shaft
    turns: true
    sits: {face: shoulder, against: case.floor, offset: 6.00 by caliper, play: 0.05..0.15}
    faces:
      shoulder: zero
      cone_big: 2 exact from shoulder
      thread_in: 22.0 ±0.2 from shoulder
      end: 38.0 ±0.1 from shoulder
    cone: {at: cone_big, dia: 16.00 by micrometer, taper: 1 in 5, length: 16}
    thread: {form: M10x1.25-6g, from: thread_in, to: end, lead_in: 1.25, run_out: 0.5 ±0.1}
  - part: stator
    sits:
      face: base
      against: case.floor
      shims: {stock: [0.2, {thickness: 0.5, pieces: 2}, 1.0 ±0.02], at_most: 4, holds: ±0.01, fitted: [0.5]}
    faces:
      base: zero
      top:
        - 14.0 ±0.3 from base
        - {size: [13.98, 14.02], by: caliper, from: base}
    rings: {coils: {from: base, to: top, bore: 48, od: 74}}
    cuts:
      - {face: base, measure: top, keep: 9.5, holds: 0.05, cost: 2, per_mm: 0.3, note: mind the lamination}
  - part: hub
    turns: true
    sits:
      - {cone: bore, against: shaft.cone, key: {height: 3.05 by micrometer, room: 3.0 ±0.02, floors: axis}}
      - {face: back, against: shaft.shoulder, offset: 4.1}
    faces:
      front: 20 h9 from back
      back: zero
    cones: {bore: {at: back, dia: 15.60 ±0.01, taper: "1:5", length: 15}}
    threads: {cap: {form: M30x1.5-6H, from: front, to: back}}
    rings: {body: {from: back, to: front, bore: 16, od: 30}, lip: {from: front, above: 2, bore: 20, od: 30}}
    laps: [{cone: bore, at_most: 0.05 on diameter, cost: 3, note: both parts}]
  - part: nut
    turns: true
    sits: {face: seat, against: hub.front}
    faces: {seat: zero, top: 8.0 +0 -0.36 from seat}
    thread: {form: M10x1.25-6H, from: seat, to: top}
checks:
  - {check: "coils, clear", gap: [stator.top, hub.back], at_least: -20, at_most: 30, aim: 1}
  - {check: span, overlap: {of: stator.coils, by: hub.body}, at_least: 75 %}
  - {check: engagement, engagement: [nut.thread, shaft.thread], at_least: 0.7 d}
  - {check: turns, engagement: [nut.thread, shaft.thread], at_least: 5 pitches, at_most: 20}
  - {check: full, engagement: [nut.thread, shaft.thread], at_least: strength}
readings:
  - {reading: proud, from: hub.front, to: shaft.end, is: 13.97 by caliper, fitted: [hub, shaft, case], pushed: out, touching: [case.floor, hub.back]}
seat: {nut_torque: 30..40 N m, thread_friction: 0.10..0.16, under_nut_friction: 0.12, cone_friction: 0.1, engine_torque: 5 N m, crank_acceleration: 2000 rad/s2, speed: 9000 rpm}
timing:
  stroke: 48.5
  rod: 95 ±0.1
  pin_offset: 0.5
  plug_tilt: 15 deg
  turns: anticlockwise
  fire_at: 1.4 mm ±0.05
  gauge: caliper
  rim_dia: 92
  fires_now: 21 deg ±1
  stops: {before: 318.5 deg, after: 41, wheel: 0.5 deg, holds: ±0.02}
  dwell: {from: 358, to: 2.5, wheel: 0.5}
  stator_dia: 70
  marks: [{mark: S, at: 17 deg}, {mark: F, at: 13.8 ±0.3}]
  slot: {dia: 70, length: 12, screw: 5, free_earlier: 2.5}
  curves: [{curve: stock, points: [[1000, 25], [4000, 17.5]]}, {curve: extra, on: fire_at, points: [[1000, 0]]}]
record:
  - {date: 2026-11-25, who: A. N. Other, note: first, as_cut: {stator.base: 9.9 by caliper}, fitted: {stator: [0.5, 0.3]}}
)";

}  // namespace trialfit::test
