# SPDX-License-Identifier: MIT
"""Laws of `trialfit match`, over the kits of the examples and over examples split into an engine and a kit.

What `match` says of a kit is what `check` and `plan` say of the same parts in one file: the verdict, the cost of the
cheapest plan, every figure. So it stays when the kit is given in another unit, under other names of its gauges, as
several kits, or in another order on the command line; and `--write` gives that one file.
"""
import argparse
import itertools
import json
import math
import os
import pathlib
import random
import re
import shutil
import sys
import tempfile

here = pathlib.Path(__file__).resolve().parent
root = here.parent.parent
sys.path.insert(0, str(here.parent / "support"))
import job_yaml  # noqa: E402
from program import Findings, run  # noqa: E402

ROUND_OFF = 1e-9
FITS = ("holds", "holds after a plan", "doubtful", "no plan", "not judged")
STANDS = {"holds": 0, "doubtful": 2, "fails": 3, "not judged": 4}
UNITS = {"in": 1 / 25.4, "thou": 1000 / 25.4, "um": 1000.0}
# ISO 2768-1: up to and with this size, half-widths of f, m, c.
GENERAL = ((3, 0.05, 0.1, 0.2), (6, 0.05, 0.1, 0.3), (30, 0.1, 0.2, 0.5), (120, 0.15, 0.3, 0.8))
EMPTY = "trialfit: 1\nparts: []\n"


class Program:
    """The program, with the files of one folder."""

    def __init__(self, path, folder, findings):
        self.path, self.folder, self.findings = path, pathlib.Path(folder), findings
        self.known, self.number = {}, 0

    def write(self, text, name=None):
        """A file of the folder that holds `text`; its name."""
        if name is None:
            self.number += 1
            name = f"f{self.number}.yaml"
        (self.folder / name).write_text(text, encoding="utf-8")
        return name

    def json(self, *words):
        """The exit code, and the answer as data."""
        said = run([self.path, *words, "--json"], cwd=self.folder)
        try:
            return said.code, json.loads(said.out)
        except json.JSONDecodeError:
            return said.code, {"no answer": said.err.decode(errors="replace")}

    def judged(self, name):
        """What `check` and `plan` say of a file, as figures; the same text is run once."""
        text = (self.folder / name).read_text(encoding="utf-8")
        if text not in self.known:
            check, plan = self.json("check", name)[1], self.json("plan", name)[1]
            best = (plan.get("plans") or [{}])[0]
            self.known[text] = {"verdict": check.get("verdict"), "cost": best.get("cost"), "check": findings_of(check),
                                "after": findings_of(best)}
            for section in ("seat", "spin"):
                self.known[text][section] = None
                if re.search(rf"^{section}:", text, re.M):
                    answer = self.json(section, name)[1]
                    self.known[text][section] = figures(answer)
        return self.known[text]


def findings_of(answer):
    """Every figure of an answer by what it is about, whatever the order."""
    out = {}
    for kind in ("clearances", "checks", "radial"):
        for each in answer.get(kind) or []:
            what = each.get("check") or " to ".join(each.get("between", ["?"]))
            # The same pair may stand there with several rings or in several states.
            about = f"{kind}: {what} {each.get('state', '')} {each.get('rings', '')}"
            while about in out:
                about += "'"
            out[about] = {key: each.get(key) for key in ("verdict", "nominal", "worst", "rss", "at_least", "at_most")}
    return out


def figures(answer):
    """The numbers and verdicts of an answer; its other words name files and lines."""
    if isinstance(answer, dict):
        return {key: figures(value) for key, value in answer.items()
                if key != "line" and (key in ("verdict", "part", "id") or not isinstance(value, str))}
    return [figures(each) for each in answer] if isinstance(answer, list) else answer


def close(one, other):
    if isinstance(one, bool) or isinstance(other, bool) or not isinstance(one, (int, float)):
        if isinstance(one, dict) and isinstance(other, dict):
            return one.keys() == other.keys() and all(close(one[key], other[key]) for key in one)
        if isinstance(one, list) and isinstance(other, list):
            return len(one) == len(other) and all(map(close, one, other))
        return one == other
    return isinstance(other, (int, float)) and math.isclose(one, other, rel_tol=ROUND_OFF, abs_tol=ROUND_OFF)


def difference(one, other):
    """The first place at which two data differ, in words."""
    if isinstance(one, dict) and isinstance(other, dict):
        for key in list(one) + list(other):
            if key not in one or key not in other or not close(one[key], other[key]):
                return f"{key}: {difference(one.get(key), other.get(key))}"
    return f"{one}, should be {other}"


def fits_of(said):
    """What a kit is, from `check` and `plan`, seat and start left out."""
    if said["verdict"] == "holds":
        return "holds"
    if said["verdict"] in (None, "not judged"):
        return "not judged"
    if said["cost"] is not None:
        return "holds after a plan"
    return "doubtful" if said["verdict"] == "doubtful" else "no plan"


class Split:
    """A job as text in its sections, to be parted into an engine and kits with nothing but lines moved."""

    def __init__(self, text):
        self.head, self.sections = [], []  # (key, its line and lines before items, items)
        for line in text.splitlines(keepends=True):
            key = re.match(r"(\w+):", line)
            if key:
                self.sections.append((key[1], [line], []))
            elif not self.sections:
                self.head.append(line)
            elif line.startswith("  - "):
                self.sections[-1][2].append([line])
            else:
                (self.sections[-1][2] or self.sections[-1][1:2])[-1].append(line)
        self.parts = [re.match(r"  - part: ([\w-]+)", item[0])[1] for item in self.items("parts")]
        # A section after its items is not to be torn off from them.
        self.asks = {key: sum(items, []) for key, _, items in self.sections}

    def items(self, section):
        return next((items for key, _, items in self.sections if key == section), [])

    def engine_and_kits(self, cuts, moves=("checks", "readings")):
        """The engine, and a kit for each range from one of the parts to the next of `cuts`."""
        kits = [{"parts": self.items("parts")[one:other]} for one, other in zip(cuts, cuts[1:])]
        names = [self.parts[one:other] for one, other in zip(cuts, cuts[1:])]
        gone = {key: set() for key in moves}
        for kit, own in zip(kits, names):
            for key in moves:
                for number, item in enumerate(self.items(key)):
                    told = "".join(line.split("#")[0] for line in item)
                    if number not in gone[key] and re.search(rf"[\[ ]({'|'.join(own)})\.", told):
                        kit.setdefault(key, []).append(item)
                        gone[key].add(number)
        engine = "".join(self.head)
        for key, lines, items in self.sections:
            left = [item for number, item in enumerate(items) if number not in gone.get(key, ())]
            if key == "parts":
                left = items[:cuts[0]] + [["  - kit: here\n"]] + items[cuts[-1]:]
            if not items or left:
                engine += "".join(lines) + "".join(sum(left, []))
        own_heads = "".join("".join(lines) for key, lines, _ in self.sections
                            if key in ("trialfit", "units", "general_tolerance", "gauges"))
        return engine, [own_heads + "".join(f"{key}:\n{''.join(sum(items, []))}" for key, items in kit.items())
                        for kit in kits]


def ranges(count):
    """The first and the part after the last of every kit that an engine of at least one part may lack."""
    return [(one, other) for one in range(1, count) for other in range(one + 1, count + 1)]


# Which values of a kit are lengths, by the keys that lead to them, the lists left out.
LENGTHS = re.compile(r"parts/(faces/\w+|sits/(offset|play|shims/(stock|fitted|holds|at_most_height))"
                     r"|rings/\w+/(bore|od|below|above)|cones?/(\w+/)?(dia|length)"
                     r"|thread/(lead_in|run_out)|cuts/(keep|holds|to))|gauges/\w+|checks/(at_least|at_most|aim)|running_clearance")


def scaled(text, factor):
    """Each number of a size times `factor`, in digits enough; words behind the number stay."""
    if not isinstance(text, str):
        return float(f"{text * factor:.17g}")
    if re.search(r"[%d]\s*$", text) and not re.search(r" (by|from|exact)", text) or re.search(r"\d [hH]\d", text):
        return text
    size, *behind = re.split(r"(?= by | from | exact)", text, maxsplit=1)
    size = re.sub(r"\d+(\.\d+)?", lambda found: f"{float(found.group()) * factor:.16f}", size)
    return size + "".join(behind)


def in_unit(kit, unit):
    """A kit in mm given in another unit; what is bare and a length converted."""
    def turned(node, path):
        if isinstance(node, dict):
            return {key: turned(value, f"{path}/{key}" if path else key) for key, value in node.items()}
        if isinstance(node, list):
            return [turned(each, path) for each in node]
        return scaled(node, UNITS[unit]) if LENGTHS.fullmatch(path) and not isinstance(node, bool) else node
    return {**{"trialfit": kit["trialfit"], "units": unit},
            **turned({key: value for key, value in kit.items() if key not in ("trialfit", "units")}, "")}


def hold_written(program, about, engine, kits, whole=None):
    """Each of the kits as `match` tells it, against the file that --write makes of it, and against `whole`."""
    findings = program.findings
    code, answer = program.json("match", engine, *kits)
    listed = answer.get("kits")
    findings.hold(listed is not None and len(listed) == len(kits), f"{about}: {answer}")
    if not listed:
        return answer
    best = FITS.index(listed[0]["fits"])
    findings.hold(code == (0 if best <= 1 else 1), f"{about}: ended with {code}, the best {listed[0]['fits']}")
    for number, each in enumerate(listed, 1):
        name = f"w{program.number}-{number}.yaml"
        said = run([program.path, "match", engine, *kits, "--json", "--write", name, "--pick", str(number), "--force"],
                   cwd=program.folder)
        findings.hold(said.code == code or each["faults"] and said.code == 2,
                      f"{about}: --write of {each['kit']} ended with {said.code}: {said.err.decode()}")
        if each["faults"] or said.code == 2:
            continue
        findings.hold(json.loads(said.out) == answer, f"{about}: --write changes the answer")
        one = program.judged(name)
        findings.hold(one["verdict"] == each["verdict"], f"{about}: {each['kit']} is {each['verdict']}, {name} {one['verdict']}")
        running = {section: one[section] and one[section].get("verdict") for section in ("seat", "spin")}
        findings.hold(running == {section: each[section] for section in running}, f"{about}: {each['kit']}: {running}")
        # The start's verdict has the checks in it, which a plan may mend; `seat` and `spin` are never mended.
        wanted = max([FITS.index(fits_of(one)), *(STANDS[verdict] for verdict in [running["seat"]] if verdict)])
        fits = FITS.index(each["fits"])
        findings.hold(fits == wanted or running["spin"] not in (None, "holds") and fits > wanted,
                      f"{about}: {each['kit']} {each['fits']}, by itself {FITS[wanted]}, {running}")
        if each["fits"] == "holds after a plan":
            findings.hold(close(each["cost"], one["cost"]), f"{about}: {each['kit']} costs {each['cost']}, {name} {one['cost']}")
        if whole is not None:
            other = program.judged(whole)
            findings.hold(close(one, other), f"{about}: {name} is not {whole}: {difference(one, other)}")
    return answer


def hold_ranking(program, about, engine, kits):
    """The best of match is the best of check and plan, kit by kit; its order is one of standing, cost and price."""
    findings = program.findings
    _, answer = program.json("match", engine, *kits)
    keys = [(FITS.index(each["fits"]), each["cost"] or 0.0, math.inf if each["price"] is None else each["price"],
             1.0 if each["odds"] is None else -each["odds"]) for each in answer["kits"]]
    findings.hold(keys == sorted(keys), f"{about}: not in order: {keys}")
    order = {each["kit"][0]: key for each, key in zip(answer["kits"], keys)}
    alone = {}
    for kit in kits:
        _, one = program.json("match", engine, kit)
        each = next(e for e in answer["kits"] if e["kit"] == [kit])
        findings.hold(one["kits"] == [each], f"{about}: {kit} alone: {difference(one['kits'][0], each)}")
        alone[kit] = one["kits"][0]
    for some in itertools.islice(itertools.permutations(kits), 0, None, 7):
        again = program.json("match", engine, *some)[1]["kits"]
        wanted = sorted(some, key=lambda kit: order[kit])  # stable: ties by the order of the files
        findings.hold([each["kit"][0] for each in again] == wanted, f"{about}: {some} in another order: {wanted}")
        findings.hold(sorted(again, key=str) == sorted(answer["kits"], key=str), f"{about}: {some}: other answers")


def hold_groups(program, about, engine, groups):
    """--of groups give each file of one with each of the other, the last running fastest before the ranking."""
    findings = program.findings
    words = [word for group in groups for word in ("--of", *group)]
    _, answer = program.json("match", engine, *words)
    got = [tuple(each["kit"]) for each in answer["kits"]]
    findings.hold(sorted(got) == sorted(itertools.product(*groups)), f"{about}: {got}")
    for each in answer["kits"]:
        single = [word for file in each["kit"] for word in ("--of", file)]
        one = program.json("match", engine, *single)[1]["kits"]
        findings.hold(one == [each], f"{about}: {each['kit']} alone: {difference(one[0], each)}")
    place = {kit: number for number, kit in enumerate(itertools.product(*groups))}
    keys = [(FITS.index(each["fits"]), each["cost"] or 0.0, math.inf if each["price"] is None else each["price"],
             1.0 if each["odds"] is None else -each["odds"], place[tuple(each["kit"])]) for each in answer["kits"]]
    findings.hold(keys == sorted(keys), f"{about}: not in order: {keys}")


def hold_bytes(program, about, *words):
    """Two runs, and one on a single core, say the same bytes."""
    for form in ([], ["--json"], ["--all"]):
        said = [run([*before, program.path, "match", *words, *form], cwd=program.folder)
                for before in ([], [], ["taskset", "-c", "0"])]
        program.findings.hold(len({(each.code, each.out, each.err) for each in said}) == 1, f"{about}: bytes differ {form}")


def hold_unit(program, about, engine, kit, unit):
    """The kit in another unit has the same figures."""
    data = job_yaml.parse(kit)
    one, other = program.write(job_yaml.dump(data)), program.write(job_yaml.dump(in_unit(data, unit)))
    answers, figures = [], []
    for each in (one, other):
        answer = hold_written(program, f"{about} in {unit}", engine, [each])
        answers.append({key: answer["kits"][0][key] for key in ("fits", "verdict", "cost", "odds", "price")})
        figures.append(program.judged(f"w{program.number}-1.yaml") if not answer["kits"][0]["faults"] else None)
    for each, wanted in ((answers[1], answers[0]), (figures[1], figures[0])):
        program.findings.hold(close(each, wanted) and figures[0] is not None, f"{about} in {unit}: {difference(each, wanted)}")


def hold_own(program):
    """A kit keeps its general tolerance and its gauges where the engine's are others or none."""
    shaft = "trialfit: 1\n{head}parts:\n  - part: case\n    faces: {{floor: zero, rim: {size} from floor}}\n{more}"
    faces = "  - part: plug\n    sits: {{face: under, against: case.floor}}\n    faces: {{under: zero, top: {size} from under}}\n"
    check = "checks:\n  - {check: room, gap: [plug.top, case.rim], at_least: 0.1}\n"
    heads = [("", "40 ±0.25")] + [(f"general_tolerance: {letter}\n", f"40 ±{GENERAL[3][number]}")
                                  for number, letter in enumerate("fmc", 1)]
    for (head, size), (number, letter) in itertools.product(heads, enumerate("fmc", 1)):
        for value in (2.5, 5, 20, 39):
            half = next(row[number] for row in GENERAL if value <= row[0])
            bare = size if not head else "40"
            engine = program.write(shaft.format(head=head, size=bare, more="  - kit: here\n"))
            kit = program.write(f"trialfit: 1\ngeneral_tolerance: {letter}\nparts:\n{faces.format(size=value)}{check}")
            whole = program.write(shaft.format(head="", size=size, more=faces.format(size=f"{value} ±{half}")) + check)
            hold_written(program, f"general tolerance {letter}, the engine's {head.strip()}", engine, [kit], whole)
    for engine_gauges, kit_gauges in (("", "{rule: 0.5}"), ("{rule: 0.1}", "{rule: 0.5}"), ("{rule: 0.5}", "{rule: 0.5}"),
                                      ("{rule: 0.1, caliper: 0.03}", "{caliper: 0.02, rule: 0.5}")):
        size = "40.0 by rule" if engine_gauges else "40 ±0.1"
        head = f"gauges: {engine_gauges}\n" if engine_gauges else ""
        engine = program.write(shaft.format(head=head, size=size, more="  - kit: here\n"))
        kit = program.write(f"trialfit: 1\ngauges: {kit_gauges}\nparts:\n{faces.format(size='39.5 by rule')}{check}")
        both = f"gauges: {{mine: {re.search(r'rule: ([0-9.]+)', engine_gauges or 'rule: 1')[1]}, its: 0.5}}\n"
        whole = program.write(shaft.format(head=both, size=size.replace("rule", "mine"),
                                           more=faces.format(size="39.5 by its")) + check)
        hold_written(program, f"gauges {kit_gauges}, the engine's {engine_gauges}", engine, [kit], whole)


def hold_splits(program, chance, most, examples):
    """Examples parted in two and three, whose answer is that of the whole; how many."""
    count = 0
    for path in examples:
        split = Split(path.read_text(encoding="utf-8"))
        whole = program.write(path.read_text(encoding="utf-8"), f"whole-{path.name}")
        if program.judged(whole)["verdict"] is None:
            continue  # it contradicts itself
        every = ranges(len(split.parts))
        for one, other in sorted(chance.sample(every, min(most, len(every)))):
            count += 1
            about = f"{path.name}, parts {one} to {other - 1} a kit"
            engine, (kit,) = split.engine_and_kits([one, other])
            engine, kit = program.write(engine), program.write(kit)
            hold_written(program, about, engine, [kit], whole)
            if other - one < 2:
                continue
            middle = chance.randrange(one + 1, other)
            _, both = split.engine_and_kits([one, middle, other])
            engine = program.write(split.engine_and_kits([one, middle, other])[0])
            words = [word for text in both for word in ("--of", program.write(text))]
            name = f"g{program.number}.yaml"
            said = run([program.path, "match", engine, *words, "--write", name, "--json", "--force"], cwd=program.folder)
            program.findings.hold(said.code in (0, 1), f"{about}, parted at {middle}: {said.err.decode()}")
            if said.code in (0, 1):
                got, wanted = program.judged(name), program.judged(whole)
                program.findings.hold(close(got, wanted), f"{about}, parted at {middle}: {difference(got, wanted)}")
    return count


def hold_empty(program, chance, examples):
    """An empty kit changes nothing, by itself or beside another."""
    for path in examples:
        text = path.read_text(encoding="utf-8")
        whole = program.write(text, f"whole-{path.name}")
        if program.judged(whole)["verdict"] is None:
            continue
        hold_written(program, f"{path.name} and an empty kit", whole, [program.write(EMPTY)], whole)
        split = Split(text)
        one, other = chance.choice(ranges(len(split.parts)))
        engine, (kit,) = split.engine_and_kits([one, other])
        engine, kit, empty = program.write(engine), program.write(kit), program.write(EMPTY)
        answers = [program.json("match", engine, *words)[1]["kits"][0]
                   for words in ([kit], ["--of", kit, "--of", empty], ["--of", empty, "--of", kit])]
        # Only the empty kit's price is not known.
        same = [{key: value for key, value in each.items() if key not in ("kit", "price")} for each in answers]
        program.findings.hold(same[0] == same[1] == same[2], f"{path.name}: an empty kit beside another changes it")


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--program", required=True, type=os.path.abspath)
    parser.add_argument("--sanitized", action="store_true", help="fewer")
    parser.add_argument("--splits", type=int, help="how many kits are made of each example, at most")
    parser.add_argument("--seed", type=int, default=0, help="which of them")
    parser.add_argument("--keep", type=pathlib.Path, help="a folder in which the files are left")
    given = parser.parse_args()
    most = given.splits or (1 if given.sanitized else 4)
    findings, chance = Findings(), random.Random(given.seed)
    with tempfile.TemporaryDirectory() as folder:
        if given.keep:
            given.keep.mkdir(parents=True, exist_ok=True)
        program = Program(given.program, given.keep or folder, findings)
        for path in (root / "examples" / "kits").glob("*.yaml"):
            shutil.copy(path, program.folder / path.name)
        kits = [f"kit-{letter}.yaml" for letter in "abcde"]
        weights = ["weight-thin.yaml", "weight-wide.yaml"]
        hold_written(program, "the kits", "engine.yaml", kits)
        hold_ranking(program, "the kits", "engine.yaml", kits)
        hold_bytes(program, "the kits", "engine.yaml", *kits)
        program.number += 1
        hold_written(program, "the weights", "pump-motor.yaml", weights)
        hold_ranking(program, "the weights", "pump-motor.yaml", weights)
        hold_bytes(program, "the weights", "pump-motor.yaml", *weights)
        # Same price, same parts: a tie.
        program.write((program.folder / "kit-b.yaml").read_text(encoding="utf-8"), "kit-a2.yaml")
        hold_ranking(program, "kits alike", "engine.yaml", ["kit-b.yaml", "kit-d.yaml", "kit-a2.yaml", "kit-c.yaml"])
        units = list(UNITS)[:1] if given.sanitized else UNITS
        for kit, unit in itertools.product(kits[:4], units):
            hold_unit(program, kit, "engine.yaml", (program.folder / kit).read_text(encoding="utf-8"), unit)
        for kit, unit in itertools.product(weights, units):
            hold_unit(program, kit, "pump-motor.yaml", (program.folder / kit).read_text(encoding="utf-8"), unit)
        halves = {}
        for letter in "abc":
            split = Split((program.folder / f"kit-{letter}.yaml").read_text(encoding="utf-8"))
            _, (plates, rotors) = split.engine_and_kits([0, 2, 5])
            halves.setdefault("plates", []).append(program.write(plates, f"plate-{letter}.yaml"))
            halves.setdefault("rotors", []).append(program.write(rotors, f"rotor-{letter}.yaml"))
        hold_groups(program, "plates by rotors", "engine.yaml", list(halves.values()))
        hold_bytes(program, "plates by rotors", "engine.yaml", "--of", *halves["plates"], "--of", *halves["rotors"])
        hold_own(program)
        examples = sorted((root / "examples").glob("*.yaml"))[::4 if given.sanitized else 1]
        hold_empty(program, chance, examples)
        count = hold_splits(program, chance, most, examples)
        findings.hold(count > (3 if given.sanitized else 50), f"only {count} kits were made of the examples")
    findings.end()


if __name__ == "__main__":
    main()
