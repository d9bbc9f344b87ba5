# SPDX-License-Identifier: MIT
"""One value of an example spoilt, each in turn: what is complained of is on its line, and nothing else is.

What was refused is no figure: nothing else may be complained of for it.
"""
import pathlib
import re
import sys
import tempfile

here = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(here.parent / "support"))
from program import Findings, arguments, run  # noqa: E402

VALUE = re.compile(r"((?:\w+): |- )('?)(-?\d[^,{}\[\]#\n]*?)(?= by | from |[,}\]\n#])")
SPOILT = ("oops", "{a: b}", "[x, y]")
EXAMPLES = sorted((here.parent.parent / "examples").glob("*.yaml"))


def spoilt(text):
    """(line, what stood there, what stands there now, the text)"""
    for value in VALUE.finditer(text):
        if value.group(1) == "trialfit: " or value.group(2):
            continue
        for word in SPOILT:
            yield (text.count("\n", 0, value.start(3)) + 1, value.group(0), word,
                   text[:value.start(3)] + word + text[value.end(3):])


def hold_all(given, found, file):
    """How many were refused."""
    refused = 0
    for example in EXAMPLES:
        every = list(spoilt(example.read_text(encoding="utf-8")))
        for line, was, word, text in every[::23 if given.sanitized else 1]:
            file.write_text(text, encoding="utf-8")
            said = run([given.program, "check", file])
            where = f"{example.name}:{line}: '{word}' in '{was}'"
            found.hold(said.code in (0, 1, 2), f"{where}: exit code {said.code}")
            if said.code != 2:
                continue
            refused += 1
            lines = re.findall(r"^[^ ]*?:(\d+):\d+: error: .*", said.err.decode(), re.MULTILINE)
            found.hold(set(lines) == {str(line)}, f"{where}: {said.err.decode()}")
    return refused


def main():
    given = arguments(__doc__.splitlines()[0])
    found = Findings()
    with tempfile.TemporaryDirectory() as folder:
        refused = hold_all(given, found, pathlib.Path(folder, "job.yaml"))
    found.hold(refused > (10 if given.sanitized else 500), f"only {refused} refused")
    found.end()


main()
