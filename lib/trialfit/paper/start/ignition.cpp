// SPDX-License-Identifier: MIT
#include <trialfit/paper/start/start.hpp>

namespace trialfit::paper {

namespace {

constexpr std::string_view kIgnition = R"(# A rotor on a cone, over a backing plate and a stator.
# {{head}}
# (`trialfit start --help` lists the other kinds of job to begin from.)
#
# A size is written as it is known:
#   12.48 by caliper                    one reading; the gauge says how good it is
#   "[12.48, 12.50, 12.47] by caliper"  several readings of the same size
#   12.5 ±0.05   12.5 +0.1 -0.02        limits from a drawing (+/- will do for ±)
#   12.45..12.55                        least and greatest
#   25 h7                               ISO limits
trialfit: 1
title: {{title}}
units: {{units}}                             # mm, in, um or thou
running_clearance: {{=0.5}}                # least gap between what turns and what stands still

gauges:                               # how far a reading may be out, either way
  caliper: {{=0.03}}
  depth_gauge: {{=0.02}}
  micrometer: {{=0.005}}

# The parts in the order in which they go on. Within a part, one face is its zero and the others
# lie so far outboard of it (- for inboard). Outboard is away from the crankcase.
parts:
  - part: case                        # everything stands on it, so it does not say how it sits
    faces:
      floor: zero                     # where the backing plate bolts down
      cover_rim: {{A from floor}}
    rings:                            # the solid metal that something could touch
      pocket: {from: floor, below: {{=6}}, bore: {{D1}}, od: {{D2}}}

  - part: crank
    turns: true
    # So far outboard of the floor the big end of the cone stands with the crank pushed in; from
    # there it floats outboard by so much in all.
    sits: {face: cone_big, against: case.floor, offset: {{B}}, pushed: in,
           play: {{P1}}}
    faces:
      cone_big: zero
      thread_in: {{C from cone_big}}
      end: {{E from cone_big}}
    cone: {at: cone_big, dia: {{D3}}, taper: {{K1}}, length: {{F}}}
    thread: {form: {{T1}}, from: thread_in, to: end, lead_in: {{=1.25}}}
    rings:
      stub: {from: cone_big, to: end, bore: 0, od: {{D4}}}

  - part: plate
    sits: {face: back, against: case.floor}
    faces:
      back: zero
      front: {{G from back}}
    rings:
      disc: {from: back, to: front, bore: {{D5}}, od: {{D6}}}
{{+cut}}    cuts:                             # what may be turned off, and what must remain
{{+cut}}      - {face: front, measure: back, keep: {{K3}}, holds: ±{{=0.03}}}

  - part: stator
    sits: {face: base, against: plate.front, shims: {stock: [{{=0.2}}, {{=0.3}}, {{=0.5}}], at_most: 3}}
    faces:
      base: zero
      pole_in: {{H from base}}
      pole_out: {{J from base}}
      coil_out: {{L from base}}
    rings:
      poles: {from: pole_in, to: pole_out, bore: {{D7}}, od: {{D8}}}
      coils: {from: base, to: coil_out, bore: {{D9}}, od: {{D10}}}

  - part: rotor
    turns: true
    sits: {cone: bore, against: crank.cone}     # hub bore on the crank's cone
    faces:
      boss_in: zero
      nut_seat: {{M from boss_in}}
      cup_floor: {{-N from nut_seat}}
      rim: {{-Q from cup_floor}}
      magnet_in: {{S from rim}}
      magnet_out: {{U from rim}}
    cones:
      bore: {at: boss_in, dia: {{D11}}, taper: {{K2}}, length: {{V}}}
    rings:
      boss: {from: boss_in, to: nut_seat, bore: {{D12}}, od: {{D13}}}
      web: {from: cup_floor, to: nut_seat, bore: {{D13}}, od: {{D14}}}
      skirt: {from: rim, to: cup_floor, bore: {{D15}}, od: {{D14}}}
      magnets: {from: magnet_in, to: magnet_out, bore: {{D16}}, od: {{D15}}}

  - part: washer
    turns: true
    sits: {face: under, against: rotor.nut_seat}
    faces: {under: zero, top: {{W from under}}}
    rings: {ring: {from: under, to: top, bore: {{D17}}, od: {{D18}}}}

  - part: nut
    turns: true
    sits: {face: seat, against: washer.top}
    faces: {seat: zero, top: {{X from seat}}}
    thread: {form: {{T2}}, from: seat, to: top}
    rings: {hex: {from: seat, to: top, bore: {{D4}}, od: {{D19}}}}

  - part: cover
    sits: {face: rim, against: case.cover_rim, shims: {fitted: [{{Y}}]}}    # the gasket
    faces: {rim: zero, inside: {{-Z from rim}}}
    rings: {roof: {from: inside, above: {{=3}}, bore: 0, od: {{D20}}}}

# What is asked beyond that nothing touches; that is checked by itself.
checks:
  - check: rotor clear of coils
    gap: [stator.coil_out, rotor.cup_floor]     # inboard face, outboard face
    at_least: {{=0.6}}
  - check: magnets over poles
    overlap: {of: stator.poles, by: rotor.magnets}
    at_least: 75 %
  - check: nut engagement
    engagement: [nut.thread, crank.thread]
    at_least: 0.7 d                             # of the thread's diameter

# What follows is left out as long as '# ' stands before it, and its sizes are then invented. Take
# the '# ' away where you have your own.

# Two depths, read from the same face at the same place with the rotor pushed home by hand: they
# prove the sizes above, and find those that nobody can measure.
{{?readings}}readings:
{{?readings}}  - reading: thread standing proud, rotor alone
{{?readings}}    from: rotor.nut_seat
{{?readings}}    to: crank.end
{{?readings}}    is: {{R1}}
{{?readings}}    fitted: [case, crank, rotor]
{{?readings}}    pushed: in                        # which way the crank was held
{{?readings}}  - reading: thread standing proud, everything fitted
{{?readings}}    from: rotor.nut_seat
{{?readings}}    to: crank.end
{{?readings}}    is: {{R2}}
{{?readings}}    fitted: [case, crank, plate, stator, rotor]
{{?readings}}    pushed: in

# Whether the cone holds: trialfit seat FILE. The torque is the engine maker's.
{{?seat}}seat:
{{?seat}}  nut_torque: 30..34 N m
{{?seat}}  thread_friction: 0.12..0.18
{{?seat}}  under_nut_friction: 0.12..0.18
{{?seat}}  cone_friction: 0.11..0.15           # clean and dry
{{?seat}}  engine_torque: 9 N m

# When it fires: trialfit timing FILE.
{{?timing}}timing:
{{?timing}}  stroke: {{T3}}
{{?timing}}  rod: {{T4}}                     # big end to small end, centres
{{?timing}}  turns: clockwise                    # or anticlockwise, seen from outboard
{{?timing}}  fire_at: {{T5}}                # of the piston, before top dead centre
{{?timing}}  gauge: depth_gauge                  # that it is set by, down the plug hole
)";

}  // namespace

StartKind start_ignition() {
    return {
        .name = "ignition",
        .what = "a rotor on a cone over a backing plate and a stator",
        .title = "Ignition rotor on a small engine",
        .text = kIgnition,
        .ends = {"engine side", "outboard"},
        .letters = ignition_letters(),
        .kept =
            "how far each gauge may be out, running_clearance and the limits of the checks, "
            "the shims in stock, what the lathe holds, how long the thread's lead-in is, "
            "which way it turns",
        .before =
            {"Take the spark plug out. Clean every face, the cone and its bore; nothing may lie "
             "between.",
             "Push the crank in, towards the engine, and hold it there for every depth from the "
             "engine: it floats.",
             "Push the rotor home by hand only, without its key, for the two readings."},
        .care =
            {"Magnets snap the rotor home: keep fingers out from behind it, and steel chips off "
             "it.",
             "Whenever the engine is turned with the ignition connected, earth the lead of the "
             "spark plug: high voltage.",
             "Pull the rotor with a puller screwed fully in, never with a hammer; a hub can jump "
             "off."},
    };
}

}  // namespace trialfit::paper
