# SPDX-License-Identifier: MIT
"""Leaving one key out of an example that `check` finds wanting never makes it hold unsaid.

`check` may then end with 0 only where less was asked, where the README says how the absence is read
("What is left out"), or where the answer's first word is WARNING. --all asks `odds` and `plan` as well.
"""
import copy
import json
import pathlib
import sys
import tempfile

here = pathlib.Path(__file__).resolve().parent
root = here.parent.parent
sys.path.insert(0, str(here.parent / "support"))
import job_yaml  # noqa: E402
from left_out import keys_of, without  # noqa: E402
from program import Findings, arguments, run  # noqa: E402

# As the README's table has them; a name that the job itself gives stands as *.
READ_AS_THE_README_SAYS = {
    "checks", "checks.at_least", "checks.at_most", "states", "states.*", "parts.rings", "parts.rings.*",
    "parts.sits.offset", "running_clearance",
    # Said under "Not assessed": no length of the part grows.
    "parts.material", "materials.expansion",
}


def pattern(path):
    words = [each for each in path if isinstance(each, str)]
    if words[0] == "states" and len(words) > 1:
        words[1] = "*"
    if "rings" in words and words.index("rings") + 1 < len(words):
        words[words.index("rings") + 1] = "*"
    return ".".join(words)


def main():
    given = arguments(__doc__, "--all")
    findings = Findings()
    lost = wanting = 0
    with tempfile.TemporaryDirectory() as folder:
        file = pathlib.Path(folder, "job.yaml")

        def ends(job, command):
            file.write_text(json.dumps(job, ensure_ascii=False), encoding="utf-8")
            return run([given.program, command, str(file)])

        for command in ("check", "odds", "plan") if given.all else ("check",):
            for example in sorted((root / "examples").glob("*.yaml")):
                job = job_yaml.load(example)
                if ends(job, command).code != 1:
                    continue
                wanting += 1
                for number, path in enumerate(keys_of(job)):
                    if given.sanitized and number % 12:
                        continue
                    result = ends(without(copy.deepcopy(job), path), command)
                    if result.code != 0:
                        findings.hold(result.code in (1, 2), f"{command} {example.name} without {path}: "
                                                             f"ended with {result.code}")
                        continue
                    lost += 1
                    findings.hold(pattern(path) in READ_AS_THE_README_SAYS or result.out.startswith(b"WARNING"),
                                  f"{command} {example.name}: holds without {'.'.join(map(str, path))}")
    findings.hold(wanting > 5, "hardly an example is wanting")
    findings.hold(given.sanitized or lost > 10, "no key matters")
    print(f"{lost} keys whose loss ends in 0")
    findings.end()


if __name__ == "__main__":
    main()
