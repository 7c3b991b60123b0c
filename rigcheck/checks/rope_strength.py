"""The breaking force of a rope: from a certificate, from the published factors, or from a table."""

from __future__ import annotations

from dataclasses import dataclass

from rigcheck.checks import rope_formulas as formulas
from rigcheck.checks.check import FROM_MEMORY, Judge, Wants
from rigcheck.errors import PartError
from rigcheck.parts import fibre_rope, wire_rope
from rigcheck.rig.model import Rope
from rigcheck.working import Line


@dataclass(frozen=True)
class Strength:
    """A rope's breaking force as a line, its source, and how far it can be trusted; `missing` says what is not known, `wants` in which fields."""

    force: Line | None
    source: str
    mark: str = "read"
    missing: str = ""
    wants: Wants = ()


def strength(judge: Judge, name: str, rope: Rope, diameter: Line) -> Strength:
    """The breaking force of a rope as it is described; raises PartError for a part that no catalogue has."""
    if rope.breaking_force is not None:
        where = f"ropes, {name}, breaking_force"
        sign = formulas.BREAKING_FORCE.of(name, f"breaking force of {name}")
        return Strength(
            judge.given(sign, rope.breaking_force.value, where, rope.notes.get("breaking_force", "")), "as stated for this rope"
        )
    try:
        return _steel(judge, name, rope, diameter) if rope.kind == "steel" else _fibre(judge, name, rope, diameter)
    except PartError as fault:
        raise fault.at(f"ropes, {name}") from None


def _steel(judge: Judge, name: str, rope: Rope, diameter: Line) -> Strength:
    lacking = {
        field: what
        for field, what in (
            ("construction", "its construction (count strands and wires)"),
            ("grade", "its grade (on its certificate)"),
        )
        if getattr(rope, field) is None
    }
    if lacking:
        missing = f"Not known: {' and '.join(lacking.values())}. A certificate or a break test gives the breaking force outright."
        return Strength(None, "", missing=missing, wants=_fields(name, *lacking))
    row = wire_rope.wire_rope_class(rope.construction)
    grade = judge.given(formulas.GRADE.of(name), rope.grade.value, f"ropes, {name}, grade", rope.notes.get("grade", ""))
    factor = judge.working.looked_up(formulas.BREAKING_FACTOR.of(name), row.k_factor, row.name, f"{row.source} ({row.mark})")
    force = judge.working.apply(
        formulas.wire_breaking_force, name, f"minimum breaking force of {name}", diameter=diameter, grade=grade, factor=factor
    )
    return Strength(force, f"{formulas.wire_breaking_force.source} K for {row.name}: {row.source}", row.mark, wants=_fields(name))


def _fibre(judge: Judge, name: str, rope: Rope, diameter: Line) -> Strength:
    if rope.material is None:
        return Strength(
            None,
            "",
            missing="Its material is not known: look for its marker yarn or ask who sold it; a break test gives the breaking force outright.",
            wants=_fields(name, "material"),
        )
    try:
        row = fibre_rope.fibre_rope(rope.material, rope.diameter.value)
    except PartError as fault:
        if rope.material not in fibre_rope.fibre_materials():
            raise
        return Strength(
            None,
            "",
            missing=f"{fault.wrong[:1].upper()}{fault.wrong[1:]}. {fault.right} A certificate or a break test gives the breaking force outright.",
            wants=_fields(name),
        )
    source = f"{row.source} ({row.mark})"
    if row.tested_diameter_m > rope.diameter.value + 5e-5:
        table = judge.working.looked_up(formulas.TABLE_FORCE.of(name), row.breaking_force_n, row.table, source)
        tested = judge.working.looked_up(formulas.TESTED_DIAMETER.of(name), row.tested_diameter_m, row.table, source)
        force = judge.working.apply(
            formulas.scaled_breaking_force, name, f"breaking force of {name}", force=table, diameter=diameter, tested=tested
        )
    else:
        sign = formulas.BREAKING_FORCE.of(name, f"breaking force of {name}")
        force = judge.working.looked_up(sign, row.breaking_force_n, row.table, source)
    return Strength(force, row.source, row.mark, wants=_fields(name))


def _fields(name: str, *lacking: str) -> Wants:
    """Where the strength of a rope may be stated: what is missing, or its breaking force outright."""
    return tuple(("ropes", name, field) for field in (*lacking, "breaking_force"))


def breaking_force_n(rope: Rope, diameter_m: float) -> float | None:
    """The breaking force the same rope would have in another catalogue size; None if it cannot be told."""
    if rope.breaking_force is not None:
        return rope.breaking_force.value * (diameter_m / rope.diameter.value) ** 2
    if rope.kind == "steel":
        if rope.construction is None or rope.grade is None:
            return None
        row = wire_rope.wire_rope_class(rope.construction)
        return (
            None
            if row.mark == FROM_MEMORY
            else formulas.wire_breaking_force(diameter=diameter_m, grade=rope.grade.value, factor=row.k_factor)
        )
    if rope.material is None:
        return None
    row = fibre_rope.fibre_rope(rope.material, diameter_m)
    return formulas.scaled_breaking_force(
        force=row.breaking_force_n, diameter=min(diameter_m, row.tested_diameter_m), tested=row.tested_diameter_m
    )


def catalogue_diameters_m(rope: Rope) -> list[float]:
    """The sizes in which the same rope is made, ascending."""
    if rope.kind == "steel":
        return wire_rope.wire_rope_diameters()
    return fibre_rope.fibre_sizes(rope.material) if rope.material else []
