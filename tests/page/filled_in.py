# SPDX-License-Identifier: MIT
"""The sheet that is filled in, in Chromium, against the program: what the page works out of what is
typed is what `trialfit check --with` says, to the last printed digit, on every example, every field
alone with 20 values and the fields together, limits crossed both ways; and on jobs with more work
than the examples have: many cuts, faces whose sizes are tied, laps, skims, centring.
python3 tests/page/filled_in.py --program build/trialfit"""
import json
import math
import pathlib
import random
import shlex
import subprocess
import sys
import tempfile

import pages
from devtools import Browser

sys.path.insert(0, str(pages.root / "tests" / "support"))
from program import Findings  # noqa: E402

WORDS = {"holds": "holds", "not judged": "NOT JUDGED", "doubtful": "doubtful", "fails": "FAILS"}
ORDER = ["holds", "NOT JUDGED", "doubtful", "FAILS"]
VALUES = 20
TYPE = """(texts => {
  texts.forEach((text, f) => {
    const input = document.getElementById('live-' + f);
    input.value = text;
    if (f === texts.length - 1) input.dispatchEvent(new Event('input'));
  });
  return {verdict: document.getElementById('live-verdict').dataset.verdict,
    said: document.getElementById('live-verdict').textContent,
    command: document.getElementById('live-command').textContent,
    record: document.getElementById('live-record').textContent,
    wrong: texts.map((_, f) => document.getElementById('live-wrong-' + f).textContent),
    reads: [...document.querySelectorAll('[id^=live-reads-]')].map(each => each.textContent),
    rows: [...document.querySelectorAll('#live-rows tr')].map(row => [...row.cells].map(each => each.textContent))};
})"""
TAKE = """((r, text) => {
  const input = document.getElementById('live-reading-' + r);
  input.value = text;
  input.dispatchEvent(new Event('input'));
  const seen = {verdict: document.getElementById('live-verdict').dataset.verdict,
    reads: document.getElementById('live-reads-' + r).textContent,
    record: document.getElementById('live-record').textContent};
  input.value = '';
  input.dispatchEvent(new Event('input'));
  return seen;
})"""
DATA = "JSON.parse(document.getElementById('live-data')?.textContent ?? 'null')"


def told(length, decimals):
    step = 10.0 ** decimals
    steps = math.floor(abs(length) * step + 0.5 + 1e-6)
    return ("-" if length < 0 and steps else "") + f"{steps / step:.{decimals}f}"


# Six rings and a bush under a lid; two faces of the bush may be turned, whose sizes a third ties.
RINGS = """trialfit: 1
title: Rings under a lid, made up
units: UNIT
running_clearance: 0.5
gauges: {caliper: 0.03}
parts:
  - part: base
    faces: {floor: zero, rim: 48.0 ±0.05 from floor}
    rings: {pad: {from: floor, below: 5, bore: 0, od: 40}}
  - part: bush
    sits: {face: in, against: base.floor}
    faces:
      in: zero
      step: 6.0 by caliper from in
      out: [15.0 by caliper from in, 9.01 ±0.02 from step]
    rings: {body: {from: in, to: out, bore: 5, od: 20}}
    cuts:
      - {face: step, measure: in, keep: 4, holds: ±0.02}
      - {face: out, measure: in, keep: 12, holds: ±0.02}
RING  - part: lid
    sits: {face: rim, against: base.rim}
    faces: {rim: zero}
    rings: {top: {from: rim, above: 3, bore: 0, od: 60}}
checks:
  - {check: room, gap: [s6.out, lid.rim], at_least: 4.2, at_most: 6}
  - {check: collar, gap: [bush.step, bush.out], at_least: 7.5, at_most: 9.5}
"""
RING = """  - part: sN
    sits: {face: in, against: BELOW}
    faces: {in: zero, out: 4.N by caliper from in}
    rings: {body: {from: in, to: out, bore: 10, od: 30}}
    cuts: [{face: out, measure: in, keep: 3, holds: ±0.02}]
"""


def made_up(folder):
    """Jobs with more kinds of work than the examples have."""
    rings = "".join(RING.replace("sN", f"s{n}").replace("4.N", f"4.{n}")
                    .replace("BELOW", f"s{n - 1}.out" if n > 1 else "bush.out") for n in range(1, 7))
    for unit in ("mm", "in"):
        job = pathlib.Path(folder, f"rings-{unit}.yaml")
        job.write_text(RINGS.replace("RING", rings).replace("UNIT", unit), encoding="utf-8")
        yield job
    half = (pages.root / "examples" / "half-measured.yaml").read_text(encoding="utf-8")
    open_rim = pathlib.Path(folder, "open-rim.yaml")
    open_rim.write_text(half.replace("-21.98 by depth_gauge", "unmeasured"), encoding="utf-8")
    yield open_rim
    yield pages.root / "tests" / "cases" / "plan-lap" / "lap.yaml"
    yield pages.root / "tests" / "cases" / "air-gap-limits-sheet" / "job.yaml"


def with_of(field, text):
    """What `--with` is told of one field."""
    by = f" by {field['read_by']}" if field["read_by"] else ""
    if field["kind"] in ("cut", "take"):
        return f"{field['what']}={text}{by}"
    if field["kind"] == "skim":
        return f"{field['what']}={text}{by or ' ±' + str(field['half_width'])}"
    if field["kind"] == "lap":
        return f"{field['what']}={field['dia'] + field['dia_sign'] * float(text):.9f}"
    return f"{field['what']}.{'shims' if field['kind'] == 'shims' else 'clearance'}={text}"


def arguments(data, texts):
    for field, text in zip(data["fields"], texts):
        if text:
            yield from ("--take" if field["kind"] == "take" else "--with", with_of(field, text))


def before_plan(data):
    return ("--as-of", str(data["entries_done"])) if "entries_done" in data else ()


def checked(tool, job, data, texts):
    run = subprocess.run([tool, "check", job, "--all", "--json", *before_plan(data), *arguments(data, texts)],
                         capture_output=True, text=True, check=False, timeout=60)
    return json.loads(run.stdout), run.returncode


def sided(findings):
    """An air gap with both limits as two findings: its least and its greatest."""
    for each in findings:
        if "greatest" not in each:
            yield each
            continue
        for side, value, low, high in (("least", each, each.get("at_least"), None),
                                       ("greatest", each["greatest"], None, each.get("at_most"))):
            if low is None and high is None:
                continue
            def passes(ends):
                return (low is None or ends[0] >= low - 1e-9) and (high is None or ends[1] <= high + 1e-9)
            worst, nominal = value["worst"], value["nominal"]
            some = passes([worst[1], worst[0]])
            verdict = "holds" if passes(worst) else "doubtful" if passes([nominal] * 2) and some else "fails"
            both = "at_least" in each and "at_most" in each
            yield {"check": each["check"] + (f" ({side})" if both else ""), "nominal": nominal, "worst": worst,
                   "verdict": "not judged" if each["verdict"] == "not judged" else verdict}


def rows_of(answer, decimals):
    """name: (nominal, worst, verdict) of every clearance and check in each state; the same of those
    that decide."""
    rows, decide = {}, {}
    for each in sided(answer["clearances"] + answer["checks"] + answer.get("radial", [])):
        joint = " in " if "not_given" in each else " to "
        name = each["check"] if "check" in each else joint.join(each["between"])
        for one in each.get("in_states") or [each]:
            of = name + (f", {one['state']}" if one.get("state") else "")
            unjudged = one["nominal"] is None or one["verdict"] == "not judged"
            rows[of] = ("-" if unjudged else told(one["nominal"], decimals),
                        "-" if unjudged else " to ".join(told(end, decimals) for end in one["worst"]),
                        WORDS[one["verdict"]])
            if one.get("state") == each.get("state"):
                decide[of] = rows[of]
    return rows, decide


def values(data, f, chance):
    """What is typed into one field: from well below what must remain to what is there."""
    field = data["fields"][f]
    if field["kind"] in ("take", "lap", "centring", "skim"):
        for i in range(VALUES):
            yield f"{field['least'] + (field['most'] - field['least']) * i / (VALUES - 1):.4f}"
    elif field["kind"] == "cut":
        bound = field["bounds"][0]["nominal"]
        least = max(0.1, bound - 0.3, field["least"]) + field["half_width"]
        most = field["most"] + field["half_width"] * 0.9
        for i in range(VALUES):
            share = i / (VALUES - 1)
            yield f"{least + (most - least) * share + chance.uniform(-1, 1) * 1e-3 * (0 < share < 1):.4f}"
    else:
        thick = max(field["now"], 10 * field["half_width"])
        for i in range(VALUES):
            pieces = [f"{thick * chance.uniform(0.5, 4):.3f}" for _ in range(i % 4)]
            yield " + ".join(pieces) or "none"


def hold(found, tool, job, name, browser, data, texts):
    page = browser.evaluate(f"{TYPE}({json.dumps(texts)})")
    answer, code = checked(tool, job, data, texts)
    if code == 2:
        found.hold(any(page["wrong"]), f"{name} {texts}: the program refuses, the page works it out")
        return False
    found.hold(not any(page["wrong"]), f"{name} {texts}: {page['wrong']}")
    rows, decide = rows_of(answer, data["decimals"])
    warm = any("drawn home" in each["words"] for each in data["left_out"])
    apart = any("do not move evenly" in each["words"] for each in data["left_out"])
    capped = any(each["caps"] for each in data["left_out"])
    for row, _, nominal, worst, verdict in page["rows"]:
        theirs = (rows if warm else decide).get(row)
        found.hold(theirs == (nominal, worst, verdict),
                   f"{name} {texts}: {row}: page {(nominal, worst, verdict)}, program {theirs}")
    bad = sum(verdict != "holds" for *_, verdict in decide.values())
    mine = sum(verdict != "holds" for *_, verdict in page["rows"])
    found.hold(bad == mine or warm or apart, f"{name} {texts}: {mine} rows that do not hold, the program has {bad}")
    whole = WORDS[answer["verdict"]]
    if capped:
        found.hold(0 < ORDER.index(page["verdict"]) and
                   (whole == "holds" or ORDER.index(page["verdict"]) <= ORDER.index(whole)),
                   f"{name} {texts}: page {page['verdict']}, program {whole}")
    else:
        found.hold(page["verdict"] == whole, f"{name} {texts}: page {page['verdict']}, program {whole}")
    return True


def hold_readings(found, tool, job, name, browser, data, texts):
    """What a reading ought to be is what `why` says of its two faces; returns how many were held."""
    page = browser.evaluate(f"{TYPE}({json.dumps(texts)})")
    if any(page["wrong"]):
        return 0
    for reading, said in zip(data["readings"], page["reads"]):
        run = subprocess.run([tool, "why", job, reading["from"], reading["to"], "--json", *before_plan(data), *arguments(data, texts)],
                             capture_output=True, text=True, check=False, timeout=60)
        answer = json.loads(run.stdout)
        if "worst" not in answer:
            found.hold(False, f"{name} {texts}: {answer} {run.stderr}")
            continue
        low, high = (told(end, data["decimals"]) for end in answer["worst"])
        should = f"{told(answer['nominal'], data['decimals'])} ({low} to {high})"
        found.hold(said == f"Should read {should}.", f"{name} {texts}: {said} {should}")
        low, high = answer["worst"]
        for value, words in (((low + high) / 2, "As it should read"), (high + 2 * reading["half_width"] + 0.1, "held off"),
                             (low - 2 * reading["half_width"] - 0.1, "held off")):
            seen = browser.evaluate(f"{TAKE}({data['readings'].index(reading)}, '{value:.4f}')")
            found.hold(words in seen["reads"] and f"= {value:.4f}" in seen["record"], f"{name} {value}: {seen}")
            found.hold(seen["verdict"] == page["verdict"] if words != "held off" else seen["verdict"] != "holds",
                       f"{name} {value}: {seen} after {page['verdict']}")
    return len(data["readings"])


def hold_record(found, tool, job, name, browser, data, texts):
    """The line for the record, run as it stands, makes a job of which `check` says what `--with` does."""
    page = browser.evaluate(f"{TYPE}({json.dumps(texts)})")
    if any(page["wrong"]) or not page["record"] or "entries_done" in data:
        return 0
    words = [word for word in shlex.split(page["record"]) if word != "--in-place"]
    with tempfile.NamedTemporaryFile(suffix=".yaml") as made:
        run = subprocess.run([tool, *words[1:], "--force", "-o", made.name], capture_output=True, text=True, check=False, timeout=60)
        found.hold(run.returncode in (0, 1), f"{name}: {page['record']}: {run.stderr}")
        done, _ = checked(tool, made.name, data, [])
    supposed, _ = checked(tool, job, data, texts)
    if "verdict" not in done or "verdict" not in supposed:
        found.hold(False, f"{name} {texts}: {done} {supposed}")
        return 0
    found.hold(rows_of(done, data["decimals"]) == rows_of(supposed, data["decimals"]) and done["verdict"] == supposed["verdict"],
               f"{name}: {page['record']}: {done['verdict']}, supposed {supposed['verdict']}")
    return 1


def hold_words(found, browser, name, data):
    """Words and absurd sizes are refused, a comma is a point, and the lines to copy are whole."""
    empty = ["" for _ in data["fields"]]
    for f, field in enumerate(data["fields"]):
        zero = ("0",) if field["kind"] in ("cut", "take", "shims", "skim") else ()
        for bad in ("about five", "-3", "1e3", *zero, "5.4 mm", "99999", "</script>"):
            texts = [*empty]
            texts[f] = bad
            page = browser.evaluate(f"{TYPE}({json.dumps(texts)})")
            found.hold(page["wrong"][f] and page["verdict"] == "wrong" and not page["rows"] and not page["record"],
                       f"{name}: '{bad}' is taken: {page}")
        if field["kind"] == "cut":
            texts = [*empty]
            texts[f] = f"{field['now']:.2f}".replace(".", ",")
            page = browser.evaluate(f"{TYPE}({json.dumps(texts)})")
            size = texts[f].replace(",", ".")
            found.hold(f"{field['what']}={size}" in page["record"] and "--cut" in page["record"],
                       f"{name}: record line {page['record']}")


def hold_none(found, tool, folder):
    """No fields where `check --with` of the file would go by other parts than the sheet does."""
    job, turned = (pages.root / "examples" / f"{name}.yaml" for name in ("pump-engine", "pump-engine-turned"))
    hub = pages.root / "examples" / "loose-rotor.yaml"
    part = pathlib.Path(folder, "part.yaml")
    subprocess.run([tool, "plan", job, "--write", part], capture_output=True, check=False, timeout=60)
    subprocess.run([tool, "record", part, "--in-place", "--cut", "plate.front=5.52"], capture_output=True, check=False, timeout=60)
    warm = pathlib.Path(folder, "warm.yaml")
    warm.write_text("""trialfit: 1
states: {run: 90 C}
parts:
  - part: case
    material: steel
    faces: {floor: zero}
  - part: coil
    sits: {face: base, against: case.floor}
    faces: {base: zero, top: 20 ±0.1 from base}
    cuts: [{face: top, measure: base, keep: 15, holds: ±0.03}]
checks: [{check: coil, gap: [case.floor, coil.top], at_most: 21}]
""", encoding="utf-8")
    for words, of, *options in (("nothing says how far warm parts grow: coil.", warm),
                                ("part of the planned work is done", part), ("not of the parts as they are", job, "--with", "plate.front=9.5"),
                                ("not of the parts as they are", job, "--take", "plate.front=0.5"),
                                ("not of the parts as they are", turned, "--as-of", "0"),
                                ("the readings are set aside", turned, "--as-written"),
                                ("does not move evenly", hub)):
        made = subprocess.run([tool, "sheet", of, *options], capture_output=True, text=True, check=False, timeout=60)
        found.hold("<html" in made.stdout and "live-data" not in made.stdout, f"{of.stem} {options}: filled in {made.stderr}")
        told_why = [line for line in made.stdout.splitlines() if "cannot be filled in" in line]
        found.hold(len(told_why) == 1 and words in told_why[0], f"{of.stem} {options}: {told_why}")


def planned(tool, folder):
    """The examples with their cheapest plan written into them, where there is one."""
    for job in pages.EXAMPLES:
        made = pathlib.Path(folder, f"planned-{job.stem}.yaml")
        subprocess.run([tool, "plan", job, "--write", made], capture_output=True, check=False, timeout=60)
        told_so = subprocess.run([tool, "check", made], capture_output=True, text=True, check=False, timeout=60)
        if told_so.stdout.startswith("PLANNED"):
            yield made


def main():
    tool = pages.program()
    found = Findings()
    chance = random.Random(20261130)
    sheets = readings = records = 0
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        browser = Browser(pathlib.Path(folder))
        with_plan = list(planned(tool, folder))
        found.hold(len(with_plan) >= 5, f"only {len(with_plan)} examples have a plan")
        for job in [*pages.EXAMPLES, pages.HOSTILE, *with_plan, *made_up(folder)]:
            page = pathlib.Path(folder, "page.html")
            made = subprocess.run([tool, "sheet", job], capture_output=True, text=True, check=False, timeout=60)
            if made.returncode not in (0, 1) or 'id="live-data"' not in made.stdout:
                found.hold(job in pages.EXAMPLES or job == pages.HOSTILE or job in with_plan,
                           f"{job}: no fields {made.stderr}")
                continue
            page.write_text(made.stdout, encoding="utf-8")
            browser.open(page.as_uri(), 900)
            data = browser.evaluate(DATA)
            found.hold(data is not None, f"{job.stem}: no data")
            found.hold(("entries_done" in data) == (job in with_plan), f"{job.stem}: {data.get('entries_done')}")
            sheets += 1
            empty = ["" for _ in data["fields"]]
            hold(found, tool, job, job.stem, browser, data, empty)
            compared = 0
            for f in range(len(data["fields"])):
                alone = list(values(data, f, chance))
                for text in alone:
                    texts = [*empty]
                    texts[f] = text
                    compared += hold(found, tool, job, job.stem, browser, data, texts)
            found.hold(compared >= VALUES // 2, f"{job.stem}: only {compared} compared")
            if len(data["fields"]) > 1:
                for _ in range(VALUES):
                    texts = [chance.choice(["", *values(data, f, chance)]) for f in range(len(data["fields"]))]
                    hold(found, tool, job, job.stem, browser, data, texts)
            for f in range(len(data["fields"])):
                texts = [*empty]
                texts[f] = list(values(data, f, chance))[VALUES // 2]
                readings += hold_readings(found, tool, job, job.stem, browser, data, texts)
                records += hold_record(found, tool, job, job.stem, browser, data, texts)
            hold_words(found, browser, job.stem, data)
            found.hold(not browser.complaints(), f"{job.stem}: console: {browser.complaints()}")
            found.hold(not browser.fetched(), f"{job.stem}: fetched {browser.fetched()}")
        browser.end()
        hold_none(found, tool, folder)
    found.hold(sheets >= 20 and readings >= 4 and records >= 30,
               f"only {sheets} sheets and {readings} readings are filled in, {records} recorded")
    found.end()


main()
