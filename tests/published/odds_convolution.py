#!/usr/bin/python3
"""Holds `trialfit odds` to sums convolved on a grid in NumPy: sizes of every shape and of scales far
apart, random limits on either side, chances and quantiles.

usage: odds_convolution.py TRIALFIT [LIMITS [SEED]]
"""
import json
import random
import statistics
import subprocess
import sys

sys.path.insert(0, __file__.rsplit("/", 2)[0] + "/support")
from convolution import Law, Sum  # noqa: E402

CHECKS = 20  # in a job
# What the grid itself is off by, on sums of up to eight sizes.
WITHIN = 5e-8
SHAPES = ["truncated normal"], ["normal", "uniform"], ["triangular", "uniform"], ["uniform"], \
    ["normal", "truncated normal"], ["normal", "truncated normal", "uniform", "triangular", "readings"]


def random_size(choose, shapes, reach):
    """A size as it is written, and the laws whose sum it is."""
    shape = choose.choice(shapes)
    middle = round(choose.uniform(2, 20), 3)
    half = round(10 ** choose.uniform(-2 - reach, -1), 9)
    if shape == "readings":
        read = [round(middle + choose.uniform(-0.05, 0.05), 3) for _ in range(choose.choice([2, 3, 5]))]
        mean, scatter = statistics.mean(read), statistics.stdev(read) / len(read) ** 0.5
        laws = [Law("uniform", mean, 0.03), Law("normal", 0.0, scatter, 1.0)]
        return f"{read} by caliper", laws if scatter else laws[:1]
    if shape in ("uniform", "triangular"):
        return {"shape": shape, "size": middle, "plus": half, "minus": half}, [Law(shape, middle, half)]
    sigmas = choose.choice([1, 2, 3, 3, 3, 4, round(choose.uniform(0.3, 6), 2)])
    return ({"shape": shape, "size": middle, "plus": half, "minus": half, "sigmas": sigmas},
            [Law(shape, middle, half, sigmas)])


def random_check(choose, number):
    """The faces of a chain, its check, and the sum that it is."""
    shapes, reach = choose.choice(SHAPES), choose.choice([0.3, 1, 2, 5])
    faces, laws, before = {}, [], "z"
    for i in range(choose.choice([1, 2, 2, 3, 3, 4, 5, 6, 8])):
        written, own = random_size(choose, shapes, reach)
        if choose.random() < 0.4:  # measured the other way round
            own = [law.times(-1) for law in own]
            written = (f"-({written})" if isinstance(written, str) else written)
        face = f"c{number}f{i}"
        faces[face] = (written, before, own)
        before = face
        laws += own
    return faces, before, Sum(laws)


def text_of(size, face, base):
    if isinstance(size, str):
        return f"      {face}: '{size} from {base}'\n"
    return f"      {face}: {{{', '.join(f'{key}: {value}' for key, value in size.items())}, from: {base}}}\n"


def job_of(choose):
    """A job's text and the sum and limits behind each check."""
    faces, checks, behind = "      z: zero\n", "", []
    for number in range(CHECKS):
        chain, last, total = random_check(choose, number)
        for face, (written, before, own) in chain.items():
            turned = own[0].middle < 0
            plain = written[2:-1] if isinstance(written, str) and turned else written
            if turned and isinstance(plain, dict):
                plain = {**plain, "size": -plain["size"]}
            elif turned:
                read, gauge = plain.split("]")
                plain = str([-float(x) for x in read.strip("[").split(",")]) + gauge
            faces += text_of(plain, face, before)
        low = total.mean - choose.uniform(-0.5, 3.5) * total.sd
        high = low + choose.uniform(0.5, 5) * total.sd
        checks += f"  - {{check: c{number}, gap: [a.z, a.{last}], at_least: {low!r}, at_most: {high!r}}}\n"
        behind.append((total, low, high))
    return ("trialfit: 1\nunits: mm\ngauges: {caliper: 0.03}\nparts:\n  - part: a\n    faces:\n"
            + faces + "checks:\n" + checks), behind


def main():
    limits = int(sys.argv[2]) if len(sys.argv) > 2 else 240
    choose = random.Random(int(sys.argv[3]) if len(sys.argv) > 3 else 1)
    faults, judged, furthest = 0, 0, 0.0
    while judged < limits:
        text, behind = job_of(choose)
        done = subprocess.run([sys.argv[1], "odds", "-", "--json", "--samples", "1000"], input=text,
                              capture_output=True, text=True, timeout=120, check=False)
        if done.returncode > 1:
            print(text + done.stderr)
            return 1
        for check, (total, low, high) in zip(json.loads(done.stdout)["checks"], behind):
            judged += 2
            off = [abs(check["fails"] - (1 - total.cdf(high) + total.cdf(low)))]
            off += [abs(total.cdf(each["value"]) - each["p"]) for each in check["quantiles"]]
            furthest = max([furthest, *off])
            if max(off) < WITHIN:
                continue
            faults += 1
            print(f"{check['check']}: fails {check['fails']!r}, off by {off}\n{text}")
    print(f"{judged} limits, {faults} faults, at most {furthest:.1e} off")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
