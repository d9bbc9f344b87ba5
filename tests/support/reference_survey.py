"""How the parts lay for trial-fit readings, and what to measure next, by brute force in NumPy: the second
answer to `trialfit survey`.

Jams: sizes are drawn from their own laws, the parts of each draw are put on one after the other and rest on
whatever they meet first, and each draw counts by how likely it makes the readings. The share of a way to
lie is its probability. Draws in which a part that a reading does not lead over stands off its seat do not
count, for the survey takes such a part to be home. Next: every measurement that a gauge of the file could
make is made, one at a time, with all observations solved anew.
"""
import re

import numpy as np
from reference_ends import meeting_ends
from reference_job import Job
from reference_odds import Spreads

SEATED = ()


class SurveyJob(Job):
    """A job that knows of each size what it was read with."""

    def __init__(self, document):
        self.read_with = []
        super().__init__(document, adjusted=False)
        self.spread = np.array([s.half for s in self.sizes])
        self.sd = np.array([s.sd for s in self.sizes])
        self.name_sizes()

    def size(self, written, bare=False):
        gauge = written.get("by") if isinstance(written, dict) else None
        if isinstance(written, str) and (match := re.search(r" by (\w+)$", written)):
            gauge = match[1]
        self.read_with.append(gauge)
        return super().size(written, bare)

    def name_sizes(self):
        """{size: (name, kind of distance)} of those that could be measured."""
        self.measured = {}
        for part in self.parts:
            for face, origin, size in part.tree:
                self.measured[size] = (f"{part.name}.{face} from {part.name}.{origin}", "length")
            for name, cone in part.cones.items():
                self.measured[cone["dia"]] = (f"{part.name}.{name} diameter", "diameter")
            for seat in part.seats:
                if seat["offset"] is not None:
                    against = f"{seat['part'].name}.{seat['other']}"
                    self.measured[seat["offset"]] = (f"{part.name}.{seat['own']} from {against}", "depth")
                for size in seat["shims"]:
                    if self.spread[size]:
                        self.measured[size] = (f"shim under {part.name}", "length")
        for given, reading in zip(self.document.get("readings", []), self.readings):
            self.measured[reading["is"]] = (given["reading"], "depth")

    def way(self, reading):
        """The parts whose seats lie between the two faces of a reading."""
        chains = []
        for part in (self.by_name[reading[end][0]] for end in ("from", "to")):
            chain = [part]
            while chain[-1].seats:
                chain.append(chain[-1].seats[0]["part"])
            chains.append({each.name for each in chain})
        return chains[0] ^ chains[1]

    def lay(self, x, reading):
        """Positions for a reading, and of each fitted part which of its contacts it came to rest on (0: none),
        of the contacts also given. `x`: sizes, each a row of draws."""
        z, rests = {}, {}
        for part in self.order:
            local = {part.zero: 0.0}
            for face, origin, size in part.tree:
                if origin in local:
                    local[face] = local[origin] + x[size]
                else:
                    local[origin] = local[face] - x[size]
            base = self.seated(part, 0, z, local, x, False, reading) if part.seats else 0.0
            if part.seats and part.name in reading["fitted"]:
                contacts = [((e.name, fa), da, (part.name, fb), db) for e in self.parts[:part.index]
                            if e.name in reading["fitted"] for (fa, da), (fb, db), _ in meeting_ends(e, part)]
                at = [z[a] + da - local[b[1]] - db for a, da, b, db in contacts]
                all_at = np.array(np.broadcast_arrays(base, *at))
                rests[part.name] = (all_at.argmax(axis=0), contacts)
                base = all_at.max(axis=0)
            for face, value in local.items():
                z[part.name, face] = base + value
        return z, rests


def label(contact):
    (_, fa), da, (_, fb), db = contact
    one, other = f"{contact[0][0]}.{fa}", f"{contact[2][0]}.{fb}"
    return (one + (f" {da:+g}" if da else ""), other + (f" {db:+g}" if db else ""))


def ways_to_lie(job, count, seed):
    """Of each reading {way: probability}; a way is a tuple of contacts. And of how many draws each is."""
    spreads = Spreads(job)
    x = spreads.draw(count, seed) + np.array(job.middles)[:, None]
    weight, codes, home = np.ones(count), [], []
    for reading in job.readings:
        z, rests = job.lay(list(x), reading)
        off = x[reading["is"]] * 0.0 + job.middles[reading["is"]] - (z[reading["to"]] - z[reading["from"]])
        weight = weight * spreads.density(reading["is"], off)
        way = sorted(job.way(reading) & rests.keys())
        home.append(np.all([rests[name][0] == 0 for name in rests.keys() - job.way(reading)] + [weight == weight],
                           axis=0))
        contacts = [[(), *map(label, rests[name][1])] for name in way]
        code = np.zeros(count, int)
        for name, some in zip(way, contacts):
            code = code * len(some) + rests[name][0]
        codes.append((code, contacts))
    shares, effective = [], []
    for (code, contacts), here in zip(codes, home):
        counts, found = weight * here, {}
        effective.append(counts.sum() ** 2 / max((counts ** 2).sum(), 1e-300))
        for one in np.unique(code[counts > 0.0]):
            which, rest = [], int(one)
            for some in reversed(contacts):
                rest, i = divmod(rest, len(some))
                which += [some[i]] * (i > 0)
            found[tuple(sorted(which))] = float(counts[code == one].sum() / counts.sum())
        shares.append(found)
    return shares, effective


class Observed:
    """All sizes with what the readings say of them, the parts lying as told: jams by part, of each reading."""

    def __init__(self, job, jams):
        self.job = job
        for reading, own in zip(job.readings, jams):
            reading["jams"] = own
        base = np.array(self.misfits(job.middles))
        self.rows = np.zeros((len(base), len(job.sizes)))
        for i in np.flatnonzero(job.spread):
            x = list(job.middles)
            x[i] += (step := 0.001 * (1.0 + abs(x[i])))
            self.rows[:, i] = (np.array(self.misfits(x)) - base) / step
        self.rows[np.abs(self.rows) < 1e-9] = 0.0
        self.missed = base

    def misfits(self, x):
        out = []
        for reading in self.job.readings:
            z = self.job.positions(x, reading=reading)
            out.append(z[reading["to"]] - z[reading["from"]] - x[reading["is"]])
        return out

    def covariance(self, more=(), variance=0.0):
        """Of all sizes, with one more observation `more` of that variance."""
        rows, own = self.rows, np.diag(self.job.sd ** 2)
        noise = np.zeros((len(rows) + (len(more) > 0),) * 2)
        if len(more):
            rows, noise[-1, -1] = np.vstack([rows, more]), variance
        gain = own @ rows.T @ np.linalg.pinv(rows @ own @ rows.T + noise, rcond=1e-13)
        return own - gain @ rows @ own

    def chi_square(self):
        own = np.diag(self.job.sd ** 2)
        return float(self.missed @ np.linalg.pinv(self.rows @ own @ self.rows.T, rcond=1e-13) @ self.missed)


def finest(job, kind):
    """(name, half-width) of the finest gauge that the file has read such a distance with."""
    used = {job.read_with[i] for i, (_, own) in job.measured.items() if own == kind} - {None}
    return min(((g, job.context.gauges[g]) for g in used), key=lambda each: each[1], default=None)


def measure_next(job, observed, form):
    """(sd now, [(size, gauge, sd then)], the best first) for a gap with these factors."""
    now = float(np.sqrt(max(0.0, form @ observed.covariance() @ form)))
    found = []
    for i, (name, kind) in job.measured.items():
        gauge = finest(job, kind)
        if gauge is None or job.spread[i] == 0.0:
            continue
        one = np.zeros(len(job.sizes))
        one[i] = 1.0
        then = float(np.sqrt(max(0.0, form @ observed.covariance(one, gauge[1] ** 2 / 3.0) @ form)))
        found.append((name, gauge[0], then))
    return now, sorted(found, key=lambda each: each[2])


def told(jammed):
    """The way to lie that the program tells of a reading."""
    return tuple(tuple(each["between"]) for each in [jammed, *jammed["also"]]) if jammed else SEATED


def in_words(way):
    """As the program words the next-best way."""
    return ", ".join(f"{own} on {against}" for against, own in sorted(way, key=lambda c: c[1])) or "seated"


def contacts_named(job, way):
    """The contacts of a way to lie, for Observed."""
    named = {}
    for later in job.parts:
        for earlier in job.parts[:later.index]:
            for (fa, da), (fb, db), _ in meeting_ends(earlier, later):
                contact = ((earlier.name, fa), da, (later.name, fb), db)
                if label(contact) in way:
                    named[later.name] = contact
    assert len(named) == len(way), (named, way)
    return named
