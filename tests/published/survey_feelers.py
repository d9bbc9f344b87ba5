#!/usr/bin/python3
"""Holds what `trialfit survey` makes of feeler readings to NumPy's least squares.

usage: survey_feelers.py TRIALFIT

Made-up jobs, fixed seeds: a stator round a rotor, or a rotor round a stator, read at random places,
rotor positions and heights, with errors of the gauge. The equations are written anew from the
geometry (gap = mean + half the taper + what the still and the turning centre have towards the
feeler), solved by numpy.linalg.lstsq, and every figure compared to 1e-9 of the unit. Which terms
can be told is held to the rank of the equations: what the program tells has full rank, and what it
does not tell would not have it (the plans here are either plainly sound or plainly not).
"""
import json
import math
import subprocess
import sys

import numpy
from scipy.stats import chi2

WITHIN = 1e-9
TERMS = {"mean": 1, "offset": 2, "runout": 2, "taper": 1, "still_leans": 2, "turning_cocked": 2}
JOB = """trialfit: 1
gauges: {{feeler: {gauge}}}
running_clearance: 0.2
parts:
  - {{part: case, faces: {{floor: zero}}}}
  - part: stator
    sits: {{face: in, against: case.floor}}
    faces: {{in: zero, out: 20 exact from in}}
    rings: {{poles: {{from: in, to: out, bore: {still[0]}, od: {still[1]}}}}}
  - part: rotor
    turns: true
    sits: {{face: in, against: case.floor}}
    faces: {{in: zero, out: 20 exact from in}}
    rings: {{body: {{from: in, to: out, bore: {turning[0]}, od: {turning[1]}}}}}
feelers:
  - feeler: gap
    between: [stator.poles, rotor.body]
    by: feeler
    rounds:
"""


def surveyed(program, text):
    said = subprocess.run([program, "survey", "-", "--json"], input=text.encode(),
                          capture_output=True, check=False)
    if said.returncode not in (0, 1):
        raise SystemExit(text + said.stderr.decode())
    return json.loads(said.stdout)["feelers"][0]


def towards(degrees):
    return numpy.array([math.cos(math.radians(degrees)), math.sin(math.radians(degrees))])


def columns(clock, rotor, z, side):
    still, turning = side * towards(clock), -side * towards(clock - rotor)
    return {"mean": [1.0], "offset": still, "runout": turning, "taper": [z / 2],
            "still_leans": z * still / 2, "turning_cocked": z * turning / 2}


def made(seed):
    """A job's text and its rows (clock, rotor, height below the top, gap)."""
    random = numpy.random.default_rng(seed)
    side = 1 if seed % 2 else -1
    still, turning = ((50, 90), (10, 49)) if side > 0 else ((10, 49), (50, 90))
    gauge = [0.01, 0.02][seed % 3 == 0]
    heights = [[0.0], [0.0, 15.0], [0.0, 6.0, 17.0]][seed % 4 % 3]
    rotors = [[0], [0, 180], [0, 90, 200]][seed % 5 % 3]
    truth = random.normal(0, 0.03, 10)
    truth[0] = 0.5
    text = JOB.format(gauge=gauge, still=still, turning=turning)
    rows = []
    for height in heights:
        for rotor in rotors:
            places = sorted(int(c) for c in random.choice(24, size=random.integers(5, 9),
                                                          replace=False) * 15)
            # All round: no two next to one another more than a third apart.
            while max((b - a) % 360 for a, b in zip(places, places[1:] + places[:1])) > 120:
                places = sorted(int(c) for c in random.choice(24, size=8, replace=False) * 15)
            gaps = []
            for clock in places:
                z = 0.0 if len(heights) == 1 else 1 - 2 * height / max(heights)
                row = numpy.concatenate([numpy.atleast_1d(c) for c in
                                         columns(clock, rotor, z, side).values()])
                gaps.append(round(float(row @ truth + random.uniform(-gauge, gauge)), 3))
                rows.append((clock, rotor, height, gaps[-1]))
            text += (f"      - {{rotor_at: {rotor} deg, at: stator.out, below: {height}, clock: "
                     f"[{', '.join(f'{c} deg' for c in places)}], gaps: {gaps}}}\n")
    return text, rows, side, gauge / math.sqrt(3)


def compare(seed, program):
    text, rows, side, sd = made(seed)
    got = surveyed(program, text)
    if any(r["left_out"] for r in got["readings"]):
        return [f"seed {seed}: leaves a reading out"]
    lowest, highest = -max(r[2] for r in rows), -min(r[2] for r in rows)
    half = (highest - lowest) / 2 or math.inf
    blocks = [columns(c, r, (-h - (lowest + highest) / 2) / half, side) for c, r, h, _ in rows]
    told = [t for t in TERMS if t not in {n["term"] for n in got["not_told"]}]
    matrix = numpy.array([numpy.concatenate([numpy.atleast_1d(b[t]) for t in told])
                          for b in blocks])
    faults = []

    def hold(what, mine, theirs):
        if abs(mine - theirs) > WITHIN * max(1, abs(theirs)):
            faults.append(f"seed {seed}: {what} is {mine!r}, NumPy says {theirs!r}")

    if numpy.linalg.matrix_rank(matrix) < matrix.shape[1]:
        return [f"seed {seed}: told {told} are not apart"]
    for term in set(TERMS) - set(told):
        more = numpy.hstack([matrix, [numpy.atleast_1d(b[term]) for b in blocks]])
        if numpy.linalg.matrix_rank(more, tol=1e-6) == more.shape[1]:
            faults.append(f"seed {seed}: {term} could be told")
    gaps = numpy.array([r[3] for r in rows])
    solution, *_ = numpy.linalg.lstsq(matrix / sd, gaps / sd, rcond=None)
    covariance = numpy.linalg.inv(matrix.T @ matrix / sd**2)
    at, places = 0, {}
    for term in told:
        places[term] = slice(at, at + TERMS[term])
        values, size = solution[at:at + TERMS[term]], TERMS[term]
        block = covariance[at:at + size, at:at + size]
        at += size
        figure = got[term]
        if size == 1:
            hold(term, figure["is"], values[0])
            hold(term + " sd", figure["sd"], math.sqrt(block[0, 0]))
            continue
        length = numpy.hypot(*values)
        along = values / length
        hold(term, figure["is"], length)
        hold(term + " sd", figure["sd"], math.sqrt(along @ block @ along))
        hold(term + " direction", math.cos(math.radians(figure["towards_deg"])), along[0])
        hold(term + " direction", math.sin(math.radians(figure["towards_deg"])), along[1])
        across = numpy.array([-along[1], along[0]])
        spread = math.degrees(math.sqrt(across @ block @ across) / length)
        hold(term + " direction's sd", figure["towards_sd_deg"], min(180, spread))
        # Of a circle of doubt, chance alone shows as much in 1 of 20.
        size = float(values @ numpy.linalg.solve(block, values))
        if abs(size - chi2.isf(0.05, 2)) > 1e-6 and figure["seen"] != (size > chi2.isf(0.05, 2)):
            faults.append(f"seed {seed}: {term} is {'' if figure['seen'] else 'not '}seen")
    left = (gaps - matrix @ solution) / sd
    hat = numpy.einsum("ij,jk,ik->i", matrix, covariance, matrix) / sd**2
    hold("chi-square", got["chi_square"], float(left @ left))
    hold("freedom", got["freedom"], len(rows) - matrix.shape[1])
    hold("probability", got["probability"], chi2.sf(float(left @ left), len(rows) - matrix.shape[1]))
    if got["judgement"] != ("agree" if got["probability"] >= 0.05 else got["judgement"]):
        faults.append(f"seed {seed}: {got['judgement']} at {got['probability']}")
    settings(hold, got, places, solution, covariance)
    for i, reading in enumerate(got["readings"]):
        hold(f"reading {i} standardised", reading["standardised"],
             left[i] / math.sqrt(1 - hat[i]))
        hold(f"reading {i} off by", reading["off_by"], sd * left[i] / (1 - hat[i]))
        hold(f"reading {i} should be", reading["should_be"], gaps[i] - sd * left[i] / (1 - hat[i]))
        hold(f"reading {i} redundancy", reading["redundancy"], 1 - hat[i])
        hold(f"reading {i} sd", reading["sd"], sd)
    return faults


def settings(hold, got, places, solution, covariance):
    """What the gap is, and the best that moving what stands still could give, where all that is of it is told."""
    if not {"mean", "offset", "runout"} <= places.keys() or {"still_leans", "turning_cocked"} & places.keys():
        return

    def figures(x):
        mean, off, out = x[0], numpy.hypot(*x[places["offset"]]), numpy.hypot(*x[places["runout"]])
        half = abs(x[places["taper"]][0]) / 2 if "taper" in places else 0.0
        return {"least_now": mean - half - off - out, "most_now": mean + half + off + out,
                "best_least": mean - half - out, "best_most": mean + half + out, "eccentricity": out}

    for name, value in figures(solution).items():
        hold(name, got[name]["is"], value)
        step = 1e-6
        slope = [(figures(solution + step * e)[name] - figures(solution - step * e)[name]) / (2 * step)
                 for e in numpy.eye(len(solution))]
        hold(name + " sd", round(got[name]["sd"], 6), round(float(numpy.sqrt(slope @ covariance @ slope)), 6))
    even = got["even_up"]
    hold("whether there is anything to even up", even is not None, got["offset"]["seen"])
    if even is None:
        return
    hold("even up by", even["by"]["is"], got["offset"]["is"])
    hold("even up by, sd", even["by"]["sd"], got["offset"]["sd"])
    hold("even up towards", (even["towards_deg"] - got["offset"]["towards_deg"]) % 360, 180)
    for one, other in (("least", "best_least"), ("most", "best_most")):
        hold(f"even up {one}", even[one]["is"], got[other]["is"])
        hold(f"even up {one}, sd", even[one]["sd"], got[other]["sd"])


def main():
    faults = [fault for seed in range(60) for fault in compare(seed, sys.argv[1])]
    print("\n".join(faults[:20]) or "60 made-up jobs agree with NumPy")
    sys.exit(1 if faults else 0)


main()
