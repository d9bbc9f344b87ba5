# SPDX-License-Identifier: MIT
"""Any dimension, diameter or play of any example may be unmeasured, one or several: each such job is asked
`check`, and a quarter of the other commands in turn.

No command ends with a fault of its own, prints a figure that is no number, or refuses a job that it
answers where all is measured. What is not known never makes a job pass: where `check` still ends with
0, it does so with the sizes measured, too. Nor does it make a figure surer: a worst case that is still
told reaches at least as far as that of the measured job, whose sizes are among those that are possible.
"""
import json
import pathlib
import random
import re
import sys
import tempfile

here = pathlib.Path(__file__).resolve().parent
root = here.parent.parent
sys.path.insert(0, str(here.parent / "support"))
from program import Findings, arguments, run  # noqa: E402

DIMENSION = re.compile(r"(\w+: )('?)([-\[\d][^,{}#\n]*?) from (\w+)")
CONE = re.compile(r"(\bat: \w+, dia: )(\"?)([^,{}#\n\"]+)")
PLAY = re.compile(r"(\bsits: [^\n]*?(?:\n[^\n:]*)?\bplay: )()([\d.]+)(?=[,}])")
RING = re.compile(r"((?<=[ {])(?:bore|od): )()([\d.][^,{}#\n]*)(?=[,}])")
OTHERS = ("odds", "survey", "plan", "seat", "timing", "spin", "draw", "sheet")
SEED = 20261129
SEVERAL = 150
ROUNDED = 1e-6  # of a worst case by linear programs
EXAMPLES = sorted((root / "examples").glob("*.yaml"))


def sizes_of(text):
    return [*DIMENSION.finditer(text), *CONE.finditer(text), *PLAY.finditer(text),
            *RING.finditer(text)]


def without(text, sizes):
    for size in sorted(sizes, key=lambda each: -each.start()):
        text = text[:size.start(3)] + "unmeasured" + text[size.end(3):]
    return text


def one_each():
    """(example, its text with one size unmeasured, that size)."""
    for example in EXAMPLES:
        text = example.read_text(encoding="utf-8")
        for size in sizes_of(text):
            yield example, without(text, [size]), size.group(0)


def several():
    """The same with some sizes at once, chosen by a fixed seed."""
    chance = random.Random(SEED)
    for _ in range(SEVERAL):
        example = chance.choice(EXAMPLES)
        text = example.read_text(encoding="utf-8")
        all_sizes = sizes_of(text)
        some = chance.sample(all_sizes, min(len(all_sizes), chance.choice((2, 2, 3, 4, 6, 99))))
        yield example, without(text, some), "; ".join(size.group(0) for size in some)


class Jobs:
    def __init__(self, program, folder, found):
        self.program, self.folder, self.found = program, folder, found
        self.measured = {}
        self.holds = self.compared = self.held = 0

    def of_example(self, command, example):
        """What a command says of the example as it is."""
        if (command, example) not in self.measured:
            words = [command, str(example), *(("--all", "--json") if command == "check" else ())]
            self.measured[command, example] = run([self.program, *words])
        return self.measured[command, example]

    def hold(self, example, text, what):
        file = self.folder / "job.yaml"
        file.write_text(text, encoding="utf-8")
        # A quarter of the others for this job, the next for the next.
        commands = ["check", *OTHERS[self.held % 4::4]]
        self.held += 1
        for command in commands:
            said = run([self.program, command, str(file)])
            which = f"{command} {example.name} without '{what}'"
            self.found.hold(said.code in (0, 1, 2),
                            f"{which}: exit code {said.code}\n{said.err!r}")
            figures = re.search(rb"(?<![a-z])(nan|inf)(?![a-z])", said.out.lower())
            self.found.hold(figures is None, f"{which}: prints a figure that is no number")
            # A skim needs a diameter to begin from.
            if said.code == 2 and b"before it is skimmed" not in said.err:
                self.found.hold(self.of_example(command, example).code == 2,
                                f"{which}: refused\n{said.err.decode()}")
            if command == "check" and said.code == 0:
                self.holds += 1
                # Sizes that contradict the readings (2) no longer do without the wrong one.
                self.found.hold(self.of_example(command, example).code in (0, 2),
                                f"{which}: holds, and does not where it is known")
        self.hold_no_surer(example, file, what)

    def hold_no_surer(self, example, file, what):
        measured = self.of_example("check", example)
        said = run([self.program, "check", str(file), "--all", "--json"])
        if measured.code not in (0, 1) or said.code not in (0, 1):
            return
        known = rows_of(json.loads(measured.out))
        for name, row in rows_of(json.loads(said.out)).items():
            if row["nominal"] is None or name not in known or known[name]["nominal"] is None:
                continue
            # Without what the draw-up hangs on there is no state "tightened" to decide.
            if row.get("state") != known[name].get("state"):
                continue
            (lo, hi), (least, most) = row["worst"], known[name]["worst"]
            # Of gaps that tilt it is the least all round that is told; more tilt lessens both ends.
            tilts = b"runout" in file.read_bytes()
            wide = lo <= least + ROUNDED and (hi >= most - ROUNDED or tilts)
            self.found.hold(wide, f"check {example.name} without '{what}': {name} is told as "
                                  f"{lo} to {hi}, and is {least} to {most} where all is measured")
            self.compared += 1


def rows_of(answer):
    rows = {tuple(each["between"]): each for each in answer["clearances"]}
    rows.update({each["check"]: each for each in answer["checks"]})
    return rows


def main():
    given = arguments(__doc__.splitlines()[0])
    found = Findings()
    every = [*one_each(), *several()]
    found.hold(len(every) > 100 + SEVERAL, f"only {len(every)} jobs of the examples")
    with tempfile.TemporaryDirectory() as folder:
        jobs = Jobs(given.program, pathlib.Path(folder), found)
        # A sanitized program takes its time: one job in forty then.
        for example, text, what in every[::41 if given.sanitized else 1]:
            jobs.hold(example, text, what)
    found.hold(jobs.holds > 0 or given.sanitized, "no job holds whatever a size of it may be")
    found.hold(jobs.compared > (100 if not given.sanitized else 10), f"only {jobs.compared} worst cases were compared")
    found.end()


main()
