"""Where every face of a job lies, as plain numbers, and the bounds of anything read off them: the
model half of reference.py."""
import math

import numpy as np
import reference_radial
import yaml
from reference_ends import can_close, document_hub, extremes, meeting_ends, solve
from reference_sizes import Context, Size, parse, taper, thread_diameter_and_pitch

CORNERS = 10  # true enumeration up to this many sizes


class Contradiction(ValueError):
    """No sizes within the limits close the loops."""


def load(text):
    """Every scalar stays text: what YAML takes for a number must not lose digits or become a time.
    """
    return yaml.load(text, getattr(yaml, "CBaseLoader", yaml.BaseLoader))


class Part:
    def __init__(self, index, given):
        self.index, self.given, self.name = index, given, given["part"]
        self.turns = given.get("turns", "false") == "true"
        self.tree = []       # (face, from, size): steps that reach every face from the zero
        self.redundant = []  # (face, from, size): dimensions beyond those
        self.rings, self.cones, self.threads, self.seats = {}, {}, {}, []


class Job:
    """The sizes x_0, x_1, ... of a job, and where every face lies for given values of them."""

    def __init__(self, document, as_written=False, adjusted=True, drawn_home=None):
        self.document = document
        self.tight, self.grows_unknown = False, []
        self.context = Context(units=document.get("units", "mm"),
                               general=document.get("general_tolerance", ""), gauges={})
        for name, width in document.get("gauges", {}).items():
            self.context.gauges[name] = self.read(width, True).nominal
        self.sizes, self.branch, self.growth, self.share = [], {}, {}, {}
        self.closing = False
        self.nearest = {}  # what adjust found, by the sizes as given
        self.closes = {}  # whether the loops that bind some sizes can close
        self.probed, self.lying = {}, {}  # probes by shares; positions by sizes and shares
        self.parts = [Part(i, given) for i, given in enumerate(document["parts"])]
        self.by_name = {part.name: part for part in self.parts}
        for part in self.parts:
            self.read_part(part)
            if reference_radial.asked(document):
                reference_radial.read(self, part)
        self.order = self.order_of_seats()
        # How far a stated torque draws the hub up its cone is not worked out here: it is a size.
        self.draw_up = None
        if drawn_home:
            lo, hi = drawn_home["worst"]
            self.draw_up = self.size(Size(drawn_home["nominal"], lo, hi, 0.5 * (hi - lo) / 3.0 ** 0.5))
        self.readings = [] if as_written else [self.read_reading(given) for given in
                                               document.get("readings", [])]
        self.nominals = [s.nominal for s in self.sizes]
        self.middles = [s.middle for s in self.sizes]
        self.residuals(self.nominals, choose=True)
        if adjusted:
            self.read_loops()

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
                                  "pitch": pitch, "form": thread["form"],
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
        outside = self.read(ring["od"], True)
        return {"in": inboard, "out": outboard, "bore": self.read(ring["bore"], True).nominal,
                "od": outside.nominal, "od_limit": outside.upper}

    def read_seat(self, given):
        other, feature = given["against"].split(".")
        seat = {"cone": "cone" in given, "own": given.get("cone", given.get("face")),
                "part": self.by_name[other], "other": feature, "offset": None, "key": None,
                "play": None, "shims": []}
        if "offset" in given:
            seat["offset"] = self.size(given["offset"])
        if "play" in given:  # from a face outboard only; about an offset both ways, unless pushed
            seat["total"] = self.size(given["play"], True)
            seat["ends"] = {"in": (0.0, 1.0), "out": (-1.0, 0.0), None: (-0.5, 0.5)}[
                given.get("pushed") if "offset" in given else "in"]
            seat["play"] = self.size(self.anywhere(seat))
        shims = given.get("shims", {})
        holds = self.read(shims["holds"], True).upper if "holds" in shims else 0.0
        for one in shims.get("fitted", []):
            size = self.read(one, True)
            if size.half == 0.0 and holds > 0.0:
                size = Size(size.nominal, size.nominal - holds, size.nominal + holds, holds / 3.0)
            seat["shims"].append(self.size(size))
        seat["stock"] = bool(shims.get("stock"))
        seat["stands"] = 0.0
        if seat["offset"] is not None:
            seat["stands"] = sum(self.sizes[i].nominal for i in [seat["offset"], *seat["shims"]])
        if "key" in given:
            key = given["key"]
            seat["key"] = (self.size(key["height"]), self.size(key["room"]), key["floors"])
            seat["off"] = self.key_stand_off(seat)
        return seat

    def anywhere(self, seat):
        """Where a floating part may lie, any place alike likely."""
        lo, hi = (end * self.sizes[seat["total"]].upper for end in seat["ends"])
        return Size(0.5 * (lo + hi), lo, hi, 0.5 * (hi - lo) / 3.0 ** 0.5, "uniform")

    def key_stand_off(self, seat):
        """The size max(0, 2 (height - room)/T) where the key may or may not be higher than its room;
        None where it surely is, or surely is not."""
        height, room = (self.sizes[i] for i in seat["key"][:2])
        if seat["key"][2] != "cone" or height.upper <= room.lower or height.lower >= room.upper:
            return None
        per = 2.0 / abs(seat["part"].cones[seat["other"]]["taper"])
        most = per * (height.upper - room.lower)
        return self.size(Size(per * max(0.0, height.nominal - room.nominal), 0.0, most,
                              0.5 * most / 3.0 ** 0.5, "uniform"))

    def read_reading(self, given):
        reading = {"is": self.size(given["is"]), "pushed": given.get("pushed"), "jams": {},
                   "from": tuple(given["from"].split(".")), "to": tuple(given["to"].split(".")),
                   "fitted": given.get("fitted", [p.name for p in self.parts]), "play": {}}
        if "touching" in given:
            inboard, outboard = (tuple(face.split(".")) for face in given["touching"])
            reading["jams"][outboard[0]] = (inboard, 0.0, outboard, 0.0)
        for part in self.parts:
            for seat in part.seats:
                if seat["play"] is not None and reading["pushed"] is None:
                    reading["play"][part.name] = self.size(self.anywhere(seat))
        return reading

    def order_of_seats(self):
        order, placed = [], set()
        while len(order) < len(self.parts):
            ready = next(p for p in self.parts if p.name not in placed and
                         all(s["part"].name in placed for s in p.seats))
            order.append(ready)
            placed.add(ready.name)
        return order

    # ---- positions

    def positions(self, x, choose=False, reading=None):
        """The coordinate of every face, from the root part's zero, as {(part, face): number}. With
        a reading: as the parts lay for it, floating parts where they were pushed, and what met
        something before its seat resting on that."""
        z = {}
        for part in self.order:
            local = {part.zero: 0.0}
            for face, origin, size in part.tree:
                if origin in local:
                    local[face] = local[origin] + x[size]
                else:
                    local[origin] = local[face] - x[size]
            grown = self.growth.get(part.name, 1.0)
            local = {face: grown * value for face, value in local.items()}
            base = 0.0
            if part.seats:
                base = self.seated(part, 0, z, local, x, choose, reading)
            if reading and part.name in reading["fitted"]:
                base = self.jammed(part, base, z, local, choose, reading)
            for face, value in local.items():
                z[part.name, face] = base + value
        return z

    def jammed(self, part, base, z, local, choose, reading):
        """Where the part's zero lies when it comes to rest on the first thing that it meets."""
        if choose and part.name not in reading["jams"]:
            contacts = []
            for earlier in self.parts[:part.index]:
                if earlier.name in reading["fitted"]:
                    for (fa, da), (fb, db), _ in meeting_ends(earlier, part):
                        contacts.append((z[earlier.name, fa] + da - local[fb] - db,
                                         ((earlier.name, fa), da, (part.name, fb), db)))
            first = max(contacts, default=(base, None), key=lambda c: c[0])
            if first[0] > base:
                reading["jams"][part.name] = first[1]
        if part.name not in reading["jams"]:
            return base
        inboard, da, (_, face), db = reading["jams"][part.name]
        return z[inboard] + da - local[face] - db

    def seated(self, part, which, z, local, x, choose=False, reading=None):
        """Where the part's zero lies when it rests on its seat number `which`."""
        seat = part.seats[which]
        grown = self.growth.get(part.name, 1.0)
        extra = grown * sum(x[s] for s in seat["shims"])
        if seat["play"] is not None:
            if not reading and self.closing:
                extra += x[seat["play"]]
            elif not reading:
                extra += self.share.get(part.name, 0.0) * x[seat["total"]]
            elif reading["pushed"]:
                extra += x[seat["total"]] * seat["ends"][reading["pushed"] == "out"]
            else:
                extra += x[reading["play"][part.name]]
        if seat["cone"]:
            hub, shaft = part.cones[seat["own"]], seat["part"].cones[seat["other"]]
            x = list(x)  # warm cones keep their tapers
            for cone, name in ((hub, part.name), (shaft, seat["part"].name)):
                for figure in ("dia", "length"):
                    x[cone[figure]] *= self.growth.get(name, 1.0)
            way = math.copysign(1.0, shaft["taper"])
            at = z[seat["part"].name, shaft["at"]]
            stand = self.hub_on_shaft((part.name, which), hub, shaft, x, choose)
            if seat["key"] and seat["key"][2] == "cone":
                excess = 2.0 / shaft["taper"] * (x[seat["key"][0]] - x[seat["key"][1]])
                if seat["off"] is not None:
                    excess = x[seat["off"]] * way
                else:  # a key that is lower than its room lifts nothing
                    excess = excess * (excess * way > 0.0)
                stand += grown * excess
            if self.tight and part.name == document_hub(self.document, part):
                stand -= abs(x[self.draw_up]) * way
            return at + stand + extra - local[hub["at"]]
        at = z[seat["part"].name, seat["other"]]
        if seat["offset"] is not None:
            extra += self.growth.get(seat["part"].name, 1.0) * x[seat["offset"]]
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
            slack = 1e-9 * long
            real = [i for i in range(4) if -slack <= places[i] <= long + slack and
                    -slack <= places[i] - trials[i] <= deep + slack]
            self.branch[key] = max(real, key=lambda i: trials[i])
        return trials[self.branch[key]]

    # ---- sizes bound together by redundant dimensions and seats

    def residuals(self, x, choose=False):
        """Sizes were measured cold, so loops close cold."""
        warm, self.growth = self.growth, {}
        tight, self.tight = self.tight, False  # and before the nut was tightened
        found = self.cold_residuals(x, choose)
        self.growth, self.tight = warm, tight
        return found

    def cold_residuals(self, x, choose):
        self.closing = True  # what says a thing twice was measured wherever the parts lay
        z = self.positions(x, choose)
        out = []
        for part in self.parts:
            for face, origin, size in part.redundant:
                out.append(z[part.name, face] - z[part.name, origin] - x[size])
            for which in range(1, len(part.seats)):
                local = {face: z[part.name, face] - z[part.name, part.zero]
                         for face in part.given["faces"]}
                out.append(self.seated(part, which, z, local, x, choose)
                           - z[part.name, part.zero])
        self.closing = False
        for reading in self.readings:
            lay = self.positions(x, choose, reading)
            out.append(lay[reading["to"]] - lay[reading["from"]] - x[reading["is"]])
        return out

    def read_loops(self):
        """The rows d(residual)/d(size), by difference, and which sizes each loop binds."""
        self.at_middles = self.residuals(self.middles)
        count = len(self.at_middles)
        self.rows = [[0.0] * len(self.sizes) for _ in range(count)]
        self.bound = set()
        if not count:
            return
        for i in range(len(self.sizes)):
            up, down = list(self.middles), list(self.middles)
            step = 0.001 * (1.0 + abs(self.middles[i]))  # small: a key must stay too tall
            up[i] += step
            down[i] -= step
            for k, (a, b) in enumerate(zip(self.residuals(up), self.residuals(down))):
                slope = (a - b) / (2.0 * step)
                self.rows[k][i] = slope if abs(slope) > 1e-9 else 0.0
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
        key = tuple(x)
        if key not in self.nearest:
            self.nearest[key] = self.nearest_to(x)
        return self.nearest[key]

    def nearest_to(self, x):
        misclosure = self.residuals(x)
        weights = [self.sizes[i].sd ** 2 for i in range(len(x))]
        normal = [[sum(a[i] * weights[i] * b[i] for i in self.bound) for b in self.rows]
                  for a in self.rows]
        k = solve(normal, misclosure)
        x = list(x)
        for i in self.bound:
            x[i] -= weights[i] * sum(row[i] * k[j] for j, row in enumerate(self.rows))
        return x

    def extremes(self, members, rows, effects):
        """Least and greatest sum of effects (by half-width, about the middles) over all sizes that
        keep within their limits and close the loops: by linear programming's dual, whose corners
        each let as many sizes float as there are loops."""
        members = sorted(members)
        b = [-self.at_middles[self.rows.index(row)] for row in rows]
        a = [[row[i] * self.sizes[i].half for row in rows] for i in members]
        ends = extremes(np.array(a), np.array(b), np.array([effects[i] for i in members]))
        if tuple(members) not in self.closes:
            self.closes[tuple(members)] = can_close(a, b)
        if not self.closes[tuple(members)]:
            raise Contradiction("the sizes contradict each other")
        return ends

    # ---- bounds of any quantity that is linear in the sizes

    def probes(self):
        """The sizes that are spread; sizes and positions with each of them in turn at its upper and
        then at its lower limit, the rest at their middles, as arrays; and the same after the adjustment."""
        key = tuple(sorted(self.share.items()))
        if key not in self.probed:
            spread = [i for i, size in enumerate(self.sizes) if size.half > 0.0]
            given = np.tile(np.array(self.middles, dtype=float), (2 * len(spread), 1))
            for k, i in enumerate(spread):
                given[k, i] = self.sizes[i].upper
                given[len(spread) + k, i] = self.sizes[i].lower
            adjusted = np.array([self.adjust(x) for x in given.tolist()]).reshape(given.shape)
            self.probed[key] = spread, *((list(x.T), self.positions(list(x.T)))
                                         for x in (given, adjusted))
        return self.probed[key]

    @staticmethod
    def half_differences(values, count):
        """Half of what lies between the first `count` of values and the others."""
        values = np.broadcast_to(values, 2 * count)
        return 0.5 * (values[:count] - values[count:])

    def placed(self, x):
        x = self.adjust(x)
        return x, self.lie(x)

    def lie(self, x):
        """The positions, worked out once for the same sizes."""
        key = (tuple(x), *sorted(self.share.items()))
        if key not in self.lying:
            self.lying[key] = self.positions(x)
        return self.lying[key]

    def forget(self):
        """To be called when parts grow or are drawn up: nothing lies where it lay."""
        self.probed, self.lying = {}, {}

    def bounds(self, quantity, inflate=1.0):
        """{nominal, middle, worst, rss} of quantity(x, positions), and the same at the `least` and
        the `greatest` end of its movement where a part's play moves it."""
        stated = self.fixed_bounds(quantity, inflate)
        ends = {}
        for part in self.parts:
            for seat in part.seats:
                if seat["play"] is None:
                    continue
                at = []
                for share in seat["ends"]:
                    self.share = {part.name: share}
                    at.append(quantity(self.middles, self.lie(self.middles)))
                self.share = {}
                if abs(at[1] - at[0]) > 1e-12:
                    ends[part.name] = seat["ends"] if at[1] > at[0] else seat["ends"][::-1]
        if not ends:
            return stated
        found = []
        for which in (0, 1):
            self.share = {name: end[which] for name, end in ends.items()}
            found.append(self.fixed_bounds(quantity, inflate))
        self.share = {}
        return {"nominal": stated["nominal"], "middle": stated["middle"],
                "worst": [found[0]["worst"][0], found[1]["worst"][1]],
                "rss": [found[0]["rss"][0], found[1]["rss"][1]],
                "least": found[0], "greatest": found[1]}

    def fixed_bounds(self, quantity, inflate):
        spread, given, adjusted = self.probes()
        moved = self.half_differences(quantity(*adjusted), len(spread))
        squares = float(moved @ moved)
        free = [(i, effect) for i, effect in zip(spread, moved.tolist())
                if i not in self.bound and abs(effect) > 1e-13]
        as_given = self.half_differences(quantity(*given), len(spread)).tolist() if self.bound else []
        effects = {i: effect for i, effect in zip(spread, as_given) if i in self.bound}
        lo, hi = self.corners(lambda x: quantity(x, self.positions(x)), free)
        for members, rows in getattr(self, "groups", []):
            ends = self.extremes(members, rows, effects)
            lo, hi = lo + ends[0], hi + ends[1]
        middle, half = quantity(*self.placed(self.middles)), inflate * squares ** 0.5
        rss = [middle - half, middle + half]
        if any(abs(effect) > 1e-9 for effect in effects.values()):  # of tied sizes: no further
            rss = [min(max(end, lo), hi) for end in rss]
        return {"nominal": quantity(*self.placed(self.nominals)), "middle": middle,
                "worst": [lo, hi], "rss": rss}

    def corners(self, at, free):
        """Least and greatest value with the bound sizes left at their middles."""
        if len(free) > CORNERS:
            ends = []
            for sign in (-1.0, 1.0):
                x = list(self.middles)
                for i, effect in free:
                    x[i] = self.sizes[i].upper if sign * effect > 0.0 else self.sizes[i].lower
                ends.append(at(x))
            return ends
        # All corners in one evaluation: a size that is free is an array of its ends, one for each corner.
        corner, x = np.arange(1 << len(free)), list(self.middles)
        for bit, (i, _) in enumerate(free):
            x[i] = np.where(corner >> bit & 1, self.sizes[i].upper, self.sizes[i].lower)
        values = at(x)
        return float(np.min(values)), float(np.max(values))
