"""What to do next: what falls short first, then what cannot be told, each with the field, or the part, where it can be mended.

Before anything can be worked out, what stands in the way comes first: every field that the rig needs and that nobody has filled in yet.
"""

from __future__ import annotations

from dataclasses import dataclass

from rigcheck.checks.assessment import Assessment
from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, Check
from rigcheck.report import contents
from rigcheck.report.path_words import in_words
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.rig.faults import Fault
from rigcheck.ui import fault_words, letters
from rigcheck.ui.draft import Draft, Path, answer_faults, answer_path

_SECTIONS = {
    "rope": "ropes",
    "hand": "ropes",
    "guide": "bodies",
    "sheave": "sheaves",
    "point": "points",
    "strut": "struts",
    "body": "bodies",
}
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


@dataclass(frozen=True)
class Gap:
    """One field without which nothing can be worked out: whether it is only not filled in, what it is called, and its path.

    The path of an answer of an arrangement is ("answers", key).
    """

    is_empty: bool
    called: str
    path: Path

    @property
    def words(self) -> str:
        """What to do.

        >>> Gap(True, "limits: travel", ("limits", "travel")).words, Gap(False, "press: mass", ("bodies", "press", "mass")).words
        ('Find out: limits: travel', 'Mend: press: mass')
        """
        return f"{'Find out' if self.is_empty else 'Mend'}: {self.called}"


def gaps(draft: Draft, faults: list[Fault]) -> list[Gap]:
    """Every field that stands in the way of a result: those that are not filled in first, then those that cannot be used, each once."""
    found: dict[Path, Gap] = {}
    if draft.arrangement is not None:
        arrangement = ARRANGEMENTS[draft.arrangement]
        lettered, waiting = letters.of_inputs(arrangement), answer_faults(draft)
        for item in (*arrangement.inputs, *arrangement.choices):
            if item.key in waiting:
                is_empty = not str(draft.answers.get(item.key) or "").strip()
                path = answer_path(item.key)
                found[path] = Gap(is_empty, f"{lettered[item.key]} · {item.label}", path)
    for fault in faults:
        if path := fault_words.path_of(fault):
            found.setdefault(path, Gap(fault_words.is_unknown(fault), in_words(path), path))
    return sorted(found.values(), key=lambda gap: not gap.is_empty)


def path_of(part: tuple[str, str]) -> Path:
    """The path of the part that a check is about, as it is called on the drawing.

    >>> path_of(("rope", "hoist rope")), path_of(("motor", "motor")), path_of(("cable", "cable"))
    (('ropes', 'hoist rope'), ('drive', 'motor'), ('drive', 'cable'))
    """
    kind, name = part
    if kind in _SECTIONS:
        return _SECTIONS[kind], name
    return ("drive", kind) if kind in _ON_THE_DRIVE else ("drive",)
