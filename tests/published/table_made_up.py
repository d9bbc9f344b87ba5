#!/usr/bin/python3
"""Holds `trialfit table` to its formulas written again, at made-up inputs over each table's whole range.

usage: table_made_up.py TRIALFIT [FIRST [COUNT]]     COUNT inputs of each kind

Every figure of a kind that is computed: as JSON to 1e-9 (derivatives to 1e-6, limits of threads to the micrometre or
the ten-thousandth of an inch that they are rounded to), and as text to the last printed digit. Of kinds that are looked
up (nuts, keys, ends, gauges): what one figure says of another. At the ends of each range: that the last input inside is
answered and the first beyond is refused with one line and exit code 2.
"""
import json
import math
import random
import subprocess
import sys
from decimal import Decimal

sys.path.insert(0, __file__.rsplit("/", 2)[0] + "/support")
import reference_table as by  # noqa: E402
from held import Held, near  # noqa: E402
from random_engines import Engine  # noqa: E402
from reference_sizes import GENERAL, GENERAL_ENDS, IT, LOWER, UPPER, Context, iso286, taper  # noqa: E402

METRIC = {1: [0.25, 0.2], 1.6: [0.35, 0.2], 2: [0.4, 0.25], 3: [0.5, 0.35], 4: [0.7, 0.5], 5: [0.8, 0.5],
          6: [1, 0.75], 8: [1.25, 1, 0.75], 10: [1.5, 1.25, 1, 0.75], 12: [1.75, 1.5, 1.25, 1], 14: [2, 1.5, 1.25, 1],
          16: [2, 1.5, 1], 18: [2.5, 2, 1.5, 1], 20: [2.5, 2, 1.5, 1], 24: [3, 2, 1.5, 1], 30: [3.5, 3, 2, 1.5],
          36: [4, 3, 2, 1.5], 48: [5, 4, 3, 2], 64: [6, 4, 3, 2], 100: [6, 4, 3, 2], 300: [8, 6, 4]}
UNIFIED = {"UNC": {"#4": 40, "#6": 32, "#8": 32, "#10": 24, "#12": 24, "1/4": 20, "5/16": 18, "3/8": 16, "7/16": 14,
                   "1/2": 13, "9/16": 12, "5/8": 11, "3/4": 10, "7/8": 9, "1": 8},
           "UNF": {"#4": 48, "#6": 40, "#8": 36, "#10": 32, "#12": 28, "1/4": 28, "5/16": 24, "3/8": 24, "7/16": 20,
                   "1/2": 20, "9/16": 18, "5/8": 18, "3/4": 16, "7/8": 14, "1": 12},
           "UNEF": {"1/4": 32, "5/16": 32, "3/8": 32, "7/16": 28, "1/2": 28, "9/16": 24, "5/8": 24, "3/4": 20,
                    "7/8": 20, "1": 20}}
METALS = ["steel", "alloy steel", "aluminium", "cast aluminium", "magnesium", "brass", "copper", "stainless steel"]


class Table:
    """One run: rows by what they are."""

    def __init__(self, program, *words):
        self.asked = " ".join(words)
        run = subprocess.run([program, "table", *words, "--json"], capture_output=True, text=True, timeout=20,
                             check=False)
        self.code, self.complaint = run.returncode, run.stderr
        self.rows = {}
        self.answer = ""
        if run.returncode == 0:
            said = json.loads(run.stdout)
            self.answer = said["answer"]
            for row in said["rows"]:  # the same name twice: of calipers, in this order
                name = row["what"] + " again" * (row["what"] in self.rows)
                self.rows[name] = row.get("value", row.get("limits", row.get("words")))


class Tables(Held):
    def __init__(self, program):
        super().__init__()
        self.program, self.looked = program, 0

    def look(self, *words):
        table = Table(self.program, *words)
        self.hold("answered", table.code == 0, f"{table.asked}: {table.complaint.strip()}")
        self.looked += 1
        if self.looked % 8 == 0:
            self.text(*words)
        return table

    def refuse(self, *words):
        table = Table(self.program, *words)
        lines = table.complaint.strip().split("\n")
        self.hold("refused", table.code == 2 and table.complaint.startswith("trialfit: error: ") and len(lines) == 1,
                  f"{table.asked}: {table.code}, {table.complaint!r}")

    def figure(self, table, what, wanted, within=1e-9):
        got = table.rows.get(what)
        wanted, got = ([x] if isinstance(x, (int, float)) or x is None else list(x) for x in (wanted, got))
        same = len(got) == len(wanted) and all(g is not None and near(g, w, within * abs(w) if w else within)
                                               for g, w in zip(got, wanted))
        self.hold("figures", same, f"{table.asked}, {what}: {got}, should be {wanted}")

    def text(self, *words):
        """The same table as text: each number is the JSON's to six figures."""
        table = Table(self.program, *words)
        run = subprocess.run([self.program, "table", *words], capture_output=True, text=True, timeout=20, check=False)
        for what, value in table.rows.items():
            if isinstance(value, str):
                continue
            shown = "..".join(f"{v:.6g}" for v in (value if isinstance(value, list) else [value]))
            line = next((row for row in run.stdout.split("\n") if row.startswith(what.removesuffix(" again")[:40])
                         and f" {shown} " in row), "")
            self.hold("digits", bool(line), f"{table.asked}, {what}: no line with {shown}")


def number(value):
    return f"{value:.12g}"


def metric(held, r):
    d = r.choice(list(METRIC))
    pitch = r.choice(METRIC[d])
    nut = r.random() < 0.5
    position = r.choice("GH" if nut else "efgh")
    grade, other = r.choice([4, 5, 6, 7, 8]), r.choice([4, 6, 8])
    field = f"{grade}{position}" if nut or grade == other else f"{grade}{position}{other}{position}"
    words = f"M{number(d)}x{number(pitch)}-{field}"
    table = Table(held.program, "thread", words)
    if table.code == 2:  # a position or grade that the standard has not for that pitch
        held.hold("no such thread", "ISO 965 has no" in table.complaint, table.complaint)
        return
    d2, minor, root, depth = by.profile(d, pitch)
    for what, value in (("diameter d", d), ("pitch P", pitch), ("pitch diameter d2", d2), ("minor diameter D1", minor),
                        ("minor diameter d3", root), ("engaged depth H1", depth)):
        held.figure(table, what, value)
    stress, core = by.areas(d, pitch, True)
    held.figure(table, "stress area", stress)
    held.figure(table, "core area", core)
    away, off = by.deviation(position, pitch)
    crest = grade if nut or grade == other else other

    def limits(what, top, tolerance, downwards):
        """Within what the printed deviation may be off; how wide they are is exact."""
        got = table.rows.get(what)
        wanted = [top - tolerance, top] if downwards else [top, top + tolerance]
        held.hold("limits of threads", isinstance(got, list) and near(got[1] - got[0], tolerance, 1e-9)
                  and all(abs(g - w) <= off + 1e-9 for g, w in zip(got, wanted)),
                  f"{words}, {what}: {got}, should be {wanted} within {off}")
    side = f"{'nut' if nut else 'bolt'} {field}"
    try:
        of_pitch = by.pitch_tolerance(d, pitch, grade, nut)
        limits(f"{side}, pitch diameter", by.micrometre(d2) + away, of_pitch, not nut)
        of_crest = by.crest_tolerance(pitch, crest, nut)
        if nut:
            limits(f"{side}, minor diameter", by.micrometre(minor) + away, of_crest, False)
        else:
            limits(f"{side}, major diameter", d + away, of_crest, True)
    except by.Beyond:
        held.hold("cells that leave the rule", True, "")
    strip(held, table, r, d, pitch, side, nut, words)


def strip(held, table, _, d, pitch, side, nut, words):
    """Areas of threads from limits: the table's own, and those of the usual thread on the other side."""
    usual = Table(held.program, "thread", f"M{number(d)}x{number(pitch)}")
    mine = {"bolt": table, "nut": usual} if not nut else {"bolt": usual, "nut": table}
    names = {"bolt": side if not nut else next(k for k in usual.rows if k.startswith("bolt")).split(",")[0],
             "nut": side if nut else next(k for k in usual.rows if k.startswith("nut")).split(",")[0]}
    bolt, nuts = mine["bolt"].rows, mine["nut"].rows
    of_bolt, of_nut = by.strip(pitch, bolt[f"{names['bolt']}, major diameter"][0],
                               bolt[f"{names['bolt']}, pitch diameter"][0],
                               nuts[f"{names['nut']}, minor diameter"][1], nuts[f"{names['nut']}, pitch diameter"][1])
    held.figure(table, "thread shear area of the bolt, per mm", of_bolt)
    held.figure(table, "thread shear area of the nut, per mm", of_nut)
    held.figure(table, "engagement that develops the bolt, nut as strong", 2.0 * by.areas(d, pitch, True)[0] / of_bolt)
    held.hold("threads", table.answer.startswith(words), table.answer)


def unified(held, r):
    series = r.choice(list(UNIFIED))
    name = r.choice(list(UNIFIED[series]))
    per_inch = UNIFIED[series][name]
    top, _, bottom = name.partition("/")
    d = Decimal("0.060") + Decimal("0.013") * int(name[1:]) if name[0] == "#" else \
        Decimal(top) / Decimal(bottom or 1)
    grade, nut = r.choice([1, 2, 3]), r.random() < 0.5
    field = f"{grade}{'B' if nut else 'A'}"
    table = held.look("thread", f"{name}-{per_inch} {series}-{field}")
    if table.code:
        return
    mm = 25.4
    big, pitch = float(d) * mm, mm / per_inch
    d2, minor, root, depth = by.profile(big, pitch)
    for what, value in (("diameter d", big), ("pitch P", pitch), ("threads per inch", per_inch),
                        ("pitch diameter d2", d2), ("minor diameter D1", minor), ("minor diameter d3", root),
                        ("engaged depth H1", depth)):
        held.figure(table, what, value)
    stress, core = by.areas(big, pitch, False)
    held.figure(table, "stress area", stress)
    held.figure(table, "core area", core)
    side = f"{'nut' if nut else 'bolt'} {field}"
    if nut:
        major, of_pitch, of_minor = by.unified_nut(d, per_inch, series, grade)
        held.figure(table, f"{side}, major diameter, least", float(major) * mm)
        held.figure(table, f"{side}, minor diameter", [float(x) * mm for x in of_minor])
    else:
        major, of_pitch, of_minor = by.unified_bolt(d, per_inch, series, grade)
        held.figure(table, f"{side}, major diameter", [float(x) * mm for x in major])
        held.figure(table, f"{side}, minor diameter, greatest", float(of_minor) * mm)
    held.figure(table, f"{side}, pitch diameter", [float(x) * mm for x in of_pitch])


def size_class(r):
    letter = r.choice([*UPPER, *LOWER, "js", "JS"])
    return letter, r.choice(list(IT))


def sizes(held, r):
    size = round(math.exp(r.uniform(math.log(1.0), math.log(120.0))), 2)
    letter, grade = size_class(r)
    if letter in ("m", "n", "p") and grade > 8:
        grade = 7
    table = Table(held.program, "size", f"{number(size)}{letter}{grade}")
    if table.code:
        held.hold("no such class", "no" in table.complaint, table.complaint)
        return
    wanted = iso286(size, letter, grade, Context())
    low, high = table.rows[f"{letter}{grade}, deviations"]
    held.hold("deviations", near(low, wanted.lower - size, 1e-9) and near(high, wanted.upper - size, 1e-9),
              f"{table.asked}: {low}..{high}, should be {wanted.lower - size}..{wanted.upper - size}")
    held.figure(table, f"{letter}{grade}, limits", [size + low, size + high])
    held.figure(table, "middle", size + 0.5 * (low + high))
    held.figure(table, "tolerance", high - low)


def grades(held, r):
    """Every grade's width about what the standard's formula gives, which its tables round."""
    size, grade = round(math.exp(r.uniform(0.0, math.log(500.0))), 1), r.randint(5, 18)
    table = held.look("size", f"{number(size)}h{grade}")
    if table.code:
        return
    wanted, got = by.standard_tolerance(size, grade), 1000.0 * table.rows["tolerance"]
    share = 0.06 if size > 3.0 else 0.18  # up to 3 mm the standard prints more than its formula
    held.hold("grades", abs(got - wanted) <= max(share * wanted, 0.75), f"{table.asked}: {got}, formula {wanted}")


def fit(held, r):
    size = round(math.exp(r.uniform(math.log(1.0), math.log(500.0))), 2)
    hole, shaft = f"{r.choice('EFGHPNR')}{r.randint(6, 8)}", f"{r.choice('efghkmnprs')}{r.randint(5, 7)}"
    table = held.look("fit", f"{number(size)}{hole}/{shaft}")
    if table.code:
        return
    (a, b), (c, d) = table.rows[f"hole {hole}, deviations"], table.rows[f"shaft {shaft}, deviations"]
    held.figure(table, f"hole {hole}, limits", [size + a, size + b])
    held.figure(table, f"shaft {shaft}, limits", [size + c, size + d])
    held.figure(table, "clearance (negative: interference)", [a - d, b - c])
    kind = "clearance" if a - d >= -1e-12 else "interference" if b - c <= 1e-12 else "transition"
    held.hold("kinds of fit", kind in table.answer, f"{table.answer}, should be {kind}")
    for letter, bounds in ((hole, (a, b)), (shaft, (c, d))):
        one = Table(held.program, "size", f"{number(size)}{letter}")
        held.figure(one, f"{letter}, deviations", bounds)
    mirrored(held, size, hole, a, b)


def mirrored(held, size, hole, low, high):
    """ISO 286-1, 4.3.2.5: a hole's deviation is the shaft's with its sign turned, and for N to IT8 and P, R to IT7
    over 3 mm a delta = IT(n) - IT(n - 1) is added."""
    letter, grade = hole[0], int(hole[1:])
    shaft = Table(held.program, "size", f"{number(size)}{letter.lower()}{grade}")
    if shaft.code:
        return
    c, d = shaft.rows[f"{letter.lower()}{grade}, deviations"]
    if letter in "EFGH":
        held.hold("mirrored", near(low, -d), f"{size}{hole}: EI {low}, es {d}")
        return
    finer = Table(held.program, "size", f"{number(size)}h{grade - 1}").rows["tolerance"]
    delta = high - low - finer if size > 3.0 and grade <= (8 if letter == "N" else 7) else 0.0
    held.hold("mirrored", near(high, -c + delta), f"{size}{hole}: ES {high}, should be {-c + delta}")


def general(held, r):
    size, letter = round(math.exp(r.uniform(math.log(0.5), math.log(4000.0))), 1), r.choice("fmcv")
    size = max(size, 0.5)
    wanted = GENERAL[letter][next(i for i, end in enumerate(GENERAL_ENDS) if size <= end)]
    if wanted is None:
        held.refuse("general", number(size), letter)
        return
    table = held.look("general", number(size), letter)
    held.figure(table, f"class {letter}, plus and minus", wanted)
    held.figure(table, f"class {letter}, limits", [size - wanted, size + wanted])


def cone(held, r):
    kind = r.randrange(6)
    a, b, c = (round(r.uniform(*span), 2) for span in ((2, 30), (31, 60), (20, 200)))
    written = [f"1:{a}", f"1 in {a}", f"{round(r.uniform(0.1, 8), 3)} in per ft", f"{b} to {a} over {c}",
               f"{round(r.uniform(0.5, 80), 2)} deg {r.choice(['included', 'half'])}", f"{round(r.uniform(0.01, 1.9), 4)}"]
    text = written[kind]
    t = taper(text)
    if t > 2.0:
        held.refuse("cone", text)
        return
    words = ["taper", number(b), number(a), number(c)] if kind == 3 and r.random() < 0.5 else ["cone", text]
    table = held.look(*words)
    half = math.degrees(math.atan(t / 2.0))
    for what, value in (("taper, diameter per length", t), ("1 in", 1.0 / t), ("angle, axis to side", half),
                        ("angle, side to side", 2.0 * half), ("inches of diameter per foot", 12.0 * t),
                        ("travel along it for 0.01 mm on the diameter", 0.01 / t),
                        ("diameter for 1 mm along it", t), ("gap all round, hub 1 mm off its seat", t / 2.0),
                        ("stand-off for a key 0.01 mm too high, floors along the cone", 0.02 / t),
                        ("friction above which it holds by itself", math.tan(math.radians(half)))):
        held.figure(table, what, value)
    held.hold("sentences", f" is {short(0.01 / t, 4)} mm along the cone" in table.answer, table.answer)


def short(value, decimals):
    return f"{float(f'{value:.{decimals}f}'):.6g}"


def piston(held, r):
    stroke = round(r.uniform(20, 120), 1)
    rod = round(stroke * r.uniform(0.7, 2.5), 1)
    offset = r.choice([0.0, 0.0, round(r.uniform(-0.05, 0.05) * stroke, 2)])
    tilt = r.choice([0.0, 0.0, round(r.uniform(1, 60), 1)])
    engine = Engine(stroke, rod, offset)
    by_angle = r.random() < 0.5
    at = r.choice([0.0, 0.1, 180.0, round(r.uniform(0.0, 180.0), 2), round(r.uniform(0.0, 180.0), 2)]) if by_angle else round(r.uniform(0.001, 0.999) * stroke, 3)
    words = ["piston", number(stroke), number(rod), f"{number(at)}{'deg' if by_angle else 'mm'}"]
    words += ["offset", number(offset)] * bool(offset) + ["tilt", f"{number(tilt)}deg"] * bool(tilt)
    table = held.look(*words)
    before = at if by_angle else engine.angle(at)
    height = engine.drop(at) if by_angle and at else at  # at the top nothing, where the formula leaves 1e-14
    near_bottom = abs(before - (360.0 - engine.bottom)) < 5.0  # angles from heights are ill-conditioned there
    held.figure(table, "crank angle before the top", before, 1e-9 if by_angle or not near_bottom else 1e-6)
    held.figure(table, "piston below its top", height)
    held.hold("sentences", table.answer == f"{short(height, 3)} mm below the top is {short(before, 2)} degrees before it."
              or near_bottom, table.answer)
    if offset and not by_angle and not near_bottom:
        held.figure(table, "crank angle after the top", engine.angle(at, -1), 1e-8)
    h = 1e-3
    slope = abs(8.0 * (engine.drop(before + h) - engine.drop(before - h))
                - (engine.drop(before + 2 * h) - engine.drop(before - 2 * h))) / (12.0 * h)
    if slope > 1e-3:
        held.figure(table, "piston travel for one degree there", slope, 1e-7)
    if "crank angle for 0.01 mm there" in table.rows:
        straight = 0.01 / slope if slope else math.inf
        held.figure(table, "crank angle for 0.01 mm there", straight, 1e-7)
        # A straight line, so it must lie near what a hundredth down from there takes.
        true = abs(engine.angle(height + 0.01) - before) if height + 0.01 <= stroke else 0.0
        held.hold("straight enough", near_bottom or abs(straight - true) < 0.3 * true, f"{straight}, is {true}")
    else:
        held.hold("no straight line", 0.01 >= 0.499 * slope * min(before, abs(360.0 - engine.bottom - before)),
                  f"{words}: the angle for 0.01 mm is missing")
    held.figure(table, "crank angle within 0.01 mm of the top, each side",
                max(engine.angle(0.01), engine.angle(0.01, -1)), 1e-8)
    if tilt:
        held.figure(table, "gauge in the tilted plug hole reads", height / math.cos(math.radians(tilt)))


def material(held, name):
    if name not in held.metals:
        held.metals[name] = Table(held.program, "material", name).rows
    return held.metals[name]


def shrink(held, r):
    shaft = round(r.uniform(5, 60), 2)
    hub, squeeze = round(shaft * r.uniform(1.05, 4.0), 2), round(shaft * r.uniform(1e-4, 2e-3), 4)
    metals = [r.choice(METALS) for _ in range(r.choice([0, 1, 2]))]
    table = held.look("shrink", number(shaft), number(hub), number(squeeze), *metals)
    if table.code:
        return
    of_shaft, of_hub = (material(held, (metals + ["steel"] * 2)[n] if n < len(metals) else "steel") for n in (0, 1))
    found = by.shrink(shaft, hub, squeeze, *((m["Young's modulus"], m["Poisson's ratio"]) for m in (of_shaft, of_hub)))
    for what, key in (("pressure between them", "pressure"), ("hub at its bore, hoop stress", "hoop"),
                      ("hub at its bore, equivalent stress", "equivalent"), ("shaft, hoop stress", "shaft")):
        held.figure(table, what, found[key])
    held.figure(table, "interference on the diameter", squeeze)
    held.figure(table, "hub warmer than the shaft to go on without room", squeeze / shaft / of_hub["expansion"])


def bolt(held, r):
    d = r.choice([d for d in METRIC if 5 <= d <= 36])
    pitch, grade = r.choice(METRIC[d]), r.choice(["4.6", "5.8", "8.8", "10.9", "12.9"])
    words = f"M{number(d)}x{number(pitch)}"
    table = held.look("bolt", words, grade)
    stress = by.areas(d, pitch, True)[0]
    three = float(f"{stress:.3g}")
    tensile, proof = table.rows["tensile strength, least"], table.rows["stress under proof load"]
    # A class says its strength by itself: a hundredth of the tensile strength, then the yield's share of it.
    first, tenths = (int(x) for x in grade.split("."))
    held.hold("classes", 100 * first <= tensile <= 1.06 * 100 * first, f"{words} {grade}: {tensile}")
    held.hold("classes", 0.97 * tenths / 10 <= table.rows["yield strength, least"] / tensile <= 1.03 * tenths / 10,
              f"{words} {grade}: {table.rows}")
    held.figure(table, "load that breaks it, least", three * tensile)
    held.figure(table, "proof load", three * proof)
    thread, needs = Table(held.program, "thread", words), held.look("engagement", words, grade)
    of_bolt, of_nut = (thread.rows[f"thread shear area of the {part}, per mm"] for part in ("bolt", "nut"))
    for name, what in (("1020", "low-carbon steel 1020, hot rolled"), ("6061 t6", "wrought aluminium 6061-T6"),
                       ("356 t6", "cast aluminium 356.0-T6"), ("g3000", "grey iron G3000; it has no yield point")):
        strength = material(held, name)["tensile strength"]
        share = max(1.0, of_bolt * tensile / (of_nut * strength))
        held.figure(needs, what, 2.0 * stress / of_bolt * share)
    for what, times in (("steel", 1.0), ("cast iron", 1.5), ("aluminium", 2.0)):
        held.figure(needs, f"rule for {what}", times * d)


def shop(held, r):
    grade, rpm, mass = r.choice([0.4, 1, 2.5, 6.3, 16, 40]), round(r.uniform(100, 12000), 1), round(r.uniform(0.1, 20), 3)
    planes = [round(r.uniform(1, 80), 1) for _ in range(2)] if r.random() < 0.5 else []
    table = held.look("balance", f"G{number(grade)}", number(rpm), number(mass), *map(number, planes))
    w = 2.0 * math.pi * rpm / 60.0
    held.figure(table, "eccentricity of the mass", 1000.0 * grade / w)
    held.figure(table, "unbalance in all", 1000.0 * grade / w * mass)
    held.figure(table, "force that it makes", grade / 1000.0 * mass * w)
    if planes:
        share = min(0.7, max(0.3, planes[1] / sum(planes)))
        held.figure(table, "in the first plane", 1000.0 * grade / w * mass * share)
        held.figure(table, "in the second plane", 1000.0 * grade / w * mass * (1.0 - share))
    nose = round(r.uniform(0.1, 3.0), 2)
    feed = round(nose * r.uniform(0.01, 1.9), 3)
    lathe = held.look("lathe", number(feed), number(nose))
    held.figure(lathe, "height of the ridges left", nose - math.sqrt(nose ** 2 - feed ** 2 / 4.0), 1e-8)


def looked_up(held, r):
    """What one figure of a standard's row says of another."""
    shaft = round(r.uniform(6.1, 58.0), 1)
    key = held.look("key", number(shaft))
    if not key.code:
        row = key.rows
        depths = row["slot in the shaft, depth"] + row["slot in the hub, depth"]
        held.figure(key, "clearance over the key", depths - row["key, height"])
        held.figure(key, "share of the slots' depth that the key fills", 100.0 * row["key, height"] / depths)
    end = held.look("end", r.choice(["16", "18", "19", "20", "22", "24", "25", "28"])).rows
    long = end["cone, length"]
    held.hold("shaft ends", near(end["cone and thread, length"], long + end["thread, length"])
              and near(end["small diameter"], end["large diameter"] - long / 10.0)
              and near(end["diameter half-way along"], end["large diameter"] - long / 20.0), f"{end}")
    size = r.choice([5, 6, 8, 10, 12, 14, 16, 20])
    nut = held.look("nut", f"M{size}").rows
    thread = Table(held.program, "thread", f"M{size}").rows
    for name, value in nut.items():
        if "proof load" in name:  # a stress from 500 to 1200 MPa on the stress area
            held.hold("nuts", 500.0 < value / thread["stress area"] < 1250.0, f"M{size} {name}: {value}")
    held.hold("nuts", nut["nut, height"][0] < nut["nut, height"][1] and nut["washer, bore"] > size
              and nut["washer, outside"] > nut["nut, across flats"] + 0.9
              and nut["thin nut, height"][1] < nut["nut, height"][0], f"M{size}: {nut}")
    length = round(r.uniform(1.0, 600.0), 1)
    gauge, further = (held.look("gauge", number(x)) for x in (length, min(600.0, length + 50.0)))
    for name, value in further.rows.items():
        if name in gauge.rows:
            held.hold("gauges", value >= gauge.rows[name], f"{length}: {name} {gauge.rows[name]}, further {value}")


def ends(held, _):
    """The last input inside each range, and the first beyond."""
    for inside, beyond in (
            (["thread", "M355x8-6g"], ["thread", "M355.5x8-6g"]), (["thread", "M1x0.2-6h"], ["thread", "M0.9x0.2-6h"]),
            (["thread", "M20x0.2-6g"], ["thread", "M20x0.19-6g"]), (["thread", "M100x8-6g"], ["thread", "M100x8.1-6g"]),
            (["thread", "6-4 UN-2A"], ["thread", "6.01-4 UNS-2A"]),
            (["thread", "#0-80 UNF-2A"], ["thread", "0.059-80 UNS-2A"]),
            (["thread", "1/2-80 UNS-2A"], ["thread", "1/2-81 UNS-2A"]), (["size", "500h7"], ["size", "500.1h7"]), (["size", "0.1h7"], ["size", "0h7"]),
            (["size", "10h18"], ["size", "10h19"]), (["size", "10h01"], ["size", "10h02"]),
            (["size", "1.1h14"], ["size", "1h14"]),
            (["general", "0.5", "m"], ["general", "0.49", "m"]), (["general", "4000", "m"], ["general", "4001", "m"]),
            (["general", "2000", "f"], ["general", "2001", "f"]), (["general", "3.1", "v"], ["general", "3", "v"]),
            (["cone", "2"], ["cone", "2.001"]), (["cone", "90 deg included"], ["cone", "90.1 deg included"]),
            (["cone", "0.000001"], ["cone", "0"]), (["taper", "30", "10", "10"], ["taper", "30", "10", "9.99"]),
            (["taper", "10", "9.99", "10"], ["taper", "10", "10", "10"]),
            (["piston", "40", "80", "40mm"], ["piston", "40", "80", "40.01mm"]),
            (["piston", "40", "80", "180deg"], ["piston", "40", "80", "180.1deg"]),
            (["piston", "40", "80", "0deg"], ["piston", "40", "80", "-0.1deg"]),
            (["piston", "40", "20.01", "1mm"], ["piston", "40", "20", "1mm"]),
            (["piston", "40", "80", "1mm", "tilt", "89deg"], ["piston", "40", "80", "1mm", "tilt", "90deg"]),
            (["shrink", "25", "25.1", "0.02"], ["shrink", "25", "25", "0.02"]),
            (["lathe", "0.8", "0.4"], ["lathe", "0.81", "0.4"]), (["gauge", "600"], ["gauge", "601"]),
            (["bolt", "M16", "9.8"], ["bolt", "M18", "9.8"]), (["bolt", "M39", "8.8"], ["bolt", "M42", "8.8"]),
            (["balance", "G0.4", "1", "1"], ["balance", "G0", "1", "1"]),
            (["balance", "G0.4", "0.1", "1"], ["balance", "G0.4", "0", "1"]),
            (["end", "28"], ["end", "29"]), (["nut", "M39"], ["nut", "M42"]), (["key", "58"], ["key", "58.1"]),
            (["key", "6.1"], ["key", "6"])):
        held.look(*inside)
        held.refuse(*beyond)
        held.text(*inside)


KINDS = [metric, unified, sizes, grades, fit, general, cone, piston, shrink, bolt, shop, looked_up]


def main():
    held = Tables(sys.argv[1])
    held.metals = {}
    first, count = (int(sys.argv[2]), int(sys.argv[3])) if len(sys.argv) > 3 else (0, 20)
    held.ask("the ends", lambda: ends(held, None))
    for seed in range(first, first + count):
        for kind in KINDS:
            r = random.Random(f"{kind.__name__} {seed}")
            held.ask(f"{kind.__name__} {seed}", lambda k=kind, chance=r: k(held, chance))
    return held.end("tables")


if __name__ == "__main__":
    sys.exit(main())
