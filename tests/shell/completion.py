# SPDX-License-Identifier: MIT
"""Completion in bash, zsh and fish, typed on a terminal: commands, options, their words, files and the
names that stand in the job. A shell that is not installed is told of and left out.
python3 tests/shell/completion.py --program build/trialfit"""
import os
import pathlib
import pty
import re
import select
import shutil
import subprocess
import sys
import tempfile
import time

root = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(root / "tests" / "support"))
from program import Findings, arguments  # noqa: E402

# What is typed before the tab, and what the line is to hold after it.
TYPED = (("trialfit chec", "trialfit check "),
         ("trialfit check --infl", "--inflate"),
         ("trialfit check --judge r", "rss"),
         ("trialfit check dem", "demo.yaml"),
         ("trialfit check demo.yaml --with plate.fr", "plate.front="),
         ("trialfit record demo.yaml --shim stat", "stator="),
         ("trialfit why demo.yaml rotor.nut", "rotor.nut_seat"),
         ("trialfit why demo.yaml magnets", "over"),
         ("trialfit start endf", "endfloat"),
         ("trialfit table thre", "thread"),
         ("trialfit manual surv", "survey"))
SETUP = {
    "bash": (["bash", "--norc", "--noprofile", "-i"], "PS1='> '; bind 'set enable-bracketed-paste off'; source <(trialfit completion bash)"),
    "zsh": (["zsh", "-f", "-i"], "PS1='> '; unsetopt zle_bracketed_paste; autoload -Uz compinit; compinit -u -D; source <(trialfit completion zsh)"),
}
CONTROLS = re.compile(r"\x1b\[[0-9;?]*[a-zA-Z]|\x1b[=>]|\x07|\r")


class Terminal:
    def __init__(self, line, folder, environment):
        self.pid, self.end = pty.fork()
        if self.pid == 0:
            os.chdir(folder)
            os.execvpe(line[0], line, environment)

    def read(self, until, seconds=10.0):
        seen = ""
        ends = time.monotonic() + seconds
        while time.monotonic() < ends:
            ready, _, _ = select.select([self.end], [], [], 0.1)
            if ready:
                try:
                    seen += os.read(self.end, 65536).decode("utf-8", "replace")
                except OSError:
                    break
            if until(CONTROLS.sub("", seen)):
                break
        return CONTROLS.sub("", seen)

    def write(self, text):
        os.write(self.end, text.encode())

    def stop(self):
        os.close(self.end)
        os.waitpid(self.pid, 0)


def typed(found, shell, folder, environment):
    line, setup = SETUP[shell]
    for before, after in TYPED:
        terminal = Terminal(line, folder, environment)
        terminal.write(setup + "; echo rea''dy\n")
        terminal.read(lambda seen: "\nready" in seen)
        terminal.write(before + "\t")
        seen = terminal.read(lambda seen: after in seen.split("> ")[-1], 5.0)
        found.hold(after in seen.split("> ")[-1], f"{shell}: '{before}' and a tab: {seen!r}")
        terminal.stop()


def told_by_fish(found, folder, environment):
    """fish tells what it would complete."""
    for before, after in TYPED:
        run = subprocess.run(["fish", "--no-config", "-c", f"trialfit completion fish | source; complete -C '{before}'"],
                             cwd=folder, env=environment, capture_output=True, text=True, check=False, timeout=60)
        found.hold(after.split()[-1] in run.stdout and not run.stderr, f"fish: '{before}': {run.stdout!r} {run.stderr!r}")


def main():
    given = arguments(__doc__)
    found = Findings()
    with tempfile.TemporaryDirectory() as folder:
        shutil.copy(root / "examples" / "pump-engine.yaml", pathlib.Path(folder, "demo.yaml"))
        path = pathlib.Path(folder, "bin")
        path.mkdir()
        (path / "trialfit").symlink_to(given.program)
        environment = {"PATH": f"{path}:{os.environ['PATH']}", "TERM": "xterm", "HOME": folder, "LC_ALL": "C.UTF-8"}
        for shell in ("bash", "zsh", "fish"):
            if shutil.which(shell) is None:
                print(f"{shell} is not installed: left out")
            elif shell == "fish":
                told_by_fish(found, folder, environment)
            else:
                typed(found, shell, folder, environment)
    found.end()


main()
