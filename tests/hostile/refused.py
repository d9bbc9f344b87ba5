# SPDX-License-Identifier: MIT
"""Every file that is no job is refused: the whole text of the complaint is pinned beside it.

NAME.yaml with NAME.expected; and files that no editor would keep, made here (made/NAME.expected).
After a change of wording: run with --pin, then read each changed text as its user would.
"""
import pathlib
import sys
import tempfile

here = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(here.parent / "support"))
from program import Findings, arguments, run  # noqa: E402

GOOD = (here / "made" / "good.yaml").read_bytes()
FAULTY = GOOD.replace(b"against: case.floor", b"against: case.flor")
LARGEST_MB = 100


def in_place(old, new):
    assert old in GOOD
    return GOOD.replace(old, new)


def made_files():
    """Name -> bytes of files that a repository or an editor would spoil."""
    front = "10 ±0.05".encode()
    yield "empty", b""
    yield "blank", b"\n \n\n"
    yield "only-a-comment", b"# nothing yet\n"
    yield "line-ends-crlf", FAULTY.replace(b"\n", b"\r\n")
    yield "byte-order-mark", b"\xef\xbb\xbf" + FAULTY
    yield "byte-order-mark-first-line", b"\xef\xbb\xbf" + GOOD.replace(b"trialfit: 1", b"trialfit: 2")
    yield "not-utf8", in_place(front, b"10 \xb10.05")
    yield "not-utf8-overlong", in_place(b"case.floor", b"case\xc0\xaefloor")
    yield "not-utf8-overlong-three", in_place(b"case.floor", b"case.\xe0\x9c\x9efloor")
    yield "not-utf8-half-pair", in_place(b"case.floor", b"case.\xed\xa0\x80floor")
    yield "not-utf8-cut-short", GOOD[:GOOD.index(front) + 4]
    yield "utf16", GOOD.decode().encode("utf-16")
    yield "utf16-without-mark", GOOD.decode().encode("utf-16-le")
    yield "zero-byte", in_place(b"case.floor", b"case.\0floor")
    yield "escape-codes", in_place(b"part: plate", b"part: \x1b[31mplate\x1b[0m")
    yield "escape-codes-quoted", in_place(b"part: plate", b'part: "\\e[31mplate"')
    yield "wide-characters", in_place(b"against: case.floor",
                                      "face_: 'ß漢字', against: case.flor".encode())
    yield "long-line", in_place(b"title: good", b"title: [" + b"a, " * 1000 + b"b]")
    yield "long-word", in_place(b"title: good", b"units: " + b"m" * 1000000)
    yield "ten-megabytes", GOOD + b"# padding padding padding padding\n" * 300000
    yield "many-nodes", GOOD + b"record: [" + b"1," * 400000 + b"1]\n"
    yield "many-parts-unseated", GOOD + b"".join(
        b"  - part: p%d\n    faces: {a: zero}\n" % i for i in range(20000))
    yield "deep-brackets", GOOD + b"checks: " + b"[" * 10000 + b"]" * 10000 + b"\n"
    yield "deep-brackets-open", GOOD + b"checks: " + b"[" * 100000 + b"\n"
    yield "deep-braces", GOOD + b"checks: " + b"{a: " * 10000 + b"}" * 10000 + b"\n"
    yield "deep-dashes", GOOD + b"checks:\n" + b"- " * 10000 + b"x\n"
    yield "deep-indentation", GOOD + b"checks:\n" + b"".join(
        b" " * i + b"a:\n" for i in range(1, 2500))
    yield "deep-question-marks", GOOD + b"checks:\n" + b"? " * 10000 + b"x\n"
    yield "face-chain-that-loops", long_chain(20000)
    yield "many-on-a-seat", GOOD + b"".join(
        b"  - part: p%d\n    sits: {face: in, against: case.floor}\n    faces: {in: zero}\n" % i for i in range(101))
    yield "many-states", GOOD + b"states: {" + b", ".join(b"s%d: %d C" % (i, 20 + i) for i in range(21)) + b"}\n"
    yield "many-entries", GOOD + b"record:\n" + b"".join(
        b"  - {date: 2026-01-01, note: n%d}\n" % i for i in range(101))
    yield "many-readings", GOOD + b"readings:\n" + b"".join(
        b"  - {reading: r%d, from: case.floor, to: plate.front, is: 10 exact}\n" % i for i in range(61))
    yield "many-shims", in_place(b"against: case.floor", b"against: case.floor, shims: {at_most: 21, stock: ["
                                 + b"0.5, " * 100 + b"0.6], fitted: [" + b"0.1, " * 100 + b"0.1]}")
    yield "random-bytes", bytes((i * 2654435761 >> 13) & 0xFF for i in range(5000))


def long_chain(n):
    """A face from a face from a face ... that never reaches zero."""
    faces = "".join(f"      f{i}: 1 exact from f{(i + 1) % n}\n" for i in range(n))
    return f"trialfit: 1\nparts:\n  - part: case\n    faces:\n      zero_face: zero\n{faces}".encode()


def command_lines(directory):
    """Name -> (arguments, standard input) that point at no job."""
    (directory / "folder.yaml").mkdir()
    (directory / "faulty.yaml").write_bytes(FAULTY)
    yield "a-directory", ["check", "folder.yaml"], None
    yield "missing-file", ["check", "pump-engnie.yaml"], None
    yield "missing-folder", ["check", "nowhere/pump.yaml"], None
    yield "a-file-as-folder", ["check", "faulty.yaml/pump.yaml"], None
    yield "name-empty", ["check", ""], None
    yield "name-too-long", ["check", "x" * 300], None
    yield "endless-device", ["check", "/dev/zero"], None
    yield "null-device", ["check", "/dev/null"], None
    yield "standard-input", ["check", "-"], FAULTY
    yield "standard-input-empty", ["check", "-"], b""
    yield "why-of-a-faulty-file", ["why", "faulty.yaml", "room"], None


def judge(found, given, name, expected, result):
    """One refusal: the code, silence on standard output, the text, time and memory."""
    if given.pin:
        expected.write_bytes(result.err)
    wanted = expected.read_bytes() if expected.exists() else b"(no expected text)\n"
    found.hold(result.code == 2, f"{name}: exit code {result.code}, not 2")
    found.hold(result.out == b"", f"{name}: standard output is not empty")
    found.hold(result.err == wanted, f"{name}: says\n{result.err.decode(errors='replace')[:2000]}"
                                     f"\n  but {expected.name} has\n{wanted.decode()[:2000]}")
    found.hold(result.seconds <= given.limit, f"{name}: took {result.seconds:.1f} s")
    found.hold(given.sanitized or result.peak_mb <= LARGEST_MB,
               f"{name}: took {result.peak_mb:.0f} MB")


def main():
    given = arguments(__doc__, "--pin")
    found = Findings()
    files = sorted(here.glob("*.yaml"))
    found.hold(len(files) >= 60, f"only {len(files)} refused files")
    for file in files:
        result = run([given.program, "check", file.name], cwd=here)
        judge(found, given, file.stem, file.with_suffix(".expected"), result)
    with tempfile.TemporaryDirectory() as name:
        directory = pathlib.Path(name)
        for name, text in made_files():
            (directory / f"{name}.yaml").write_bytes(text)
            result = run([given.program, "check", f"{name}.yaml"], cwd=directory)
            judge(found, given, name, here / "made" / f"{name}.expected", result)
        for name, words, text in command_lines(directory):
            with tempfile.TemporaryFile() as stdin:
                stdin.write(text or b"")
                stdin.seek(0)
                result = run([given.program, *words], cwd=directory, stdin=stdin)
            judge(found, given, name, here / "made" / f"{name}.expected", result)
    found.end()


main()
