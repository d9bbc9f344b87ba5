#!/usr/bin/python3
"""Holds `trialfit odds` to a second answer in NumPy, on made-up jobs: chances by convolution where one sum
is asked, by draws where several are; quantiles by convolution; what touches first by draws.

usage: odds_made_up.py TRIALFIT [FIRST [COUNT]]

The jobs have play, cut normals, triangles and uniforms, sizes that redundant dimensions and readings bind,
states, keys that may be too tall, and pairs that may or may not foul.

Where the answer departs from the plain truth, it does so by its own account, and the second answer follows:
sizes bound together count as jointly normal; a demand on them that no sizes within the limits can miss is
certain; a key that may hold a part off is not counted on where that helps. `by_the_laws` tells how far off
the first of these is: the same sizes drawn from their own laws, each draw counted by how likely it makes
the sizes that close the loops.
"""
import json
import subprocess
import sys

import numpy as np

sys.path.insert(0, __file__.rsplit("/", 2)[0] + "/support")
import random_jobs  # noqa: E402
import reference  # noqa: E402
from reference_odds import FormsJob, Spreads, findings  # noqa: E402

# What the convolution is off by: its grid is 8 times as coarse as that of odds_convolution.py, so 64 times 5e-8.
GRID = 3.2e-6
# How far the normal law of bound sizes may be off their own laws: 0.0076 is the most in the first 100 jobs,
# where half of a sum's spread is bound and its shapes are cut ones.
BOUND_AS_NORMAL = 0.01
DRAWS = 60_000
DEVIATIONS = 4.5  # of the draws: by chance once in 150,000


class Maker(random_jobs.Maker):
    """Made-up jobs with more of what the odds are about."""

    def size(self, mm):
        if self.r.random() < 0.65:
            return super().size(mm)
        half = self.r.choice([0.02, 0.05, 0.1, 0.2])
        shape = self.r.choice(["truncated normal", "uniform", "triangular", "normal"])
        long = {"size": self.number(mm), "plus": self.number(half), "minus": self.number(half), "shape": shape}
        if "normal" in shape and self.r.random() < 0.5:
            long["sigmas"] = self.r.choice(["1", "1.5", "2"])
        return long

    def cone_seat(self, part, other):
        """Keys that may or may not be too tall."""
        seat = super().cone_seat(part, other)
        if "key" in seat:
            seat["key"]["height"] = f"{self.number(self.r.choice([2.985, 3.0, 3.01, 3.1]))} ±{self.number(0.01)}"
        return seat

    def about_even(self, document):
        """Limits where the checks may fail, and offsets with which parts may foul."""
        r, scale = self.r, random_jobs.UNIT_MM[self.units]
        # What is not judged for want of a material has no odds.
        for part in document["parts"] if "states" in document else ():
            part.setdefault("material", "steel")
        # Not where readings are: which pair touched for them is to stay beyond doubt.
        for part in document["parts"] if "readings" not in document else ():
            seat = part.get("sits")
            if not isinstance(seat, dict) or "offset" not in seat or r.random() < 0.3:
                continue
            job = FormsJob(reference.load(random_jobs.emit(document)))
            pairs = [c for c in reference.clearances(job, 1.0)
                     if c["between"][1].startswith(part["part"] + ".")]
            if pairs:
                tight = min(pairs, key=lambda c: c["nominal"])
                now = job.sizes[job.by_name[part["part"]].seats[0]["offset"]].nominal
                seat["offset"] = self.size(scale * (now - tight["nominal"]) + r.uniform(-0.1, 0.2))
        job = FormsJob(reference.load(random_jobs.emit(document)))
        spreads = Spreads(job)
        for check, states in zip(document["checks"], findings(job).values()):
            demand = states[0].demands[0]
            if len(states[0].demands) > 1:
                demand = min(states[0].demands, key=lambda d: spreads.mean_of(d.form))
            mean, sd = spreads.mean_of(demand.form), spreads.sd_of(demand.form)
            least = mean + r.uniform(-2.5, 1.0) * sd
            if "gap" not in check:
                least = max(least, 0.0)
            if r.random() < 0.7 or "gap" not in check and least > 0.0 and r.random() < 0.5:
                check["at_least"] = self.number(least * scale)
            else:
                del check["at_least"]
            if "at_least" not in check or r.random() < 0.4:
                most = least + r.uniform(0.5, 4.0) * (sd + 0.01)
                check["at_most"] = self.number(most * scale)
        # A bare length over a ring's own is refused, as a share without its sign.
        for check in document["checks"]:
            if "overlap" in check:
                check.pop("at_most", None)
                check["at_least"] = r.choice(["30 %", "60 %", "90 %", check.get("at_least", "50 %")])
        return document


def made_up(seed):
    while True:
        maker = Maker(seed)
        try:
            return random_jobs.emit(maker.about_even(maker.assemble()))
        except reference.Contradiction:
            seed += 1_000_000


class Held:
    """What was compared in one job, and the faults."""

    def __init__(self):
        self.faults, self.exact, self.drawn, self.quantiles, self.first, self.laws = [], 0, 0, 0, 0, 0

    def by_draws(self, name, found, interval, share, draws=DRAWS, beside=0.0):
        lo, hi = interval or (found, found)
        p = min(max(found, 1e-4), 1.0 - 1e-4)
        within = DEVIATIONS * np.sqrt(p * (1.0 - p) / draws) + 0.5 * (hi - lo) + beside
        self.drawn += 1
        if not abs(found - share) <= within:
            self.faults.append(f"{name}: {found!r}, drawn {share!r}, within {within:.1e}")


def hold_finding(held, name, given, states, spreads, drawn):
    if "odds" not in given:
        held.faults.append(f"{name}: {given.get('not_judged_for')}")
        return
    demands = [spreads.counted(demand) for demand in states[0].demands]
    single = len(states) == 1 and len(demands) == 1 and not states[0].over
    if single and spreads.certain(demands[0]) is not None:
        held.exact += 1
        sure = 1.0 if spreads.certain(demands[0]) else 0.0
        if abs(given["odds"] - sure) > 1e-12:
            held.faults.append(f"{name}: {given['odds']!r}, should be {sure}")
    elif single and not spreads.has_key(demands[0].form):
        held.exact += 1
        fails = spreads.fails(demands[0])
        if abs(given["fails"] - fails) > GRID:
            held.faults.append(f"{name}: fails {given['fails']!r}, should be {fails!r}")
    else:
        share = float(spreads.holds(states, drawn).mean())
        held.by_draws(name, given["odds"], given.get("odds_interval"), share)
    hold_quantiles(held, name, given, states, spreads)


def hold_quantiles(held, name, given, states, spreads):
    if len(states) > 1 or states[0].shown is None or not given.get("quantiles"):
        return
    shown = spreads.without_keys(states[0].shown)
    total = spreads.sum(shown)
    lo, hi = spreads.worst(shown) if shown.factors[spreads.bound].any() else (-np.inf, np.inf)
    for each in given["quantiles"][::4]:  # both ends and the median
        held.quantiles += 1
        at_a_limit = min(abs(each["value"] - lo), abs(each["value"] - hi)) < 1e-9
        p = total.cdf(each["value"])
        # Past what the limits allow, the normal law of bound sizes is cut: the quantile is the limit.
        cut = at_a_limit and (p >= each["p"] if each["value"] < hi - 1e-9 else p <= each["p"])
        if abs(p - each["p"]) > GRID and not cut:
            held.faults.append(f"{name}: quantile {each['p']} is {each['value']!r}, whose share is {p!r}")


def hold_by_the_laws(held, found, given, spreads, seed):
    """Bound sizes from their own laws."""
    drawn, weight = spreads.draw_by_the_laws(DRAWS, seed)
    normal = all(spreads.job.sizes[i].shape == "normal" for i in spreads.bound)
    for key, states in found.items():
        demands = states[0].demands
        if len(states) > 1 or len(demands) != 1 or states[0].over or spreads.has_key(demands[0].form):
            continue
        if not demands[0].form.factors[spreads.bound].any() or spreads.certain(demands[0]) is not None:
            continue
        value = spreads.values(demands[0].form, drawn)
        share = float(weight[(value < demands[0].lower) | (value > demands[0].upper)].sum())
        held.by_draws(f"{key} by the laws", given[key]["fails"], None, share, 1.0 / (weight ** 2).sum(),
                      0.0 if normal else BOUND_AS_NORMAL)
        held.laws += 1


def hold_first(held, answer, found, spreads, drawn):
    """Which pair is the deepest of those that foul."""
    pairs = {key: states[0].demands[0].form for key, states in found.items() if isinstance(key, tuple)}
    values = np.array([np.zeros(drawn.shape[1])] + [spreads.values(f, drawn) for f in pairs.values()])
    deepest = values.argmin(axis=0)
    said = {tuple(each["between"]): each for each in answer["touches_first"]}
    for i, key in enumerate([None, *pairs]):
        share = float((deepest == i).mean())
        if key is None:
            held.by_draws("nothing touches", answer["nothing_touches"], None, share)
        elif share > 0.0 or key in said:
            each = said.get(key, {"odds": 0.0})
            held.by_draws(f"first {key}", each["odds"], each.get("odds_interval", (0.0, 1e-4)), share)
        held.first += 1


def compare(program, text, seed):
    done = subprocess.run([program, "odds", "-", "--json", "--all", "--samples", "400000"], input=text,
                          capture_output=True, text=True, timeout=60, check=False)
    held = Held()
    if done.returncode not in (0, 1):
        held.faults.append(f"exit code {done.returncode}: {done.stderr.strip()}")
        return held
    answer = json.loads(done.stdout)
    job = FormsJob(reference.load(text))
    found, spreads = findings(job), Spreads(job)
    drawn = spreads.draw(DRAWS, seed)
    given = {each["check"]: each for each in answer["checks"]}
    given |= {tuple(each["between"]): each for each in answer["clearances"]}
    for key, states in found.items():
        if key not in given:
            held.faults.append(f"{key}: the program misses it")
            continue
        hold_finding(held, key, given[key], states, spreads, drawn)
    if len(spreads.bound):
        hold_by_the_laws(held, found, given, spreads, seed)
    together = spreads.holds([each for states in found.values() for each in states], drawn)
    held.by_draws("all", answer["all"]["odds"], answer["all"].get("odds_interval"), float(together.mean()))
    if "states" not in job.document and not spreads.keys:
        hold_first(held, answer, found, spreads, drawn)
    return held


def main():
    first = int(sys.argv[2]) if len(sys.argv) > 2 else 0
    count = int(sys.argv[3]) if len(sys.argv) > 3 else 100
    bad, sums = 0, np.zeros(5, int)
    for seed in range(first, first + count):
        held = compare(sys.argv[1], made_up(seed), seed)
        sums += [held.exact, held.drawn, held.quantiles, held.first, held.laws]
        if held.faults:
            bad += 1
            print(f"job {seed}: {len(held.faults)} disagreements")
            print("".join(f"    {fault}\n" for fault in held.faults[:8]), end="")
    print(f"{count} jobs, {bad} in disagreement: {sums[0]} exact chances, {sums[1]} by draws, "
          f"{sums[2]} quantiles, {sums[3]} of what touches first, {sums[4]} of bound sizes by their own laws")
    return 1 if bad or not sums.all() else 0


if __name__ == "__main__":
    sys.exit(main())
