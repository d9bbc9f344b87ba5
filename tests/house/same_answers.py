# SPDX-License-Identifier: MIT
"""The library in one call answers what the program prints: each command's JSON on every example.
And what it writes is a job to the schema."""
import json
import pathlib
import subprocess
import sys
import tempfile

import jsonschema

root = pathlib.Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(root / "tests" / "support"))
import job_yaml  # noqa: E402
from program import Findings, arguments  # noqa: E402


def said(line):
    """Exit code and standard output of a command, as JSON where there is some."""
    result = subprocess.run(line, cwd=root, capture_output=True, check=False)
    try:
        return result.returncode, json.loads(result.stdout or "null")
    except json.JSONDecodeError:
        return result.returncode, result.stdout.decode()


def written_faults(library, job, validator):
    """What the schema finds in a job as the library writes it."""
    with tempfile.NamedTemporaryFile(suffix=".yaml") as file:
        subprocess.run([library, "yaml", str(job)], stdout=file, check=True)
        return [fault.message[:200] for fault in validator.iter_errors(job_yaml.load(file.name))]


def main():
    given = arguments(__doc__)
    library_program = pathlib.Path(given.program).parent / "tests" / "house" / "study_json"
    found = Findings()
    answers = 0
    every = sorted((root / "examples").glob("*.yaml"))
    for job in every[::5 if given.sanitized else 1]:
        name = str(job.relative_to(root))
        checks = said([given.program, "check", name, "--json"])[1]
        for command in ("check", "odds", "plan", "why", "survey", "seat", "timing", "spin"):
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
    schema = json.loads((root / "schemas" / "job.schema.json").read_text(encoding="utf-8"))
    validator = jsonschema.Draft7Validator(schema)
    for job in [*(root / "examples").glob("*.yaml"), *(root / "tests/hostile/accepted").glob("*.yaml")]:
        faults = written_faults(str(library_program), job, validator)
        found.hold(not faults, f"{job.name}, as the library writes it: {faults}")
    found.hold(answers > (80 if not given.sanitized else 10), f"only {answers} answers compared")
    found.end()


main()
