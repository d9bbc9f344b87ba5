# SPDX-License-Identifier: MIT
"""What work on the parts makes of a job, for the second answer to `trialfit plan`: a new document with
the faces cut and the shims changed, and the linear forms of all that is then asked.

Written from what the README and the design say a cut is: new metal, at its finish size from the face that
it is measured from. Rings, threads, seats and checks that end at the face go with it. What was measured
from the face as it was (other faces, a stand-off, a cone's gauge plane, a ring's end beyond it) stays where
it was, so that place lives on under a name of its own.
"""
import copy
import dataclasses

import numpy as np
import reference
import reference_heat
import reference_radial
from reference_job import Job
from reference_odds import Demand, Finding, FormsJob, check_finding

BEFORE = "_before_cut"


def cut_part(part, cuts):
    """The part with the faces of `cuts` {face: (measured from, signed distance as text)} cut."""
    def stays(face):
        return face + BEFORE if face in cuts else face

    def measured(written):
        if isinstance(written, list):
            return [measured(one) for one in written]
        if isinstance(written, dict):
            return written | {"from": stays(written["from"])}
        if " from " not in written:
            return written
        size, origin = written.rsplit(" from ", 1)
        return f"{size} from {stays(origin.strip())}"

    part["faces"] = {stays(face): measured(written) for face, written in part["faces"].items()} \
        | {face: f"{size} from {origin}" for face, (origin, size) in cuts.items()}
    for cone in [*part.get("cones", {}).values(), *([part["cone"]] if "cone" in part else [])]:
        cone["at"] = stays(cone["at"])


def work_done(document, cuts, stacks, skims, centrings):
    """A new document: `cuts` {(part, face): (measured from, signed distance as text)}, `stacks`
    {part: [shim as text, ...]}, `skims` {(part, ring, side): diameter as text}, `centrings` {part: what is left, as
    text}."""
    document = copy.deepcopy(document)
    document.pop("readings", None)
    for part in document["parts"]:
        here = {face: to for (name, face), to in cuts.items() if name == part["part"]}
        cut_part(part, here)
        for (name, ring, side), diameter in skims.items():
            if name == part["part"]:
                part["rings"][ring][side] = diameter
        if part["part"] in centrings:
            part["centred"]["play" if "play" in part["centred"] else "clearance"] = centrings[part["part"]]
        if "sits" not in part:
            continue
        seat = part["sits"] = part["sits"][0] if isinstance(part["sits"], list) else part["sits"]
        if "offset" in seat:  # a stand-off was measured from both faces as they were
            other, face = seat["against"].split(".")
            seat["against"] += BEFORE * ((other, face) in cuts)
            seat["face"] += BEFORE * ((part["part"], seat["face"]) in cuts)
        if part["part"] in stacks:
            seat["shims"] = {"fitted": stacks[part["part"]]}
    return document


def named_sizes(job):
    """{what a size is: its index}"""
    found = {}
    for part in job.parts:
        for dims in (part.tree, part.redundant):
            for face, origin, size in dims:
                key, k = (part.name, face, origin), 0
                while (*key, k) in found:
                    k += 1
                found[(*key, k)] = size
        for name, cone in part.cones.items():
            found |= {(part.name, "cone", name, figure): cone[figure] for figure in ("dia", "length")}
        for name, thread in part.threads.items():
            found |= {(part.name, "thread", name, end): thread[end] for end in ("lead_in", "run_out")}
        for n, seat in enumerate(part.seats):
            places = {key: seat[key] for key in ("offset", "total", "play", "off") if seat.get(key) is not None}
            if seat["key"]:
                places |= {"height": seat["key"][0], "room": seat["key"][1]}
            places |= {("shim", k): size for k, size in enumerate(seat["shims"])}
            found |= {(part.name, "seat", n, key): size for key, size in places.items()}
        if reference_radial.asked(job.document):
            found |= {(part.name, "ring", name, side): size for name, ring in part.rings_wide.items()
                      for side, size in ring.items()}
            found |= {(part.name, "radial", "runout", k): size for k, (size, _) in enumerate(part.runout)}
            places = {"loose": part.loose, "cocked": part.cocked[0] if part.cocked else None}
            found |= {(part.name, "radial", key, 0): size for key, size in places.items() if size is not None}
    if job.draw_up is not None:
        found["draw_up"] = job.draw_up
    return found


def leave_ring_ends(parts, cuts):
    """A ring that ends beyond or before a face that is cut stays where it was."""
    for part in parts:
        for ring in part.rings.values():
            for end in ("in", "out"):
                face, beyond = ring[end]
                if beyond and (part.name, face) in cuts:
                    ring[end] = (face + BEFORE, beyond)


def lap_sign(job, part, cone):
    """Lapping opens a hub's bore and makes a shaft's cone slimmer: what a unit off does to its diameter."""
    return 1.0 if any(seat["cone"] and seat["own"] == cone for seat in job.by_name[part].seats) else -1.0


class Bounds:
    """Bounds of forms in the sizes of a job before work and of new ones beside them."""

    def __init__(self, before):
        self.job = before
        self.half = np.array([s.half for s in before.sizes])
        self.middle = np.array(before.adjust(before.middles))
        self.nominal = np.array(before.adjust(before.nominals))
        self.tied = np.zeros(len(self.half), bool)
        self.tied[sorted(getattr(before, "bound", ()))] = True
        self.moves = np.eye(len(self.half))  # of the adjusted sizes with each size as written
        rows = np.array(getattr(before, "rows", [])).reshape(-1, len(self.half))
        for i in np.flatnonzero(np.abs(rows).max(axis=0, initial=0.0)):
            x, step = list(before.middles), 1e-3 * (1.0 + abs(before.middles[i]))
            x[i] += step
            self.moves[:, i] = (np.array(before.adjust(x)) - self.middle) / step

    def reach(self, old):
        """(least, greatest, rss half-width, whether tied sizes are in it) of a sum of old sizes, all about
        their middles as written."""
        effects = old * self.half
        free = np.abs(effects[~self.tied]).sum()
        lo, hi = -free, free
        for members, rows in getattr(self.job, "groups", []):
            if np.abs(effects[sorted(members)]).max() > 1e-13:
                ends = self.job.extremes(members, rows, effects)
                lo, hi = lo + ends[0], hi + ends[1]
        rss = np.sqrt(((old @ self.moves * self.half) ** 2).sum())
        return lo, hi, rss, bool((np.abs(effects[self.tied]) > 1e-9).any())

    def of(self, form, worked):
        """{nominal, middle, worst, rss half-width, tied} of a form of a job after work."""
        old, lo, squares = np.zeros(len(self.half)), 0.0, 0.0
        middle = nominal = form.middle - form.factors @ np.array(worked.middles)
        for i, (k, size, origin) in enumerate(zip(form.factors, worked.sizes, worked.origin)):
            if origin is not None:
                old[origin] += k
                middle, nominal = middle + k * worked.lapped.get(i, 0.0), nominal + k * worked.lapped.get(i, 0.0)
            else:  # made by the work, and free
                middle, nominal = middle + k * size.middle, nominal + k * size.nominal
                lo, squares = lo - abs(k) * size.half, squares + (k * size.half) ** 2
        least, greatest, rss, tied = self.reach(old)
        written = middle + old @ np.array(self.job.middles)
        return {"middle": middle + old @ self.middle, "nominal": nominal + old @ self.nominal,
                "worst": [written + least + lo, written + greatest - lo],
                "half": float(np.sqrt(squares + rss ** 2)), "tied": tied}


class Worked(FormsJob):
    """A job after work, its sizes bound by all that bound them before."""

    def __init__(self, bounds, cuts, stacks, laps=None, skims=None, centrings=None,
                 drawn_home=None):
        """`stacks`: {part: [(shim as text, index of the shim that lay there or None), ...]}; `laps`: {(part, cone):
        how much comes off the diameters}; `skims` and `centrings` as work_done takes them; `drawn_home`: how far
        the nut draws the hub up its cone then, where the work changes it"""
        self.skims, self.centrings = skims or {}, centrings or {}
        self.before, self.of, self.cuts = bounds.job, bounds, cuts
        self.forms_alone = False
        texts = {part: [text for text, _ in stack] for part, stack in stacks.items()}
        Job.__init__(self, work_done(self.before.document, cuts, texts, self.skims, self.centrings), as_written=True, adjusted=False,
                     drawn_home=drawn_home or self.before.drawn_home)
        self.drawn_anew = drawn_home is not None
        self.bound, self.rows, self.groups = set(), [], []
        leave_ring_ends(self.parts, cuts)
        self.origin = self.origins(stacks)
        self.lapped = {}  # by size: what it is more by, its limits unmoved about it
        for (part, cone), off in (laps or {}).items():
            self.lap(self.by_name[part].cones[cone]["dia"], lap_sign(self, part, cone) * off)
        self.adjusted = [s.nominal if origin is None else bounds.nominal[origin] + self.lapped.get(i, 0.0)
                         for i, (s, origin) in enumerate(zip(self.sizes, self.origin))]
        self.spread = self.sd = np.ones(len(self.sizes))  # every size is moved for its coefficient
        self.new_state()

    def lap(self, index, more):
        size = self.sizes[index]
        self.sizes[index] = dataclasses.replace(size, nominal=size.nominal + more, lower=size.lower + more,
                                                upper=size.upper + more)
        self.nominals[index] += more
        self.middles[index] += more
        self.lapped[index] = more

    def adjust(self, x):
        return self.adjusted if x is self.nominals else x

    def origins(self, stacks):
        """For each size the index that it had before, or None."""
        known, out = named_sizes(self.before), [None] * len(self.sizes)
        for key, index in named_sizes(self).items():
            if key[1] == "seat" and isinstance(key[3], tuple) and key[0] in stacks:
                lay = stacks[key[0]][key[3][1]][1]
                out[index] = None if lay is None else known[(*key[:3], ("shim", lay))]
            elif key[1:] in [("ring", *skim[1:]) for skim in self.skims if skim[0] == key[0]]:
                continue
            elif key[1:3] == ("radial", "loose") and key[0] in self.centrings or key == "draw_up" and self.drawn_anew:
                continue
            elif key == "draw_up" or key[1] in ("cone", "thread", "seat", "ring", "radial"):
                out[index] = known[key]
            elif (key[0], key[1]) not in self.cuts:
                out[index] = known[(key[0], *(face.removesuffix(BEFORE) for face in key[1:3]), key[3])]
        return out

    def index_of_cut(self, part, face):
        return next(size for f, _, size in self.by_name[part].tree if f == face)

    def stated(self, quantity):
        """The form at the stated position, whatever plays."""
        played, self.played = self.played, []
        form = self.form(quantity, 1.0)
        self.played = played
        return form

    def bounds(self, quantity, inflate=1.0):
        forms = [self.form(quantity, end) for end in (-1.0, 1.0)]
        if self.forms_alone:
            return {"nominal": 0.0, "middle": 0.0, "worst": [0.0, 0.0], "rss": [0.0, 0.0], "forms": forms}
        found = []
        for form in (self.stated(quantity), *forms):
            here = self.of.of(form, self)
            rss = [here["middle"] - inflate * here["half"], here["middle"] + inflate * here["half"]]
            if here["tied"]:
                rss = [min(max(end, here["worst"][0]), here["worst"][1]) for end in rss]
            found.append({"nominal": here["nominal"], "middle": here["middle"], "worst": here["worst"], "rss": rss})
        stated, least, greatest = found
        return stated | {"forms": forms, "least": least, "greatest": greatest,
                         "worst": [least["worst"][0], greatest["worst"][1]],
                         "rss": [least["rss"][0], greatest["rss"][1]]}


def in_states(worked):
    """Each state of the job in turn, by name, with the forms ready for it."""
    names = [*([""] if "states" in worked.document else []), *worked.document.get("states", {})]
    for n, state in enumerate(reference_heat.states(worked)):
        worked.new_state()
        yield state if isinstance(state, str) else names[n] if n < len(names) else ""


def asked(worked):
    """Every finding of the job in every state: [(state, finding)]."""
    worked.forms_alone, found = True, []
    for state in in_states(worked):
        here = [check_finding(worked, given) for given in worked.document.get("checks", [])
                if "air_gap" not in given]
        for one in reference.clamp_checks(worked, 1.0):
            here.append(Finding(one["check"], [Demand(one["forms"][0], lower=0.0, beyond=True)]))
        for one in reference.clearances(worked, 1.0):
            least = one["at_least"]
            here.append(Finding(tuple(one["between"]), [Demand(one["forms"][0], lower=least, beyond=least == 0.0)]))
        found += [(state, each) for each in here]
    worked.forms_alone = False
    return found
