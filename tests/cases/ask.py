# SPDX-License-Identifier: MIT
"""The questions of `start KIND --ask`, at a terminal.

The worksheet filled in and typed in gives the file that `start KIND` gives when it is edited by
hand: each size of the template, in the order of its places, with its letter, is written down below.
"""
import argparse
import html
import os
import pathlib
import pty
import re
import select
import signal
import subprocess
import tempfile
import termios
import time

PATIENCE = 60.0  # seconds, for a machine under load

# Letter=size of the template, in the order of the text; "-" where the file has it inboard.
SIZES = {
    "ignition": """A=52.0 ±0.1|D1=32|D2=112|B=8.00 by depth_gauge|P1=0.05..0.15|C=22.0 ±0.2|E=40.0 ±0.1
        |D3=17.00 by micrometer|K1=1 in 5|F=18|T1=M12x1.25-6g|D4=12|G=8.00 by caliper|D5=42|D6=104|K3=5.0
        |H=5.0 ±0.2|J=13.0 ±0.2|L=14.5 ±0.3|D7=54|D8=80.4|D9=52|D10=76|M=24.00 by caliper
        |-N=7.00 by depth_gauge|-Q=17.00 by depth_gauge|S=1.0 ±0.2|U=14.0 ±0.2|D11=16.70 ±0.01|K2=1 in 5
        |V=18|D12=17|D13=32|D13=32|D14=96|D15=88|D14=96|D16=81|D15=88|W=2.5 ±0.2|D17=13|D18=24
        |X=10.0 +0 -0.36|T2=M12x1.25-6H|D4=12|D19=21|Y=0.8|-Z=1.5 ±0.5|D20=104|R1=14.50 by depth_gauge
        |R2=14.50 by depth_gauge|T3=46.0 ±0.05|T4=92.0 ±0.2|T5=2.3 mm ±0.1""",
    "endfloat": """A=62.00 by depth_gauge|D1=15|D2=32
        |B=[59.100, 59.105, 59.095] by micrometer|D3=22|C=0.5, 0.2|E=1.50 ±0.01|D4=15|D5=28
        |F=0.30 ±0.02|-G=0.80 by depth_gauge|D6=15|D7=32""",
    "impeller": """A=9.00 by depth_gauge|B=28.50 by depth_gauge|D1=26|D2=90|D3=96|D4=130|P1=0.05..0.15
        |C=10.00 by caliper|E=40 ±0.1|D5=22|D6=14|F=17.80 by caliper|D6=14|D7=86|G=0.50 ±0.05
        |-H=0.50 by depth_gauge|D8=30|D9=90""",
    "spacer": """A=0.000 ±0.003|D1=38|D2=47|D3=20|D4=27|B=62.000 by micrometer|D5=40|D6=60
        |C=61.985 by micrometer|D7=20|D8=26|E=0.000 ±0.003|D1=38|D2=47|D3=20|D4=27""",
    "cover": """D1=120|D2=134|A=6.00 by depth_gauge|P1=0.05..0.20|-B=22.0 by caliper|D3=14|D4=110
        |C=13.0 by caliper|D3=14|D5=26|E=0.50 ±0.05|F=9.00 by depth_gauge|G=23.00 by depth_gauge
        |D6=60|D7=120|D6=60""",
    "bearing": """A=30.00 by depth_gauge|D1=50|D2=84|D3=62|D2=84|B=28.00 by micrometer|D4=52|D3=62
        |C=0.3, 0.1|-E=2.30 by depth_gauge|D5=42|D6=61.9|D5=42|D2=84""",
}
OPTIONAL = ("R1", "R2", "T3", "T4", "T5", "K3")


def sizes(kind):
    for each in SIZES[kind].split("|"):
        letter, size = each.strip().split("=")
        yield letter.lstrip("-"), letter.startswith("-"), size.strip()


def more(figure):
    """A little more, in as many decimals."""
    decimals = len(figure.partition(".")[2])
    return f"{float(figure) + 10.0 ** -decimals:.{decimals}f}"


def measured(size):
    """Another size: what is typed, and how it stands in the file."""
    by = re.fullmatch(r"([\d.]+) by (\w+)", size)
    if by:
        return more(by[1]), f"{more(by[1])} by {by[2]}"
    if size.startswith("["):
        figures = [more(each) for each in re.findall(r"[\d.]+", size)]
        return " ".join(figures), f"[{', '.join(figures)}] by {size.rsplit(' ', 1)[1]}"
    if re.fullmatch(r"\d+(\.\d+)?", size):
        return more(size), more(size)
    if re.fullmatch(r"[\d.]+, [\d.]+", size):
        return size.replace(", ", "+"), size
    limits = re.fullmatch(r"([\d.]+) (±[\d.]+)", size)
    if limits:
        return f"{more(limits[1])} {limits[2]}", f"{more(limits[1])} {limits[2]}"
    return size, size


class Asking:
    """The program at a terminal of its own: standard output goes into a pipe."""

    def __init__(self, program, *words, folder):
        self.terminal, theirs = pty.openpty()
        attributes = termios.tcgetattr(theirs)
        attributes[3] &= ~termios.ECHO
        termios.tcsetattr(theirs, termios.TCSANOW, attributes)
        self.child = subprocess.Popen([program, "start", *words], stdin=theirs, stderr=theirs,
                                      stdout=subprocess.PIPE, cwd=folder,
                                      env=os.environ | {"TERM": "xterm", "NO_COLOR": "1"})
        os.close(theirs)
        self.heard = ""

    def listen(self):
        ready, _, _ = select.select([self.terminal], [], [], 0.2)
        try:
            block = os.read(self.terminal, 65536) if ready else b""
        except OSError:  # the other end is closed
            block = b""
        self.heard += block.decode().replace("\r\n", "\n")
        return bool(block)

    def question(self):
        """The letter that is asked for, and what was said since the last answer."""
        end = time.monotonic() + PATIENCE
        while not re.search(r"(?:^|\n)(\w+) +[^\n]*: $", self.heard):
            assert time.monotonic() < end, f"no question: {self.heard!r}"
            assert self.child.poll() is None, f"ended: {self.child.returncode} {self.heard!r}"
            self.listen()
        said, self.heard = self.heard, ""
        return re.search(r"(?:^|\n)(\w+) +[^\n]*: $", said)[1], said

    def type(self, words, end="\n"):
        os.write(self.terminal, (words + end).encode())

    def ended(self):
        """The last words, the answer and the exit code."""
        answer, _ = self.child.communicate(timeout=PATIENCE)
        while self.listen():
            pass
        os.close(self.terminal)
        return self.heard, answer.decode(), self.child.returncode


def said_by(program, *words):
    return subprocess.run([program, "start", *words], capture_output=True, text=True, check=True,
                          timeout=PATIENCE).stdout


def letters_of_page(program, kind):
    page = said_by(program, kind, "--worksheet")
    rows = re.findall(r'<th scope="row"[^>]*>.*?</th>', page, flags=re.S)
    words = [html.unescape(re.sub(r"<[^>]*>", "", row)) for row in rows]
    return [word.rstrip("*") for word in words if re.fullmatch(r"[A-Z]\d*\*?", word)]


def by_hand(program, kind):
    """The template with other sizes and its optional sections, what was typed for each letter."""
    text = said_by(program, kind)
    typed, at, out = {}, 0, ""
    for letter, inboard, size in sizes(kind):
        words, new = measured(size)
        old = ("-" if inboard else "") + size
        if inboard:
            new = "-" + new
        begin = text.index(old, at)
        out += text[at:begin] + new
        at = begin + len(old)
        typed.setdefault(letter, words)
    out += text[at:]
    for section in ("readings", "timing"):
        block = re.search(rf"^# {section}:\n(#   .*\n)+", out, flags=re.M)
        if block:
            lines = block[0].splitlines(True)
            out = out.replace(block[0], "".join(line[2:] for line in lines))
    return out.replace(" (invented)", "", 1), typed


def from_first_key(text):
    return text[text.index("\ntrialfit: 1"):]


def check_code(program, file):
    return subprocess.run([program, "check", file], capture_output=True, check=False,
                          timeout=PATIENCE).returncode


def typed_in_is_edited(program, kind, folder):
    expected, typed = by_hand(program, kind)
    run = Asking(program, kind, "--ask", "-o", "typed.yaml", "--force", folder=folder)
    order = letters_of_page(program, kind)
    assert sorted(order) == sorted(typed), (kind, order, sorted(typed))
    for letter in order:
        asked, _ = run.question()
        assert asked == letter, f"{kind}: asked for {asked} instead of {letter}"
        run.type(typed[letter])
    said, answer, code = run.ended()
    text = (folder / "typed.yaml").read_text(encoding="utf-8")
    assert "INVENTED" not in text, text
    assert "NOT YOURS YET" in text.partition("\ntrialfit: 1")[0], text
    assert from_first_key(text) == from_first_key(expected), \
        f"{kind}:\n{text}\n--- by hand:\n{expected}"
    assert code in (0, 1) and code == check_code(program, folder / "typed.yaml"), (code, answer)
    assert "Wrote typed.yaml." in said and answer.startswith(("Fits", "Does not", "Doubtful")), \
        (said, answer)


def left_blank(program, kind, folder):
    """Enter wherever it is taken; the template's size where one is needed."""
    template = {letter: size for letter, _, size in sizes(kind)}
    run = Asking(program, kind, "--ask", "-o", "blank.yaml", "--force", folder=folder)
    needed = open_ones = 0
    while run.child.poll() is None:
        try:
            letter, _ = run.question()
        except AssertionError:
            break
        before = run.heard
        run.type("")
        end = time.monotonic() + PATIENCE
        while run.heard == before and run.child.poll() is None and time.monotonic() < end:
            run.listen()
        if "cannot be left open" not in run.heard:
            open_ones += 1
            continue
        needed += 1
        asked, _ = run.question()
        assert asked == letter, (asked, letter)
        run.type(template[letter].replace(", ", "+"))
    said, answer, code = run.ended()
    text = (folder / "blank.yaml").read_text(encoding="utf-8")
    assert "unmeasured" in text and "INVENTED" not in text, text
    assert code == 1 and "NOT JUDGED" in answer, (kind, code, answer, said)
    assert open_ones, (kind, needed)


def wrong_answers(program, folder):
    run = Asking(program, "ignition", "--ask", "-o", "wrong.yaml", folder=folder)

    def refused(answer, because):
        run.type(answer)
        asked, said = run.question()
        assert because in said, f"{answer!r}: {said!r}"
        return asked

    letter, said = run.question()
    assert letter == "A" and "Ctrl-D: stop" in said, said
    for answer, because in (
            ("high", "is not a size"), ("52,0", "decimal comma"), ("-52", "less than nothing"),
            ("52000", "far from what such a part has"), ("2", "far from what such a part has"),
            ("52 by eye", "none of the gauges here"), ("52 \"# {", "that is no size"),
            ("52 furlongs", "52 furlongs"), ("b", "this is the first one"),
            ("?", "Straight edge across the cover's face")):
        assert refused(answer, because) == "A", answer
    assert refused("51.98", "= 51.98 by depth_gauge") == "D1"
    assert refused("0", "a diameter of nothing") == "D1"
    assert refused("32", "") == "D2"
    assert refused("30", "D2 is not more than D1") == "D2"
    assert refused("b", "D1") == "D1"
    assert refused("31.5 32.5", "one figure is enough") == "D1"
    assert refused("29", "") == "D2"
    assert refused("112", "") == "B"
    assert refused("-0.5", "= -0.5 by depth_gauge") == "P1"
    assert refused("loose", "") == "P1"
    assert refused("0.1..0.2", "") == "C"
    for answer in ("22", "40", "17", ""):
        run.type(answer)
        asked, _ = run.question()
    assert asked == "K1", asked  # not to be left open
    assert refused("steep", "") == "K1"
    assert refused("1:5", "") == "F"
    assert refused("18", "") == "T1"
    assert refused("12 mil", "") == "T1"
    assert refused("M10x1-6g", "") == "D4"
    run.type("", end="\x04")
    said, answer, code = run.ended()
    assert code == 2 and not answer and "nothing was written" in said, (code, said)
    assert not (folder / "wrong.yaml").exists(), "written"


def broken_off(program, folder):
    for how in ("Ctrl-D", "Ctrl-C"):
        run = Asking(program, "spacer", "--ask", "-o", "broken.yaml", folder=folder)
        run.question()
        run.type("0 ±0.003")
        run.question()
        if how == "Ctrl-D":
            run.type("", end="\x04")
        else:
            run.child.send_signal(signal.SIGINT)
        said, answer, code = run.ended()
        assert code == 2 and answer == "", (how, code, answer)
        assert "the questions were broken off, and nothing was written" in said, (how, said)
        assert not (folder / "broken.yaml").exists(), how


def told_before(program, folder):
    (folder / "there.yaml").write_text("mine", encoding="utf-8")
    run = Asking(program, "spacer", "--ask", "-o", "there.yaml", folder=folder)
    said, _, code = run.ended()
    assert code == 2 and "is there already" in said and "0 ±" not in said, (code, said)
    assert (folder / "there.yaml").read_text(encoding="utf-8") == "mine"


def not_lost(program, folder):
    """Where the file cannot be written in the end, the answers are told."""
    (folder / "gone").mkdir()
    run = Asking(program, "bearing", "--ask", "-o", "gone/typed.yaml", folder=folder)
    for letter in letters_of_page(program, "bearing"):
        assert run.question()[0] == letter
        if letter == "D6":
            (folder / "gone").rmdir()
        run.type(measured({each: size for each, _, size in sizes("bearing")}[letter])[0])
    said, answer, code = run.ended()
    assert code == 2 and not answer and "no folder" in said, (code, said)
    assert "28.01 by micrometer" in said.partition("The answers, to be kept by hand:")[2], said


def in_inches(program, folder):
    run = Asking(program, "endfloat", "--ask", "--inches", "-o", "inches.yaml", folder=folder)
    _, said = run.question()
    assert "Lengths in inches." in said, said
    for answer in ("2.441", "0.6", "1.26", "2.3267 2.3269 2.3266", "0.9", "0.02+0.008", "0.059 ±0.0004",
                   "0.6", "1.1", "none", "0.031", "0.6"):
        run.type(answer)
        run.question()
    run.type("1.26")
    _, answer, code = run.ended()
    text = (folder / "inches.yaml").read_text(encoding="utf-8")
    assert "units: in\n" in text and "[2.3267, 2.3269, 2.3266] by micrometer" in text, text
    assert "fitted: []" in text, text
    assert code in (0, 1) and "inch" in answer, (code, answer)


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--program", required=True)
    program = pathlib.Path(parser.parse_args().program).resolve()
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        for kind in SIZES:
            typed_in_is_edited(program, kind, folder)
            left_blank(program, kind, folder)
        for part in (wrong_answers, broken_off, told_before, not_lost, in_inches):
            part(program, folder)


main()
