"""The condition of a rope as a choice on the first page: new, used, worn; the share of strength that is left has its field among the parts."""

from __future__ import annotations

import streamlit

from rigcheck.rig.arrangements.pieces import CONDITION, CONDITIONS, NEW, UNKNOWN
from rigcheck.ui import draft_parts, session
from rigcheck.ui.draft import Draft, Path
from rigcheck.ui.plain_text import escaped

_FIELD = "remaining_strength"
_FIRST_ROPES = 2


def of(draft: Draft, rope: Path) -> str:
    """What is said of the condition of a rope: one of the choices, or the share that is stated.

    >>> rope = ("ropes", "hoist rope")
    >>> of(Draft({"ropes": {"hoist rope": {"remaining_strength": 0.9}}}, ""), rope), of(Draft({"ropes": {"hoist rope": {}}}, ""), rope)
    ('0.9 of its strength left', "I don't know")
    """
    share, note = draft.at((*rope, _FIELD)), draft.at((*rope, "notes", _FIELD))
    if share is None:
        return next((said for said, means in CONDITIONS.items() if note and means.get("notes", {}).get(_FIELD) == note), UNKNOWN)
    if isinstance(share, int | float):
        return NEW if share == 1 else f"{share:g} of its strength left"
    return f"{share} of its strength left"


def said(draft: Draft, rope: Path, condition: str) -> Draft:
    """The draft in which this is said of a rope; what was noted of the share before goes with the share."""
    means = CONDITIONS[condition]
    draft = draft.edited((*rope, _FIELD), means.get(_FIELD))
    notes = {field: note for field, note in (draft.at((*rope, "notes")) or {}).items() if field != _FIELD} | means.get("notes", {})
    return draft.edited((*rope, "notes"), notes or None)


def show() -> None:
    """One choice for each of the first ropes."""
    ropes = draft_parts.names(session.draft(), draft_parts.ROPES)[:_FIRST_ROPES]
    for name, column in zip(ropes, streamlit.columns(_FIRST_ROPES), strict=False):
        with column:
            _choice(("ropes", name))


def _choice(rope: Path) -> None:
    stands, key = of(session.draft(), rope), f"condition {session.generation()} {rope[1]}"
    options = [*CONDITIONS] if stands in CONDITIONS else [*CONDITIONS, stands]
    streamlit.selectbox(
        f"Condition of {escaped(str(rope[1]))}",
        options,
        index=options.index(stands),
        key=key,
        help=CONDITION.help,
        on_change=_say,
        args=(rope, key),
    )


def _say(rope: Path, key: str) -> None:
    chosen = session.entered(key)
    if chosen in CONDITIONS and chosen != of(session.draft(), rope):
        session.put(said(session.draft(), rope, chosen))
