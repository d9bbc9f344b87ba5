#!/usr/bin/python3
"""Holds `trialfit why` to a second answer, on examples and on made-up jobs: every size moved alone in
reference_job.py, sensitivities and what each size adds to the worst case and to the variance.

usage: why_made_up.py TRIALFIT JOB...
       why_made_up.py TRIALFIT --random FIRST COUNT

Of every check and of a gap of two faces: its figures, that the chain has just the sizes that move it, each with
its limits, its sensitivity (of readings and tied sizes as the adjustment has it), its shares, biggest first, and
what the figures are once its spread is halved. Sizes are told apart by their limits and what they do, not by
name. Of an engagement or overlap the one of four differences that decides is told, and one of the four must
match. Left out: air gaps, whose directions have no half-width; jobs with runout, a record, an unmeasured size, a strength.

Sensitivities agree to 1e-8: they come from differences over a thousandth of each size, of sums good to 1e-13.
All else to 1e-9, as for `check`.
"""
import json
import subprocess
import sys

import numpy as np

sys.path.insert(0, __file__.rsplit("/", 2)[0] + "/support")
import random_jobs  # noqa: E402
import reference  # noqa: E402
from held import Held, near  # noqa: E402
from reference_odds import FormsJob  # noqa: E402
from reference_plan import Before  # noqa: E402
from reference_work import Bounds, Worked, in_states  # noqa: E402

BEYOND = ["unmeasured", "\nrecord:", "strength", "runout:"]
SENSITIVE = 1e-8


def differences(job, given):
    """What a check hangs on: functions of sizes and positions."""
    if "gap" in given:
        inboard, outboard = (tuple(face.split(".")) for face in given["gap"])
        return [lambda x, z: z[outboard] - z[inboard]]
    kind = "engagement" if "engagement" in given else "overlap"
    features = list(given[kind].values()) if kind == "overlap" else given[kind]
    both = [(reference.thread_ends if kind == "engagement" else reference.ring_ends)(job, f) for f in features]
    return [lambda x, z, a=a, b=b: b[1](x, z) - a[0](x, z) for a in both for b in both]


def told(worked, form):
    """[(lower, upper, sensitivity, half-width added, sd added)] of the sizes that move a form."""
    bounds, old = worked.of, np.zeros(len(worked.of.half))
    for k, origin in zip(form.factors, worked.origin):
        old[origin] += k
    through = old @ bounds.moves
    out = []
    for i in np.flatnonzero(np.abs(through) > 1e-7):
        size = bounds.job.sizes[i]
        out.append((size.lower, size.upper, through[i], abs(through[i]) * size.half, abs(through[i]) * size.sd))
    return out


def match(chain, sizes):
    """None where chain and sizes are the same, else what differs."""
    left = list(sizes)
    for link in chain:
        found = next((s for s in left if near(s[0], link["limits"][0]) and near(s[1], link["limits"][1])
                      and near(s[2], link["sensitivity"], SENSITIVE)), None)
        if found is None:
            return f"{link['size']} {link['limits']} by {link['sensitivity']} is none of {left}"
        left.remove(found)
    left = [s for s in left if s[3] > 0.0]  # an exact one may be counted with the constant
    return f"{left} left out" if left else None


def hold_shares(held, said, sizes, tied):
    total, variance = sum(s[3] for s in sizes), sum(s[4] ** 2 for s in sizes)
    held.hold("sd", near(said["sd"], variance ** 0.5, 1e-8), f"{said['sd']}, should be {variance ** 0.5}")
    last = np.inf
    for link in said["chain"]:
        own = next(s for s in sizes if near(s[0], link["limits"][0]) and near(s[1], link["limits"][1])
                   and near(s[2], link["sensitivity"], SENSITIVE))
        for key, value in (("half_width", own[3]), ("worst_share", own[3] / total if total else 0.0),
                           ("variance_share", own[4] ** 2 / variance if variance else 0.0)):
            held.hold(key, near(link[key], value, SENSITIVE), f"{link['size']}: {link[key]}, should be {value}")
        held.hold("order", link["half_width"] <= last + 1e-9, f"{link['size']} adds more than the one before it")
        last = link["half_width"]
        if said.get("fails", 0.0) > 0.2 and own[4] < 0.9 * variance ** 0.5 and "fails_if_halved" in link:
            held.hold("odds if halved", link["fails_if_halved"] > 0.0, f"{link['size']} cannot make it certain")
        if not tied and said["kind"] == "gap":  # a play is a movement and no doubt: measuring makes it no less
            then, less = link["if_halved"], 0.5 * own[3] * (not link["size"].startswith("play of "))
            for end, way in ((0, 1.0), (1, -1.0)):
                held.hold("halved", near(then["worst"][end], said["worst"][end] + way * less, SENSITIVE),
                          f"{link['size']}: {then['worst']} of {said['worst']}")


def hold_why(held, program, text, arguments, worked, given, name):
    done = subprocess.run([program, "why", "-", *arguments, "--json"], input=text, capture_output=True, text=True,
                          timeout=30, check=False)
    held.hold("exit codes", done.returncode in (0, 1), f"{arguments}: {done.returncode} {done.stderr.strip()}")
    if done.returncode not in (0, 1):
        return
    said = json.loads(done.stdout)
    states = [state for state in in_states(worked)]
    wanted = said.get("state", "")
    if len(states) > 1:
        wanted = "" if wanted == "as measured" else wanted
        held.hold("states", wanted in states, f"{name}: {wanted} of {states}")
    closest = "no state of that name"
    for state in in_states(worked):
        if len(states) > 1 and state != wanted:
            continue
        for difference in differences(worked, given):
            for end in (-1.0, 1.0):
                sizes = told(worked, worked.form(difference, end))
                why = match(said["chain"], sizes)
                closest = min(closest, why or "", key=len) if closest != "no state of that name" else why
                if why is None:
                    hold_shares(held, said, sizes, bool(worked.before.bound))
                    hold_figures(held, said, worked.bounds(difference, said["inflate"]), given, name)
                    held.hold("chains", True, "")
                    return
    held.hold("chains", False, f"{name}: {closest}")


def hold_figures(held, said, bounds, given, name):
    if "gap" not in given:
        return
    for key in ("nominal", "middle"):
        held.hold("figures", near(said[key], bounds[key]), f"{name} {key}: {said[key]}, should be {bounds[key]}")
    for key in ("worst", "rss"):
        for got, wanted in zip(said[key], bounds[key]):
            held.hold("figures", near(got, wanted), f"{name} {key}: {said[key]}, should be {bounds[key]}")


def compare(held, program, text, pairs):
    try:
        FormsJob(reference.load(text))
    except reference.Contradiction:
        return
    check = json.loads(subprocess.run([program, "check", "-", "--json"], input=text, capture_output=True, text=True,
                                      timeout=30, check=False).stdout or "{}")
    drawn = next((s["drawn_home"] for s in check.get("states", []) if "drawn_home" in s), None)
    before = Before(reference.load(text), drawn)
    worked = Worked(Bounds(before), {}, {})
    checks = [c for c in before.document.get("checks", []) if "air_gap" not in c]
    for given in checks[:pairs]:
        hold_why(held, program, text, [given["check"]], worked, given, given["check"])
    parts = before.document["parts"]
    faces = [f"{p['part']}.{list(p['faces'])[-1]}" for p in (parts[0], parts[-1])]
    if faces[0] != faces[1] and "states" not in before.document:
        hold_why(held, program, text, faces, worked, {"gap": faces}, " to ".join(faces))


def jobs(arguments):
    if arguments[0] == "--random":
        first, count = int(arguments[1]), int(arguments[2])
        for seed in range(first, first + count):
            yield f"job {seed}", random_jobs.made_up(seed), 2
    else:
        for path in arguments:
            with open(path, encoding="utf-8") as file:
                yield path, file.read(), 99


def main():
    held, skipped = Held(), 0
    for name, text, pairs in jobs(sys.argv[2:]):
        if any(key in text for key in BEYOND):
            skipped += 1
            continue
        held.ask(name, lambda: compare(held, sys.argv[1], text, pairs))
    return held.end("jobs", skipped)


if __name__ == "__main__":
    sys.exit(main())
