"""A full check of each example: in a warm process whose shape was solved before with other numbers, and for the first time."""

from __future__ import annotations

import subprocess
import sys

from rigcheck.checks.assessment import assess
from rigcheck.rig import examples
from rigcheck.rig.files import dumps, loads
from tests.bench.timing import best_of, once, row

BASELINE = "symbolic 3 x 3 solve in sympy"
COLD = """
import time, sys
from rigcheck.rig import examples
from rigcheck.checks.assessment import assess
rig = examples.example(sys.argv[1])
start = time.perf_counter()
assess(rig)
print(time.perf_counter() - start)
"""


def _baseline() -> float:
    import sympy

    def solve():
        sympy.core.cache.clear_cache()
        a = sympy.symbols("a:9")
        sympy.Matrix(3, 3, a).LUsolve(sympy.Matrix(sympy.symbols("b:3")))

    return best_of(solve, times=3)


def run() -> None:
    print("full check of each example (goals: 50 ms warm with another number, 1 s for the first time in a process)")
    baseline = _baseline()
    for name in examples.names():
        rig = examples.example(name)
        assess(rig)
        text = dumps(rig)
        mass = rig.load.mass.text
        others = [
            loads(text.replace(f'"{mass}"', f'"{kg:.3f} kg"', 1)) for kg in (rig.load.mass.value * (1 + 0.001 * i) for i in range(1, 9))
        ]
        warm = min(once(lambda other=other: assess(other)) for other in others)
        cold = float(subprocess.run([sys.executable, "-c", COLD, name], capture_output=True, text=True, check=True).stdout)
        row(f"{name}, warm", warm, baseline, BASELINE, "<= 50 ms")
        row(f"{name}, first time", cold, baseline, BASELINE, "<= 1 s")
