"""10,000 heights of each example through its compiled closed form, against the same rig written by hand in NumPy."""

from __future__ import annotations

from functools import partial

import numpy
import sympy

from rigcheck.rig import examples
from rigcheck.statics.solution import solve
from rigcheck.working import GEOMETRY
from tests.bench.timing import best_of, row

MANY = 10_000

# Each is the pull at the drive (or of one fall alone where two share the load), raising, as one would write it for this very rig.
# m, M masses of load and counterweight, g gravity, e sheave efficiency, c the cosine of an askew fall.
BY_HAND = {
    "bakery-flour-hoist": lambda m, M, g, e, c: m * g / (1 + e + e**2 + e**3),
    "boat-engine": lambda m, M, g, e, c: m * g / (e + e**2 + e**3 + e**4),
    "gallery-crate": lambda m, M, g, e, c: m * g / (e * c),
    "found-winch": lambda m, M, g, e, c: m * g / e,
    "kiln-shell": lambda m, M, g, e, c: (m * g - M * g * e**2) / e**2,
    "loft-lift": lambda m, M, g, e, c: m * g / e**2,
    "studio-counterweight": lambda m, M, g, e, c: (m * g - M * g * e**2) / e,
    "tired-hoist": lambda m, M, g, e, c: m * g / e,
    "well-crank": lambda m, M, g, e, c: m * g / e,
}


def run() -> None:
    print("closed forms: 10,000 heights of each example, masses varied along them")
    rng = numpy.random.default_rng(1)
    for name in examples.names():
        if name not in BY_HAND:
            print(f"  {name}: no hand-written expression yet")
            continue
        solution = solve(examples.example(name))
        rope = solution.drive_rope
        line = solution.runs[rope][solution.powers[rope].reference].raising
        expression, roots = solution.working.closed_form(line)
        compiled = sympy.lambdify(list(roots), expression, "numpy", cse=True)
        along = numpy.linspace(0, len(solution.travel.heights_m) - 1, MANY)
        values = {
            symbol: part.number if not part.runs_along else numpy.interp(along, numpy.arange(len(part.value)), part.value)
            for symbol, part in roots.items()
        }
        askew = next((values[symbol] for symbol, part in roots.items() if part.kind == GEOMETRY), None)
        masses = {part: part.number * (1 + 0.2 * rng.random(MANY)) for part in roots.values() if part in solution.masses.values()}
        arguments = [masses.get(part, values[symbol]) for symbol, part in roots.items()]
        load = masses[solution.masses[solution.rig.load_name]]
        others = [mass for part, mass in masses.items() if part is not solution.masses[solution.rig.load_name]]
        efficiency = next(iter(solution.efficiencies.values())).number
        by_hand = BY_HAND[name]
        hand_arguments = (load, others[0] if others else 0.0, solution.gravity.number, efficiency, askew)
        difference = numpy.max(numpy.abs(compiled(*arguments) / by_hand(*hand_arguments) - 1))
        assert difference < 1e-12, (name, difference)
        row(name, best_of(partial(compiled, *arguments)), best_of(partial(by_hand, *hand_arguments)), "hand-written NumPy", "<= 2")
