"""What was typed into a field: a bare number takes the unit that stands in the field's label."""

from __future__ import annotations

import re

from rigcheck import units
from rigcheck.errors import QuantityError

_BARE = re.compile(r"[-+\u2212]?[0-9.,]*[0-9](?: [0-9]+/[0-9]+|/[0-9]+)?")
_LEADING_NUMBER = re.compile(r"^[-+0-9.,/eE ]+")


def with_unit(text: str, unit: str) -> str:
    """The text with the label's unit where it states none; whatever else was typed stays as it is, for the reader to judge.

    >>> with_unit("120", "kg"), with_unit("120 ± 5", "kg"), with_unit("1/4 in", "mm"), with_unit("about six", "mm")
    ('120 kg', '120 kg ± 5', '1/4 in', 'about six')
    """
    value, sign, tolerance = text.partition("±")
    if not unit or not _BARE.fullmatch(value.strip()):
        return text.strip()
    return f"{value.strip()} {unit}" + (f" {sign} {tolerance.strip()}" if sign else "")


def in_field(data_text: str, typed: str | None, label_unit: str) -> str:
    """What a field shows: the text as it was typed if it still means the same under its label, otherwise the full text with its unit.

    `data_text` is what the rig file holds, `typed` what was typed for it, `label_unit` the unit that a bare number takes now.

    >>> in_field("120 kg", "120", "kg"), in_field("120 kg", "120", "lb"), in_field("1/4 in", "1/4 in", "mm"), in_field("120 kg", None, "lb")
    ('120', '120 kg', '1/4 in', '120 kg')
    """
    if typed is None or (label_unit and with_unit(typed, label_unit) != data_text.strip()):
        return data_text
    return typed


def unit_of(text: str) -> str:
    """The unit a text is written in, "" if it states none.

    >>> unit_of("120 mm"), unit_of("1 1/4 in ± 1 mm"), unit_of("0.5")
    ('mm', 'in', '')
    """
    return _LEADING_NUMBER.sub("", text.partition("±")[0].strip()).strip()


def plain_number(text: str) -> float | int | str:
    """The plain number that was typed, or the text itself where it is none, so that the model can say what is wrong with it.

    >>> plain_number("0,96"), plain_number("80 %"), plain_number("3"), plain_number("three")
    (0.96, 0.8, 3, 'three')
    """
    try:
        value = units.read(text, "ratio").value
    except QuantityError:
        return text
    return int(value) if value.is_integer() else value
