# SPDX-License-Identifier: MIT
"""What the README shows is what the program does.

  ```console   each `$ ` line is run in the checkout by a shell; the lines after it are its output
  ```yaml      a whole job, which is read and answered
  ```cpp       a whole program, which is built in the consumer's test; the ```text after it is what
               it prints

and its table names every example. With --pin the outputs are written into it; read them then.
"""
import os
import pathlib
import re
import subprocess
import sys
import tempfile

root = pathlib.Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(root / "tests" / "support"))
from program import Findings, arguments, run  # noqa: E402

README = root / "README.md"
BLOCK = re.compile(r"^```(\w+)\n(.*?)^```$", re.MULTILINE | re.DOTALL)


def commands_of(block):
    """(command, output as shown) of a console block."""
    for each in re.split(r"^\$ ", block, flags=re.MULTILINE)[1:]:
        command, _, output = each.partition("\n")
        yield command, output


def said(command, program):
    """What a shell in the checkout prints, with `trialfit` being `program`."""
    environment = dict(os.environ, PATH=f"{pathlib.Path(program).parent}:{os.environ['PATH']}")
    return subprocess.run(["bash", "-c", command], cwd=root, env=environment, check=False,
                          stdout=subprocess.PIPE, stderr=subprocess.STDOUT).stdout.decode()


def pin(text, program):
    """The README with every console block as the program answers today."""
    def answered(match):
        if match[1] != "console":
            return match[0]
        body = "".join(f"$ {command}\n{said(command, program)}"
                       for command, _ in commands_of(match[2]))
        return f"```console\n{body}```"
    return BLOCK.sub(answered, text)


def main():
    given = arguments(__doc__, "--pin")
    found = Findings()
    if given.pin:
        README.write_text(pin(README.read_text(encoding="utf-8"), given.program), encoding="utf-8")
    text = README.read_text(encoding="utf-8")
    blocks = BLOCK.findall(text)
    commands = [each for kind, block in blocks if kind == "console" for each in commands_of(block)]
    jobs = [block for kind, block in blocks if kind == "yaml"]
    found.hold(len(commands) >= 3 and jobs, "the README shows too little to be tested")
    for command, output in commands:
        now = said(command, given.program)
        found.hold(now == output, f"$ {command}\nsays\n{now}\nthe README shows\n{output}")
    with tempfile.TemporaryDirectory() as directory:
        for block in jobs:
            file = pathlib.Path(directory) / "job.yaml"
            file.write_text(block, encoding="utf-8")
            result = run([given.program, "check", str(file)])
            found.hold(result.code in (0, 1), f"{block}\nis refused:\n{result.err.decode()}")
    for example in sorted((root / "examples").glob("*.yaml")):
        found.hold(f"| `{example.name}` |" in text, f"the README does not name {example.name}")
    found.end()


main()
