"""The kinds of field a rig is made of: quantities as text with their unit, places, names, plain ratios."""

from __future__ import annotations

import unicodedata
from typing import Annotated

from pydantic import BeforeValidator, Discriminator, PlainSerializer, PlainValidator, StrictBool, Tag, WithJsonSchema

from rigcheck import units
from rigcheck.errors import QuantityError
from rigcheck.units import Quantity

A_HAIR = 1e-12  # a share of a bound: what is lost where a bound that is told is converted and read again


class FieldError(ValueError):
    """A field that cannot be used, told to pydantic with its remedy beside it; `path` leads on from the part that was being read."""

    def __init__(self, wrong: str, right: str = "", path: tuple[str | int, ...] = ()):
        super().__init__(wrong)
        self.wrong = wrong
        self.right = right
        self.path = path


def quantity(kind: str | tuple[str, ...], *, above: float | None = None, low: float | None = None, high: float | None = None):
    """A field of one kind of quantity (or one of several kinds), within bounds in SI; a bound is told in the units shown, and never as wider than it is."""
    kinds = (kind,) if isinstance(kind, str) else kind

    def check(given) -> Quantity:
        if isinstance(given, Quantity):
            given = given.text
        found = _first_that_reads(given, kinds)
        for fails, words, limit, towards in (
            (above is not None and found.value <= above, "must be more than", above, "up"),
            (low is not None and found.value < low - A_HAIR * abs(low), "must not be less than", low, "up"),
            (high is not None and found.value > high + A_HAIR * abs(high), "must not be more than", high, "down"),
        ):
            if fails:
                told = units.show(limit, units.KINDS[found.kind].metric, 4, towards) if limit else "zero"
                right = f'Write {units.KINDS[found.kind].name}, such as "{units.example(kinds[0])}".'
                raise FieldError(f'"{found.text}" {words} {told}', right)
        if found.plus_minus and 0 in (above, low) and found.plus_minus >= found.value:
            raise FieldError(f'"{found.text}" has a tolerance that leaves nothing of it', "Write a tolerance smaller than the value.")
        return found

    in_schema = {"type": "string", "examples": [units.KINDS[kinds[0]].example]}  # the rig file's own, whatever is shown
    return Annotated[Quantity, PlainValidator(check), PlainSerializer(lambda q: q.text), WithJsonSchema(in_schema)]


def _first_that_reads(given, kinds: tuple[str, ...]) -> Quantity:
    for kind in kinds[:-1]:
        try:
            return units.read(given, kind)
        except QuantityError:
            continue
    try:
        return units.read(given, kinds[-1] if len(kinds) == 1 else kinds[0])
    except QuantityError as fault:
        try:
            return units.read(given, kinds[-1])
        except QuantityError:
            raise FieldError(fault.wrong, fault.right) from None


def _name(given) -> str:
    if not isinstance(given, str) or not given.strip():
        raise FieldError(f"{given!r} is not a name", 'Give it a short name, such as "head sheave".')
    if len(given) > 60:
        raise FieldError(f"the name {given[:20]!r}… has {len(given)} characters", "Keep a name to 60 characters.")
    if any(unicodedata.category(c) in ("Cc", "Cf", "Cs", "Co", "Zl", "Zp") for c in given) or given != given.strip():
        raise FieldError(f"the name {given!r} holds invisible characters or spaces at its ends", "Use letters, digits and single spaces.")
    return given


def _plain(given) -> float:
    if isinstance(given, bool) or not isinstance(given, int | float):
        raise FieldError(f"{given!r} is not a plain number", "Write a number without unit and without quotes, such as 0.96.")
    if not abs(given) < 1e6:
        raise FieldError(f"{given!r} is out of all proportion", "Write a number of ordinary size.")
    return float(given)


def ratio(*, above: float | None = None, low: float | None = None, high: float | None = None, example: str = "0.96"):
    """A plain number within bounds."""

    def check(given) -> float:
        value = _plain(given)
        if (above is not None and value <= above) or (low is not None and value < low) or (high is not None and value > high):
            bounds = [f"more than {above:g}" if above is not None else "", f"at least {low:g}" if low is not None else ""]
            bounds.append(f"at most {high:g}" if high is not None else "")
            raise FieldError(f"{value:g} is not {' and '.join(b for b in bounds if b)}", f"Write a number such as {example}.")
        return value

    return Annotated[float, BeforeValidator(check)]


Name = Annotated[str, BeforeValidator(_name)]
Number = Annotated[float, BeforeValidator(_plain)]
Share = ratio(above=0, high=1, example="0.8")
AtLeastOne = ratio(low=1, example="1.2")
Count = Annotated[int, BeforeValidator(lambda given: _count(given))]


def _count(given) -> int:
    if isinstance(given, bool) or not isinstance(given, int) or not 1 <= given <= 40:
        raise FieldError(f"{given!r} is not a whole number from 1 to 40", "Write a count such as 2.")
    return given


Coordinate = quantity("length", low=-1000, high=1000)
Length = quantity("length", above=0, high=1000)
Height = quantity("length", low=0, high=1000)
Mass = quantity("mass", above=0, high=1e6)
Force = quantity("force", above=0, high=1e8)
RatedLoad = quantity(("force", "mass"), above=0, high=1e8)
Pull = quantity("force", low=0, high=1e8)
Angle = quantity("angle", above=0, high=1.5533)
Swing = quantity("angle", above=0, high=6.1087)  # 350°
Torque = quantity("torque", above=0, high=1e7)
Speed = quantity("speed", above=0, high=100)
TurningSpeed = quantity("angular_speed", above=0, high=1e5)
Voltage = quantity("voltage", above=0, high=1000)
Current = quantity("current", low=0, high=1e4)
Resistance = quantity("resistance", low=0, high=1e4)
Area = quantity("area", above=0, high=1)
SecondMoment = quantity("second_moment", above=0, high=1)
Stress = quantity("stress", above=0, high=1e13)
Acceleration = quantity("acceleration", above=0, high=100)
Temperature = quantity("temperature", low=173.15, high=2273.15)


def _place(given):
    if not isinstance(given, list | tuple) or len(given) not in (2, 3):
        such = '["0.4 m", "2.6 m"]' if units.system() == units.METRIC else '["1.5 ft", "8 ft 6 in"]'
        raise FieldError(f"{given!r} is not a place", f"Write across, up and, where it matters, depth, such as {such}.")
    return tuple(given)


def _direction(given):
    if not isinstance(given, list | tuple) or len(given) not in (2, 3):
        raise FieldError(f"{given!r} is not a direction", "Write across, up and, where it matters, depth, such as [0, 1] for straight up.")
    return tuple(given)


def _two_or_three(item):
    """A tuple of two or of three: told apart by length, so that a fault is told once and not for both."""
    two, three = Annotated[tuple[item, item], Tag("two")], Annotated[tuple[item, item, item], Tag("three")]
    return Annotated[two | three, Discriminator(lambda given: {2: "two", 3: "three"}.get(len(given)))]


Place = Annotated[_two_or_three(Coordinate), BeforeValidator(_place)]
Direction = Annotated[_two_or_three(Number), BeforeValidator(_direction)]
Truth = StrictBool


def coordinates(place: tuple[Quantity, ...]) -> tuple[float, float, float]:
    """A place in metres, depth 0 if it was left out."""
    across, up, *depth = (q.value for q in place)
    return across, up, depth[0] if depth else 0.0
