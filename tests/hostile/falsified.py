# SPDX-License-Identifier: MIT
"""One figure of an example falsified by 1.00 mm, each in turn: the survey names it, and no innocent alone.

Where readings or sizes given twice check the figure well enough to notice 1.00 mm, the figure is among
those that `survey` names; a group may be named, an innocent figure alone never. What nothing checks is
not noticed, and then nothing is named. The table of all of them is pinned: falsified.expected, a line
each; --write pins what the survey says now.
"""
import json
import pathlib
import re
import sys
import tempfile

here = pathlib.Path(__file__).resolve().parent
root = here.parent.parent
sys.path.insert(0, str(here.parent / "support"))
from program import Findings, arguments, run  # noqa: E402

TABLE = here / "falsified.expected"
FIGURE = r"-?\d+(?:\.\d+)?"
SIZE = re.compile(rf"(?P<key>\w+): \"?(?P<first>{FIGURE})(?P<to>\.\.(?P<second>{FIGURE}))?"
                  r"(?P<rest>[^,{}#\n]*)")
KEYS = ("is", "offset", "dia")  # those of a dimension say what it is measured from
# Examples that hold a wrong figure already, and the right one.
MENDED = {"misread-depth.yaml": ("is: 16.21", "is: 15.21")}
BY = 1.0


def text_of(example):
    text = example.read_text(encoding="utf-8")
    wrong, right = MENDED.get(example.name, ("", ""))
    assert wrong in text
    return text.replace(wrong, right) if wrong else text


def falsified(text):
    """(line, what, the text with that figure greater by BY)"""
    units = re.search(r"^units: (\w+)", text, re.M).group(1)
    by = BY / {"mm": 1.0, "in": 25.4}[units]
    for found in SIZE.finditer(text):
        dimension = re.search(r" from \w+\s*$", found["rest"])
        if not dimension and found["key"] not in KEYS:
            continue
        line = text.count("\n", 0, found.start()) + 1
        moved = f"{float(found['first']) + by:.6g}"
        if found["second"]:
            moved += f"..{float(found['second']) + by:.6g}"
        end = found.end("second") if found["second"] else found.end("first")
        yield line, found[0].strip(), text[:found.start("first")] + moved + text[end:]


def noticed(survey):
    """The lines whose figure the survey would notice to be BY off."""
    limit = BY / {"mm": 1.0, "in": 25.4}[survey["units"]]
    lines = {}
    for size in survey["sizes"]:
        if size["redundancy"] > 1e-9:
            lines[size["line"]] = 4.0 * size["sd_before"] / size["redundancy"] ** 0.5 < limit
    return {line for line, seen in lines.items() if seen}


def surveyed(program, folder, text):
    file = folder / "job.yaml"
    file.write_text(text, encoding="utf-8")
    said = run([program, "survey", str(file), "--json"])
    return said.code, json.loads(said.out)


def main():
    given = arguments(__doc__.splitlines()[0], "--write")
    found = Findings()
    table = []
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        examples = sorted((root / "examples").glob("*.yaml"))[::4 if given.sanitized else 1]
        for example in examples:
            text = text_of(example)
            code, right = surveyed(given.program, folder, text)
            found.hold(code in (0, 1) and right["judgement"] in ("agree", "nothing_to_compare"),
                       f"{example.name}: does not agree as it is")
            checked = noticed(right) if code < 2 else set()
            for line, what, wrong in falsified(text):
                where = f"{example.name}:{line}: {what}"
                code, answer = surveyed(given.program, folder, wrong)
                if code == 2:
                    # Refused before anything is weighed: what is wrong of itself says so.
                    faults = " ".join(each["fault"] for each in answer["faults"])
                    found.hold("contradict" not in faults, f"{where}: not weighed: {faults}")
                    table.append(f"{where}: refused: {answer['faults'][0]['fault']}")
                    continue
                judgement = answer["judgement"]
                named = [each.get("line") for each in answer["suspects"]]
                table.append(f"{where}: {judgement}: " +
                             ("; ".join(each["name"] for each in answer["suspects"]) or "-"))
                if judgement in ("agree", "nothing_to_compare"):
                    found.hold(line not in checked, f"{where}: not noticed")
                    continue
                found.hold(line in named, f"{where}: not among {answer['suspects']}")
    said = "\n".join(table) + "\n"
    if given.write:
        TABLE.write_text(said, encoding="utf-8")
    names = {example.name for example in examples}
    pinned = "".join(line for line in TABLE.read_text(encoding="utf-8").splitlines(keepends=True)
                     if line.split(":")[0] in names)
    found.hold(pinned == said, "the table is another: see --write")
    found.hold(len(table) > (20 if given.sanitized else 100), f"only {len(table)} figures in the examples")
    found.end()


main()
