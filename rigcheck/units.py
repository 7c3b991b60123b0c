"""Quantities in, SI floats out: the strict reader of text with a unit, conversions, and the formatting of numbers for people.

What can be read is `NUMBER UNIT`, and a tolerance after it if there is one: "120 kg", "1,5 m", "1 1/4 in", "5 ft 6 in", "120 kg ± 5 kg".
Whatever could mean two things is refused with the reason. pint is asked for conversion factors of the names in `TABLE` and for nothing else:
it never sees what was typed, because on its own it reads "1,5 m" as 15 m.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Decimal
from functools import lru_cache

from rigcheck.errors import QuantityError
from rigcheck.unit_table import KINDS, MEANT, OFFERED, SAME, SHOWN_IN_METRIC, SHOWN_IN_US, TABLE, UNITS, conversion, first_spelling, fold

LONGEST_TEXT = 80
GREATEST_SI = 1e12
LEAST_SI = 1e-15


@dataclass(frozen=True, slots=True)
class Quantity:
    """What was read: `value` and `plus_minus` in SI (`plus_minus` None where no tolerance was given), its kind, and the text as typed."""

    value: float
    plus_minus: float | None
    kind: str
    text: str

    def __float__(self) -> float:
        return self.value

    def __str__(self) -> str:
        """In the system of units that is on; as typed where it was typed in that one."""
        return _told(self, _system.get())


@lru_cache(maxsize=1024)
def _conversion_of(unit: str) -> tuple[float, float, float]:
    if unit in ("", "1"):
        return 1.0, 1.0, 0.0
    if not (meanings := UNITS.get(fold(unit))):
        slips = sorted({names[spelling] for names in OFFERED.values() for spelling in names if spelling.lower() == fold(unit).lower()})
        raise QuantityError(
            f"{_quoted(unit)} is not a unit known here", right=f"perhaps {_either(slips)}: capitals matter" if slips else ""
        )
    return conversion(next(iter(meanings.values())))  # a spelling of two kinds has one factor: N·m and J, ft·lbf both ways


def kind_of_unit(unit: str) -> tuple[str, ...]:
    """The kinds a spelling belongs to, none if it is not read here: `kind_of_unit("ft·lbf")` gives `("torque", "energy")`."""
    return ("ratio",) if unit in ("", "1") else tuple(UNITS.get(fold(unit), ()))


def from_unit(value: float, unit: str) -> float:
    """SI value of a number in a unit; QuantityError if the unit is not read here.

    >>> from_unit(20, "°C"), from_unit(2, "kip")
    (293.15, 8896.443230521)
    """
    times, over, shift = _conversion_of(unit)
    return (value + shift) * times / over


def to_unit(value_si: float, unit: str) -> float:
    """The number that an SI value has in a unit; QuantityError if the unit is not read here.

    >>> to_unit(0.0254, "in")
    1.0
    """
    times, over, shift = _conversion_of(unit)
    return value_si * over / times - shift


METRIC, US = "metric", "us"
SYSTEMS = (METRIC, US)
_system: ContextVar[str] = ContextVar("system of units", default=METRIC)
_US_UNITS = {fold(metric): us for metric, us in SHOWN_IN_US.items()}


def show_in(name: str) -> None:
    """Show quantities in the metric or in the US system from here on, in this thread of work; what is read is not touched."""
    if name not in SYSTEMS:
        raise ValueError(f"{name!r} is no system of units: {_either(list(SYSTEMS))}")
    _system.set(name)


@contextmanager
def shown_in(name: str) -> Iterator[None]:
    """Show quantities in one system of units while this lasts; a thread of its own begins metric.

    >>> with shown_in(US):
    ...     show(1.5, "m"), label("kN"), show(293.15, "°C")
    ('4.921 ft', 'lbf', '68 °F')
    """
    before = _system.get()
    show_in(name)
    try:
        yield
    finally:
        _system.set(before)


def system() -> str:
    """The system of units that quantities are shown in: METRIC or US."""
    return _system.get()


def label(unit: str) -> str:
    """The unit in which a quantity with this metric display unit is shown; one that is the same everywhere, or no metric one, stays.

    >>> label("mm"), label("rpm"), label("")
    ('mm', 'rpm', '')
    """
    return unit if _system.get() == METRIC else _us_unit(unit)


@lru_cache(maxsize=1024)
def _us_unit(unit: str) -> str:
    return _US_UNITS.get(fold(unit), unit)


def example(kind: str) -> str:
    """A text that reads well as a quantity of this kind, in the units that are shown.

    >>> example("mass")
    '120 kg'
    """
    return KINDS[kind].example if _system.get() == METRIC else KINDS[kind].us_example


def in_shown(value_si: float, unit: str) -> float:
    """The number that an SI value has in the unit that `label` gives, unrounded.

    >>> in_shown(0.006, "mm")
    6.0
    """
    return to_unit(value_si, label(unit))


_ROUNDING = {"nearest": ROUND_HALF_UP, "up": ROUND_CEILING, "down": ROUND_FLOOR}


def number(value: float | None, digits: int = 4, towards: str = "nearest") -> str:
    """A number with so many significant digits; up is towards +∞, down towards -∞. What floats cannot hold (beyond 12 digits) is no reason to step.

    >>> number(1176.8), number(6.000), number(1200.0), number(0.1 + 0.2, towards="up")
    ('1177', '6', '1200', '0.3')
    >>> number(1.2e8), number(2.49996, 3, "down"), number(None)
    ('1.2e8', '2.49', 'unknown')
    """
    if value is None or math.isnan(value):
        return "unknown"
    if math.isinf(value):
        return "infinite" if value > 0 else "-infinite"
    exact = Decimal(f"{value:.{max(digits, 12) - 1}e}")
    if not exact:
        return "0"
    rounded = exact.quantize(Decimal((0, (1,), exact.adjusted() - digits + 1)), rounding=_ROUNDING[towards])
    power = 0 if Decimal("1e-4") <= abs(rounded) <= Decimal("1e7") else rounded.adjusted()
    shown = f"{rounded.scaleb(-power):f}"
    shown = shown.rstrip("0").rstrip(".") if "." in shown else shown
    return f"{shown}e{power}" if power else shown


def show(value_si: float | None, unit: str, digits: int = 4, towards: str = "nearest") -> str:
    """An SI value as people read it; demands are shown towards "up", factors and capacities towards "down".

    `unit` is the metric display unit; what is shown is its number and unit in the system that is on. Rounding is done in the unit shown.

    >>> show(0.006, "mm"), show(1176.8, "N"), show(1176.2, "N", towards="up"), show(0.95, "")
    ('6 mm', '1177 N', '1177 N', '0.95')
    """
    unit = label(unit)
    shown = number(None if value_si is None else to_unit(value_si, unit), digits, towards)
    if unit in ("", "1") or shown.endswith(("unknown", "infinite")):
        return shown
    return f"{shown}{unit}" if unit in ("°", "'", '"') else f"{shown} {unit}"


def nominal(value_si: float, unit: str) -> str:
    """A size that things are sold by in a metric unit: where US units are shown, what it measures, with the size itself beside it.

    >>> with shown_in(US):
    ...     nominal(0.008, "mm")
    '0.315 in (8 mm)'
    """
    size = f"{number(to_unit(value_si, unit), 6)} {unit}"
    return size if label(unit) == unit else f"{show(value_si, unit)} ({size})"


@lru_cache(maxsize=4096)
def _told(quantity: Quantity, system: str) -> str:
    """The text as typed where its units are of the system or of both; otherwise converted, with no fewer digits than were typed, and at least four."""
    typed, kind = quantity.text, quantity.kind
    stated, *tolerances = _stated_and_tolerances(_plain(typed, kind))
    units_typed = [first_spelling(_amount(typed, part, kind)[1], kind) for part in (stated, *tolerances)]
    others = SHOWN_IN_US if system == US else SHOWN_IN_METRIC
    if not any(unit in others for unit in units_typed):
        return typed
    unit = others.get(units_typed[0], units_typed[0])
    digits = max(4, len(re.sub("[^0-9]", "", stated.partition(" ")[0]).lstrip("0")))
    told = f"{number(to_unit(quantity.value, unit), digits)} {unit}"
    if quantity.plus_minus is None or units_typed[1] == "%":
        return " ± ".join((told, *tolerances))
    times, over, _ = _conversion_of(unit)
    return f"{told} ± {number(quantity.plus_minus * over / times, 3)} {unit}"


_DECIMAL = re.compile(r"([+-]?)([0-9]*)(?:([.,])([0-9]+))?([eE][+-]?[0-9]+)? *(.*)")
_FRACTION = re.compile(r"([+-]?)(?:([0-9]+) +)?([0-9]+) ?/ ?([0-9]+)(?![0-9.,]) *(.*)")
_FEET_AND_INCHES = re.compile(r"([+-]?)([0-9]+) *(?:ft|') *([-+.,0-9][^ft']*?) *(?:in|\")")
_THOUSANDS = re.compile(r"([+-]?[0-9]{1,3}(?:[ '_][0-9]{3})+)(?![0-9])(.*)")


def _quoted(text: str) -> str:
    """What was typed, in quotes, cut short and with unseen characters made visible, so that it can stand in a message."""
    short = text if len(text) <= 40 else f"{text[:40]}…"
    return f'"{"".join(c if c.isprintable() else c.encode("unicode_escape").decode() for c in short)}"'


def _either(words: list[str]) -> str:
    return " or ".join(filter(None, [", ".join(words[:-1]), words[-1]]))


def _use(kind: str) -> str:
    """What would be right for a kind, in one sentence."""
    units = "a plain number or %" if kind == "ratio" else _either([spellings.split(", ")[0] for spellings in TABLE[kind].values()])
    return f'use {units}, such as "{example(kind)}"'


def _wrong(typed: str, why: str, right: str) -> QuantityError:
    return QuantityError(f"{_quoted(typed)} {why}", right=right)


def read(text: str, kind: str) -> Quantity:
    """The quantity that a text states, its value in SI; QuantityError, with what is wrong and what would be right, for anything else.

    >>> read("1,5 m", "length").value
    1.5
    >>> read("120 kg ± 5 %", "mass")
    Quantity(value=120.0, plus_minus=6.0, kind='mass', text='120 kg ± 5 %')
    """
    if isinstance(text, str):
        return _read(text.strip(), kind)
    bare = (
        "is a bare number and has no unit" if type(text) in (int, float) and kind != "ratio" else "is not a text with a number and its unit"
    )
    raise QuantityError(
        f"{text!r:.40} {bare}", right=f'write it {"as text" if kind == "ratio" else "with its unit"}, such as "{example(kind)}"'
    )


@lru_cache(maxsize=4096)
def _read(typed: str, kind: str) -> Quantity:
    plain = _plain(typed, kind)
    stated, *tolerances = _stated_and_tolerances(plain)
    tolerance = {"ratio": "0.02", "temperature": f"5 {label('°C')}"}.get(kind, "5 %")
    toleranced = f'write the value with its unit, then ± and the tolerance, such as "{example(kind)} ± {tolerance}"'
    if not stated or len(tolerances) > 1 or tolerances == [""]:
        raise _wrong(typed, "does not have one value before the ± and one tolerance after it", toleranced)
    amount, unit = _amount(typed, stated, kind)
    if not unit and kind != "ratio":
        raise _wrong(
            typed, "has no unit after its value", toleranced if tolerances else f'write it with its unit, such as "{example(kind)}"'
        )
    times, over, shift = _conversion_for(typed, unit, kind)
    value = (amount + shift) * times / over
    if kind == "temperature" and value < 0:
        raise _wrong(typed, "is below absolute zero, which is -273.15 °C or -459.67 °F", f'write a temperature such as "{example(kind)}"')
    plus_minus = _tolerance(typed, tolerances[0], kind, value, unit, stated, toleranced) if tolerances else None
    return Quantity(_within_range(typed, value, kind), plus_minus, kind, typed)


def _stated_and_tolerances(plain: str) -> list[str]:
    return [part.strip() for part in plain.replace("+/-", "±").replace("+-", "±").split("±")]


def _plain(typed: str, kind: str) -> str:
    """The text in plain signs, or the error that names the character that cannot be read."""
    suitable = f'such as "{example(kind)}"'
    if not typed:
        raise QuantityError('"" is empty', right=f"write {KINDS[kind].name}, {suitable}")
    if len(typed) > LONGEST_TEXT:
        raise _wrong(
            typed, f"is {len(typed)} characters long, and {LONGEST_TEXT} are the most that is read", f"write one quantity, {suitable}"
        )
    plain = typed.translate(SAME)
    if not plain.isprintable():
        raise _wrong(typed, "holds a control character or one that cannot be seen", f"type it again by hand, {suitable}")
    if not plain.isascii():
        for before, sign in zip(" " + plain, plain, strict=False):
            if sign.isnumeric() and not sign.isascii() and not (sign in "²⁴" and before.isalpha()):
                raise _wrong(
                    typed, f'holds "{sign}", and numbers are read in the digits 0 to 9 only', f"write it in plain digits, {suitable}"
                )
    return plain


def _amount(typed: str, part: str, kind: str) -> tuple[float, str]:
    """The number that a part begins with, and the unit that follows it; feet and inches come back in feet."""
    if not (both := _FEET_AND_INCHES.fullmatch(part)):
        return _number(typed, part, kind)
    sign, feet, rest = both.groups()
    inches, left_over = _number(typed, rest, kind)
    if left_over or rest.startswith(("+", "-")) or not inches < 12:
        raise _wrong(typed, "is not whole feet and then less than 12 inches", 'write feet and inches such as "5 ft 6 in"')
    return (-1 if sign == "-" else 1) * (int(feet) * 12 + inches) / 12, "ft"


def _number(typed: str, part: str, kind: str) -> tuple[float, str]:
    """The decimal number, fraction or mixed number that a part begins with, and what is left over after it."""
    if thousands := _THOUSANDS.fullmatch(part):
        whole = re.sub("[ '_]", "", thousands[1])
        raise _wrong(typed, "has its number in groups, which could also be two numbers", f'write "{whole}{thousands[2]}"')
    if fraction := _FRACTION.fullmatch(part):
        sign, whole, above, below, unit = fraction.groups()
        if int(below) == 0:
            raise _wrong(typed, "divides by zero", 'write a fraction such as "1/4" or "1 1/4"')
        if whole and int(above) >= int(below):
            raise _wrong(
                typed, f"has a whole number before {above}/{below}, which is one or more by itself", 'write such as "1 1/4" or "5/4"'
            )
        return (-1 if sign == "-" else 1) * (int(whole or 0) * int(below) + int(above)) / int(below), unit
    sign, whole, mark, decimals, power, unit = _DECIMAL.fullmatch(part).groups()
    if not whole and not decimals:
        raise _wrong(typed, "does not begin with a number", f'write the number first, such as "{example(kind)}"')
    if unit.startswith((".", ",")):
        right = f'write it with one decimal mark and no thousands marks, such as "{example(kind)}"'
        raise _wrong(typed, "has more than one decimal mark, or one with no digit after it", right)
    if mark == "," and len(decimals) == 3 and re.fullmatch("[1-9][0-9]{0,2}", whole):
        small = f"{whole}.{decimals}".rstrip("0").rstrip(".")
        ending = f"{power or ''} {unit}".rstrip()
        why = f"could be {whole}{decimals} or {small}: the comma may mark thousands or decimals"
        raise _wrong(typed, why, f'write "{sign}{whole}{decimals}{ending}" or "{sign}{small}{ending}"')
    value = float(f"{sign}{whole or 0}.{decimals or 0}{power or ''}")
    if not value and re.search("[1-9]", whole + (decimals or "")):
        _within_range(typed, math.ulp(0.0), kind)  # a power so low that the float is nothing
    return value, unit


def _conversion_for(typed: str, unit: str, kind: str) -> tuple[float, float, float]:
    """The conversion of a unit as typed, or the error that says which kind it has or what it was probably meant to be."""
    if not unit:
        return 1.0, 1.0, 0.0
    folded = fold(unit)
    meanings = UNITS.get(folded, {})
    if kind in meanings:
        return conversion(meanings[kind])
    if meanings:
        named = _quoted(typed) if typed.endswith(unit) and "±" not in typed else f"{unit} in {_quoted(typed)}"
        hints = {("mass", "force"): "a pull or weight in pounds is lbf, in kilograms kgf; ", ("force", "mass"): "a mass is in lb or kg; "}
        why = f"{named} is {_either([KINDS[k].name for k in meanings])}, and {KINDS[kind].name} is due"
        raise QuantityError(why, right=hints.get((next(iter(meanings)), kind), "") + _use(kind))
    why, right = f"has the unit {_quoted(unit)}, which is not read here", _use(kind)
    slips = [spelling for key, spelling in OFFERED[kind].items() if key.lower() == folded.lower()]
    meant = MEANT.get(folded.lower(), "")
    if folded.lower() in ("ton", "tons"):
        why = "does not say which ton: t is 1000 kg, a short ton 2000 lb, a long ton 2240 lb"
        right = 'write "t", "short ton" or "long ton"' if kind == "mass" else right
    elif slips:
        why, right = f"has the unit {_quoted(unit)}, and capitals matter in units", f"write {_either(slips)}"
    elif meant and kind in kind_of_unit(meant):
        right = f"if {meant} is meant, write {meant}; or {right}"
    elif re.search("^[0-9]|(^[^a-zA-Z]|[ ']).*[0-9]", unit):
        why = f"holds more than one number, or one that cannot be read: {_quoted(unit)} is left over"
        right += '; fractions and feet are written "1 1/4 in", "5 ft 6 in"' if kind == "length" else ""
    raise _wrong(typed, why, right)


def _tolerance(typed: str, part: str, kind: str, value: float, unit: str, stated: str, right: str) -> float:
    """The tolerance in SI: in its own unit, in the value's where it has none, or in per cent of the value. For temperatures a difference."""
    amount, own_unit = _amount(typed, part, kind)
    if amount < 0:
        raise _wrong(typed, "has a tolerance below zero", right)
    if kind == "ratio" and "%" in (unit, own_unit):
        raise _wrong(typed, "could mean per cent of the value or points of a hundred", right)
    if own_unit == "%":
        if kind == "temperature":
            raise _wrong(typed, "has a tolerance in per cent, which for a temperature depends on where its scale begins", right)
        return _within_range(typed, abs(value) * amount / 100, kind)
    if not own_unit and _FEET_AND_INCHES.fullmatch(stated):
        raise _wrong(
            typed, "does not say whether its tolerance is in feet or inches", 'give the tolerance its unit, such as "5 ft 6 in ± 1/2 in"'
        )
    times, over, _ = _conversion_for(typed, own_unit or unit, kind)
    return _within_range(typed, amount * times / over, kind)


def _within_range(typed: str, value: float, kind: str) -> float:
    if not abs(value) <= GREATEST_SI or 0 < abs(value) < LEAST_SI:
        least, greatest = show(LEAST_SI, KINDS[kind].metric, 4, "up"), show(GREATEST_SI, KINDS[kind].metric, 4, "down")
        raise _wrong(typed, f"is beyond what is read, which is {least} to {greatest}, or zero", _use(kind))
    return value + 0.0  # turns -0.0 into 0.0
