"""What the sizes of a job spread to, by NumPy: the second answer to `trialfit odds`.

Everything that can be asked is put as linear forms, whose coefficients come from moving one size after
the other in reference_job.py; a play that moves a form stands at the end that is worst for it. The sizes
that readings and redundant dimensions bind are drawn from the normal law that a dense update gives them,
all others from their own shape.
"""
import numpy as np
import reference
import reference_heat
from convolution import Law, Sum, normal_cdf, normal_density
from reference_ends import can_close
from reference_job import Contradiction, Job

ROUNDING = 1e-9
GRID = 1 << 13


class Form:
    """A sum of sizes: its value at their middles and what each adds."""

    def __init__(self, middle, factors):
        self.middle, self.factors = middle, factors

    def minus(self, other, times):
        return Form(self.middle - times * other.middle, self.factors - times * other.factors)


class Demand:
    """A form that must lie between two limits; `beyond`: more than the lower one."""

    def __init__(self, form, lower=-np.inf, upper=np.inf, beyond=False):
        self.form, self.lower, self.upper, self.beyond = form, lower, upper, beyond

    def met(self, lo, hi):
        low = lo > self.lower + ROUNDING if self.beyond else lo >= self.lower - ROUNDING
        return low and hi <= self.upper + ROUNDING

    def missed(self, lo, hi):
        low = hi <= self.lower + ROUNDING if self.beyond else hi < self.lower - ROUNDING
        return low or lo > self.upper + ROUNDING


class FormsJob(Job):
    """A job whose bounds are plain sums, each with the forms at both ends of its movement."""

    def __init__(self, document):
        super().__init__(document)
        self.spread = np.array([s.half for s in self.sizes])
        self.sd = np.array([s.sd for s in self.sizes])
        for members, rows in getattr(self, "groups", []):
            members = sorted(members)
            if not can_close([[row[i] * self.sizes[i].half for row in rows] for i in members],
                             [-self.at_middles[self.rows.index(row)] for row in rows]):
                raise Contradiction("the sizes contradict each other")
        self.new_state()

    def new_state(self):
        """Positions with each size moved a little, and with each part out by the whole of its play."""
        self.share = {}
        self.base = (self.middles, self.positions(self.middles))
        self.played = []
        self.moving = np.flatnonzero(self.spread)
        middles = np.array(self.middles, dtype=float)
        self.steps = 0.001 * (1.0 + np.abs(middles[self.moving]))
        x = np.tile(middles, (len(self.moving), 1))  # a row for each size that moves
        x[np.arange(len(self.moving)), self.moving] += self.steps
        self.moved = (list(x.T), self.positions(list(x.T)))
        for part in self.parts:
            for seat in part.seats:
                if seat["play"] is not None:
                    self.share = {part.name: 1.0}
                    self.played.append((seat, (self.middles, self.positions(self.middles))))
                    self.share = {}

    def form(self, quantity, end):
        """The form at its least (-1) or its greatest (1) end."""
        stated, factors = quantity(*self.base), np.zeros(len(self.sizes))
        middle = stated
        factors[self.moving] = (quantity(*self.moved) - stated) / self.steps
        for seat, at in self.played:
            whole = self.middles[seat["total"]]
            each = (quantity(*at) - stated) / whole
            if abs(each) < 1e-9:
                continue
            share = max(seat["ends"], key=lambda s, e=each: end * s * e)
            factors[seat["total"]] += share * each
            middle += share * each * whole
        factors[np.abs(factors) < 1e-9] = 0.0
        return Form(middle, factors)

    def bounds(self, quantity, inflate=1.0):
        forms = [self.form(quantity, end) for end in (-1.0, 1.0)]
        reach = [float(np.abs(f.factors) @ self.spread) for f in forms]
        root = [float(np.sqrt((f.factors ** 2) @ self.sd ** 2)) for f in forms]
        middle = 0.5 * (forms[0].middle + forms[1].middle)
        return {"nominal": middle, "middle": middle, "forms": forms,
                "worst": [forms[0].middle - reach[0], forms[1].middle + reach[1]],
                "rss": [forms[0].middle - root[0], forms[1].middle + root[1]]}


class Finding:
    """What is asked of one clearance or check in one state: all of `demands`, and not all of `over`.
    `shown` is the form whose distribution is given; a key that may be too tall changes it."""

    def __init__(self, key, demands, over=(), shown=None):
        self.key, self.demands, self.over, self.shown = key, list(demands), list(over), shown


def check_finding(job, given):
    """One check of the file, in the state that the job is in."""
    kind = next(k for k in ("gap", "engagement", "overlap") if k in given)
    features = list(given[kind].values()) if kind == "overlap" else given[kind]
    limits = {side: reference.limit(job, given[side], kind, features)
              for side in ("at_least", "at_most") if side in given}
    length = None
    if kind == "gap":
        inboard, outboard = (tuple(f.split(".")) for f in features)
        differences = [lambda x, z: z[outboard] - z[inboard]]
    else:
        ends = reference.thread_ends if kind == "engagement" else reference.ring_ends
        both = [ends(job, f) for f in features]
        differences = [lambda x, z, a=a, b=b: b[1](x, z) - a[0](x, z) for a in both for b in both]
        if kind == "overlap":
            length = job.form(lambda x, z: both[0][1](x, z) - both[0][0](x, z), -1.0)
    demands, over = [], []
    for difference in differences:
        for side, (value, share) in limits.items():
            form = job.form(difference, -1.0 if side == "at_least" else 1.0)
            if share is not None:
                form, value = form.minus(length, share), 0.0
            if side == "at_least":
                demands.append(Demand(form, lower=value))
            elif kind == "gap":
                demands.append(Demand(form, upper=value))
            else:  # the least of several is above the limit where all of them are
                over.append(Demand(form, lower=value, beyond=True))
    shown = job.form(differences[0], -1.0 if "at_least" in limits else 1.0) if kind == "gap" else None
    return Finding(given["check"], demands, over, shown)


def findings(job):
    """{key: [finding in each state]}"""
    found = {}
    for _ in reference_heat.states(job):
        job.new_state()
        here = [check_finding(job, given) for given in job.document.get("checks", [])]
        here += [Finding(c["check"], [Demand(c["forms"][0], lower=0.0, beyond=True)], (), c["forms"][0])
                 for c in reference.clamp_checks(job, 1.0)]
        here += [Finding(tuple(c["between"]), [Demand(c["forms"][0], lower=c["at_least"],
                                                      beyond=c["at_least"] == 0.0)], (), c["forms"][0])
                 for c in reference.clearances(job, 1.0)]
        for each in here:
            found.setdefault(each.key, []).append(each)
    return found


class Spreads:
    """The laws of a job's sizes, and draws of them."""

    def __init__(self, job):
        self.job = job
        self.bound = np.array(sorted(getattr(job, "bound", ())), dtype=int)
        self.mean, variance = np.array(job.middles, float), job.sd ** 2
        self.covariance = np.zeros((0, 0))
        if len(self.bound):
            rows = np.array(job.rows)[:, self.bound]
            own = np.diag(variance[self.bound])
            gain = own @ rows.T @ np.linalg.pinv(rows @ own @ rows.T, rcond=1e-12)
            self.mean[self.bound] -= gain @ np.array(job.residuals(job.middles))
            self.covariance = own - gain @ rows @ own
        # A key's stand-off max(0, 2 (height - room)/T) is no size of its own.
        self.keys = {seat["off"]: (*seat["key"][:2], 2.0 / abs(seat["part"].cones[seat["other"]]["taper"]))
                     for part in job.parts for seat in part.seats if seat["key"] and seat["off"] is not None}

    def mean_of(self, form):
        return form.middle + form.factors @ (self.mean - np.array(self.job.middles))

    def sd_of(self, form):
        free = form.factors.copy()
        free[self.bound] = 0.0
        tied = form.factors[self.bound]
        return float(np.sqrt((free ** 2) @ self.job.sd ** 2 + max(0.0, tied @ self.covariance @ tied)))

    def has_key(self, form):
        return any(form.factors[i] for i in self.keys)

    def without_keys(self, form, gain=0.0):
        """The form without the stand-offs by keys; with a `gain`, without those that add to it that way."""
        factors = form.factors.copy()
        for i in self.keys:
            if i not in self.bound and (gain == 0.0 or gain * factors[i] > 0.0):
                factors[i] = 0.0
        return Form(form.middle - (form.factors - factors) @ np.array(self.job.middles), factors)

    def counted(self, demand, over=False):
        """The demand as it is judged: a key that may hold a part off is not counted on where that helps."""
        gain = 0.0 if over else 1.0 if demand.lower > -np.inf else -1.0
        return Demand(self.without_keys(demand.form, gain), demand.lower, demand.upper, demand.beyond)

    def worst(self, form):
        """The extremes of a form that bound sizes are in."""
        effects = form.factors * self.job.spread
        free = np.abs(np.delete(effects, self.bound)).sum()
        lo, hi = form.middle - free, form.middle + free
        for members, rows in getattr(self.job, "groups", []):
            ends = self.job.extremes(members, rows, effects)
            lo, hi = lo + ends[0], hi + ends[1]
        return lo, hi

    def laws(self, form):
        """The laws whose sum, with `constant`, the form is; all that is normal is put together."""
        variance, laws = 0.0, []
        for i in np.flatnonzero(form.factors):
            size, k = self.job.sizes[i], form.factors[i]
            if i in self.bound:
                continue
            if size.shape == "normal":
                variance += (k * size.sd) ** 2
            else:
                variance += (k * size.scatter) ** 2
                laws.append(Law(size.shape, 0.0, abs(k) * (size.half - 3.0 * size.scatter), size.sigmas))
        tied = form.factors[self.bound]
        variance += max(0.0, tied @ self.covariance @ tied)
        return laws + [Law("normal", 0.0, np.sqrt(variance), 1.0)] * (variance > 0.0)

    def sum(self, form):
        """Its distribution by convolution; None where it has no spread."""
        laws = self.laws(form)
        return Sum(laws, self.mean_of(form), GRID) if laws else None

    def draw(self, count, seed):
        """A row of each size's values."""
        chance = np.random.default_rng(seed)
        x = np.tile(np.array(self.job.middles)[:, None], (1, count))
        for i in np.flatnonzero(self.job.spread):
            size = self.job.sizes[i]
            if size.shape == "normal":
                x[i] += chance.normal(0.0, size.sd, count)
            elif size.shape == "uniform":
                half = size.half - 3.0 * size.scatter
                x[i] += chance.uniform(-half, half, count) + chance.normal(0.0, 1.0, count) * size.scatter
            elif size.shape == "triangular":
                x[i] += chance.triangular(-size.half, 0.0, size.half, count)
            else:
                z, k = chance.normal(0.0, 1.0, count), size.sigmas
                while (out := np.abs(z) > k).any():
                    z[out] = chance.normal(0.0, 1.0, out.sum())
                x[i] += z * size.half / k
        if len(self.bound):
            x[self.bound] = chance.multivariate_normal(self.mean[self.bound], self.covariance, count,
                                                       method="eigh").T
        for i, (height, room, per) in self.keys.items():
            if i not in self.bound:
                x[i] = np.maximum(0.0, per * (x[height] - x[room]))
        return x - np.array(self.job.middles)[:, None]

    def density(self, i, off):
        """Of a size that is `off` its middle."""
        size = self.job.sizes[i]
        half, k = size.half, size.sigmas
        if size.shape == "uniform" and size.scatter:
            half -= 3.0 * size.scatter
            return (normal_cdf((off + half) / size.scatter) - normal_cdf((off - half) / size.scatter)) / (2.0 * half)
        inside = np.abs(off) <= half
        if size.shape == "uniform":
            return inside / (2.0 * half)
        if size.shape == "triangular":
            return inside * (half - np.abs(off)) / half ** 2
        return normal_density(off * k / half) * (inside | (size.shape == "normal"))

    def draw_by_the_laws(self, count, seed):
        """Draws of all sizes from their own laws, bound ones too, and how much each counts: one size of
        each loop is what closes it, and counts by its density there."""
        job, bound = self.job, self.bound
        self.bound = np.zeros(0, dtype=int)
        drawn = self.draw(count, seed)
        self.bound = bound
        rows = np.array(job.rows)
        rows = rows[np.abs(rows[:, bound]).max(axis=1) > 0.0]
        closing = []
        for k in range(len(rows)):  # the widest size that makes the loops' closing solvable
            for i in sorted(bound, key=lambda j: -job.sd[j] * abs(rows[k, j])):
                some = closing + [i]
                if i not in closing and np.linalg.matrix_rank(rows[:k + 1][:, some]) == k + 1:
                    closing = some
                    break
        rest = np.setdiff1d(bound, closing)
        missing = -np.array(job.residuals(job.middles))[:, None] - rows[:, rest] @ drawn[rest]
        drawn[closing] = np.linalg.solve(rows[:, closing], missing)
        weight = np.prod([self.density(i, drawn[i]) for i in closing], axis=0)
        return drawn, weight / weight.sum()

    def values(self, form, drawn):
        some = np.flatnonzero(form.factors)
        return form.middle + form.factors[some] @ drawn[some]

    def certain(self, demand):
        """True where it is met for sure, False where it is missed for sure, else None."""
        form = demand.form
        if self.sd_of(form) < 1e-12:
            mean = self.mean_of(form)
            return bool(demand.met(mean, mean))
        if form.factors[self.bound].any():
            lo, hi = self.worst(form)
            if demand.met(lo, hi):
                return True
            if demand.missed(lo, hi):
                return False
        mean, sd = self.mean_of(form), self.sd_of(form)
        if self.has_key(form):
            return None
        if min(mean - demand.lower, demand.upper - mean) > 8.0 * sd:
            return True
        return False if max(demand.lower - mean, mean - demand.upper) > 8.0 * sd else None

    def fails(self, demand):
        """The chance that a demand is missed, by convolution."""
        total = self.sum(demand.form)
        below = total.cdf(demand.lower) if demand.lower > -np.inf else 0.0
        above = 1.0 - total.cdf(demand.upper) if demand.upper < np.inf else 0.0
        return below + above

    def holds(self, states, drawn):
        """Of each draw: whether the finding holds in all states."""
        all_hold = np.ones(drawn.shape[1], bool)
        for finding in states:
            for demand in map(self.counted, finding.demands):
                sure = self.certain(demand)
                if sure is None:
                    value = self.values(demand.form, drawn)
                    all_hold &= (value >= demand.lower) & (value <= demand.upper)
                elif not sure:
                    all_hold[:] = False
            if finding.over:
                over = np.ones(drawn.shape[1], bool)
                for demand in (self.counted(d, over=True) for d in finding.over):
                    sure = self.certain(demand)
                    if sure is None:
                        over &= self.values(demand.form, drawn) > demand.lower
                    elif not sure:
                        over[:] = False
                all_hold &= ~over
        return all_hold
