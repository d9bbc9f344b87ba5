#!/usr/bin/env python3
"""Holds `trialfit check --json --all` to the independent reference, to 1e-9.

    compare_with_reference.py TRIALFIT JOB...
    compare_with_reference.py TRIALFIT --random FIRST COUNT

Every pair of faces that one finds the other must find; every figure agrees within 1e-9 of the
file's unit (relative, where the figure is over 1); verdicts and exit codes agree. A verdict whose
deciding figure lies within 1e-9 of its limit may go either way, for the two add in another order.
"""
import json
import subprocess
import sys

import random_jobs
import reference
from held import near


def figures(prefix, entry):
    """{name: number} of a clearance's, check's or stand-off's figures."""
    out = {}
    for key in ("nominal", "middle", "share", "at_least", "at_most"):
        if isinstance(entry.get(key), (int, float)):
            out[f"{prefix} {key}"] = entry[key]
    for key in ("worst", "rss"):
        for end, value in zip(("least", "greatest"), entry[key]):
            out[f"{prefix} {key} {end}"] = value
    return out


def on_the_edge(entry):
    """Whether some figure lies so near its limit that rounding decides the verdict."""
    limits = [entry[k] for k in ("at_least", "at_most") if entry.get(k) is not None]
    values = [entry["nominal"], *entry["worst"]]
    return any(near(v, limit) for v in values for limit in limits)


def by_key(entries, key):
    return {key(e): e for e in entries}


def compare_lists(kind, mine, theirs, key):
    faults = []
    a, b = by_key(mine, key), by_key(theirs, key)
    faults += [f"{kind} {k}: only the program has it" for k in b if k not in a]
    faults += [f"{kind} {k}: the program misses it" for k in a if k not in b]
    for k in a.keys() & b.keys():
        expected, got = figures(f"{kind} {k}", a[k]), figures(f"{kind} {k}", b[k])
        for name, value in expected.items():
            if name not in got:
                faults.append(f"{name}: missing, should be {value!r}")
            elif not near(value, got[name]):
                faults.append(f"{name}: {got[name]!r}, should be {value!r}")
        if a[k]["verdict"] != b[k]["verdict"] and not on_the_edge(a[k]):
            faults.append(f"{kind} {k}: verdict {b[k]['verdict']}, should be {a[k]['verdict']}")
    return faults


def compare_contact(mine, theirs):
    if (mine is None) != (theirs is None):
        if near((mine or theirs)["stands_proud"]["nominal"], 0.0):
            return []  # they just touch
        return [f"first contact: {theirs}, should be {mine}"]
    if mine is None:
        return []
    expected = figures("stands proud", mine["stands_proud"])
    got = figures("stands proud", theirs["stands_proud"])
    # Two pairs may be equally deep; then either may be named.
    faults = [f"{name}: {got[name]!r}, should be {value!r}" for name, value in expected.items()
              if not near(value, got[name])]
    if mine["between"] != theirs["between"] and faults:
        faults.append(f"first contact {theirs['between']}, should be {mine['between']}")
    return faults


def run(program, text, arguments):
    return subprocess.run([program, "check", "-", "--json", "--all", *arguments], input=text,
                          capture_output=True, text=True, timeout=20, check=False)


def compare(program, text, inflate=1.0, as_written=False):
    arguments = [] if inflate == 1.0 else ["--inflate", str(inflate)]
    arguments += ["--as-written"] if as_written else []
    # The reference knows the parts as they came, before any work on the record.
    arguments += ["--as-of", "0"] if "\nrecord:" in text else []
    done = run(program, text, arguments)
    theirs = json.loads(done.stdout) if done.returncode in (0, 1) else {}
    drawn_home = next((s["drawn_home"] for s in theirs.get("states", []) if "drawn_home" in s), None)
    try:
        mine = reference.answer(text, inflate, as_written, drawn_home)
    except reference.Contradiction:
        return [] if done.returncode == 2 else ["contradicting sizes should be refused"]
    if done.returncode not in (0, 1):
        return [f"exit code {done.returncode}: {done.stderr.strip()}"]
    faults = compare_lists("clearance", mine["clearances"], theirs["clearances"],
                           lambda c: " to ".join(c["between"]))
    faults += compare_lists("check", mine["checks"], theirs["checks"], lambda c: c["check"])
    faults += compare_lists("radial gap", mine["radial"], theirs["radial"],
                            lambda c: " in ".join(c["between"]))
    faults += compare_contact(mine["first_contact"], theirs["first_contact"])
    edge = any(on_the_edge(e) for e in mine["clearances"] + mine["checks"] + mine["radial"])
    if not edge and mine["verdict"] != theirs["verdict"]:
        faults.append(f"verdict {theirs['verdict']}, should be {mine['verdict']}")
    if done.returncode != (0 if theirs["verdict"] == "holds" else 1):
        faults.append(f"exit code {done.returncode} with verdict {theirs['verdict']}")
    return faults


def jobs(arguments):
    if arguments[0] == "--random":
        first, count = int(arguments[1]), int(arguments[2])
        for seed in range(first, first + count):
            yield f"random job {seed}", random_jobs.made_up(seed)
    else:
        for path in arguments:
            with open(path, encoding="utf-8") as file:
                text = file.read()
            # published/unmeasured_made_up.py is the reference of those.
            if "unmeasured" not in text:
                yield path, text


def main():
    program, bad, count = sys.argv[1], 0, 0
    for name, text in jobs(sys.argv[2:]):
        count += 1
        faults = compare(program, text, inflate=1.0 if count % 3 else 1.5)
        if "\nreadings:" in text:
            faults += compare(program, text, as_written=True)
        if faults:
            bad += 1
            print(f"{name}: {len(faults)} disagreements")
            print("".join(f"    {fault}\n" for fault in faults[:8]), end="")
    print(f"{count} jobs, {bad} of them in disagreement")
    return 1 if bad or not count else 0


if __name__ == "__main__":
    sys.exit(main())
