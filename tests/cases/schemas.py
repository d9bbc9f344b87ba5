# SPDX-License-Identifier: MIT
"""Every answer as JSON validates against its schema: each command over every example.

A command is tested where schemas/COMMAND.schema.json is there; `why` is asked about every check and
every clearance that `check` lists.
"""
import argparse
import json
import pathlib
import subprocess

import jsonschema

here = pathlib.Path(__file__).resolve().parent
root = here.parent.parent
NOT_ANSWERS = {"job", "faults"}
# `table` is asked of no job but of these.
TABLES = ("thread M10x1.25-6g", "thread M8", "thread 3/8-24UNF-2A", "fit 25H7/g6", "size 17k5",
          "general 12.5 m", "general 12.5", "cone 1:5", "taper 14 20 29", "shim",
          "material aluminium", "material epoxy", "piston 43 87 1.4mm",
          "piston 43 87 17deg offset 0.5 tilt 15deg", "nut M10", "key 17")
JAMS = ("--alone 13.97 --together 10.02",
        "--alone 13.97 --together 10.02 --clearance 0.5 --off plate=10,keep=5.5 --off rotor=8",
        "--alone 13.97 --together 13.97", "--alone 13.97 --together 13.93",
        "--alone 0.55 --together 0.394 --inches")
KITS = root / "examples" / "kits"
MATCHES = tuple(" ".join(map(str, [KITS / engine, *sorted(KITS.glob(kits))]))
                for engine, kits in (("engine.yaml", "kit-*.yaml"), ("engine.yaml", "kit-d.yaml"),
                                     ("pump-motor.yaml", "weight-*.yaml"), ("pump-motor.yaml", "kit-[bc].yaml")))
FAULTS = json.loads((root / "schemas" / "faults.schema.json").read_text(encoding="utf-8"))


def answer_of(program, words):
    """(exit code, answer) of a command; a refusal has faults in place of an answer, which is None."""
    said = subprocess.run([program, *words, "--json"], capture_output=True, check=False)
    if said.returncode == 2:
        jsonschema.validate(json.loads(said.stdout), FAULTS, jsonschema.Draft7Validator)
        return 2, None
    return said.returncode, json.loads(said.stdout)


def commands_of(name, program, example):
    """The command lines to try a command with on one example."""
    if name == "jam":
        yield ["start", "jam", *example.split()]
        return
    if name == "several":
        yield ["check", example, str(root / "examples" / "pump-engine.yaml")]
        return
    if name == "match":
        engine, *kits = example.split()
        yield ["match", engine, *kits]
        return
    if name not in ("why", "table", "cautions"):
        yield [name, example]
    if name in ("table", "cautions"):
        yield [name, *example.split()]
    if name == "check":
        yield [name, example, "--all"]
        yield [name, example, "--as-written"]
        yield [name, example, "--as-written", "--judge", "rss", "--inflate", "1.5"]
    if name == "why":
        # Readings that contradict the sizes leave nothing to ask about; as written there is.
        _, answer = answer_of(program, ["check", example, "--as-written"])
        for check in answer["checks"]:
            yield [name, example, check["check"]]
            yield [name, example, check["check"], "--as-written", "--judge", "rss"]
        for clearance in answer["clearances"]:
            yield [name, example, *clearance["between"], "--as-written"]


def faults_of(code, answer, validator):
    if code not in (0, 1):
        yield f"exit code {code}"
    for fault in validator.iter_errors(answer):
        yield f"{'/'.join(str(step) for step in fault.path)}: {fault.message[:200]}"
    if "verdict" in answer and (code == 0) != (answer["verdict"] == "holds"):
        yield f"exit code {code} with verdict {answer['verdict']}"


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--program", required=True)
    program = parser.parse_args().program
    examples = [str(file) for file in sorted((root / "examples").glob("*.yaml"))]
    failed = 0
    pinned = "".join(file.read_text(encoding="utf-8") for file in here.glob("*/command"))
    for example in examples:
        if "examples/" + pathlib.Path(example).name not in pinned:
            failed += 1
            print(f"{example}: no case in tests/cases runs it")
    for schema in sorted((root / "schemas").glob("*.schema.json")):
        name = schema.name.split(".")[0]
        if name in NOT_ANSWERS:
            continue
        meaning = json.loads(schema.read_text(encoding="utf-8"))
        jsonschema.Draft7Validator.check_schema(meaning)
        validator = jsonschema.Draft7Validator(meaning)
        answers = refusals = 0
        # What no example shows is in the command's own cases.
        own = sorted(str(file) for file in here.glob(f"{name}-*/*.yaml"))
        asked = {"table": TABLES, "cautions": ("",), "jam": JAMS, "match": MATCHES}.get(name, [*examples, *own])
        for words in (words for file in asked for words in commands_of(name, program, file)):
            code, answer = answer_of(program, words)
            answers += answer is not None
            refusals += answer is None
            for fault in faults_of(code, answer, validator) if answer else ():
                failed += 1
                print(f"{' '.join(words)}: {fault}")
        print(f"{name}: {answers} answers, {refusals} refused jobs")
        failed += answers == 0
    raise SystemExit(1 if failed else 0)


main()
