# SPDX-License-Identifier: MIT
"""The whole `trialfit check` process on the demo against an empty process, by turns.

  python3 tests/bench/process.py build/trialfit
"""
import pathlib
import statistics
import subprocess
import sys
import time

RUNS = 300
demo = pathlib.Path(__file__).resolve().parent.parent.parent / "examples" / "pump-engine.yaml"


def milliseconds(command):
    began = time.perf_counter()
    code = subprocess.run(command, stdout=subprocess.DEVNULL, check=False).returncode
    taken = 1000 * (time.perf_counter() - began)
    if code not in (0, 1):
        raise SystemExit(f"{command}: exit code {code}")
    return taken


def main():
    commands = {"empty process": ["/bin/true"], "trialfit --version": [sys.argv[1], "--version"],
                "trialfit check": [sys.argv[1], "check", str(demo)]}
    taken = {name: [] for name in commands}
    for _ in range(RUNS):
        for name, command in commands.items():
            taken[name].append(milliseconds(command))
    for name, times in taken.items():
        print(f"{name:20} median {statistics.median(times):6.2f} ms of {RUNS} runs")
    more = statistics.median(taken["trialfit check"]) - statistics.median(taken["empty process"])
    print(f"check takes {more:.2f} ms more than an empty process")


main()
