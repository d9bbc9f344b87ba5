# SPDX-License-Identifier: MIT
"""A fault, a short write and a kill at each call on files of whatever writes one: record --in-place, plan
--write, draw -o and sheet -o, over a file that is there and as a new one.

After each the file is the old one or the new one, whole; nothing else is left but by a kill, or where the
very removal failed; success is said only of the new file; and another run then does it. The calls are met by
a preloaded library, fault_at_call.cpp; writers.py --each-call does the same to every system call by strace.
"""
import argparse
import errno
import os
import pathlib
import sys
import tempfile

here = pathlib.Path(__file__).resolve().parent
root = here.parent.parent
sys.path.insert(0, str(here.parent / "support"))
from faulty_place import FaultyPlace  # noqa: E402
from program import Findings  # noqa: E402

DEMO = (root / "examples" / "pump-engine.yaml").read_bytes()
OLD = b"an older page\n"
# Each command line, the file that it writes, and what that held before (None: it was not there).
RUNS = (
    (["record", "job.yaml", "--date", "2026-11-25", "--note", '"whole."', "--in-place"], "job.yaml", DEMO),
    (["plan", "job.yaml", "--write", "planned.yaml"], "planned.yaml", None),
    (["plan", "job.yaml", "--write", "planned.yaml", "--force"], "planned.yaml", OLD),
    (["draw", "job.yaml", "-o", "page.svg"], "page.svg", None),
    (["draw", "job.yaml", "-o", "page.svg", "--force"], "page.svg", OLD),
    (["sheet", "job.yaml", "-o", "page.html", "--as-of", "0"], "page.html", None),
    (["sheet", "job.yaml", "-o", "page.html", "--as-of", "0", "--force"], "page.html", OLD),
)
KINDS = (str(errno.EIO), str(errno.ENOSPC), str(errno.EINTR), "short", "kill")
# What only some calls answer with; all others have the same way out as an EIO.
ONLY_AT = {str(errno.ENOSPC): ("write",), str(errno.EINTR): ("open", "read", "write", "fsync"), "short": ("write",)}


class Place(FaultyPlace):
    def clear_for(self, name, before):
        self.clear()
        if before is not None:
            (self.folder / name).write_bytes(before)


def hold(found, place, run, call, number, kind, new, code):
    words, name, before = run
    place.clear_for(name, before)
    said = place.run(words, FAULT_AT=str(number), FAULT_KIND=kind)
    told = f"{' '.join(words)}: {kind} at call {number}, {call}"
    text = place.text(name)
    found.hold(text in (before, new), f"{told}: neither the old file nor the new one")
    found.hold((said.returncode == -9) == (kind == "kill"), f"{told}: ends with {said.returncode}")
    if kind != "kill":
        harmless = call == "unlink"  # the new file stands; only its other name is left
        found.hold(not place.left(name) or harmless, f"{told}: left {place.left(name)}")
        found.hold(said.returncode in (code, 2, 3), f"{told}: ends with {said.returncode}")
        found.hold(said.returncode != code or text == new, f"{told}: success, and the file is the old one")
        found.hold(said.returncode == code or said.stderr.count(b"\n") >= 1, f"{told}: fails without a word")
    if kind == "short":
        found.hold(text == new, f"{told}: half a write is not made whole: {said.stderr.decode()}")
    if kind != "kill":
        return
    again = place.run(words if text == before else ["check", "job.yaml"])
    found.hold(again.returncode in (0, 1) and place.text("job.yaml") is not None,
               f"{told}: the next run ends with {again.returncode}: {again.stderr.decode()}")


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--program", required=True, type=os.path.abspath)
    parser.add_argument("--shim", required=True, type=os.path.abspath)
    given, found = parser.parse_args(), Findings()
    with tempfile.TemporaryDirectory() as folder:
        place, log = Place(pathlib.Path(folder) / "place", given.program, given.shim, {"job.yaml": DEMO}), pathlib.Path(folder) / "calls"
        place.folder.mkdir()
        for run in RUNS:
            words, name, before = run
            place.clear_for(name, before)
            log.write_bytes(b"")
            said = place.run(words, FAULT_LOG=str(log))
            new, calls = place.text(name), log.read_text(encoding="utf-8").split()
            found.hold(said.returncode in (0, 1) and new not in (None, before), f"{words}: {said.stderr.decode()}")
            missing = {"mkostemp", "write", "fsync"} - set(calls)
            found.hold(not missing, f"{words} makes no call to {missing}: is the library before it?")
            for number, call in enumerate(calls):
                for kind in KINDS:
                    if call in ONLY_AT.get(kind, (call,)):
                        hold(found, place, run, call, number, kind, new, said.returncode)
            print(f"{' '.join(words)}: {len(calls)} calls")
    found.end()


main()
