# SPDX-License-Identifier: MIT
"""The manual's pages and the schemas that the program prints: each page is set by groff without a
warning and says what --help and the schema say; each schema is its file.
python3 tests/shell/manual.py --program build/trialfit"""
import json
import os
import pathlib
import re
import subprocess
import sys

root = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(root / "tests" / "support"))
from program import Findings, arguments  # noqa: E402


def said(tool, *words):
    run = subprocess.run([tool, *words], capture_output=True, text=True, check=False, timeout=60)
    return run.stdout if run.returncode == 0 else ""


def page_set(found, name, page):
    """As man shows it, its words parted by one space."""
    run = subprocess.run(["groff", "-man", "-ww", "-Kutf8", "-Tutf8", "-P-c", "-P-b", "-P-u", "-rLL=100n"], input=page, capture_output=True,
                         text=True, check=False, timeout=60, env={**os.environ, "LC_ALL": "C.UTF-8"})
    found.hold(run.returncode == 0 and not run.stderr, f"{name}: groff says {run.stderr}")
    wide = [line for line in run.stdout.splitlines() if len(line) > 100]
    found.hold(not wide, f"{name}: wider than 100: {wide[:2]}")
    return " ".join(run.stdout.replace("\u2010", "-").split())


def commands(found, tool):
    help_text = said(tool, "--help")
    names = re.findall(r"^  ([a-z]+) {2,}\S", help_text.split("Begin with")[0], re.M)
    found.hold(len(names) >= 18, f"commands: {names}")
    whole = page_set(found, "trialfit", said(tool, "manual"))
    for name in names:
        found.hold(f"trialfit-{name}(1)" in whole, f"trialfit(1) does not name {name}")
        page = page_set(found, name, said(tool, "manual", name))
        own = said(tool, name, "--help")
        # An option or an argument and what is said of it, over the lines that it takes.
        for key, about in re.findall(r"^  (-{0,2}[A-Za-z][\w-]*)[^\n]*?(?: {2,}|\n {10,})((?:\S[^\n]*)(?:\n {10,}\S[^\n]*)*)", own, re.M):
            if key == "trialfit" or about.startswith("trialfit"):
                continue
            found.hold(key in page and " ".join(about.split()) in page, f"{name}: {key}: '{about}' is not in its page")
        for line in own.splitlines():
            if line.startswith("  trialfit "):
                found.hold(" ".join(line.split()) in page, f"{name}: '{line}' is not in its page")


def keys_of(node):
    if isinstance(node, dict):
        for key, value in node.get("properties", {}).items():
            yield key, value.get("description", "")
        for value in node.values():
            yield from keys_of(value)
    elif isinstance(node, list):
        for value in node:
            yield from keys_of(value)


def job_file(found, tool):
    page = page_set(found, "job", said(tool, "manual", "job"))
    schema = json.loads((root / "schemas" / "job.schema.json").read_text(encoding="utf-8"))
    listed = [*schema["properties"].items(), *((key, value) for each in schema["definitions"].values()
                                               for key, value in each.get("properties", {}).items())]
    for key, value in listed:
        found.hold(f"{key}: " in page, f"trialfit-job(5) has no '{key}'")
        found.hold(" ".join(value.get("description", "").split()) in page, f"trialfit-job(5): {key}")
    found.hold(len(listed) > 150, f"{len(listed)} keys")


def schemas(found, tool):
    files = sorted((root / "schemas").glob("*.schema.json"))
    for file in files:
        name = file.name.removesuffix(".schema.json")
        found.hold(said(tool, "schema", name) == file.read_text(encoding="utf-8"), f"schema {name} is not {file.name}")
    found.hold(said(tool, "schema") == said(tool, "schema", "job") and len(files) >= 15, "schema alone")


def main():
    given = arguments(__doc__)
    found = Findings()
    commands(found, given.program)
    job_file(found, given.program)
    schemas(found, given.program)
    found.end()


main()
