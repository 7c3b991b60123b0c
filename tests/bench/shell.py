"""`check` from the shell against a process that only imports the same libraries and builds a unit registry."""

from __future__ import annotations

import subprocess
import sys

from tests.bench.timing import once, row

IMPORTS = "import numpy, sympy, pydantic, networkx, click, pint; pint.UnitRegistry().meter"


def run() -> None:
    print("check from the shell")
    ours = [sys.executable, "-m", "rigcheck", "check", "kiln-shell", "--json"]
    theirs = [sys.executable, "-c", IMPORTS]
    for command in (ours, theirs):
        subprocess.run(command, capture_output=True, check=False)
    baseline = min(once(lambda: subprocess.run(theirs, capture_output=True, check=True)) for _ in range(5))
    took = min(once(lambda: subprocess.run(ours, capture_output=True, check=False)) for _ in range(5))
    row("check kiln-shell --json", took, baseline, "importing the same libraries", "<= 2")
