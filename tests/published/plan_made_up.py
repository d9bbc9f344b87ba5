#!/usr/bin/python3
"""Holds `trialfit plan` to a second answer in NumPy and SciPy, on examples and on made-up jobs.

usage: plan_made_up.py TRIALFIT JOB...
       plan_made_up.py TRIALFIT --random FIRST COUNT
       plan_made_up.py TRIALFIT --radial FIRST COUNT
       plan_made_up.py TRIALFIT --tight FIRST COUNT

Of each job: whether there is a plan and what the cheapest costs, by HiGHS with every set of cuts in turn, in
the worst case and, where few stacks of shims are to be had, by every stack, in the worst case and by RSS; what
the plans shown after it cost; every figure of every check and clearance once the work is done, that all of them
hold, and that no cut is deeper than its `keep` lets it; that any readings inside the windows pass; and where
there is no plan, that one exists without any one of those that are said not to go together, and that the limit
said to give least is enough.

Of --radial, rings may be skimmed and parts centred by hand. The second answer does without tilt, odds, strength,
rounding rules, and sizes that nobody measured; jobs with these are counted as skipped, as are those of more problems than
reference_plan.TOO_MANY.
Figures agree to 1e-9. Costs agree to 1e-6: rows are met to 1e-9 by both, and HiGHS stops at that.
"""
import itertools
import json
import subprocess
import sys
import tempfile

import numpy as np

sys.path.insert(0, __file__.rsplit("/", 2)[0] + "/support")
import random_plan_jobs  # noqa: E402
import random_radial_plans  # noqa: E402
import random_tight_plans  # noqa: E402
import reference  # noqa: E402
import reference_heat  # noqa: E402
import reference_radial  # noqa: E402
from compare_with_reference import compare_lists  # noqa: E402
from held import Held, near  # noqa: E402
from reference_odds import FormsJob  # noqa: E402
from reference_plan import Centring, Cut, Lap, Plan, Skim, TooMany  # noqa: E402
from reference_sizes import UNIT_MM  # noqa: E402
from reference_work import Worked, in_states  # noqa: E402

BEYOND = ["unmeasured", "feelers:", "face_runout:", "runout: [", "runout:\n", "strength", "round:"]
WITHIN = 1e-6
FIGURES = 0.012  # of a mm: finish sizes are told to hundredths


def run(program, command, text, *arguments):
    return subprocess.run([program, command, "-", "--json", *arguments], input=text, capture_output=True, text=True,
                          timeout=60, check=False)


def bought_and_kept(plan, made):
    """{part: [(shim as text, index of the one that lay there, or None)]} of a plan shown."""
    stacks = {}
    for seat in plan.seats:
        here = next((s for s in made["shims"] if s["part"] == seat.part), {"stack": [], "taken_out": []})
        out, stack = list(here["taken_out"]), list(here["stack"])
        found = []
        for k, thick in enumerate(seat.lies):
            gone = next((t for t in out if near(t, thick)), None)
            if gone is not None:
                out.remove(gone)
            elif here["stack"]:
                stack.remove(next(t for t in stack if near(t, thick)))
                found.append((seat.fitted[k], k))
        for thick in stack:
            which = next(k for k, nominal in enumerate(seat.nominal) if near(nominal, thick))
            found.append((seat.texts[which], None))
        stacks[seat.part] = found
    return stacks


def after(plan, worked, inflate):
    """Clearances and checks once the work is done, as `check` decides them over the states."""
    found, checks, radial = [], [], []
    for _ in in_states(worked):
        radial += reference_radial.gaps(worked, inflate, reference.limit, reference.verdict)
        found.append(reference.clearances(worked, inflate))
        checks.append([reference.check(worked, c, inflate) for c in worked.document.get("checks", [])]
                      + reference.clamp_checks(worked, inflate))
    return (reference_heat.deciding(found, lambda c: tuple(c["between"]), reference.worst_of),
            reference_heat.deciding(checks, lambda c: c["check"], reference.worst_of), radial)


def hold_skims(held, plan, made, off):
    """What a plan says of skims and of centring."""
    for skim in made["skims"]:
        known = next(c for c in plan.cuts if isinstance(c, Skim) and (c.name, c.side) == (skim["ring"], skim["turn"]))
        off[known] = known.sign * (known.now - skim["finish"])
        wall = 0.5 * known.sign * (skim["finish"] - known.sign * known.holds - known.facing)
        figures = {"now": known.now, "holds": known.holds, "remove": off[known], "keep": known.keep,
                   "cost": known.cost + known.per_unit * off[known]}
        for key, value in figures.items():
            held.hold("figures of skims", near(skim[key], value), f"{skim['ring']} {key} {skim[key]!r}, not {value!r}")
        held.hold("keeps", -1e-9 <= off[known] <= known.most + 1e-9 and wall >= known.keep - 1e-9, f"{skim}")
    for by_hand in made["centrings"]:
        known = next(c for c in plan.cuts if isinstance(c, Centring) and c.name == by_hand["part"])
        off[known] = 0.0
        for key, value in (("play", known.play), ("to", known.left), ("cost", known.cost),
                           ("gains", 0.5 * (known.play - known.left))):
            held.hold("figures of centring", near(by_hand[key], value), f"{known.name} {key} {by_hand[key]!r}, not {value!r}")


def hold_cuts(held, plan, made):
    """What a plan says of each cut; returns how much comes off each."""
    off = {}
    hold_skims(held, plan, made, off)
    for lap in made["laps"]:
        known = next(c for c in plan.cuts if c.name == lap["cone"] and isinstance(c, Lap))
        off[known] = lap["off_diameter"]
        for key, value in (("at_most", known.most), ("cost", known.cost + known.per_unit * lap["off_diameter"])):
            held.hold("figures of laps", near(lap[key], value), f"{lap['cone']} {key} {lap[key]!r}, not {value!r}")
        held.hold("figures of laps", -1e-9 <= lap["off_diameter"] <= known.most + 1e-9, f"{lap}")
    for cut in made["cuts"]:
        known = next(c for c in plan.cuts if c.name == cut["face"] and isinstance(c, Cut))
        off[known] = known.now - cut["finish"]
        for key, value in (("now", known.now), ("keep", known.keep), ("holds", known.holds),
                           ("remove", known.now - cut["finish"]),
                           ("cost", known.cost + known.per_unit * (known.now - cut["finish"]))):
            held.hold("figures of cuts", near(cut[key], value), f"{cut['face']} {key} {cut[key]!r}, not {value!r}")
        held.hold("keeps", cut["finish"] - known.holds >= known.keep - 1e-9 and cut["remove"] >= -1e-9,
                  f"{cut['face']} to {cut['finish']}, keep {known.keep}")
    return off


def drawn_home_after(program, text, options):
    """How far the nut draws the hub home once the cheapest plan is carried out, as `check` tells of it; seat_made_up.py
    holds that."""
    with tempfile.TemporaryDirectory() as folder:
        path = f"{folder}/planned.yaml"
        run(program, "plan", text, "--write", path, *options)
        with open(path, encoding="utf-8") as file:
            states = json.loads(run(program, "check", file.read()).stdout).get("states", [])
    return next((s["drawn_home"] for s in states if "drawn_home" in s), None)


def finished(plan, made, off, left, drawn_home=None):
    """The job with the plan carried out; `left`: faces that come out otherwise, as Worked takes them."""
    cuts = {(c.part, c.face): c.made(off[c]) for c in off if isinstance(c, Cut)} | left
    laps = {(c.part, c.cone): off[c] for c in off if isinstance(c, Lap)}
    skims = {(c.part, c.ring, c.side): c.made(off[c]) for c in off if isinstance(c, Skim)}
    centrings = {c.part: c.made() for c in off if isinstance(c, Centring)}
    return Worked(plan.bounds, cuts, bought_and_kept(plan, made), laps, skims, centrings, drawn_home)


def hold_after(held, plan, made, how, inflate, drawn_home=None):
    """The plan carried out on the job: all of it holds, and every figure of it is right. Returns how much comes off."""
    off = hold_cuts(held, plan, made)
    worked = finished(plan, made, off, {}, drawn_home)
    found, checks, radial = after(plan, worked, inflate)
    if how == "worst":
        bad = [c.get("check", c.get("between")) for c in found + checks + radial if c["verdict"] != "holds"]
        held.hold("plans carried out", not bad, f"does not hold once done: {bad}")
    shown = {tuple(c["between"]) for c in made["clearances"]}
    mine = [c for c in found if tuple(c["between"]) in shown]
    for name, one, other, key in (("clearance", mine, made["clearances"], lambda c: tuple(c["between"])),
                                  ("check", checks, made["checks"], lambda c: c["check"])):
        if how == "rss":  # which verdict decides is another's; figures alone
            one = [c | {"verdict": next((o["verdict"] for o in other if key(o) == key(c)), None)} for c in one]
        faults = compare_lists(name, one, other, key)
        held.hold("figures after", not faults, "; ".join(faults[:4]))
    return off


def hold_metal(held, plan, made, how, inflate, off):
    """Where a face may lie past its finish already, that is said, and whether the plan holds where it does."""
    still, left = Worked(plan.bounds, {}, {}), {}
    for cut in made["cuts"]:
        known = next(c for c in plan.cuts if c.name == cut["face"] and isinstance(c, Cut))
        worst = still.bounds(lambda _, z, c=known: z[c.part, c.face] - z[c.part, c.measure])["worst"]
        least, finish = min(known.sign * end for end in worst), cut["finish"]
        if least >= finish - known.holds - 1e-9:
            held.hold("metal there", "may_be" not in cut, f"{cut['face']} may be {cut.get('may_be')}, not {least}")
            continue
        held.hold("metal gone", near(cut.get("may_be", np.inf), least), f"{cut['face']}: {cut.get('may_be')}, not {least}")
        below, above = sorted((known.sign * (least - finish), known.sign * known.holds))
        left[known.part, known.face] = (known.measure, f"{known.sign * finish:.17g} {above:+.17g} {below:+.17g}")
    if not left or how != "worst" or any("may_be" in skim for skim in made["skims"]):
        return
    bad = [c.get("check", c.get("between")) for each in after(plan, finished(plan, made, off, left), inflate) for c in each
           if c["verdict"] != "holds"]
    held.hold("needs metal", made.get("needs_metal", False) == bool(bad), f"{made.get('needs_metal')}; does not hold: {bad}")


def taken_off(work, window):
    """The least and the greatest that comes off within a window of readings."""
    if isinstance(work, (Lap, Centring)):
        return window
    if isinstance(work, Skim):
        return sorted(work.sign * (work.now - end) for end in window)
    return [work.now - window[1], work.now - window[0]]


def hold_windows(held, plan, made):
    """At the worst corner of all windows, each reading off by as much as it may be, all holds."""
    told = {(Cut, m["face"]): m for m in made["cuts"]} | {(Lap, m["cone"]): m for m in made["laps"]} \
        | {(Skim, m["ring"]): m for m in made["skims"]} \
        | {(Centring, m["part"]): {"window": [0.0, 0.0], "read_within": 0.5 * m["to"]} for m in made["centrings"]}
    chosen = tuple(i for i, c in enumerate(plan.cuts) if (type(c), c.name) in told)
    windows = [told[type(plan.cuts[i]), plan.cuts[i].name] for i in chosen]
    if not windows or any(w["window"] is None for w in windows):
        return
    within = np.array([w.get("read_within", 0.0) for w in windows])  # what is lapped off is known
    ends = np.array([taken_off(plan.cuts[i], w["window"]) for i, w in zip(chosen, windows)])
    for i, w in zip(chosen, windows):
        if isinstance(plan.cuts[i], Centring):
            continue
        if isinstance(plan.cuts[i], Skim):
            most = plan.cuts[i].most + plan.cuts[i].holds - w["read_within"]
            held.hold("windows", taken_off(plan.cuts[i], w["window"])[1] <= most + 1e-9, f"{w['ring']}: {w['window']}")
            continue
        if isinstance(plan.cuts[i], Lap):
            held.hold("windows", w["window"][1] <= plan.cuts[i].most + 1e-9, f"{w['cone']}: {w['window']}")
            continue
        held.hold("windows", w["window"][0] - w["read_within"] >= plan.cuts[i].keep - 1e-9,
                  f"{w['face']}: {w['window']} read within {w['read_within']}, keep {plan.cuts[i].keep}")
    stacks = bought_and_kept(plan, made)
    kept, bought = of_stacks(plan, stacks)
    rows, either = plan.rows(chosen)

    slack = max(1e-7 / UNIT_MM[plan.before.context.units], 2e-8)  # by which more than nothing is more

    def room(row):
        holds, row.holds = row.holds, within
        left = plan.room(row, row.with_kept(plan, kept), bought)
        row.holds = holds
        return left - np.maximum(row.way * row.per_off * ends[:, 0], row.way * row.per_off * ends[:, 1]).sum()

    for row in rows:
        held.hold("windows", room(row) >= -slack, f"{row.name} misses by {-room(row)} within the windows")
    for some in either:
        corners = []
        for corner in itertools.product((0, 1), repeat=len(chosen)):
            at = ends[np.arange(len(chosen)), corner]
            best = -np.inf
            for way in some:
                least = np.inf
                for row in way:
                    holds, row.holds = row.holds, within
                    least = min(least, plan.room(row, row.with_kept(plan, kept), bought) - row.way * row.per_off @ at)
                    row.holds = holds
                best = max(best, least)
            corners.append(best)
        held.hold("windows", min(corners) >= -slack, f"{some[0][0].name} misses within the windows")


def contradicts(text):
    try:
        FormsJob(reference.load(text))
    except reference.Contradiction:
        return True
    return False


def compare(held, program, text, how, inflate=1.0, trying=False, arguments=()):
    options = [*(["--judge", "rss"] if how == "rss" else []), *(["--inflate", str(inflate)] if inflate != 1.0 else []),
               *arguments]
    done = run(program, "plan", text, *options)
    if done.returncode == 2 and contradicts(text):
        return
    held.hold("exit codes", done.returncode in (0, 1), f"{done.returncode}: {done.stderr.strip()}")
    if done.returncode not in (0, 1):
        return
    said = json.loads(done.stdout)
    states = json.loads(run(program, "check", text, *arguments).stdout).get("states", []) if "\nseat:" in text else []
    drawn = next((s["drawn_home"] for s in states if "drawn_home" in s), None)
    plan = Plan(reference.load(text), how, inflate, drawn, "--as-written" in arguments)
    best = plan.cheapest(trying=trying)
    if drawn is not None and any("is not shown" in note for note in said["notes"]):
        # Work on the hub may change how far it is drawn home. Not every plan is found then, which is said.
        held.hold("refused", not said["proven"] and (best is None or all(p["cost"] >= best[0] - WITHIN for p in said["plans"])),
                  f"{said['plans']}, {best}")
        for made in said["plans"][:1]:
            hold_after(held, plan, made, how, inflate, drawn_home_after(program, text, options))
        return
    costs = [p["cost"] - sum(s["cost"] for s in p["shims"] for seat, ranked in zip(plan.seats, plan.ranked)
                             if s["part"] == seat.part and not ranked) for p in said["plans"]]
    if best is None:
        held.hold("no plan", not costs and said["proven"], f"there is none, said {costs}, proven {said['proven']}")
        if how == "worst" and not costs:
            if_not_too_many(held, "limits that give", lambda: hold_conflict(held, plan, said["conflict"]))
        return
    held.hold("least cost", bool(costs) and (near_cost(costs[0], best[0])), f"{costs}, should be {best}")
    if not costs:
        return
    rings = any(isinstance(c, (Skim, Centring)) for c in plan.cuts)
    proven = said["plans"][0]["proven"] if rings else said["proven"]
    if rings and not proven:  # what a plan brings into each other may be asked for more than must be
        held.counts["not proven"] = held.counts.get("not proven", 0) + 1
    else:
        held.hold("proven", proven, f"not proven: {said['notes']}")
    for made in said["plans"]:
        if drawn is None:
            hold_metal(held, plan, made, how, inflate, hold_after(held, plan, made, how, inflate))
        elif made is said["plans"][0]:  # work on the hub changes how far it is drawn home
            hold_after(held, plan, made, how, inflate, drawn_home_after(program, text, options))
        hold_windows(held, plan, made)
    if plan.aims and how == "worst":
        if_not_too_many(held, "aims", lambda: hold_aims(held, plan, said["plans"][0], best[0]))
    elif how == "worst" and not adds_nothing(plan, said["plans"][0]):
        if_not_too_many(held, "kinds of plan", lambda: hold_kinds(held, plan, costs, plan.kinds()))


def if_not_too_many(held, what, hold):
    """Counts what would take too many problems, and goes on without."""
    try:
        hold()
    except TooMany:
        what = f"too many ways for {what}"
        held.counts[what] = held.counts.get(what, 0) + 1


def hold_kinds(held, plan, costs, kinds):
    """The cheapest plan of each kind. Where shims lie already, a plan told may leave them where the search took
    them out, and so cost less than the kind that was searched, or be of a kind that is told already."""
    fitted, at = any(seat.lies for seat in plan.seats), 0
    for cost in costs:  # each the next kind, or, where shims lie, some kind after it
        while fitted and at < len(kinds) and cost > kinds[at][0] + WITHIN:
            at += 1
        right = at < len(kinds) and (near_cost(cost, kinds[at][0]) or fitted and cost < kinds[at][0])
        held.hold("kinds of plan", right, f"{costs}, should be {kinds[:4]}")
        at += 1
    held.hold("kinds of plan", len(costs) == min(3, len(kinds)) or fitted and len(costs) <= len(kinds),
              f"{costs}, should be {kinds[:4]}")


def adds_nothing(plan, made):
    """No cut and no shim that did not lie there: any other plan only adds to it, and none is told. A free shim of
    which there is one counts as lying there."""
    once = {(s.part, text["size"]) for s in plan.seats for text, stock in zip(s.texts, s.stock)
            if stock[2] == 1 and not plan.shim_cost}
    return not any(made[work] for work in ("cuts", "laps", "skims", "centrings")) and all(k is not None or (part, text["size"]) in once
                                    for part, stack in bought_and_kept(plan, made).items() for text, k in stack)


def hold_aims(held, plan, made, cost):
    """No plan of that cost comes nearer to the aims, all of them together; finish sizes are told in figures."""
    off = hold_cuts(held, plan, made)
    chosen = tuple(i for i, c in enumerate(plan.cuts) if c in off)
    amounts = np.array([off[plan.cuts[i]] for i in chosen])
    kept, bought = of_stacks(plan, bought_and_kept(plan, made))
    away = within = 0.0
    for row in plan.rows(chosen)[0]:
        if row.aim is not None:
            middle = row.with_kept(plan, kept)[0] + row.per_off @ amounts
            for k, seat, number in zip(row.seat, plan.seats, bought):
                middle += k * sum(n * thick for n, (thick, _, _) in zip(number, seat.stock))
            away += abs(middle - row.aim)
            within += FIGURES / UNIT_MM[plan.before.context.units] * np.abs(row.per_off).sum()
    least = plan.nearest(cost)
    held.hold("aims", abs(away - least) <= WITHIN + within, f"{away} off the aims, can be {least}, figures {within}")


def hold_conflict(held, plan, conflict):
    """The one limit that would have to give least, and by how much."""
    least = plan.least_relaxed()
    best = min(least.values(), default=None)
    said = conflict["relax"]
    if said is None:
        held.hold("limits that give", best is None, f"none is enough, yet of {least}")
        return
    if said["kind"] in ("clearance", "at_least", "at_most"):
        way = 1.0 if said["kind"] == "at_most" else -1.0
        own = min((v for (k, v) in least.items() if k[1:] == (way,) and
                   (k[0] if isinstance(k[0], str) else " to ".join(k[0])) == said["name"]), default=None)
    elif said["kind"] == "keep":
        own = least.get(said["name"])
    else:  # of a lap: rows are straight only as far as the cones bear
        own = conflict["by"]
    held.hold("limits that give", own is not None and abs(own - conflict["by"]) <= 1e-4 * max(1.0, conflict["by"]),
              f"{said['kind']} {said['name']} by {conflict['by']}, should be {own}")
    held.hold("limits that give", best is None or conflict["by"] <= best + 1e-4 * max(1.0, best),
              f"{said['kind']} {said['name']} by {conflict['by']}, less will do: {best} of {least}")


def of_stacks(plan, stacks):
    """For each seat which shims stay, and how many are bought of each."""
    kept = tuple(tuple(k for _, k in stacks[s.part] if k is not None) for s in plan.seats)
    return kept, [[sum(1 for text, k in stacks[s.part] if k is None and text == each) for each in s.texts]
                  for s in plan.seats]


def near_cost(a, b):
    return abs(a - b) <= WITHIN


def jobs(arguments):
    if arguments[0] == "--radial":
        first, count = int(arguments[1]), int(arguments[2])
        for seed in range(first, first + count):
            text, by_rss = random_radial_plans.made_up(seed), seed % 3 == 2
            yield f"job {seed}", text, "rss" if by_rss else "worst", 1.0, by_rss
    elif arguments[0] == "--stuck":
        first, count = int(arguments[1]), int(arguments[2])
        for seed in range(first, first + count):
            yield f"job {seed} that asks too much", random_plan_jobs.made_up(seed, few=True, stuck=True), "worst", 1.0, True
    elif arguments[0] == "--tight":
        first, count = int(arguments[1]), int(arguments[2])
        for seed in range(first, first + count):
            yield f"shaft end {seed}", random_tight_plans.made_up(seed), "rss" if seed % 4 == 3 else "worst", 1.0, seed % 4 == 3
    elif arguments[0] == "--random":
        first, count = int(arguments[1]), int(arguments[2])
        for seed in range(first, first + count):
            yield f"job {seed}", random_plan_jobs.made_up(seed), "worst", 1.0, False
            few = random_plan_jobs.made_up(seed, few=True)
            yield f"job {seed} of few", few, "worst", 1.0, True
            yield f"job {seed} of few by rss", few, "rss", 1.0 + 0.5 * (seed % 2), True
    else:
        for path in arguments:
            with open(path, encoding="utf-8") as file:
                yield path, file.read(), "worst", 1.0, False


def main():
    held, skipped = Held(), {}
    for name, text, how, inflate, trying in jobs(sys.argv[2:]):
        beyond = next((key for key in BEYOND if key in text), None)
        arguments = ["--as-of", "0"] if "\nrecord:" in text else []
        try:
            if beyond is None:
                held.ask(name, lambda: compare(held, sys.argv[1], text, how, inflate, trying, arguments))
        except TooMany:
            beyond = "too many ways"
        if beyond:
            skipped[beyond] = skipped.get(beyond, 0) + 1
    return held.end("jobs", skipped)


if __name__ == "__main__":
    sys.exit(main())
