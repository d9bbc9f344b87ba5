#!/usr/bin/python3
"""Holds `trialfit odds` to a job that is turned: NumPy draws every size and every direction, turns the
shaft step by step, and measures how near two rings come all round and at both ends, and how near two
faces come at their edge. Nothing here knows that lengths of sums are what is lost.

usage: odds_turning.py TRIALFIT
"""
import json
import math
import subprocess
import sys

import numpy

JOB = """
trialfit: 1
running_clearance: 0.44
radial_clearance: 0.07
gauges: {dial: 0.01}
parts:
  - part: case
    faces: {face: zero}
  - part: plate
    sits: {face: back, against: case.face}
    centred: {by: bolts, on: case, clearance: 0.00..0.12}
    faces: {back: zero, front: 10 exact from back}
    rings: {disc: {from: back, to: front, bore: 30, od: 120}}
    face_runout: {is: 0.06..0.10, dia: 100}
  - part: stator
    sits: {face: in, against: plate.front}
    centred: {by: register, on: plate.disc, clearance: 0.02..0.06}
    faces: {in: zero, out: 20 exact from in}
    rings: {poles: {from: in, to: out, bore: 50.40 ±0.03, od: 90}}
  - part: crank
    turns: true
    sits: {face: shoulder, against: case.face, offset: 10.00 ±0.05}
    centred: {by: bearing, on: case, play: 0.01..0.03}
    faces: {shoulder: zero}
    runout: 0.03 by dial
    face_runout: {is: 0.03 by dial, dia: 40}
  - part: rotor
    turns: true
    sits: {face: hub, against: crank.shoulder}
    centred: {by: bolts, on: crank, clearance: 0.00..0.02}
    faces: {hub: zero, low: 0.5 exact from hub, out: 15.5 exact from hub}
    rings: {body: {from: low, to: out, bore: 10, od: 50.00 ±0.02}}
    runout: 0.04 by dial
    face_runout: {is: 0.06 by dial, dia: 50}
"""
DRAWS, STEPS = 200_000, 120
RANDOM = numpy.random.default_rng(20)


def limits(low, high):
    """Normal, the limits three standard deviations off."""
    return RANDOM.normal((low + high) / 2.0, (high - low) / 6.0, DRAWS)


def by_dial(read):
    return RANDOM.uniform(read - 0.01, read + 0.01, DRAWS)


def towards_somewhere(length):
    return length * numpy.exp(1j * RANDOM.uniform(0.0, 2.0 * math.pi, DRAWS))


def furthest(still, turning):
    """How far apart the two points come as one of them turns."""
    apart = numpy.zeros(DRAWS)
    for step in range(STEPS):
        turned = turning * numpy.exp(2j * math.pi * step / STEPS)
        apart = numpy.maximum(apart, abs(turned - still))
    return apart


def turned():
    """(radial gap, gap along the axis) of every draw, each at its least over a turn."""
    plate = towards_somewhere(limits(0.00, 0.12) / 2.0)
    stator = towards_somewhere(limits(0.02, 0.06) / 2.0)
    plate_leans = towards_somewhere(limits(0.06, 0.10) / 100.0)
    in_bearing = limits(0.01, 0.03) / 2.0
    crank = towards_somewhere(by_dial(0.03) / 2.0)
    crank_leans = towards_somewhere(by_dial(0.03) / 40.0)
    rotor = towards_somewhere(limits(0.00, 0.02) / 2.0) + towards_somewhere(by_dial(0.04) / 2.0)
    rotor_leans = towards_somewhere(by_dial(0.06) / 50.0)
    # Heights of the body's two ends over the plate's back and over the crank's shoulder; those over
    # the plate as far out as the offset's limits allow.
    ends = [furthest(plate + stator + over_plate * plate_leans,
                     crank + rotor + over_shoulder * (crank_leans + rotor_leans))
            for over_plate, over_shoulder in ((10.45, 0.5), (25.55, 15.5))]
    wide = (limits(50.37, 50.43) - limits(49.98, 50.02)) / 2.0
    radial = wide - in_bearing - numpy.maximum(*ends)
    edge = 50.02 / 2.0
    axial = limits(9.95, 10.05) + 0.5 - 10.0
    return radial, axial - edge * furthest(plate_leans, crank_leans + rotor_leans)


def main():
    done = subprocess.run([sys.argv[1], "odds", "-", "--json", "--samples", "400000"], input=JOB,
                          capture_output=True, text=True, timeout=60, check=False)
    found = json.loads(done.stdout)
    radial, axial = turned()
    first, second = radial >= 0.07, axial >= 0.44
    faults = 0
    for what, chance, holds in (
            ("radial gap", found["radial"][0]["odds"], first),
            ("gap along the axis", found["clearances"][0]["odds"], second),
            ("both", found["all"]["odds"], first & second)):
        wanted = holds.mean()
        room = 4.0 * math.sqrt(wanted * (1.0 - wanted) * (1.0 / DRAWS + 1.0 / 400_000))
        fine = 0.01 < wanted < 0.99 and abs(chance - wanted) <= room
        faults += not fine
        print(f"{what}: {chance:.5f}, turned {wanted:.5f} within {room:.5f}{'' if fine else ' NOT'}")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
