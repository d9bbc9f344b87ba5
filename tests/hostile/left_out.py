# SPDX-License-Identifier: MIT
"""Leaving one key out of a job never turns a `seat`, `timing` or `spin` that fails into one that holds.

What is not given is not judged, so the exit code 1 stays. The exceptions are keys that are a
question of their own, or whose absence the README says how it is read: each stands below.
"""
import copy
import pathlib
import sys
import tempfile

here = pathlib.Path(__file__).resolve().parent
root = here.parent.parent
sys.path.insert(0, str(here.parent / "support"))
import job_yaml  # noqa: E402
from program import Findings, arguments, run  # noqa: E402

# Questions: without them less is asked. Readings of absence: see README, "What is left out".
QUESTIONS = {
    "seat.engine_torque", "seat.crank_acceleration", "seat.speed", "timing.fire_at",
    "timing.fires_now", "timing.slot", "timing.plug_tilt", "timing.pin_offset", "sits.key",
    "sits.play", "thread.lead_in", "thread.run_out", "slot.screw", "spin.exponent",
    "spin.air_pressure",
}

# What neither command looks at.
UNASKED = ("checks", "title", "plan", "feelers", "record")

# A seat that holds as it stands, so that each key left out has something to lose.
HOLDS = """\
trialfit: 1
materials: [{material: hub steel, modulus: 207000, poisson: 0.29, density: 7850, strength: 400}]
parts:
  - part: crank
    turns: true
    material: alloy steel
    faces: {big: zero, thread_in: 18 exact from big, end: 40 exact from big}
    cone: {at: big, dia: 16.6 exact, taper: 1 in 5, length: 16 exact}
    thread: {form: M10x1.25-6g, class: 8.8, from: thread_in, to: end, lead_in: 1.25}
  - part: rotor
    turns: true
    material: hub steel
    sits: {cone: bore, against: crank.cone, key: {height: 3.7 exact, room: 3.8 exact, floors: cone}}
    faces: {in: zero, out: 25 exact from in}
    cones: {bore: {at: in, dia: 16.6 exact, taper: 1 in 5, length: 16 exact}}
    rings: {boss: {from: in, to: out, bore: 10 exact, od: 30 exact}}
  - part: nut
    turns: true
    material: steel
    sits: {face: seat, against: rotor.out}
    faces: {seat: zero, top: 8 exact from seat}
    thread: {form: M10x1.25-6H, class: 8, from: seat, to: top}
    rings: {hex: {from: seat, to: top, bore: 10 exact, od: 16 exact}}
seat:
  nut_torque: 30..34 N m
  thread_friction: 0.12..0.18
  under_nut_friction: 0.12..0.18
  cone_friction: 0.11..0.15
  engine_torque: 9 N m
  crank_acceleration: 1000 rad/s2
  speed: 6000 rpm
timing:
  stroke: 43 exact
  rod: 87 exact
  turns: clockwise
  fire_at: 1.4 mm ±0.05
  fires_now: 1.5 mm
  gauge: dial
  slot: {dia: 70, length: 12 exact, screw: 5 exact, free_earlier: 3.5 exact}
gauges: {dial: 0.01}
spin:
  crank_inertia: 20 kg cm2
  drag: 0.5 N m
  starter: {speed: 1100 rpm}
  bore: 40 exact
  compression: 6
  closes_at: 92 deg
  spark_from: 450 rpm
  idle: 1200 rpm
"""


def keys_of(node, path=()):
    """Paths to every key of every map."""
    entries = node.items() if isinstance(node, dict) else enumerate(node)
    for key, value in list(entries):
        if isinstance(node, dict):
            yield path + (key,)
        if isinstance(value, (dict, list)):
            yield from keys_of(value, path + (key,))


def without(job, path):
    job = copy.deepcopy(job)
    node = job
    for key in path[:-1]:
        node = node[key]
    del node[path[-1]]
    return job


def is_question(path):
    words = [str(each) for each in path if not isinstance(each, int)]
    # A ring that the file does not know weighs nothing: nobody can tell that it is missing.
    return ".".join(words[-2:]) in QUESTIONS or (len(words) > 1 and words[-2] == "rings")


def codes(program, job, of=("seat", "timing", "spin")):
    """The exit codes of the commands for a job."""
    with tempfile.NamedTemporaryFile("w", suffix=".yaml", encoding="utf-8") as file:
        file.write(job_yaml.dump(job))
        file.flush()
        return {command: run([program, command, file.name]).code
                for command in of if command in job}


def fragile(job):
    """The job, and ones in which one figure makes a command fail, so that a loss could mend it."""
    yield job
    if job.get("title"):
        return
    for path, worse in ((("seat", "nut_torque"), "3..4 N m"), (("seat", "nut_torque"), "90 N m"),
                        (("timing", "fires_now"), "4.0 mm"),
                        (("spin", "starter"), {"speed": "500 rpm"}), (("spin", "starter"), {"energy": "5 J"}),
                        (("spin", "spark_from"), "1200 rpm")):
        if path[0] in job and path[1] in job[path[0]]:
            changed = copy.deepcopy(job)
            changed[path[0]][path[1]] = worse
            yield changed


def jobs():
    found = {path.name: path.read_text(encoding="utf-8")
             for path in sorted((root / "examples").glob("*.yaml"))}
    found["a seat that holds"] = HOLDS
    read = {name: job_yaml.parse(text) for name, text in found.items()}
    return {name: job for name, job in read.items() if {"seat", "timing", "spin"} & set(job)}


def look(program, findings, every):
    for name, first in jobs().items():
        for job in fragile(first):
            before = codes(program, job)
            findings.hold(all(code in (0, 1) for code in before.values()), f"{name}: {before}")
            for number, path in enumerate(keys_of(job)):
                if number % every or is_question(path) or path[0] in UNASKED:
                    continue
                # None looks at another's section, but `spin` at the timing's; timing at no part.
                of = {"seat": ("seat",), "timing": ("timing", "spin"), "spin": ("spin",),
                      "parts": ("seat", "spin")}
                after = codes(program, without(job, path),
                              of.get(path[0], ("seat", "timing", "spin")))
                for command, code in after.items():
                    findings.hold((before[command], code) != (1, 0),
                                  f"{name}: {command} without {'.'.join(map(str, path))} holds")


if __name__ == "__main__":
    given = arguments(__doc__)
    findings = Findings()
    at_first = codes(given.program, jobs()["a seat that holds"])
    findings.hold(at_first == {"seat": 0, "timing": 0, "spin": 0}, f"the seat that holds ends with {at_first}")
    look(given.program, findings, 24 if given.sanitized else 1)
    findings.end()
