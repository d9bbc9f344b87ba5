#!/usr/bin/python3
"""Holds `trialfit match` to a second answer in NumPy and SciPy, on the examples' kits and on made-up catalogues.

usage: match_made_up.py TRIALFIT ENGINE KIT...
       match_made_up.py TRIALFIT --random FIRST COUNT

Of each candidate: whether its files make a job, its verdict as it comes, how it stands, what its cheapest plan costs,
the odds of the check least likely to hold, its price; that the answer names a figure of the job as it is; the order of
all, the number asked and the exit code. One candidate of each catalogue is written as one file: every figure that
`check` gives of that file is the second answer's of the documents joined.

Files are joined by reference_match.py. Odds agree to the convolution's grid, or, where they are drawn by both, to 4.5
deviations; costs to 1e-6, figures to 1e-9. Candidates with unmeasured sizes are held to be *not judged*.
"""
import itertools
import json
import math
import os
import re
import subprocess
import sys
import tempfile

sys.path.insert(0, __file__.rsplit("/", 2)[0] + "/support")
import random_catalogues  # noqa: E402
from compare_with_reference import compare_lists, on_the_edge  # noqa: E402
from held import Held  # noqa: E402
from reference_job import load  # noqa: E402
from reference_match import ORDER, NoJob, standing_of  # noqa: E402
from reference_plan import TooMany  # noqa: E402

WITHIN = 1e-6
GRID = 3.2e-6  # as in odds_made_up.py
DRAWS = 40_000
PROGRAM_DRAWS = 100_000
DEVIATIONS = 4.5


class Mine:
    """The second answer to one candidate."""

    def __init__(self, engine, names, kits):
        self.names, self.standing, self.no_job, self.unsure = names, None, "", False
        prices = [kit.get("price") for kit in kits if not isinstance(kit, str)]
        whole = len(prices) == len(kits) and None not in prices
        self.price = math.fsum(float(p) for p in prices) if whole else None
        self.unmeasured = any("unmeasured" in str(kit) for kit in kits)
        if self.unmeasured:
            return
        try:
            self.standing = standing_of(engine, kits)
        except NoJob as why:
            self.no_job = str(why)
        except TooMany:
            self.unsure = True

    @property
    def fits(self):
        return "not judged" if self.no_job else self.standing.fits

    def edge(self):
        found = self.standing.check
        return any(on_the_edge(e) for e in found["clearances"] + found["checks"] + found["radial"])


def hold_odds(held, name, mine, said, seed):
    if mine.standing.verdict == "holds":
        held.hold("odds", said["odds"] == 1.0, f"{name}: {said['odds']} of what holds in the worst case")
        return
    exact, drawn = mine.standing.least_chances(DRAWS, seed)
    p = min(max(drawn, 1e-4), 1.0 - 1e-4)
    # The least of several that were drawn is less than each by chance, so both are given their deviations.
    by_chance = DEVIATIONS * math.sqrt(p * (1.0 - p)) * (DRAWS ** -0.5 + PROGRAM_DRAWS ** -0.5)
    one = said["odds"]
    by_draws = drawn - by_chance < exact
    held.hold("odds drawn" if by_draws else "odds",
              one is not None and one <= exact + GRID and (abs(one - exact) <= GRID or abs(one - drawn) <= by_chance),
              f"{name}: {one}, should be {exact} by convolution, {drawn} by draws within {by_chance:.1e}")


def hold_answer(held, name, mine, said):
    """Some figure of the job as it comes stands in the sentence, and no finding fails beside one that is said to hold
    by least."""
    found = mine.standing.check
    findings = found["clearances"] + found["checks"] + found["radial"]
    if not findings:
        return
    numbers = re.findall(r"\d+\.?\d*", said["answer"])
    # Each to a step of its own last digit, since a limit is rounded to the safe side.
    figures = [(float(n), 1.01 * 10.0 ** -len(n.partition(".")[2])) for n in numbers]
    wanted = []
    if found["verdict"] == "fails" and (found["first_contact"] or {}).get("stands_proud", {}).get("nominal", 0.0) > 0.0:
        wanted = [found["first_contact"]["stands_proud"]["nominal"]]
    elif found["verdict"] in ("holds", "doubtful", "fails"):
        def miss(one):
            low, high = (one["nominal"],) * 2 if found["verdict"] == "fails" else one["worst"]
            return max(one["at_least"] - low if one.get("at_least") is not None else -math.inf,
                       high - one["at_most"] if one.get("at_most") is not None else -math.inf)
        some = [one for one in findings if one["verdict"] == found["verdict"]]
        if not some:  # a hub that rocks fails by itself
            return
        most = max(map(miss, some))
        wanted = [figure for one in some if miss(one) > most - 1e-9
                  for figure in ([one["nominal"]] if found["verdict"] == "fails" else one["worst"])]
        if found["verdict"] == "doubtful" and found["first_contact"]:
            wanted = [*wanted, found["first_contact"]["stands_proud"]["worst"][1]]
    held.hold("figures in words", not wanted or any(abs(f - abs(w)) <= step for f, step in figures for w in wanted),
              f"{name}: {said['answer']!r}, should have one of {wanted}")


def hold_candidate(held, mine, said, seed):
    name = " + ".join(mine.names)
    held.hold("prices", said["price"] == mine.price, f"{name}: {said['price']}, should be {mine.price}")
    if mine.no_job:
        held.hold("no job", said["fits"] == "not judged" and said["faults"] and said["verdict"] is None,
                  f"{name}: {said['fits']}, {said['faults']}; should be none: {mine.no_job}")
        return
    # A face that was moved may leave less than its cut is to keep, or a thread that is all run-out.
    wrong = [each for each in said["faults"] if not re.search("is to keep|incomplete over all", each["fault"])]
    held.hold("jobs", not wrong, f"{name}: {wrong}")
    if said["faults"]:
        return
    if mine.edge():
        return
    held.hold("verdicts", said["verdict"] == mine.standing.verdict,
              f"{name}: {said['verdict']}, should be {mine.standing.verdict}")
    held.hold("standings", said["fits"] == mine.fits, f"{name}: {said['fits']}, should be {mine.fits}")
    held.hold("proven", said["proven"] in (None, True), f"{name}: not proven")
    cost = mine.standing.cost
    # Shims that are set to an aim cost something, yet nothing in the search.
    aimed = mine.standing.plan is not None and mine.standing.plan.aims
    held.hold("costs", (said["cost"] is None) == (cost is None) and (cost is None or abs(said["cost"] - cost) <= WITHIN
              or aimed and said["cost"] > cost), f"{name}: {said['cost']}, should be {cost}")
    held.hold("work", (said["work"] is not None) == (mine.fits == "holds after a plan"), f"{name}: {said['work']}")
    hold_answer(held, name, mine, said)
    if mine.standing.verdict != "not judged":
        hold_odds(held, name, mine, said, seed)


def hold_order(held, said, mine):
    """By how they stand, cost, price, odds, then as they were named: of the figures as they were said, each of which is
    held by itself."""
    named = [each.names for each in mine]

    def rank(one):
        return (ORDER.index(one["fits"]), one["cost"] or 0.0, math.inf if one["price"] is None else one["price"],
                1.0 if one["odds"] is None else -one["odds"], named.index(one["kit"]))
    kits = said["kits"]
    held.hold("order", kits == sorted(kits, key=rank), f"{[rank(k) for k in kits]}")


def hold_written(held, program, command, said, mine, folder, seed):
    """One candidate as one file: what `check` says of that."""
    number = seed % len(said["kits"])
    chosen = said["kits"][number]
    own = next(each for each in mine if each.names == chosen["kit"])
    if own.no_job or own.unsure or own.unmeasured:
        return
    path = os.path.join(folder, "joined.yaml")
    done = run([*command, "--write", path, "--pick", str(number + 1)])
    if done.returncode == 2 and "layout" in done.stderr:
        held.hold("written", False, done.stderr)
        return
    held.hold("written", done.returncode in (0, 1) or bool(chosen["faults"]), f"{done.returncode}: {done.stderr}")
    if done.returncode not in (0, 1):
        return
    checked = run([program, "check", path, "--json", "--all"])
    held.hold("written reads", checked.returncode in (0, 1), checked.stderr)
    if checked.returncode not in (0, 1):
        return
    theirs, found = json.loads(checked.stdout), own.standing.check
    for kind, key in (("clearances", lambda c: tuple(c["between"])), ("checks", lambda c: c["check"]),
                      ("radial", lambda c: tuple(c["between"]))):
        faults = compare_lists(kind, found[kind], theirs[kind], key)
        held.hold("figures of the joined", not faults, "; ".join(faults[:4]))


def hold_running(held, program, command, said, mine, folder):
    """Where the engine's file asks for a start: each candidate's is that of the joined file by itself, whose figures
    spin_ranges.py holds, and it stands by the worse of its checks and its start."""
    for number, one in enumerate(said["kits"]):
        path = os.path.join(folder, f"started-{number}.yaml")
        run([*command, "--write", path, "--pick", str(number + 1)])
        started = json.loads(run([program, "spin", path, "--json"]).stdout)
        own = next(each for each in mine if each.names == one["kit"])
        held.hold("starts", one["spin"] == started["verdict"], f"{one['kit']}: {one['spin']}, {started['verdict']}")
        start = {"fails": "no plan"}.get(started["verdict"], started["verdict"])
        wanted = max(own.standing.fits, start, key=ORDER.index)
        held.hold("standings", one["fits"] == wanted, f"{one['kit']}: {one['fits']}, should be {wanted}")
        held.hold("verdicts", one["verdict"] == own.standing.verdict, f"{one['kit']}: {one['verdict']}")
        hold_odds(held, str(one["kit"]), own, one, 0)


def run(command):
    return subprocess.run(command, capture_output=True, text=True, timeout=100, check=False)


def compare(held, program, engine, groups, seed):
    """`groups`: [[(name, text), ...]]"""
    with tempfile.TemporaryDirectory() as folder:
        def put(name, text):
            path = os.path.join(folder, name)
            with open(path, "w", encoding="utf-8") as file:
                file.write(text)
            return path

        command = [program, "match", put("engine.yaml", engine), "--json"]
        documents, named = [], []
        for n, group in enumerate(groups):
            paths = [put(f"{n}-{name}", text) for name, text in group]
            command += (["--of"] if len(groups) > 1 else []) + paths
            documents.append([read(text) for _, text in group])
            named.append(paths)
        done = run(command)
        mine = [Mine(load(engine), [p for p, _ in each], [d for _, d in each])
                for each in itertools.product(*([*zip(p, d)] for p, d in zip(named, documents)))]
        if done.returncode == 2:
            held.hold("refused", all(each.no_job for each in mine), done.stderr)
            return
        held.hold("exit codes", done.returncode in (0, 1), f"{done.returncode}: {done.stderr}")
        said = json.loads(done.stdout)
        held.hold("counts", said["asked"] == len(said["kits"]) == len(mine) and not said["stopped"],
                  f"{said['asked']} asked, {len(said['kits'])} answered, {len(mine)} named")
        held.hold("exit codes", done.returncode == (0 if ORDER.index(said["kits"][0]["fits"]) <= 1 else 1),
                  f"{done.returncode}, the first {said['kits'][0]['fits']}")
        if "spin" in load(engine):
            hold_running(held, program, command, said, mine, folder)
            hold_order(held, said, mine)
            return
        for each in mine:
            one = next(k for k in said["kits"] if k["kit"] == each.names)
            if each.unmeasured:
                held.hold("unmeasured", one["fits"] == "not judged" and one["odds"] is None, one["fits"])
            elif not each.unsure:
                hold_candidate(held, each, one, seed)
        hold_order(held, said, mine)
        hold_written(held, program, command, said, mine, folder, seed)


def read(text):
    try:
        return load(text)
    except Exception:  # noqa: BLE001: whatever PyYAML raises, it is none
        return text


def named(path):
    with open(path, encoding="utf-8") as file:
        return os.path.basename(path), file.read()


def main():
    held = Held()
    program, arguments = os.path.abspath(sys.argv[1]), sys.argv[2:]
    if arguments[0] == "--random":
        for seed in range(int(arguments[1]), int(arguments[1]) + int(arguments[2])):
            engine, groups = random_catalogues.texts(random_catalogues.Catalogue(seed))
            groups = [[(f"kit-{k}.yaml", text) for k, text in enumerate(group)] for group in groups]
            held.ask(f"catalogue {seed}", lambda e=engine, g=groups, s=seed: compare(held, program, e, g, s))
    else:
        engine, *kits = [named(path) for path in arguments]
        held.ask(engine[0], lambda: compare(held, program, engine[1], [kits], 0))
    return held.end("catalogues")


if __name__ == "__main__":
    sys.exit(main())
