"""Radial gaps and tilt: reference.py's answer. Diameters and eccentricities as plain numbers, evaluated
again and again like the positions along the axis; all in the directions that take most."""


def on_of(centred):
    """What a part is centred on; 'on' is the older spelling."""
    return centred.get("against", centred.get("on"))


def asked(document):
    return any(key in part for part in document["parts"]
               for key in ("centred", "runout", "face_runout")) or any(
                   "air_gap" in check for check in document.get("checks", []))


def read(job, part):
    """The sizes of one part that radial gaps hang on."""
    given, bare = part.given, not job.context.general
    part.rings_wide = {name: {side: job.size(job.read(ring[side], bare)) for side in ("bore", "od")}
                       for name, ring in given.get("rings", {}).items()}
    part.centred = given.get("centred")
    part.loose = None
    if part.centred and part.centred["by"] != "cone":
        part.loose = job.size(part.centred.get("clearance", part.centred.get("play")), True)
    runout = given.get("runout", [])
    part.runout = [(job.size(one.get("is", one) if isinstance(one, dict) else one, True),
                    one.get("at") if isinstance(one, dict) else None)
                   for one in (runout if isinstance(runout, list) else [runout])]
    face = given.get("face_runout")
    part.cocked = (job.size(face["is"], True), job.read(face["dia"], True).nominal) if face else None


def way_up(job, part, axis):
    way = [part]
    while True:
        up = None
        if axis and part.centred:
            up = job.by_name[on_of(part.centred).split(".")[0]]
        elif part.seats:
            up = part.seats[0]["part"]
        if up is None or up in way:
            return way
        part = up
        way.append(part)


def apart(job, a, b, axis):
    one, other = way_up(job, a, axis), way_up(job, b, axis)
    return [p for p in one if p not in other] + [p for p in other if p not in one]


class Gap:
    def __init__(self, job, inner, outer):
        self.job, self.inner, self.outer = job, inner, outer
        (a, ra), (b, rb) = inner, outer
        self.axes = apart(job, a, b, True)
        self.run = self.axes + [p for p in (a, b) if p not in self.axes]
        self.tilted = [p for p in apart(job, a, b, False) if p.cocked]
        self.levers = {}
        for end in ("in", "out"):
            for part in self.tilted:
                seat = part.seats[0] if part.seats else None
                face = part.zero if seat is None else (
                    part.cones[seat["own"]]["at"] if seat["cone"] else seat["own"])
                self.levers[part, end] = abs(self.height(part, face, end)) / part.cocked[1]
            for part in self.run:
                if len(part.runout) == 2:
                    z = job.positions(job.adjust(job.nominals))
                    (_, low), (_, high) = part.runout
                    long = z[part.name, high] - z[part.name, low]
                    self.levers[part, "along", end] = self.height(part, low, end) / long

    def height(self, part, face, end):
        """Of the shared length's end over a face, as far out as the bounds allow."""
        ends = []
        for ring_part, name in (self.inner, self.outer):
            at, beyond = ring_part.rings[name][end]
            beyond *= self.job.growth.get(ring_part.name, 1.0)
            reach = self.job.bounds(lambda x, z, f=(ring_part.name, at), d=beyond:
                                    z[f] + d - z[part.name, face])["worst"]
            ends.append(reach[1] if end == "out" else reach[0])
        return min(ends) if end == "out" else max(ends)

    def at(self, x, end, sign):
        (a, ra), (b, rb) = self.inner, self.outer
        grown = self.job.growth
        wide = 0.5 * (x[b.rings_wide[rb]["bore"]] * grown.get(b.name, 1.0)
                      - x[a.rings_wide[ra]["od"]] * grown.get(a.name, 1.0))
        off = sum(0.5 * times * (x[p.loose] + adds) for p, adds, times in
                  ((p, *warm_register(self.job, p)) for p in self.axes if p.loose is not None))
        for part in self.run:
            if len(part.runout) == 2:
                t = self.levers[part, "along", end]
                off += 0.5 * (abs(1.0 - t) * x[part.runout[0][0]] + abs(t) * x[part.runout[1][0]])
            else:
                off += sum(0.5 * x[size] for size, _ in part.runout)
        off += sum(self.levers[p, end] * x[p.cocked[0]] for p in self.tilted)
        return wide + sign * off

    def bounds(self, sign, inflate):
        both = [self.job.bounds(lambda x, z, e=end: self.at(x, e, sign), inflate)
                for end in ("in", "out")]
        pick = min if sign < 0 else max
        return {"nominal": pick(b["nominal"] for b in both),
                "middle": pick(b["middle"] for b in both),
                "worst": [pick(b["worst"][e] for b in both) for e in (0, 1)],
                "rss": [pick(b["rss"][e] for b in both) for e in (0, 1)]}


def ring(job, name):
    part, feature = name.split(".")
    return job.by_name[part], feature


def warm_register(job, part):
    """(adds, times): a register's clearance on diameter when warm is times (clearance + adds), by the
    two diameters of the fit, each with its own part; where no two diameters of a fit are given, it
    stays. Its limits go no lower than 0."""
    centred, grown = part.centred, lambda p: job.growth.get(p.name, 1.0)
    if centred["by"] != "register":
        return 0.0, 1.0
    name, feature = on_of(centred).split(".")
    other = job.by_name[name]
    loose = job.sizes[part.loose]
    on = other.rings[feature]
    for own in part.rings.values():
        if abs(own["bore"] - on["od"]) <= loose.upper + 1e-9:
            cold, more = on["od"], grown(part) - grown(other)
        elif abs(on["bore"] - own["od"]) <= loose.upper + 1e-9:
            cold, more = on["bore"], grown(other) - grown(part)
        else:
            continue
        opens = cold * more
        if loose.lower + opens >= 0.0:
            return opens, 1.0
        wide = loose.upper - loose.lower
        return -loose.lower, max(0.0, loose.upper + opens) / wide if wide else 0.0
    return 0.0, 1.0


def slopes(job, part):
    """[(size, slope for one unit of it)]: how steeply a part may stand, from its face runout or from
    the two points of its axis whose runout is known."""
    if part.cocked:
        return [(part.cocked[0], 1.0 / part.cocked[1])]
    if len(part.runout) < 2:
        return []
    z = job.positions(job.adjust(job.nominals))
    (one, low), (other, high) = part.runout
    long = abs(z[part.name, high] - z[part.name, low])
    return [(one, 0.5 / long), (other, 0.5 / long)]


def tilt(job, a, b, dia):
    """What a clearance between rings of a and b loses at the edge of the diameter `dia`, as a function
    of the sizes: each part that stands between them swings its edge by slope times radius."""
    if not asked(job.document):
        return lambda x: 0.0
    each = [pair for part in apart(job, a, b, False) for pair in slopes(job, part)]
    return lambda x: sum(0.5 * dia * slope * x[size] for size, slope in each)


def bore(which):
    return which[0].rings[which[1]]["bore"]


def air_gap(job, given, inflate, limit_of, verdict, worst_of):
    inner, outer = sorted((ring(job, name) for name in given["air_gap"]), key=bore)
    gap = Gap(job, inner, outer)
    found = gap.bounds(-1.0, inflate)
    limits = {side: limit_of(job, given[side], "air_gap", None)[0] if side in given else None
              for side in ("at_least", "at_most")}
    widest = gap.bounds(1.0, inflate)
    verdicts = [verdict(found, limits["at_least"], None)]
    if limits["at_most"] is not None:
        verdicts.append(verdict(widest, None, limits["at_most"]))
    return {"check": given["check"], "kind": "air_gap", "widest": widest, **found, **limits,
            "verdict": worst_of(verdicts)}


def lie_in_each_other(job, inner, outer):
    ends = [which[0].rings[which[1]] for which in (inner, outer)]
    names = [which[0].name for which in (inner, outer)]
    for k in (0, 1):
        (start, below), (stop, above) = ends[k]["in"], ends[1 - k]["out"]
        below, above = (d * job.growth.get(n, 1.0) for d, n in ((below, names[k]),
                                                               (above, names[1 - k])))
        length = job.bounds(lambda x, z, a=(names[k], start), b=(names[1 - k], stop),
                            d=above - below: z[b] - z[a] + d)
        if length["worst"][1] <= 1e-9:
            return False
    return True


def bearing(job, inner, outer):
    for one, other in ((inner, outer), (outer, inner)):
        centred = one[0].centred
        if centred and centred["by"] == "bearing" and on_of(centred) == other[0].name:
            slack = bore(outer) - inner[0].rings[inner[1]]["od"]
            if slack <= job.sizes[one[0].loose].upper + 1e-9:
                return True
    return False


def gaps(job, inflate, limit_of, verdict):
    """{pair, figures, verdict} of every turning ring and still ring that are nested."""
    if not asked(job.document):
        return []
    document, out = job.document, []
    needed = document.get("radial_clearance", document.get("running_clearance", "0"))
    own = {frozenset(check["air_gap"]): check["at_least"] for check in document.get("checks", [])
           if "air_gap" in check and "at_least" in check}
    every = [(part, name) for part in job.parts for name in part.rings]
    for inner in every:
        for outer in every:
            if inner[0].turns == outer[0].turns or bore(outer) < inner[0].rings[inner[1]]["od"] - 1e-9:
                continue
            if bearing(job, inner, outer) or not lie_in_each_other(job, inner, outer):
                continue
            names = [f"{part.name}.{name}" for part, name in (inner, outer)]
            least = limit_of(job, own.get(frozenset(names), needed), "air_gap", None)[0]
            found = Gap(job, inner, outer).bounds(-1.0, inflate)
            out.append({"between": names, "at_least": least, **found,
                        "verdict": verdict(found, least, None, beyond=least <= 0.0)})
    return out
