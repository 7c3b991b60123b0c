"""The ropes of the catalogue as rows of a table: which are wanted, in which order, and what stands in each row."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import inf

from rigcheck import units
from rigcheck.checks.assessment import Assessment
from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, HOLDS, Check
from rigcheck.parts.wire_rope import wire_rope_grade
from rigcheck.rig.model import Rope
from rigcheck.ui.verdict_words import MARKS, named
from rigcheck.whatif.catalogue_ropes import STEEL, CatalogueRope
from rigcheck.whatif.other_ropes import OwnVerdict, TriedRope, Turn, governing, is_of_rope, is_worse

DIAMETER, FACTOR, MASS = "diameter", "factor", "mass"
HALF, DOUBLE, A_HAIR = 0.5, 2.0, 1e-9
_WORST_FIRST = (FALLS_SHORT, CANNOT_TELL, HOLDS)
_NOT_WORKED_OUT = "the rig cannot be worked out"
_ORDER = (*_WORST_FIRST, _NOT_WORKED_OUT)
_MOST_NAMED, _MOST_REASONS = 2, 4


@dataclass(frozen=True)
class Wanted:
    """Which ropes are to be listed, and by what they are sorted; None stands for every one."""

    kind: str
    make: str | None = None
    grade: str | None = None
    near_m: float | None = None
    only_holding: bool = False
    by: str = DIAMETER


def is_near(rope: CatalogueRope, diameter_m: float | None) -> bool:
    """Whether a rope is from half as thick to twice as thick as another."""
    return diameter_m is None or HALF * diameter_m * (1 - A_HAIR) <= rope.diameter_m <= DOUBLE * diameter_m * (1 + A_HAIR)


def is_the_same(rope: CatalogueRope, there: Rope) -> bool:
    """Whether a rope of the rig is this one of the catalogue, as new."""
    if there.breaking_force is not None or there.remaining_strength != 1 or there.kind != rope.kind:
        return False
    grade_pa = None if there.grade is None else there.grade.value
    described = (there.construction, grade_pa) if rope.kind == STEEL else (there.material, None)
    wanted = (make(rope), None if rope.grade is None else wire_rope_grade(rope.grade).strength_pa)
    return described == wanted and abs(there.diameter.value - rope.diameter_m) <= A_HAIR


def listed(tried: Iterable[TriedRope], wanted: Wanted) -> list[TriedRope]:
    """Those that are wanted, in order; what is not known comes last."""
    found = [
        each
        for each in tried
        if wanted.make in (None, make(each.rope))
        and wanted.grade in (None, each.rope.grade)
        and (not wanted.only_holding or each.verdict == HOLDS)
    ]
    keys = {
        DIAMETER: lambda each: each.rope.diameter_m,
        FACTOR: lambda each: inf if each.factor is None else each.factor / (each.required or 1.0),
        MASS: lambda each: inf if each.rope.mass_per_metre_kg is None else each.rope.mass_per_metre_kg,
    }
    return sorted(found, key=lambda each: (keys[wanted.by](each), each.rope.diameter_m, make(each.rope), each.rope.grade or ""))


def make(rope: CatalogueRope) -> str:
    return rope.construction if rope.kind == STEEL else rope.material


def rope_words(rope: CatalogueRope) -> str:
    """A rope in words; a grade is a name, in whatever units the rest is shown.

    >>> from rigcheck.whatif.catalogue_ropes import catalogue
    >>> rope_words(catalogue("steel", construction="7x19", grade="1770")[2])
    '5 mm, 7x19, grade 1770'
    """
    grade = f", grade {rope.grade}" if rope.grade else ""
    return f"{rope.size}, {make(rope)}{grade}"


def row(tried: TriedRope, turns: tuple[Turn, ...], is_in_use: bool) -> dict[str, str | bool]:
    """What stands in the row of a rope."""
    if tried.fault:
        own, more, rest = CANNOT_TELL, tried.fault, ""
    else:
        own, more = tried.verdict, _reasons(tried)
        rest = rest_words(turns)
    factor = units.number(tried.factor, 3, "down") if tried.factor is not None else CANNOT_TELL
    return {
        "id": id_of(tried.rope),
        "in_use": is_in_use,
        "rope": rope_words(tried.rope),
        "mass": units.show(tried.rope.mass_per_metre_kg, "kg/m", 3) if tried.rope.mass_per_metre_kg is not None else "not known",
        "factor": factor,
        "required": units.number(tried.required, 4) if tried.required is not None else "",
        "where": tried.where,
        "own": f"{MARKS[own]} {own}",
        "more": more,
        "rest": rest,
    }


def row_of_present(assessment: Assessment, names: list[str], words: str) -> dict[str, str | bool]:
    """The row of the rope that is in the rig now, from its own checks."""
    own = [check for check in assessment.checks if any(is_of_rope(check, name) for name in names)]
    least = governing(assessment.checks, names)
    verdict = min((check.verdict for check in own), key=_WORST_FIRST.index, default=CANNOT_TELL)
    return {
        "id": "",
        "in_use": True,
        "rope": words,
        "mass": "",
        "factor": units.number(least.factor_value, 3, "down") if least else CANNOT_TELL,
        "required": units.number(least.required, 4) if least else "",
        "where": "" if least is None else f"{least.item}, {least.what}" if len(names) > 1 else least.what,
        "own": f"{MARKS[verdict]} {verdict}",
        "more": _named([_what(check) for check in own if check.verdict == verdict]) if verdict != HOLDS else "",
        "rest": "",
    }


def id_of(rope: CatalogueRope) -> str:
    return "|".join((rope.kind, make(rope), rope.grade or "", f"{rope.diameter_m:.6f}"))


def rest_words(turns: tuple[Turn, ...]) -> str:
    """What becomes of the verdicts of the rig that are not the rope's own."""
    worse, better = ([turn for turn in turns if is_worse(turn) == falls] for falls in (True, False))
    parts = [
        f"{len(found)} {word}: {_named([named(turn.after or turn.before) for turn in found])}"
        for found, word in ((worse, "worse"), (better, "better"))
        if found
    ]
    return "; ".join(parts) or "as now"


def ruled_out(tried: Sequence[TriedRope]) -> list[str]:
    """What keeps ropes from holding, that which rules out most first: which checks, with what verdict, and for which of the ropes."""
    failing: dict[tuple[str, str], list[TriedRope]] = {}
    for each in tried:
        told = [(own.verdict, _what(own)) for own in each.own if own.verdict != HOLDS] or ([(_NOT_WORKED_OUT, "")] if each.fault else [])
        for key in told:
            failing.setdefault(key, []).append(each)
    alike: dict[tuple[str, str], list[str]] = {}
    for (verdict, what), ropes in sorted(failing.items(), key=lambda pair: (-len(pair[1]), _ORDER.index(pair[0][0]))):
        why = ropes[0].fault if verdict == _NOT_WORKED_OUT else what
        alike.setdefault((verdict, _which(ropes, tried)), []).append(why)
    return [f"{verdict} for {which}: {_named(what)}" for (verdict, which), what in alike.items()][:_MOST_REASONS]


def _which(failing: list[TriedRope], tried: Sequence[TriedRope]) -> str:
    """Which ropes these are among those tried: every one, every one from a size up or down, or how many."""
    if len(failing) == len(tried):
        return "every one"
    inside, sizes = {each.rope for each in failing}, [each.rope.diameter_m for each in failing]
    for at, words, reaches in ((min(sizes), "from {} up", float.__ge__), (max(sizes), "up to {}", float.__le__)):
        if all(each.rope in inside for each in tried if reaches(each.rope.diameter_m, at)):
            return f"every one {words.format(units.nominal(at, 'mm'))}"
    return f"{len(failing)} of {len(tried)}"


def _reasons(tried: TriedRope) -> str:
    return "" if tried.verdict == HOLDS else _named([_what(each) for each in tried.own if each.verdict == tried.verdict])


def _what(each: OwnVerdict | Check) -> str:
    """What is checked, with the part where it is not the rope itself."""
    return each.what if each.id.startswith("rope.") else f"{each.item}, {each.what}"


def _named(words: list[str]) -> str:
    more = f" and {len(words) - _MOST_NAMED} more" if len(words) > _MOST_NAMED else ""
    return "; ".join(words[:_MOST_NAMED]) + more
