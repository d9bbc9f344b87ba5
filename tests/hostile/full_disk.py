# SPDX-License-Identifier: MIT
"""A device that is full after N bytes, and a program that ends after N bytes written, for each command that
writes a file.

Every N of the smallest file (every third for the end of the program), and N spread over the others; each file
once new and once, behind a symbolic link, over an older one. After each the file is the old one or the new one,
whole, with the rights that it had; the link is still one; a full device leaves nothing else and is told of, with
exit code 3.
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

EXAMPLES = root / "examples"
DEMO = (EXAMPLES / "pump-engine.yaml").read_bytes()
KITS = {name: (EXAMPLES / "kits" / name).read_bytes() for name in ("engine.yaml", "kit-a.yaml")}
OLD = b"an older page\n"
RIGHTS = 0o640
JAM = ["start", "jam", "--alone", "13.97", "--together", "10.02"]
RECORD = ["record", "job.yaml", "--date", "2026-11-25", "--note", "whole"]
MATCH = ["match", "engine.yaml", "kit-a.yaml"]
# Each command line without --force, the file that it writes, and at how many N it is tried.
RUNS = (
    ([*JAM, "-o", "jam.yaml"], "jam.yaml", None),
    (["start", "endfloat", "-o", "float.yaml"], "float.yaml", 60),
    (["start", "ignition", "--worksheet", "-o", "page.html"], "page.html", 60),
    ([*RECORD, "-o", "after.yaml"], "after.yaml", 60),
    (["plan", "job.yaml", "--write", "planned.yaml"], "planned.yaml", 25),
    (["draw", "job.yaml", "-o", "page.svg"], "page.svg", 40),
    (["sheet", "job.yaml", "--lathe", "-o", "page.html"], "page.html", 10),
    ([*MATCH, "--write", "fitted.yaml"], "fitted.yaml", 20),
    ([*MATCH, "--html", "page.html"], "page.html", 20),
)
KINDS = (str(errno.ENOSPC), "kill")


class Place(FaultyPlace):
    def clear_for(self, name, before):
        """`before`: what a link of that name leads to; None where there is neither."""
        self.clear()
        if before is None:
            return
        behind = self.folder / "behind"
        behind.write_bytes(before)
        behind.chmod(RIGHTS)
        if name != "job.yaml":
            (self.folder / name).symlink_to("behind")
        else:
            behind.replace(self.folder / name)


def points(size, many):
    """From 0 bytes to all of them."""
    if many is None or many > size:
        return range(size + 1)
    return sorted({round(i * size / many) for i in range(many + 1)} | {1, size - 1})


def hold(found, place, words, name, before, new, count, kind):
    place.clear_for(name, before)
    said = place.run(words, FAULT_BYTES=str(count), FAULT_KIND=kind)
    text, path = place.text(name), place.folder / name
    told = f"{' '.join(words)}: {kind} after {count} of {len(new)} bytes"
    found.hold(text in (before, new), f"{told}: neither the old file nor the new one")
    if before is not None:
        found.hold(path.is_symlink() == (name != "job.yaml"), f"{told}: the link is gone")
        found.hold(path.stat().st_mode & 0o7777 == RIGHTS, f"{told}: rights are {path.stat().st_mode:o}")
    if kind == "kill":
        found.hold(said.returncode == -9, f"{told}: ends with {said.returncode}")
        return
    full = count < len(new)
    found.hold(text == (before if full else new), f"{told}: the {'new' if full else 'old'} file")
    left = place.left(name, "behind")
    found.hold(not left, f"{told}: left {left}")
    found.hold(said.returncode == 3 if full else said.returncode in (0, 1), f"{told}: ends with {said.returncode}")
    found.hold(not full or b"No space left" in said.stderr, f"{told}: says {said.stderr.decode()!r}")


def over(found, place, words, name, before, many):
    place.clear_for(name, before)
    said = place.run(words)
    new = place.text(name)
    found.hold(said.returncode in (0, 1) and new not in (None, before), f"{words}: {said.stderr.decode()}")
    count = 0
    for number in points(len(new), many):
        for kind in KINDS if many or number % 3 == 0 else KINDS[:1]:
            hold(found, place, words, name, before, new, number, kind)
            count += 1
    return count


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--program", required=True, type=os.path.abspath)
    parser.add_argument("--shim", required=True, type=os.path.abspath)
    given, found, tried = parser.parse_args(), Findings(), 0
    os.umask(0o022)
    with tempfile.TemporaryDirectory() as folder:
        place = Place(pathlib.Path(folder), given.program, given.shim, {"job.yaml": DEMO, **KITS})
        for words, name, many in RUNS:
            tried += over(found, place, words, name, None, many)
            tried += over(found, place, [*words, "--force"], name, OLD, many and many // 2 or 100)
        tried += over(found, place, [*RECORD, "--in-place"], "job.yaml", DEMO, 100)
    found.hold(tried >= 1000, f"only {tried} points")
    print(f"{tried} points")
    found.end()


main()
