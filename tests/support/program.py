# SPDX-License-Identifier: MIT
"""Runs the real program as a user does, and tells how it ended, what it said, and what it took."""
import argparse
import dataclasses
import os
import select
import subprocess


@dataclasses.dataclass
class Run:
    code: int  # < 0: ended by that signal
    out: bytes
    err: bytes
    seconds: float  # of the processor, so that a busy machine does no harm
    peak_mb: float


HANGS = 100.0  # seconds after which a program is taken to hang, however busy the machine


def run(command, cwd=None, stdin=None, stdout=None):
    """Runs `command`; one that hangs is killed (the code is then -9)."""
    with open(os.memfd_create("out"), "w+b") as out, open(os.memfd_create("err"), "w+b") as err:
        child = subprocess.Popen(command, cwd=cwd, stdin=stdin or subprocess.DEVNULL,
                                 stdout=stdout or out, stderr=err)
        ended = os.pidfd_open(child.pid)
        if not select.select([ended], [], [], HANGS)[0]:
            child.kill()
        os.close(ended)
        _, status, usage = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
        out.seek(0)
        err.seek(0)
        return Run(child.returncode, out.read(), err.read(),
                   usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024)


class Findings:
    """Collects what is wrong, so that one run shows it all."""

    def __init__(self):
        self.checked = 0
        self.faults = []

    def hold(self, true, text):
        self.checked += 1
        if not true:
            self.faults.append(text)

    def end(self):
        for fault in self.faults:
            print(fault)
        print(f"{self.checked} held, {len(self.faults)} of them not")
        if not self.checked:
            raise SystemExit("nothing was tested")
        raise SystemExit(1 if self.faults else 0)


def arguments(description, *flags):
    """The command line that all the tests here share: the program, and whether it is sanitized."""
    parser = argparse.ArgumentParser(description=description)
    parser.add_argument("--program", required=True, type=os.path.abspath)
    parser.add_argument("--sanitized", action="store_true", help="slower, and memory is not judged")
    for flag in flags:
        parser.add_argument(flag, action="store_true")
    given = parser.parse_args()
    # The sanitizers slow a run about tenfold; the limit of 2 s is for the release build.
    given.limit = 30.0 if given.sanitized else 2.0
    return given
