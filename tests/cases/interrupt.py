# SPDX-License-Identifier: MIT
"""A search that nobody would wait for: told of on a terminal, and ended by Ctrl-C with what it has.

The job is a subset sum: sixty shims of nine digits, of which some must make a height to a few
billionths. A dear cut makes any height, so that there is a plan at once; that no shims alone do it
cheaper takes far longer to see than any machine is given here.
"""
import argparse
import json
import os
import pathlib
import pty
import random
import select
import signal
import subprocess
import tempfile
import time

PATIENCE = 120.0  # seconds, for a machine under load; a free one needs two


def endless(with_cut):
    dice = random.Random(8)
    sizes = [round(0.2 + 0.8 * dice.random(), 9) for _ in range(60)]
    height = sum(sizes[::2])
    lines = ["trialfit: 1", "title: Shims to a hair", "units: mm", "parts:",
             "  - part: case", "    faces: {floor: zero}",
             "  - part: plate", "    sits: {face: back, against: case.floor}",
             "    faces: {back: zero, front: 30 exact from back}"]
    if with_cut:
        lines += ["    cuts:",
                  "      - {face: front, measure: back, keep: 1, holds: 0, cost: 100}"]
    under = "plate.front"
    for i, size in enumerate(sizes):
        stock = f"{{thickness: {size:.9f} exact, pieces: 1}}"
        lines += [f"  - part: p{i}",
                  f"    sits: {{face: back, against: {under}, "
                  f"shims: {{stock: [{stock}], at_most: 1}}}}",
                  "    faces: {back: zero, front: 1 exact from back}"]
        under = f"p{i}.front"
    lines += ["checks:",
              f"  - {{check: height, gap: [case.floor, {under}], "
              f"at_least: {90 + height - 3e-9:.9f}, at_most: {90 + height + 3e-9:.9f}}}"]
    return "\n".join(lines) + "\n"


class Running:
    """The program at work, its complaints on a terminal or in a pipe."""

    def __init__(self, command, on_terminal):
        self.heard = ""
        self.end = time.monotonic() + PATIENCE
        if on_terminal:
            self.stderr, theirs = pty.openpty()
        else:
            self.stderr, theirs = os.pipe()
        self.child = subprocess.Popen(command, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                                      stderr=theirs, env=os.environ | {"TERM": "xterm"})
        os.close(theirs)

    def listen(self, seconds):
        ready, _, _ = select.select([self.stderr], [], [], seconds)
        try:
            block = os.read(self.stderr, 65536) if ready else b""
        except OSError:  # the other end is closed
            block = b""
        self.heard += block.decode()

    def until_heard(self, words):
        while words not in self.heard:
            assert time.monotonic() < self.end, f"never said {words!r}: {self.heard!r}"
            assert self.child.poll() is None, f"ended by itself: {self.child.returncode}"
            self.listen(0.2)

    def until_it_minds_ctrl_c(self):
        """Linux tells which signals a process has a handler for."""
        status = pathlib.Path(f"/proc/{self.child.pid}/status")
        bit = 1 << (signal.SIGINT - 1)
        while True:
            caught = [line for line in status.read_text().splitlines() if line.startswith("SigCgt")]
            if int(caught[0].split()[1], 16) & bit:
                return
            assert time.monotonic() < self.end, "never minded Ctrl-C"
            time.sleep(0.02)

    def interrupt(self):
        self.child.send_signal(signal.SIGINT)
        said, _ = self.child.communicate(timeout=PATIENCE)
        self.listen(0.2)
        os.close(self.stderr)
        return said.decode(), self.child.returncode


def with_a_plan(program, folder):
    job = folder / "endless.yaml"
    job.write_text(endless(with_cut=True))
    written = folder / "planned.yaml"
    run = Running([program, "plan", str(job), "--json", "--write", str(written)], on_terminal=True)
    run.until_heard("cases looked at, best so far costs ")
    assert not written.exists(), "written before the search was over"
    said, code = run.interrupt()
    answer = json.loads(said)
    assert code == 0, f"ended with {code}"
    assert answer["proven"] is False and answer["plans"][0]["proven"] is False, "called proven"
    assert run.heard.rstrip().endswith("puts in each size as it came out."), run.heard
    assert run.heard.count("\x1b[K") >= 2, "the line of progress was not wiped"
    # The file is a whole job, in which everything holds.
    check = subprocess.run([program, "check", str(written)], capture_output=True, check=False)
    assert check.returncode == 0, check.stdout.decode() + check.stderr.decode()
    left = sorted(path.name for path in folder.iterdir())
    assert left == ["endless.yaml", "planned.yaml"], f"left lying about: {left}"


def in_a_pipe(program, folder):
    job = folder / "endless.yaml"
    run = Running([program, "plan", str(job)], on_terminal=False)
    run.until_it_minds_ctrl_c()
    run.listen(2.5)  # on a terminal there would be two lines by now
    said, code = run.interrupt()
    assert code == 0, f"ended with {code}"
    assert "a cheaper plan may exist" in " ".join(said.split()), said
    assert run.heard == "", f"progress in a pipe: {run.heard!r}"
    assert "cases looked at" not in said, "progress in the answer"


def without_a_plan(program, folder):
    job = folder / "hopeless.yaml"
    job.write_text(endless(with_cut=False))
    written = folder / "hopeless-planned.yaml"
    run = Running([program, "plan", str(job), "--write", str(written)], on_terminal=True)
    run.until_heard("no plan yet")
    said, code = run.interrupt()
    assert code == 1, f"ended with {code}"
    assert said.startswith("No plan was found before the search was stopped; there may be one."), said
    assert not written.exists(), "wrote a plan that there is not"


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--program", required=True)
    program = parser.parse_args().program
    with tempfile.TemporaryDirectory() as name:
        for part in (with_a_plan, in_a_pipe, without_a_plan):
            part(program, pathlib.Path(name))


main()
