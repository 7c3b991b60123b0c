"""A rig with some of its fields changed, and new values written as the old ones were typed."""

from __future__ import annotations

import copy
import json
import re
from collections.abc import Sequence

from rigcheck import units
from rigcheck.errors import QuantityError
from rigcheck.rig import files
from rigcheck.rig.model import Rig
from rigcheck.units import KINDS, Quantity

Edit = tuple[tuple[str | int, ...], object]
"""Where in a rig file, and what shall stand there."""

_NUMBER = re.compile(r"[-+\u2212]?[0-9][0-9.,]*")


def with_edits(rig: Rig, edits: Sequence[Edit]) -> Rig:
    """The rig with some fields changed; RigFileError, as for a rig file, if it is no rig any more."""
    data = copy.deepcopy(json.loads(files.dumps(rig)))
    for path, value in edits:
        here = data
        for step in path[:-1]:
            here = here.setdefault(step, {}) if isinstance(here, dict) else here[step]
        here[path[-1]] = value
    return files.read(data, "changed rig")


def as_typed(old: Quantity, value_si: float, digits: int = 4, towards: str = "nearest") -> str:
    """A new value as text, in the unit and with the decimal mark of the old one; without its tolerance, which was that of the old value.

    >>> as_typed(units.read("105,5 kg ± 1 kg", "mass"), 98.25), as_typed(units.read("5 ft 6 in", "length"), 1.5)
    ('98,25 kg', '1.5 m')
    """
    number, unit = _number_and_unit(old)
    try:
        plain = units.number(units.to_unit(value_si, unit), digits, towards)
    except QuantityError:
        unit = KINDS[old.kind].si
        number, plain = "", units.number(units.to_unit(value_si, unit), digits, towards)
    texts = [f"{plain.replace('.', ',')} {unit}"] if "," in number else []
    for text in (*texts, f"{plain} {unit}"):
        if _reads_as(text, old.kind, units.from_unit(float(plain), unit)):
            return text
    return f"{value_si!r} {KINDS[old.kind].si}"


def _number_and_unit(quantity: Quantity) -> tuple[str, str]:
    stated = quantity.text.partition("±")[0].partition("+")[0].strip()
    found = _NUMBER.match(stated)
    return (found[0], stated[found.end() :].strip()) if found else ("", "")


def unit_typed(quantity: Quantity) -> str:
    """The unit a quantity was typed in, its kind's own where it is none that stands alone, as in feet and inches.

    >>> unit_typed(units.read("4 1/2 in", "length")), unit_typed(units.read("120 mm", "length"))
    ('m', 'mm')
    """
    unit = _number_and_unit(quantity)[1]
    return unit if unit and quantity.kind in units.kind_of_unit(unit) else KINDS[quantity.kind].si


def _reads_as(text: str, kind: str, value_si: float) -> bool:
    try:
        return abs(units.read(text, kind).value - value_si) <= 1e-9 * max(abs(value_si), 1e-9)
    except QuantityError:
        return False
