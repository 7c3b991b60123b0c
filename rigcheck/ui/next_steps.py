"""What to do next: what falls short first, then what cannot be told, each with the field, or the part, where it can be mended."""

from __future__ import annotations

from dataclasses import dataclass

from rigcheck.checks.assessment import Assessment
from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, Check
from rigcheck.report import contents
from rigcheck.ui.draft import Path
from rigcheck.ui.path_words import in_words

_SECTIONS = {"rope": "ropes", "hand": "ropes", "guide": "bodies", "sheave": "sheaves", "point": "points", "body": "bodies"}
_ON_THE_DRIVE = ("drum", "motor", "brake", "pawl", "crank", "cable", "supply", "gears")


@dataclass(frozen=True)
class Step:
    """One thing to do: in words, the path of the field or part where it is done, and the check that asks for it."""

    words: str
    path: Path
    check: Check


def steps(assessment: Assessment) -> list[Step]:
    """The most pressing first; a field that several checks wait for is asked for once."""
    found: dict[Path, Step] = {}
    for check in contents.worst_first(assessment.checks):
        if check.verdict == FALLS_SHORT:
            step = Step(f"Mend: {check.item}, {check.what}", check.wants[0] if check.wants else path_of(check.part), check)
            found[(check.id,)] = step
        elif check.verdict == CANNOT_TELL:
            path = check.wants[0] if check.wants else path_of(check.part)
            found.setdefault(
                path, Step(f"Find out: {in_words(path)}" if check.wants else f"See why: {check.item}, {check.what}", path, check)
            )
    return list(found.values())


def path_of(part: tuple[str, str]) -> Path:
    """The path of the part that a check is about, as it is called on the drawing.

    >>> path_of(("rope", "hoist rope")), path_of(("motor", "motor")), path_of(("cable", "cable"))
    (('ropes', 'hoist rope'), ('drive', 'motor'), ('drive', 'cable'))
    """
    kind, name = part
    if kind in _SECTIONS:
        return _SECTIONS[kind], name
    return ("drive", kind) if kind in _ON_THE_DRIVE else ("drive",)
