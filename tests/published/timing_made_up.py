#!/usr/bin/python3
"""Holds `trialfit timing` to a second answer, on examples and on made-up engines: crank, rod and piston as
three lengths of a triangle, every angle found by SciPy's `brentq` on the height of the piston, ranges by every
combination of least, middle and greatest of all sizes. Nothing here inverts the height in closed form.

usage: timing_made_up.py TRIALFIT JOB...
       timing_made_up.py TRIALFIT --random FIRST COUNT

Held: the firing point with its ranges and shares, where it fires now, the top by stops and by dwell and what a
gauge can tell of it, marks with arcs and chords, which of them fit, the slot's travel and the turn that is
needed, and every spark of every curve. Sources: the height of a piston is that of any textbook (J. B. Heywood,
Internal Combustion Engine Fundamentals, eq. 2.6); arcs and chords are plane geometry.

Angles agree to 1e-7 degrees: `brentq` stops at 1e-13 of the crank's turn, and near the top an angle goes with
the root of the height, which costs half the digits of a double. All else to 1e-9.
"""
import itertools
import json
import math
import subprocess
import sys

from scipy.optimize import brentq

sys.path.insert(0, __file__.rsplit("/", 2)[0] + "/support")
import reference  # noqa: E402
from held import Held  # noqa: E402
from random_engines import Engine, Maker  # noqa: E402
from reference_sizes import Context, Size, parse  # noqa: E402

ANGLES = 1e-7


def near(a, b, within=1e-9):
    return a is not None and b is not None and abs(a - b) <= within * max(1.0, abs(b))


class Section:
    """The timing section of a job, as sizes."""

    def __init__(self, document):
        given = self.given = document["timing"]
        self.context = Context(units=document.get("units", "mm"), general=document.get("general_tolerance", ""),
                               gauges={})
        for name, width in document.get("gauges", {}).items():
            width = width["half_width"] if isinstance(width, dict) else width
            self.context.gauges[name] = parse(width, self.context, True).nominal
        none = Size(0.0, 0.0, 0.0)
        self.stroke, self.rod = self.length(given["stroke"]), self.length(given["rod"])
        self.offset = self.length(given["pin_offset"]) if "pin_offset" in given else none
        self.tilt = self.degrees(given["plug_tilt"]) if "plug_tilt" in given else none
        self.engine = self.at(*(s.nominal for s in self.sizes()))
        self.gauge = self.context.gauges.get(given.get("gauge"), 0.0)

    def sizes(self):
        return [self.stroke, self.rod, self.offset]

    @staticmethod
    def at(stroke, rod, offset):
        return Engine(stroke, rod, offset)

    def length(self, written):
        return parse(written, self.context, True)

    @staticmethod
    def degrees(written):
        """`24 deg ±1`, `15 deg`"""
        number, _, rest = str(written).partition(" deg")
        return parse(number + rest, Context(), True)

    def angle_or_length(self, written):
        return ("deg", self.degrees(written)) if "deg" in str(written).split("by")[0] else \
            ("length", self.length(written))

    def gauge_of(self, written):
        return str(written).rsplit(" by ", 1)[1] if " by " in str(written) else self.given.get("gauge")


def three(size):
    return sorted({size.lower, size.middle, size.upper})


def read_point(section, reading):
    """What is known of the point at which a gauge in the plug hole reads that: nominal, worst, shares."""
    sizes = [reading, *section.sizes(), section.tilt]

    def angle(values):
        read, stroke, rod, offset, tilt = values
        return section.at(stroke, rod, offset).angle(max(0.0, read) * math.cos(math.radians(tilt)))

    nominal, middle = (angle([getattr(s, at) for s in sizes]) for at in ("nominal", "middle"))
    every = [angle(values) for values in itertools.product(*(three(s) for s in sizes))]
    shares = []
    for i, size in enumerate(sizes):
        ends = []
        for end in (size.lower, size.upper):
            values = [s.middle for s in sizes]
            values[i] = end
            ends.append(angle(values))
        half = 0.5 * (ends[1] - ends[0])
        shares.append((half, half * size.sd / size.half if size.half else 0.0))
    return {"degrees": nominal, "middle": middle, "worst": [min(every), max(every)], "shares": shares}


class Figures(Held):
    def near(self, kind, got, wanted, within=1e-9):
        self.hold(kind, near(got, wanted, within), f"{got!r}, should be {wanted!r}")


def hold_firing(held, section, said):
    given = section.given["fire_at"]
    kind, size = section.angle_or_length(given)
    gauge = section.context.gauges.get(section.gauge_of(given), 0.0)
    cos = math.cos(math.radians(section.tilt.nominal))
    if kind == "deg":
        height = section.engine.drop(size.nominal)
    else:
        height = size.nominal * (cos if " by " in str(given) else 1.0)
    reading = Size(height / cos, height / cos - gauge, height / cos + gauge, gauge / math.sqrt(3.0), "uniform")
    point = read_point(section, reading)
    held.near("firing degrees", said["degrees"], point["degrees"], ANGLES)
    held.near("firing height", said["height"], height)
    held.near("firing gauge_reading", said["gauge_reading"], height / cos)
    step = 1e-4
    slope = (section.engine.drop(point["degrees"] + step) - section.engine.drop(point["degrees"] - step)) / (2 * step)
    held.near("firing height_per_deg", said["height_per_deg"], slope, 1e-6)
    for got, wanted in zip(said["worst_deg"], point["worst"]):
        held.near("firing worst", got, wanted, ANGLES)
    halves = [half for half, _ in point["shares"]]
    rss, total = math.sqrt(sum(h * h for h in halves)), sum(abs(h) for h in halves)
    sd = math.sqrt(sum(s * s for _, s in point["shares"]))
    for got, way in zip(said["rss_deg"], (-1, 1)):
        linear = point["middle"] + way * rss
        held.near("firing rss", got, min(max(linear, point["worst"][0]), point["worst"][1]), ANGLES)
    held.near("firing sd", said["sd_deg"], sd, ANGLES)
    names = [section.gauge_of(given) or "gauge", "stroke", "rod", "pin_offset", "plug_tilt"]
    by_name = {share["of"]: share for share in said["shares"]}
    for name, (half, own) in zip(names, point["shares"]):
        if abs(half) > 1e-6:
            share = by_name.get(name, {})
            held.near(f"share of {name}", share.get("half_width_deg"), half, ANGLES)
            held.near(f"share of {name}", share.get("worst_share"), abs(half) / total, 1e-6)
            held.near(f"share of {name}", share.get("variance_share"), own * own / (sd * sd), 1e-6)
    allowed = None
    if size.half > 0.0 and " by " not in str(given):
        ends = (size.lower, size.upper)
        deg = [e if kind == "deg" else section.engine.angle(e) for e in ends]
        high = [section.engine.drop(e) if kind == "deg" else e for e in ends]
        for got, one in zip(said["allowed_deg"] + said["allowed_height"], deg + high):
            held.near("allowed", got, one, ANGLES)
        allowed = deg
        if said["gauge_keeps_it"] is not None:
            if kind == "deg":
                keeps = point["worst"][0] >= ends[0] - 1e-9 and point["worst"][1] <= ends[1] + 1e-9
            else:
                reads = [(height / cos + way * gauge) * math.cos(math.radians(t))
                         for way in (-1, 1) for t in (section.tilt.lower, section.tilt.middle, section.tilt.upper)]
                keeps = min(reads) >= ends[0] - 1e-9 and max(reads) <= ends[1] + 1e-9
            held.hold("gauge keeps it", (said["gauge_keeps_it"] == "holds") == keeps,
                      f"{said['gauge_keeps_it']}, should be {keeps}")
    return point["degrees"], allowed or point["worst"]


def hold_now(held, section, said):
    given = section.given["fires_now"]
    kind, size = section.angle_or_length(given)
    if kind == "deg":
        degrees, worst = size.nominal, [size.lower, size.upper]
    else:
        by = " by " in str(given)
        cos = math.cos(math.radians(section.tilt.nominal)) if by else 1.0
        degrees = section.engine.angle(size.nominal * cos)
        tilts = three(section.tilt) if by else [0.0]
        every = [section.at(*values).angle(max(0.0, read) * math.cos(math.radians(tilt)))
                 for read in three(size) for tilt in tilts
                 for values in itertools.product(*(three(s) for s in section.sizes()))]
        worst = [min(every), max(every)]
    held.near("now degrees", said["degrees"], degrees, ANGLES)
    held.near("now height", said["height"], section.engine.drop(degrees), ANGLES)
    for got, wanted in zip(said["worst_deg"], worst):
        held.near("now worst", got, wanted, ANGLES)
    return degrees, worst


def sides_of(engine, span):
    """(height, degrees before, degrees after) of the two points at one height that lie so far apart."""
    def off(height):
        return engine.angle(height, 1) + engine.angle(height, -1) - span

    height = brentq(off, 0.0, engine.drop(-engine.bottom), xtol=1e-15, rtol=1e-15)
    return height, engine.angle(height, 1), engine.angle(height, -1)


def hold_stops(held, section, found):
    engine, stops = section.engine, section.given["stops"]
    before, after = float(str(stops["before"]).removesuffix(" deg")), float(str(stops["after"]).removesuffix(" deg"))
    after += 360.0 * (after < before)
    wheel = section.degrees(stops["wheel"]).upper
    holds = section.length(stops["holds"]).upper if "holds" in stops else section.gauge
    span = after - before
    height = sides_of(engine, span)[0]
    held.near("stops top", found["top_deg"] % 360.0, (before + engine.angle(height, 1)) % 360.0, ANGLES)
    held.near("stops middle", found["middle_deg"] % 360.0, (0.5 * (before + after)) % 360.0)
    held.near("stops height", found["height"], height, ANGLES)
    off = []  # of the top, with both readings and both heights at their limits
    for w1, w2, d1, d2 in itertools.product((-1, 1), repeat=4):
        reads = [-engine.angle(height + d1 * holds, 1) + w1 * wheel, engine.angle(height + d2 * holds, -1) + w2 * wheel]
        off.append(reads[0] + sides_of(engine, reads[1] - reads[0])[1])
    held.hold("stops worst", 0.0 <= found["worst_deg"] - max(map(abs, off)) + ANGLES <= 0.01 + ANGLES,
              f"{found['worst_deg']} should be {max(map(abs, off))}, and a little more does no harm")
    sides = [0.5 * (engine.angle(height + holds, side) - engine.angle(height - holds, side)) for side in (1, -1)]
    sd = math.sqrt((2 * wheel ** 2 + sides[0] ** 2 + sides[1] ** 2) / 12.0)
    held.near("stops sd", found["sd_deg"], sd, 1e-3)
    held.near("stops set", found["set_worst_deg"], found["worst_deg"] + wheel)
    held.near("stops set", found["set_sd_deg"], math.hypot(found["sd_deg"], wheel / math.sqrt(3.0)))


def hold_top(held, section, said):
    engine, given = section.engine, section.given
    if "stops" in given:
        hold_stops(held, section, said["by_stops"])
    if "dwell" in given:
        dwell, found = given["dwell"], said["by_dwell"]
        one, two = (float(str(dwell[k]).removesuffix(" deg")) for k in ("from", "to"))
        two += 360.0 * (two < one)
        wheel = section.degrees(dwell["wheel"]).upper
        before, after = sides_of(engine, two - one)[1:]  # unlike where the bore is offset
        held.near("dwell top", found["top_deg"] % 360.0, (one + before) % 360.0, ANGLES)
        held.near("dwell worst", found["worst_deg"], max(before, after) + wheel, ANGLES)
    for gauge in said["gauges"]:
        low = gauge["half_width"] * math.cos(math.radians(section.tilt.nominal))
        for key, side in (("before_deg", 1), ("after_deg", -1)):
            held.near("gauge's dwell", gauge[key], section.engine.angle(low, side), 1e-6)


def hold_offset(held, said, dia, degrees):
    held.near("marks", said["degrees"], degrees, ANGLES)
    held.near("marks", said["arc"], 0.5 * dia * math.radians(degrees), ANGLES)
    held.near("marks", said["chord"], dia * math.sin(0.5 * math.radians(degrees)), ANGLES)


def hold_marks(held, section, said, firing, allowed, turn):
    for key, name in (("rim_dia", "rim"), ("stator_dia", "stator")):
        if key in section.given:
            dia = section.length(section.given[key]).nominal
            hold_offset(held, said[name]["one_degree"], dia, 1.0)
            if firing is not None:
                hold_offset(held, said[name]["firing"], dia, firing)
            if turn is not None and name == "stator":
                hold_offset(held, said[name]["turn"], dia, turn)
    if firing is None or "marks" not in section.given:
        return
    away = {}
    for mark, found in zip(section.given["marks"], said["found"]):
        kind, size = section.angle_or_length(mark["at"])
        limits, degrees = [size.lower, size.upper], size.nominal
        if kind == "length":
            rim = section.length(section.given["rim_dia"])
            degrees = math.degrees(2.0 * size.nominal / rim.nominal)
            every = [math.degrees(2.0 * a / d) for a in limits for d in (rim.lower, rim.upper)]
            limits = [min(every), max(every)]
        off = (degrees - firing + 180.0) % 360.0 - 180.0
        away[mark["mark"]] = abs(off)
        held.near("marks found", found["degrees"], degrees)
        held.near("marks found", found["limits_deg"][0], limits[0])
        held.near("marks found", found["limits_deg"][1], limits[1])
        held.near("marks found", found["early_deg"], off, ANGLES)

        def meets(turns, limits=limits):
            ends = sorted(turns * e for e in limits)
            return any(ends[0] + 360 * k <= allowed[1] + 1e-9 and allowed[0] <= ends[1] + 360 * k + 1e-9
                       for k in (-2, -1, 0, 1, 2))

        held.hold("marks fit", found["fits"] == meets(1), f"{found} beside {allowed}")
        if not found["fits"]:
            held.hold("marks fit", found["fits_turned_round"] == meets(-1), f"{found} beside {allowed}")
    held.hold("nearest mark", away[said["nearest"]] <= min(away.values()) + 1e-9, f"{said['nearest']} of {away}")


def hold_slot(held, section, said, firing, now):
    given = section.given["slot"]
    none = Size(0.0, 0.0, 0.0)
    dia, length = section.length(given["dia"]), section.length(given["length"])
    screw = section.length(given["screw"]) if "screw" in given else none
    whole = [length.nominal - screw.nominal, length.lower - screw.upper]
    if "free_earlier" in given:
        free = section.length(given["free_earlier"])
        arcs = {"earlier": [free.nominal, free.lower], "later": [whole[0] - free.nominal, whole[1] - free.upper]}
    else:
        arcs = {side: [0.5 * w for w in whole] for side in ("earlier", "later")}
    for side, (nominal, least) in arcs.items():
        held.near("slot", said[side]["arc"], nominal)
        held.near("slot", said[side]["degrees"], math.degrees(2.0 * nominal / dia.nominal))
        held.near("slot", said[side]["least_deg"], math.degrees(2.0 * max(0.0, least) / dia.upper))
    if firing is None or now is None:
        return None
    degrees, worst = firing - now[0], [firing - now[1][1], firing - now[1][0]]
    turn = said["turn"]
    held.near("turn", turn["earlier_deg"], degrees, ANGLES)
    for got, wanted in zip(turn["worst_deg"], worst):
        held.near("turn worst", got, wanted, ANGLES)
    side = "earlier" if degrees >= 0.0 else "later"
    way = 1.0 if side == "earlier" else -1.0
    held.near("turn arc", turn["arc"], abs(math.radians(degrees)) * 0.5 * dia.nominal, ANGLES)
    held.near("turn free", turn["free_arc"], arcs[side][0], ANGLES)
    held.near("turn short", turn["short_arc"], max(0.0, turn["arc"] - turn["free_arc"]), ANGLES)
    least = max(0.0, arcs[side][1])
    most = max(way * w for w in worst)
    other = "later" if side == "earlier" else "earlier"
    back = max(-way * w for w in worst)  # where the worst lies on the other side
    missing, missing_back = (max(0.0, *(math.radians(angle) * 0.5 * d - room for d in (dia.lower, dia.upper)))
                             for angle, room in ((most, least), (back, max(0.0, arcs[other][1]))))
    # Told as no less than the nominal shortage, whose sizes may lie outside their limits.
    held.near("turn short worst", turn["short_arc_worst"], max(missing, missing_back, turn["short_arc"]), ANGLES)
    sides = [side] if turn["short_arc"] > 0.0 or missing > missing_back + 1e-9 else \
        [other] if missing_back > missing + 1e-9 else [None, side, other]
    held.hold("short side", turn["short_side"] in sides, f"{turn['short_side']}, should be of {sides}")
    fits = missing <= 1e-9 and missing_back <= 1e-9
    wanted = "fails" if turn["short_arc"] > 1e-9 else "holds" if fits else "doubtful"
    held.hold("turn verdict", turn["verdict"] in (wanted, "not judged"), f"{turn}, should be {wanted}")
    furthest = now[0] + way * math.degrees(2.0 * arcs[side][0] / dia.nominal)
    held.near("turn furthest", turn["furthest_deg"], furthest, ANGLES)
    held.near("turn furthest", turn["furthest_height"], section.engine.drop(furthest), ANGLES)
    return degrees


def curve_at(points, rpm):
    rpm = min(max(rpm, points[0][0]), points[-1][0])
    for (a, one), (b, two) in zip(points, points[1:]):
        if a <= rpm <= b:
            return one + (two - one) * (rpm - a) / (b - a)
    return points[0][1]


def hold_settings(held, section, said, firing):
    curves = {c["curve"]: c for c in section.given.get("curves", [])}
    for setting in said["settings"]:
        for spark in setting["sparks"]:
            degrees, name, covered = 0.0, setting["setting"], True
            while name in curves:
                points = [[float(v) for v in p] for p in curves[name]["points"]]
                degrees += curve_at(points, spark["rpm"])
                covered = covered and points[0][0] <= spark["rpm"] <= points[-1][0]
                name = curves[name].get("counts_from", "top")
            degrees += firing if name == "fire_at" else 0.0
            held.near("sparks", spark["degrees"], degrees, ANGLES)
            held.near("sparks", spark["height"], section.engine.drop(degrees), ANGLES)
            held.hold("sparks", spark["covered"] == covered, f"{spark}, covered {covered}")
            if spark["rpm"]:
                held.near("sparks", spark["milliseconds"], degrees / (6.0 * spark["rpm"]) * 1000.0, ANGLES)
    if len(said["settings"]) > 1:
        first = {s["rpm"]: s["degrees"] for s in said["settings"][0]["sparks"]}
        for beside, other in zip(said["comparisons"], said["settings"][1:]):
            for row, spark in zip(beside["rows"], other["sparks"]):
                held.near("beside", row["earlier_deg"], spark["degrees"] - first[spark["rpm"]], ANGLES)


def compare(held, program, text):
    done = subprocess.run([program, "timing", "-", "--json"], input=text, capture_output=True, text=True, timeout=30,
                          check=False)
    held.hold("exit codes", done.returncode in (0, 1), f"{done.returncode}: {done.stderr.strip()}")
    if done.returncode not in (0, 1):
        return
    said, section = json.loads(done.stdout), Section(reference.load(text))
    firing = allowed = now = turn = None
    if "fire_at" in section.given:
        firing, allowed = hold_firing(held, section, said["firing"])
    if "fires_now" in section.given:
        now = hold_now(held, section, said["now"])
    hold_top(held, section, said["top"])
    if "slot" in section.given:
        turn = hold_slot(held, section, said["slot"], firing, now)
    hold_marks(held, section, said["marks"], firing, allowed, turn)
    hold_settings(held, section, said, firing)


def jobs(arguments):
    if arguments[0] == "--random":
        first, count = int(arguments[1]), int(arguments[2])
        for seed in range(first, first + count):
            yield f"engine {seed}", Maker(seed).job()
    else:
        for path in arguments:
            with open(path, encoding="utf-8") as file:
                text = file.read()
            if "\ntiming:" in text:
                yield path, text


def main():
    held = Figures()
    for name, text in jobs(sys.argv[2:]):
        held.ask(name, lambda: compare(held, sys.argv[1], text))
    return held.end("engines")


if __name__ == "__main__":
    sys.exit(main())
