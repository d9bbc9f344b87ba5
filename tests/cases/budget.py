# SPDX-License-Identifier: MIT
"""Large and knotty plans end within ten seconds and 500 MB, and within one once Ctrl-C is pressed.

Seconds are the program's own on the processor, so that a machine under load does not count.
"""
import argparse
import pathlib
import random
import resource
import signal
import subprocess
import tempfile
import time

SECONDS = 10.0
MEGABYTES = 500
STOPPED = 2.0  # a busy machine included; a second is what is meant
PRESSED = 1.0  # when Ctrl-C is pressed
HEAD = ["trialfit: 1", "parts:", "  - part: base",
        "    faces: {floor: zero, top: 10 ±0.02 from floor, lid: 60 ±0.1 from floor}",
        "    rings: {r: {from: floor, to: top, bore: 20, od: 60}}"]


def part(name, under, height, stock=None, at_most=3, cut=None):
    shims = f", shims: {{stock: {stock}, at_most: {at_most}}}" if stock else ""
    lines = [f"  - part: {name}", f"    sits: {{face: a, against: {under}{shims}}}",
             f"    faces: {{a: zero, b: {height} from a}}",
             "    rings: {r: {from: a, to: b, bore: 20, od: 60}}"]
    return lines + ([f"    cuts: [{{face: b, measure: a, {cut}}}]"] if cut else [])


def pile(heights, stock, at_most, cut, every=1):
    """Parts on one another, each with its shims, every so many with a cut."""
    lines, under = list(HEAD), "base.top"
    for i, height in enumerate(heights):
        lines += part(f"p{i}", under, height, stock, at_most, cut(i) if i % every == 0 else None)
        under = f"p{i}.b"
    return lines + ["checks:"]


def gap(number, low, high, faces=None):
    faces = faces or f"base.floor, p{number}.b"
    return f"  - {{check: c{number}, gap: [{faces}], at_least: {low:.3f}, at_most: {high:.3f}}}"


def washers():
    return pile(["1 ±0.01"] * 1000, None, 0, lambda i: "keep: 0.5, holds: 0.01, cost: 1", 10) + [
        gap(999, 980, 1019.2)]


def cuts_and_seats(width, step, seed):
    dice = random.Random(seed)
    heights = [f"{12 + dice.uniform(-.5, .5):.3f} ±0.001" for _ in range(100)]
    costs = [f"keep: 10, holds: 0.001, cost: {dice.uniform(.5, 3):.2f}" for _ in range(100)]
    lines = pile(heights, [0.1, 0.2, 0.25, 0.5], 3, lambda i: costs[i])
    for i in range(step - 1, 100, step):
        middle = 10 + 12 * (i + 1) + dice.uniform(-1, 1)
        lines.append(gap(i, middle - width, middle + width))
    return lines


def fine_stock(parts):
    dice = random.Random(5)
    stock = [round(dice.uniform(.05, 1.5), 3) for _ in range(40)]
    return pile(["12.1 ±0.001"] * parts, stock, 20, lambda i: "keep: 10, holds: 0.001", 200) + [
        gap(parts - 1, 12 * parts + 11, 12 * parts + 11.4)]


def equal_stock():
    return pile(["12 ±0.02"] * 3, [0.1] * 20 + [0.25] * 20, 20, lambda i: "keep: 11, holds: 0.01"
                ) + [gap(2, 51.2, 51.9)]


def five_parts():
    heights = [f"10.{i * 7 % 10} ±0.08" for i in range(5)]
    return pile(heights, [0.1, 0.2, 0.3, 0.5, 1.0], 4,
                lambda i: f"keep: 8, holds: 0.02, cost: {1 + .3 * i:.1f}") + [
        gap(4, .5, .9, "p4.b, base.lid"), gap(2, 39.8, 40.3), gap(1, 29.8, 30.2)]


JOBS = {"washers": (washers(), []),
        "a hundred cuts and seats": (cuts_and_seats(.4, 3, 3), []),
        "wide limits on them": (cuts_and_seats(1, 4, 2), []),
        "forty thicknesses, three seats": (fine_stock(3), []),
        "forty thicknesses, a hundred seats": (fine_stock(100), []),
        "equal stock": (equal_stock(), []),
        "five parts by odds": (five_parts(), ["--judge", "odds=0.99"])}


def used():
    spent = resource.getrusage(resource.RUSAGE_CHILDREN)
    return spent.ru_utime + spent.ru_stime


def run(program, file, options, pressed=None):
    """Seconds on the processor, megabytes, exit code and what was said."""
    before = used()
    measured = ["/usr/bin/env", "python3", "-c",
                "import resource, subprocess, sys; c = subprocess.call(sys.argv[1:]); "
                "print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss, file=sys.stderr); "
                "sys.exit(c)"] if pressed is None else []
    child = subprocess.Popen(measured + [program, "plan", file, "--brief", *options],
                             stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    if pressed is not None:
        time.sleep(pressed)
        child.send_signal(signal.SIGINT)
    out, err = child.communicate(timeout=120)
    kilobytes = int(err.split()[-1]) if pressed is None else 0
    return used() - before, kilobytes / 1000, child.returncode, out


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--program", required=True)
    program = parser.parse_args().program
    faults = []
    with tempfile.TemporaryDirectory() as name:
        for what, (lines, options) in JOBS.items():
            file = pathlib.Path(name) / "job.yaml"
            file.write_text("\n".join(lines) + "\n")
            seconds, megabytes, code, out = run(program, file, options)
            print(f"{what}: {seconds:.1f} s, {megabytes:.0f} MB, exit {code}")
            if code not in (0, 1) or not out.strip():
                faults.append(f"{what}: no answer, exit {code}")
            if seconds > SECONDS or megabytes > MEGABYTES:
                faults.append(f"{what}: {seconds:.1f} s, {megabytes:.0f} MB")
            if seconds < PRESSED + 1:
                continue
            seconds, _, code, out = run(program, file, options, PRESSED)
            print(f"{what}, stopped at {PRESSED} s: {seconds:.1f} s, exit {code}")
            if code not in (0, 1) or not out.strip() or seconds > PRESSED + STOPPED:
                faults.append(f"{what}: Ctrl-C at {PRESSED} s, then {seconds:.1f} s, exit {code}")
    assert not faults, "\n".join(faults)


main()
