# SPDX-License-Identifier: MIT
"""Any one dimension of any example may be unmeasured, in every command.

No command ends with a fault of its own or prints a figure that is no number; and what is not known
never makes a job pass: where `check` still ends with 0, it does so with the size measured, too. Nor
does a command that answers the measured job refuse the other.
"""
import pathlib
import re
import sys
import tempfile

here = pathlib.Path(__file__).resolve().parent
root = here.parent.parent
sys.path.insert(0, str(here.parent / "support"))
from program import Findings, arguments, run  # noqa: E402

DIMENSION = re.compile(r"(\w+: )('?)([-\[\d][^,{}#\n]*?) from (\w+)")
COMMANDS = ("check", "odds", "survey", "plan", "seat", "timing", "draw", "sheet")


def jobs():
    """(example, its text with one dimension unmeasured, that dimension)."""
    for example in sorted((root / "examples").glob("*.yaml")):
        text = example.read_text(encoding="utf-8")
        for found in DIMENSION.finditer(text):
            yield example, text[:found.start(3)] + "unmeasured" + text[found.end(3):], found.group(0)


def main():
    given = arguments(__doc__.splitlines()[0])
    found = Findings()
    every = list(jobs())
    found.hold(len(every) > 100, f"only {len(every)} dimensions in the examples")
    holds = 0
    refused = {}
    with tempfile.TemporaryDirectory() as folder:
        file = pathlib.Path(folder) / "job.yaml"
        # A sanitized program takes its time: one job in five then.
        for example, text, dimension in every[::5 if given.sanitized else 1]:
            file.write_text(text, encoding="utf-8")
            for command in COMMANDS:
                said = run([given.program, command, str(file)])
                what = f"{command} {example.name} without '{dimension}'"
                found.hold(said.code in (0, 1, 2), f"{what}: exit code {said.code}\n{said.err!r}")
                figures = re.search(rb"(?<![a-z])nan(?![a-z])", said.out.lower())
                found.hold(figures is None, f"{what}: prints a figure that is no number")
                if said.code == 2:
                    if (command, example) not in refused:
                        refused[command, example] = run([given.program, command, str(example)])
                    found.hold(refused[command, example].code == 2,
                               f"{what}: refused\n{said.err.decode()}")
                if command == "check" and said.code == 0:
                    holds += 1
                    measured = run([given.program, "check", str(example)])
                    # Sizes that contradict the readings (2) no longer do without the wrong one.
                    found.hold(measured.code in (0, 2),
                               f"{what}: holds, and does not where it is known")
    found.hold(holds > 0, "no job holds whatever a size of it may be")
    found.end()


main()
