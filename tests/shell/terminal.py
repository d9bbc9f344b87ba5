# SPDX-License-Identifier: MIT
"""What an answer looks like on a terminal: its width, its colours, its letters. Every example, every
command that answers in text.
python3 tests/shell/terminal.py --program build/trialfit"""
import fcntl
import os
import pathlib
import pty
import re
import struct
import subprocess
import sys
import termios

root = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(root / "tests" / "support"))
from program import Findings, arguments  # noqa: E402

EXAMPLES = sorted((root / "examples").glob("*.yaml"))
COMMANDS = ("check", "odds", "plan", "survey", "seat", "spin", "timing")
DEMO = root / "examples" / "pump-engine.yaml"
PAINT = re.compile(r"\x1b\[[0-9;]*m")
PLAIN = {"PATH": os.environ["PATH"], "TERM": "xterm"}


def said(tool, *words, **environment):
    run = subprocess.run([tool, *map(str, words)], capture_output=True, check=False, timeout=60, env={**PLAIN, **environment})
    return run.stdout.decode(), run.stderr.decode()


def on_terminal(tool, columns, *words, **environment):
    ours, theirs = pty.openpty()
    fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 24, columns, 0, 0))
    child = subprocess.Popen([tool, *map(str, words)], stdout=theirs, stderr=theirs, stdin=subprocess.DEVNULL,
                             env={**PLAIN, **environment})
    os.close(theirs)
    seen = b""
    while True:
        try:
            block = os.read(ours, 65536)
        except OSError:
            break
        if not block:
            break
        seen += block
    child.wait()
    os.close(ours)
    return seen.decode().replace("\r\n", "\n")


def widest(text):
    # A command is never wrapped: it is copied.
    return max((len(line) for line in PAINT.sub("", text).splitlines() if "trialfit " not in line), default=0)


def widths(found, tool, jobs):
    for columns in (60, 72, 100, 120):
        for job in jobs:
            for command in (*COMMANDS, "check --picture"):
                out, _ = said(tool, *command.split(), job, COLUMNS=str(columns))
                found.hold(widest(out) <= columns, f"{command} {job.stem}: {widest(out)} of {columns} columns")
    for columns, least, most in ((30, 55, 60), (100, 81, 100), (500, 101, 120)):
        wide = widest(on_terminal(tool, columns, "check", DEMO))
        found.hold(least <= wide <= most, f"on {columns} columns: {wide}")
    usual, _ = said(tool, "check", DEMO)
    for odd in ("", "0", "wide", "-5", "99999999999999999999999"):
        found.hold(said(tool, "check", DEMO, COLUMNS=odd)[0] == usual, f"COLUMNS='{odd}'")
    found.hold(widest(usual) <= 80, "80 columns, unless said")


def colours(found, tool):
    def painted(text):
        return bool(PAINT.search(text))
    found.hold(painted(on_terminal(tool, 80, "check", DEMO)), "a terminal has colour")
    for words, environment, expected in (((), {}, False), (("--color", "always"), {}, True), (("--color=never",), {"FORCE_COLOR": "1"}, False),
                                         ((), {"FORCE_COLOR": "1"}, True), ((), {"FORCE_COLOR": "0"}, False),
                                         (("--color", "always"), {"NO_COLOR": "1"}, True),
                                         ((), {"NO_COLOR": "1", "FORCE_COLOR": "1"}, False)):
        found.hold(painted(said(tool, "check", DEMO, *words, **environment)[0]) == expected, f"in a pipe {words} {environment}")
    for words, environment in ((("--color", "never"), {}), ((), {"NO_COLOR": "1"}), ((), {"TERM": "dumb"})):
        found.hold(not painted(on_terminal(tool, 80, "check", DEMO, *words, **environment)), f"on a terminal {words} {environment}")
    plain = said(tool, "check", DEMO)[0]
    found.hold(PAINT.sub("", said(tool, "check", DEMO, "--color", "always")[0]) == plain, "colour only repeats the words")
    found.hold(not painted(said(tool, "check", DEMO, "--json", "--color", "always")[0]), "JSON has no colour")


def letters(found, tool, jobs):
    for job in jobs:
        for command in COMMANDS:
            for words in ((), ("--brief",)):
                out, err = said(tool, command, job, *words, LC_ALL="C")
                found.hold(out.isascii() and err.isascii(), f"{command} {job.stem} {words}: {[c for c in out + err if not c.isascii()][:3]}")
                found.hold(widest(out) <= 80, f"{command} {job.stem} in ASCII: {widest(out)} columns")
    for environment, ascii_only in (({}, False), ({"LANG": "C"}, True), ({"LANG": "de_DE.UTF-8"}, False), ({"LC_ALL": "de_DE.ISO-8859-1"}, True),
                                    ({"LC_ALL": "C.utf8", "LANG": "C"}, False), ({"LC_CTYPE": "POSIX", "LANG": "C.UTF-8"}, True)):
        out = said(tool, "check", DEMO, **environment)[0]
        found.hold(("\u2265" not in out and ">=" in out) if ascii_only else "\u2265" in out, f"{environment}: {out[:80]}")
    utf8, c = (said(tool, "check", DEMO, "--json", LC_ALL=language)[0] for language in ("C.UTF-8", "C"))
    found.hold(utf8 == c, "JSON is the same in every language")


def main():
    given = arguments(__doc__)
    found = Findings()
    # Sanitized, it is as slow as memory is looked at: the demo and its like stand for all.
    jobs = EXAMPLES[::8] if given.sanitized else EXAMPLES
    widths(found, given.program, jobs)
    colours(found, given.program)
    letters(found, given.program, jobs)
    found.end()


main()
