#!/usr/bin/env python3
"""An independent answer to `trialfit check --json --all`, to hold the program's answer against.

    reference.py JOB [--inflate F] [--as-written]     prints the answer as JSON

Written from what the job file means (README.md, DEVELOPERS.md) and not from the library. Nothing
here adds up sensitivities: every face position is a plain number worked out from plain sizes, and the bounds come from evaluating
those numbers again and again with other sizes: at every corner of the limits (worst case, up to
CORNERS sizes; beyond, each size at its worse limit), and by differences (RSS). Sizes bound by a
redundant dimension are moved by weighted least squares; their worst case runs over every vertex of
the limits that closes the loops.
"""
import json
import math
import sys

import reference_heat
import reference_radial
from reference_ends import seat_faces
from reference_job import Contradiction, Job, load, meeting_ends  # noqa: F401
from reference_sizes import numbers_with_units

ROUNDING = 1e-9  # sums that differ by less do so by the order in which they were added


def least(all_bounds):
    """Bounds of the least of several: each end the least of that end."""
    found = {"nominal": min(b["nominal"] for b in all_bounds),
             "middle": min(b["middle"] for b in all_bounds),
             "worst": [min(b["worst"][e] for b in all_bounds) for e in (0, 1)],
             "rss": [min(b["rss"][e] for b in all_bounds) for e in (0, 1)]}
    if any("least" in b for b in all_bounds):
        for end in ("least", "greatest"):
            found[end] = least([b.get(end, b) for b in all_bounds])
    return found


def verdict(bounds, at_least, at_most, beyond=False):
    """holds in the worst case; fails at nominal, or where no sizes within the limits would pass (a
    nominal may lie outside its limits); else doubtful."""
    def passes(lo, hi):
        low = at_least is None or (lo > at_least + ROUNDING if beyond else lo >= at_least - ROUNDING)
        return low and (at_most is None or hi <= at_most + ROUNDING)

    low, high = bounds.get("least", bounds), bounds.get("greatest", bounds)  # where play moves it
    if passes(low["worst"][0], high["worst"][1]):
        return "holds"
    some = passes(low["worst"][1], high["worst"][0])
    return "doubtful" if some and passes(low["nominal"], high["nominal"]) else "fails"


def end_name(part, end):
    face, beyond = end
    return f"{part.name}.{face}" + (f" {beyond:+g}" if beyond else "")


def clearances(job, inflate):
    running = job.document.get("running_clearance")
    running = job.read(running, True).nominal if running is not None else 0.0
    out = {}
    for later in job.parts:
        for earlier in job.parts[:later.index]:
            edges = {}  # of all rings that end at two faces, the outermost edge of what overlaps
            for low, high, dia in meeting_ends(earlier, later):
                edges[low, high] = max(dia, edges.get((low, high), 0.0))
            for ((fa, da), (fb, db)), dia in edges.items():
                key = (end_name(earlier, (fa, da)), end_name(later, (fb, db)))
                pair = ((earlier.name, fa), (later.name, fb))
                da, db = (d * job.growth.get(p.name, 1.0) for d, p in ((da, earlier), (db, later)))
                lost = reference_radial.tilt(job, earlier, later, dia)
                gap = job.bounds(lambda x, z, f=pair, d=db - da, t=lost:
                                 z[f[1]] - z[f[0]] + d - t(x), inflate)
                apart = running if earlier.turns != later.turns else 0.0
                seats = seat_faces(earlier, later).get((fa, fb), []) if da == db == 0.0 else []
                held = verdict(gap, apart, None, beyond=apart == 0.0)
                if seats and held == "holds" and not any(s["stock"] for s in seats):
                    continue  # what is stated, and enough, is not told again
                out[key] = {"between": list(key), "at_least": apart,
                            "verdict": held, **gap}
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
        sign *= job.growth.get(part, 1.0)
        ends.append(lambda x, z, f=(part, face), s=short, g=sign: z[f] + g * x[s])
    return ends if inward > 0.0 else ends[::-1]


def ring_ends(job, name):
    part, feature = name.split(".")
    ring = job.by_name[part].rings[feature]
    grown = job.growth.get(part, 1.0)
    return [lambda x, z, f=(part, face), d=beyond: z[f] + grown * d for face, beyond in
            (ring["in"], ring["out"])]


def limit(job, written, kind, features):
    """(value in the file's unit or None, share or None) of a check's at_least or at_most."""
    words = str(written).split()
    if kind == "engagement" and words[-1] in ("d", "pitches", "pitch"):
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
    if "air_gap" in given:
        return reference_radial.air_gap(job, given, inflate, limit, verdict, worst_of)
    kind = next(k for k in ("gap", "engagement", "overlap") if k in given)
    features = list(given[kind].values()) if kind == "overlap" else given[kind]
    if kind == "gap":
        inboard, outboard = (tuple(f.split(".")) for f in features)
        bounds = job.bounds(lambda x, z: z[outboard] - z[inboard], inflate)
        differences = None
    else:
        ends = thread_ends if kind == "engagement" else ring_ends
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


def internal(thread):
    """Whether a thread is a nut's, by its class; None where it has none."""
    return "H" in thread["form"].split("-")[1] or "G" in thread["form"].split("-")[1] \
        if "-" in thread["form"] else None


def clamps(job):
    """[(part screwed home, its thread, the other part, its thread)]: of each engagement asked for, and
    of each thread on a face seat that could engage just one other."""
    def seated(part):
        return next((s for s in part.seats if not s["cone"] and s["offset"] is None), None)

    def clamp(one, other):
        if one[0] is other[0] or not (seated(one[0]) or seated(other[0])):
            return []
        mine = seated(one[0]) and (not seated(other[0]) or one[0].index > other[0].index)
        return [(*one, *other) if mine else (*other, *one)]

    found = []
    for given in job.document.get("checks", []):
        if "engagement" in given:
            both = [(job.by_name[name.split(".")[0]], name.split(".")[1]) for name in given["engagement"]]
            found += [c for c in clamp(*both) if c not in found]
    for part in job.parts:
        for name, thread in part.threads.items() if seated(part) else ():
            if any((part, name) in (c[:2], c[2:]) for c in found):
                continue
            could = [(p, n) for p in job.parts if p is not part for n, t in p.threads.items()
                     if abs(t["d"] - thread["d"]) < 1e-9 and abs(t["pitch"] - thread["pitch"]) < 1e-9
                     and (None in (internal(t), internal(thread)) or internal(t) != internal(thread))]
            if len(could) == 1:
                found += clamp((part, name), could[0])
    return [(*c, seated(c[0])) for c in found]


def clamp_checks(job, inflate):
    out = []
    z0 = job.positions(job.nominals)
    for part, name, other, on, seat in clamps(job):
        mine, theirs = part.threads[name], other.threads[on]
        nut = internal(mine) if internal(mine) is not None else not internal(theirs)
        home = z0[part.name, seat["own"]]
        middle = 0.5 * (z0[part.name, mine["from"]] + z0[part.name, mine["to"]])
        inboard = (middle > home) == nut  # which way it is screwed
        which = 0 if inboard == nut else 1
        (a, b), way = ([sorted(((p.name, t["from"]), (p.name, t["to"])), key=z0.get)[which]
                        for p, t in ((other, theirs), (part, mine))], 1.0 if inboard else -1.0)
        short_of, whose = (theirs, other) if nut else (mine, part)
        face = a[1] if nut else b[1]
        short = short_of["lead_in"] if short_of["to"] == face else short_of["run_out"]
        grown = job.growth.get(whose.name, 1.0)
        bounds = job.bounds(lambda x, z, a=a, b=b, s=short, g=grown, w=way:
                            w * (z[b] - z[a]) - g * x[s], inflate)
        title = f"{part.name} comes home on {seat['part'].name}.{seat['other']}"
        title += f" ({other.name}.{on})" * (title in [c["check"] for c in out])
        out.append({"check": title,
                    "kind": "clamp", **bounds, "at_least": 0.0, "at_most": None,
                    "verdict": verdict(bounds, 0.0, None, beyond=True)})
    return out


def worst_of(verdicts):
    return max(verdicts, key=["holds", "not judged", "doubtful", "fails"].index, default="holds")


def rocks(job):
    """Whether a hub's taper differs from its shaft's: it touches at one end only."""
    return any(s["cone"] and abs(p.cones[s["own"]]["taper"] - s["part"].cones[s["other"]]["taper"]) > 1e-12
               for p in job.parts for s in p.seats)


def keys(job):
    """A key that is higher than its room holds its hub off, or keeps it from going on: one verdict each."""
    for part in job.parts:
        for seat in part.seats:
            if seat["key"]:
                height, room = (job.sizes[of] for of in seat["key"][:2])
                if height.upper - room.lower > 0.0:
                    yield "fails" if height.nominal - room.nominal > 1e-9 else "doubtful"


def cones_miss(job):
    """A hub whose cone and its shaft's have no length in common, one verdict each."""
    def common(stand, shaft, hub):
        return min(shaft, stand + hub) - max(0.0, stand)

    for part in job.parts:
        for seat in part.seats:
            if not seat["cone"]:
                continue
            own, on = part.cones[seat["own"]], seat["part"].cones[seat["other"]]
            inside, outside = (job.sizes[cone["dia"]] for cone in (own, on))
            lengths = [job.sizes[cone["length"]].nominal for cone in (on, own)]
            if abs(own["taper"] - on["taper"]) > 1e-12 or any(math.isinf(s.upper) for s in (inside, outside)):
                continue
            nominal, *ends = (common((a - b) / on["taper"], *lengths)
                              for a, b in ((outside.nominal, inside.nominal), (outside.lower, inside.upper),
                                           (outside.upper, inside.lower)))
            if min(ends) <= 0.0:
                yield "fails" if nominal <= 0.0 else "doubtful"


def first_contact(found):
    """The later part of the deepest pair stands proud by max(0, -min gap) over its pairs."""
    deepest = min(found, key=lambda c: c["nominal"], default=None)
    if deepest is not None and deepest["nominal"] >= -1e-9:
        deepest = min(found, key=lambda c: c["worst"][0])
    if deepest is None or deepest["worst"][0] >= -1e-9:
        return None
    part = deepest["between"][1].split(".")[0]
    gap = least([c for c in found if c["between"][1].split(".")[0] == part])
    proud = {"nominal": max(0.0, -deepest["nominal"])}
    for kind in ("worst", "rss"):
        lo, hi = gap[kind]
        proud[kind] = [max(0.0, -hi), max(0.0, -lo)]
    return {"between": deepest["between"], "stands_proud": proud}


def answer(text, inflate=1.0, as_written=False, drawn_home=None):
    """What `check` ought to say of a job file's text; `as_written` sets its readings aside;
    `drawn_home` is how far the nut draws the hub up its cone, {nominal, worst}, where that is known."""
    return answer_of(load(text), inflate, as_written, drawn_home)


def answer_of(document, inflate=1.0, as_written=False, drawn_home=None):
    """The same of a job that is read."""
    job = Job(document, as_written, drawn_home=drawn_home)

    def asked():
        return [check(job, given, inflate) for given in job.document.get("checks", [])] \
            + clamp_checks(job, inflate)

    def nested():
        return reference_radial.gaps(job, inflate, limit, verdict)

    found, checks, radial, by_hand = [], [], [], []
    for state in reference_heat.states(job):
        for into, figures in ((found, lambda: clearances(job, inflate)), (checks, asked),
                              (radial, nested)):
            into.append(reference_heat.judge_by_known_growth(job, figures(), figures))
        if state != "tightened":
            by_hand.append([dict(each) for each in found[-1]])
    by_hand = reference_heat.deciding(by_hand, lambda c: tuple(c["between"]), worst_of)
    found = reference_heat.deciding(found, lambda c: tuple(c["between"]), worst_of)
    checks = reference_heat.deciding(checks, lambda c: c["check"], worst_of)
    radial = reference_heat.deciding(radial, lambda c: tuple(c["between"]), worst_of)
    all_verdicts = [c["verdict"] for c in found + checks + radial] + ["fails"] * rocks(job) + [*keys(job), *cones_miss(job)]
    return {"trialfit": 1, "verdict": worst_of(all_verdicts),
            "radial": radial,
            "clearances": found, "checks": checks,
            "first_contact": first_contact(by_hand) or first_contact(found)}


if __name__ == "__main__":
    factor = float(sys.argv[sys.argv.index("--inflate") + 1]) if "--inflate" in sys.argv else 1.0
    source = sys.stdin.read() if sys.argv[1] == "-" else open(sys.argv[1], encoding="utf-8").read()
    print(json.dumps(answer(source, factor, "--as-written" in sys.argv), indent=2))
