"""The ropes of the catalogue, and how one of them is put into a rig file in place of a rope that is there."""

from __future__ import annotations

import copy
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from rigcheck.parts import fibre_rope, wire_rope
from rigcheck.rig.model import Rig, Rope
from rigcheck.units import nominal, to_unit

STEEL, FIBRE = "steel", "fibre"
AS_NEW = "as new: a rope of the catalogue, fresh from the shop"
CATALOGUE_SIZE = "a size of the catalogue"
A_HAIR_M = 1e-6
_STAYS = ("path", "length")
_OF_THE_END = ("fitting", "fitting_share")


@dataclass(frozen=True)
class CatalogueRope:
    """A rope of the catalogue: of steel with construction and grade, or of fibre with its material; None for what it has not.

    The mass of a metre is None where no table prints it; `mark` tells how far the row of its strength can be trusted. `inch_size_m` is
    the size in inches that its table pairs with the millimetres, None for one without.
    """

    kind: str
    diameter_m: float
    construction: str | None
    grade: str | None
    material: str | None
    mass_per_metre_kg: float | None
    source: str
    mark: str
    inch_size_m: float | None = None

    @property
    def size(self) -> str:
        """The size it is counted with; where US units are shown, what it measures, and the sizes it is listed by, which none of them replaces.

        >>> from rigcheck import units
        >>> with units.shown_in(units.US):
        ...     catalogue("steel", construction="7x19")[0].size, catalogue("fibre", material="manila")[1].size
        ('0.1181 in (3 mm)', '0.315 in (8 mm, listed beside 5/16 in)')
        """
        told = nominal(self.diameter_m, "mm")
        if self.inch_size_m is None or not told.endswith(")"):
            return told
        whole, part = divmod(Fraction(to_unit(self.inch_size_m, "in")).limit_denominator(64), 1)
        return f"{told[:-1]}, listed beside {' '.join(str(each) for each in (whole, part) if each)} in)"


def catalogue(kind: str, *, construction: str | None = None, grade: str | None = None, material: str | None = None) -> list[CatalogueRope]:
    """The ropes of a kind, all or those of one construction, grade or material; thinnest first.

    >>> [(rope.diameter_m, rope.grade) for rope in catalogue("steel", construction="7x19")][:4]
    [(0.003, '1570'), (0.003, '1770'), (0.003, '1960'), (0.004, '1570')]
    >>> [rope.diameter_m for rope in catalogue("fibre", material="manila")][:3]
    [0.006, 0.008, 0.01]
    """
    wanted = {"construction": construction, "grade": grade, "material": material}
    return [rope for rope in _all(kind) if all(value in (None, getattr(rope, name)) for name, value in wanted.items())]


@cache
def _all(kind: str) -> tuple[CatalogueRope, ...]:
    return tuple(sorted(_steel() if kind == STEEL else _fibre(), key=lambda rope: rope.diameter_m))


def _steel() -> Iterator[CatalogueRope]:
    for row in wire_rope.constructions():
        for diameter_m in wire_rope.wire_rope_diameters():
            mass_kg = None if row.w_factor is None else wire_mass_per_metre_kg(row.w_factor, diameter_m)
            for grade in wire_rope.grades():
                yield CatalogueRope(STEEL, diameter_m, row.name, grade.name, None, mass_kg, row.source, row.mark)


def _fibre() -> Iterator[CatalogueRope]:
    for material in fibre_rope.fibre_materials():
        for diameter_m in fibre_rope.fibre_sizes(material):
            row = fibre_rope.fibre_rope(material, diameter_m)
            inch_size_m = row.tested_diameter_m if abs(row.tested_diameter_m - diameter_m) > A_HAIR_M else None
            yield CatalogueRope(FIBRE, diameter_m, None, None, material, row.mass_per_length_kg_m, row.source, row.mark, inch_size_m)


def wire_mass_per_metre_kg(w_factor: float, diameter_m: float) -> float:
    """Mass of a metre of wire rope; the factor is in kg per 100 m and square millimetre of diameter.

    Source: EN 12385-4, the factor W of the construction.

    >>> round(wire_mass_per_metre_kg(0.400, 0.010), 3)
    0.4
    """
    return w_factor * to_unit(diameter_m, "mm") ** 2 / 100


def like_it(rig: Rig, name: str) -> list[str]:
    """The other ropes of the rig that are described as this one is, wherever they run."""
    return [other for other, rope in rig.ropes.items() if other != name and _make(rope) == _make(rig.ropes[name])]


def _make(rope: Rope) -> tuple:
    measured = (rope.diameter, rope.grade, rope.breaking_force)
    return rope.kind, rope.construction, rope.material, *(None if each is None else each.value for each in measured)


def with_rope(data: Mapping, names: Iterable[str], rope: CatalogueRope, fitting: str | None = None) -> dict:
    """The data of a rig file with the rope put in place of those named, as new.

    Path, length and ends stay; what was known of the old rope goes: certificate, condition, modulus. Where the kind of rope
    changes, no fitting of the old rope is made for the new one: its ends get `fitting`, or are left to be chosen.
    """
    changed = copy.deepcopy(dict(data))
    for name in names:
        changed["ropes"][name] = described(rope, changed["ropes"][name], fitting)
    return changed


def described(rope: CatalogueRope, before: dict, fitting: str | None = None) -> dict:
    """A rope of a rig file as it is written with the catalogue rope in its place."""
    size = f"{to_unit(rope.diameter_m, 'mm'):g} mm"
    if rope.kind == STEEL:
        what = {
            "construction": rope.construction,
            "grade": f"{to_unit(wire_rope.wire_rope_grade(rope.grade).strength_pa, 'N/mm²'):g} N/mm²",
        }
    else:
        what = {"material": rope.material}
    stays = {key: before[key] for key in _STAYS if key in before}
    if before.get("kind") != rope.kind:
        stays["path"] = [_with_fitting(stop, fitting) for stop in before["path"]]
    notes = {key: text for key, text in before.get("notes", {}).items() if key in _STAYS}
    notes |= {"diameter": CATALOGUE_SIZE, "remaining_strength": AS_NEW}
    return {"kind": rope.kind, "diameter": size, **what, "remaining_strength": 1, **stays, "notes": notes}


def _with_fitting(stop: dict, fitting: str | None) -> dict:
    if "made_fast_to" not in stop:
        return stop
    kept = {key: value for key, value in stop.items() if key not in (*_OF_THE_END, "notes")}
    notes = {key: text for key, text in stop.get("notes", {}).items() if key not in _OF_THE_END}
    return kept | ({"fitting": fitting} if fitting else {}) | ({"notes": notes} if notes else {})
