"""The photograph under the drawing: this program reads the distance that scales it and names the places it can be laid to, nothing more.

The photograph itself stays in the browser; no part of it comes here.
"""

from __future__ import annotations

import re

from rigcheck import units
from rigcheck.errors import QuantityError
from rigcheck.ui import moves, session
from rigcheck.ui.draft import Draft
from rigcheck.ui.typed import with_unit

FLOOR = "where across and up are zero"
FARTHEST_M = 1000.0
_NOT_IN_FILE_NAMES = re.compile(r"[^\w-]+")


def read_distance(key: str) -> None:
    """Take over the distance that was written for two places on the photograph."""
    asked = session.entered(key)["distance"]
    if isinstance(asked, dict):
        told = {"sender": asked.get("sender"), "serial": asked.get("serial"), **distance(str(asked.get("text", "")))}
        session.remember(_kept(key), told)


def distance(text: str) -> dict:
    """A distance as it was written and in metres, or what is wrong with it; a bare number is in the unit that lengths are shown in.

    >>> distance("1.6 m"), distance("2")
    ({'text': '1.6 m', 'metres': 1.6}, {'text': '2 m', 'metres': 2.0})
    >>> distance("0 m")
    {'text': '0 m', 'wrong': '"0 m" is no distance between two places: write one above zero, up to 1000 m.'}
    """
    text = with_unit(text, units.label("m"))
    try:
        metres = units.read(text, "length").value
    except QuantityError as fault:
        return {"text": text, "wrong": f"{fault.wrong}: {fault.right}."}
    if not 0 < metres <= FARTHEST_M:
        farthest = units.show(FARTHEST_M, "m")
        return {"text": text, "wrong": f'"{text}" is no distance between two places: write one above zero, up to {farthest}.'}
    return {"text": text, "metres": metres}


def message(draft: Draft, key: str) -> dict:
    """What the drawing needs for the photograph: whose it is, the places it can be laid to, and the distance that was read."""
    name = str(draft.data.get("name") or "")
    known = [[FLOOR, 0.0, 0.0]]
    for part, each in moves.holds(draft):
        if (place := moves.place(draft, part, each)) is not None:
            known.append([each if part == moves.DRUM else f"{part} {each}", *place])
    file = _NOT_IN_FILE_NAMES.sub("-", name).strip("-") or "rig"
    return {"rig": name, "known": known, "distance": session.remembered(_kept(key)), "file": f"{file} on its photograph.png"}


def _kept(key: str) -> str:
    return f"distance on the photograph of {key}"
