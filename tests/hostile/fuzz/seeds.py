# SPDX-License-Identifier: MIT
"""Writes what fuzzing begins with: a folder of inputs for each harness, and a dictionary of the format's words.

    seeds.py FOLDER [--examples] [--third]      FOLDER/reading/..., FOLDER/words.dict

`--examples`: of the answers only the jobs of examples/ and those that hold every key, which is quick.
`--third`: every third of all, for a slow build.
"""
import hashlib
import json
import pathlib
import re
import sys

here = pathlib.Path(__file__).resolve().parent
root = here.parent.parent.parent
KITS = root / "examples" / "kits"
SEPARATOR = b"%\n"
LARGEST = 20000  # bytes of an input: larger ones are slow and find no more
SMALL = 2500  # of one that is changed a million times: every answer is asked of it, and changes of it read as jobs


def jobs(*folders, largest=LARGEST):
    """The texts of all job files below the folders, each once."""
    texts = {}
    for folder in folders:
        for file in sorted((root / folder).rglob("*.yaml")):
            text = file.read_bytes()
            if len(text) <= largest:
                texts.setdefault(hashlib.sha256(text).hexdigest(), (file.stem, text))
    return list(texts.values())


def whole(largest=LARGEST):
    """Jobs that read without fault."""
    return jobs("examples", "tests/hostile/accepted", largest=largest)


def edits(largest):
    """A line of bytes that steer the changes, then the job."""
    for number, (name, text) in enumerate(whole(largest)):
        yield f"{name}-written", b"\0\n" + text
        for how in (1, 2, 7):  # an entry of words alone, in the line ends of either system
            yield f"{name}-noted-{how}", bytes([how, 5, number % 8, (number + how) % 8, number % 2]) + b"\n" + text
        for kind in range(6):
            steer = bytes([1 + (number + kind) % 7, kind, 16 * number % 250, number % 12,
                           (kind * 47 + 5 * number) % 256, number % 5, (number + kind) % 12, 5, kind])
            yield f"{name}-{kind}", steer.replace(b"\n", b"\x0b") + b"\n" + text


def joins():
    """An engine and one or two kits."""
    groups = [(KITS / "engine.yaml", sorted(KITS.glob("*.yaml")))]
    for folder in sorted((root / "tests" / "cases").glob("match-*")):
        if (folder / "engine.yaml").exists():
            groups.append((folder / "engine.yaml", sorted(folder.glob("*.yaml"))))
    for engine, files in groups:
        kits = [file for file in files if file != engine]
        for one, other in zip(kits, kits[1:] + kits[:1]):
            texts = [file.read_bytes() for file in dict.fromkeys((engine, one, other))]
            yield f"{engine.parent.name}-{one.stem}", SEPARATOR.join(texts)


def table():
    """What the cases and the README ask of `table`, and what the kinds give as their examples."""
    asked = set()
    for file in [*(root / "tests" / "cases").glob("table-*/command"), root / "README.md"]:
        asked.update(re.findall(r"trialfit table ([^|`\n]+)", file.read_text(encoding="utf-8")))
    reference = (root / "lib/trialfit/trade/reference/reference.cpp").read_text(encoding="utf-8")
    asked.update(re.findall(r'\{"\w+",\s*"([^"]+)"', reference))
    for number, line in enumerate(sorted(asked)):
        yield f"asked-{number}", line.replace("'", "").replace('"', "").encode()


def words():
    """Keys and fixed values of the format, units, forms of sizes."""
    found = {" exact", " by ", " ±", "+/-", "..", " from ", "unmeasured", "in", "mm", "um", "thou",
             "deg", "N m", "rpm", "kg", "1 in 5", "h7", "H7", "M10x1.25-6g", ": ", "\n  - ", "[", "]",
             "{", "}", ", ", "\r\n"}

    def look(node):
        if isinstance(node, dict):
            found.update(node.get("properties", {}) if isinstance(node.get("properties"), dict) else [])
            found.update(each for each in node.get("enum", []) if isinstance(each, str))
            node = list(node.values())
        for each in node if isinstance(node, list) else []:
            look(each)
    look(json.loads((root / "schemas" / "job.schema.json").read_text(encoding="utf-8")))
    return sorted(found)


def quoted(word):
    return '"' + "".join(chr(byte) if 32 <= byte < 127 and byte not in b'"\\' else f"\\x{byte:02X}"
                         for byte in word.encode()) + '"'


def write(folder, named, step):
    folder.mkdir(parents=True, exist_ok=True)
    for old in folder.iterdir():
        old.unlink()
    count = 0
    for name, text in list(named)[::step]:
        (folder / f"{count:04}-{name}").write_bytes(text)
        count += 1
    if not count:
        raise SystemExit(f"nothing to begin {folder.name} with")


def main():
    out = pathlib.Path(sys.argv[1])
    few, step = "--examples" in sys.argv[2:], 3 if "--third" in sys.argv[2:] else 1
    write(out / "reading", jobs("examples", "tests/hostile", "tests/cases"), step)
    write(out / "answers", whole() if few else
          jobs("examples", "tests/hostile/accepted", "tests/cases", largest=SMALL), step)
    write(out / "edits", edits(LARGEST if few else SMALL), step)
    write(out / "joins", joins(), step)
    write(out / "table", table(), step)
    (out / "words.dict").write_text("".join(f"{quoted(word)}\n" for word in words()), encoding="utf-8")


main()
