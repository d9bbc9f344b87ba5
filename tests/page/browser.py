# SPDX-License-Identifier: MIT
"""Sheets in Chromium: at most two printed pages, no overflow at desktop and phone width, no error on
the console, nothing fetched, enough contrast, headers in tables, names for pictures.

python3 tests/page/browser.py --program build/trialfit"""
import json
import pathlib
import re
import subprocess
import sys
import tempfile

import pages

sys.path.insert(0, str(pages.root / "tests" / "support"))
from program import Findings  # noqa: E402

FLAGS = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
         "--disable-background-networking", "--disable-component-update", "--disable-sync",
         "--hide-scrollbars", "--enable-logging=stderr", "--no-pdf-header-footer"]
# Added to a copy of the page: says on the page what a reader would meet.
PROBE = """<script>addEventListener('load',()=>{
const lum=c=>{const v=c.match(/[\\d.]+/g).slice(0,3).map(x=>x/255).map(x=>x<=.04045?x/12.92:((x+.055)/1.055)**2.4);
return .2126*v[0]+.7152*v[1]+.0722*v[2]};
const back=e=>{for(;e;e=e.parentElement){const b=getComputedStyle(e).backgroundColor;if(!/, 0\\)$/.test(b))return b}return 'rgb(255,255,255)'};
let least=99;for(const e of document.querySelectorAll('h1,h2,p,th,td,li,caption,footer')){
const a=lum(getComputedStyle(e).color),b=lum(back(e));least=Math.min(least,(Math.max(a,b)+.05)/(Math.min(a,b)+.05))}
document.title='PROBE'+JSON.stringify({width:innerWidth,wide:document.documentElement.scrollWidth,
contrast:least,fetched:performance.getEntriesByType('resource').length,
headless:[...document.querySelectorAll('table')].filter(t=>!t.querySelector('th[scope]')||!t.caption).length,
unnamed:[...document.querySelectorAll('svg')].filter(s=>s.getAttribute('aria-hidden')!='true'&&!s.querySelector('title')).length,
main:document.querySelectorAll('main').length,h1:document.querySelectorAll('h1').length})})</script>"""


def chromium(folder, *words):
    said = subprocess.run(["chromium", *FLAGS, f"--user-data-dir={folder}/profile", *words],
                          capture_output=True, check=False, timeout=120)
    return said.stdout.decode(), said.stderr.decode()


def hold_page(found, name, text, folder):
    page = folder / "page.html"
    page.write_text(text, encoding="utf-8")
    pdf = folder / "page.pdf"
    pdf.unlink(missing_ok=True)
    _, errors = chromium(folder, f"--print-to-pdf={pdf}", page.as_uri())
    found.hold("CONSOLE" not in errors, f"{name}: console: {errors}")
    info = subprocess.run(["pdfinfo", pdf], capture_output=True, text=True, check=False).stdout
    count = re.search(r"Pages:\s*(\d+)", info)
    found.hold(count and 1 <= int(count[1]) <= 2, f"{name}: pages: {count and count[1]}")
    probed = folder / "probed.html"
    probed.write_text(text.replace("</body>", PROBE + "</body>"), encoding="utf-8")
    for width in (1200, 500):  # headless windows are no narrower than 500
        dom, _ = chromium(folder, f"--window-size={width},900", "--dump-dom", probed.as_uri())
        said = re.search(r"<title>PROBE(\{.*?\})</title>", dom)
        found.hold(said, f"{name}: no probe at {width}")
        if not said:
            continue
        seen = json.loads(said[1])
        found.hold(seen["wide"] <= seen["width"], f"{name}: wider than {width}: {seen}")
        found.hold(seen["contrast"] >= 4.5, f"{name}: contrast {seen}")
        found.hold(seen["fetched"] == 0, f"{name}: fetched something: {seen}")
        found.hold(seen["headless"] == 0 and seen["unnamed"] == 0, f"{name}: names: {seen}")
        found.hold(seen["main"] == 1 and seen["h1"] == 1, f"{name}: main or h1: {seen}")


def main():
    tool = pages.program()
    found = Findings()
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as name:
        folder = pathlib.Path(name)
        for job in [pages.root / "examples/pump-engine.yaml",
                    pages.root / "examples/loose-rotor.yaml", pages.HOSTILE]:
            title = "hostile" if job is pages.HOSTILE else job.stem
            hold_page(found, title, pages.made(tool, "sheet", job), folder)
        hold_page(found, "letter", pages.made(tool, "sheet", pages.EXAMPLES[0], "--paper", "Letter"),
                  folder)
    found.end()


main()
