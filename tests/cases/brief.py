# SPDX-License-Identifier: MIT
"""How much is said: `--brief` gives the answer and its table in the words of the whole text and
nothing else, and of many pairs the tightest are listed and the rest counted."""
import pathlib
import subprocess
import re
import sys
import tempfile

here = pathlib.Path(__file__).resolve().parent
root = here.parent.parent
sys.path.insert(0, str(here.parent / "support"))
from pile import pile  # noqa: E402
from program import Findings, arguments  # noqa: E402

RUNS = (["check", "pump-engine"], ["check", "gearbox-end-float"], ["why", "pump-engine", "nut engagement"],
        ["odds", "doubtful-cover"], ["plan", "pump-engine"], ["plan", "no-way-out"],
        ["survey", "misread-depth"], ["seat", "loose-rotor"], ["timing", "short-slot"],
        ["spin", "kicks-no-spark"])
LEFT_OUT = ("Not assessed", "Notes", "Before the engine runs", "Before metal comes off",
            "What to do next")


def hold_long_list(found, program):
    """A hundred parts print no more than a few hundred do."""
    with tempfile.TemporaryDirectory() as folder:
        job = pathlib.Path(folder) / "pile.yaml"
        job.write_text(pile(60), encoding="utf-8")
        short, long = (subprocess.run([program, "check", job, *flag], capture_output=True, check=False,
                                      timeout=60).stdout.decode() for flag in ([], ["--all"]))
    rows = [len(re.findall(r"^\w+\.\w+ to \S+ +>", text, re.M)) for text in (short, long)]
    more = re.search(r"The 40 tightest pairs; (\d+) more, which hold: --all lists them", short)
    found.hold(rows[0] == 40 and rows[1] > 1000, f"{rows} rows, with --all")
    found.hold(more and int(more[1]) > 1000, f"does not say how many are left: {short[-600:]}")


def main():
    given = arguments(__doc__)
    found = Findings()
    hold_long_list(found, given.program)
    for command, example, *more in RUNS:
        words = [given.program, command, root / "examples" / f"{example}.yaml", *more]
        whole, short = (subprocess.run(words + flag, capture_output=True, check=False, timeout=60)
                        for flag in ([], ["--brief"]))
        name = f"{command} {example}"
        lines = short.stdout.decode().splitlines()
        all_lines = whole.stdout.decode().splitlines()
        found.hold(short.returncode == whole.returncode and not short.stderr, f"{name}: {short}")
        found.hold(lines and lines[0] == all_lines[0], f"{name}: the answer is not the first line")
        found.hold(len(lines) < len(all_lines), f"{name}: nothing is left out")
        others = [line for line in lines if line not in all_lines]
        found.hold(not others, f"{name}: says what the whole text does not: {others}")
        told = [line for line in lines if line.startswith(LEFT_OUT)]
        found.hold(not told, f"{name}: still says {told}")
    found.end()


main()
