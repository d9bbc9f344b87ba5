#!/usr/bin/python3
"""Holds `trialfit survey` to a second answer in NumPy, on made-up jobs in which parts may have jammed: how
the parts lay for each reading, and what to measure next.

usage: survey_made_up.py TRIALFIT [FIRST [COUNT]]

Where the two may differ on how the parts lay, and why. The program weighs each way by a normal likelihood of
the reading, less how far parts would enter each other in standard deviations; the draws know each size's own
law, and that the first contact is the one that holds. Near an even chance the two may name another way: that
is a fault only where the draws give the other way more than e^2, 7 to 1, the odds below which the program
itself says that two explanations cannot be told apart; and none where the program's own odds are below that and
its next-best is what the draws say. So it comes out where two readings are of one trial fit: the program weighs
the way for each by itself, and in a draw the parts lie alike for both. What no draw makes likely, a misread
figure say, is not judged here.
"""
import json
import subprocess
import sys

import numpy as np

sys.path.insert(0, __file__.rsplit("/", 2)[0] + "/support")
import random_jobs  # noqa: E402
import reference  # noqa: E402
from reference_odds import FormsJob, Spreads  # noqa: E402
from reference_survey import (SEATED, Observed, SurveyJob, contacts_named, in_words,  # noqa: E402
                              measure_next, told, ways_to_lie)

DRAWS = 120_000
ENOUGH = 150          # effective draws; with fewer the way is not judged
TOLD_APART = np.exp(2.0)
LEAST_GAIN, MOST = 0.1, 3  # advice: what takes a tenth off the doubt, three at most
WITHIN = 1e-6         # of a standard deviation: the factors are differences


class Maker(random_jobs.Maker):
    """Parts on faces and cones, each near to fouling an earlier one, and readings of them as they lay."""

    def make_part(self, i):
        part = super().make_part(i)
        part["_faces"] = {k: v[0] if isinstance(v, list) else v for k, v in part["_faces"].items()}
        return part

    def cone_seat(self, part, other):
        seat = super().cone_seat(part, other)
        seat.pop("key", None)
        return seat

    def second_seats(self, document):
        pass

    def make_states(self, document):
        pass

    def make_readings(self, document):
        return []

    def make_checks(self, document):
        one, two = sorted(self.r.sample(range(len(document["parts"])), 2))
        one, two = document["parts"][one], document["parts"][two]
        return [{"check": "the gap", "gap": [f"{one['part']}.{self.r.choice(list(one['faces']))}",
                                             f"{two['part']}.{self.r.choice(list(two['faces']))}"],
                 "at_least": "0"}]

    def set_near(self, document):
        """Each part's first distance such that it just clears, or just fouls, what is under it."""
        r, scale = self.r, random_jobs.UNIT_MM[self.units]
        for part in document["parts"][1:]:
            job = FormsJob(reference.load(random_jobs.emit(document)))
            pairs = [c for c in reference.clearances(job, 1.0)
                     if c["between"][1].startswith(part["part"] + ".")]
            seat = part["sits"]
            if "offset" in seat and pairs:
                tight = min(pairs, key=lambda c: c["nominal"])
                now = job.sizes[job.by_name[part["part"]].seats[0]["offset"]].nominal
                seat["offset"] = self.size(scale * (now - tight["nominal"]) + r.uniform(-0.5, 0.4))

    def dress(self, seat):
        if seat.get("cone") is None and "offset" not in seat:
            seat["offset"] = self.size(self.r.uniform(-10.0, 20.0))
        seat = super().dress(seat)
        if "pushed" not in seat and "play" in seat and "offset" in seat:
            seat["pushed"] = self.r.choice(["in", "out"])
        return seat

    def take_readings(self, document):
        r, scale, parts = self.r, random_jobs.UNIT_MM[self.units], document["parts"]
        readings = []
        for k in range(r.choice([1, 1, 2])):
            fitted = parts[:r.randint(2, len(parts))]
            one, two = fitted[-1], r.choice(fitted[:-1])
            readings.append({"reading": f"reading {k}", "from": f"{two['part']}.{r.choice(list(two['faces']))}",
                             "to": f"{one['part']}.{r.choice(list(one['faces']))}", "is": "0 by caliper",
                             "fitted": [p["part"] for p in fitted], "pushed": r.choice(["in", "out"])})
        job = SurveyJob(reference.load(random_jobs.emit(document | {"readings": readings})))
        true = Spreads(job).draw(1, r.randrange(10 ** 6)) + np.array(job.middles)[:, None]
        for given, reading in zip(readings, job.readings):
            z, _ = job.lay(list(true), reading)
            value = float((z[reading["to"]] - z[reading["from"]])[0]) * scale + r.uniform(-0.03, 0.03)
            given["is"] = f"{self.number(value)} by {r.choice(['caliper', 'caliper', 'depth_gauge'])}"
        return readings

    def survey(self):
        while True:
            document = self.assemble()
            if len(document["parts"]) <= 6:
                break
            self.parts, self.local = [], {}
        self.set_near(document)
        document["readings"] = self.take_readings(document)
        job = FormsJob(reference.load(random_jobs.emit({k: v for k, v in document.items() if k != "readings"})))
        gap = reference.check(job, document["checks"][0], 1.0)
        document["checks"][0]["at_least"] = self.number(
            (gap["nominal"] + self.r.uniform(-0.3, 0.1)) * random_jobs.UNIT_MM[self.units])
        return random_jobs.emit(document)


def deciding(answer):
    """The finding with the worst verdict and, of those, the least to spare in the worst case."""
    order = ["holds", "not judged", "doubtful", "fails"]
    all_found = [c for c in answer["checks"] if c["kind"] == "gap"] + answer["clearances"]
    return max(all_found, key=lambda c: (order.index(c["verdict"]), c["at_least"] - c["worst"][0]))


def gap_factors(job, name):
    """Of the gap at its least end, whatever the readings say."""
    forms = FormsJob({k: v for k, v in job.document.items() if k != "readings"})
    if name == "the gap":
        found = [f"{f}" for f in job.document["checks"][0]["gap"]]
        inboard, outboard = (tuple(f.split(".")) for f in found)
        own = forms.form(lambda x, z: z[outboard] - z[inboard], -1.0).factors
    else:
        own = next(c["forms"][0].factors for c in reference.clearances(forms, 1.0)
                   if " to ".join(c["between"]) == name)
    return np.concatenate([own, np.zeros(len(job.sizes) - len(own))])


def hold_next(faults, job, answer, check):
    observed = Observed(job, [contacts_named(job, told(reading["jammed"])) for reading in answer["readings"]])
    if abs(observed.chi_square() - answer["chi_square"]) > 1e-5 * max(1.0, answer["chi_square"]):
        faults.append(f"chi-square {answer['chi_square']!r}, should be {observed.chi_square()!r}")
    found = deciding(check)
    name = found.get("check") or " to ".join(found["between"])
    now, best = measure_next(job, observed, gap_factors(job, name))
    if now < 1e-9:  # nothing to narrow
        best = []
    gains = [each for each in best if each[2] <= (1.0 - LEAST_GAIN) * now + WITHIN * now]
    said = answer["measure_next"]
    wanted = [each for each in gains if each[2] <= (1.0 - LEAST_GAIN) * now - WITHIN * now][:MOST]
    if len(said) < len(wanted) or len(said) > min(MOST, len(gains)):
        faults.append(f"{name}: {len(said)} measurements advised, should be {len(wanted)}: {wanted}, {said}")
        return
    for one, (size, gauge, then) in zip(said, gains):
        if abs(one["sd_now"] - now) > WITHIN * now or abs(one["sd_then"] - then) > WITHIN * now:
            faults.append(f"{name}: {one}, should be {(size, gauge, now, then)}")
        alike = [each for each in gains if abs(each[2] - then) <= WITHIN * now]
        if not any((one["size"], one["gauge"]) == each[:2] or each[0].startswith("shim") for each in alike):
            faults.append(f"{name}: {one['size']} by {one['gauge']}, should be {alike}")


def hold_ways(faults, job, answer, seed):
    """How many readings were judged, how many of them jammed."""
    shares, effective = ways_to_lie(job, DRAWS, seed)
    judged = jams = 0
    for said, found, draws in zip(answer["readings"], shares, effective):
        if draws < ENOUGH:
            continue
        claim, odds = tuple(sorted(told(said["jammed"]))), said["odds_to_next"]
        own, best = found.get(claim, 0.0), max(found, key=found.get)
        judged, jams = judged + 1, jams + (claim != SEATED)
        unsure = odds is not None and odds < TOLD_APART and said["next_best"] == in_words(best)
        if found[best] > TOLD_APART * own and not unsure:
            faults.append(f"{said['reading']}: {claim} by {odds}, by draws {own:.4f}; {found}")
        elif odds is not None and odds > 100.0 and own < 0.5:
            faults.append(f"{said['reading']}: {claim} by {odds:.3g} to 1, by draws {own:.4f}; {found}")
    return judged, jams


def run(program, command, text):
    return subprocess.run([program, command, "-", "--json", *["--all"] * (command == "check")], input=text,
                          capture_output=True, text=True, timeout=60, check=False)


def main():
    first = int(sys.argv[2]) if len(sys.argv) > 2 else 0
    count = int(sys.argv[3]) if len(sys.argv) > 3 else 100
    bad, sums = 0, np.zeros(4, int)
    for seed in range(first, first + count):
        text, faults = Maker(seed).survey(), []
        done = run(sys.argv[1], "survey", text)
        if done.returncode not in (0, 1):
            faults.append(f"exit code {done.returncode}: {done.stderr.strip()}")
        else:
            answer, job = json.loads(done.stdout), SurveyJob(reference.load(text))
            sums[:2] += hold_ways(faults, job, answer, seed)
            check = run(sys.argv[1], "check", text)
            if check.returncode in (0, 1):
                hold_next(faults, job, answer, json.loads(check.stdout))
                sums[2:] += 1, len(answer["measure_next"])
        if faults:
            bad += 1
            print(f"job {seed}: {len(faults)} disagreements")
            print("".join(f"    {fault}\n" for fault in faults[:8]), end="")
    print(f"{count} jobs, {bad} in disagreement: {sums[0]} readings judged, {sums[1]} of them jammed; "
          f"{sums[2]} jobs advised, {sums[3]} measurements")
    return 1 if bad or not sums.all() else 0


if __name__ == "__main__":
    sys.exit(main())
