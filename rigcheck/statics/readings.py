"""How numbers read off the geometry become lines of working: fixed ones, or, where something hangs free, ones that follow weights and friction.

A rig whose ropes decide every place keeps its geometry whatever it weighs. Where something hangs free, another load hangs elsewhere, so every
cosine and arm is a line that rests on the weights and the sheaves.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cached_property

import numpy
import sympy

from rigcheck.formula import Sign
from rigcheck.statics import closed_form
from rigcheck.statics.swaying import Swaying
from rigcheck.statics.travel import Travel
from rigcheck.working import Line, Working

Reading = Callable[[Travel], numpy.ndarray]
SETTLED = "geometry of the rig, where it hangs with these weights"
OTHERWISE = (1.0, 1.7, 2.9, 0.6, 1.3)  # weights are tried in such proportions, to see what stays exactly as it is whatever they are


class Readings:
    """Reads numbers off the travel in one way of moving, as lines, and as plain numbers for comparing with each other."""

    def __init__(self, working: Working, sway: Swaying, weights: Mapping[str, Line], efficiencies: Mapping[str, Line]):
        self.working, self.sway = working, sway
        self.travel = sway.travel
        self.weights, self.efficiencies = weights, efficiencies
        self.inputs = {f"w{i}": line for i, line in enumerate(weights.values())}
        self.inputs |= {f"e{i}": line for i, line in enumerate(dict.fromkeys(efficiencies.values()))}

    @property
    def is_hung(self) -> bool:
        return self.travel.hung is not None

    def line(self, sign: Sign, what: Reading, how: str) -> Line:
        if not self.is_hung:
            return self.working.geometry(sign, what(self.travel), how)
        return self.working.solve_in_numbers(sign, lambda **values: self.read(what, values), how, SETTLED, **self.inputs)

    def samples(self, what: Reading) -> numpy.ndarray:
        """The number at every height and, for what hangs free, with other weights and other friction too."""
        if not self.is_hung:
            return what(self.travel)
        return numpy.concatenate([what(self.travel), self.read(what, self.odd)], axis=-1)

    @cached_property
    def odd(self) -> dict[str, numpy.ndarray]:
        """The inputs in proportions of their own."""
        return {
            name: line.value * (0.93 if name.startswith("e") else OTHERWISE[i % len(OTHERWISE)])
            for i, (name, line) in enumerate(self.inputs.items())
        }

    @property
    def names(self) -> dict[str, str]:
        """By which name the weight of each body goes among the inputs."""
        return dict(zip(self.weights, self.inputs, strict=False))

    def read(self, what: Reading, values: Mapping[str, numpy.ndarray]) -> numpy.ndarray:
        known = {line: values[name] for name, line in self.inputs.items()}
        return self.sway.read(
            what,
            {body: known[line] for body, line in self.weights.items()},
            {sheave: known[line] for sheave, line in self.efficiencies.items()},
        )


class Entries:
    """Entries of the matrices as symbols: exact 0 and, of what has no unit, ±1 stay numbers; equal entries share one line."""

    def __init__(self, readings: Readings):
        self.readings, self.known, self.lines = readings, [], {}

    def of(self, what: Reading, sign: Sign, how: str) -> sympy.Expr:
        value = self.readings.samples(what)
        for exact in (0,) if sign.unit else (0, 1, -1):  # an arm of one metre is a length like any other
            if numpy.all(value == exact):
                return sympy.Integer(exact)
        for known, line in self.known:
            if known.shape == value.shape and line.sign.unit == sign.unit:
                if numpy.allclose(known, value, rtol=0, atol=1e-12):
                    return line.sign.symbol
                if numpy.allclose(known, -value, rtol=0, atol=1e-12):
                    return closed_form.times(sympy.Integer(-1), line.sign.symbol)
        line = self.readings.line(sign, what, how)
        self.known.append((value, line))
        self.lines[line.sign.symbol] = line
        return line.sign.symbol
