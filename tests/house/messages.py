#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Sentences stand in the room `paper`, and no room below it knows what a command or an option is
called: no string literal of four or more words, and none that names a command or an option, in the
rooms below. Complaints are left out (what stands in `.fault`, in `.mend` or in a call that makes
one), faults of the program itself (what is thrown), and citations (what stands in `.source`)."""

import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
ROOMS = ["stack", "odds", "survey", "plan", "seat", "timing", "spin", "draw", "sheet", "study", "numerics"]
MOST_WORDS = 3

# Fields and calls whose text is a complaint, a fault of the program, or a citation.
FIELDS = re.compile(r"fault|mend|(\w+_)?source|k\w+Source")
CALLS = {"complain", "complaint", "fault", "unknown", "mismatch", "one", "ask", "unreadable",
         "Figure", "invalid_argument", "logic_error", "runtime_error", "out_of_range",
         "domain_error"}

# A literal's beginning, the file it stands in, and why it may.
ALLOWED = {
    ("stack/model/assemble.cpp", " lay when it was measured"): "the end of a size's name",
    ("stack/model/assemble.cpp", "key {} in a room of {}"):
        "stands for what is written, of a size that no file writes",
    ("stack/tightened/members.cpp", "their diameters are {"): "the end of a complaint",
    ("stack/tightened/members.cpp", "their pitches are {"): "the end of a complaint",
    ("plan/demand/parting.cpp", "{} left as it is"): "the name of a constraint",
    ("seat/told.cpp", "the job's cones and rings"): "where a figure comes from",
    ("seat/told.cpp", "rings and densities of {}"): "where a figure comes from",
    ("seat/told.cpp", ", the least along the cone"): "where a figure comes from",
}

TOKEN = re.compile(r"""
    (?P<comment>//[^\n]*|/\*.*?\*/|^[ ]*\#[^\n]*)
  | (?P<raw>R"(?P<mark>[^(\s]*)\((?P<rawtext>.*?)\)(?P=mark)")
  | "(?P<text>(?:\\.|[^"\\\n])*)"
  | (?P<char>'(?:\\.|[^'\\\n])+')
  | (?P<word>[A-Za-z_]\w*)
  | (?P<number>\d[\w.']*)
  | (?P<space>\s+)
  | (?P<sign>[=!<>]=|.)
""", re.M | re.S | re.X)

OPEN = {"(": ")", "{": "}", "[": "]"}


class Enclosing:
    """The calls and the field that what is read now stands in."""

    def __init__(self):
        self.stack = []
        self.field = None
        self.before = []

    def read(self, token):
        if token in OPEN:
            name = self.before[-1] if self.before and re.match(r"\w", self.before[-1]) else ""
            self.stack.append((name, self.field))
            self.field = None
        elif token in OPEN.values():
            if self.stack:
                self.field = self.stack.pop()[1]
        elif token in (",", ";"):
            self.field = None
        elif token == "=":
            self.field = next((each for each in reversed(self.before) if each != "+"), None)
        self.before = (self.before + [token])[-2:]

    def excused(self):
        fields = [self.field] + [field for _, field in self.stack]
        return (any(field and FIELDS.fullmatch(field) for field in fields)
                or any(name in CALLS for name, _ in self.stack))


def literals(code):
    """Each literal with its line and whether a complaint or a citation encloses it; literals that
    follow one another are one."""
    enclosing = Enclosing()
    found = []
    joins = False
    line = 1
    for match in TOKEN.finditer(code):
        text = match["text"] if match["text"] is not None else match["rawtext"]
        if text is not None:
            if joins:
                found[-1][1] += text
            else:
                found.append([line, text, enclosing.excused()])
            joins = True
        elif match["comment"] is None and match["space"] is None:
            joins = False
            enclosing.read(match[0])
        line += match[0].count("\n")
    return found


def says_too_much(text):
    words = re.findall(r"[A-Za-z_][\w'-]*", re.sub(r"\{[^}]*\}", " ", text))
    return (len(words) > MOST_WORDS or re.search(r"trialfit [a-z]", text)
            or re.search(r"(?<![\w-])--[a-z]", text))


def faults_of(path, used):
    name = path.relative_to(ROOT / "lib/trialfit").as_posix()
    for line, text, excused in literals(path.read_text()):
        if excused or not says_too_much(text):
            continue
        key = next((key for key in ALLOWED if key[0] == name and text.startswith(key[1])), None)
        if key is None:
            yield f"lib/trialfit/{name}:{line}: \"{text}\""
        used.add(key)


def main():
    used = set()
    faults = [fault for room in ROOMS for path in sorted((ROOT / "lib/trialfit" / room).rglob("*"))
              if path.suffix in (".cpp", ".hpp") for fault in faults_of(path, used)]
    faults += [f"allowed and not there: {key}" for key in ALLOWED if key not in used]
    for fault in faults:
        print(fault)
    if faults:
        print("Give the message a type, and its words to lib/trialfit/paper/words.")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
