#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Makes up jobs for `trialfit plan` in which rings rub: those of random_plan_jobs.py with what centres the parts and
how they run, rings that may be skimmed, and parts that may be centred by hand.

    random_radial_plans.py SEED   prints one job
"""
import itertools
import random
import sys

import random_plan_jobs
import reference
import reference_radial
from random_jobs import UNIT_MM
from reference_plan import Centring, Skim
from reference_work import in_states

TRIES = 80  # at giving the rings of one job room


class Maker(random_plan_jobs.Maker):
    def __init__(self, seed):
        super().__init__(seed, few=True)
        self.q, self.tries, self.squeezes, self.registers = random.Random(f"radial {seed}"), 0, 0, set()
        self.skims_left, self.centrings_left = 3, 2  # every set of works is tried

    def make_radial_work(self, document):
        q, parts = self.q, document["parts"]
        document["radial_clearance"] = self.number(q.choice([0.0, 0.2, 0.3]))
        registers = self.registers
        for k, part in enumerate(parts):
            if k and q.random() < 0.8:
                registers |= self.centre(part, q.choice(parts[:k]))
            if q.random() < 0.6:
                part["runout"] = q.choice([f"{self.number(0.1)} ±{self.number(0.05)}", f"{self.number(0.04)} by caliper",
                                           f"0..{self.number(0.2)}", f"{self.number(0.05)} exact"])
        for part in parts:
            by_register = part.get("centred", {}).get("by") == "register"
            for name, ring in part["rings"].items():
                for side in ("bore", "od"):
                    if float(ring[side]) and q.random() < 0.5:
                        ring[side] += q.choice([" exact", f" ±{self.number(0.02)}", " by micrometer"])
                if not by_register and f"{part['part']}.{name}" not in registers and q.random() < 0.4 \
                        and self.skims_left:
                    part.setdefault("skims", []).append(self.skim(name, ring))

    def centre(self, part, other):
        """Returns the ring that it is centred on, where it is one."""
        q, by = self.q, self.q.choice(["register", "bolts", "bolts", "bearing"])
        on = f"{other['part']}.{q.choice(list(other['rings']))}" if by == "register" else other["part"]
        low, high = self.number(q.choice([0.0, 0.02])), self.number(q.choice([0.1, 0.3]))
        part["centred"] = {"by": by, "against": on, "play" if by == "bearing" else "clearance": f"{low}..{high}"}
        if by != "bearing" and q.random() < 0.9 and self.centrings_left:
            self.centrings_left -= 1
            part["centred"]["centre_to"] = self.number(q.choice([0.0, 0.02, 0.06]))
            if q.random() < 0.5:
                part["centred"]["centre_cost"] = q.choice(["0", "0.2", "1.5", "3"])
        return {on} if by == "register" else set()

    def skim(self, name, ring):
        q, self.skims_left = self.q, self.skims_left - 1
        bore, outside = (float(ring[side].split(" ")[0]) * UNIT_MM[self.units] for side in ("bore", "od"))
        turn = q.choice(["od", "bore"]) if bore > 0.0 else "od"
        deepest = q.uniform(0.2, 2.0)
        skim = {"ring": name, "turn": turn, "holds": self.number(q.choice([0.0, 0.01, 0.02]))}
        if q.random() < 0.7:
            skim["until"] = self.number(outside - deepest if turn == "od" else bore + deepest)
        if "until" not in skim or q.random() < 0.4:
            skim["keep"] = self.number(max(0.1, 0.5 * (outside - bore - q.uniform(0.2, 2.0))))
        if q.random() < 0.7:
            skim["cost"] = q.choice(["0", "0.5", "2", "4"])
        if q.random() < 0.4:
            skim["per_mm"] = q.choice(["0", "0.3", "1"])
        if q.random() < 0.4:
            skim["read_by"] = "micrometer"
        return skim

    def refused(self, document):
        """Whether a skim would open what centres a part: such a job is refused."""
        parts = {part["part"]: part for part in document["parts"]}

        def wide(ring, side):
            return float(ring[side].split(" ")[0])

        def turned(part, ring, side):
            return any(skim["ring"] == ring and skim["turn"] == side for skim in part.get("skims", []))

        for part in document["parts"]:
            centred = part.get("centred", {"by": "bolts"})
            if centred["by"] == "bolts":
                continue
            name, _, feature = centred["against"].partition(".")
            slack = float((centred.get("play") or centred["clearance"]).split("..")[1]) + 1e-9
            for (own, mine), (on, other) in itertools.product(part["rings"].items(), parts[name]["rings"].items()):
                for side, facing in (("bore", "od"), ("od", "bore")):
                    if feature in ("", on) and abs(wide(mine, side) - wide(other, facing)) <= slack and \
                            (turned(part, own, side) or turned(parts[name], on, facing)):
                        return True
        return False

    def skimmed(self, plan):
        r, skims, centrings = random.Random(f"skims {self.secret}"), {}, {}
        for work in plan.cuts:
            if isinstance(work, Skim) and r.random() < 0.6:
                skims[work.part, work.ring, work.side] = work.made(r.uniform(0.0, work.most))
            elif isinstance(work, Centring) and r.random() < 0.8:
                centrings[work.part] = work.made()
        return skims, centrings

    def part_rings(self, document, worked):
        """Moves outer rings out, one at a time: by what is missing, or far out of the way."""
        q = self.q
        found = [gap for _ in in_states(worked)
                 for gap in reference_radial.gaps(worked, 1.0, reference.limit, reference.verdict)]
        bad = next((gap for gap in found if gap["verdict"] != "holds"), None)
        if bad is None:
            return not self.squeeze(document, worked, found)
        self.tries += 1
        if self.tries > TRIES:
            raise ValueError("these rings find no room")
        part, name = bad["between"][1].split(".")
        given = next(p for p in document["parts"] if p["part"] == part)
        ring = given["rings"][name]
        missing = 2.0 * (bad["at_least"] - bad["worst"][0]) * UNIT_MM[self.units] + q.choice([0.002, 0.1])
        if q.random() < 0.3:
            missing += 20.0
        for side in ("bore", "od"):
            size, *rest = ring[side].split(" ", 1)
            ring[side] = " ".join([self.number(float(size) * UNIT_MM[self.units] + missing), *rest])
        self.moved(given, name)
        return False

    def squeeze(self, document, worked, found):
        """Now and then makes an outer ring narrower until the work is but just enough; whether it did."""
        q, self.squeezes = self.q, self.squeezes + 1
        near = [gap for gap in found if gap["worst"][0] - gap["at_least"] > 0.05 / UNIT_MM[self.units] and any(
            name.split(".")[0] in worked.centrings or tuple(name.split(".")) in [skim[:2] for skim in worked.skims]
            for name in gap["between"])]
        if self.squeezes > 4 or not near:
            return False
        by_hand = [gap for gap in near if any(name.split(".")[0] in worked.centrings for name in gap["between"])]
        gap = q.choice(by_hand or near)
        which = q.choice([0, 1])  # the inner ring wider, or the outer one narrower
        side, way = (("od", 1.0), ("bore", -1.0))[which]
        part, name = gap["between"][which].split(".")
        given = next(p for p in document["parts"] if p["part"] == part)
        ring = given["rings"][name]
        shift = 2.0 * (gap["worst"][0] - gap["at_least"]) * UNIT_MM[self.units] - q.choice([0.002, 0.02, 0.1])

        def shifted(text):
            size, *rest = text.split(" ", 1)
            return " ".join([self.number(float(size) * UNIT_MM[self.units] + way * shift), *rest])

        if float(shifted(ring[side]).split(" ")[0]) <= 0.0:
            return False
        ring[side] = shifted(ring[side])
        for skim in given.get("skims", []):
            if skim["ring"] == name and skim["turn"] == side and "until" in skim:
                skim["until"] = shifted(skim["until"])
        return True

    def moved(self, given, name):
        q, skims = self.q, [skim for skim in given.get("skims", []) if skim["ring"] != name]
        self.skims_left += len(given.get("skims", [])) - len(skims)
        if q.random() < 0.5 and self.skims_left and given.get("centred", {}).get("by") != "register" and \
                f"{given['part']}.{name}" not in self.registers:
            skims.append(self.skim(name, given["rings"][name]))
        given.pop("skims", None)
        if skims:
            given["skims"] = skims

    def air_gaps(self, document):
        q, worked = self.q, self.worked_on(document)
        found = [gap for _ in in_states(worked)
                 for gap in reference_radial.gaps(worked, 1.0, reference.limit, reference.verdict)]
        if self.refused(document):
            raise ValueError("what centres a part would be skimmed")
        if "states" in document or not found or q.random() < 0.4:
            return []
        gap, scale = q.choice(found), UNIT_MM[self.units]
        for name in gap["between"]:
            part, ring = name.split(".")
            given = next(p for p in document["parts"] if p["part"] == part)["rings"][ring]
            for side in ("bore", "od"):
                given[side] += " exact" * (" " not in given[side] and float(given[side]) > 0.0)
        check = {"check": "air gap", "air_gap": gap["between"]}
        least = max(0.01, gap["worst"][0] * scale - q.choice([0.01, 0.1, -0.05]))
        check["at_least"] = self.number(least)
        if q.random() < 0.5:
            widest = self.widest(worked, gap["between"]) * scale
            check["at_most"] = self.number(max(widest + q.choice([0.02, 0.3, -0.05]), least + 0.1))
        return [check]

    @staticmethod
    def widest(worked, between):
        inner, outer = (reference_radial.ring(worked, name) for name in between)
        return reference_radial.Gap(worked, inner, outer).bounds(1.0, 1.0)["worst"][1]


def made_up(seed):
    """A job whose sizes do not contradict each other."""
    while True:
        try:
            return Maker(seed).job()
        except (reference.Contradiction, ValueError, IndexError):
            seed += 1_000_000


if __name__ == "__main__":
    print(made_up(int(sys.argv[1])), end="")
