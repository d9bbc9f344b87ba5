#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Makes up shaft ends for `trialfit plan`: a crank that floats, a plate and a cover on shims, a rotor that its nut
draws up its cone, cold and warm. What is asked of them, the parts as they are just miss or just keep.

    random_tight_plans.py SEED   prints one job
"""
import random
import sys

from random_jobs import DIGITS, UNIT_MM, emit


class Maker:
    def __init__(self, seed):
        self.r = random.Random(f"tight {seed}")
        self.units = self.r.choice(["mm", "mm", "in"])

    def number(self, mm):
        return f"{mm / UNIT_MM[self.units]:.{DIGITS[self.units]}f}"

    def size(self, mm, half=0.05):
        n, r = self.number, self.r
        return r.choice([f"{n(mm)} ±{n(half)}", f"{n(mm)} +{n(half)} -{n(half / 2)}", f"{n(mm)} by caliper",
                         f"{n(mm - half)}..{n(mm + half)}"])

    def face(self, mm, origin, half=0.05):
        return f"{self.size(mm, half)} from {origin}"

    def cut(self, face, measure, now):
        r, n = self.r, self.number
        return {"face": face, "measure": measure, "keep": n(now - r.uniform(0.3, 2.0)),
                "holds": n(r.choice([0.0, 0.01, 0.03])), "cost": r.choice(["0.5", "1", "3"]),
                "per_mm": r.choice(["0", "0.1", "0.5"])}

    def shims(self, stock):
        r, n = self.r, self.number
        out = {"stock": [n(s) for s in stock], "at_most": r.choice("12")}
        if r.random() < 0.4:
            out["fitted"] = [n(r.choice(stock))]
        if r.random() < 0.6:
            out["holds"] = n(0.01)
        return out

    def fixed(self):
        """Case, crank and the plate of the coils."""
        r, n = self.r, self.number
        case = {"part": "case", "material": "cast aluminium", "faces": {"floor": "zero", "front": self.face(-12.0, "floor")},
                "rings": {"wall": {"from": "front", "below": n(6.0), "bore": n(60.0), "od": n(150.0)}}}
        sits = {"face": "big", "against": "case.floor", "offset": self.size(8.0)}
        if r.random() < 0.6:
            sits["play"] = r.choice([f"{n(0.05)}..{n(0.2)}", n(0.1)])
            if r.random() < 0.5:
                sits["pushed"] = r.choice(["in", "out"])
        crank = {"part": "crank", "turns": "true", "material": "steel", "sits": sits,
                 "faces": {"big": "zero", "thread_in": self.face(22.0, "big"), "end": self.face(40.0, "big")},
                 "cone": {"at": "big", "dia": f"{n(17.0)} ±{n(0.005)}", "taper": "1 in 5", "length": n(20.0)},
                 "thread": {"form": "M10x1.25-6g", "class": "8.8", "from": "thread_in", "to": "end",
                            "lead_in": n(1.25)}}
        plate = {"part": "plate", "material": "cast aluminium",
                 "sits": {"face": "back", "against": "case.front"},
                 "faces": {"back": "zero", "top": self.face(10.0, "back"), "coil": self.face(r.uniform(9.5, 10.7), "top")},
                 "rings": {"coils": {"from": "back", "to": "coil", "bore": n(62.0), "od": n(84.0)}}}
        if r.random() < 0.7:
            plate["sits"]["shims"] = self.shims(r.sample([0.1, 0.2, 0.3, 0.5, 0.8], 2))
        if r.random() < 0.7:
            plate["cuts"] = [self.cut("back", "top", 10.0)]
        return [case, crank, plate]

    def fastened(self):
        """Rotor, washer, nut and cover."""
        r, n, steel = self.r, self.number, {"turns": "true", "material": "steel"}
        stand = r.uniform(0.3, 1.5)
        rotor = {"part": "rotor", **steel, "sits": {"cone": "bore", "against": "crank.cone"},
                 "faces": {"in": "zero", "clamp": self.face(22.0, "in"), "rim": self.face(30.0, "in")},
                 "cones": {"bore": {"at": "in", "dia": f"{n(17.0 - 0.2 * stand)} ±{n(0.005)}", "taper": "1 in 5",
                                    "length": n(19.0)}},
                 "rings": {"boss": {"from": "in", "to": "clamp", "bore": n(17.0), "od": n(40.0)},
                           "flange": {"from": "in", "to": "rim", "bore": n(64.0), "od": n(90.0)}}}
        if r.random() < 0.6:
            rotor["cuts"] = [self.cut("in", "clamp", 22.0)]
        washer = {"part": "washer", **steel, "sits": {"face": "under", "against": "rotor.clamp"},
                  "faces": {"under": "zero", "top": self.face(2.0, "under")},
                  "rings": {"ring": {"from": "under", "to": "top", "bore": n(10.5), "od": n(21.0)}}}
        if r.random() < 0.4:
            washer["sits"]["shims"] = self.shims([0.5, 1.0])
        nut = {"part": "nut", **steel, "sits": {"face": "clamp", "against": "washer.top"},
               "faces": {"clamp": "zero", "top": self.face(8.0, "clamp")},
               "thread": {"form": "M10x1.25-6H", "class": "8", "from": "clamp", "to": "top"},
               "rings": {"hex": {"from": "clamp", "to": "top", "bore": n(10.0), "od": n(18.0)}}}
        cover = {"part": "cover", "material": "nylon", "sits": {"face": "rim", "against": "case.front", "shims":
                 self.shims([0.3, 0.5])}, "faces": {"rim": "zero", "inside": self.face(55.5 + stand, "rim", 0.1)}}
        return [rotor, washer, nut, cover]

    def checks(self):
        r, n = self.r, self.number
        least = r.uniform(-0.2, 0.5)
        coils = {"check": "coils", "gap": ["plate.coil", "rotor.in"], "at_least": n(least)}
        if r.random() < 0.5:
            coils["at_most"] = n(least + r.uniform(1.2, 2.5))
        if r.random() < 0.3:
            coils["aim"] = n(least + 0.7)
        cover = {"check": "cover", "gap": ["nut.top", "cover.inside"], "at_least": n(r.uniform(0.1, 1.8))}
        nut = {"check": "nut", "engagement": ["crank.thread", "nut.thread"], "at_least": r.choice(["0.7 d", n(7.0)])}
        return r.sample([coils, cover, nut], r.randint(1, 3))

    def job(self):
        r = self.r
        document = {"trialfit": "1", "title": "A made-up shaft end", "units": self.units,
                    "running_clearance": self.number(r.choice([0.0, 0.2, 0.4])), "gauges": {"caliper": self.number(0.03)},
                    "parts": [*self.fixed(), *self.fastened()], "checks": self.checks()}
        if r.random() < 0.5:
            document["states"] = {"fit": "20 C", "run": {"all": "90 C", "rotor": "70 C"}}
        if r.random() < 0.8:
            document["seat"] = {"nut_torque": "20..26 N m", "thread_friction": "0.12..0.18", "under_nut_friction":
                                "0.12..0.18", "cone_friction": "0.11..0.15"}
        return emit(document)


def made_up(seed):
    return Maker(seed).job()


if __name__ == "__main__":
    print(made_up(int(sys.argv[1])), end="")
