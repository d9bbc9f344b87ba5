# SPDX-License-Identifier: MIT
"""A folder in which the program writes a file while its calls fail: see tests/hostile/fault_at_call.cpp."""
import os
import subprocess

PATIENCE = 60  # seconds


class FaultyPlace:
    """A folder with the files `given` in it, the program, and the library before it."""

    def __init__(self, folder, program, shim, given):
        self.folder, self.program, self.shim, self.given = folder, program, shim, given

    def clear(self):
        for each in self.folder.iterdir():
            each.unlink()
        for name, text in self.given.items():
            (self.folder / name).write_bytes(text)

    def run(self, words, **fault):
        return subprocess.run([self.program, *words], cwd=self.folder, stdin=subprocess.DEVNULL,
                              env=os.environ | {"LD_PRELOAD": self.shim} | fault,
                              capture_output=True, check=False, timeout=PATIENCE)

    def text(self, name):
        path = self.folder / name
        return path.read_bytes() if path.exists() else None

    def left(self, *names):
        """What lies there beside the given files and those named."""
        return {each.name for each in self.folder.iterdir()} - {*self.given, *names}
