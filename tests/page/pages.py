# SPDX-License-Identifier: MIT
"""The jobs that pages are made of, and the program that makes them."""
import argparse
import json
import pathlib
import subprocess
import tempfile

root = pathlib.Path(__file__).resolve().parent.parent.parent
EXAMPLES = sorted((root / "examples").glob("*.yaml"))
NASTY = "<script>alert(1)</script> & \"quotes\" 'single' ]]> \u05d0\u05d1\u05d2 \u202e"
LONG = "wide_" * 12

# Names of parts and faces are letters and digits; all other text is free.
HOSTILE = f"""trialfit: 1
title: {json.dumps(NASTY)}
units: mm
gauges: {{caliper: 0.03}}
parts:
  - part: {LONG}
    faces: {{a: zero, {LONG}: 10 exact from a}}
    rings: {{r: {{from: a, to: {LONG}, bore: 10, od: 40}}}}
    cuts:
      - {{face: {LONG}, measure: a, keep: 8, holds: 0.01, note: {json.dumps(NASTY)}}}
  - part: upper
    sits: {{face: f, against: {LONG}.a, offset: 9 \u00b10.1}}
    faces: {{f: zero, g: 8 exact from f}}
    rings: {{r: {{from: f, to: g, bore: 12, od: 30}}}}
checks:
  - check: "</style></table><script>alert(2)</script> \u05e9\u05dc\u05d5\u05dd {"n" * 140}"
    gap: [{LONG}.{LONG}, upper.f]
    at_least: 0.5
readings:
  - reading: "<img src=http://127.0.0.1/x onerror=alert(3)> | **bold**"
    from: {LONG}.a
    to: upper.f
    is: 10.01 by caliper
    fitted: [{LONG}, upper]
"""

# Title, job, paper: what the browser is shown.
SHEETS = [*((each.stem, each, "A4") for each in EXAMPLES
            if each.stem in ("pump-engine", "pump-engine-turned", "loose-rotor", "no-way-out",
                             "off-centre-plate", "short-slot", "shims-by-trial")),
          ("letter", root / "examples/pump-engine.yaml", "Letter"), ("hostile", HOSTILE, "A4")]


# The pages for the lathe: one sheet each.
LATHES = [*((f"lathe {each.stem} {paper}", each, paper) for each in EXAMPLES
            if each.stem in ("pump-engine", "centre-then-skim", "half-measured", "no-way-out")
            for paper in ("A4", "Letter")), ("lathe hostile", HOSTILE, "A4")]
KITS = root / "examples" / "kits"
# Title, engine and kits of a page of cards.
MATCHES = [("kits", KITS / "engine.yaml", sorted(KITS.glob("kit-*.yaml"))),
           ("weights", KITS / "pump-motor.yaml", sorted(KITS.glob("weight-*.yaml")))]
# Title, and what `start` is told: every kind's page to measure by, in mm and in inches.
WORKSHEETS = [*((f"worksheet {kind}", kind) for kind in
                ("ignition", "endfloat", "impeller", "spacer", "cover", "bearing")),
              ("worksheet letter", "ignition", "--inches", "--paper", "Letter")]


def worksheet(tool, kind, *options):
    """The page to measure by."""
    return subprocess.run([tool, "start", kind, "--worksheet", *options], capture_output=True,
                          check=True, timeout=60).stdout.decode("utf-8")


def matched(tool, engine, kits):
    """The page of cards, whatever the kits are worth."""
    with tempfile.TemporaryDirectory() as folder:
        page = pathlib.Path(folder, "kits.html")
        subprocess.run([tool, "match", engine, *kits, "--html", page], capture_output=True,
                       check=False, timeout=60)
        return page.read_text(encoding="utf-8")


def program():
    parser = argparse.ArgumentParser()
    parser.add_argument("--program", type=pathlib.Path, required=True)
    return parser.parse_args().program.resolve()


def made(tool, command, job, *options):
    """The page of a job file or, given as text, of a job; None where the job is refused."""
    text = None if isinstance(job, pathlib.Path) else job.encode()
    said = subprocess.run([tool, command, "-" if text else job, *options], input=text,
                          capture_output=True, check=False, timeout=60)
    if said.returncode == 2:
        return None
    assert said.returncode == 0, (command, job, said.returncode, said.stderr.decode())
    return said.stdout.decode("utf-8")
