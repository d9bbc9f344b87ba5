#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Makes up jobs for `trialfit plan`: those of random_jobs.py with the worst of what fouls taken away, faces
that may be cut, shims on sale, and limits that the parts as they are just miss or just keep.

    random_plan_jobs.py SEED   prints one job
"""
import random
import sys

import random_jobs
import reference
from random_jobs import UNIT_MM, emit
from reference_plan import Cut, Lap, Plan
from reference_sizes import taper
from reference_work import BEFORE, Worked, in_states

class Maker(random_jobs.Maker):
    """`few`: so few shims on sale that every stack can be tried; `stuck`: more is asked than can be had."""

    def __init__(self, seed, few=False, stuck=False):
        super().__init__(seed)
        self.few, self.secret, self.deepest, self.stuck = few, seed, 3.0, stuck

    def dress(self, seat):
        r = self.r
        seat = super().dress(seat)
        if "shims" in seat or "cone" not in seat and "offset" not in seat and r.random() < 0.2:
            count = 2 if self.few else r.randint(2, 5)
            stock = sorted(r.sample([0.1, 0.2, 0.25, 0.3, 0.5, 0.8, 1.0, 1.5], count))
            shims = {"stock": [self.number(s) for s in stock], "at_most": "2" if self.few else r.choice("1234")}
            if r.random() < 0.3:
                shims["stock"][0] = {"thickness": shims["stock"][0], "pieces": r.choice("12")}
            if r.random() < 0.3:
                shims["stock"][-1] = f"{shims['stock'][-1]} +{self.number(0.02)} -{self.number(0.01)}"
            if r.random() < 0.4:
                shims["fitted"] = [self.number(s) for s in r.sample(stock, r.randint(1, 2))][:int(shims["at_most"])]
                if r.random() < 0.4:
                    shims["fitted"][0] += f" ±{self.number(0.03)}"
            if r.random() < 0.6:
                shims["holds"] = self.number(0.01)
            seat["shims"] = shims
        return seat

    def worked_on(self, document):
        """The job after some work, drawn at random: that work is then a plan, if seldom the cheapest."""
        r, plan = random.Random(self.secret), Plan(reference.load(emit(document)))
        cuts = {(c.part, c.face): c.made(r.uniform(0.0, min(c.most, self.deepest / UNIT_MM[self.units])))
                for c in plan.cuts if isinstance(c, Cut) and r.random() < 0.6}
        stacks = {}
        for seat in plan.seats:
            stay = [k for k in range(len(seat.lies)) if r.random() < 0.6][:seat.at_most]
            buy = [k for k, (_, _, pieces) in enumerate(seat.stock) if pieces and r.random() < 0.4]
            stacks[seat.part] = [(seat.fitted[k], k) for k in stay] \
                + [(seat.texts[k], None) for k in buy[:seat.at_most - len(stay)]]
        laps = {(c.part, c.cone): r.uniform(0.0, c.most) for c in plan.cuts if isinstance(c, Lap) and r.random() < 0.6}
        return Worked(plan.bounds, cuts, stacks, laps, *self.skimmed(plan))

    def skimmed(self, plan):
        """Skims and centring by hand of that work."""
        return {}, {}

    def make_laps(self, document):
        """Of hubs that sit on a cone, some that may be lapped: the bore, or the cone of the shaft."""
        r = random.Random(f"laps {self.secret}")
        for part in document["parts"]:
            seat = part.get("sits")
            if not isinstance(seat, dict) or "cone" not in seat or r.random() < 0.4:
                continue
            shaft, cone = seat["against"].split(".")
            shaft = next(p for p in document["parts"] if p["part"] == shaft)
            equal = taper(shaft["cones"][cone]["taper"]) == taper(part["cones"][seat["cone"]]["taper"])
            if not equal:
                continue  # where the tapers differ, lapping is not what mends it
            of, name = (part, seat["cone"]) if r.random() < 0.6 else (shaft, cone)
            lap = {"cone": name, "at_most": f"{self.number(r.choice([0.02, 0.05, 0.1]))} on diameter"}
            if float(lap["at_most"].split(" ")[0]) > 0.0:
                of["laps"] = [lap | ({"cost": str(r.choice([0, 0.5, 3]))} if r.random() < 0.7 else {})]

    def make_radial_work(self, document):
        """Nothing: random_radial_plans.py has jobs with it."""

    def part_rings(self, document, worked):
        """Whether no rings rub once the work is done; else gives some of them room."""
        return True

    def moved(self, given, ring):
        """A ring has other diameters now."""

    def air_gaps(self, document):
        """Checks of air gaps, by what they are once the work is done."""
        return []

    def part_foul(self, document):
        """Puts rings out of the way until no pair fouls once that work is done."""
        apart = 100.0
        while True:
            worked = self.worked_on(document)
            bad = next((c for _ in in_states(worked) for c in reference.clearances(worked, 1.0)
                        if c["verdict"] != "holds"), None)
            screwed = next((c for c in reference.clamp_checks(worked, 1.0) if c["verdict"] != "holds"), None)
            if screwed is not None:
                part = screwed["check"].split(" ")[0]
                del next(p for p in document["parts"] if p["part"] == part)["thread"]
                continue
            if bad is None:
                if self.part_rings(document, worked):
                    return
                continue
            name, end = bad["between"][1].split(".", 1)
            part = worked.by_name[name]
            given = next(p for p in document["parts"] if p["part"] == name)
            for ring, found in part.rings.items():
                if reference.end_name(part, found["in"]).replace(BEFORE, "") == f"{name}.{end}".replace(BEFORE, ""):
                    apart += 20.0
                    given["rings"][ring] |= {"bore": self.number(apart), "od": self.number(apart + 10.0)}
                    self.moved(given, ring)

    def make_cuts(self, document):
        r, left = self.r, self.r.randint(0, 2) if self.few else self.r.randint(1, 4)
        places = self.local
        for part in r.sample(document["parts"], len(document["parts"])):
            faces = r.sample(list(part["faces"]), min(2, len(part["faces"]) - 1)) if left else []
            cuts, names = [], list(part["faces"])
            for face in faces[:left if r.random() < 0.3 else 1]:
                measure = r.choice([f for f in names if f not in faces])
                now = abs(places[part["part"]][face] - places[part["part"]][measure])
                cut = {"face": face, "measure": measure, "keep": self.number(max(0.4, now - r.uniform(0.3, 3.0))),
                       "holds": self.number(r.choice([0.0, 0.01, 0.03, 0.05]))}
                if float(cut["keep"]) <= 0.0:
                    continue
                if r.random() < 0.7:
                    cut["cost"] = str(r.choice([0, 0.5, 2, 3, 5.25]))
                if r.random() < 0.5:
                    cut["per_mm"] = str(r.choice([0, 0.05, 0.3, 1]))
                if r.random() < 0.4:
                    cut["read_by"] = r.choice(list(random_jobs.GAUGES))
                cuts.append(cut)
            if cuts:
                part["cuts"] = cuts
                left -= len(cuts)

    def set_limits(self, document):
        """Limits that hold once that work is done, most of them, and not by much."""
        r, scale, worked = self.r, UNIT_MM[self.units], self.worked_on(document)
        for check in document["checks"]:  # of what does not reach, a gap is asked
            if "gap" not in check and reference.check(worked, check, 1.0)["worst"][0] < 0.0 and r.random() < 0.95:
                for key in ("engagement", "overlap"):
                    check.pop(key, None)
                check["gap"] = [f"{p['part']}.{r.choice(list(p['faces']))}" for p in r.sample(document["parts"], 2)]
        found = {}
        for _ in in_states(worked):
            for check in document["checks"]:
                found.setdefault(check["check"], []).append(reference.check(worked, check, 1.0))
        for check in document["checks"]:
            states = found[check["check"]]
            lo, hi = min(f["worst"][0] for f in states) * scale, max(f["worst"][1] for f in states) * scale
            del check["at_least"]
            sides = r.choice([["at_least"], ["at_most"], ["at_least", "at_most"]])
            if "overlap" in check:
                share = lo * states[0]["share"] / (states[0]["nominal"] * scale) if states[0]["nominal"] else 0.0
                check["at_least"] = f"{max(0, min(100, int(100 * share) - r.randint(0, 9)))} %"
                continue
            slack = r.choice([0.0, 0.01, r.uniform(0.0, 0.3), r.uniform(-0.1, 0.1)])
            least, most = lo - slack, hi + r.uniform(0.0, 0.3)
            if "engagement" in check:
                least = max(least, 0.0)
            if "at_least" in sides or most <= 0.0 and "engagement" in check:
                check["at_least"] = self.number(least)
            if "at_most" in sides and (most > 0.0 or "engagement" not in check):
                check["at_most"] = self.number(max(most, least + 0.05))
            if "gap" in check and "at_least" in check and r.random() < 0.1:
                check["aim"] = self.number(0.5 * (least + most) + r.uniform(-0.3, 0.3))

    def ask_too_much(self, document):
        """One thing asked for that the cuts do not reach, and overlaps that have little room to grow on the way."""
        r, scale = random.Random(self.secret), UNIT_MM[self.units]
        worked = self.worked_on(document)
        found = {}
        for _ in in_states(worked):
            for check in document["checks"]:
                found.setdefault(check["check"], []).append(reference.check(worked, check, 1.0))
        for check in document["checks"]:
            states = found[check["check"]]
            hi = max(f["worst"][1] for f in states) * scale
            if "overlap" in check and states[0]["nominal"] > 0.0:
                length = states[0]["nominal"] / states[0]["share"] * scale
                check.pop("at_least", None)
                check["at_most"] = self.number(min(max(hi + r.uniform(-0.2, 0.4), 0.01), 0.99 * length))
        asks = [c for c in document["checks"] if "gap" in c and "at_least" in c and "at_most" not in c]
        if asks:
            asked = r.choice(asks)
            lo = min(f["worst"][0] for f in found[asked["check"]]) * scale
            asked["at_least"] = self.number(lo + r.uniform(0.1, 1.5))

    def head(self):
        r = self.r
        document = {"trialfit": "1", "title": "A made-up job", "units": self.units}
        if r.random() < 0.6:
            document["running_clearance"] = self.number(0.3)
        if r.random() < 0.5:
            document["shim_cost"] = str(r.choice([0, 0.02, 0.5]))
        if self.general:
            document["general_tolerance"] = self.general
        return document | {"gauges": {k: self.number(v) for k, v in random_jobs.GAUGES.items()}}

    def job(self):
        r, document = self.r, self.head()
        parts = document["parts"] = []
        for i in range(r.randint(3, 4 if self.few else 6)):
            part = self.make_part(i)
            if parts:
                part["sits"] = self.make_seat(part, parts)
            part["faces"] = part.pop("_faces")
            self.add_features(part)
            parts.append(part)
        self.make_cuts(document)
        self.make_laps(document)
        self.make_radial_work(document)
        if r.random() < 0.2:
            self.make_states(document)
            for part in parts:
                part.setdefault("material", "steel")
        if r.random() < 0.95:
            self.part_foul(document)
        if r.random() < 0.3:
            readings = self.make_readings(document)
            if readings:
                document["readings"] = readings
        document["checks"] = self.make_checks(document)
        self.set_limits(document)
        if self.stuck:
            self.ask_too_much(document)
        document["checks"] += self.air_gaps(document)
        return emit(document)


def made_up(seed, few=False, stuck=False):
    """A job whose sizes do not contradict each other."""
    while True:
        try:
            return Maker(seed, few, stuck).job()
        except (reference.Contradiction, ValueError, IndexError):
            seed += 1_000_000


if __name__ == "__main__":
    print(made_up(int(sys.argv[1]), len(sys.argv) > 2), end="")
