# SPDX-License-Identifier: MIT
"""Examples harmed as data, not as text, so that most of them still read as jobs, through every command.

No crash, no fault of the program's own (3), nothing over 10 s of the processor or 500 MB, no figure that is
none, and no success (0) with something not judged. A mutant follows from its number alone: a finding is made
again with --first N --count 1 --keep FOLDER, and is kept there as a file.
"""
import argparse
import copy
import json
import os
import pathlib
import random
import re
import resource
import subprocess
import sys
import tempfile

here = pathlib.Path(__file__).resolve().parent
root = here.parent.parent
sys.path.insert(0, str(here.parent / "support"))
import job_yaml  # noqa: E402
from program import Findings  # noqa: E402

MOST_SECONDS, MOST_MB = 10.0, 500.0
NUMBERS = (0, -1, 1, 1e-300, 1e-12, 1e-9, 1e-3, 0.5, 3, 75, 1e3, 1e6, -1e6, 1e7, 1e308)
WORDS = (".nan", "1e400", "0 exact", "5 ±0", "5 ±1e-12", "5 ±1e6", "-3 ±0.1", "0..0", "0..1e6",
         "25 h7", "3 by caliper", "1 in 1e9", "M100x6", "", "true", "9,20", "999999 %", "1e9 d")
NOT_A_FIGURE = re.compile(rb"(?<![\w.-])-?(nan|inf)(?![\w-])")
LONG = (5, 40, 300)


def places(node, path=()):
    """Every place of the data: (path, value), the whole left out."""
    items = node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ()
    for key, value in items:
        yield path + (key,), value
        yield from places(value, path + (key,))


def at(job, path):
    for key in path:
        job = job[key]
    return job


def put(job, path, value):
    at(job, path[:-1])[path[-1]] = value


def some(job, chance, kind):
    found = [path for path, value in places(job) if kind(value)]
    return chance.choice(found) if found else None


def leave_out(job, chance, others):
    path = chance.choice([p for p, _ in places(job)])
    del at(job, path[:-1])[path[-1]]


def leave_out_everywhere(job, chance, others):
    keys = sorted({path[-1] for path, _ in places(job) if isinstance(path[-1], str)})
    gone = chance.choice(keys)
    for path, _ in sorted(places(job), key=lambda each: -len(each[0])):
        if path[-1] == gone:
            del at(job, path[:-1])[gone]


def other_number(job, chance, others):
    def holds_number(value):
        return isinstance(value, (int, float)) and not isinstance(value, bool) or \
            isinstance(value, str) and re.search(r"\d", value)
    path = some(job, chance, holds_number)
    if path is None:
        return
    value = at(job, path)
    if not isinstance(value, str):
        return put(job, path, chance.choice(NUMBERS))
    found = list(re.finditer(r"\d+(\.\d+)?", value))
    which = chance.choice(found)
    new = chance.choice(NUMBERS) if chance.random() < 0.5 else float(which.group()) * chance.choice((-1, 0.1, 2, 10))
    put(job, path, value[:which.start()] + f"{new:.6g}" + value[which.end():])


def other_word(job, chance, others):
    path = some(job, chance, lambda value: not isinstance(value, (dict, list)))
    put(job, path, chance.choice(WORDS))


def swap_siblings(job, chance, others):
    path = some(job, chance, lambda value: isinstance(value, dict) and len(value) > 1)
    if path is None:
        return
    group = at(job, path)
    one, other = chance.sample(sorted(group), 2)
    group[one], group[other] = group[other], group[one]


def shuffle(job, chance, others):
    path = ("parts",) if chance.random() < 0.5 and "parts" in job else some(
        job, chance, lambda value: isinstance(value, list) and len(value) > 1)
    if path is not None and isinstance(at(job, path), list):
        chance.shuffle(at(job, path))


def other_reference(job, chance, others):
    def refers(value):
        return isinstance(value, str) and re.fullmatch(r"[\w-]+\.[\w-]+", value) and not value[0].isdigit()
    found = [path for path, value in places(job) if refers(value)]
    if len(found) > 1:
        one, other = chance.sample(found, 2)
        put(job, one, at(job, other))


def graft(job, chance, others):
    """A branch of another example in the place of this one's, under the same key."""
    donor = chance.choice(others)
    keys = [path for path, value in places(job) if isinstance(path[-1], str) and isinstance(value, (dict, list))]
    if not keys:
        return
    path = chance.choice(keys)
    found = [value for there, value in places(donor) if there[-1] == path[-1]]
    if found:
        put(job, path, copy.deepcopy(chance.choice(found)))


def add_section(job, chance, others):
    donor = chance.choice(others)
    section = chance.choice(sorted(donor))
    job.setdefault(section, copy.deepcopy(donor[section]))


def grow(job, chance, others):
    """One entry of a list many times, its name numbered; a size many times over."""
    path = some(job, chance, lambda value: isinstance(value, list) and value or
                isinstance(value, str) and " from " in value)
    if path is None:
        return
    value, times = at(job, path), chance.choice(LONG)
    if isinstance(value, str):
        return put(job, path, [value] * times)
    one = chance.choice(value)
    for number in range(times):
        more = copy.deepcopy(one)
        if isinstance(more, dict):
            first = next(iter(more))
            if isinstance(more[first], str):
                more[first] += f"_{number}"
        value.append(more)


def turn_the_other_way(job, chance, others):
    part = chance.choice(job.get("parts") or [{}])
    if isinstance(part, dict):
        part["turns"] = not part.get("turns", False)


HARMS = (leave_out, leave_out, leave_out_everywhere, other_number, other_number, other_number, other_word,
         swap_siblings, shuffle, other_reference, graft, add_section, grow, turn_the_other_way)


def commands(job, chance):
    faces = [f"{part['part']}.{face}" for part in job.get("parts", []) if isinstance(part, dict)
             and isinstance(part.get("faces"), dict) and isinstance(part.get("part"), str) for face in part["faces"]]
    judge = chance.choice(([], [], ["--judge", "rss"], ["--inflate", "1.5"]))
    # A section that is not there is asked for now and then: the refusal is always the same.
    asked = [each for kind in ("seat", "timing", "spin") if kind in job or chance.random() < 0.1
             for each in ([kind, "--json"], [kind])]
    return chance.choice((
        ["check", *judge, "--json"], ["check", "--all"], ["check", "--as-written"],
        ["why", *(chance.sample(faces, 2) if len(faces) > 1 else ["a.b", "c.d"])],
        ["odds", "--json"], ["odds", "--precision", "0.01"], ["plan", *judge, "--json"], ["plan"], ["survey", "--json"],
        ["survey"], *asked, ["draw"], ["sheet"], ["sheet", "--markdown"],
        ["record", "--date", "2026-01-01", "--note", "tried"]))


def made(number, examples):
    """The job and the command of the mutant with this number."""
    chance = random.Random(number)
    name = chance.choice(sorted(examples))
    others = [examples[each] for each in sorted(examples) if each != name]
    job = copy.deepcopy(examples[name])
    for _ in range(chance.choice((1, 1, 2, 3))):
        try:
            chance.choice(HARMS)(job, chance, others)
        except (IndexError, KeyError, TypeError, ValueError, AttributeError):
            pass  # what was harmed before left nothing there to harm
    command, *options = commands(job, chance)
    return name, job, command, options


def run(program, command, file, options, slowness):
    def bounded():
        most = int(2 * MOST_SECONDS * slowness)
        resource.setrlimit(resource.RLIMIT_CPU, (most, most + 1))
        if slowness == 1.0:
            resource.setrlimit(resource.RLIMIT_AS, (2 << 30, 2 << 30))
    with tempfile.TemporaryFile() as out, tempfile.TemporaryFile() as err:
        child = subprocess.Popen([program, command, file, *options], stdin=subprocess.DEVNULL, stdout=out,
                                 stderr=err, preexec_fn=bounded)
        _, status, usage = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
        out.seek(0)
        err.seek(0)
        return child.returncode, out.read(), err.read(), usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024


def unjudged(node):
    if isinstance(node, dict):
        return node.get("verdict") == "not judged" or any(unjudged(each) for each in node.values())
    return isinstance(node, list) and any(unjudged(each) for each in node)


def faults_of(result, options, slowness):
    code, out, err, seconds, peak_mb = result
    if code not in (0, 1, 2):
        yield f"ended with {code}: {err.decode(errors='replace')[-200:].strip()}"
    if seconds > MOST_SECONDS * slowness:
        yield f"took {seconds:.1f} s"
    if slowness == 1.0 and peak_mb > MOST_MB:
        yield f"took {peak_mb:.0f} MB"
    if NOT_A_FIGURE.search(out):
        yield "printed a figure that is none"
    if code == 2 and not err:
        yield "refused without a word"
    if code == 0 and "--json" in options:
        answer = json.loads(out)
        if unjudged(answer) or answer.get("verdict", "holds") != "holds":
            yield "ended with 0, and something is not judged"


def crowded(job):
    """300 more of the last part, all in its place."""
    job = copy.deepcopy(job)
    last = job["parts"][-1]
    job["parts"] += [{**last, "part": f"{last['part']}_{number}"} for number in range(300)]
    return job


def arguments():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--program", required=True, type=os.path.abspath)
    parser.add_argument("--sanitized", action="store_true", help="slower and fewer, and memory is not judged")
    parser.add_argument("--count", type=int, help="how many mutants")
    parser.add_argument("--first", type=int, default=0, help="the number of the first")
    parser.add_argument("--keep", type=pathlib.Path, help="a folder for what was found")
    return parser.parse_args()


def main():
    given = arguments()
    count = given.count or (60 if given.sanitized else 1000)
    slowness = 20.0 if given.sanitized else 1.0
    examples = {path.name: job_yaml.load(path) for path in sorted((root / "examples").glob("*.yaml"))}
    assert len(examples) > 10, "the examples are gone"
    findings = Findings()
    ends = {}
    with tempfile.TemporaryDirectory() as folder:
        file = os.path.join(folder, "mutant.yaml")
        for number in range(given.first, given.first + count):
            name, job, command, options = made(number, examples)
            text = json.dumps(job, ensure_ascii=False)
            pathlib.Path(file).write_text(text, encoding="utf-8")
            result = run(given.program, command, file, options, slowness)
            ends[result[0]] = ends.get(result[0], 0) + 1
            found = list(faults_of(result, options, slowness))
            told = " ".join([command, *options])
            findings.hold(not found, f"mutant {number} of {name}, {told}: {'; '.join(found)}")
            if found and given.keep:
                given.keep.mkdir(parents=True, exist_ok=True)
                (given.keep / f"{number}.yaml").write_text(f"# {told}\n{text}\n", encoding="utf-8")
        if not given.first:
            for command in ("draw", "check", "survey"):
                pathlib.Path(file).write_text(json.dumps(crowded(examples["boss-on-shoulder.yaml"])), encoding="utf-8")
                found = list(faults_of(run(given.program, command, file, [], slowness), [], slowness))
                findings.hold(not found, f"300 parts in one place, {command}: {'; '.join(found)}")
    # Mutants that are all refused would test the reader alone.
    answered = ends.get(0, 0) + ends.get(1, 0)
    findings.hold(answered * 5 > count, f"only {answered} of {count} were answered")
    print(", ".join(f"{ends[code]} ended with {code}" for code in sorted(ends)))
    findings.end()


if __name__ == "__main__":
    main()
