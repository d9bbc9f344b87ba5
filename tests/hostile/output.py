# SPDX-License-Identifier: MIT
"""An answer that cannot be written is never taken for one that was: full device, closed pipe."""
import os
import pathlib
import sys
import tempfile

here = pathlib.Path(__file__).resolve().parent
root = here.parent.parent
sys.path.insert(0, str(here.parent / "support"))
from pile import pile  # noqa: E402
from program import Findings, arguments, run  # noqa: E402

DEMO = str(root / "examples" / "pump-engine.yaml")
COMMANDS = (["check", DEMO], ["check", DEMO, "--json"], ["why", DEMO, "nut engagement"],
            ["why", DEMO, "nut engagement", "--json"], ["start"], ["--help"], ["--version"])


def hold_memory(found, program, folder):
    """With too little memory there is the whole answer, or none and what to do."""
    job = folder / "pile.yaml"
    job.write_text(pile(300), encoding="utf-8")
    whole = run([program, "check", job]).out
    codes = []
    for megabytes in range(10, 40, 2):
        result = run(["bash", "-c", f'ulimit -v {megabytes * 1024}; exec "$0" "$@"', program,
                      "check", job])
        codes.append(result.code)
        if result.code == 127:  # not enough to load it
            continue
        name = f"check with {megabytes} MB"
        if result.code == 3:
            found.hold(b"out of memory" in result.err and b"more memory" in result.err,
                       f"{name} says {result.err.decode()!r}")
            found.hold(not result.out, f"{name}: half an answer")
        else:
            found.hold(result.out == whole, f"{name}: code {result.code}, another answer")
    found.hold({0, 3} <= set(codes), f"memory was never short, or always: {codes}")


def main():
    given = arguments(__doc__)
    found = Findings()
    if not given.sanitized:  # which take terabytes of addresses
        with tempfile.TemporaryDirectory() as name:
            hold_memory(found, given.program, pathlib.Path(name))
    for words in COMMANDS:
        name = " ".join(words).replace(str(root), "")
        with open("/dev/full", "wb") as full:
            result = run([given.program, *words], stdout=full)
        found.hold(result.code == 3, f"{name} to a full device: exit code {result.code}, not 3")
        found.hold(result.err.count(b"\n") == 1 and b"No space left on device" in result.err,
                   f"{name} to a full device says {result.err.decode()!r}")

        reader, writer = os.pipe()
        os.close(reader)
        result = run([given.program, *words], stdout=writer)
        os.close(writer)
        # The signal that ends every quiet filter, or an exit code that says nothing was delivered.
        found.hold(result.code in (-13, 3), f"{name} to a closed pipe: exit code {result.code}")
        found.hold(b"terminate" not in result.err and b"rror: Sanitizer" not in result.err,
                   f"{name} to a closed pipe says {result.err.decode()!r}")
    found.end()


main()
