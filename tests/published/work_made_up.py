#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Holds `trialfit check` of work that was supposed (`--with`, `--take`) and of work on the record to a second answer:
the same made-up job put together anew after that work.

usage: work_made_up.py TRIALFIT FIRST COUNT

Of each job: some faces cut to a finish size or by an amount, some stacks of shims changed, some cones lapped. The same
work is asked about in two ways: supposed on the command line (all but lapping), and written into the record. Every
figure and verdict of every check and clearance agrees to 1e-9; both ways give the same. Beside that `--with` of a face
that nothing is cut on, and of a cone: the job with that size written instead.
"""
import copy
import json
import random
import subprocess
import sys

sys.path.insert(0, __file__.rsplit("/", 2)[0] + "/support")
import random_plan_jobs  # noqa: E402
import reference  # noqa: E402
import reference_heat  # noqa: E402
from compare_with_reference import compare_lists, on_the_edge  # noqa: E402
from held import Held  # noqa: E402
from reference_plan import Lap, Plan  # noqa: E402
from reference_work import BEFORE, Worked, in_states  # noqa: E402


def run(program, text, *arguments):
    return subprocess.run([program, "check", "-", "--json", "--all", *arguments], input=text, capture_output=True,
                          text=True, timeout=60, check=False)


def after(worked):
    """Clearances and checks once the work is done, as `check` decides them over the states."""
    found, checks = [], []
    for _ in in_states(worked):
        found.append(reference.clearances(worked, 1.0))
        checks.append([reference.check(worked, c, 1.0) for c in worked.document.get("checks", [])]
                      + reference.clamp_checks(worked, 1.0))
    return (reference_heat.deciding(found, lambda c: tuple(c["between"]), reference.worst_of),
            reference_heat.deciding(checks, lambda c: c["check"], reference.worst_of))


class Work:
    """Some work on a job, in three ways of saying it."""

    def __init__(self, seed, plan):
        r = random.Random(f"work {seed}")
        self.cuts, self.stacks, self.laps = {}, {}, {}  # as Worked takes them
        self.options, self.record = [], {"as_cut": {}, "taken_off": {}, "fitted": {}, "lapped": {}}
        for work in plan.cuts:
            if r.random() < 0.3:
                continue
            name = work.name
            if isinstance(work, Lap):
                off = float(f"{r.uniform(0.0, work.most):.6f}")
                if off > 0.0:
                    self.laps[work.part, work.cone] = off
                    self.record["lapped"][name] = f"{off:.6f}"
                continue
            half, off = r.choice([work.holds, 0.7 * work.holds]), r.uniform(0.0, work.most)
            bare = half == work.holds
            if r.random() < 0.6:  # to a size: the old one's spread is gone
                finish = f"{work.now - off:.6f}"
                if float(finish) - half > self.greatest(plan, work):  # as the nominal may lie outside the limits
                    continue
                said = finish if bare else f"{finish} ±{half}"
                self.cuts[work.part, work.face] = (work.measure, f"{work.sign * float(finish):.17g} ±{half:.17g}")
                self.options += ["--with", f"{name}={said}"]
                self.record["as_cut"][name] = f"{finish} ±{half:.17g}"
            else:  # by an amount: the old spread stays, and the amount's comes to it
                amount = f"{off:.6f}"
                if float(amount) <= half:  # it must come off at every limit
                    continue
                self.cuts[work.part, work.face] = (work.face + BEFORE,
                                                   f"{-work.sign * float(amount):.17g} ±{half:.17g}")
                self.options += ["--take", f"{name}={amount} ±{half:.17g}"]
                self.record["taken_off"][name] = f"{amount} ±{half:.17g}"
        for seat in plan.seats:
            self.stacks[seat.part] = [(text, k) for k, text in enumerate(seat.fitted)]
            if r.random() < 0.5:
                pieces = [f"{thick:.9g} ±{thick * r.choice([0.01, 0.03]):.9g}" for thick in
                          r.choices(seat.nominal, k=r.randint(0, seat.at_most))]
                self.stacks[seat.part] = [(piece, None) for piece in pieces]
                self.options += ["--with", f"{seat.part}.shims={'+'.join(pieces) or 'none'}"]
                self.record["fitted"][seat.part] = pieces
        self.record = {"date": "2026-11-25"} | {k: v for k, v in self.record.items() if v}

    @staticmethod
    def greatest(plan, work):
        """What a size may be before it is cut: metal does not grow."""
        worst = Worked(plan.bounds, {}, {}).bounds(lambda _, z: z[work.part, work.face] - z[work.part, work.measure])["worst"]
        return max(work.sign * end for end in worst)

    def entry(self):
        out = "record:\n  - date: 2026-11-25\n"
        for key, value in self.record.items():
            if isinstance(value, dict):
                inside = ", ".join(f"{name}: " + ("[" + ", ".join(given) + "]" if isinstance(given, list) else given)
                                   for name, given in value.items())
                out += f"    {key}: {{{inside}}}\n"
        return out


def hold_same(held, kind, done, found, checks):
    held.hold("exit codes", done.returncode in (0, 1), f"{kind}: {done.returncode}: {done.stderr.strip()}")
    if done.returncode not in (0, 1):
        return
    said = json.loads(done.stdout)
    faults = compare_lists("clearance", found, said["clearances"], lambda c: tuple(c["between"]))
    faults += compare_lists("check", checks, said["checks"], lambda c: c["check"])
    held.hold(kind, not faults, "; ".join(faults[:4]))
    if any(map(on_the_edge, found + checks)) or "radial" in said and said["radial"]:
        return
    worst = reference.worst_of([c["verdict"] for c in found + checks])
    # What stands apart from every finding makes it worse: a limit that was passed, a hub that rocks.
    apart = any("LIMIT PASSED" in each or "tapers" in each or "the key of" in each or "do not meet" in each
                for each in said.get("warnings", []))
    held.hold("verdicts", said["verdict"] == worst or apart and reference.worst_of([said["verdict"], worst]) != worst,
              f"{kind}: {said['verdict']}, should be {worst}; {said.get('warnings')}")


def hold_work(held, program, text, seed):
    plan = Plan(reference.load(text))
    work = Work(seed, plan)
    if work.options:
        stays = Worked(plan.bounds, work.cuts, work.stacks)
        hold_same(held, "supposed", run(program, text, *work.options), *after(stays))
    if len(work.record) > 1:
        done = Worked(plan.bounds, work.cuts, work.stacks, work.laps)
        hold_same(held, "on the record", run(program, text + work.entry()), *after(done))


def hold_sizes(held, program, text, seed):
    """A face that nothing is cut on, and a cone, of another size; no readings, which would bind the old one."""
    r, document = random.Random(f"sizes {seed}"), reference.load(text)
    if "readings" in document:
        return
    supposed, options = copy.deepcopy(document), []
    job = reference.Job(document)
    for part, new in zip(document["parts"], supposed["parts"]):
        cut = {given["face"] for given in part.get("cuts", [])}
        free = [face for face, written in part["faces"].items()
                if face not in cut and not isinstance(written, list) and written != "zero"]
        if free and r.random() < 0.6:
            face = r.choice(free)
            _, origin, size = next(d for d in job.by_name[part["part"]].tree if d[0] == face)
            said = f"{job.sizes[size].nominal + r.uniform(-0.05, 0.05):.6f} ±0.007"
            new["faces"][face] = f"{said} from {origin}"
            options += ["--with", f"{part['part']}.{face}={said}"]
        for name, cone in new.get("cones", {}).items():
            if r.random() < 0.3:
                dia = job.sizes[job.by_name[part["part"]].cones[name]["dia"]].nominal
                said = f"{dia + r.uniform(-0.01, 0.01):.6f} ±0.002"
                cone["dia"] = said
                options += ["--with", f"{part['part']}.{name}={said}"]
    if not options:
        return
    done = run(program, text, *options)
    try:
        mine = reference.answer_of(supposed)
    except reference.Contradiction:
        held.hold("contradictions", done.returncode == 2, f"{options}: {done.returncode}")
        return
    hold_same(held, "other sizes", done, mine["clearances"], mine["checks"])


def main():
    held, first, count = Held(), int(sys.argv[2]), int(sys.argv[3])
    for seed in range(first, first + count):
        text = random_plan_jobs.made_up(seed, few=seed % 2 == 0)

        def compare(given=text, number=seed):
            hold_work(held, sys.argv[1], given, number)
            hold_sizes(held, sys.argv[1], given, number)
        held.ask(f"job {seed}", compare)
    return held.end("jobs")


if __name__ == "__main__":
    sys.exit(main())
