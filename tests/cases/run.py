# SPDX-License-Identifier: MIT
"""Whole runs of the program: a folder a case, standard output, standard error and exit code pinned.

  tests/cases/NAME/command         what a user would type, run by bash in an empty folder in which
                                   `examples` and the case's own files lie
  tests/cases/NAME/out.expected    standard output
  tests/cases/NAME/err.expected    standard error; none where the file is not there
  tests/cases/NAME/exit.expected   exit code

  python3 tests/cases/run.py --program build/trialfit            runs all
  python3 tests/cases/run.py --program build/trialfit NAME...    runs these
  python3 tests/cases/run.py --program build/trialfit --write    pins what the program says now:
                                   read every changed text as its user would before keeping it

Paths and times never come into a pinned text: the program is on PATH, files are named from the
folder. Run without --write, nothing outside a temporary folder is written.
"""
import argparse
import difflib
import json
import math
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

here = pathlib.Path(__file__).resolve().parent
root = here.parent.parent
PINNED = {"out": "out.expected", "err": "err.expected", "exit": "exit.expected"}


def run(case, program):
    """What the case's command says: name of the pinned file -> text."""
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        (folder / "examples").symlink_to(root / "examples")
        for file in case.iterdir():
            if file.name != "command" and file.name not in PINNED.values():
                shutil.copy(file, folder / file.name)
        environment = {key: value for key, value in os.environ.items()
                       if key not in ("NO_COLOR", "FORCE_COLOR", "COLUMNS")}
        environment.update(PATH=f"{program.parent}:{os.environ['PATH']}", LC_ALL="C.UTF-8", TERM="xterm")
        said = subprocess.run(["bash", "-c", (case / "command").read_text(encoding="utf-8")],
                              cwd=folder, env=environment, stdin=subprocess.DEVNULL,
                              capture_output=True, check=False, timeout=60)
    return {PINNED["out"]: said.stdout.decode(), PINNED["err"]: said.stderr.decode(),
            PINNED["exit"]: f"{said.returncode}\n"}


def pinned(file):
    return file.read_text(encoding="utf-8") if file.exists() else ""


def pin(case, said):
    for name, text in said.items():
        file = case / name
        if text and not same_text(pinned(file), text):
            file.write_text(text, encoding="utf-8")
        elif not text:
            file.unlink(missing_ok=True)


def same(one, other):
    """Whether two JSON values are the same, numbers to 1e-12: their last bit is the compiler's."""
    if isinstance(one, float) and isinstance(other, float):
        return math.isclose(one, other, rel_tol=1e-12, abs_tol=1e-12)
    if isinstance(one, dict) and isinstance(other, dict):
        return list(one) == list(other) and all(same(one[key], other[key]) for key in one)
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(same, one, other))
    return type(one) is type(other) and one == other


def same_text(expected, said):
    if expected == said or not (expected.startswith("{") and said.startswith("{")):
        return expected == said
    try:
        return same(json.loads(expected), json.loads(said))
    except json.JSONDecodeError:
        return False


def differences(case, said):
    for name, text in said.items():
        file = case / name
        expected = pinned(file)
        if same_text(expected, text):
            continue
        if name == PINNED["exit"] and not expected:
            yield f"{case.name}: nothing is pinned\n"
        yield from difflib.unified_diff(expected.splitlines(True), text.splitlines(True),
                                        f"{case.name}/{name}", "what the program says")


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--program", default=root / "build" / "trialfit", type=pathlib.Path)
    parser.add_argument("--write", action="store_true", help="pin what the program says now")
    parser.add_argument("names", nargs="*", help="cases to run; all where none is named")
    given = parser.parse_args()
    program = given.program.resolve()
    if program.name != "trialfit" or not program.exists():
        raise SystemExit(f"{program}: not there, or not named trialfit")
    cases = sorted(file.parent for file in here.glob("*/command"))
    unknown = set(given.names) - {case.name for case in cases}
    if unknown or not cases:
        raise SystemExit(f"no such case: {' '.join(sorted(unknown)) or 'there is none'}")
    failed = 0
    for case in cases:
        if given.names and case.name not in given.names:
            continue
        said = run(case, program)
        if given.write:
            pin(case, said)
            continue
        found = "".join(differences(case, said))
        failed += bool(found)
        sys.stdout.write(found)
    raise SystemExit(1 if failed else 0)


main()
