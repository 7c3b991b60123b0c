"""Sheaves of a draft that are drawn in the same place: two in one plane must have room beside each other, or one stands behind the other.

It is a caution and no fault: the pulls are worked out all the same, since sheaves of one block do stand behind one another.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass

from rigcheck import units
from rigcheck.ui.draft import Draft
from rigcheck.ui.places import metres, of_sheave

_TOUCHING_M = 1e-6  # sheaves drawn to touch, such as those of a tackle, do not overlap


@dataclass(frozen=True)
class Overlap:
    """Two sheaves in one plane: how far their axles are apart, and how far they must be apart at least, in metres."""

    one: str
    other: str
    apart_m: float
    least_m: float

    @property
    def words(self) -> str:
        """What is wrong with which two, and what would be right."""
        needed = units.show(self.least_m, "mm", 4, "up")
        return (
            f"{self.one} and {self.other} overlap: their axles are {units.show(self.apart_m, 'mm', 3, 'down')} apart, and in one plane they must be "
            f"at least {needed} apart, half of each diameter. If one stands behind the other, write how far as its depth under Change parts."
        )


def overlapping(draft: Draft) -> list[Overlap]:
    """Every two sheaves of one plane that overlap in the lowest pose; those whose place or diameter cannot be read are left out."""
    placed = []
    for name in draft.at(("sheaves",)) or {}:
        sheave = draft.at(("sheaves", name))
        if not isinstance(sheave, dict) or not isinstance(sheave.get("on"), str) or not _is_seen_face_on(sheave):
            continue
        spot, diameter_m, depth_m = of_sheave(draft, name), metres(sheave.get("pitch_diameter")), _depth(draft, sheave)
        if spot is not None and diameter_m is not None and depth_m is not None:
            placed.append((name, spot, diameter_m, depth_m))
    found = []
    for (one, here, first_m, depth_m), (other, there, second_m, behind_m) in itertools.combinations(placed, 2):
        apart_m, least_m = math.dist(here, there), (first_m + second_m) / 2
        if depth_m == behind_m and apart_m < least_m - _TOUCHING_M:
            found.append(Overlap(one, other, apart_m, least_m))
    return found


def _is_seen_face_on(sheave: dict) -> bool:
    axis = sheave.get("axis")
    return axis is None or (isinstance(axis, list) and not any(axis[:2]))


def _depth(draft: Draft, sheave: dict) -> float | None:
    """How deep a sheave is, 0 where no depth is stated; None where it cannot be read."""
    section = "points" if sheave["on"] in (draft.at(("points",)) or {}) else "bodies"
    depths = []
    for steps in (draft.at((section, sheave["on"], "at")), sheave.get("offset")):
        depths.append(metres(steps[2]) if isinstance(steps, list) and len(steps) > 2 else 0.0)
    return None if None in depths else sum(depths)
