# SPDX-License-Identifier: MIT
"""What the README shows is what the program does.

  ```console   each `$ ` line is run in the checkout by a shell; the lines after it are its output
  ```yaml      a whole job, which is read and answered
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

BLOCK = re.compile(r"^```(\w+)\n(.*?)^```$", re.MULTILINE | re.DOTALL)


def shown(block):
    """(command, output as shown) of a console block."""
    for each in re.split(r"^\$ ", block, flags=re.MULTILINE)[1:]:
        command, _, output = each.partition("\n")
        yield command, output


def main():
    given = arguments(__doc__)
    found = Findings()
    environment = dict(os.environ, PATH=f"{pathlib.Path(given.program).parent}:{os.environ['PATH']}")
    blocks = BLOCK.findall((root / "README.md").read_text(encoding="utf-8"))
    commands = [each for kind, block in blocks if kind == "console" for each in shown(block)]
    jobs = [block for kind, block in blocks if kind == "yaml"]
    found.hold(len(commands) >= 3 and jobs, "the README shows too little to be tested")
    for command, output in commands:
        said = subprocess.run(["bash", "-c", command], cwd=root, env=environment, check=False,
                              stdout=subprocess.PIPE, stderr=subprocess.STDOUT).stdout.decode()
        found.hold(said == output, f"$ {command}\nsays\n{said}\nthe README shows\n{output}")
    with tempfile.TemporaryDirectory() as directory:
        for block in jobs:
            file = pathlib.Path(directory) / "job.yaml"
            file.write_text(block, encoding="utf-8")
            result = run([given.program, "check", str(file)])
            found.hold(result.code in (0, 1), f"{block}\nis refused:\n{result.err.decode()}")
    found.end()


main()
