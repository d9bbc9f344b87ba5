# SPDX-License-Identifier: MIT
"""What made-up jobs are held to: how often, what did not hold, and of which jobs."""


def near(got, wanted, within=1e-9):
    """Within so much of 1, or of the larger of the two."""
    return abs(got - wanted) <= within * max(1.0, abs(got), abs(wanted))


class Held:
    SHOWN = 8  # faults of one job

    def __init__(self):
        self.faults, self.counts, self.jobs, self.bad = [], {}, 0, 0

    def hold(self, kind, true, text):
        self.counts[kind] = self.counts.get(kind, 0) + 1
        if not true:
            self.faults.append(f"{kind}: {text}")

    def ask(self, name, compare):
        """Counts a job once `compare` has been through it, and tells what of it did not hold, even where it
        raises."""
        before = len(self.faults)
        try:
            compare()
            self.jobs += 1
        finally:
            if len(self.faults) > before:
                self.bad += 1
                print(f"{name}:")
                print("".join(f"    {fault}\n" for fault in self.faults[before:][:self.SHOWN]), end="")

    def end(self, what, skipped=""):
        """Sums up; returns the exit code."""
        print(f"{self.jobs} {what}, {self.bad} in disagreement; held: {self.counts}{f'; skipped: {skipped}' if skipped else ''}")
        return 1 if self.bad or not self.jobs else 0
