# SPDX-License-Identifier: MIT
"""The odds' work done by Trialfit and by general libraries, by turns in one run; ratios of medians.

  python3 tests/bench/odds_peers.py build/tests/bench/bench_odds [ROUNDS [PYTHON]]

PYTHON (default: this one) runs the peers: python3-numpy, python3-openturns; one that is missing is
left out. Absolute times drift from run to run, ratios less so.
"""
import json
import pathlib
import re
import statistics
import subprocess
import sys

HERE = pathlib.Path(__file__).resolve().parent
BENCH = sys.argv[1]
ROUNDS = int(sys.argv[2]) if len(sys.argv) > 2 else 5
PYTHON = sys.argv[3] if len(sys.argv) > 3 else sys.executable


def peer(script, spec, *arguments):
    """What a peer prints, or nothing where its library is missing."""
    command = [PYTHON, HERE / "peers" / script, HERE / "spec" / spec, *arguments]
    run = subprocess.run(command, capture_output=True, text=True, check=False)
    return run.stdout if run.returncode == 0 else ""


def note(times, name, value):
    times.setdefault(name, []).append(value)


def ours(times):
    command = [BENCH, "--benchmark_filter=^w1/|^w1_(words|numbers)_alone/0|^w2/",
               "--benchmark_min_time=0.2", "--benchmark_format=json"]
    run = subprocess.run(command, capture_output=True, text=True, check=True)
    for each in json.loads(run.stdout)["benchmarks"]:
        name = each["name"].removesuffix("/real_time")
        if name.startswith("w1"):
            note(times, "trialfit " + name, each["ns_per_sample"])
        else:
            note(times, "trialfit " + name, each["real_time"])


def theirs(times):
    for threads in ("1", "2"):
        for library, script, arguments in (
                ("numpy", "w1_numpy.py", ("1e6", "20000", threads, "SFC64")),
                ("openturns", "w1_openturns.py", ("4e5", "100000", threads))):
            found = re.search(r"([\d.]+) ns/sample", peer(script, "w1.txt", *arguments))
            if found:
                note(times, f"{library} w1/{threads}", float(found.group(1)))
    for spec in ("a", "b"):
        text = peer("w2_openturns.py", f"w2{spec}.txt")
        build = re.search(r"build (\d+) us", text)
        points = re.findall(r"z=\S+ .* (\d+) us", text)
        if build:
            note(times, f"openturns w2/{spec}", float(build.group(1)) + float(points[0]))


def main():
    times = {}
    for _ in range(ROUNDS):
        ours(times)
        theirs(times)
    middle = {name: statistics.median(values) for name, values in times.items()}
    for name, value in middle.items():
        unit = "us" if "w2" in name else "ns a sample"
        print(f"{name:32} {value:10.1f} {unit}  (least {min(times[name]):.1f})")
    print()

    def ratio(what, slow, fast):
        if slow in middle and fast in middle:
            print(f"{what:58} {middle[slow] / middle[fast]:6.1f}")

    for threads in ("1", "2"):
        for library in ("numpy", "openturns"):
            ratio(f"w1, {threads} thread(s): {library} over trialfit", f"{library} w1/{threads}",
                  f"trialfit w1/{threads}")
    ratio("w1: numpy, 1 process, over trialfit, 2 threads", "numpy w1/1", "trialfit w1/2")
    ratio("w1: trialfit over its random words alone, 1 thread", "trialfit w1/1",
          "trialfit w1_words_alone/0")
    ratio("w1: trialfit over its numbers alone, 1 thread", "trialfit w1/1",
          "trialfit w1_numbers_alone/0")
    ratio("w1: scaling from one thread to two", "trialfit w1/1", "trialfit w1/2")
    for spec in ("a", "b"):
        for z in ("-6", "-3", "0", "2"):
            ratio(f"w2{spec}, z = {z}: openturns' first answer over trialfit",
                  f"openturns w2/{spec}", f"trialfit w2/{spec}/{z}")


main()
