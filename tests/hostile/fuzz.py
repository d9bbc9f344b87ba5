# SPDX-License-Identifier: MIT
"""Examples with one or two random harms each: answered or refused, never a crash, never a hang.

The harms follow from the example's name and a count alone, so that a finding can be made again.
"""
import pathlib
import random
import sys
import tempfile

here = pathlib.Path(__file__).resolve().parent
root = here.parent.parent
sys.path.insert(0, str(here.parent / "support"))
from program import Findings, arguments, run  # noqa: E402

RUNS = 640
SANITIZED_RUNS = 160  # each takes as long as ten
NUMBERS = (b"0", b"-1", b"1e6", b"-1000000", b"1e308", b".nan", b"1e-300", b"0.1 exact", b"25 h7",
           b"1..2", b"3 by caliper", b"[1, 2]", b"{}", b"")


def truncate(text, chance):
    return text[:chance.randrange(len(text))]


def flip_byte(text, chance):
    at = chance.randrange(len(text))
    return text[:at] + bytes([text[at] ^ (1 << chance.randrange(8))]) + text[at + 1:]


def insert_byte(text, chance):
    at = chance.randrange(len(text))
    return text[:at] + bytes([chance.choice(b"[]{}:,-#'\"&*!|>%@`\t\n \0\xff")]) + text[at:]


def on_lines(change):
    def harm(text, chance):
        lines = text.splitlines(keepends=True)
        change(lines, chance)
        return b"".join(lines)
    return harm


def delete_line(lines, chance):
    del lines[chance.randrange(len(lines))]


def double_line(lines, chance):
    at = chance.randrange(len(lines))
    lines.insert(at, lines[at])


def swap_lines(lines, chance):
    one, other = chance.randrange(len(lines)), chance.randrange(len(lines))
    lines[one], lines[other] = lines[other], lines[one]


def words(text):
    """Where the words stand that a harm may replace: (begin, end)."""
    begin = None
    for at, byte in enumerate(text + b" "):
        inside = chr(byte).isalnum() or byte in b"._"
        if inside and begin is None:
            begin = at
        elif not inside and begin is not None:
            yield begin, at
            begin = None


def replace_number(text, chance):
    numbers = [(a, b) for a, b in words(text) if text[a:b].replace(b".", b"").isdigit()]
    if not numbers:
        return text
    begin, end = chance.choice(numbers)
    return text[:begin] + chance.choice(NUMBERS) + text[end:]


def replace_word(text, chance):
    """Puts one word of the file in the place of another: keys, names and references get mixed."""
    places = list(words(text))
    if not places:
        return text
    (begin, end), (other_begin, other_end) = chance.choice(places), chance.choice(places)
    return text[:begin] + text[other_begin:other_end] + text[end:]


HARMS = (truncate, flip_byte, insert_byte, on_lines(delete_line), on_lines(double_line),
         on_lines(swap_lines), replace_number, replace_number, replace_word, replace_word)


def harmed(text, chance):
    for _ in range(chance.randint(1, 2)):
        if text:
            text = chance.choice(HARMS)(text, chance)
    return text


def fault_of(result, limit):
    """What is wrong with how the program took the file; nothing where all is well."""
    if result.code not in (0, 1, 2):
        return f"exit code {result.code}"
    if result.seconds > limit:
        return f"{result.seconds:.1f} s"
    if result.code == 2 and (result.out or b"error: " not in result.err):
        return "refused without a complaint, or with an answer"
    if result.code < 2 and not result.out:
        return "no answer"
    if b"nan" in result.out.lower() and b"nan" not in result.err.lower():
        return "an answer that is not a number"
    return None


def main():
    given = arguments(__doc__)
    runs = SANITIZED_RUNS if given.sanitized else RUNS
    found = Findings()
    examples = sorted((root / "examples").glob("*.yaml")) + sorted((here / "accepted").glob("*.yaml"))
    with tempfile.TemporaryDirectory() as directory:
        file = pathlib.Path(directory) / "harmed.yaml"
        answered = 0
        for count in range(runs):
            example = examples[count % len(examples)]
            text = harmed(example.read_bytes(), random.Random(f"{example.name} {count}"))
            file.write_bytes(text)
            command = ("check", "survey", "check", "survey", "why")[count % 5]
            check = ["rotor clear of coils"] if command == "why" else []
            result = run([given.program, command, str(file), *check])
            fault = fault_of(result, given.limit)
            answered += result.code < 2
            found.hold(not fault, f"{example.name} {count}, {command}: {fault}")
            if fault:
                pathlib.Path(f"fuzz-{count}.yaml").write_bytes(text)
                print(result.err.decode(errors="replace")[-1500:])
    found.hold(runs / 10 < answered < runs * 0.9, f"{answered} of {runs} answered: harms too mild or "
                                                  "too harsh to test both answers and refusals")
    found.end()


main()
