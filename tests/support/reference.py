#!/usr/bin/env python3
"""An independent answer to `trialfit check --json --all`, to hold the program's answer against.

    reference.py JOB [--inflate F]     prints the answer as JSON

Written from the design's words and not from the library. Nothing here adds up sensitivities: every
face position is a plain number worked out from plain sizes, and the bounds come from evaluating
those numbers again and again with other sizes: at every corner of the limits (worst case, up to
CORNERS sizes; beyond, each size at its worse limit), and by differences (RSS). Sizes bound by a
redundant dimension are moved by weighted least squares; their worst case runs over every vertex of
the limits that closes the loops.
"""
import itertools
import json
import sys

import yaml
from reference_sizes import (Context, Size, numbers_with_units, parse, taper,
                             thread_diameter_and_pitch)

CORNERS = 8  # true enumeration up to this many sizes


def load(text):
    """Every scalar stays text: what YAML takes for a number must not lose digits or become a time.
    """
    return yaml.load(text, yaml.BaseLoader)


def solve(matrix, right):
    """Gauss with row pivots; None where the matrix is singular."""
    n = len(right)
    rows = [list(matrix[i]) + [right[i]] for i in range(n)]
    for c in range(n):
        p = max(range(c, n), key=lambda i: abs(rows[i][c]))
        if abs(rows[p][c]) < 1e-14:
            return None
        rows[c], rows[p] = rows[p], rows[c]
        for i in range(n):
            if i != c and rows[i][c]:
                f = rows[i][c] / rows[c][c]
                rows[i] = [a - f * b for a, b in zip(rows[i], rows[c])]
    return [rows[i][n] / rows[i][i] for i in range(n)]


class Part:
    def __init__(self, index, given):
        self.index, self.given, self.name = index, given, given["part"]
        self.turns = given.get("turns", "false") == "true"
        self.tree = []       # (face, from, size): steps that reach every face from the zero
        self.redundant = []  # (face, from, size): dimensions beyond those
        self.rings, self.cones, self.threads, self.seats = {}, {}, {}, []


class Job:
    """The sizes x_0, x_1, ... of a job, and where every face lies for given values of them."""

    def __init__(self, document):
        self.document = document
        self.context = Context(units=document.get("units", "mm"),
                               general=document.get("general_tolerance", ""), gauges={})
        for name, width in document.get("gauges", {}).items():
            self.context.gauges[name] = self.read(width, True).nominal
        self.sizes, self.branch = [], {}
        self.parts = [Part(i, given) for i, given in enumerate(document["parts"])]
        self.by_name = {part.name: part for part in self.parts}
        for part in self.parts:
            self.read_part(part)
        self.order = self.order_of_seats()
        self.nominals = [s.nominal for s in self.sizes]
        self.middles = [s.middle for s in self.sizes]
        self.read_loops()
        self.positions(self.adjust(self.nominals), choose=True)

    def read(self, written, bare=False):
        return parse(written, self.context, bare)

    def size(self, written, bare=False):
        self.sizes.append(written if isinstance(written, Size) else self.read(written, bare))
        return len(self.sizes) - 1

    # ---- reading

    def read_part(self, part):
        given = part.given
        dimensions = []
        for face, written in given["faces"].items():
            if written == "zero":
                part.zero = face
                continue
            for one in written if isinstance(written, list) else [written]:
                if isinstance(one, dict):
                    one = dict(one)
                    origin = one.pop("from")
                else:
                    one, origin = one.rsplit(" from ", 1)
                dimensions.append((face, origin.strip(), self.size(one)))
        known = {part.zero}
        while True:
            ready = [d for d in dimensions if (d[0] in known) != (d[1] in known)]
            if not ready:
                break
            part.tree.append(ready[0])
            dimensions.remove(ready[0])
            known |= set(ready[0][:2])
        part.redundant = dimensions
        for name, ring in given.get("rings", {}).items():
            part.rings[name] = self.read_ring(ring)
        cones = given.get("cones", {}) | ({"cone": given["cone"]} if "cone" in given else {})
        for name, cone in cones.items():
            part.cones[name] = {"at": cone["at"], "dia": self.size(cone["dia"]),
                                "taper": taper(cone["taper"]),
                                "length": self.size(cone["length"], True)}
        threads = given.get("threads", {}) | ({"thread": given["thread"]} if "thread" in given
                                              else {})
        for name, thread in threads.items():
            d, pitch = thread_diameter_and_pitch(thread["form"], self.context)
            part.threads[name] = {"from": thread["from"], "to": thread["to"], "d": d,
                                  "pitch": pitch,
                                  "lead_in": self.size(thread.get("lead_in", "0"), True),
                                  "run_out": self.size(thread.get("run_out", "0"), True)}
        seats = given.get("sits", [])
        for seat in seats if isinstance(seats, list) else [seats]:
            part.seats.append(self.read_seat(seat))

    def read_ring(self, ring):
        """(inboard face, beyond), (outboard face, beyond), bore, outside diameter"""
        inboard = outboard = (ring["from"], 0.0)
        if "to" in ring:
            outboard = (ring["to"], 0.0)
        elif "below" in ring:
            inboard = (ring["from"], -self.read(ring["below"], True).nominal)
        else:
            outboard = (ring["from"], self.read(ring["above"], True).nominal)
        return {"in": inboard, "out": outboard, "bore": self.read(ring["bore"], True).nominal,
                "od": self.read(ring["od"], True).nominal}

    def read_seat(self, given):
        other, feature = given["against"].split(".")
        seat = {"cone": "cone" in given, "own": given.get("cone", given.get("face")),
                "part": self.by_name[other], "other": feature, "offset": None, "key": None,
                "play": None, "shims": []}
        if "offset" in given:
            seat["offset"] = self.size(given["offset"])
        if "play" in given:
            half = 0.5 * self.read(given["play"], True).upper
            seat["play"] = self.size(Size(0.0, -half, half, half / 3.0 ** 0.5))
        shims = given.get("shims", {})
        holds = self.read(shims["holds"], True).upper if "holds" in shims else 0.0
        for one in shims.get("fitted", []):
            size = self.read(one, True)
            if size.half == 0.0 and holds > 0.0:
                size = Size(size.nominal, size.nominal - holds, size.nominal + holds, holds / 3.0)
            seat["shims"].append(self.size(size))
        if "key" in given:
            key = given["key"]
            seat["key"] = (self.size(key["height"]), self.size(key["room"]), key["floors"])
        return seat

    def order_of_seats(self):
        order, placed = [], set()
        while len(order) < len(self.parts):
            ready = [p for p in self.parts if p.name not in placed and
                     all(s["part"].name in placed for s in p.seats)]
            order.extend(ready)
            placed |= {p.name for p in ready}
        return order

    # ---- positions

    def positions(self, x, choose=False):
        """The coordinate of every face, from the root part's zero, as {(part, face): number}."""
        z = {}
        for part in self.order:
            local = {part.zero: 0.0}
            for face, origin, size in part.tree:
                if origin in local:
                    local[face] = local[origin] + x[size]
                else:
                    local[origin] = local[face] - x[size]
            base = 0.0
            if part.seats:
                base = self.seated(part, 0, z, local, x, choose)
            for face, value in local.items():
                z[part.name, face] = base + value
        return z

    def seated(self, part, which, z, local, x, choose=False):
        """Where the part's zero lies when it rests on its seat number `which`."""
        seat = part.seats[which]
        extra = sum(x[s] for s in seat["shims"])
        if seat["play"] is not None:
            extra += x[seat["play"]]
        if seat["cone"]:
            hub, shaft = part.cones[seat["own"]], seat["part"].cones[seat["other"]]
            at = z[seat["part"].name, shaft["at"]]
            stand = self.hub_on_shaft((part.name, which), hub, shaft, x, choose)
            if seat["key"] and seat["key"][2] == "cone":
                excess = x[seat["key"][0]] - x[seat["key"][1]]
                stand += max(0.0, 2.0 * excess / shaft["taper"])
            return at + stand + extra - local[hub["at"]]
        at = z[seat["part"].name, seat["other"]]
        if seat["offset"] is not None:
            extra += x[seat["offset"]]
        return at + extra - local[seat["own"]]

    def hub_on_shaft(self, key, hub, shaft, x, choose):
        """How far the hub's gauge plane lies outboard of the shaft's.

        The bore comes on from outboard and stops at the first place where it is as narrow as the
        shaft: its mouth, its small end, or either end of the shaft's cone. Four trial contacts;
        that one holds which lies on both cones and stops the hub farthest out.
        """
        big, mouth = x[shaft["dia"]], x[hub["dia"]]
        long, deep = x[shaft["length"]], x[hub["length"]]
        t, u = shaft["taper"], hub["taper"]
        trials = [(big - mouth) / t,                           # the hub's mouth on the shaft
                  (big - (mouth - u * deep)) / t - deep,       # the hub's small end on the shaft
                  (big - mouth) / u,                           # the shaft's big end in the hub
                  long - (mouth - (big - t * long)) / u]       # the shaft's small end in the hub
        if choose:
            places = [trials[0], trials[1] + deep, 0.0, long]  # of each contact, along the shaft
            slack = 1e-9
            real = [i for i in range(4) if -slack <= places[i] <= long + slack and
                    -slack <= places[i] - trials[i] <= deep + slack]
            self.branch[key] = max(real, key=lambda i: trials[i])
        return trials[self.branch[key]]

    # ---- sizes bound together by redundant dimensions and seats

    def residuals(self, x):
        z = self.positions(x, choose=not self.branch)
        out = []
        for part in self.parts:
            for face, origin, size in part.redundant:
                out.append(z[part.name, face] - z[part.name, origin] - x[size])
            for which in range(1, len(part.seats)):
                local = {face: z[part.name, face] - z[part.name, part.zero]
                         for face in part.given["faces"]}
                out.append(self.seated(part, which, z, local, x, choose=True)
                           - z[part.name, part.zero])
        return out

    def read_loops(self):
        """The rows d(residual)/d(size), by difference, and which sizes each loop binds."""
        count = len(self.residuals(self.middles))
        self.rows = [[0.0] * len(self.sizes) for _ in range(count)]
        self.bound = set()
        if not count:
            return
        for i in range(len(self.sizes)):
            up, down = list(self.middles), list(self.middles)
            up[i] += 1.0
            down[i] -= 1.0
            for k, (a, b) in enumerate(zip(self.residuals(up), self.residuals(down))):
                self.rows[k][i] = round((a - b) / 2.0, 9)
                if self.rows[k][i] and self.sizes[i].half > 0.0:
                    self.bound.add(i)
        self.groups = []  # loops that share no size are worked apart
        for row in self.rows:
            members = {i for i in self.bound if row[i]}
            loops = [row]
            for group in [g for g in self.groups if g[0] & members]:
                self.groups.remove(group)
                members |= group[0]
                loops += group[1]
            self.groups.append((members, loops))

    def adjust(self, x):
        """Weighted least squares: the sizes nearest to x, each counted in its own sd, that close
        every loop."""
        if not getattr(self, "rows", None):
            return x
        misclosure = self.residuals(x)
        weights = [self.sizes[i].sd ** 2 for i in range(len(x))]
        normal = [[sum(a[i] * weights[i] * b[i] for i in self.bound) for b in self.rows]
                  for a in self.rows]
        k = solve(normal, misclosure)
        x = list(x)
        for i in self.bound:
            x[i] -= weights[i] * sum(row[i] * k[j] for j, row in enumerate(self.rows))
        return x

    def vertices(self, members, rows):
        """Every vertex of the limits of `members` that closes the loops, as {size: value}."""
        members, r = sorted(members), len(rows)
        found = []
        zero = self.residuals(self.middles)
        for basis in itertools.combinations(members, r):
            others = [i for i in members if i not in basis]
            matrix = [[row[i] for i in basis] for row in rows]
            for ends in itertools.product((-1.0, 1.0), repeat=len(others)):
                fixed = {i: e * self.sizes[i].half for i, e in zip(others, ends)}
                right = [-zero[self.rows.index(row)] - sum(row[i] * v for i, v in fixed.items())
                         for row in rows]
                moved = solve(matrix, right)
                if moved is None or any(abs(v) > self.sizes[i].half + 1e-12
                                        for i, v in zip(basis, moved)):
                    continue
                fixed.update(zip(basis, moved))
                found.append({i: self.middles[i] + v for i, v in fixed.items()})
        if not found:
            raise ValueError("the sizes contradict each other")
        return found

    # ---- bounds of any quantity that is linear in the sizes

    def bounds(self, quantity, inflate=1.0):
        """{nominal, middle, worst, rss} of quantity(x, positions)."""
        def at(x):
            return quantity(x, self.positions(x))

        middle = at(self.adjust(self.middles))
        squares, free = 0.0, []
        for i, size in enumerate(self.sizes):
            if size.half == 0.0:
                continue
            up, down = list(self.middles), list(self.middles)
            up[i], down[i] = size.upper, size.lower
            effect = 0.5 * (at(self.adjust(up)) - at(self.adjust(down)))
            squares += effect * effect
            if i not in self.bound and abs(effect) > 1e-13:
                free.append((i, effect))
        lo, hi = self.corners(at, free)
        still = at(self.middles)
        for members, rows in getattr(self, "groups", []):
            values = []
            for vertex in self.vertices(members, rows):
                x = list(self.middles)
                for i, value in vertex.items():
                    x[i] = value
                values.append(at(x) - still)
            lo, hi = lo + min(values), hi + max(values)
        half = inflate * squares ** 0.5
        return {"nominal": at(self.adjust(self.nominals)), "middle": middle, "worst": [lo, hi],
                "rss": [middle - half, middle + half]}

    def corners(self, at, free):
        """Least and greatest value with the bound sizes left at their middles."""
        if len(free) > CORNERS:
            ends = []
            for sign in (-1.0, 1.0):
                x = list(self.middles)
                for i, effect in free:
                    worse = sign * effect > 0.0
                    x[i] = self.sizes[i].upper if worse else self.sizes[i].lower
                ends.append(at(x))
            return ends
        values = []
        for choice in itertools.product((0, 1), repeat=len(free)):
            x = list(self.middles)
            for (i, _), end in zip(free, choice):
                x[i] = self.sizes[i].upper if end else self.sizes[i].lower
            values.append(at(x))
        return min(values), max(values)


def least(all_bounds):
    """Bounds of the least of several: each end the least of that end."""
    return {"nominal": min(b["nominal"] for b in all_bounds),
            "middle": min(b["middle"] for b in all_bounds),
            "worst": [min(b["worst"][e] for b in all_bounds) for e in (0, 1)],
            "rss": [min(b["rss"][e] for b in all_bounds) for e in (0, 1)]}


def verdict(bounds, at_least, at_most, beyond=False):
    """holds in the worst case, doubtful where only the nominal passes, else fails."""
    def passes(lo, hi):
        low = at_least is None or (lo > at_least if beyond else lo >= at_least)
        return low and (at_most is None or hi <= at_most)

    if passes(*bounds["worst"]):
        return "holds"
    return "doubtful" if passes(bounds["nominal"], bounds["nominal"]) else "fails"


def end_name(part, end):
    face, beyond = end
    return f"{part.name}.{face}" + (f" {beyond:+g}" if beyond else "")


def clearances(job, inflate):
    running = job.document.get("running_clearance")
    running = job.read(running, True).nominal if running is not None else 0.0
    out = {}
    for later in job.parts:
        for earlier in job.parts[:later.index]:
            seats = {((s["part"].name, s["other"]), (p.name, s["own"]))
                     for p, q in ((later, earlier), (earlier, later)) for s in p.seats
                     if not s["cone"] and s["part"] is q}
            for a in earlier.rings.values():
                for b in later.rings.values():
                    if not (b["bore"] < a["od"] and a["bore"] < b["od"]):
                        continue
                    (fa, da), (fb, db) = a["out"], b["in"]
                    pair = ((earlier.name, fa), (later.name, fb))
                    if da == db == 0.0 and (pair in seats or pair[::-1] in seats):
                        continue
                    key = (end_name(earlier, a["out"]), end_name(later, b["in"]))
                    if key in out:
                        continue
                    gap = job.bounds(lambda x, z, f=pair, d=db - da: z[f[1]] - z[f[0]] + d,
                                     inflate)
                    apart = running if earlier.turns != later.turns else 0.0
                    out[key] = {"between": list(key), "at_least": apart,
                                "verdict": verdict(gap, apart, None, beyond=apart == 0.0), **gap}
    return list(out.values())


def thread_ends(job, name):
    """(inboard end, outboard end) of the whole thread, as functions of sizes and positions."""
    part, feature = name.split(".")
    thread = job.by_name[part].threads[feature]
    z0 = job.positions(job.nominals)
    ends = []
    inward = 1.0 if z0[part, thread["to"]] > z0[part, thread["from"]] else -1.0
    for face, short, sign in ((thread["from"], thread["run_out"], inward),
                              (thread["to"], thread["lead_in"], -inward)):
        ends.append(lambda x, z, f=(part, face), s=short, g=sign: z[f] + g * x[s])
    return ends if inward > 0.0 else ends[::-1]


def ring_ends(job, name):
    part, feature = name.split(".")
    ring = job.by_name[part].rings[feature]
    return [lambda x, z, f=(part, face), d=beyond: z[f] + d for face, beyond in
            (ring["in"], ring["out"])]


def limit(job, written, kind, features):
    """(value in the file's unit or None, share or None) of a check's at_least or at_most."""
    words = str(written).split()
    if kind == "grip" and words[-1] in ("d", "pitches", "pitch"):
        part, name = features[0].split(".")
        thread = job.by_name[part].threads[name]
        return float(words[0]) * thread["d" if words[-1] == "d" else "pitch"], None
    if kind == "overlap" and str(written).endswith("%"):
        share = float(str(written).rstrip("% ")) / 100.0
        start, end = ring_ends(job, features[0])
        z = job.positions(job.adjust(job.nominals))
        return share * (end(None, z) - start(None, z)), share
    number, unit = (words + [None])[:2]
    return numbers_with_units([(number, unit)], job.context)[0], None


def check(job, given, inflate):
    kind = next(k for k in ("gap", "grip", "overlap") if k in given)
    features = list(given[kind].values()) if kind == "overlap" else given[kind]
    if kind == "gap":
        inboard, outboard = (tuple(f.split(".")) for f in features)
        bounds = job.bounds(lambda x, z: z[outboard] - z[inboard], inflate)
        differences = None
    else:
        ends = thread_ends if kind == "grip" else ring_ends
        both = [ends(job, f) for f in features]
        differences = [lambda x, z, a=a, b=b: b[1](x, z) - a[0](x, z) for a in both for b in both]
        bounds = least([job.bounds(d, inflate) for d in differences])
    limits, judged, shares = {}, bounds, {}
    for side in ("at_least", "at_most"):
        limits[side] = None
        if side in given and given[side] != "strength":
            limits[side], shares[side] = limit(job, given[side], kind, features)
    result = {"check": given["check"], "kind": kind, **bounds, **limits}
    if kind == "overlap":
        z = job.positions(job.adjust(job.nominals))
        result["share"] = bounds["nominal"] / (both[0][1](None, z) - both[0][0](None, z))
    verdicts = []
    for side in ("at_least", "at_most"):
        value, share = limits[side], shares.get(side)
        if share is not None:  # exact: each difference less the share of the length
            judged = least([job.bounds(
                lambda x, z, d=d: d(x, z) - share * (both[0][1](x, z) - both[0][0](x, z)),
                inflate) for d in differences])
            value = 0.0
        if value is not None:
            verdicts.append(verdict(judged if share is not None else bounds,
                                    value if side == "at_least" else None,
                                    value if side == "at_most" else None))
    result["verdict"] = worst_of(verdicts)
    return result


def worst_of(verdicts):
    return max(verdicts, key=["holds", "doubtful", "fails"].index, default="holds")


def first_contact(found):
    deepest = min(found, key=lambda c: c["nominal"], default=None)
    if deepest is None or deepest["nominal"] >= 0.0:
        return None
    proud = {"nominal": -deepest["nominal"]}
    for kind in ("worst", "rss"):
        lo, hi = deepest[kind]
        proud[kind] = [max(0.0, -hi), max(0.0, -lo)]
    return {"between": deepest["between"], "stands_proud": proud}


def answer(text, inflate=1.0):
    job = Job(load(text))
    found = clearances(job, inflate)
    checks = [check(job, given, inflate) for given in job.document.get("checks", [])]
    return {"trialfit": 1, "verdict": worst_of([c["verdict"] for c in found + checks]),
            "clearances": found, "checks": checks, "first_contact": first_contact(found)}


if __name__ == "__main__":
    factor = float(sys.argv[sys.argv.index("--inflate") + 1]) if "--inflate" in sys.argv else 1.0
    source = sys.stdin.read() if sys.argv[1] == "-" else open(sys.argv[1], encoding="utf-8").read()
    print(json.dumps(answer(source, factor), indent=2))
