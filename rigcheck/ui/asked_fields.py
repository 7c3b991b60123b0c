"""Which fields of a part have an input of their own: those of another kind of rope or gear have none, nor what the sentence of a rope tells."""

from __future__ import annotations

from pydantic import BaseModel

from rigcheck.rig.model import SHOE_FIELDS
from rigcheck.ui import draft_parts
from rigcheck.ui.draft import Draft, Path

END_FIELDS = ("pick", "fitting", "fitting_share")
_ELSEWHERE = {("Guided", "tilts")}  # told by how the body moves
_OF_STEEL, _OF_FIBRE = ("construction", "grade"), ("material",)
_OF_SHARING = ("modulus", "metal_area")
_OF_A_ROUND_STRUT, _OF_A_SQUARE_ONE, _OF_ANY_SECTION = ("diameter", "wall"), ("broad_side", "thin_side"), ("second_moment", "area")
_OF_PUSHING = ("strength", "end_factor", "second_moment", *_OF_A_ROUND_STRUT, *_OF_A_SQUARE_ONE)
_OF_WORMS = ("lead_angle", "pressure_angle", "friction", "friction_lowest")


def may_be_asked(model: type[BaseModel], field: str) -> bool:
    """Whether a field ever has an input of its own.

    >>> from rigcheck.rig.model import MadeFast, Over, Rope
    >>> may_be_asked(Rope, "grade"), may_be_asked(Over, "turns"), may_be_asked(MadeFast, "fitting"), may_be_asked(MadeFast, "made_fast_to")
    (True, False, True, False)
    """
    if model.__name__ == "MadeFast":
        return field in END_FIELDS
    return model.__name__ not in ("Over", "WoundOn") and (model.__name__, field) not in _ELSEWHERE


def is_asked(draft: Draft, model: type[BaseModel], path: Path, field: str) -> bool:
    """Whether a field of the part at a path has an input now; what is stated has one even where it is beside the point."""
    if not may_be_asked(model, field):
        return False
    if draft.at((*path, field)) is not None:
        return True
    kind = draft.at((*path, "kind"))
    if model.__name__ == "Limits" and field in ("travel", "swing"):
        return (field == "swing") == draft_parts.swings(draft)
    if (
        model.__name__ == "Guided" and field in SHOE_FIELDS
    ):  # what tilts has no shoes that hold it level; the distance of the shoes brings the rest
        return draft.at((*path, "tilts")) is not True and (field == "shoes_apart" or draft.at((*path, "shoes_apart")) is not None)
    if model.__name__ == "Rope":
        if field in _OF_SHARING and kind == "fibre":
            return len(draft.at(("ropes",)) or {}) > 1
        return field not in {"fibre": _OF_STEEL, "steel": _OF_FIBRE}.get(kind, ())
    if model.__name__ == "MadeFast" and field == "pick":  # a point has no eyes
        held = draft.at((*path, "made_fast_to"))
        return isinstance(held, str) and draft.at(("bodies", held)) is not None
    if model.__name__ == "Point":
        return field != "friction" or draft.at((*path, "held")) == "ground"
    if model.__name__ == "Strut":
        return _is_asked_of_a_strut(draft, path, field)
    if model.__name__ == "Drum" and field == "bolted_to":
        return bool(draft.at(("struts",)))
    if model.__name__ == "Demands" and field == "strut_factor":
        return bool(draft.at(("struts",)))
    return model.__name__ != "Gear" or kind == "worm" or field not in _OF_WORMS


def _is_asked_of_a_strut(draft: Draft, path: Path, field: str) -> bool:
    """What only pulls needs no section; a section that is stated in one way is not asked for in another."""
    if draft.at((*path, "pulls_only")) is True:
        return field not in _OF_PUSHING
    sections = (_OF_A_ROUND_STRUT, _OF_A_SQUARE_ONE, _OF_ANY_SECTION)
    stated = [own for own in sections if any(draft.at((*path, each)) is not None for each in own)]
    own = next((each for each in sections if field in each), None)
    return own is None or not stated or own in stated
