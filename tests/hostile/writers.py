# SPDX-License-Identifier: MIT
"""Several that write one file, and runs that are ended while they write: nothing is lost or half done.

  --each-call   also a fault and a kill at each system call of a record and of a plan written
                (needs strace; takes minutes)
"""
import os
import pathlib
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time

here = pathlib.Path(__file__).resolve().parent
root = here.parent.parent
sys.path.insert(0, str(here.parent / "support"))
from program import Findings, arguments  # noqa: E402

DEMO = (root / "examples" / "pump-engine.yaml").read_bytes()
PATIENCE = 100  # seconds
RECORD = ["record", "job.yaml", "--date", "2026-11-25", "--in-place", "--note"]


class Folder:
    """A folder with a job in it, and the program."""

    def __init__(self, folder, program):
        self.folder = pathlib.Path(folder)
        self.program = program
        self.job = self.folder / "job.yaml"
        self.job.write_bytes(DEMO)

    def start(self, *words):
        return subprocess.Popen([self.program, *words], cwd=self.folder, stdin=subprocess.DEVNULL,
                                stdout=subprocess.PIPE, stderr=subprocess.PIPE)

    def run(self, *words, stdin=subprocess.DEVNULL):
        return subprocess.run([self.program, *words], cwd=self.folder, stdin=stdin,
                              capture_output=True, check=False, timeout=PATIENCE)

    def left(self):
        return sorted(each.name for each in self.folder.iterdir())

    def clear(self):
        for each in self.folder.iterdir():
            each.unlink()
        self.job.write_bytes(DEMO)


def hold_writers(found, place):
    """Each that says "Recorded" has its entry in the file."""
    running = [place.start(*RECORD, f"writer {i} was here") for i in range(6)]
    said = [each.communicate(timeout=PATIENCE) for each in running]
    text = place.job.read_text(encoding="utf-8")
    for i, ((out, err), each) in enumerate(zip(said, running)):
        found.hold(each.returncode == 0, f"writer {i} ends with {each.returncode}: {err.decode()}")
        found.hold(b"Recorded" in out, f"writer {i} says {out.decode()!r}")
        found.hold(f"writer {i} was here" in text, f"writer {i}'s entry is lost")
    found.hold(place.left() == ["job.yaml"], f"writers left {place.left()}")


def hold_new_file(found, place):
    """Of several that write a new file, one does, and the others refuse with a mend."""
    running = [place.start("start", "-o", "new.yaml") for _ in range(6)]
    for each in running:
        _, err = each.communicate(timeout=PATIENCE)
        found.hold(each.returncode == 0 or (each.returncode == 2 and b"is there already" in err
                                            and b"--force" in err),
                   f"a race for a new file: {each.returncode} {err.decode()!r}")
    codes = sorted(each.returncode for each in running)
    found.hold(codes == [0, 2, 2, 2, 2, 2], f"a race for a new file ends with {codes}")
    found.hold(place.left() == ["job.yaml", "new.yaml"], f"a race left {place.left()}")


def hold_editor(found, place):
    """What an editor saves while an entry is recorded is in the file at the end."""
    began = time.monotonic()
    place.run(*RECORD, "for the time it takes")
    takes = time.monotonic() - began
    for i in range(12):
        place.clear()
        saved = place.folder / "saved"
        saved.write_bytes(DEMO + b"# saved by an editor\n")
        record = place.start(*RECORD, "recorded meanwhile")
        time.sleep(takes * i / 12)
        saved.rename(place.job)
        _, err = record.communicate(timeout=PATIENCE)
        text = place.job.read_bytes()
        found.hold(b"# saved by an editor\n" in text, f"an editor's save is lost ({err.decode()})")
        found.hold(record.returncode in (0, 2), f"beside an editor: {record.returncode}")
        if record.returncode == 2:
            found.hold(b"in the meantime; nothing was written; run this again" in err, err.decode())
            found.hold(b"recorded meanwhile" not in text, "refused and yet written")
        found.hold(place.left() == ["job.yaml"], f"beside an editor left {place.left()}")


def hold_signals(found, place):
    """A run ended by a signal leaves the file as it was or as it shall be, and no other file."""
    for i in range(20):
        place.clear()
        record = place.start(*RECORD, '"a note that is whole."')
        time.sleep(0.002 * i)
        record.send_signal((signal.SIGINT, signal.SIGTERM, signal.SIGHUP)[i % 3])
        record.communicate(timeout=PATIENCE)
        found.hold(place.job.read_bytes().startswith(DEMO), "a signal: the job is harmed")
        found.hold(place.left() == ["job.yaml"], f"a signal left {place.left()}")


def hold_owner(found, place):
    """Owner, group and rights stay, and other names of the file are told of."""
    place.job.chmod(0o640)
    if os.geteuid() == 0:
        os.chown(place.job, 65534, 65533)
    before = place.job.stat()
    other = place.folder / "other.yaml"
    os.link(place.job, other)
    said = place.run(*RECORD, "mine")
    after = place.job.stat()
    found.hold(said.returncode == 0, f"by its owner: {said.stderr.decode()}")
    found.hold((after.st_uid, after.st_gid, after.st_mode) ==
               (before.st_uid, before.st_gid, before.st_mode), f"{before} became {after}")
    found.hold(b"hard links" in said.stderr, f"parted silently: {said.stderr.decode()!r}")
    found.hold(other.read_bytes() == DEMO, "the other name's text changed")


def hold_job_spared(found, place):
    """No page and no plan is written over the job it is made from, and no hint says how."""
    link = place.folder / "link.yaml"
    link.symlink_to("job.yaml")
    lines = [["draw", "job.yaml", "-o"], ["sheet", "job.yaml", "-o"], ["plan", "job.yaml", "--write"],
             ["record", "job.yaml", "--date", "2026-11-25", "--note", "x", "-o"]]
    for line in lines:
        for name in ("job.yaml", "link.yaml", "./job.yaml"):
            for force in ([], ["--force"]):
                said = place.run(*line, name, *force)
                found.hold(said.returncode == 2 and b"is the job itself" in said.stderr and
                           b"--force" not in said.stderr,
                           f"{line} {name} {force}: {said.returncode} {said.stderr.decode()!r}")
    with open(place.job, "rb") as job:
        said = place.run("sheet", "-", "-o", "job.yaml", "--force", stdin=job)
    found.hold(said.returncode == 2 and b"is the job itself" in said.stderr, said.stderr.decode())
    found.hold(place.job.read_bytes() == DEMO and link.is_symlink(), "the job was written over")


def hold_names(found, place):
    """A name may be as long as the file system has it; a wrong one is refused before the work."""
    said = place.run("draw", "job.yaml", "-o", "n" * 251 + ".svg")
    found.hold(said.returncode == 0, f"a name of 255 bytes: {said.stderr.decode()}")
    said = place.run("draw", "job.yaml", "-o", "n" * 252 + ".svg")
    found.hold(said.returncode == 2 and b"File name too long" in said.stderr, said.stderr.decode())
    said = place.run("draw", "job.yaml", "-o", "none/engine.svg")
    found.hold(said.returncode == 2 and b"'none' is no folder" in said.stderr, said.stderr.decode())
    shutil.copy(root / "examples" / "no-way-out.yaml", place.folder / "job.yaml")
    (place.folder / "mine.yaml").write_text("mine\n", encoding="utf-8")
    said = place.run("plan", "job.yaml", "--write", "mine.yaml")
    found.hold(said.returncode == 2 and b"is there already" in said.stderr and not said.stdout,
               f"refused after the search: {said.returncode} {said.stdout.decode()[:80]!r}")


def calls_of(place, words):
    """The system calls of a run, in order: name and how often it came before."""
    log = place.folder.parent / "calls"
    subprocess.run(["strace", "-o", log, place.program, *words], cwd=place.folder,
                   capture_output=True, check=True, timeout=PATIENCE)
    seen = {}
    for line in log.read_text(encoding="utf-8", errors="replace").splitlines():
        if name := re.match(r"(\w+)\(", line):
            seen[name[1]] = seen.get(name[1], 0) + 1
            yield name[1], seen[name[1]]


def hold_each_call(found, place):
    """A kill or a fault at any system call: the file is the old one or the new one, and whole."""
    for words in ([*RECORD, '"a note that is whole."'],
                  ["plan", "job.yaml", "--write", "planned.yaml"]):
        place.clear()
        calls = list(calls_of(place, words))
        result = place.folder / ("job.yaml" if words[0] == "record" else "planned.yaml")
        new = result.read_bytes()
        for name, number in calls:
            for harm in ("signal=KILL", "error=EIO", "error=ENOSPC"):
                place.clear()
                subprocess.run(["strace", "-o", "/dev/null", "-e",
                                f"inject={name}:{harm}:when={number}", place.program, *words],
                               cwd=place.folder, capture_output=True, check=False, timeout=PATIENCE)
                text = result.read_bytes() if result.exists() else None
                old = DEMO if words[0] == "record" else None
                found.hold(text in (old, new), f"{words[0]}: {harm} at {name} {number}: harmed")
                others = set(place.left()) - {"job.yaml", "planned.yaml"}
                found.hold(not others or "KILL" in harm,
                           f"{words[0]}: {harm} at {name} {number} left {others}")
        print(f"{words[0]}: {len(calls)} system calls")


def main():
    given = arguments(__doc__, "--each-call")
    found = Findings()
    parts = [hold_writers, hold_new_file, hold_editor, hold_signals, hold_owner, hold_job_spared,
             hold_names]
    for part in parts + [hold_each_call] * given.each_call:
        with tempfile.TemporaryDirectory() as name:
            (pathlib.Path(name) / "place").mkdir()
            part(found, Folder(pathlib.Path(name) / "place", given.program))
    found.end()


main()
