#!/usr/bin/python3
"""Holds `trialfit spin` to made-up engines whose motion SciPy integrates: w dw/dq = -(gas + drag)/J along
the crank, from where the cylinder closes to the spark and to the top, with the pressure taken from the volume
over a piston whose place is the connecting rod's. Work by `quad` as well. Nothing here uses a closed form of
the work, nor the balance of energy.

usage: spin_made_up.py TRIALFIT FIRST COUNT
"""
import json
import math
import subprocess
import sys
import tempfile

import numpy
from scipy.integrate import quad, solve_ivp

sys.path.insert(0, __file__.rsplit("/", 2)[0] + "/support")
from random_engines import disc_on_crank  # noqa: E402

RPM = math.pi / 30.0


class Engine:
    """Figures in m, kg, s, Pa; angles before the top in radians."""

    def __init__(self, seed):
        draw = numpy.random.default_rng([15, seed])
        self.stroke = round(draw.uniform(30, 90), 2)
        self.rod = round(self.stroke * draw.uniform(1.6, 2.4), 2)
        self.offset = round(draw.choice([0.0, draw.uniform(-2, 2)]), 2)
        self.bore = round(self.stroke * draw.uniform(0.8, 1.2), 2)
        self.ratio = round(draw.uniform(5, 12), 2)
        self.exponent = round(draw.choice([1.0, draw.uniform(1.1, 1.45)]), 3)
        self.closes = round(draw.uniform(80, 150), 1)
        self.fires = round(draw.uniform(0, 35), 1)
        self.air = round(draw.uniform(85, 105), 1)
        self.under = round(draw.uniform(0.5, 1.0), 2)
        self.drag = round(draw.uniform(0, 4), 2)
        self.crank = round(draw.uniform(5, 200), 1)  # kg cm2
        self.disc = round(draw.uniform(60, 180), 1)
        self.thick = round(draw.uniform(5, 30), 1)
        self.kind = str(draw.choice(["speed", "energy", "torque"]))
        self.push = draw.uniform(0.6, 2.5)
        self.turns = round(draw.uniform(0.5, 3), 2)
        disc_kg = 7850e-9 * math.pi / 4 * (self.disc ** 2 - 20 ** 2) * self.thick
        self.inertia = self.crank * 1e-4 + disc_kg * (self.disc ** 2 + 20 ** 2) / 8 * 1e-6
        radius = self.stroke / 2
        if self.offset:
            # The radius whose piston travels just the stroke.
            low, high = radius * 0.9, radius
            for _ in range(200):
                middle = (low + high) / 2
                travel = (math.hypot(0, math.sqrt((self.rod + middle) ** 2 - self.offset ** 2))
                          - math.sqrt((self.rod - middle) ** 2 - self.offset ** 2))
                low, high = (middle, high) if travel < self.stroke else (low, middle)
            radius = (low + high) / 2
        self.radius = radius
        self.top = math.asin(self.offset / (self.rod + radius))

    def drop(self, before_top):
        """Of the piston below its top, mm."""
        q = self.top - before_top
        height = self.radius * math.cos(q) + math.sqrt(self.rod ** 2 - (self.radius * math.sin(q) - self.offset) ** 2)
        return math.sqrt((self.rod + self.radius) ** 2 - self.offset ** 2) - height

    def volume(self, before_top):
        """Over the piston, m3."""
        area = math.pi / 4 * self.bore ** 2
        trapped = self.drop(math.radians(self.closes))
        return area * (trapped / (self.ratio - 1) + self.drop(before_top)) * 1e-9

    def torque(self, before_top):
        """That slows the crank, N m, without drag."""
        step = 1e-6
        rate = (self.volume(before_top + step) - self.volume(before_top - step)) / (2 * step)
        closing = self.volume(math.radians(self.closes))
        pressure = self.air * 1e3 * ((closing / self.volume(before_top)) ** self.exponent - self.under)
        return pressure * rate

    def work(self, to):
        return quad(self.torque, to, math.radians(self.closes), epsabs=1e-10, epsrel=1e-9, limit=200)[0]

    def speed_at(self, to, start):
        """rpm left there; 0 where it stops before."""
        def slows(passed, speed):
            return [-(self.torque(math.radians(self.closes) - passed) + self.drag) / (self.inertia * speed[0])]

        def stops(_, speed):
            return speed[0] - 0.02 * start

        stops.terminal = True
        way = math.radians(self.closes) - to
        found = solve_ivp(slows, (0, way), [start], rtol=1e-10, atol=1e-10, events=stops)
        return found.y[0][-1] / RPM if found.status == 0 else 0.0

    def job(self):
        loss = self.work(0.0) + self.drag * math.radians(self.closes)
        energy = self.push * loss
        if self.kind == "speed":
            self.given = round(math.sqrt(2 * energy / self.inertia) / RPM, 1)
            self.start = self.given * RPM
            starter = f"speed: {self.given} rpm"
        elif self.kind == "energy":
            self.given = round(energy, 3)
            self.start = math.sqrt(2 * self.given / self.inertia)
            starter = f"energy: {self.given} J"
        else:
            self.given = round(energy / (2 * math.pi * self.turns) + self.drag, 3)
            self.start = math.sqrt(4 * math.pi * self.turns * (self.given - self.drag) / self.inertia)
            starter = f"torque: {self.given} N m, turns: {self.turns}"
        return f"""
trialfit: 1
{disc_on_crank("steel", f"{self.thick} exact", "20 exact", f"{self.disc} exact")}
timing: {{stroke: {self.stroke} exact, rod: {self.rod} exact, pin_offset: {self.offset}, fire_at: {self.fires} deg}}
spin:
  crank_inertia: {self.crank} kg cm2
  drag: {self.drag} N m
  starter: {{{starter}}}
  bore: {self.bore} exact
  compression: {self.ratio}
  exponent: {self.exponent}
  closes_at: {self.closes} deg
  air_pressure: {self.air} kPa
  under_piston: {self.under}
  spark_from: 300 rpm
"""


def near(one, other, relative, absolute=0.0):
    return abs(one - other) <= max(relative * abs(other), absolute)


def main():
    program, first, count = sys.argv[1], int(sys.argv[2]), int(sys.argv[3])
    faults, stopped, passed, kinds = [], 0, 0, set()
    for seed in range(first, first + count):
        engine = Engine(seed)
        with tempfile.NamedTemporaryFile("w", suffix=".yaml", encoding="utf-8") as file:
            file.write(engine.job())
            file.flush()
            said = subprocess.run([program, "spin", file.name, "--json"], capture_output=True, check=False)
        if said.returncode not in (0, 1):
            faults.append(f"{seed}: {said.stderr.decode()}")
            continue
        answer = json.loads(said.stdout)

        def hold(true, what):
            if not true:
                faults.append(f"{seed} ({engine.kind}): {what}")

        kinds.add(engine.kind)
        firing = math.radians(engine.fires)
        hold(near(answer["inertia"]["known_kg_m2"]["middle"], engine.inertia, 1e-12), "inertia")
        for key, to in (("to_firing", firing), ("to_top", 0.0)):
            told = answer["compression"][key]["work_j"]["middle"]
            hold(near(told, engine.work(to), 1e-7, 1e-9), f"work {key}: {told}, quad {engine.work(to)}")
        speed = engine.speed_at(firing, engine.start)
        told = answer["spark"]["has"]["middle"]
        hold(near(told, speed, 1e-5) if speed else told < 0.03 * engine.start / RPM,
             f"speed at the spark: {told}, integrated {speed}")
        at_top = engine.speed_at(0.0, engine.start)
        carried = answer["carried"]["has"]["middle"] > answer["carried"]["needs"]["middle"]
        # The integration gives up a little before a standstill.
        margin = answer["carried"]["has"]["middle"] / answer["carried"]["needs"]["middle"] - 1
        hold(carried == (at_top > 0.0) or abs(margin) < 1e-3, f"carried {carried}, integrated {at_top} rpm at the top")
        stopped += at_top == 0.0
        passed += at_top > 0.0
    for fault in faults:
        print(fault)
    print(f"{count} engines: {passed} carried over the top, {stopped} not; {len(faults)} faults")
    if count >= 50 and (not stopped or passed < 10 or len(kinds) < 3):
        raise SystemExit("the engines are all alike")
    raise SystemExit(1 if faults else 0)


main()
