# SPDX-License-Identifier: MIT
"""Colour on a terminal only, and not where NO_COLOR is set; the words are the same either way."""
import argparse
import os
import pathlib
import pty
import re
import subprocess

root = pathlib.Path(__file__).resolve().parent.parent.parent
ESCAPE = re.compile(r"\x1b\[[0-9;]*m")


def on_terminal(command, **changes):
    """What the command prints on a terminal."""
    environment = {key: value for key, value in os.environ.items() if key != "NO_COLOR"}
    environment.update({"TERM": "xterm"} | changes)
    here, there = pty.openpty()
    child = subprocess.Popen(command, stdin=subprocess.DEVNULL, stdout=there, stderr=there,
                             env=environment)
    os.close(there)
    said = b""
    while True:
        try:
            block = os.read(here, 65536)
        except OSError:  # the other end is closed
            break
        if not block:
            break
        said += block
    os.close(here)
    child.wait()
    return said.decode().replace("\r\n", "\n")


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--program", required=True)
    program = parser.parse_args().program
    demo = str(root / "examples" / "pump-engine.yaml")
    for command in ([program, "check", demo], [program, "why", demo, "nut engagement"],
                    [program, "check", demo + ".not"]):
        line = " ".join(command[1:])
        plain = subprocess.run(command, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                               stderr=subprocess.STDOUT, check=False).stdout.decode()
        coloured = on_terminal(command)
        assert not ESCAPE.search(plain), f"{line}: colour in a pipe"
        assert ESCAPE.search(coloured), f"{line}: no colour on a terminal"
        assert ESCAPE.sub("", coloured) == plain, f"{line}: other words on a terminal"
        assert on_terminal(command, NO_COLOR="1") == plain, f"{line}: NO_COLOR is not respected"
        assert on_terminal(command, NO_COLOR="") == coloured, f"{line}: empty NO_COLOR"
        assert on_terminal(command, TERM="dumb") == plain, f"{line}: colour on a dumb terminal"
    answer = on_terminal([program, "check", demo, "--json"])
    assert not ESCAPE.search(answer[answer.index("{"):]), "colour in JSON"


main()
