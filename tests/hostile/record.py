# SPDX-License-Identifier: MIT
"""`record` that cannot write leaves every file as it was: nothing half written, nothing left over."""
import os
import pathlib
import resource
import shutil
import subprocess
import sys
import tempfile

here = pathlib.Path(__file__).resolve().parent
root = here.parent.parent
sys.path.insert(0, str(here.parent / "support"))
from program import Findings, arguments  # noqa: E402

DEMO = (root / "examples" / "pump-engine.yaml").read_bytes()
WORK = ["--date", "2026-11-25", "--cut", "plate.front=5.55 by caliper"]
NOBODY = 65534


def as_nobody():
    if os.geteuid() == 0:  # nothing is closed to root
        os.setgroups([])
        os.setgid(NOBODY)
        os.setuid(NOBODY)


def on_full_device():
    """Every file ends at 1,000 bytes, and the program is told so as by a full disk."""
    resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))


class Place:
    """A folder with a job in it, and the program."""

    def __init__(self, folder, program):
        self.program = program
        self.folder = folder
        self.job = folder / "job.yaml"
        self.job.write_bytes(DEMO)

    def record(self, *words, job="job.yaml", before=None, stdout=None):
        return subprocess.run([self.program, "record", job, *WORK, *words], cwd=self.folder,
                              preexec_fn=before, restore_signals=False, stdin=subprocess.DEVNULL,
                              stdout=stdout or subprocess.PIPE, stderr=subprocess.PIPE, check=False,
                              timeout=60)

    def left(self):
        return sorted(each.name for each in self.folder.iterdir())


def hold(found, name, place, said, code, text):
    found.hold(said.returncode == code, f"{name}: exit code {said.returncode}, not {code}")
    found.hold(text in said.stderr, f"{name} says {said.stderr.decode()!r}")
    found.hold(place.job.read_bytes() == DEMO, f"{name}: the job was changed")


def hold_refusals(found, place):
    place.folder.chmod(0o555)
    said = place.record("--in-place", before=as_nobody)
    place.folder.chmod(0o755)
    hold(found, "read-only folder", place, said, 2, b"Permission denied")

    place.job.chmod(0o444)
    place.folder.chmod(0o777)
    said = place.record("--in-place", before=as_nobody)
    place.folder.chmod(0o755)
    place.job.chmod(0o644)
    hold(found, "read-only file", place, said, 2, b"Permission denied")

    hold(found, "full disk", place, place.record("--in-place", before=on_full_device), 3,
         b"File too large")
    with open("/dev/full", "wb") as full:
        hold(found, "full device", place, place.record(stdout=full), 3, b"No space left")
    found.hold(place.left() == ["job.yaml"], f"left over: {place.left()}")

    other = place.folder / "other.yaml"
    other.write_text("mine\n", encoding="utf-8")
    hold(found, "a file that is there", place, place.record("-o", "other.yaml"), 2, b"is there already")
    hold(found, "a folder", place, place.record("-o", "."), 2, b"is no name for a file")
    hold(found, "a device", place, place.record("-o", "/dev/full"), 2, b"is not a plain file")
    found.hold(other.read_text(encoding="utf-8") == "mine\n", "another file was overwritten")
    other.unlink()

    link = place.folder / "link.yaml"
    link.symlink_to("job.yaml")
    hold(found, "a link to a file", place, place.record("-o", "link.yaml"), 2, b"is the job itself")
    found.hold(link.is_symlink(), "the link is no link any more")
    link.unlink()
    found.hold(place.left() == ["job.yaml"], f"left over: {place.left()}")


def hold_writes(found, place):
    """What is written is written whole, with the file's own rights, through a link to what it means."""
    link = place.folder / "link.yaml"
    link.symlink_to("job.yaml")
    place.job.chmod(0o640)
    said = place.record("--in-place", job="link.yaml")
    found.hold(said.returncode == 0 and link.is_symlink(), f"by a link: {said.stderr.decode()}")
    text = place.job.read_bytes()
    found.hold(text.startswith(DEMO) and b"plate.front: 5.55 by caliper" in text[len(DEMO):],
               "by a link: not written to the file it stands for")
    found.hold(place.job.stat().st_mode & 0o777 == 0o640, "the file's rights changed")
    link.unlink()
    found.hold(place.left() == ["job.yaml"], f"left over: {place.left()}")


def main():
    given = arguments(__doc__)
    found = Findings()
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        folder.chmod(0o755)
        program = folder / "trialfit"  # where nobody may run it, too
        shutil.copy(given.program, program)
        program.chmod(0o755)
        (folder / "place").mkdir()
        place = Place(folder / "place", program)
        hold_refusals(found, place)
        hold_writes(found, place)
    found.end()


main()
