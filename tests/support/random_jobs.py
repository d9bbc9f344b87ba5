#!/usr/bin/env python3
"""Makes up valid job files at random: every kind of seat, shims, play, cones, keys, rings, threads,
redundant dimensions, and sizes in every notation. The same seed gives the same file.

    random_jobs.py SEED            prints one job
    random_jobs.py --quick COUNT   prints jobs made up faster, whose limits say little
"""
import random
import sys

import reference
from reference_sizes import taper

UNIT_MM = {"mm": 1.0, "in": 25.4, "thou": 0.0254, "um": 0.001}
DIGITS = {"mm": 3, "in": 5, "thou": 2, "um": 0}
GAUGES = {"caliper": 0.03, "depth_gauge": 0.02, "micrometer": 0.004}  # half-widths in mm
EQUAL = [("1 in 5", "0.2"), ("1:8", "1.5 in per ft"), ("1 in 10", "1:10"), ("0.2", "0.2")]
UNEQUAL = [("1 in 5", "1:4.92"), ("1:4.92", "1 in 5"), ("1:8", "0.127"), ("11.42 deg included", "0.2"),
           ("0.1", "1 in 9.8"), ("14 to 20 over 29", "0.2")]


class Maker:
    def __init__(self, seed):
        self.r = random.Random(seed)
        self.units = self.r.choices(["mm", "in", "thou", "um"], [7, 3, 1, 1])[0]
        self.general = self.r.choice(["", "", "f", "m"])
        self.parts, self.local = [], {}

    # ---- numbers and sizes; all arguments in mm

    def number(self, mm, sign=False):
        """In the file's unit, as a person would write it. Rounded."""
        text = f"{mm / UNIT_MM[self.units]:.{DIGITS[self.units]}f}"
        if self.r.random() < 0.5 and "." in text:
            text = text.rstrip("0").rstrip(".")
        text = "0" if float(text) == 0.0 else text
        return "+" + text if sign and not text.startswith("-") else text

    def size(self, mm):
        """A written size of about `mm`: text, or a mapping in the long form."""
        r, t = self.r, self.r.choice([0.01, 0.02, 0.05, 0.1, 0.2])
        n = self.number
        if abs(mm) >= 1.0 and self.general and r.random() < 0.2:
            return n(mm)
        kind = r.randrange(13)
        if kind == 0:
            return f"{n(mm)} ±{n(t)}"
        if kind == 1:
            return f"{n(mm)} {r.choice(['+/-', '+-'])} {n(t)}"
        if kind == 2:
            return f"{n(mm)} +{n(t)} -{n(t / 2)}"
        if kind == 3:
            return f"{n(mm)} +{n(2 * t)}/+{n(t)}"
        if kind == 4:
            return f"{n(mm)} -{n(t)} -{n(3 * t)}"
        if kind == 5:
            return f"{n(mm - t)}..{n(mm + 2 * t)}"
        if kind == 6:
            return f"{n(mm)} by {r.choice(list(GAUGES))}"
        if kind == 7:
            values = ", ".join(n(mm + r.uniform(-0.05, 0.05)) for _ in range(r.randint(2, 5)))
            return f"[{values}] by {r.choice(list(GAUGES))}"
        if kind == 8:
            return f"{n(mm)} exact"
        if kind == 9 and 1.0 < mm < 120.0 and self.units in ("mm", "in"):
            return f"{n(mm)} {r.choice(['h7', 'H7', 'g6', 'f7', 'h11', 'js8', 'm6', 'p6', 'F8'])}"
        if kind == 10 and self.units == "mm":
            return f"{mm / 25.4:.4f} in ±{t / 0.0254:.2f} thou"
        if kind == 11 and self.units == "in":
            return f"{mm:.3f} ±{t} mm"
        long = {"size": n(mm), "plus": n(t), "minus": n(t / 2)}
        shape = r.choice([None, "normal", "uniform", "triangular", "truncated normal"])
        if shape:
            long["shape"] = shape
        if shape in ("normal", None) and r.random() < 0.3:
            long["sigmas"] = "2"
        return long

    def face(self, mm, origin):
        size = self.size(mm)
        return size | {"from": origin} if isinstance(size, dict) else f"{size} from {origin}"

    # ---- parts

    def make_part(self, i):
        r = self.r
        names = ["a", "b", "c", "d", "e"][:r.randint(2, 5)]
        places, faces = {names[0]: 0.0}, {names[0]: "zero"}
        for name in names[1:]:
            origin = r.choice(list(places))
            places[name] = round(places[origin] + r.choice([-1, 1, 1]) * r.uniform(2.0, 25.0), 2)
            while any(abs(places[name] - z) < 1.0 for k, z in places.items() if k != name):
                places[name] = round(places[name] + 1.37, 2)
            faces[name] = self.face(places[name] - places[origin], origin)
        if len(names) > 2 and r.random() < 0.2:  # the last face measured from another one, too
            twice = r.choice([f for f in names[:-1]])
            if not str(faces[names[-1]]).endswith(twice):
                again = places[names[-1]] - places[twice] + r.uniform(-0.01, 0.01)
                one = faces[names[-1]]
                if "exact" not in str(one) and not (isinstance(one, dict) and one["from"] == twice):
                    faces[names[-1]] = [one, f"{self.number(again)} ±{self.number(0.5)} from {twice}"]
        part = {"part": f"p{i}"}
        if r.random() < 0.5:
            part["turns"] = "true"
        self.local[part["part"]] = places
        part["_faces"] = faces
        return part

    def make_seat(self, part, earlier):
        r = self.r
        other = earlier[-1] if r.random() < 0.5 else r.choice(earlier)
        own, against = self.pick(part, min), self.pick(other, max)
        kind = r.random()
        if kind < 0.25:
            return self.cone_seat(part, other)
        seat = {"face": own, "against": f"{other['part']}.{against}"}
        if kind < 0.45:
            offset = r.uniform(-10.0, 20.0)  # of some a hair
            seat["offset"] = self.size(offset if offset < 16.0 else 0.1 * (offset - 16.0))
        return self.dress(seat)

    def pick(self, part, which):
        """Mostly the innermost or outermost face of a part, now and then any."""
        places = self.local[part["part"]]
        if self.r.random() < 0.7:
            return which(places, key=places.get)
        return self.r.choice(list(places))

    def dress(self, seat):
        r = self.r
        if r.random() < 0.2 and "cone" not in seat:
            seat["play"] = r.choice([f"{self.number(0.05)}..{self.number(0.2)}", self.number(0.15)])
        if r.random() < 0.3 and "cone" not in seat and "offset" not in seat:
            stock = [self.number(s) for s in (0.1, 0.25, 0.5, 1.0)]
            fitted = [r.choice(stock[1:]) for _ in range(r.randint(1, 3))]
            if r.random() < 0.3:
                fitted[0] += f" ±{self.number(0.03)}"
            seat["shims"] = {"stock": stock, "at_most": "3", "fitted": fitted}
            if r.random() < 0.6:
                seat["shims"]["holds"] = r.choice(["", "±"]) + self.number(0.01)
        return seat

    def cone_seat(self, part, other):
        r = self.r
        shaft_taper, hub_taper = r.choice(EQUAL if r.random() < 0.7 else UNEQUAL)
        dia, length = round(r.uniform(14.0, 22.0), 2), round(r.uniform(12.0, 24.0), 1)
        name = f"cone{part['part']}"
        other.setdefault("cones", {})[name] = {
            "at": r.choice(list(self.local[other["part"]])), "dia": self.size(dia),
            "taper": shaft_taper, "length": self.number(length)}
        stand = r.uniform(0.5, 0.3 * length)
        part.setdefault("cones", {})["bore"] = {
            "at": r.choice(list(self.local[part["part"]])),
            "dia": self.size(dia - stand * taper(shaft_taper)), "taper": hub_taper,
            "length": self.number(round(r.uniform(8.0, 20.0), 1))}
        seat = {"cone": "bore", "against": f"{other['part']}.{name}"}
        if r.random() < 0.3:
            height = 3.0 + r.choice([-0.2, 0.1, 0.25])
            seat["key"] = {"height": f"{self.number(height)} ±{self.number(0.01)}",
                           "room": f"{self.number(3.0)} ±{self.number(0.02)}",
                           "floors": r.choice(["cone", "axis"])}
        return self.dress(seat)

    def add_features(self, part):
        r, places = self.r, self.local[part["part"]]
        for k in range(r.randint(1, 3)):
            # Whole diameters, so that bores and outsides often just touch.
            bore = r.choice([0, 10, 20, 30, 40])
            ring = {"bore": self.number(bore), "od": self.number(bore + r.choice([5, 10, 20, 40]))}
            one, two = sorted(r.sample(list(places), 2), key=places.get)
            how = r.random()
            if how < 0.7:
                ring = {"from": one, "to": two} | ring
            else:
                ring = {"from": one, r.choice(["below", "above"]): self.number(3.0)} | ring
            part.setdefault("rings", {})[f"r{k}"] = ring
        if r.random() < 0.6:
            one, two = r.sample(list(places), 2)
            fit = "6H" if int(part["part"][1:]) % 2 else "6g"
            thread = {"form": f"M10x1.25-{fit}", "from": one, "to": two}
            if r.random() < 0.6:
                thread["lead_in"] = r.choice([self.number(0.4), f"{self.number(0.4)} ±{self.number(0.1)}"])
            if r.random() < 0.4:
                thread["run_out"] = self.number(0.3)
            part["thread"] = thread

    def second_seats(self, document):
        """A stated stand-off beside a seat, in agreement with it: an over-determined part."""
        z = None
        for part in document["parts"][1:]:
            if self.r.random() > 0.08 or "cone" in part["sits"]:
                continue
            z = z or reference.Job(reference.load(emit(document)))
            places = z.positions(z.adjust(z.nominals))
            root, own = document["parts"][0], self.r.choice(list(part["faces"]))
            offset = (places[part["part"], own] - places[root["part"], "a"]) * UNIT_MM[self.units]
            part["sits"] = [part["sits"], {
                "face": own, "against": f"{root['part']}.a",
                "offset": f"{self.number(offset + self.r.uniform(-0.02, 0.02))} ±{self.number(1.0)}"}]
            return

    def make_readings(self, document):
        """Up to two distances as they would be measured, a little off, with some parts fitted. What
        touches is beyond doubt: all parts lie on their seats, or the last one fitted is jammed."""
        r, parts, readings = self.r, document["parts"], []
        for k in range(r.randint(1, 2)):
            fitted = parts[:r.randint(2, len(parts))]
            one, two = r.sample(fitted, 2)
            reading = {"reading": f"reading {k}",
                       "from": f"{one['part']}.{r.choice(list(one['faces']))}",
                       "to": f"{two['part']}.{r.choice(list(two['faces']))}",
                       "is": "0 exact", "fitted": [p["part"] for p in fitted]}
            if r.random() < 0.8:
                reading["pushed"] = r.choice(["in", "out"])
            readings.append(reading)
        job = reference.Job(reference.load(emit(document | {"readings": readings})), adjusted=False)
        plain = []
        for given, reading in zip(readings, job.readings):
            if any(part != reading["fitted"][-1] for part in reading["jams"]):
                continue
            plain.append(given)
            lay = job.positions(job.middles, reading=reading)
            value = (lay[reading["to"]] - lay[reading["from"]]) * UNIT_MM[self.units]
            given["is"] = f"{self.number(value + r.uniform(-0.02, 0.02))} by caliper"
        return plain

    # ---- states

    def make_states(self, document):
        """Materials for most parts, one of the job's own, and a warm state or two."""
        r = self.r
        document["materials"] = [{"material": "resin", "expansion": "95e-6"}]
        for part in document["parts"]:
            if r.random() < 0.8:
                part["material"] = r.choice(["steel", "cast aluminium", "resin", "nylon"])
        warm = {"all": "90 C", r.choice(document["parts"])["part"]: f"{r.randint(-20, 160)} C"}
        document["states"] = r.choice([{"run": warm}, {"fit": "20 C", "run": warm},
                                       {"winter": "-15 C", "run": warm}])

    # ---- radial

    def make_radial(self, document):
        """What centres the parts and how they run, and an air gap. Whole millimetres between bores
        and outsides, so some limits are hit and some pairs lie far apart."""
        r, parts = self.r, document["parts"]
        document["radial_clearance"] = self.number(r.choice([0.0, 0.2, 2.5]))
        for k, part in enumerate(parts):
            if k and r.random() < 0.6:
                other = r.choice(parts[:k])
                by = r.choice(["register", "bolts", "bearing"])
                on = other["part"] + (f".{r.choice(list(other['rings']))}" if by == "register" else "")
                part["centred"] = {"by": by, "on": on, "play" if by == "bearing" else "clearance":
                                   f"{self.number(0.01)}..{self.number(0.2)}"}
            if r.random() < 0.6:
                part["runout"] = f"{self.number(0.2)} ±{self.number(0.1)}"
            elif r.random() < 0.5:
                two = r.sample(list(part["faces"]), 2)
                part["runout"] = [{"is": self.number(0.1), "at": face} for face in two]
            if r.random() < 0.4:
                part["face_runout"] = {"is": f"{self.number(0.3)} ±{self.number(0.1)}",
                                       "dia": self.number(60.0)}
        one, two = r.sample(parts, 2)
        names = [f"{p['part']}.{name}" for p in (one, two) for name in [r.choice(list(p["rings"]))]]
        for name in names:
            part, feature = name.split(".")
            ring = next(p for p in parts if p["part"] == part)["rings"][feature]
            ring["od"] += f" ±{self.number(0.02)}"
            ring["bore"] += " exact"
        document["checks"].append({"check": "air", "air_gap": names, "at_least": self.number(1.0),
                                   "at_most": self.number(9.0)})

    # ---- checks

    def make_checks(self, document):
        r, checks = self.r, []
        bolts, nuts = ([p for p in document["parts"] if "thread" in p and
                        p["thread"]["form"].endswith(fit)] for fit in ("6g", "6H"))
        for k in range(r.randint(1, 4)):
            one, two = r.sample(document["parts"], 2)
            kind = r.random()
            if kind < 0.3 and bolts and nuts:
                one, two = r.sample([r.choice(bolts), r.choice(nuts)], 2)
                check = {"engagement": [f"{one['part']}.thread", f"{two['part']}.thread"]}
            elif kind < 0.5:
                check = {"overlap": {key: f"{p['part']}.{r.choice(list(p['rings']))}"
                                     for key, p in (("of", one), ("by", two))}}
            else:
                check = {"gap": [f"{p['part']}.{r.choice(list(p['faces']))}" for p in (one, two)]}
            checks.append({"check": f"check {k}"} | check | {"at_least": "0"})
        return checks

    def set_limits(self, checks, answers):
        """Limits near the figures, so that all verdicts occur."""
        r = self.r
        for check, found in zip(checks, answers):
            lo, hi = found["worst"]
            low = lo + r.uniform(-0.5, 1.2) * (hi - lo + 0.01)
            sides = r.choice([["at_least"], ["at_least"], ["at_most"], ["at_least", "at_most"]])
            del check["at_least"]
            # A bare length over the ring's own would be taken for a share written without its sign.
            if found["kind"] == "overlap":
                check["at_least"] = f"{r.choice([20, 50, 75, 90])} %"
                continue
            if found["kind"] == "engagement" and r.random() < 0.5:
                check["at_least"] = r.choice(["0.7 d", "6 pitches", "1 d"])
                continue
            scale = UNIT_MM[self.units]
            if found["kind"] != "gap":
                low = max(low, 0.0)
            if "at_least" in sides:
                check["at_least"] = self.number(low * scale)
            if "at_most" in sides:
                check["at_most"] = self.number((low + r.uniform(0.6, 2.0) * (hi - lo + 0.1)) * scale)

    def assemble(self):
        """All of a job but the limits of its checks and what is radial."""
        r = self.r
        document = {"trialfit": "1", "title": "A made-up job", "units": self.units}
        if r.random() < 0.7:
            document["running_clearance"] = self.number(0.5)
        if self.general:
            document["general_tolerance"] = self.general
        document["gauges"] = {k: self.number(v) for k, v in GAUGES.items()}
        parts = []
        for i in range(r.randint(3, 9)):
            part = self.make_part(i)
            if parts:
                part["sits"] = self.make_seat(part, parts)
            part["faces"] = part.pop("_faces")
            self.add_features(part)
            parts.append(part)
        document["parts"] = parts
        self.second_seats(document)
        if r.random() < 0.3 and not any(isinstance(p.get("sits"), list) for p in parts):
            readings = self.make_readings(document)
            if readings:
                document["readings"] = readings
        if r.random() < 0.3:
            self.make_states(document)
        document["checks"] = self.make_checks(document)
        return document

    def job(self):
        document = self.assemble()
        found = reference.answer(emit(document))
        self.set_limits(document["checks"], found["checks"])
        if self.r.random() < 0.3:
            self.make_radial(document)
        return emit(document)


def scalar(text):
    quote = text.startswith("[") or ": " in text or ":" in text
    return f'"{text}"' if quote else text


def emit(value, indent=0):
    """Block YAML with plain scalars; a mapping's order is kept."""
    pad, lines = "  " * indent, []
    if isinstance(value, dict):
        for key, inner in value.items():
            if isinstance(inner, (dict, list)):
                lines += [f"{pad}{key}:", emit(inner, indent + 1)]
            else:
                lines.append(f"{pad}{key}: {scalar(inner)}")
    else:
        for inner in value:
            if isinstance(inner, (dict, list)):
                text = emit(inner, indent + 1)
                lines.append(f"{pad}- {text.lstrip()}")
            else:
                lines.append(f"{pad}- {scalar(inner)}")
    return "\n".join(lines) + ("\n" if indent == 0 else "")


def made_up(seed):
    """A job whose sizes do not contradict each other."""
    while True:
        try:
            return Maker(seed).job()
        except reference.Contradiction:
            seed += 1_000_000


class Quick(Maker):
    """Makes jobs without asking the reference for anything: limits are anywhere, nothing is measured twice."""

    def second_seats(self, document):
        """None: a stand-off must agree with what the seats say."""

    def make_readings(self, document):
        return []

    def job(self):
        document = self.assemble()
        for check in document["checks"]:
            check["at_least"] = "50 %" if "overlap" in check else self.number(self.r.choice([0.0, 0.5, 2.0, 8.0]))
        if self.r.random() < 0.5:
            self.make_radial(document)
        return emit(document)


if __name__ == "__main__":
    if sys.argv[1] == "--quick":  # that many, each ended by a record separator
        for number in range(int(sys.argv[2])):
            print(Quick(number).job(), end="\x1e")
    else:
        print(made_up(int(sys.argv[1])), end="")
