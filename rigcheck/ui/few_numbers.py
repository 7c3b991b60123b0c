"""The few numbers of a rig that did not begin as an arrangement: those that people change first."""

from __future__ import annotations

import streamlit
from pydantic import BaseModel

from rigcheck.rig import model
from rigcheck.rig.faults import Fault
from rigcheck.ui import draft_parts, part_form, session
from rigcheck.ui.draft import Draft, Path

MOST = 8
_IN_A_ROW = 2
_FIRST_ROPES = 2

Field = tuple[type[BaseModel], Path, str]


def of(draft: Draft) -> list[Field]:
    """The form, the path of the part and the name of the field, at most eight of them."""
    bodies = draft.at(("bodies",)) or {}
    ordered = sorted(bodies, key=lambda name: (bodies[name] or {}).get("role") != "load")
    found: list[Field] = [(model.Body, ("bodies", name), "mass") for name in ordered[:2]]
    found.append((model.Limits, ("limits",), "swing" if draft_parts.swings(draft) else "travel"))
    for name in list(draft.at(("ropes",)) or {})[:_FIRST_ROPES]:
        found.append((model.Rope, ("ropes", name), "diameter"))
    if draft.at(("drive", "drum")) is not None:
        found.append((model.Drum, ("drive", "drum"), "diameter"))
    if draft.at(("drive", "gears")):
        found.append((model.Gear, ("drive", "gears", 0), "ratio"))
    if draft.at(("drive", "motor")) is not None:
        found.append((model.Motor, ("drive", "motor"), "rated_torque"))
    if draft.at(("drive", "crank")) is not None:
        found.append((model.Crank, ("drive", "crank"), "radius"))
    return found[:MOST]


def show(faults: list[Fault]) -> None:
    """One labelled input for each, two in a row, the part named in the label."""
    fields = of(session.draft())
    for start in range(0, len(fields), _IN_A_ROW):
        for (form, path, name), column in zip(
            fields[start : start + _IN_A_ROW], streamlit.columns(_IN_A_ROW, vertical_alignment="bottom"), strict=False
        ):
            with column, streamlit.container():
                part_form.show_one(form, path, name, faults, of_what=_part(path))


def _part(path: Path) -> str:
    if path[:2] == ("drive", "gears"):
        return "gear stage 1"
    return "" if path == ("limits",) else str(path[1])
