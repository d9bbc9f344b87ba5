# SPDX-License-Identifier: MIT
"""A made-up job of as many parts as a test wants."""


def pile(parts):
    """A job file of many parts, one on the other."""
    lines = ["trialfit: 1", "title: A pile", "units: mm", "parts:", "  - part: floor",
             "    faces: {top: zero}"]
    under = "floor.top"
    for i in range(parts):
        lines += [f"  - part: p{i}", f"    sits: {{face: back, against: {under}}}",
                  "    faces: {back: zero, front: 1 ±0.01 from back}",
                  f"    rings: {{body: {{from: back, to: front, bore: 10, od: {20 + i % 7}}}}}"]
        under = f"p{i}.front"
    return "\n".join(lines) + f"\nchecks:\n  - {{check: height, gap: [floor.top, {under}], at_least: 1}}\n"
