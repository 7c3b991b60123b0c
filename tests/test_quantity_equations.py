"""Lines of working hold as equations between quantities, so that they hold in any units.

Two ways to see it. Every formula keeps its form when the units of mass, length, time, current and temperature change: a number with a hidden
unit would stand out. And the printed numbers, read as they stand with their units, give the printed result, in metric and in US units.
"""

from __future__ import annotations

import math
import re
from functools import cache

import numpy
import pytest

from rigcheck import units, vocabularies
from rigcheck.checks.assessment import Assessment, assess
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.vocabularies import PRODUCT, Printed, Text
from rigcheck.working import Line
from tests.report.report_rigs import ALL
from tests.rigs import falls, rig

# exponents of length, mass, time, current, temperature
DIMENSIONS = {
    "length": (1, 0, 0, 0, 0), "mass": (0, 1, 0, 0, 0), "force": (1, 1, -2, 0, 0), "angle": (0, 0, 0, 0, 0), "temperature": (0, 0, 0, 0, 1),
    "voltage": (2, 1, -3, -1, 0), "current": (0, 0, 0, 1, 0), "resistance": (2, 1, -3, -2, 0), "torque": (2, 1, -2, 0, 0), "speed": (1, 0, -1, 0, 0),
    "angular_speed": (0, 0, -1, 0, 0), "stress": (-1, 1, -2, 0, 0), "power": (2, 1, -3, 0, 0), "time": (0, 0, 1, 0, 0),
    "mass_per_length": (-1, 1, 0, 0, 0), "acceleration": (1, 0, -2, 0, 0), "area": (2, 0, 0, 0, 0), "second_moment": (4, 0, 0, 0, 0), "resistance_per_length": (1, 1, -3, -2, 0),
    "per_temperature": (0, 0, 0, 0, -1), "ratio": (0, 0, 0, 0, 0),
}  # fmt: skip
OTHER_BASE = (1.7, 2.3, 0.6, 1.4, 1.9)
TILTING = {
    "tilting": lambda: rig(falls([-0.5, 0.5], efficiency=0.9, tilts=True, gravity_m=0.13)),
    "tilting on an arm of one metre": lambda: rig(falls([-1.0, 0.7], efficiency=0.9, tilts=True, gravity_m=0.13)),
}
RIGS = ALL | TILTING | {f"arrangement {name}": (lambda one=one: one.make(one.defaults())) for name, one in ARRANGEMENTS.items()}


@cache
def assessed(name: str) -> Assessment:
    return assess(RIGS[name]())


def by_formula(name: str) -> list[Line]:
    found = [line for line in assessed(name).solution.working.lines if line.formula is not None]
    assert len(found) > 10
    return found


def in_other_base_units(unit: str) -> float:
    return math.prod(base**power for base, power in zip(OTHER_BASE, DIMENSIONS[units.kind_of_unit(unit)[0]], strict=True))


@pytest.mark.parametrize("name", RIGS)
def test_no_formula_hides_a_unit_in_a_number(name):
    for line in by_formula(name):
        values = [line.inputs[n].value * in_other_base_units(line.inputs[n].sign.unit) for n in line.formula.parameters]
        expected = line.value * in_other_base_units(line.sign.unit)
        with numpy.errstate(all="ignore"):
            found = numpy.broadcast_to(line.formula.compiled(*values), expected.shape)
        scale = numpy.max(numpy.abs(expected[numpy.isfinite(expected)]), initial=1e-300)
        assert numpy.allclose(found, expected, rtol=1e-9, atol=1e-12 * scale, equal_nan=True), (
            f"{line.sign.letter} = {line.formula.printed()}"
        )


class AsProgram(Text):
    """The numbers line as an expression that can be worked out: each number with its unit becomes an SI value."""

    times, minus, plus = "*", "-", "+"

    def quantity(self, number: str, unit: str) -> str:
        return f"q('{number}','{unit}')"

    def number(self, number: str) -> str:
        return f"({number})"

    def fraction(self, top: Printed, bottom: Printed) -> Printed:
        return Printed(f"(({top.text})/({bottom.text}))", PRODUCT)

    def power(self, base: str, exponent: str) -> str:
        return f"(({base})**({exponent}))"

    def root(self, text: str) -> str:
        return f"sqrt({text})"

    def constant(self, name: str) -> str:
        return name


FUNCTIONS = {name: getattr(math, name) for name in ("sqrt", "sin", "cos", "tan", "floor", "pi", "e")} | {
    "max": max, "min": min, "abs": abs, "arctan": math.atan, "arccos": math.acos, "ln": math.log, "ceiling": math.ceil,
}  # fmt: skip


def worked_out(numbers: str, nudged: int = -1, by: float = 0.0) -> float:
    """What a numbers line comes to in SI; one of its numbers may be nudged, as a share of itself."""
    count = iter(range(10**6))

    def q(number: str, unit: str) -> float:
        return units.from_unit(float(number) * (1 + by * (next(count) == nudged)), unit)

    return float(eval(numbers, {"__builtins__": {}, "q": q, **FUNCTIONS}))


def rounding_may_change_it_by(numbers: str, found: float) -> float:
    """How far the result may be off because each number is printed with five digits, some rounded up or down and not to the nearest."""
    return sum(
        max(abs(worked_out(numbers, place, by) - found) for by in (-1.01e-4, 1.01e-4)) for place in range(len(re.findall(r"q\(", numbers)))
    )


@pytest.mark.parametrize("system", units.SYSTEMS)
@pytest.mark.parametrize("name", ["loft-lift", "studio-counterweight", "kiln-shell", "well-crank", "gallery-crate", "tile-lift", "tilting"])
def test_the_printed_numbers_with_their_units_give_the_printed_result(name, system, monkeypatch):
    monkeypatch.setitem(vocabularies.VOCABULARIES, "program", AsProgram())
    with units.shown_in(system):
        printed = [line for line in assessed(name).solution.working.printed("program") if line.numbers]
        labels = [units.label(line.unit) for line in printed]
    assert len(printed) > 10
    for line, unit in zip(printed, labels, strict=True):
        found = worked_out(line.numbers)
        assert found == pytest.approx(line.value, rel=1e-9, abs=1.1 * rounding_may_change_it_by(line.numbers, found) + 1e-12), line.numbers
        assert line.shown.endswith(unit)
        assert units.from_unit(float(line.shown.removesuffix(unit)), unit) == pytest.approx(line.value, rel=1.01e-4, abs=1e-12)


def test_gravity_and_temperatures_stand_in_us_units():
    with units.shown_in(units.US):
        by_sign = {line.sign: line for line in assessed("studio-counterweight").solution.working.printed()}
    assert by_sign["g"].shown == "32.174 ft/s²"
    assert by_sign["W[counterweight]"].numbers == "143.3 lb·32.174 ft/s²"
    assert by_sign["W[counterweight]"].shown == "143.3 lbf"
    assert by_sign["R'"].numbers == "1.5088 ohm/1000ft·(1 + 0.0022222 1/°F·(86 °F − 68 °F))"
    assert by_sign["v"].numbers.startswith("2800 rpm·2.0669 in")
    assert by_sign["v"].shown.endswith(" ft/min")


def test_asking_in_us_changes_no_value():
    working = assessed("kiln-shell").solution.working
    metric = [line.value for line in working.printed()]
    with units.shown_in(units.US):
        assert [line.value for line in working.printed()] == metric
