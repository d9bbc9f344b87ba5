# SPDX-License-Identifier: MIT
"""Skims, centring by hand and radial gaps: pieces of reference_plan.py.

What is asked of rings is asked of rings that meet. Two that overlap in diameter, by their nominal diameters, must
clear along the axis, unless a skim ends the overlap; a turning one and a still one that lie one in the other must
clear all round, unless they come to lie apart along the axis or one no longer passes through the other.
"""
import itertools

import numpy as np
import reference
import reference_radial
from reference_odds import Demand
from reference_sizes import UNIT_MM
from reference_work import in_states

HAIR = 1e-9  # diameters that differ by less are alike
SURELY_LESS = 1e-6  # by which one does not pass through the other, well beyond reference_plan.SAME


class Skim:
    """A ring's bore or outside that may be skimmed; depths are on diameter."""

    def __init__(self, job, part, given):
        self.part, self.ring, self.side = part.name, given["ring"], given["turn"]
        self.name = f"{self.part}.{self.ring}"
        ring, opens = part.rings_wide[self.ring], self.side == "bore"
        self.now = job.sizes[ring[self.side]].nominal
        self.sign = -1.0 if opens else 1.0
        self.holds = job.read(given["holds"], True).upper
        self.until = job.read(given["until"], True).nominal if "until" in given else None
        self.keep = job.read(given["keep"], True).nominal if "keep" in given else 0.0
        other = job.sizes[ring["od" if opens else "bore"]]
        self.facing = other.lower if opens else other.upper  # with which the wall is thinnest
        ends = [self.facing + 2.0 * self.sign * self.keep] * bool(self.keep)
        ends += [self.until] * (self.until is not None)
        self.most = min(self.sign * (self.now - end) for end in ends) - self.holds
        self.cost = float(given.get("cost", 1.0))
        self.per_unit = float(given.get("per_mm", 0.1)) * UNIT_MM[job.context.units]

    def made(self, off):
        return f"{self.now - self.sign * off:.17g} ±{self.holds:.17g}"

    def size_in(self, worked):
        return worked.by_name[self.part].rings_wide[self.ring][self.side]


class Centring:
    """A part that may be centred by hand within its clearance; there is no depth to it."""

    def __init__(self, job, part):
        given = part.centred
        self.part = self.name = part.name
        self.left = job.read(given["centre_to"], True).nominal
        self.play = job.sizes[part.loose].upper
        self.cost, self.per_unit, self.most = float(given.get("centre_cost", 0.5)), 0.0, 0.0
        self.sign, self.holds = 0.0, 0.5 * self.left

    def made(self):
        return f"0..{self.left:.17g}" if self.left > 0.0 else "0 exact"

    def size_in(self, worked):
        return worked.by_name[self.part].loose


def works(job, part):
    """What of a part may be skimmed or centred; nothing in a job that gives no radial gap anything to go by."""
    if not reference_radial.asked(job.document):
        return []
    found = [Skim(job, part, given) for given in part.given.get("skims", [])]
    found = [skim for skim in found if skim.most >= 0.0]
    if part.centred and "centre_to" in part.centred:
        by_hand = Centring(job, part)
        found += [by_hand] * (by_hand.left < by_hand.play)
    return found


class Diameters:
    """A row of nominal diameters alone: `way` times the bore of `outer` less the outside of `inner` is at least
    `way` times the limit."""

    beyond, aim = False, None

    def __init__(self, worked, cuts, outer, inner, limit=0.0, way=-1.0):
        (a, ra), (b, rb) = outer, inner
        self.constant = a.rings[ra]["bore"] - b.rings[rb]["od"]
        self.limit, self.way, self.name = limit, way, (f"{b.name}.{rb} through {a.name}.{ra}", "")
        self.per_off, self.cut = np.zeros(len(cuts)), np.zeros(len(cuts))
        self.holds = np.array([c.holds for c in cuts])
        for i, c in enumerate(cuts):
            if isinstance(c, Skim) and (c.part, c.ring, c.side) in ((a.name, ra, "bore"), (b.name, rb, "od")):
                self.per_off[i] = 1.0

    def with_kept(self, plan, kept):
        return self.constant, 0.0, 0.0, False, np.zeros(len(plan.before.sizes))


def parted(worked, cuts, key):
    """The ways in which skims leave no two rings that overlap at the two ends of an automatic clearance."""
    each = []
    for later in worked.parts:
        for earlier in worked.parts[:later.index]:
            for (na, a), (nb, b) in itertools.product(earlier.rings.items(), later.rings.items()):
                if (reference.end_name(earlier, a["out"]), reference.end_name(later, b["in"])) != key:
                    continue
                if b["bore"] >= a["od"] * (1.0 - 1e-12) or a["bore"] >= b["od"] * (1.0 - 1e-12):
                    continue
                both = (Diameters(worked, cuts, (later, nb), (earlier, na)),
                        Diameters(worked, cuts, (earlier, na), (later, nb)))
                each.append([row for row in both if row.per_off.any()])
    return [list(some) for some in itertools.product(*each)]


def pair_asked(worked, cuts, inner, outer, least):
    """The ways in which a turning and a still ring do not rub, or None where they are no such pair: each a list of
    demands and diameters."""
    through = Diameters(worked, cuts, outer, inner)
    ways = []
    if through.constant < -HAIR:  # by nominal they do not pass: along the axis they clear
        if not through.per_off.any():
            return None
        ways.append([Diameters(worked, cuts, outer, inner, -SURELY_LESS, 1.0)])
    if reference_radial.bearing(worked, inner, outer):  # its own bearing, until it is opened
        if not through.per_off.any():
            return None
        loose = max(worked.sizes[p.loose].upper for p, _ in (inner, outer)
                    if p.centred and p.centred["by"] == "bearing")
        ways.append([Diameters(worked, cuts, outer, inner, loose, 1.0)])
    gap = reference_radial.Gap(worked, inner, outer)
    ways.append([Demand(worked.form(lambda x, z: gap.at(x, "in", -1.0), -1.0), lower=least, beyond=least <= 0.0)])
    ends = [which[0].rings[which[1]] for which in (inner, outer)]
    names = [which[0].name for which in (inner, outer)]
    for k in (0, 1):
        (start, below), (stop, above) = ends[k]["in"], ends[1 - k]["out"]
        below, above = below * worked.growth.get(names[k], 1.0), above * worked.growth.get(names[1 - k], 1.0)
        form = worked.form(lambda x, z, a=(names[k], start), b=(names[1 - k], stop), d=above - below: z[b] - z[a] + d,
                           1.0)
        ways.append([Demand(form, upper=0.0)])
    return ways


def asked(worked, cuts):
    """[(name, state, ways)] of all radial gaps and air gaps, with the works of `cuts` made; one of the ways of each
    must be kept."""
    document, found = worked.document, []
    if not reference_radial.asked(document):
        return found
    needed = document.get("radial_clearance", document.get("running_clearance", "0"))
    air = [check for check in document.get("checks", []) if "air_gap" in check]
    own = {frozenset(check["air_gap"]): check["at_least"] for check in air if "at_least" in check}
    every = [(part, name) for part in worked.parts for name in part.rings]

    def length(written):
        return reference.limit(worked, written, "air_gap", None)[0]

    for state in in_states(worked):
        for inner, outer in itertools.product(every, every):
            if inner[0].turns == outer[0].turns:
                continue
            names = [f"{part.name}.{name}" for part, name in (inner, outer)]
            ways = pair_asked(worked, cuts, inner, outer, length(own.get(frozenset(names), needed)))
            if ways is not None:
                found.append((" in ".join(names), state, ways))
        for check in air:
            inner, outer = sorted((reference_radial.ring(worked, name) for name in check["air_gap"]),
                                  key=reference_radial.bore)
            gap = reference_radial.Gap(worked, inner, outer)
            for side, sign in (("at_least", -1.0), ("at_most", 1.0)):
                if side in check:
                    form = worked.form(lambda x, z, g=gap, s=sign: g.at(x, "in", s), sign)
                    limit = {"lower" if sign < 0.0 else "upper": length(check[side])}
                    found.append((check["check"], state, [[Demand(form, **limit)]]))
    return found
