# SPDX-License-Identifier: MIT
"""`trialfit plan` on whole generated jobs, the process from file to answer: faces that may be cut and
seats that take up to 3 of 15 thicknesses, in a stack with checks on every few parts.

  python3 tests/bench/plan_jobs.py build/trialfit [SEEDS]
"""
import json
import pathlib
import random
import statistics
import subprocess
import sys
import tempfile
import time

SIZES = ((8, 4), (12, 6), (16, 8))
RUNS = 5


def job(faces, seats, seed):
    dice = random.Random(seed)
    stock = ", ".join(f"{0.1 + 0.05 * k:.2f}" for k in range(15))
    lines = ["trialfit: 1", "title: generated", "units: mm", "running_clearance: 0.3", "parts:",
             "  - part: case", "    faces: {floor: zero}",
             "    rings: {pad: {from: floor, below: 5, bore: 10, od: 100}}"]
    under = "case.floor"
    for i in range(faces):
        shims = f", shims: {{stock: [{stock}], at_most: 3, holds: 0.005}}" if i < seats else ""
        thick = 5 + 3 * dice.random()
        lines += [f"  - part: p{i}",
                  f"    sits: {{face: back, against: {under}{shims}}}",
                  f"    faces: {{back: zero, front: {thick:.1f} ±0.02 from back}}",
                  "    rings: {disc: {from: back, to: front, bore: 20, od: 90}}",
                  "    cuts:",
                  f"      - {{face: front, measure: back, keep: 3, holds: ±0.02, "
                  f"cost: {1 + 3 * dice.random():.2f}, per_mm: 0.1}}"]
        under = f"p{i}.front"
    lines.append("checks:")
    for i in range(1, faces):
        low = max(0, i - 3)
        aimed = 5.6 * (i - low + 1)
        lines.append(f"  - {{check: c{i}, gap: [p{low}.back, p{i}.front], "
                     f"at_least: {aimed - 0.3:.2f}, at_most: {aimed + 0.5:.2f}}}")
    return "\n".join(lines) + "\n"


def main():
    seeds = int(sys.argv[2]) if len(sys.argv) > 2 else 5
    print(f"{'faces/seats':12} {'seed':>4} {'cost':>9} {'proven':>6} {'median ms':>10}")
    with tempfile.TemporaryDirectory() as folder:
        file = pathlib.Path(folder) / "job.yaml"
        for faces, seats in SIZES:
            for seed in range(seeds):
                file.write_text(job(faces, seats, seed), encoding="utf-8")
                taken = []
                for _ in range(RUNS):
                    began = time.perf_counter()
                    said = subprocess.run([sys.argv[1], "plan", str(file), "--json", "--top", "1"],
                                          capture_output=True, check=False)
                    taken.append(1000 * (time.perf_counter() - began))
                answer = json.loads(said.stdout)
                cost = f"{answer['plans'][0]['cost']:.4f}" if answer["plans"] else "none"
                print(f"{faces:>5}/{seats:<6} {seed:>4} {cost:>9} {str(answer['proven']):>6} "
                      f"{statistics.median(taken):>10.1f}")


main()
