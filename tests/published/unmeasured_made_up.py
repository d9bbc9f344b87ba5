#!/usr/bin/python3
"""Holds `trialfit check` and `survey` to dense algebra in NumPy, on made-up jobs with unmeasured sizes.

usage: unmeasured_made_up.py TRIALFIT [FIRST [COUNT]]

Parts stand on one another's faces; some of their sizes are unmeasured, and readings are taken over them all. Let x
be the measured sizes and readings, u the unmeasured ones, and A x + B u = 0 what the readings say. With N the left
null space of B, N A x = 0 is what binds the measured ones. A gap f x + h u is fixed just where h is in the row space
of B, h = k B; it is then (f - k A) x, whose

- adjusted value is that of x by weighted least squares under N A x = 0 (Lagrange's multipliers),
- worst case is the extremes over all x within their limits with N A x = 0: a linear program, solved by looking at
  every vertex of it (as many basic sizes as there are ties, the others at a limit).

The program eliminates and adjusts sparsely, and has a simplex of its own.
"""
import itertools
import json
import random
import subprocess
import sys

import numpy as np

ROUND_OFF = 1e-9
WITHIN = 1e-7  # mm; a vertex is solved for, and sums are in another order
GAUGES = {"caliper": 0.03, "depth_gauge": 0.02}
MOST_TIES = 2  # vertices grow with their number


class Made:
    """One job: its text, and each face's place as a row over all sizes."""

    def __init__(self, seed):
        self.r = random.Random(seed)
        self.middle, self.half, self.sd, self.names, self.measured = [], [], [], [], []
        self.place = {}  # face -> {size: +-1}
        self.lines = ["trialfit: 1", "units: mm", f"gauges: {{{', '.join(f'{k}: {v}' for k, v in GAUGES.items())}}}",
                      "parts:"]
        self.true = []
        for p in range(self.r.randint(3, 5)):
            self.part(p)
        self.readings = self.read()

    def size(self, name, value):
        """A new size about `value`; the text of it. One in three is unmeasured."""
        kind = self.r.choice(["unmeasured", "gauge", "limits"])
        number = len(self.middle)
        if kind == "gauge":
            gauge = self.r.choice(list(GAUGES))
            half, sd, text = GAUGES[gauge], GAUGES[gauge] / 3 ** 0.5, f"{value:.2f} by {gauge}"
        else:
            half = self.r.choice([0.02, 0.05, 0.1])
            sd, text = half / 3, f"{value:.2f} ±{half}"
        self.middle.append(round(value, 2))
        self.half.append(half)
        self.sd.append(sd)
        self.names.append(name)
        self.measured.append(kind != "unmeasured")
        self.true.append(round(value, 2) + self.r.uniform(-0.6, 0.6) * half)
        return number, text if kind != "unmeasured" else "unmeasured"

    def part(self, p):
        faces = {"zero": {}}
        texts = ["zero: zero"]
        for f in range(self.r.randint(1, 3)):
            origin = self.r.choice(list(faces))
            number, text = self.size(f"p{p}.f{f} from p{p}.{origin}", self.r.choice([-1, 1]) * self.r.uniform(3, 30))
            faces[f"f{f}"] = {**faces[origin], number: 1}
            texts.append(f"f{f}: {text} from {origin}")
        base, seat = {}, ""
        if p > 0:
            against = self.r.choice(list(self.place))
            own = self.r.choice(list(faces))
            base = dict(self.place[against])
            seat = f"against: {against}"
            if self.r.random() < 0.5:
                number, text = self.size(f"p{p}.{own} from {against}", self.r.uniform(1, 20))
                base[number] = base.get(number, 0) + 1
                seat += f", offset: {text}"
            for size, share in faces[own].items():
                base[size] = base.get(size, 0) - share
            self.lines += [f"  - part: p{p}", f"    sits: {{face: {own}, {seat}}}"]
        else:
            self.lines += [f"  - part: p{p}"]
        self.lines.append(f"    faces: {{{', '.join(texts)}}}")
        for name, own_place in faces.items():
            total = dict(base)
            for size, share in own_place.items():
                total[size] = total.get(size, 0) + share
            self.place[f"p{p}.{name}"] = total

    def row(self, one, other):
        row = np.zeros(len(self.middle))
        for face, sign in ((one, -1.0), (other, 1.0)):
            for size, share in self.place[face].items():
                row[size] += sign * share
        return row

    def apart(self):
        """Two faces of different parts."""
        while True:
            one, other = self.r.sample(list(self.place), 2)
            if one.split(".")[0] != other.split(".")[0]:
                return one, other

    def read(self):
        rows, lines = [], ["readings:"]
        for r in range(self.r.randint(1, 4)):
            one, other = self.apart()
            row = self.row(one, other)
            value = float(row @ self.true)
            rows.append(row)
            lines += [f"  - {{reading: r{r}, from: {one}, to: {other}, is: {value:.2f} by depth_gauge}}"]
            self.middle.append(round(value, 2))
            self.half.append(GAUGES["depth_gauge"])
            self.sd.append(GAUGES["depth_gauge"] / 3 ** 0.5)
            self.names.append(f"r{r}")
            self.measured.append(True)
            self.true.append(value)
        n = len(self.middle)
        self.lines += lines
        out = np.zeros((len(rows), n))
        for r, row in enumerate(rows):
            out[r, :len(row)] = row
            out[r, n - len(rows) + r] = -1.0
        return out

    def gaps(self):
        """(name, row) of each check, and the job's text."""
        gaps, lines = [], ["checks:"]
        for c in range(5):
            one, other = self.apart()
            lines.append(f"  - {{check: c{c}, gap: [{one}, {other}], at_least: 0}}")
            gaps.append((f"c{c}", np.pad(self.row(one, other), (0, len(self.middle) - len(self.row(one, other))))))
        return gaps, "\n".join(self.lines + lines) + "\n"


def null_of_rows(b):
    """The left null space of b, its rows orthonormal."""
    u, s, _ = np.linalg.svd(b, full_matrices=True)
    return u[:, int((s > ROUND_OFF).sum()):].T


def independent(rows):
    """The same rows' space, as few as it takes."""
    if rows.size == 0:
        return rows
    _, s, v = np.linalg.svd(rows, full_matrices=False)
    return v[s > ROUND_OFF]


def extremes(g, ties, middle, half):
    """Of g x with |x - middle| <= half and ties x = 0, over every vertex."""
    if len(ties) == 0:
        reach = np.abs(g) @ half
        return g @ middle - reach, g @ middle + reach
    used = np.flatnonzero(np.abs(ties).sum(0) + np.abs(g) > ROUND_OFF)
    g, ties, middle, half = g[used], ties[:, used], middle[used], half[used]
    k, n = ties.shape
    found = []
    for basic in itertools.combinations(range(n), k):
        rest = [i for i in range(n) if i not in basic]
        block = ties[:, basic]
        if abs(np.linalg.det(block)) < 1e-8:
            continue
        signs = np.array(list(itertools.product((-1.0, 1.0), repeat=len(rest))))
        at_limits = middle[rest] + signs * half[rest]
        solved = np.linalg.solve(block, -(ties[:, rest] @ at_limits.T)).T
        inside = np.all(np.abs(solved - middle[list(basic)]) <= half[list(basic)] + ROUND_OFF, axis=1)
        found.append(solved[inside] @ g[list(basic)] + at_limits[inside] @ g[rest])
    found = np.concatenate(found)
    return found.min(), found.max()


def adjusted(ties, middle, sd):
    if len(ties) == 0:
        return middle
    spread = np.diag(sd ** 2)
    return middle - spread @ ties.T @ np.linalg.solve(ties @ spread @ ties.T, ties @ middle)


def hold(made, gaps, answer, survey, faults):
    """How many figures were compared, and how many of them are open."""
    known = np.flatnonzero(made.measured)
    open_sizes = np.flatnonzero(~np.array(made.measured))
    a, b = made.readings[:, known], made.readings[:, open_sizes]
    middle, half, sd = (np.array(v)[known] for v in (made.middle, made.half, made.sd))
    ties = independent(null_of_rows(b) @ a) if open_sizes.size else independent(a)
    if len(ties) > MOST_TIES:
        return 0, 0
    best = adjusted(ties, middle, sd)
    asked = [(f"check {name}", row, next(c for c in answer["checks"] if c["check"] == name)) for name, row in gaps]
    by_name = {each["size"]: each for each in survey["unmeasured"]}
    for size in open_sizes:
        row = np.zeros(len(made.middle))
        row[size] = 1.0
        each = by_name[made.names[size]]
        asked.append((made.names[size], row, {"nominal": each["value"], "worst": each["worst"]}))
    open_count = 0
    for name, row, said in asked:
        k = np.linalg.lstsq(b.T, row[open_sizes], rcond=None)[0] if open_sizes.size else np.zeros(len(b))
        fixed = not open_sizes.size or np.abs(k @ b - row[open_sizes]).max() < ROUND_OFF
        if fixed != (said["nominal"] is not None):
            faults.append(f"{name}: {said}, {'fixed' if fixed else 'open'} by the reference")
            continue
        if not fixed:
            open_count += 1
            continue
        g = row[known] - k @ a
        wanted = (g @ best, *extremes(g, ties, middle, half))
        given = (said["nominal"], *said["worst"])
        if max(abs(x - y) for x, y in zip(wanted, given)) > WITHIN:
            faults.append(f"{name}: {given}, should be {wanted}")
    return len(asked), open_count


def run(program, command, text):
    done = subprocess.run([program, command, "-", "--json"], input=text, capture_output=True, text=True, timeout=60,
                          check=False)
    return done.returncode, done.stdout


def main():
    first = int(sys.argv[2]) if len(sys.argv) > 2 else 0
    count = int(sys.argv[3]) if len(sys.argv) > 3 else 200
    bad = compared = left_open = refused = 0
    for seed in range(first, first + count):
        made, faults = Made(seed), []
        gaps, text = made.gaps()
        code, said = run(sys.argv[1], "check", text)
        if code == 2 and "contradict" in said:
            refused += 1
            continue
        if code not in (0, 1):
            faults.append(f"exit code {code}: {said}")
        else:
            some = hold(made, gaps, json.loads(said), json.loads(run(sys.argv[1], "survey", text)[1]), faults)
            compared, left_open = compared + some[0], left_open + some[1]
        if faults:
            bad += 1
            print(f"seed {seed}:", *faults, sep="\n  ")
    print(f"{count} jobs, {compared} values compared, {left_open} of them open, {refused} jobs contradict, {bad} bad")
    raise SystemExit(1 if bad or compared < 4 * count or left_open < count // 4 or refused > count // 10 else 0)


main()
