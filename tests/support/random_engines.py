#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""A crank, a rod and a piston as plain numbers, and made-up engines with a `timing` section of any keys.

    random_engines.py SEED   prints one job
"""
import math
import sys

import random_jobs
from scipy.optimize import brentq


def disc_on_crank(material, thick, hole, disc):
    """The parts of a job of which a disc is all that turns and has mass; sizes as written."""
    return f"""parts:
  - part: case
    faces: {{floor: zero}}
  - part: crank
    turns: true
    sits: {{face: shoulder, against: case.floor, offset: 5 exact}}
    faces: {{shoulder: zero}}
  - part: disc
    turns: true
    material: {material}
    sits: {{face: in, against: crank.shoulder}}
    faces: {{in: zero, out: {thick} from in}}
    rings: {{body: {{from: in, to: out, bore: {hole}, od: {disc}}}}}"""


class Engine:
    """Of plain numbers. Angles from the true top, degrees, + before it on the side `side` = 1."""

    def __init__(self, stroke, rod, offset=0.0):
        self.rod, self.offset = rod, offset

        def travel(radius):
            return math.sqrt((rod + radius) ** 2 - offset ** 2) - math.sqrt((rod - radius) ** 2 - offset ** 2)

        most = 0.5 * stroke
        least = 0.5 * stroke * math.sqrt(max(0.0, 1.0 - (offset / (rod - most)) ** 2)) if offset else most
        self.radius = most if not offset else brentq(lambda r: travel(r) - stroke, 0.5 * least, most * (1 + 1e-12),
                                                     xtol=1e-14 * stroke, rtol=1e-15)
        self.lean = math.asin(offset / (rod + self.radius))
        self.bottom = math.degrees(math.pi + math.asin(offset / (rod - self.radius)) - self.lean)  # after the top

    def drop(self, before):
        q = self.lean - math.radians(before)
        top = math.sqrt((self.rod + self.radius) ** 2 - self.offset ** 2)
        return top - self.radius * math.cos(q) - math.sqrt(self.rod ** 2 - (self.radius * math.sin(q)
                                                                           - self.offset) ** 2)

    def angle(self, drop, side=1):
        """How far on that side of the top the piston stands so low."""
        end = 360.0 - self.bottom if side > 0 else self.bottom
        if drop <= 0.0:
            return 0.0
        if drop >= self.drop(side * end):
            return end
        return brentq(lambda a: self.drop(side * a) - drop, 0.0, end, xtol=1e-13, rtol=1e-15)


class Maker(random_jobs.Maker):
    def angle(self, degrees, exact=False):
        if exact or self.r.random() < 0.3:
            return f"{degrees:.1f} deg"
        return f"{degrees:.1f} deg ±{self.r.choice([0.5, 1, 2])}"

    def place(self, degrees, engine):
        """A firing point: an angle, a height, or a reading."""
        height = engine.drop(degrees)
        kind = self.r.random()
        if kind < 0.35:
            return self.angle(degrees)
        if kind < 0.6:
            return f"{self.number(height)} by {self.r.choice(list(random_jobs.GAUGES))}"
        limits = [f" ±{self.number(0.1)}", f" +{self.number(0.1)} -{self.number(0.05)}", " exact"]
        return self.number(height) + self.r.choice(limits)

    def sizes(self, timing):
        """Stroke, rod, offset and tilt; returns the engine that they make."""
        r = self.r
        stroke = r.uniform(30.0, 90.0)
        rod, offset = stroke * r.uniform(1.5, 2.4), 0.0
        timing |= {"stroke": self.size(stroke), "rod": self.size(rod)}
        if r.random() < 0.5:
            offset = r.uniform(-3.0, 3.0)
            timing["pin_offset"] = f"{self.number(offset)} ±{self.number(0.1)}"
        if r.random() < 0.4:
            timing["plug_tilt"] = self.angle(r.uniform(5.0, 35.0))
        return Engine(stroke, rod, offset)

    def readings(self, timing):
        """When it fires, and the top on a degree wheel."""
        r, engine = self.r, self.sizes(timing)
        wanted = r.uniform(0.2, 5.0) if r.random() < 0.1 else r.uniform(5.0, 40.0)
        # Some fire almost where they should: the limits then lie on both sides.
        now = wanted + r.uniform(-0.6, 0.6) if r.random() < 0.3 else r.uniform(5.0, 40.0)
        for key, often, at in (("fire_at", 0.9, wanted), ("fires_now", 0.7, now)):
            if r.random() < often:  # near the top the limits of a height would go below nothing
                timing[key] = f"{at:.2f} deg" if at < 5.0 else self.place(at, engine)
        if r.random() < 0.7:
            timing["gauge"] = r.choice(list(random_jobs.GAUGES))
        if r.random() < 0.5:
            half, top = r.uniform(15.0, 70.0), r.uniform(0.0, 360.0)
            timing["stops"] = {"before": f"{(top - half) % 360.0:.1f}", "after": f"{(top + half) % 360.0:.1f}",
                               "wheel": "0.5 deg"}
            if r.random() < 0.5:
                timing["stops"]["holds"] = self.number(0.03)
        if r.random() < 0.4:
            top = r.uniform(10.0, 340.0)
            timing["dwell"] = {"from": f"{top:.1f}", "to": f"{top + 3.0:.1f}", "wheel": "1 deg"}

    def marks(self, timing):
        """Diameters that carry marks, marks that were found, and the slot."""
        r = self.r
        if r.random() < 0.8:
            timing["rim_dia"] = self.size(r.uniform(60.0, 140.0))
        if r.random() < 0.5:
            timing["stator_dia"] = self.size(r.uniform(50.0, 90.0))
        if "rim_dia" in timing and "fire_at" in timing and r.random() < 0.7:
            timing["marks"] = [{"mark": f"m{k}", "at": self.angle(r.uniform(-40.0, 60.0)) if r.random() < 0.6
                                else f"{self.number(r.uniform(1.0, 40.0))} ±{self.number(0.2)}"}
                               for k in range(r.randint(1, 4))]
        if r.random() < 0.8:
            slot = timing["slot"] = {"dia": self.size(r.uniform(40.0, 80.0)),
                                     "length": self.size(r.uniform(11.0, 30.0))}
            if r.random() < 0.6:
                slot["screw"] = self.size(r.uniform(4.0, 6.0))
            if r.random() < 0.6:
                slot["free_earlier"] = self.size(r.uniform(1.0, 4.0))

    def curves(self, timing):
        r, curves = self.r, []
        for k in range(r.randint(1, 3)):
            speeds = sorted(r.sample(range(500, 9000, 250), r.randint(1, 4)))
            curve = {"curve": f"c{k}", "points": [[str(s), f"{r.uniform(-10.0, 30.0):.1f}"] for s in speeds]}
            on = r.choice(["top", "fire_at", *[c["curve"] for c in curves]])
            if on != "top" and (on != "fire_at" or "fire_at" in timing):
                curve["counts_from"] = on
            curves.append(curve)
        timing["curves"] = curves

    def job(self):
        r, timing = self.r, {}
        self.readings(timing)
        self.marks(timing)
        if r.random() < 0.6:
            self.curves(timing)
        if r.random() < 0.7:
            timing["turns"] = r.choice(["clockwise", "anticlockwise"])
        document = {"trialfit": "1", "units": self.units}
        if self.general:
            document["general_tolerance"] = self.general
        document["gauges"] = {k: self.number(v) for k, v in random_jobs.GAUGES.items()}
        document["parts"] = [{"part": "case", "faces": {"floor": "zero"}}]
        document["timing"] = timing
        return random_jobs.emit(document)


if __name__ == "__main__":
    print(Maker(int(sys.argv[1])).job(), end="")
