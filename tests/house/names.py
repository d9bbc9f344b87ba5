# SPDX-License-Identifier: MIT
"""One name, one meaning: no type of a header stands in two rooms; and every function of a header has its words.

A room's own kinds of message, and the options of its call, mean the same in each room that has them.
"""
import collections
import pathlib
import re
import sys

root = pathlib.Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(root / "tests" / "support"))
from program import Findings  # noqa: E402

LIB = root / "lib" / "trialfit"
EACH_ROOMS_OWN = {"Note", "Warning", "Remark", "NotAssessed", "NotJudged", "Options"}
TYPE = re.compile(r"^(?:struct|class|enum class)\s+(\w+)\s*(?:final\s*)?(?::[^;{]*)?\{|^using\s+(\w+)\s*=",
                  re.M)
FUNCTION = re.compile(r"^(?!using|namespace|struct|class|enum|template|#|}|\s|static_assert|inline constexpr)[^;={]*\w\(")


def types(found):
    """Namespace-level types of headers, by name."""
    where = collections.defaultdict(set)
    headers = sorted(LIB.rglob("*.hpp"))
    for header in headers:
        code = re.sub(r"//.*", "", header.read_text(encoding="utf-8"))
        for match in TYPE.finditer(code):
            where[match[1] or match[2]].add(header.relative_to(LIB))
    found.hold(len(where) > 500, f"{len(where)} types found: the search is broken")
    for name, paths in sorted(where.items()):
        rooms = {path.parts[0] for path in paths}
        found.hold(len(rooms) == 1 or name in EACH_ROOMS_OWN,
                   f"{name} is a type of {len(rooms)} rooms: {', '.join(map(str, sorted(paths)))}")


def comments(found):
    """A function that is declared in a header stands under a comment: its own, its group's, or that of the type above it."""
    functions = 0
    for header in sorted(LIB.rglob("*.hpp")):
        told = False
        for number, line in enumerate(header.read_text(encoding="utf-8").splitlines(), 1):
            if line.startswith("//"):
                told = True
            elif not line.strip():
                told = False
            elif FUNCTION.match(line):
                functions += 1
                found.hold(told, f"{header.relative_to(root)}:{number}: a function without a comment")
    found.hold(functions > 500, f"{functions} functions found: the search is broken")


def main():
    found = Findings()
    types(found)
    comments(found)
    found.end()


main()
