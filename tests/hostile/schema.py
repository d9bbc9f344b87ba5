# SPDX-License-Identifier: MIT
"""The schema and the reader give the same answer, as far as a schema can see.

Each refused file says in its first line what the schema alone makes of it:
  # schema: refuses         unknown or missing keys, wrong kinds, a size that is no size
  # schema: accepts         a fault of meaning: names, order, values that contradict each other
  # schema: not plain YAML  never reaches the schema
"""
import datetime
import json
import pathlib
import re
import sys
import tempfile

import jsonschema
import yaml

here = pathlib.Path(__file__).resolve().parent
root = here.parent.parent
sys.path.insert(0, str(here.parent / "support"))
import job_yaml  # noqa: E402
from program import Findings, arguments, run  # noqa: E402


def answer(validator, file):
    """What the schema alone makes of the file, and its first fault."""
    try:
        job = job_yaml.load(file)
    except yaml.YAMLError as fault:
        return "not plain YAML", str(fault)
    fault = next(validator.iter_errors(job), None)
    return ("refuses", fault.message[:200]) if fault else ("accepts", "")


def keys_of(schema, found):
    """Collects (definition, key) of every property of every object of the schema."""
    for name, definition in [("job", schema), *schema["definitions"].items()]:
        pending = [definition]
        while pending:
            each = pending.pop()
            if isinstance(each, dict):
                if isinstance(each.get("properties"), dict):
                    found.update((name, key) for key in each["properties"])
                pending.extend(v for k, v in each.items() if k != "definitions")
            elif isinstance(each, list):
                pending.extend(each)
    return found


def keys_of_reader():
    """Every key that the reader's sources know, from the lists that they give to Fields."""
    sources = "".join(file.read_text() for file in sorted((root / "lib" / "trialfit" / "reading").rglob("*.cpp")))
    lists = re.findall(r'Fields\s+\w*\([^;]*?\{((?:\s*"\w+",?)+)\}\)', sources)
    return {key for each in lists for key in re.findall(r'"(\w+)"', each)}


def words_of(data, found):
    """Collects every key that occurs anywhere in a job."""
    if isinstance(data, dict):
        for key, value in data.items():
            found.add(key)
            words_of(value, found)
    elif isinstance(data, list):
        for value in data:
            words_of(value, found)
    return found


def started(program, directory):
    """The files that `start` writes, one of each kind that its help lists."""
    says = run([program, "start", "--help"]).out.decode()
    kinds = re.findall(r"^  (\w+) {2,}", says.partition("Kinds of job:\n")[2].partition("\n\n")[0],
                       re.MULTILINE)
    for kind in kinds:
        file = pathlib.Path(directory) / f"start-{kind}.yaml"
        if kind == "jam":  # made of two readings, and answered at once
            run([program, "start", kind, "--alone", "13.97", "--together", "10.02", "--off",
                 "plate=10,keep=5.5", "-o", str(file)])
        else:
            file.write_bytes(run([program, "start", kind]).out)
        yield file


def by_yaml_1_1(path):
    """The file as an older reader takes it, a day as the words that it is written in."""
    def words(node):
        if isinstance(node, dict):
            return {key: words(value) for key, value in node.items()}
        if isinstance(node, list):
            return [words(value) for value in node]
        return node.isoformat() if isinstance(node, datetime.date) else node
    return words(yaml.safe_load(path.read_text(encoding="utf-8")))


def main():
    given = arguments(__doc__)
    found = Findings()
    with tempfile.TemporaryDirectory() as directory:
        judge(given, found, list(started(given.program, directory)))
    found.end()


def judge(given, found, starts):
    schema = json.loads((root / "schemas" / "job.schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft7Validator.check_schema(schema)
    validator = jsonschema.Draft7Validator(schema)

    used = set()
    examples = sorted((root / "examples").glob("*.yaml"))
    found.hold(len(examples) >= 6, f"only {len(examples)} examples")
    found.hold(len(starts) >= 4, f"`start` knows only {len(starts)} kinds of job")
    for file in examples + starts + sorted((here / "accepted").glob("*.yaml")):
        says, why = answer(validator, file)
        found.hold(says == "accepts", f"{file.name}: the schema {says}: {why}")
        # As written: an example may be about readings that contradict each other.
        result = run([given.program, "check", "--as-written", str(file)])
        found.hold(result.code in (0, 1), f"{file.name}: the reader refuses\n{result.err.decode()}")
        if says == "accepts":
            words_of(job_yaml.load(file), used)
    # No key and no value that an older reader of YAML takes for a truth value or a clock time.
    for file in examples + starts:
        found.hold(by_yaml_1_1(file) == job_yaml.load(file), f"{file.name}: YAML 1.1 reads something else")
    known = keys_of(schema, set())
    known_to_reader = keys_of_reader()
    found.hold(len(known_to_reader) > 60, f"only {len(known_to_reader)} keys found in the reader")
    for key in sorted(known_to_reader - {key for _, key in known}):
        found.hold(False, f"the schema does not know the reader's key '{key}'")
    for name, key in sorted(known):
        found.hold(key in used, f"{name}: no accepted file uses the schema's key '{key}'")

    for file in sorted(here.glob("*.yaml")):
        marked = file.read_text(encoding="utf-8").splitlines()[0].removeprefix("# schema: ")
        says, why = answer(validator, file)
        found.hold(says == marked, f"{file.name}: marked '{marked}', the schema {says}: {why}")
        if says != "accepts":
            result = run([given.program, "check", str(file)])
            found.hold(result.code == 2, f"{file.name}: the schema {says}, the reader does not")


main()
