#!/usr/bin/python3
"""Holds `trialfit survey` to published levelling networks and to NumPy's least squares.

usage: survey_networks.py TRIALFIT CASES.yaml

Each network is written as a job, surveyed by the program, and compared with the published figures
and with numpy.linalg.lstsq on the same weighted equations, which knows nothing of either.
"""
import json
import math
import subprocess
import sys
import tempfile

import numpy
import yaml


def sd_of(line):
    return line["sd"] if "sd" in line else math.sqrt(line["setups"] / 12.0)


def face(name):
    return "p" + name if name[0].isdigit() else name


def oriented(case):
    """Lines led away from the first fixed point, and whether that turned them round."""
    zero = next(iter(case["fixed"]))
    for line in case["lines"]:
        turned = line["to"] == zero
        a, b = (line["to"], line["from"]) if turned else (line["from"], line["to"])
        yield a, b, -line["dh"] if turned else line["dh"], sd_of(line), turned


def job_of(case):
    zero, *others = case["fixed"]
    faces = {face(zero): "zero"}
    for name in others:
        faces[face(name)] = [f"{case['fixed'][name] - case['fixed'][zero]:.9f} exact from {face(zero)}"]
    for a, b, dh, sd, _ in oriented(case):
        size = {"size": dh, "plus": 3 * sd, "minus": 3 * sd, "shape": "normal", "from": face(a)}
        faces.setdefault(face(b), []).append(size)
    job = {"trialfit": 1, "title": case["case"], "units": "mm", "parts": [{"part": "net", "faces": faces}]}
    return yaml.safe_dump(job, sort_keys=False)


def surveyed(program, text):
    with tempfile.NamedTemporaryFile("w", suffix=".yaml") as file:
        file.write(text)
        file.flush()
        run = subprocess.run([program, "survey", file.name, "--json"], capture_output=True, text=True, check=False)
    assert run.returncode in (0, 1), run.stderr
    return json.loads(run.stdout)


def by_numpy(case):
    fixed = case["fixed"]
    names = []
    for line in case["lines"]:
        names += [n for n in (line["from"], line["to"]) if n not in fixed and n not in names]
    rows, right = [], []
    for line in case["lines"]:
        row, value = [0.0] * len(names), line["dh"]
        for name, sign in ((line["to"], 1.0), (line["from"], -1.0)):
            if name in fixed:
                value -= sign * fixed[name]
            else:
                row[names.index(name)] = sign
        rows.append([x / sd_of(line) for x in row])
        right.append(value / sd_of(line))
    solution, squares, _, _ = numpy.linalg.lstsq(numpy.array(rows), numpy.array(right), rcond=None)
    return dict(zip(names, solution)), float(squares[0])


class Failures(list):
    def near(self, what, found, expected, within):
        if not abs(found - expected) <= within:
            self.append(f"{what}: found {found!r}, expected {expected!r} within {within!r}")


def held(program, case, failures):
    answer = surveyed(program, job_of(case))
    expect = case["expect"]
    zero = next(iter(case["fixed"]))
    sizes = {}
    for size in answer["sizes"]:
        sizes.setdefault(size["size"], size)
    lines = list(oriented(case))
    per_line = [sizes[f"net.{face(b)} from net.{face(a)}"] for a, b, _, _, _ in lines]
    heights = dict(case["fixed"])
    for _ in lines:
        for (a, b, _, _, _), size in zip(lines, per_line):
            if a in heights:
                heights.setdefault(b, heights[a] + size["adjusted"])
    name = case["case"]
    for point, height in expect["heights"].items():
        failures.near(f"{name}: height {point}", heights[point], height, expect["heights_within"])
    numpy_heights, squares = by_numpy(case)
    for point, height in numpy_heights.items():
        failures.near(f"{name}: height {point} against NumPy", heights[point], height, 1e-9)
    failures.near(f"{name}: chi-square against NumPy", answer["chi_square"], squares, 1e-6 * max(1.0, squares))
    if answer["freedom"] != expect["freedom"]:
        failures.append(f"{name}: freedom {answer['freedom']}, expected {expect['freedom']}")
    if "chi_square" in expect:
        failures.near(f"{name}: chi-square", answer["chi_square"], expect["chi_square"], 5e-9)
    if "s0" in expect:
        s0 = math.sqrt(answer["reference_variance"]) * expect["s0_scale"]
        failures.near(f"{name}: s0", s0, expect["s0"], 5e-9)
    for i, ((a, b, _, _, turned), size) in enumerate(zip(lines, per_line)):
        sign = -1.0 if turned else 1.0
        residual = sign * (size["adjusted"] - size["as_written"])
        if "residuals" in expect:
            failures.near(f"{name}: residual {i}", residual, expect["residuals"][i], 5e-9)
        if "redundancy" in expect:
            within = expect.get("redundancy_within", 5e-9)
            failures.near(f"{name}: redundancy {i}", size["redundancy"], expect["redundancy"][i], within)
        # The program counts an observation's own error, observed less expected.
        if "standardised" in expect:
            failures.near(f"{name}: standardised {i}", -sign * size["standardised"], expect["standardised"][i], 5e-9)
        if "absolute" in expect:
            failures.near(f"{name}: |standardised| {i}", abs(size["standardised"]), expect["absolute"][i], 5e-6)
    if "sd_heights" in expect:
        for point, sd in expect["sd_heights"].items():
            found = next(s["sd_after"] for (a, b, _, _, _), s in zip(lines, per_line) if (a, b) == (zero, point))
            failures.near(f"{name}: sd of {point}", found, sd, 5e-9)
    if "suspect" in expect:
        first = answer["suspects"][0]
        if first["name"] != expect["suspect"]:
            failures.append(f"{name}: suspect {first['name']}, expected {expect['suspect']}")
        failures.near(f"{name}: suspect off by", first["off_by"], expect["suspect_off_by"], 5e-9)
        flagged = [s["size"] for s in answer["sizes"] if abs(s["standardised"]) > 3.29052673]
        if flagged != [expect["suspect"]]:
            failures.append(f"{name}: flagged {flagged}")


def main():
    program, cases = sys.argv[1:]
    failures = Failures()
    with open(cases, encoding="utf-8") as file:
        all_cases = yaml.safe_load(file)["cases"]
    for case in all_cases:
        assert case["source"]
        held(program, case, failures)
    print("\n".join(failures) if failures else f"{len(all_cases)} networks held, NumPy {numpy.__version__} beside")
    return 1 if failures or not all_cases else 0


sys.exit(main())
