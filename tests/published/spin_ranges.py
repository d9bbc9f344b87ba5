#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Holds every figure of `trialfit spin` to made-up engines all of whose sizes are ranges: at the middle of all of them,
and at every corner.

usage: spin_ranges.py TRIALFIT FIRST COUNT

At each corner the work of compression is summed up in volume by Gauss and Legendre, the inertia from solid discs, the
speed from the balance of energy. What is told as least and greatest holds every corner; it may be wider where one size
is in two of the figures that a third is made of (the closing point is in the work and in the drag's), by WIDER at
most. Verdicts are by the told ranges: *holds* where the least of what there is reaches the greatest of what is needed,
*doubtful* where the middle reaches the middle.
"""
import itertools
import json
import math
import random
import subprocess
import sys

import numpy as np

sys.path.insert(0, __file__.rsplit("/", 2)[0] + "/support")
from held import Held, near  # noqa: E402
from random_engines import Engine, disc_on_crank  # noqa: E402

WIDER = 0.04  # of a figure
STEEL = 7850e-9  # kg/mm3, as the job's own material says
NODES, WEIGHTS = np.polynomial.legendre.leggauss(60)
RPM = math.pi / 30.0


class Start:
    """A made-up engine: each figure as (least, greatest)."""

    def __init__(self, seed):
        r = self.r = random.Random(f"spin {seed}")

        def about(value, share, decimals):
            off = value * share * r.choice([0.0, 0.5, 1.0])
            ends = [round(value - off, decimals), round(value + off, decimals)]
            return ends[0], ends[1]

        stroke = r.uniform(30, 90)
        self.ranges = {
            "stroke": about(stroke, 0.002, 3), "rod": about(stroke * r.uniform(1.6, 2.3), 0.002, 3),
            "bore": about(stroke * r.uniform(0.8, 1.2), 0.001, 3), "ratio": about(r.uniform(5, 11), 0.03, 3),
            "closes": about(r.uniform(80, 150), 0.01, 1), "fires": about(r.uniform(4, 30), 0.05, 1),
            "exponent": about(r.uniform(1.15, 1.4), 0.03, 3), "air": about(r.uniform(85, 105), 0.02, 1),
            "under": about(r.uniform(0.4, 0.95), 0.04, 3), "drag": about(r.uniform(0.1, 3), 0.1, 3),
            "crank": about(r.uniform(5, 150), 0.03, 2), "needs": about(r.uniform(200, 600), 0.03, 0),
            "idle": about(r.uniform(900, 1600), 0.05, 0), "disc": about(r.uniform(60, 180), 0.002, 2),
            "hole": about(r.uniform(10, 40), 0.005, 2), "thick": about(r.uniform(5, 30), 0.01, 2)}
        self.kind = r.choice(["speed", "energy", "torque"])
        middle = self.figures({k: 0.5 * sum(v) for k, v in self.ranges.items()}, None)
        energy = r.uniform(0.6, 2.5) * middle["top loss"]
        if self.kind == "speed":
            self.ranges["push"] = about(math.sqrt(2.0 * energy / middle["inertia"]) / RPM, 0.03, 1)
        elif self.kind == "energy":
            self.ranges["push"] = about(energy, 0.05, 3)
        else:
            self.ranges["turns"] = about(r.uniform(0.5, 3), 0.05, 2)
            turns = 0.5 * sum(self.ranges["turns"])
            self.ranges["push"] = about(energy / (2.0 * math.pi * turns) + 0.5 * sum(self.ranges["drag"]), 0.05, 3)

    def job(self):
        def span(key, unit=""):
            low, high = self.ranges[key]
            return (f"{low:g}" if low == high else f"{low:g}..{high:g}") + unit

        def size(key):
            low, high = self.ranges[key]
            return f"{low:g} exact" if low == high else f"{low:g}..{high:g}"

        starter = {"speed": f"speed: {span('push', ' rpm')}", "energy": f"energy: {span('push', ' J')}",
                   "torque": f"torque: {span('push', ' N m')}, turns: {span('turns') if 'turns' in self.ranges else ''}"}
        low, high = self.ranges["closes"]
        first, last = self.ranges["fires"]
        return f"""trialfit: 1
materials: [{{material: metal, density: 7850}}]
{disc_on_crank("metal", size('thick'), size('hole'), size('disc'))}
timing: {{stroke: {size('stroke')}, rod: {size('rod')}, fire_at: {0.5 * (first + last):g} deg ±{0.5 * (last - first):g}}}
spin:
  crank_inertia: {span('crank', ' kg cm2')}
  drag: {span('drag', ' N m')}
  starter: {{{starter[self.kind]}}}
  bore: {size('bore')}
  compression: {span('ratio')}
  exponent: {span('exponent')}
  closes_at: {0.5 * (low + high):g} deg ±{0.5 * (high - low):g}
  air_pressure: {span('air', ' kPa')}
  under_piston: {span('under')}
  spark_from: {span('needs', ' rpm')}
  idle: {span('idle', ' rpm')}
"""

    def figures(self, x, kind):
        """Of plain numbers."""
        engine = Engine(x["stroke"], x["rod"])
        area = math.pi / 4.0 * x["bore"] ** 2 * 1e-9  # of a mm of piston, m3
        closing = engine.drop(x["closes"])
        rest = closing / (x["ratio"] - 1.0)
        out = {"closes": x["closes"], "trapped": 1e6 * area * (rest + closing), "idle rpm": x["idle"]}
        mass = STEEL * math.pi / 4.0 * (x["disc"] ** 2 - x["hole"] ** 2) * x["thick"]
        out["disc mass"], out["disc inertia"] = mass, mass * (x["disc"] ** 2 + x["hole"] ** 2) / 8.0 * 1e-6
        out["crank"] = x["crank"] * 1e-4
        inertia = out["inertia"] = out["crank"] + out["disc inertia"]
        for to, angle in (("top", 0.0), ("firing", x["fires"])):
            # In the logarithm of the volume, where the pressure is smooth.
            ends = [math.log(rest + d) for d in (engine.drop(angle), closing)]
            volume = np.exp(0.5 * (ends[1] - ends[0]) * NODES + 0.5 * sum(ends))
            pressure = x["air"] * 1e3 * ((rest + closing) / volume) ** x["exponent"]
            gas = 0.5 * (ends[1] - ends[0]) * float(WEIGHTS @ (pressure * volume)) * area
            out[f"{to} degrees"], out[f"{to} gas"] = angle, gas
            out[f"{to} work"] = gas - x["under"] * x["air"] * 1e3 * (closing - engine.drop(angle)) * area
            out[f"{to} drag"] = x["drag"] * math.radians(x["closes"] - angle)
            out[f"{to} loss"] = out[f"{to} work"] + out[f"{to} drag"]
        out["stored"] = 0.5 * inertia * (x["idle"] * RPM) ** 2
        out["rim"] = 0.5e-3 * x["disc"] * x["idle"] * RPM
        out["unevenness"] = out["top work"] / (inertia * (x["idle"] * RPM) ** 2)
        return out if kind is None else out | self.start(x, kind, out)

    @staticmethod
    def start(x, kind, known):
        inertia, needs = known["inertia"], x["needs"] * RPM
        energy = {"speed": lambda: 0.5 * inertia * (x["push"] * RPM) ** 2, "energy": lambda: x["push"],
                  "torque": lambda: 2.0 * math.pi * x["turns"] * max(0.0, x["push"] - x["drag"])}[kind]()
        left = max(0.0, energy - known["firing loss"])
        light = {"speed": lambda: 0.5 * known["crank"] * (x["push"] * RPM) ** 2}.get(kind, lambda: energy)()
        out = {"energy": energy, "rpm": math.sqrt(2.0 * energy / inertia) / RPM, "needs": x["needs"],
               "at firing": math.sqrt(2.0 * left / inertia) / RPM,
               "without": math.sqrt(2.0 * max(0.0, light - known["firing loss"]) / known["crank"]) / RPM,
               "energy needed": max(known["top loss"], 0.5 * inertia * needs ** 2 + known["firing loss"])}
        if kind != "speed":
            out["inertia needed"] = 2.0 * left / needs ** 2
        elif x["push"] > x["needs"]:
            w = x["push"] * RPM
            out["inertia needed"] = max(2.0 * known["firing loss"] / (w ** 2 - needs ** 2),
                                        2.0 * known["top loss"] / w ** 2)
        else:
            out["inertia needed"] = math.inf
        return out

    def corners(self):
        """Figures at every corner of what spreads; of many sizes, a thousand corners drawn."""
        spread = [k for k, (low, high) in self.ranges.items() if low != high]
        ends = itertools.product((0, 1), repeat=len(spread)) if len(spread) < 9 else \
            [[self.r.randint(0, 1) for _ in spread] for _ in range(400)]
        for corner in ends:
            x = {k: v[0] for k, v in self.ranges.items()} | {k: self.ranges[k][e] for k, e in zip(spread, corner)}
            yield self.figures(x, self.kind)


def told(answer):
    """{name: estimate} of all that `spin` tells."""
    disc = answer["inertia"]["parts"][0]
    out = {"disc mass": disc["mass_kg"], "disc inertia": disc["inertia_kg_m2"], "crank": answer["inertia"]["crank_kg_m2"],
           "inertia": answer["inertia"]["known_kg_m2"], "closes": answer["compression"]["closes_deg"],
           "trapped": answer["compression"]["trapped_cm3"], "energy": answer["started"]["energy_j"],
           "rpm": answer["started"]["rpm"], "at firing": answer["spark"]["has"], "needs": answer["spark"]["needs"],
           "energy needed": answer["needed"]["energy_j"], "unevenness": answer["unevenness"],
           "idle rpm": answer["running"][0]["rpm"], "rim": answer["running"][0]["rim_m_s"],
           "stored": answer["running"][0]["stored_j"]}
    for to in ("top", "firing"):
        path = answer["compression"][f"to_{to}"]
        out |= {f"{to} {key}": path[f"{key}_j"] for key in ("gas", "work", "drag", "loss")}
        out[f"{to} degrees"] = path["degrees"]
    limit = answer["needed"]["inertia"]
    out["inertia needed"] = {end: limit[f"{end}_kg_m2"] for end in ("least", "middle", "greatest")}
    return out


def verdict(has, needs):
    if has["least"] >= needs["greatest"]:
        return "holds"
    return "doubtful" if has["middle"] >= needs["middle"] else "fails"


def compare(held, program, engine):
    run = subprocess.run([program, "spin", "-", "--json"], input=engine.job(), capture_output=True, text=True,
                         timeout=20, check=False)
    held.hold("exit codes", run.returncode in (0, 1), run.stderr)
    if run.returncode not in (0, 1):
        return
    answer = json.loads(run.stdout)
    figures = told(answer)
    middle = engine.figures({k: 0.5 * sum(v) for k, v in engine.ranges.items()}, engine.kind)
    corners = list(engine.corners())
    for name, said in figures.items():
        wanted = None if math.isinf(middle[name]) else middle[name]
        held.hold("middles", (wanted is None) == (said["middle"] is None) and (wanted is None
                  or near(said["middle"], wanted, 1e-7 * abs(wanted) + 1e-12)),
                  f"{name}: {said['middle']}, should be {wanted}")
        found = [corner[name] for corner in corners]
        low, high = min(found), max(found)
        least, greatest = (math.inf if said[end] is None else said[end] for end in ("least", "greatest"))
        slack = 1e-7 * abs(high if math.isfinite(high) else 1.0) + 1e-12
        held.hold("ranges", least <= low + slack and greatest >= high - slack,
                  f"{name}: {least}..{greatest}, corners {low}..{high}")
        whole = len([1 for a, b in engine.ranges.values() if a != b]) < 9
        if whole and math.isfinite(high) and "needed" not in name and name != "at firing":
            held.hold("ranges no wider", least >= low - WIDER * abs(high) and greatest <= high + WIDER * abs(high),
                      f"{name}: {least}..{greatest}, corners {low}..{high}")
    without = answer["inertia"]["parts"][0]["without"]
    held.hold("without a part", near(without["inertia_kg_m2"], middle["crank"])
              and near(without["at_firing_rpm"], middle["without"], 1e-7 * max(1.0, middle["without"])),
              f"{without}, should be {middle['crank']}, {middle['without']}")
    held.hold("started by", answer["started"]["by"] == engine.kind
              and answer["needed"]["inertia"]["limit"] == ("at_least" if engine.kind == "speed" else "at_most"), "")
    carried, spark = answer["carried"], answer["spark"]
    held.hold("carried", carried["has"] == figures["energy"] and carried["needs"] == figures["top loss"]
              and carried["verdict"] == verdict(carried["has"], carried["needs"]), f"{carried}")
    held.hold("sparks", spark["verdict"] == verdict(spark["has"], spark["needs"]), f"{spark}")
    order = ["holds", "doubtful", "fails"]
    worst = max(carried["verdict"], spark["verdict"], key=order.index)
    held.hold("verdicts", answer["verdict"] == worst and run.returncode == (0 if worst == "holds" else 1),
              f"{answer['verdict']} and {run.returncode}, should be {worst}")
    held.hold(f"it {worst}", True, "")


def main():
    held, first, count = Held(), int(sys.argv[2]), int(sys.argv[3])
    for seed in range(first, first + count):
        held.ask(f"engine {seed}", lambda s=seed: compare(held, sys.argv[1], Start(s)))
    alike = count >= 100 and not {"it holds", "it doubtful", "it fails"} <= held.counts.keys()
    return held.end("engines") or (1 if alike else 0)


if __name__ == "__main__":
    sys.exit(main())
