# SPDX-License-Identifier: MIT
"""The second answer to `trialfit plan`: the cheapest work after which all that is asked holds.

For every set of faces to cut, and every choice of the shims that lie there and stay, the job is put
together anew and its forms are read off (reference_work.py). What may be kept in one of several ways is left out first, and
each way is tried where the answer keeps none. With that settled, every row is linear in the
amounts cut and in the numbers of shims bought: in the worst case a mixed-integer program, handed to HiGHS
(`scipy.optimize.milp`); by RSS every stack is tried, and the amounts are a linear program.
"""
import itertools

import numpy as np
import reference_plan_radial
from reference_job import Job
from reference_sizes import UNIT_MM
from reference_plan_radial import Centring, Diameters, Skim
from reference_work import Bounds, Worked, asked, lap_sign
from scipy.optimize import LinearConstraint, linprog, milp

MORE_THAN = 1e-8  # what must be more than nothing is at least, in the file's unit
SURELY_MORE = 1e-5  # the same while stacks are looked for, since HiGHS takes 1e-6 of a shim for none
FINE = 1e3  # rows are counted in thousandths, since HiGHS lets each be off by 1e-6
SAME = 5e-9  # less than MORE_THAN
TOO_MANY = 400  # problems to be solved for one job


class TooMany(Exception):
    """More ways than this answer is made for."""


class Before(Job):
    """The job as it stands."""

    def __init__(self, document, drawn_home=None, as_written=False):
        self.drawn_home = drawn_home
        super().__init__(document, as_written=as_written, drawn_home=drawn_home)


class Cut:
    """A face that may be cut; lengths in the file's unit."""

    def __init__(self, job, part, given):
        z = job.positions(job.adjust(job.nominals))
        self.part, self.face, self.measure = part.name, given["face"], given["measure"]
        self.name = f"{self.part}.{self.face}"
        away = z[part.name, self.face] - z[part.name, self.measure]
        self.now, self.sign = abs(away), 1.0 if away >= 0.0 else -1.0
        self.keep = job.read(given["keep"], True).nominal
        self.holds = job.read(given["holds"], True).upper
        self.most = self.now - self.keep - self.holds
        self.cost = float(given.get("cost", 1.0))
        self.per_unit = float(given.get("per_mm", 0.1)) * UNIT_MM[job.context.units]

    def made(self, off, holds=None):
        """As work_done takes it."""
        holds = self.holds if holds is None else holds
        return self.measure, f"{self.sign * (self.now - off):.17g} ±{holds:.17g}"

    def size_in(self, worked):
        return worked.index_of_cut(self.part, self.face)


class Lap:
    """A cone that may be lapped: what comes off the diameters is known and has no spread."""

    def __init__(self, job, part, given):
        self.part, self.cone = part.name, given["cone"]
        self.name = f"{self.part}.{self.cone}"
        self.most = job.read(given["at_most"].removesuffix("on diameter").strip(), True).nominal
        self.cost, self.per_unit = float(given.get("cost", 1.0)), 0.1 * UNIT_MM[job.context.units]
        self.holds, self.sign = 0.0, lap_sign(job, self.part, self.cone)


class Seat:
    """A seat whose shims may be changed."""

    def __init__(self, job, part, given):
        self.part, shims = part.name, given["shims"]
        self.fitted = list(shims.get("fitted", []))
        self.at_most = max(int(shims.get("at_most", 3)), len(self.fitted))
        self.columns = part.seats[0]["shims"]  # of what lies there
        self.lies = [job.sizes[i].nominal for i in self.columns]
        holds = job.read(shims["holds"], True).upper if "holds" in shims else 0.0
        self.stock, self.nominal, self.texts = [], [], []  # (middle, half-width, pieces)
        for one in shims["stock"]:
            counted = isinstance(one, dict) and "thickness" in one
            pieces = int(one.get("pieces", 99)) if counted else 99
            size = job.read(one["thickness"] if counted else one, True)
            half = size.half if size.half > 0.0 else holds
            self.stock.append((size.middle, half, min(pieces, self.at_most)))
            self.nominal.append(size.nominal)
            limits = (size.upper, size.lower) if size.half > 0.0 else (size.middle + half, size.middle - half)
            self.texts.append({"size": f"{size.nominal:.17g}", "lower": f"{limits[1]:.17g}",
                               "upper": f"{limits[0]:.17g}"})


class Row:
    """lower <= middle - margin, or middle + margin <= upper, in a job with some faces cut and all seats that
    may be changed empty."""

    def __init__(self, plan, worked, cuts, name, demand, way):
        form, self.name, self.way, self.aim = demand.form, name, way, None  # way: -1 at least, 1 at most
        self.limit = demand.upper if way > 0 else demand.lower + MORE_THAN * demand.beyond
        self.beyond = way < 0 and demand.beyond
        count = len(plan.before.sizes)
        self.old, self.cut, self.seat = np.zeros(count), np.zeros(len(cuts)), np.zeros(len(plan.seats))
        self.constant = form.middle - form.factors @ np.array(worked.middles)
        form.factors[np.abs(form.factors) < 1e-8] = 0.0
        index_of_cut = {c.size_in(worked): i for i, c in enumerate(cuts) if not isinstance(c, Lap)}
        index_of_seat = {worked.by_name[s.part].seats[0]["shims"][0]: i for i, s in enumerate(plan.seats)}
        for i in np.flatnonzero(form.factors):
            k, origin = form.factors[i], worked.origin[i]
            if origin is not None:
                self.old[origin] += k
            elif i in index_of_cut:
                self.cut[index_of_cut[i]] += k
                self.constant += k * worked.sizes[i].middle
            else:
                self.seat[index_of_seat[i]] += k
        self.holds = np.array([c.holds for c in cuts])
        self.per_off = -self.cut * np.array([c.sign for c in cuts])  # what a unit of metal off adds
        for i, lap in enumerate(cuts):
            if isinstance(lap, Lap):
                self.per_off[i] = lap.sign * form.factors[worked.by_name[lap.part].cones[lap.cone]["dia"]]

    def with_kept(self, plan, kept):
        """(middle, how far the worst case lies from it, the RSS half-width, whether sizes are tied, factors of the sizes
        that stay) with some of the shims that lie there; `kept`: for each seat, indices."""
        old = self.old.copy()
        for k, seat, some in zip(self.seat, plan.seats, kept):
            for i in some:
                old[seat.columns[i]] += k
        key = (old.tobytes(), self.way)
        if key not in plan.known:
            plan.known[key] = (*plan.bounds.reach(old), old @ plan.middles, old @ plan.bounds.middle)
        lo, hi, rss, tied, written, adjusted = plan.known[key]
        middle = self.constant + adjusted
        worst = self.constant + written + (lo if self.way < 0 else hi)
        return middle, abs(middle - worst), rss, tied, old


class Plan:
    """Cheapest work on one job."""

    def __init__(self, document, judge="worst", inflate=1.0, drawn_home=None, as_written=False):
        self.before = Before(document, drawn_home, as_written)
        self.bounds, self.judge, self.inflate = Bounds(self.before), judge, inflate
        self.middles, self.known = np.array(self.before.middles), {}
        self.shim_cost = float(document.get("shim_cost", 0.1))
        self.cuts, self.seats = [], []
        for part in self.before.parts:
            for given in part.given.get("cuts", []):
                cut = Cut(self.before, part, given)
                self.cuts += [cut] * (cut.most >= 0.0)
            self.cuts += [Lap(self.before, part, given) for given in part.given.get("laps", [])]
            self.cuts += reference_plan_radial.works(self.before, part)
            sits = part.given.get("sits")
            sits = sits[0] if isinstance(sits, list) else sits
            if sits and "stock" in sits.get("shims", {}):
                self.seats.append(Seat(self.before, part, sits))
        self.rows_of = {}
        aimed = [row for row in self.rows(())[0] if row.aim is not None]
        self.ranked = [not any(row.seat[q] for row in aimed) for q in range(len(self.seats))]  # that cost anything
        self.aims = bool(aimed)

    def rows(self, chosen):
        """[rows that must all hold], [[rows, rows, ...] of which one must hold] with the works `chosen` made."""
        if chosen in self.rows_of:
            return self.rows_of[chosen]
        cuts = [self.cuts[i] for i in chosen]
        worked = Worked(self.bounds, {(c.part, c.face): c.made(0.0) for c in cuts if isinstance(c, Cut)},
                        {s.part: [("0 exact", None)] for s in self.seats}, None,
                        {(c.part, c.ring, c.side): c.made(0.0) for c in cuts if isinstance(c, Skim)},
                        {c.part: c.made() for c in cuts if isinstance(c, Centring)})
        rows, either, done = [], [], set()
        aims = {c["check"]: c["aim"] for c in worked.document.get("checks", []) if "gap" in c and "at_least" in c
                and "aim" in c}
        for state, finding in asked(worked):
            name = (finding.key, state)
            aim = aims.get(finding.key) if finding.key not in done else None  # of the first state alone
            done.add(finding.key)
            parted = [] if isinstance(finding.key, str) else \
                reference_plan_radial.parted(worked, cuts, finding.key)
            for demand in finding.demands:
                here = self.rows_for(worked, cuts, name, demand)
                if parted:
                    either.append([here, *parted])
                    continue
                rows += here
                if aim is not None:
                    rows[-1 - bool(demand.upper < np.inf)].aim = self.before.read(aim, True).nominal
            if finding.over:
                ways = []
                for demand in finding.over:
                    demand.upper = demand.lower
                    ways.append([Row(self, worked, cuts, name, demand, 1.0)])
                either.append(ways)
        for name, state, ways in reference_plan_radial.asked(worked, cuts):
            made = [[row for one in way for row in ([one] if isinstance(one, Diameters) else
                     self.rows_for(worked, cuts, (name, state), one))] for way in ways]
            if len(made) == 1:
                rows += made[0]
            else:
                either.append(made)
        for row in (row for ways in either for way in ways for row in way if isinstance(row, Diameters)):
            row.seat = np.zeros(len(self.seats))
        self.rows_of[chosen] = (rows, either)
        return rows, either

    def rows_for(self, worked, cuts, name, demand):
        return [Row(self, worked, cuts, name, demand, -1.0)] * bool(demand.lower > -np.inf) \
            + [Row(self, worked, cuts, name, demand, 1.0)] * bool(demand.upper < np.inf)

    def sets(self):
        count = len(self.cuts)
        return [s for n in range(count + 1) for s in itertools.combinations(range(count), n)]

    def keeps(self):
        """For each seat, each choice of the shims that stay."""
        each = [[s for n in range(min(len(seat.lies), seat.at_most) + 1)
                 for s in itertools.combinations(range(len(seat.lies)), n)] for seat in self.seats]
        return list(itertools.product(*each))

    def matrix(self, rows, kept, cuts):
        """A, b with A [amounts, shims bought] <= b, in the worst case; and by how much less b is to be while
        stacks are looked for."""
        matrix, right = [], []
        for row in rows:
            middle, margin, *_ = row.with_kept(self, kept)
            margin += np.abs(row.cut) @ row.holds
            shims = [row.way * k * thick + abs(k) * half for k, seat in zip(row.seat, self.seats)
                     for thick, half, _ in seat.stock]
            matrix.append([*(row.way * row.per_off), *shims])
            right.append(row.way * (row.limit - middle) - margin)
        careful = SURELY_MORE * np.array([row.beyond for row in rows], float)
        wide = cuts + sum(len(seat.stock) for seat in self.seats)
        return np.array(matrix).reshape(len(rows), wide), np.array(right), careful

    def least(self, chosen, rows, kept, used=None):
        """The cheapest amounts and stacks, as (cost, amounts, numbers bought), or None; shims that are set to
        an aim cost nothing. `used`: for each seat whether anything may and must lie there."""
        cuts = [self.cuts[i] for i in chosen]
        matrix, right, careful = self.matrix(rows, kept, len(cuts))
        price = [c.per_unit for c in cuts]
        most = [c.most for c in cuts]
        counts = []
        for q, seat in enumerate(self.seats):
            price += [self.shim_cost * self.ranked[q]] * len(seat.stock)
            most += [float(p) for _, _, p in seat.stock]
            line = np.zeros(len(cuts) + sum(len(s.stock) for s in self.seats))
            at = len(cuts) + sum(len(s.stock) for s in self.seats[:q])
            line[at:at + len(seat.stock)] = 1.0
            left = seat.at_most - len(kept[q])
            fewest = 0
            if used is not None:
                if kept[q] and not used[q]:
                    return None
                left = left if used[q] else 0
                fewest = 1 if used[q] and not kept[q] else 0
            counts.append((line, fewest, left))
        base = sum(c.cost for c in cuts)
        if not price:
            return (base, [], self.by_seat([])) if (right >= -1e-9).all() else None
        whole = np.array([0] * len(cuts) + [1] * (len(price) - len(cuts)))
        limits = [LinearConstraint(line[None, :], low, high) for line, low, high in counts]
        if len(right):
            limits.append(LinearConstraint(FINE * matrix, -np.inf, FINE * (right - careful) + 1e-6))
        found = milp(np.array(price), integrality=whole, bounds=(np.zeros(len(price)), np.array(most)),
                     constraints=limits, options={"mip_rel_gap": 0.0, "presolve": False})
        if found.x is None:
            return None
        bought = np.round(found.x[len(cuts):])
        shims = float(np.array(price[len(cuts):]) @ bought)
        amounts = self.amounts(cuts, matrix[:, :len(cuts)], right - matrix[:, len(cuts):] @ bought)
        return None if amounts is None else (base + shims + amounts[0], amounts[1], self.by_seat(bought))

    def by_seat(self, bought):
        """How many of each shim, seat by seat, of one list of all."""
        ends = np.cumsum([len(seat.stock) for seat in self.seats])
        return [list(some) for some in np.split(np.array(bought), ends[:-1])] if self.seats else []

    @staticmethod
    def amounts(cuts, matrix, right):
        """(cost, amounts) of the least that must come off, or None."""
        if not cuts:
            return (0.0, []) if (right >= -1e-9).all() else None
        if not len(right):
            return 0.0, [0.0] * len(cuts)
        found = linprog([c.per_unit for c in cuts], A_ub=FINE * matrix, b_ub=FINE * right + 1e-6,
                        bounds=[(0.0, c.most) for c in cuts])
        return (found.fun, found.x) if found.status == 0 else None

    def stacks(self):
        """For each seat: all numbers bought of each stock, whatever stays."""
        each = []
        for seat in self.seats:
            ranges = [range(int(p) + 1) for _, _, p in seat.stock]
            each.append([n for n in itertools.product(*ranges) if sum(n) <= seat.at_most])
        return list(itertools.product(*each))

    def least_by_trying(self, chosen, rows, kept):
        """The same by every stack in turn, by RSS or by the worst case."""
        cuts, best = [self.cuts[i] for i in chosen], None
        base = sum(c.cost for c in cuts)
        known = [row.with_kept(self, kept) for row in rows]
        sides = np.array([row.per_off * row.way for row in rows]).reshape(len(rows), len(cuts))
        for stack in self.stacks():
            if any(sum(n) + len(k) > s.at_most for n, k, s in zip(stack, kept, self.seats)):
                continue
            cost = base + self.shim_cost * sum(sum(n) * r for n, r in zip(stack, self.ranked))
            if best is not None and cost >= best[0] - 1e-12:
                continue
            right = np.array([self.room(row, k, stack) for row, k in zip(rows, known)])
            amounts = self.amounts(cuts, sides, right)
            if amounts is not None and (best is None or cost + amounts[0] < best[0]):
                best = (cost + amounts[0], amounts[1], stack)
        return best

    def room(self, row, known, stack):
        """By how much a row is met with that stack, nothing taken off yet."""
        middle, margin, squares, tied = *known[:2], known[2] ** 2, known[3]
        margin += np.abs(row.cut) @ row.holds
        squares += (row.cut * row.holds) @ (row.cut * row.holds)
        for k, seat, bought in zip(row.seat, self.seats, stack):
            for number, (thick, half, _) in zip(bought, seat.stock):
                middle += k * number * thick
                margin += abs(k) * number * half
                squares += number * (k * half) ** 2
        if self.judge == "rss":
            root = self.inflate * np.sqrt(squares)
            margin = min(root, margin) if tied else root
        return row.way * (row.limit - middle) - margin

    def ways(self, chosen):
        rows, either = self.rows(chosen)
        for some in itertools.product(*either):
            yield rows + [row for way in some for row in way]

    def met(self, row, kept, amounts, bought):
        """Whether a row is met, or missed by a rounding."""
        known = row.with_kept(self, kept)
        return self.room(row, known, bought) - row.way * (row.per_off @ np.array(amounts)) >= -SAME

    def in_one_way(self, chosen, kept, solve, limit=np.inf):
        """The best (value, amounts, bought by seat) of `solve(rows)` below `limit` that keeps all, or None."""
        rows, either = self.rows(chosen)
        best, left = None, [rows]
        while left:
            here = left.pop()
            self.tried += 1
            if self.tried > TOO_MANY:
                raise TooMany
            found = solve(here)
            if found is None or found[0] >= limit - 1e-12:
                continue
            broken = next((ways for ways in either if not any(
                all(self.met(row, kept, found[1], found[2]) for row in way) for way in ways)), None)
            if broken is None:
                best, limit = found, found[0]
            else:
                left += [here + way for way in broken]
        return best

    def cheapest(self, trying=False):
        """(cost, faces cut, kept, amounts, bought by seat) or None where there is no plan."""
        best, self.tried = None, 0
        solve = self.least_by_trying if trying else self.least
        for chosen in self.sets():
            if best is not None and sum(self.cuts[i].cost for i in chosen) >= best[0] - 1e-12:
                continue
            for kept in self.keeps():
                found = self.in_one_way(chosen, kept, lambda rows, c=chosen, k=kept: solve(c, rows, k),
                                        best[0] if best else np.inf)
                if found:
                    best = (found[0], chosen, kept, found[1], found[2])
        return best

    def nearest(self, cost):
        """How near the aims can be come to at no more than `cost`: the least sum of distances."""
        best, self.tried = np.inf, 0
        for chosen in self.sets():
            left = cost + 1e-7 + sum(2.0 * SURELY_MORE * self.cuts[i].per_unit - self.cuts[i].cost for i in chosen)
            for kept in self.keeps() if left >= 0.0 else ():
                found = self.in_one_way(chosen, kept, lambda rows, c=chosen, k=kept, l=left:
                                        self.least_distance(c, rows, k, l), best)
                best = found[0] if found else best
        return best

    def least_distance(self, chosen, rows, kept, left):
        """The same of one set of cuts, with that much left for amounts and shims."""
        cuts, bins = [self.cuts[i] for i in chosen], [s.stock for s in self.seats]
        matrix, right, careful = self.matrix(rows, kept, len(cuts))
        aimed = [row for row in rows if row.aim is not None]
        count, more = matrix.shape[1], len(aimed)
        matrix = np.hstack([FINE * matrix, np.zeros((len(rows), more))])
        right = FINE * (right - careful) + 1e-6
        for j, row in enumerate(aimed):
            moved = [*row.per_off, *(k * thick for k, stock in zip(row.seat, bins) for thick, _, _ in stock)]
            off = row.with_kept(self, kept)[0] - row.aim
            for way in (-1.0, 1.0):
                away = -(np.arange(more) == j).astype(float)
                matrix = np.vstack([matrix, [*(way * np.array(moved)), *away]])
                right = np.append(right, -way * off)
        price = [c.per_unit for c in cuts] + [self.shim_cost * r for r, stock in zip(self.ranked, bins) for _ in stock]
        lines, most, at = [[*price, *np.zeros(more)]], [left], len(cuts)
        for seat, some in zip(self.seats, kept):
            line = np.zeros(count + more)
            line[at:at + len(seat.stock)], at = 1.0, at + len(seat.stock)
            lines.append(line)
            most.append(seat.at_most - len(some))
        found = milp([0.0] * count + [1.0] * more, integrality=[0] * len(cuts) + [1] * (count - len(cuts)) + [0] * more,
                     bounds=(0.0, [*(c.most for c in cuts), *(float(p) for stock in bins for _, _, p in stock),
                                   *[np.inf] * more]),
                     constraints=[LinearConstraint(matrix, -np.inf, right),
                                  LinearConstraint(np.array(lines), -np.inf, np.array(most))],
                     options={"mip_rel_gap": 0.0, "presolve": False})
        if found.x is None:
            return None
        return found.fun, found.x[:len(cuts)], self.by_seat(np.round(found.x[len(cuts):count]))

    def least_relaxed(self):
        """{what: by how much that limit alone would have to give for there to be a plan}, where that is enough.
        What: (key of a finding, way), whatever its states and differences, or the face of a cut's keep."""
        found, tried = {}, 0
        for chosen in self.sets():
            for rows, kept in ((rows, kept) for rows in self.ways(chosen) for kept in self.keeps()):
                tried += len(rows)
                if tried > TOO_MANY:
                    raise TooMany
                limits = {}
                for j, row in enumerate(rows):
                    limits.setdefault((row.name[0], row.way), []).append(j)
                for what, asked_alike in [*limits.items(), *((i, None) for i in chosen)]:
                    least = self.least_slack(chosen, rows, kept, what, asked_alike)
                    if least is not None:
                        key = self.cuts[what].name if asked_alike is None else what
                        found[key] = min(least, found.get(key, np.inf))
        return found

    def least_slack(self, chosen, rows, kept, what, asked_alike):
        """By how much these rows or, where that is None, the keep of cut `what` (what a lap may take) have to give; None: nothing is enough."""
        cuts, bins = [self.cuts[i] for i in chosen], [s.stock for s in self.seats]
        matrix, right, careful = self.matrix(rows, kept, len(cuts))
        count = matrix.shape[1]
        given = np.zeros(len(rows))
        if asked_alike is not None:
            given[asked_alike] = -1.0
        limits = [LinearConstraint(FINE * np.column_stack([matrix, given]), -np.inf, FINE * (right - careful) + 1e-6)]
        most = [c.most for c in cuts]
        if asked_alike is None:
            line = np.zeros(count + 1)
            line[chosen.index(what)], line[-1] = 1.0, -1.0
            limits.append(LinearConstraint(FINE * line[None, :], -np.inf, FINE * self.cuts[what].most))
            # Nothing can be cut thinner than nothing.
            most[chosen.index(what)] += getattr(self.cuts[what], "keep", np.inf)
        at = len(cuts)
        for seat, some in zip(self.seats, kept):
            line = np.zeros(count + 1)
            line[at:at + len(seat.stock)], at = 1.0, at + len(seat.stock)
            limits.append(LinearConstraint(line[None, :], -np.inf, seat.at_most - len(some)))
        found = milp([0.0] * count + [1.0], integrality=[0] * len(cuts) + [1] * (count - len(cuts)) + [0],
                     bounds=(0.0, [*most, *(float(p) for stock in bins for _, _, p in stock), np.inf]),
                     constraints=limits, options={"mip_rel_gap": 0.0, "presolve": False})
        return None if found.x is None else found.fun

    def kinds(self):
        """The least cost of each kind of plan: [(cost, what is cut and where shims lie)], cheapest first, without
        those that only add to one that costs no more."""
        self.tried, found = 0, []
        for chosen in self.sets():
            for used in itertools.product((False, True), repeat=len(self.seats)):
                costs = []
                for kept in self.keeps():
                    least = self.in_one_way(chosen, kept, lambda rows, c=chosen, k=kept, u=used:
                                            self.least(c, rows, k, u))
                    costs += [least[0]] if least else []
                if costs:
                    found.append((min(costs), {*chosen, *(f"seat {q}" for q, u in enumerate(used) if u)}))
        found.sort(key=lambda each: (round(each[0], 9), len(each[1])))  # equal but for rounding
        return [(cost, kind) for n, (cost, kind) in enumerate(found)
                if not any(kind > other for _, other in found[:n])]
