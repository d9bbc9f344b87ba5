// SPDX-License-Identifier: MIT
#include <trialfit/paper/start/start.hpp>

namespace trialfit::paper {

std::string_view start_ignition() {
    return R"(# A rotor on a cone, over a backing plate and a stator.
# ALL SIZES HERE ARE INVENTED. Put your own in their place, then: trialfit check FILE
# (`trialfit start --help` lists the other kinds of job to begin from.)
#
# A size is written as it is known:
#   12.48 by caliper                    one reading; the gauge says how good it is
#   "[12.48, 12.50, 12.47] by caliper"  several readings of the same size
#   12.5 ±0.05   12.5 +0.1 -0.02        limits from a drawing (+/- will do for ±)
#   12.45..12.55                        least and greatest
#   25 h7                               ISO limits
trialfit: 1
title: Ignition rotor on a small engine (invented)
units: mm                             # mm, in, um or thou
running_clearance: 0.5                # least gap between what turns and what stands still

gauges:                               # how far a reading may be out, either way
  caliper: 0.03
  depth_gauge: 0.02
  micrometer: 0.005

# The parts in the order in which they go on. Within a part, one face is its zero and the others
# lie so far outboard of it (- for inboard). Outboard is away from the crankcase.
parts:
  - part: case                        # everything stands on it, so it does not say how it sits
    faces:
      floor: zero                     # where the backing plate bolts down
      cover_rim: 52.0 ±0.1 from floor
    rings:                            # the solid metal that something could touch
      pocket: {from: floor, below: 6, bore: 32, od: 112}

  - part: crank
    turns: true
    # So far outboard of the floor the big end of the cone stands with the crank pushed in; from
    # there it floats outboard by so much in all.
    sits: {face: cone_big, against: case.floor, offset: 8.00 by depth_gauge, pushed: in,
           play: 0.05..0.15}
    faces:
      cone_big: zero
      thread_in: 22.0 ±0.2 from cone_big
      end: 40.0 ±0.1 from cone_big
    cone: {at: cone_big, dia: 17.00 by micrometer, taper: 1 in 5, length: 18}
    thread: {form: M12x1.25-6g, from: thread_in, to: end, lead_in: 1.25}
    rings:
      stub: {from: cone_big, to: end, bore: 0, od: 12}

  - part: plate
    sits: {face: back, against: case.floor}
    faces:
      back: zero
      front: 8.00 by caliper from back
    rings:
      disc: {from: back, to: front, bore: 42, od: 104}
    cuts:                             # what may be turned off, and what must remain
      - {face: front, measure: back, keep: 5.0, holds: ±0.03}

  - part: stator
    sits: {face: base, against: plate.front, shims: {stock: [0.2, 0.3, 0.5], at_most: 3}}
    faces:
      base: zero
      pole_in: 5.0 ±0.2 from base
      pole_out: 13.0 ±0.2 from base
      coil_out: 14.5 ±0.3 from base
    rings:
      poles: {from: pole_in, to: pole_out, bore: 54, od: 80.4}
      coils: {from: base, to: coil_out, bore: 52, od: 76}

  - part: rotor
    turns: true
    sits: {cone: bore, against: crank.cone}     # hub bore on the crank's cone
    faces:
      boss_in: zero
      nut_seat: 24.00 by caliper from boss_in
      cup_floor: -7.00 by depth_gauge from nut_seat
      rim: -17.00 by depth_gauge from cup_floor
      magnet_in: 1.0 ±0.2 from rim
      magnet_out: 14.0 ±0.2 from rim
    cones:
      bore: {at: boss_in, dia: 16.70 ±0.01, taper: 1 in 5, length: 18}
    rings:
      boss: {from: boss_in, to: nut_seat, bore: 17, od: 32}
      web: {from: cup_floor, to: nut_seat, bore: 32, od: 96}
      skirt: {from: rim, to: cup_floor, bore: 88, od: 96}
      magnets: {from: magnet_in, to: magnet_out, bore: 81, od: 88}

  - part: washer
    turns: true
    sits: {face: under, against: rotor.nut_seat}
    faces: {under: zero, top: 2.5 ±0.2 from under}
    rings: {ring: {from: under, to: top, bore: 13, od: 24}}

  - part: nut
    turns: true
    sits: {face: seat, against: washer.top}
    faces: {seat: zero, top: 10.0 +0 -0.36 from seat}
    thread: {form: M12x1.25-6H, from: seat, to: top}
    rings: {hex: {from: seat, to: top, bore: 12, od: 21}}

  - part: cover
    sits: {face: rim, against: case.cover_rim, shims: {fitted: [0.8]}}    # the gasket
    faces: {rim: zero, inside: -1.5 ±0.5 from rim}
    rings: {roof: {from: inside, above: 3, bore: 0, od: 104}}

# What is asked beyond that nothing touches; that is checked by itself.
checks:
  - check: rotor clear of coils
    gap: [stator.coil_out, rotor.cup_floor]     # inboard face, outboard face
    at_least: 0.6
  - check: magnets over poles
    overlap: {of: stator.poles, by: rotor.magnets}
    at_least: 75 %
  - check: nut engagement
    engagement: [nut.thread, crank.thread]
    at_least: 0.7 d                             # of the thread's diameter
)";
}

}  // namespace trialfit::paper
