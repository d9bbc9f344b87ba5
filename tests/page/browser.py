# SPDX-License-Identifier: MIT
"""Sheets, and the page of `match`, in Chromium: at a desk, on phones of 360 and 320 px, and printed.

Printed: one to three pages of the paper asked for (five for the longest worksheet), and no table that begins on one and ends on
another. On the screen: nothing wider than the window, no text under 11 px, nothing on the console,
nothing fetched. On a phone of 320 px nothing scrolls sideways; a tap opens the section in its own
size, another closes it; what is tapped is 44 px high; figures keep their headings beside them; dark,
all text still stands out.

For those who do not see it: Debian has no accessibility checker to run (no axe, no Lighthouse, no
pa11y), so what such a checker looks for and this page can get wrong is held here, in the tree that
Chromium hands to a screen reader and in the page: a language and a title; one main landmark, one
first heading and no level left out; every picture, region and table with a name; every table with
column and row headers that are not empty; no id twice; what scrolls can be reached by keyboard; text
against its background at 4.5 to 1 or more (WCAG 2.1, 1.4.3; colours as computed, pictures left
out); nothing that asks for a script; Tab goes to all that can be worked, in the order of the page, and is
seen to. Not held: whether the words make sense to the ear.

python3 tests/page/browser.py --program build/trialfit"""
import pathlib
import re
import subprocess
import sys
import tempfile

import pages
from devtools import Browser

sys.path.insert(0, str(pages.root / "tests" / "support"))
from program import Findings  # noqa: E402

PAPERS = {"A4": (595, 842), "Letter": (612, 792)}
# On a phone a page fits: nothing in it scrolls sideways.
CUT_OFF = """[...document.querySelectorAll('body *')].filter(e => !e.closest('svg') && e.clientWidth &&
  !(e.closest('thead') && getComputedStyle(e.closest('thead')).clipPath != 'none') &&
  e.scrollWidth > e.clientWidth + 1).map(e => e.tagName + ' ' + e.textContent.slice(0, 40)).join('; ')"""
# What Tab should reach, by its place in the page; and what it has reached.
TABBED = """[...document.querySelectorAll('*')].map((e, at) => [e, at]).filter(([e]) =>
  e.tabIndex >= 0 && !e.disabled && e.getClientRects().length &&
  getComputedStyle(e).visibility == 'visible').map(([e, at]) => at)"""
FOCUSED = """(() => {const e = document.activeElement;
if (!e || e == document.body || e == document.documentElement) return null;
const box = e.getBoundingClientRect(), style = getComputedStyle(e);
return {at: [...document.querySelectorAll('*')].indexOf(e), top: box.top + scrollY, below: box.bottom + scrollY,
  seen: style.outlineStyle != 'none' && parseFloat(style.outlineWidth) >= 1,
  is: e.tagName + ' ' + (e.id || e.getAttribute('aria-label') || e.textContent.slice(0, 30))}})()"""
PROBE = """(() => {
const lum = c => {const v = c.match(/[\\d.]+/g).slice(0, 3).map(x => x / 255)
  .map(x => x <= .04045 ? x / 12.92 : ((x + .055) / 1.055) ** 2.4);
  return .2126 * v[0] + .7152 * v[1] + .0722 * v[2]};
const back = e => {for (; e; e = e.parentElement) {const b = getComputedStyle(e).backgroundColor;
  if (!/, 0\\)$/.test(b)) return b} return 'rgb(255,255,255)'};
const own = e => [...e.childNodes].some(n => n.nodeType == 3 && n.data.trim());
let contrast = 99, small = 99;
for (const e of document.querySelectorAll('body *')) {
  if (!own(e) || ['TITLE', 'title', 'desc'].includes(e.tagName)) continue;
  const style = getComputedStyle(e);
  // A section's letters are small on a phone until a tap opens it.
  if (innerWidth < 700 && e.closest('.section:not(:target) svg')) continue;
  const grown = e.closest('svg') ? e.getScreenCTM().a : 1;
  small = Math.min(small, parseFloat(style.fontSize) * grown);
  if (e.closest('svg')) continue;
  const a = lum(style.color), b = lum(back(e));
  contrast = Math.min(contrast, (Math.max(a, b) + .05) / (Math.min(a, b) + .05));
}
const ids = [...document.querySelectorAll('[id]')].map(e => e.id);
const text = e => e.textContent.replace(/\\s+/g, ' ').trim();
return {wide: document.documentElement.scrollWidth, window: innerWidth, contrast, small,
  twice: ids.filter((id, i) => ids.indexOf(id) != i), scripts: document.scripts.length,
  live: !!document.getElementById('live'),
  unreached: [...document.querySelectorAll('*')].filter(e => e.scrollWidth > e.clientWidth + 1 &&
    ['auto', 'scroll'].includes(getComputedStyle(e).overflowX) && e.tabIndex < 0).length,
  tables: [...document.querySelectorAll('table')].map(t => ({live: !!t.closest('.live'), caption: t.caption ? text(t.caption) : '',
    heads: [...t.querySelectorAll('thead th')].map(h => [h.scope, text(h)]),
    bare: [...t.querySelectorAll('tbody tr')].filter(r =>
      !r.querySelector('th[scope=row], td[colspan]')).length,
    last: t.rows.length ? [...t.rows[t.rows.length - 1].cells].map(text).filter(x => x)[0] || '' : ''}))};
})()"""


def value(node, key):
    return node.get(key, {}).get("value", "")


def hold_tree(found, name, tree):
    roles = [value(node, "role") for node in tree]
    found.hold(value(tree[0], "name"), f"{name}: the page has no title")
    found.hold(roles.count("main") == 1, f"{name}: {roles.count('main')} main landmarks")
    for node in tree:
        if value(node, "role") in ("image", "img", "region", "table", "graphics-document"):
            found.hold(value(node, "name"), f"{name}: a {value(node, 'role')} has no name")
    levels = [prop["value"]["value"] for node in tree if value(node, "role") == "heading"
              for prop in node.get("properties", []) if prop["name"] == "level"]
    found.hold(levels.count(1) == 1 and levels[0] == 1, f"{name}: headings {levels}")
    found.hold(all(b <= a + 1 for a, b in zip(levels, levels[1:])), f"{name}: headings {levels}")
    found.hold("table" not in roles or ("columnheader" in roles and "rowheader" in roles), f"{name}: tables without headers")


def hold_screen(found, browser, name, address):
    for width, phone in ((1200, False), (360, True)):
        browser.open(address, width, phone=phone)
        seen = browser.evaluate(PROBE)
        where = f"{name} at {width}"
        found.hold(seen["window"] == width, f"{where}: shown at {seen['window']}")
        found.hold(seen["wide"] <= width, f"{where}: {seen['wide']} wide")
        found.hold(seen["contrast"] >= 4.5, f"{where}: contrast {seen['contrast']}")
        found.hold(seen["small"] >= 11, f"{where}: text of {seen['small']} px")
        found.hold(not seen["twice"], f"{where}: twice the id {seen['twice']}")
        found.hold(seen["scripts"] == (2 if seen["live"] else 0), f"{where}: {seen['scripts']} scripts")
        found.hold(seen["unreached"] == 0, f"{where}: scrolls out of the keyboard's reach")
        found.hold(not browser.complaints(), f"{where}: console: {browser.complaints()}")
        found.hold(not browser.fetched(), f"{where}: fetched {browser.fetched()}")
        for table in seen["tables"]:
            found.hold(table["caption"] and table["bare"] == 0 and
                       all(scope == "col" and head for scope, head in table["heads"]),
                       f"{where}: table {table}")
    language = browser.evaluate("document.documentElement.lang")
    found.hold(language == "en", f"{name}: language '{language}'")
    hold_tree(found, name, browser.tree())
    return seen["tables"]


LABELS = """[...document.querySelectorAll('.wide:not(.form) tbody td')].filter(e => e.textContent.trim() &&
  !e.hasAttribute('colspan') && !e.matches('.bar') &&
  getComputedStyle(e, '::before').content.length < 3).map(e => e.textContent).join('; ')"""
OPENED = """(() => {const s = document.querySelector('.section'), svg = s && s.querySelector('svg');
  return s && {at: location.hash, figure: svg.clientWidth || svg.getBoundingClientRect().width,
    close: s.querySelector('.smaller').getBoundingClientRect().height, reached: s.tabIndex,
    wide: document.documentElement.scrollWidth}})()"""


def tap(browser, selector):
    x, y = browser.evaluate(f"""(() => {{const e = document.querySelector('{selector}');
      e.scrollIntoView({{block: 'center'}}); const b = e.getBoundingClientRect();
      return [Math.min(b.x + b.width / 2, innerWidth / 2), b.y + b.height / 2]}})()""")
    for kind in ("mousePressed", "mouseReleased"):
        browser.call("Input.dispatchMouseEvent", type=kind, x=x, y=y, button="left", clickCount=1)
    browser.evaluate("1")


def hold_small_phone(found, browser, name, address):
    browser.open(address, 320, phone=True)
    found.hold(not browser.evaluate(CUT_OFF), f"{name} at 320: {browser.evaluate(CUT_OFF)}")
    found.hold(not browser.evaluate(LABELS), f"{name}: without a heading: {browser.evaluate(LABELS)}")
    before = browser.evaluate(OPENED)
    if before:
        tap(browser, ".section .larger")
        opened = browser.evaluate(OPENED)
        found.hold(before["figure"] <= 320 and opened["figure"] > 700, f"{name}: opened {opened}")
        found.hold(opened["close"] >= 44 and opened["reached"] == 0 and opened["wide"] <= 320,
                   f"{name}: opened {opened}")
        tap(browser, ".section .smaller")
        found.hold(browser.evaluate(OPENED)["figure"] == before["figure"], f"{name}: does not close")
    browser.call("Emulation.setEmulatedMedia", features=[{"name": "prefers-color-scheme", "value": "dark"}])
    dark = browser.evaluate(PROBE)
    shade = browser.evaluate("getComputedStyle(document.body).backgroundColor")
    found.hold(shade == "rgb(18, 18, 18)" and dark["contrast"] >= 4.5, f"{name}: dark {shade} {dark['contrast']}")
    browser.call("Emulation.setEmulatedMedia", features=[])


def hold_keyboard(found, browser, name, address):
    """Tab goes to all that can be worked, once each, in the order of the page, and shows where it is."""
    browser.open(address, 900)
    wanted, steps = browser.evaluate(TABBED), []
    while len(steps) <= len(wanted):
        browser.press_tab()
        step = browser.evaluate(FOCUSED)
        if step is None or step["at"] in [each["at"] for each in steps]:
            break  # out of the page, or round again
        steps.append(step)
    found.hold([each["at"] for each in steps] == wanted,
               f"{name}: Tab goes to {[each['is'] for each in steps]}, of {len(wanted)}")
    for before, step in zip(steps, steps[1:]):
        found.hold(step["below"] > before["top"], f"{name}: Tab goes up from {before['is']} to {step['is']}")
    for step in steps:
        found.hold(step["seen"], f"{name}: it cannot be seen that {step['is']} has the focus")
    return len(steps)


def words_of(text):
    return re.sub(r"\W+", "", text)


def hold_print(found, browser, name, folder, paper, tables, most=3):
    pdf = folder / "page.pdf"
    pdf.write_bytes(browser.pdf())
    info = subprocess.run(["pdfinfo", pdf], capture_output=True, text=True, check=True).stdout
    count = int(re.search(r"Pages:\s*(\d+)", info)[1])
    size = re.search(r"Page size:\s*([\d.]+) x ([\d.]+)", info)
    found.hold(1 <= count <= most, f"{name}: {count} pages")
    found.hold(all(abs(float(size[i + 1]) - PAPERS[paper][i]) < 1.5 for i in (0, 1)),
               f"{name}: paper {size[0]}")
    text = subprocess.run(["pdftotext", "-raw", pdf, "-"], capture_output=True, text=True,
                          check=True).stdout
    sides = [words_of(page) for page in text.split("\f")]
    for table in tables:
        if table["live"]:  # blank, it is not printed
            continue
        found.hold(any(words_of(table["caption"]) in side and words_of(table["last"]) in side
                       for side in sides), f"{name}: cut: {table['caption']}")


def main():
    tool = pages.program()
    found = Findings()
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as name:
        folder = pathlib.Path(name)
        browser = Browser(folder)
        tabbed = 0
        for title, job, paper in pages.SHEETS:
            page = folder / "page.html"
            options = () if paper == "A4" else ("--paper", paper)
            page.write_text(pages.made(tool, "sheet", job, *options), encoding="utf-8")
            tables = hold_screen(found, browser, title, page.as_uri())
            hold_print(found, browser, title, folder, paper, tables)
            hold_small_phone(found, browser, title, page.as_uri())
            tabbed += hold_keyboard(found, browser, title, page.as_uri())
        for title, engine, kits in pages.MATCHES:
            page.write_text(pages.matched(tool, engine, kits), encoding="utf-8")
            hold_screen(found, browser, title, page.as_uri())
            hold_small_phone(found, browser, title, page.as_uri())
        for title, job, paper in pages.LATHES:
            page = folder / "page.html"
            page.write_text(pages.made(tool, "sheet", job, "--lathe", "--paper", paper), encoding="utf-8")
            tables = hold_screen(found, browser, title, page.as_uri())
            browser.open(page.as_uri(), 320, phone=True)
            found.hold(not browser.evaluate(CUT_OFF), f"{title}: {browser.evaluate(CUT_OFF)}")
            hold_print(found, browser, title, folder, paper, tables, 1)
        for title, *options in pages.WORKSHEETS:
            page = folder / "page.html"
            page.write_text(pages.worksheet(tool, *options), encoding="utf-8")
            tables = hold_screen(found, browser, title, page.as_uri())
            browser.open(page.as_uri(), 360, phone=True)
            found.hold(not browser.evaluate(CUT_OFF), f"{title}: {browser.evaluate(CUT_OFF)}")
            # Of the ignition's parts, three take a page each.
            hold_print(found, browser, title, folder, "Letter" if "Letter" in options else "A4",
                       tables, 5 if "ignition" in options else 3)
        browser.end()
    found.hold(tabbed > 20, f"only {tabbed} things on all sheets can be worked by keyboard")
    found.end()


main()
