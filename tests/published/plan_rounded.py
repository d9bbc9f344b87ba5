#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Holds `trialfit plan` with a rule of rounding to every stack tried in turn, on made-up end floats.

usage: plan_rounded.py TRIALFIT FIRST COUNT

A shaft in a case, set to an aim by shims on one side: what the aim asks for, by the middles of the sizes; the stacks
that the rule lets through, by their nominal height; of these the ones that hold in the worst case; of these the ones
nearest to the aim, and of those the fewest pieces.
"""
import itertools
import json
import math
import random
import subprocess
import sys

sys.path.insert(0, __file__.rsplit("/", 2)[0] + "/support")
from held import Held, near  # noqa: E402

HAIR = 1e-6  # of a step: what is rounded away in sums


class Float:
    def __init__(self, seed):
        r = random.Random(f"rounded {seed}")
        self.way = r.choice(["down", "up", "nearest", "last_digit"])
        self.step = r.choice([0.01, 0.02]) if self.way == "last_digit" else r.choice([0.05, 0.1, 0.02])
        grid = 5.0 * self.step if self.way == "last_digit" else self.step
        self.aim = round(r.uniform(0.1, 0.5), 2)
        length = round(r.uniform(40, 80), 2)
        self.room = round(r.uniform(0.6, 3.0), 2)
        up, down = r.choice([(0.02, 0.02), (0.03, 0.01), (0.0, 0.04)])
        self.case = f"{length + self.room:.2f} +{up} -{down}"
        self.half = 0.5 * (up + down) + 0.01
        self.wanted = self.room + 0.5 * (up - down) - self.aim
        self.crank = f"{length:.2f} ±0.01"
        near_it = round(self.wanted / grid)
        on_grid = r.random() < 0.7
        self.stock = sorted({round(k * grid, 4) if on_grid else round(k * grid + r.uniform(-0.3, 0.3) * grid, 3)
                             for k in [*range(max(1, near_it - 2), near_it + 3), r.randint(1, 5), r.randint(1, 5)]})
        self.stock = [t for t in self.stock if t > 0.0]
        self.pieces = [r.choice([None, None, 1]) for _ in self.stock]
        self.at_most, self.holds = r.randint(1, 3), r.choice([0.0, 0.005])
        self.least = round(self.aim - r.uniform(0.02, 0.2), 2)
        self.most = round(self.aim + r.uniform(0.02, 0.2), 2)

    def job(self):
        stock = ", ".join(f"{t:g}" if p is None else f"{{thickness: {t:g}, pieces: {p}}}"
                          for t, p in zip(self.stock, self.pieces))
        return f"""trialfit: 1
title: A made-up end float
units: mm
parts:
  - part: case
    faces: {{left: zero, right: {self.case} from left}}
  - part: crank
    sits:
      face: left
      against: case.left
      shims: {{stock: [{stock}], at_most: {self.at_most}, holds: {self.holds}, round: {{way: {self.way}, step: {self.step}}}}}
    faces: {{left: zero, right: {self.crank} from left}}
checks:
  - {{check: end float, gap: [crank.right, case.right], at_least: {self.least}, at_most: {self.most}, aim: {self.aim}}}
"""

    def let_through(self, height):
        """Whether the rule makes this height of the wanted one."""
        steps = (self.wanted - height) / self.step
        on_grid = height / (5.0 * self.step if self.way == "last_digit" else self.step)
        return abs(on_grid - round(on_grid)) < 1e-6 and {"down": -HAIR <= steps < 1.0 - HAIR, "up": -1.0 + HAIR < steps <= HAIR,
                "nearest": -0.5 + HAIR < steps <= 0.5 + HAIR, "last_digit": -2.5 - HAIR <= steps < 2.5 - HAIR}[self.way]

    def best(self):
        """(how far from the aim, pieces) or None."""
        found = []
        most = [min(self.at_most, p or self.at_most) for p in self.pieces]
        for numbers in itertools.product(*(range(m + 1) for m in most)):
            count = sum(numbers)
            if count > self.at_most:
                continue
            height = math.fsum(n * t for n, t in zip(numbers, self.stock))
            middle = self.wanted + self.aim - height
            off = self.half + count * self.holds
            if self.let_through(height) and middle - off >= self.least - 1e-9 and middle + off <= self.most + 1e-9:
                found.append((round(abs(middle - self.aim), 9), count))
        return min(found, default=None)


def compare(held, program, given):
    done = subprocess.run([program, "plan", "-", "--json"], input=given.job(), capture_output=True, text=True,
                          timeout=60, check=False)
    held.hold("exit codes", done.returncode in (0, 1), done.stderr)
    said, best = json.loads(done.stdout), given.best()
    if best is None:
        held.hold("no plan", not said["plans"] and said["proven"], f"{given.job()} {said['plans'][:1]}")
        return
    held.hold("plans", bool(said["plans"]) and said["proven"], f"{given.job()}, should be {best}")
    if not said["plans"]:
        return
    made = said["plans"][0]
    stack = made["shims"][0]["stack"] if made["shims"] else []
    height = math.fsum(stack)
    held.hold("rule", given.let_through(height), f"{stack} of {given.wanted} {given.way} {given.step}")
    away = abs(given.wanted - height)
    held.hold("nearest", near(away, best[0]), f"{given.job()} {stack} is {away} off the aim, can be {best}")
    held.hold("fewest", len(stack) == best[1], f"{given.job()} {stack}, can be of {best}")
    held.hold("cost", near(made["cost"], 0.1 * len(stack)), f"{made['cost']} of {stack}")
    if made["shims"]:
        held.hold("wanted", near(made["shims"][0]["wanted"], given.wanted), f"{made['shims'][0]}, {given.wanted}")
    check = made["checks"][0]
    middle, off = given.wanted + given.aim - height, given.half + len(stack) * given.holds
    held.hold("figures", near(check["middle"], middle) and near(check["worst"][0], middle - off)
              and near(check["worst"][1], middle + off), f"{check['worst']}, should be {middle} ± {off}")


def main():
    held, first, count = Held(), int(sys.argv[2]), int(sys.argv[3])
    for seed in range(first, first + count):
        held.ask(f"float {seed}", lambda s=seed: compare(held, sys.argv[1], Float(s)))
    return held.end("end floats")


if __name__ == "__main__":
    sys.exit(main())
