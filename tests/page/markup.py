# SPDX-License-Identifier: MIT
"""Every example's drawing is well-formed SVG and renders in librsvg, every sheet well-formed HTML;
a job full of markup stays text. python3 tests/page/markup.py --program build/trialfit"""
import html.parser
import json
import pathlib
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree

import pages

sys.path.insert(0, str(pages.root / "tests" / "support"))
from program import Findings, arguments  # noqa: E402

VOID = {"meta", "br", "img", "input"}
SCRIPT = (pages.root / "lib" / "trialfit" / "paper" / "sheet" / "live.js").read_text(encoding="utf-8")
SVG = "{http://www.w3.org/2000/svg}"


class Tags(html.parser.HTMLParser):
    """Holds tags to being closed in order, and keeps their names."""

    def __init__(self):
        super().__init__()
        self.open, self.seen, self.faults, self.addresses = [], set(), [], []

    def handle_starttag(self, tag, attrs):
        self.seen.add(tag)
        self.addresses += [value for name, value in attrs if name in ("src", "href")
                           and not value.startswith("#")]
        self.faults += [name for name, _ in attrs if name.startswith("on")]
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.seen.add(tag)

    def handle_endtag(self, tag):
        if not self.open or self.open.pop() != tag:
            self.faults.append(f"</{tag}>")


def hold_svg(found, name, text):
    tree = xml.etree.ElementTree.fromstring(text)
    found.hold(tree.get("version") == "1.1" and tree.tag == SVG + "svg", f"{name}: no SVG 1.1")
    found.hold(tree.find(SVG + "title") is not None and tree.find(SVG + "desc") is not None,
               f"{name}: no title or description")
    kinds = {each.tag.removeprefix(SVG) for each in tree.iter()}
    known = {"svg", "title", "desc", "defs", "clipPath", "circle", "rect", "path", "g", "text", "tspan"}
    found.hold(kinds <= known, f"{name}: {kinds - known}")
    found.hold("nan" not in re.sub(r">[^<]*<", "><", text), f"{name}: a coordinate is no number")
    drawn = subprocess.run(["rsvg-convert", "-w", "600"], input=text.encode(), capture_output=True,
                           check=False, timeout=60)
    found.hold(drawn.returncode == 0 and len(drawn.stdout) > 2000, f"{name}: librsvg: {drawn.stderr}")


def hold_html(found, name, text):
    tags = Tags()
    tags.feed(text)
    found.hold(not tags.open and not tags.faults, f"{name}: {tags.open} {tags.faults}")
    found.hold(not tags.seen & {"img", "link", "iframe"}, f"{name}: {tags.seen}")
    scripts = re.findall(r"<script[^>]*>(.*?)</script>", text, re.DOTALL)
    if scripts:  # the data of a sheet that is filled in, and the script that the project has
        data, script = scripts
        found.hold(json.loads(data)["fields"] and not set(data) & set("<>&\u2028\u2029"), f"{name}: data")
        found.hold(script.strip() == SCRIPT.strip() and text.count("<script") == 2, f"{name}: another script")
    found.hold(not tags.addresses, f"{name}: asks for {tags.addresses}")
    found.hold("<title>" in text and 'lang="en"' in text, f"{name}: no title or language")


def hold_kits(found, tool, name, engine, kits):
    """The page of `match`: a card for each kit, whose drawings share no identifier."""
    text = pages.matched(tool, engine, kits)
    hold_html(found, name, text)
    ids = re.findall(r'\bid="([^"]*)"', text)
    found.hold(len(ids) == len(set(ids)), f"{name}: an identifier stands twice")
    found.hold(text.count("<svg") == len(kits), f"{name}: {text.count('<svg')} drawings of {len(kits)} kits")


def main():
    given = arguments(__doc__.splitlines()[0])
    tool = given.program
    found = Findings()
    count = others = 0
    for job in [*(pages.EXAMPLES[::3] if given.sanitized else pages.EXAMPLES), pages.HOSTILE]:
        name = job.stem if job is not pages.HOSTILE else "hostile"
        drawing = pages.made(tool, "draw", job)
        if drawing is None:
            found.hold(name == "misread-depth", f"{name}: refused")
            continue
        count += 1
        hold_svg(found, name, drawing)
        for kind in ("--end", "--detail", "--plan"):
            other = pages.made(tool, "draw", job, kind, "--who", pages.NASTY)
            others += other is not None
            if other is not None:
                hold_svg(found, f"{name} {kind}", other)
        hold_html(found, name,
                  pages.made(tool, "sheet", job, "--who", pages.NASTY, "--date", "2026-11-25"))
        notes = pages.made(tool, "sheet", job, "--markdown", "--inches")
        found.hold("<script" not in notes and notes.startswith("# "), f"{name}: markdown")
    kits = pages.root / "examples" / "kits"
    hold_kits(found, tool, "kits", kits / "engine.yaml", sorted(kits.glob("kit-*.yaml")))
    hold_kits(found, tool, "weights", kits / "pump-motor.yaml", sorted(kits.glob("weight-*.yaml")))
    with tempfile.TemporaryDirectory() as folder:
        engine, kit = pathlib.Path(folder, "hostile.yaml"), pathlib.Path(folder, "<b>kit.yaml")
        engine.write_text(pages.HOSTILE, encoding="utf-8")
        kit.write_text("trialfit: 1\nparts: []\n", encoding="utf-8")
        hold_kits(found, tool, "hostile kits", engine, [kit])
    found.hold(count > (5 if given.sanitized else 10), f"only {count} pages")
    found.hold(others > (10 if given.sanitized else 30), f"only {others} end views, details and plans")
    found.end()


main()
