# SPDX-License-Identifier: MIT
"""House rules that a compiler does not hold: what lies where, file lengths, first lines, words."""
import pathlib
import re
import subprocess
import sys

root = pathlib.Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(root / "tests" / "support"))
from program import Findings  # noqa: E402

TOP = {"CMakeLists.txt", "README.md", "DEVELOPERS.md", "LICENSE",
       "lib", "cli", "schemas", "tests", "examples"}
CODE = {".cpp", ".hpp", ".py", ".cmake"}
TEXT = CODE | {".md", ".yaml", ".json", ".txt", ".sh", ".expected", ""}
LONGEST = 500
# Paths of one machine; put together, so that this file does not hold them itself.
ELSEWHERE = re.compile("|".join("/" + place + "/" for place in ("work", "root", "home"))
                       + r"|\.\./sha" + "red")

# What goes by the host program's language: figures and letters are made by quantity/characters.hpp,
# std::from_chars and fmt.
BY_LANGUAGE = re.compile(r"std::(sto[a-z]+|strto[a-z]+|[io]?stringstream|locale|setlocale|"
                         r"to(lower|upper)|is(alnum|alpha|digit|space|upper|lower|punct|print))\b|"
                         r"\b(s?n?printf|atof|atoi)\(|\{:[^}]*L\}")
# There, std::to_string is of whole numbers only.
WHOLE_NUMBERS = {"trade", "job"}


def files():
    """Everything that is, or would be, part of the project; all files where there is no git."""
    listed = subprocess.run(["git", "-C", str(root), "ls-files", "-z", "--cached", "--others",
                             "--exclude-standard"], capture_output=True, check=False)
    if listed.returncode == 0:
        names = listed.stdout.decode().split("\0")
        return [root / name for name in names if name and (root / name).is_file()]
    return [file for file in root.rglob("*") if file.is_file() and "build" not in file.parts[-3:]]


def main():
    found = Findings()
    for file in files():
        name = file.relative_to(root)
        top = name.parts[0]
        found.hold(top in TOP or top.startswith("."), f"{name}: does not belong at the top level")
        if file.suffix not in TEXT or name.parts[:3] == ("tests", "hostile", "made"):
            continue
        text = file.read_text(encoding="utf-8")
        lines = text.splitlines()
        elsewhere = ELSEWHERE.search(text)
        found.hold(not elsewhere, f"{name}: names a place outside: {elsewhere and elsewhere[0]}")
        if file.suffix in CODE or file.name == "CMakeLists.txt":
            found.hold(len(lines) <= LONGEST, f"{name}: {len(lines)} lines, more than {LONGEST}")
            found.hold(text.endswith("\n"), f"{name}: no line end at its end")
            found.hold("\t" not in text, f"{name}: a tab")
        if file.suffix in {".cpp", ".hpp"}:
            found.hold(lines and lines[0].endswith(" SPDX-License-Identifier: MIT"),
                       f"{name}: the first line is not the licence's")
        if file.suffix in {".cpp", ".hpp"} and top in {"lib", "cli"}:
            by_language = BY_LANGUAGE.search(text)
            found.hold(not by_language, f"{name}: {by_language and by_language[0]}: goes by the "
                                        "host program's language")
            found.hold(top == "cli" or name.parts[2] in WHOLE_NUMBERS or
                       "std::to_string" not in text, f"{name}: std::to_string: use fmt")
        if file.suffix == ".hpp":
            found.hold("#pragma once" in lines, f"{name}: no #pragma once")
    found.end()


main()
