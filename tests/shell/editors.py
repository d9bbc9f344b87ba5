# SPDX-License-Identifier: MIT
"""A job file that another YAML reader has loaded and written again, as editors and scripts do, means
the same: no key and no size is taken for a truth value or a number (YAML 1.1, by PyYAML).
python3 tests/shell/editors.py --program build/trialfit"""
import json
import pathlib
import subprocess
import sys

import yaml

root = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(root / "tests" / "support"))
from program import Findings, arguments  # noqa: E402


def meant(answer):
    """What is answered, without the file's name and lines, and how a limit was written: 0.20 is 0.2."""
    if isinstance(answer, dict):
        return {key: meant(value) for key, value in answer.items()
                if key not in ("file", "line") and not key.endswith(("_written", "source"))}
    return [meant(each) for each in answer] if isinstance(answer, list) else answer


def said(tool, command, job, text=None):
    run = subprocess.run([tool, command, job, "--json"], input=text, capture_output=True, text=True, check=False, timeout=60)
    return json.loads(run.stdout), run.returncode


def main():
    given = arguments(__doc__)
    found = Findings()
    for job in sorted((root / "examples").rglob("*.yaml")):
        again = yaml.safe_dump(yaml.safe_load(job.read_text(encoding="utf-8")), sort_keys=False, allow_unicode=True)
        for command in ("check", "timing", "seat"):
            (before, code), (after, code_after) = said(given.program, command, job), said(given.program, command, "-", again)
            if code == 2:
                # Such a section is not there, or a kit stands alone; the same is said of both.
                found.hold(code_after == 2, f"{command} {job.name}: {code} and {code_after}")
                continue
            found.hold(meant(before) == meant(after) and code == code_after, f"{command} {job.name}: not the same once loaded and dumped")
    found.hold(found.checked > 60, f"only {found.checked} answers")
    found.end()


main()
