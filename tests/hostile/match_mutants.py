# SPDX-License-Identifier: MIT
"""Engines and kits harmed as data, by the harms of mutants.py, through `trialfit match`.

No crash, no fault of the program's own (3), nothing over 10 s of the processor or 500 MB, no figure that is none; the
answer is JSON; it ends with 0 just where the best of the kits fits, as it comes or after a plan; and what --write
wrote is a job with the same verdict. A mutant follows from its number alone: a finding is made again with --first N
--count 1 --keep FOLDER, and its files are kept there.
"""
import argparse
import copy
import json
import os
import pathlib
import random
import shutil
import sys
import tempfile

here = pathlib.Path(__file__).resolve().parent
root = here.parent.parent
sys.path.insert(0, str(here.parent / "support"))
sys.path.insert(0, str(here))
import job_yaml  # noqa: E402
import mutants  # noqa: E402
from program import Findings  # noqa: E402

FIT = ("holds", "holds after a plan")
FITS = (*FIT, "doubtful", "no plan", "not judged")
# An engine and what goes on it.
SETS = (("engine.yaml", "kit-*.yaml"), ("pump-motor.yaml", "weight-*.yaml"))


def parted(job, chance):
    """A whole job as an engine and a kit of some of its later parts."""
    parts = job["parts"]
    one = chance.randrange(1, len(parts))
    other = chance.randrange(one + 1, len(parts) + 1)
    engine = {**job, "parts": parts[:one] + [{"kit": "here"}] + parts[other:]}
    kit = {key: job[key] for key in ("trialfit", "units", "general_tolerance", "gauges") if key in job}
    kit["parts"] = parts[one:other]
    moved = chance.choice(("", "checks", "readings"))
    if moved in engine:
        kit[moved] = engine.pop(moved)
    return engine, kit


def made(number, examples, sets):
    """The files of the mutant with this number, the engine first, and how they are told."""
    chance = random.Random(number)
    if chance.random() < 0.5:
        engine, kits = chance.choice(sets)
        files = [copy.deepcopy(engine), *copy.deepcopy(chance.sample(kits, chance.randint(1, len(kits))))]
    else:
        name = chance.choice(sorted(examples))
        files = list(parted(copy.deepcopy(examples[name]), chance))
    others = list(examples.values()) + [each for _, kits in sets for each in kits]
    for _ in range(chance.choice((1, 1, 2, 3))):
        harmed = files[0] if chance.random() < 0.4 else chance.choice(files[1:])
        try:
            chance.choice(mutants.HARMS)(harmed, chance, others)
        except (IndexError, KeyError, TypeError, ValueError, AttributeError):
            pass  # what was harmed before left nothing there to harm
    for each in files[1:]:
        if chance.random() < 0.1:
            each["price"] = chance.choice((*mutants.NUMBERS, *mutants.WORDS))
        if chance.random() < 0.1:
            each["units"] = chance.choice(("mm", "in", "um", "thou", "ell"))
    groups = len(files) > 2 and chance.random() < 0.3
    pick = chance.choice((1, chance.randint(1, len(files) - 1)))
    return files, groups, pick, chance.random() < 0.15


def faults_of_files(program, folder, made_files, slowness):
    """What is wrong with the runs of one mutant, and how the first of them ended."""
    files, groups, pick, in_flow = made_files
    names = []
    for number, job in enumerate(files):
        names.append(os.path.join(folder, f"{number or 'engine'}.yaml"))
        # In flow nothing can be moved by lines; in blocks it can.
        text = json.dumps(job, ensure_ascii=False) if in_flow else job_yaml.dump(job)
        pathlib.Path(names[-1]).write_text(text, encoding="utf-8")
    words = names[1:]
    if groups:
        middle = len(words) // 2
        words = ["--of", *words[:middle], "--of", *words[middle:]]
    found = []

    def judged(options):
        result = mutants.run(program, "match", names[0], [*words, *options], slowness)
        # Of a kit that does not fit, seat and start may be left unjudged beside; that is looked at below.
        found.extend(f"{' '.join(options)}: {each}" for each in mutants.faults_of(result, [], slowness))
        return result
    code, out, *_ = judged(["--json"])
    answer = None
    try:
        answer = json.loads(out)
    except json.JSONDecodeError:
        found.append("--json: the answer is no JSON")
    kits = (answer or {}).get("kits")
    if code == 2:
        if not (answer or {}).get("faults"):
            found.append("--json: refused without a fault")
        return code, None, found
    if not kits:
        return code, None, [*found, "--json: answered without a kit"]
    if any(each["fits"] not in FITS for each in kits):
        found.append("--json: a kit fits in no known way")
    if (code == 0) != (kits[0]["fits"] in FIT):
        found.append(f"--json: ended with {code}, the best {kits[0]['fits']}")
    for each in kits:
        if (each["fits"] == "holds") != (each["verdict"] == "holds") and not each["seat"] and not each["spin"]:
            found.append(f"--json: {each['fits']}, and the verdict is {each['verdict']}")
        if each["fits"] == "holds after a plan" and (each["work"] is None or each["cost"] is None):
            found.append("--json: holds after a plan, and there is none")
        if each["fits"] == "not judged" and not (each["faults"] or each["answer"] or each["running"]):
            found.append("--json: not judged, and not said why")
    judged([])
    written = os.path.join(folder, "new.yaml")
    pathlib.Path(written).unlink(missing_ok=True)
    said = judged(["--write", written, "--pick", str(pick)])
    if not os.path.exists(written):
        if said[0] in (0, 1):
            found.append("--write: nothing is written")
        return code, False, found
    if said[0] not in (0, 1):
        found.append(f"--write: written, and ended with {said[0]}")
    check = mutants.run(program, "check", written, ["--json"], slowness)
    if check[0] not in (0, 1):
        found.append(f"what --write wrote: check ends with {check[0]}: {check[1].decode(errors='replace')[:300]}")
    else:
        verdict = json.loads(check[1])["verdict"]
        if verdict != kits[pick - 1]["verdict"]:
            found.append(f"what --write wrote is {verdict}, should be {kits[pick - 1]['verdict']}")
    return code, True, found


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--program", required=True, type=os.path.abspath)
    parser.add_argument("--sanitized", action="store_true", help="slower and fewer, and memory is not judged")
    parser.add_argument("--count", type=int, help="how many mutants")
    parser.add_argument("--first", type=int, default=0, help="the number of the first")
    parser.add_argument("--keep", type=pathlib.Path, help="a folder for what was found")
    given = parser.parse_args()
    count = given.count or (30 if given.sanitized else 220)
    slowness = 20.0 if given.sanitized else 1.0
    examples = {path.name: job_yaml.load(path) for path in sorted((root / "examples").glob("*.yaml"))}
    kits = root / "examples" / "kits"
    sets = [(job_yaml.load(kits / engine), [job_yaml.load(path) for path in sorted(kits.glob(pattern))])
            for engine, pattern in SETS]
    assert len(examples) > 10 and all(len(each) > 1 for _, each in sets), "the examples are gone"
    findings = Findings()
    ends, written = {}, 0
    with tempfile.TemporaryDirectory() as folder:
        for number in range(given.first, given.first + count):
            code, wrote, found = faults_of_files(given.program, folder, made(number, examples, sets), slowness)
            ends[code] = ends.get(code, 0) + 1
            written += wrote is True
            findings.hold(not found, f"mutant {number}: {'; '.join(found)}")
            if found and given.keep:
                shutil.rmtree(given.keep / str(number), ignore_errors=True)
                shutil.copytree(folder, given.keep / str(number))
            for name in os.listdir(folder):
                os.remove(os.path.join(folder, name))
    # Mutants that are all refused would test the reader alone.
    if count > 20:
        findings.hold((ends.get(0, 0) + ends.get(1, 0)) * 4 > count, f"too few were answered: {ends}")
        findings.hold(written * 6 > count, f"only {written} of {count} were written")
    print(", ".join(f"{ends[code]} ended with {code}" for code in sorted(ends)) + f"; {written} written")
    findings.end()


if __name__ == "__main__":
    main()
