"""Which section of the page of the ropes is open, and which rope is looked at: picked there, on a drawing, or on the page of the parts."""

from __future__ import annotations

import streamlit

from rigcheck.checks.assessment import Assessment
from rigcheck.ui import opening, session

PULLS, STRENGTH, OTHERS = "Pulls", "Strength", "Other ropes"
_SECTION, _ROPE, _TURN, _TAKEN = "rope section", "rope", "rope turn", "rope taken over"


def section() -> str:
    """The section that is open; what the others hold is not worked out."""
    now = session.remembered(_SECTION, PULLS)
    chosen = streamlit.segmented_control("What to look at", [PULLS, STRENGTH, OTHERS], required=True, default=now, key=_key("section"))
    session.remember(_SECTION, chosen)
    return chosen


def rope(assessment: Assessment) -> str:
    """The rope that is looked at; a rig of one rope leaves no choice."""
    names = list(assessment.rig.ropes)
    asked = session.remembered("open part")
    if asked and asked[0] == "ropes" and asked[1] in names and asked != session.remembered(_TAKEN):
        session.remember(_TAKEN, asked)
        _look_at(asked[1])
    now = session.remembered(_ROPE)
    now = now if now in names else names[0]
    if len(names) > 1:
        now = streamlit.selectbox("Rope", names, index=names.index(now), key=_key("rope"))
    session.remember(_ROPE, now)
    return now


def open_on_drawing(kind: str, name: str) -> None:
    """What a press on the drawing does: a rope shows its strength here, any other part opens its form."""
    if kind != "rope":
        opening.open_part(kind, name)
        return
    session.remember(_SECTION, STRENGTH)
    _look_at(name)


def _look_at(name: str) -> None:
    session.remember(_ROPE, name)
    session.remember(_TURN, session.remembered(_TURN, 0) + 1)


def _key(what: str) -> str:
    """A widget shows what is remembered when its key is new: after a press on the drawing, and for another rig."""
    return f"{what} of ropes {session.opened()} {session.remembered(_TURN, 0)}"
