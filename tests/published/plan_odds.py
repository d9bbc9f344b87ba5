#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Holds `trialfit plan --judge odds=LEVEL` to a second answer on made-up jobs of gaps.

usage: plan_odds.py TRIALFIT FIRST COUNT

With the faces to cut and the stack of shims settled, what comes off moves the middle of each gap and leaves its spread
as it is, so that a gap keeps its limit with the chance LEVEL where its middle lies so far from it as the spread's
quantile, and two limits where it lies so far from the middle of both that what is left out at both ends comes to no
more; the distribution of the spread is convolved in NumPy. Every set of faces and every stack is tried, and the
amounts are a linear program. Held are whether there is a plan, its cost, and the odds told of every check and clearance.

Costs agree to 1e-3 and by what finish sizes are brought to figures for; odds to the convolution's grid. Jobs with
readings, sizes bound together, states and keys, and checks of two limits that a play moves, are left out.
"""
import json
import subprocess
import sys

import numpy as np

sys.path.insert(0, __file__.rsplit("/", 2)[0] + "/support")
import random_plan_jobs  # noqa: E402
import reference  # noqa: E402
from convolution import Law, Sum  # noqa: E402
from held import Held  # noqa: E402
from random_jobs import UNIT_MM, emit  # noqa: E402
from reference_plan import Cut, Lap, Plan  # noqa: E402

GRID = 1 << 12
WITHIN = 1e-3
FIGURES = 0.012  # of a mm: finish sizes are told to hundredths
ODDS = 1e-5


class Moved(Exception):
    """A check of two limits that a play moves."""


class ByOdds(Plan):
    def __init__(self, document, level):
        super().__init__(document, "odds")
        self.level, self.margins = level, {}

    def rows(self, chosen):
        """Of each row of a check with two limits the other limit, too."""
        known = chosen in self.rows_of
        rows, either = super().rows(chosen)
        none_kept = tuple(() for _ in self.seats)
        for row in rows if not known else ():
            other = next((r for r in rows if r.name == row.name and r.way != row.way), None)
            row.other = other.limit if other is not None else None
            if other is not None and abs(other.with_kept(self, none_kept)[0] - row.with_kept(self, none_kept)[0]) > 1e-9:
                raise Moved
        return rows, either

    def laws(self, row, stack):
        variance = sum((k * h / 3.0) ** 2 for k, h in zip(row.cut, row.holds))
        for k, seat, bought in zip(row.seat, self.seats, stack):
            variance += sum(n * (k * half / 3.0) ** 2 for n, (_, half, _) in zip(bought, seat.stock))
        laws = []
        for i in np.flatnonzero(row.old_kept):
            size, k = self.before.sizes[i], row.old_kept[i]
            if size.shape == "normal":
                variance += (k * size.sd) ** 2
            else:
                variance += (k * size.scatter) ** 2
                laws.append(Law(size.shape, 0.0, abs(k) * (size.half - 3.0 * size.scatter), size.sigmas))
        return laws + [Law("normal", 0.0, np.sqrt(variance), 1.0)] * bool(variance > 1e-24)

    def margin(self, row, stack):
        """How far the middle has to lie from the limit."""
        laws = [law for law in self.laws(row, stack) if law.half > 0.0]
        if not laws:
            return 0.0
        key = tuple(sorted((law.shape, round(law.half, 12), law.sigmas) for law in laws))
        if key not in self.margins:
            total = Sum(laws, 0.0, GRID)
            low, high = -10.0 * total.sd, 10.0 * total.sd
            for _ in range(60):
                middle = 0.5 * (low + high)
                low, high = (middle, high) if total.cdf(middle) < self.level else (low, middle)
            self.margins[key] = 0.5 * (low + high)
        return self.margins[key] if row.other is None else self.between(laws, abs(row.limit - row.other))

    def between(self, laws, apart):
        """How far the middle has to lie inside either of two limits, for the chance of both; infinite where it is
        nowhere enough. All laws are even, so that the chance falls with the distance from the middle of the limits."""
        key = (tuple(sorted((law.shape, round(law.half, 12), law.sigmas) for law in laws)), round(apart, 12))
        if key in self.margins:
            return self.margins[key]
        total = Sum(laws, 0.0, GRID)

        def chance(inside):
            return total.cdf(apart - inside) - total.cdf(-inside)

        low, high = -10.0 * total.sd, 0.5 * apart
        self.margins[key] = np.inf
        if chance(high) >= self.level:
            for _ in range(60):
                middle = 0.5 * (low + high)
                low, high = (middle, high) if chance(middle) < self.level else (low, middle)
            self.margins[key] = high
        return self.margins[key]

    def room(self, row, known, stack):
        middle = known[0]
        row.old_kept = known[4]
        for k, seat, bought in zip(row.seat, self.seats, stack):
            middle += k * sum(n * thick for n, (thick, _, _) in zip(bought, seat.stock))
        return row.way * (row.limit - middle) - self.margin(row, stack)

    def odds(self, row, stack, amounts):
        known = row.with_kept(self, tuple(() for _ in self.seats))
        row.old_kept = known[4]
        middle = known[0] + row.per_off @ np.array(amounts)
        for k, seat, bought in zip(row.seat, self.seats, stack):
            middle += k * sum(n * thick for n, (thick, _, _) in zip(bought, seat.stock))
        away = row.way * (row.limit - middle)
        laws = [law for law in self.laws(row, stack) if law.half > 0.0]
        if not laws:
            return float(away >= -1e-9)
        total = Sum(laws, 0.0, GRID)
        beyond = total.cdf(away - abs(row.limit - row.other)) if row.other is not None else 0.0
        return total.cdf(away) - beyond


def job(seed):
    """A made-up job of which this answer is sure, or None."""
    document = reference.load(random_plan_jobs.made_up(seed, few=True))
    document.pop("readings", None)
    if "states" in document:
        return None
    document["checks"] = [check for check in document["checks"] if "gap" in check]
    for check in document["checks"]:
        check.pop("aim", None)
    for part in document["parts"]:
        seat = part.get("sits", {})
        if isinstance(seat, list) or "key" in seat or any(isinstance(f, list) for f in part["faces"].values()):
            return None
        if "shims" in seat:
            seat["shims"].pop("fitted", None)
            if "stock" not in seat["shims"]:
                del seat["shims"]
    if not document["checks"]:
        del document["checks"]
    return document if not reference.rocks(reference.Job(document)) else None


def compare(held, program, document, level):
    done = subprocess.run([program, "plan", "-", "--json", "--judge", f"odds={level}"], input=emit(document),
                          capture_output=True, text=True, timeout=60, check=False)
    held.hold("exit codes", done.returncode in (0, 1), done.stderr)
    if done.returncode not in (0, 1):
        return
    said = json.loads(done.stdout)
    plan = ByOdds(document, level)
    best = plan.cheapest(trying=True)
    if best is None:
        held.hold("no plan", not said["plans"], f"there is none, said {[p['cost'] for p in said['plans']]}")
        return
    held.hold("plans", bool(said["plans"]), f"there is one of {best[0]}")
    if not said["plans"]:
        return
    made = said["plans"][0]
    figures = FIGURES * sum(c.per_unit for c in plan.cuts) / UNIT_MM[plan.before.context.units]
    held.hold("least cost", best[0] - WITHIN <= made["cost"] <= best[0] + WITHIN + figures,
              f"{made['cost']}, should be {best[0]}, figures {figures}")
    hold_odds(held, plan, made, level)


def hold_odds(held, plan, made, level):
    chosen, amounts = [], []
    for i, work in enumerate(plan.cuts):
        one = next((m for m in made["cuts"] if isinstance(work, Cut) and m["face"] == work.name), None) or \
            next((m for m in made["laps"] if isinstance(work, Lap) and m["cone"] == work.name), None)
        if one is not None:
            chosen.append(i)
            amounts.append(one["off_diameter"] if isinstance(work, Lap) else work.now - one["finish"])
    stack = []
    for seat in plan.seats:
        lies = next((s["stack"] for s in made["shims"] if s["part"] == seat.part), [])
        stack.append([sum(1 for thick in lies if abs(thick - nominal) < 1e-9) for nominal in seat.nominal])
    told = {one.get("check") or tuple(one["between"]): one for one in made["checks"] + made["clearances"]}
    for row in plan.rows(tuple(chosen))[0]:
        chance = plan.odds(row, stack, amounts)
        held.hold("level", chance >= level - ODDS, f"{row.name}: {chance}")
        one = told.get(row.name[0])
        if one is not None:
            held.hold("odds", abs(one["odds"] - chance) <= ODDS, f"{row.name}: {one['odds']}, should be {chance}")


def main():
    held, first, count, moved = Held(), int(sys.argv[2]), int(sys.argv[3]), 0
    for seed in range(first, first + count):
        document = job(seed)
        if document is not None:
            try:
                held.ask(f"job {seed}", lambda d=document, s=seed: compare(held, sys.argv[1], d, [0.9, 0.99, 0.75][s % 3]))
            except Moved:
                moved += 1
    return held.end("jobs", {"two limits that a play moves": moved} if moved else "")


if __name__ == "__main__":
    sys.exit(main())
