#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Makes up catalogues for `trialfit match`: a job of random_plan_jobs.py taken apart into an engine and a kit, and
that kit offered again with other sizes, in other units, read by other gauges, at other prices; some that make no job.

    random_catalogues.py SEED   prints the files of one, parted by lines of %
"""
import copy
import random
import sys

import random_jobs
import random_plan_jobs
from random_jobs import UNIT_MM, emit
from reference_job import load
from reference_sizes import Context, parse


class Writer(random_jobs.Maker):
    """Writes a kit's parts anew in a unit of its own."""

    def __init__(self, seed, units, document):
        super().__init__(seed)
        self.units = units
        self.general = self.r.choice(["", "f", "m"])
        self.gauges = {name: round(width * self.r.choice([0.5, 1.0, 2.0]), 4)
                       for name, width in random_jobs.GAUGES.items()}
        self.was = Context(document["units"], document.get("general_tolerance", ""), {})
        for name, width in document["gauges"].items():
            self.was.gauges[name] = parse(width, self.was, True).nominal
        self.shift = 0.0

    def mm(self, written, bare=False):
        return parse(written, self.was, bare).nominal * UNIT_MM[self.was.units]

    def bare(self, written):
        """Bare lengths, and those with limits."""
        if isinstance(written, dict) and "thickness" in written:
            return written | {"thickness": self.bare(written["thickness"])}
        size, one = parse(written, self.was, True), UNIT_MM[self.was.units]
        if size.half == 0.0:
            return self.number(size.nominal * one)
        return f"{self.number(size.lower * one)}..{self.number(size.upper * one)}"

    def dimension(self, written):
        if isinstance(written, list):
            return [self.dimension(one) for one in written]
        if written == "zero":
            return written
        if isinstance(written, dict):
            origin, size = written["from"], {k: v for k, v in written.items() if k != "from"}
        else:
            size, origin = written.rsplit(" from ", 1)
        shift = self.r.uniform(-self.shift, self.shift)
        return self.face(self.mm(size) + shift, origin.strip())

    def seat(self, given):
        out = dict(given)
        if "offset" in given:
            out["offset"] = self.size(self.mm(given["offset"]))
        if "play" in given:
            out["play"] = self.bare(given["play"])
        if "key" in given:
            out["key"] = given["key"] | {k: f"{self.number(self.mm(given['key'][k]))} ±{self.number(0.01)}"
                                         for k in ("height", "room")}
        if "shims" in given:
            shims = out["shims"] = dict(given["shims"])
            shims |= {k: [self.bare(one) for one in shims[k]] for k in ("stock", "fitted") if k in shims}
            if "holds" in shims:
                shims["holds"] = self.number(parse(shims["holds"], self.was, True).upper * UNIT_MM[self.was.units])
        return out

    def part(self, given):
        out = copy.deepcopy(given)
        out["faces"] = {face: self.dimension(written) for face, written in given["faces"].items()}
        if "sits" in given:
            seats = given["sits"]
            out["sits"] = [self.seat(s) for s in seats] if isinstance(seats, list) else self.seat(seats)
        for ring in out.get("rings", {}).values():
            ring |= {k: self.bare(ring[k]) for k in ("below", "above", "bore", "od") if k in ring}
        for cone in out.get("cones", {}).values():
            cone |= {"dia": self.size(self.mm(cone["dia"])), "length": self.bare(cone["length"])}
        for thread in [out["thread"]] if "thread" in out else []:
            thread |= {k: self.bare(thread[k]) for k in ("lead_in", "run_out") if k in thread}
        for cut in out.get("cuts", []):
            cut |= {k: self.bare(cut[k]) for k in ("keep", "holds") if k in cut}
        for lap in out.get("laps", []):
            lap["at_most"] = f"{self.bare(lap['at_most'].removesuffix(' on diameter'))} on diameter"
        return out

    def check(self, given):
        out = dict(given)
        for key in ("at_least", "at_most", "aim"):
            if key in given and not given[key].endswith(("%", "d", "pitches")):
                out[key] = self.number(self.mm(given[key], True))
        return out


class Catalogue:
    """`engine` and, for each group, `groups`: documents; a text where a file is to be no YAML."""

    def __init__(self, seed):
        self.r = random.Random(f"catalogue {seed}")
        self.seed, self.whole = seed, load(random_plan_jobs.made_up(seed, few=seed % 3 != 0))
        self.parts = self.whole["parts"]
        self.engine = {k: v for k, v in self.whole.items() if k not in ("parts", "checks", "readings")}
        count = len(self.parts)
        begin = self.r.randint(1, count - 1)
        end = self.r.randint(begin + 1, count)
        cuts = [begin, end]
        if end - begin > 1 and self.r.random() < 0.5:
            cuts.insert(1, self.r.randint(begin + 1, end - 1))
        self.slices = list(zip(cuts, cuts[1:]))
        self.deal()
        self.groups = [self.offers(n) for n in range(len(self.slices))]
        here = [{"kit": "here"}] if end < count or self.r.random() < 0.5 else []
        self.engine["parts"] = self.parts[:begin] + here + self.parts[end:]

    def deal(self):
        """Each check and reading to one of the files that are sure to be there."""
        self.own = [{"checks": [], "readings": []} for _ in range(len(self.slices) + 1)]
        for key in ("checks", "readings"):
            for item in self.whole.get(key, []):
                self.r.choice(self.own)[key].append(item)
        self.engine |= {k: v for k, v in self.own[0].items() if v}
        moved = {}
        for key in ("running_clearance", "shim_cost"):
            if key in self.engine and self.r.random() < 0.3:  # some in the kits, or in both
                moved[key] = self.engine[key] if self.r.random() < 0.5 else self.engine.pop(key)
        self.moved = moved

    def offers(self, group):
        r, (begin, end), own = self.r, self.slices[group], self.own[group + 1]
        found = []
        for k in range(r.randint(1, 3) if len(self.slices) > 1 else r.randint(2, 4)):
            kit = {"trialfit": "1", "title": f"Kit {group} {k}"}
            if r.random() < 0.8:
                kit["price"] = r.choice(["10", "20", "20.5", "1e3"])
            if k == 0 and r.random() < 0.6:
                kit |= {key: self.whole[key] for key in ("units", "general_tolerance", "gauges") if key in self.whole}
                kit |= self.moved | {"parts": self.parts[begin:end]} | {key: v for key, v in own.items() if v}
            else:
                kit = self.written(kit, group, k)
            if "states" in self.whole and r.random() < 0.3:
                kit["states"] = self.whole["states"]
            if "materials" in self.whole and r.random() < 0.5:
                kit["materials"] = self.whole["materials"]
            found.append(kit)
        if r.random() < 0.3:
            found.append(self.wrong(copy.deepcopy(r.choice(found))))
        r.shuffle(found)
        return found

    def written(self, kit, group, k):
        (begin, end), own = self.slices[group], self.own[group + 1]
        units = self.r.choice(["mm", "in", self.whole["units"]])
        writer = Writer(f"{self.seed} {group} {k}", units, self.whole)
        writer.shift = self.r.choice([0.0, 0.05, 0.3, 1.5])
        kit["units"] = units
        if writer.general:
            kit["general_tolerance"] = writer.general
        kit["gauges"] = {name: writer.number(width) for name, width in writer.gauges.items()}
        if "running_clearance" in self.moved:  # the same length in another unit
            kit["running_clearance"] = f"{writer.mm(self.moved['running_clearance'], True) / UNIT_MM[units]:.15g}"
        if "shim_cost" in self.moved:
            kit["shim_cost"] = self.moved["shim_cost"]
        kit["parts"] = [writer.part(part) for part in self.parts[begin:end]]
        if own["checks"]:
            kit["checks"] = [writer.check(check) for check in own["checks"]]
        if own["readings"]:
            kit["readings"] = [one | {"is": f"{writer.number(writer.mm(one['is']))} by caliper"}
                               for one in own["readings"]]
        return kit

    def wrong(self, kit):
        """A kit that makes no job with this engine."""
        kind = self.r.randrange(5)
        if kind == 0:
            return "trialfit: 1\nparts: [\n"
        if kind == 1:
            kit["parts"][0]["part"] = self.parts[0]["part"]
        elif kind == 2:
            there = kit["parts"][-1]["part"]
            kit.setdefault("checks", []).append({"check": "what is not there", "gap": [f"{there}.nowhere", f"{there}.a"],
                                                 "at_least": "0"})
        elif kind == 3:
            kit["running_clearance"] = "0.777 mm"
            self.engine["running_clearance"] = self.engine.get("running_clearance", "0.5 mm")
        else:
            del kit["parts"]
        return kit


def texts(catalogue):
    """(the engine's text, [[a kit's text, ...] of each group])"""
    return emit(catalogue.engine), [[kit if isinstance(kit, str) else emit(kit) for kit in group]
                                    for group in catalogue.groups]


if __name__ == "__main__":
    first, rest = texts(Catalogue(int(sys.argv[1])))
    print("%\n".join([first, *(kit for group in rest for kit in group)]), end="")
