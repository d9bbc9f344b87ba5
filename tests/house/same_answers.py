# SPDX-License-Identifier: MIT
"""The library in one call answers what the program prints: each command's JSON on every example."""
import json
import pathlib
import subprocess
import sys

root = pathlib.Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(root / "tests" / "support"))
from program import Findings, arguments  # noqa: E402


def said(line):
    """Exit code and standard output of a command, as JSON where there is some."""
    result = subprocess.run(line, cwd=root, capture_output=True, check=False)
    try:
        return result.returncode, json.loads(result.stdout or "null")
    except json.JSONDecodeError:
        return result.returncode, result.stdout.decode()


def main():
    given = arguments(__doc__)
    library_program = pathlib.Path(given.program).parent / "tests" / "house" / "study_json"
    found = Findings()
    answers = 0
    for job in sorted((root / "examples").glob("*.yaml")):
        name = str(job.relative_to(root))
        checks = said([given.program, "check", name, "--json"])[1]
        for command in ("check", "odds", "plan", "why", "survey", "seat", "timing"):
            line = [given.program, command, name, "--json"]
            if command == "why":
                if not checks.get("checks"):
                    continue
                line.insert(3, checks["checks"][0]["check"])
            code, program = said(line)
            refused, library = said([str(library_program), command, name])
            if code == 2:
                found.hold(refused == 2, f"{command} {name}: only the program refuses")
                continue
            found.hold(program == library, f"{command} {name}: the library answers otherwise")
            answers += 1
    found.hold(answers > 80, f"only {answers} answers compared")
    found.end()


main()
