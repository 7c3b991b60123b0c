"""The form of a body: its own fields, how it moves, and its eyes and hooks."""

from __future__ import annotations

from dataclasses import replace

import streamlit

from rigcheck.report.model_fields import fields_of
from rigcheck.rig import model
from rigcheck.rig.faults import Fault
from rigcheck.ui import draft_parts, finding_out, letters, part_form, part_names, session
from rigcheck.ui.draft import Draft, Path
from rigcheck.ui.field_input import Form

GUIDED, TILTING, LEVEL, FREE, HINGED, CARRIED = WAYS = (
    "in a straight guide, held level",
    "in a straight guide, free to tilt",
    "without turning, held by its ropes alone",
    "hanging free: it swings and turns as its weight takes it",
    "turning about a hinge",
    "fixed on another body, as one piece with it",
)
_KINDS = {LEVEL: "level", FREE: "free", HINGED: "hinged", CARRIED: "carried"}
_PICKS = next(field for field in fields_of(model.Body) if field.name == "picks")


def show(path: Path, faults: list[Fault], with_notes: bool) -> None:
    """Mass and places first, then how it moves, then its eyes."""
    part_form.show(model.Body, path, faults, with_notes=with_notes)
    streamlit.markdown("**How it moves**")
    way, key = way_of(session.draft(), path), f"{session.opened()}: moves {path[1]}"
    streamlit.selectbox("It moves", WAYS, index=WAYS.index(way), key=key, on_change=_take, args=(path, key),
                        help=finding_out.way("Guided", "tilts"))  # fmt: skip
    form = letters.MOVES[_KINDS.get(way, "guided")]
    part_form.show(form, (*path, "moves"), faults, with_notes=with_notes and session.draft().at((*path, "moves")) is not None)
    _show_eyes(path, faults)


def way_of(draft: Draft, path: Path) -> str:
    """How a body moves, in words."""
    kind = draft.at((*path, "moves", "kind"))
    if (way := next((words for words, own in _KINDS.items() if own == kind), None)) is not None:
        return way
    return TILTING if draft.at((*path, "moves", "tilts")) is True else GUIDED


def moving(draft: Draft, path: Path, way: str) -> Draft:
    """The draft with the body moving another way; the direction of a guide stays while it is guided, its shoes while they hold it level.

    Where the load comes to turn about a hinge, or no longer does, the one of travel and swing that no longer fits goes.
    """
    own = (*path, "moves")
    if way in _KINDS:
        typed = {each: text for each, text in draft.typed.items() if each[: len(own)] != own}
        return _with_fitting_travel(replace(draft.edited(own, {"kind": _KINDS[way]}), typed=typed))
    old = draft.at(own)
    kept = old if isinstance(old, dict) and old.get("kind", "guided") == "guided" else {}
    if way == TILTING:
        kept = {name: value for name, value in kept.items() if name not in model.SHOE_FIELDS}
    typed = draft.typed if kept else {each: text for each, text in draft.typed.items() if each[: len(own)] != own}
    return _with_fitting_travel(replace(draft.edited(own, {**kept, "kind": "guided", "tilts": way == TILTING}), typed=typed))


def _with_fitting_travel(draft: Draft) -> Draft:
    gone = "travel" if draft_parts.swings(draft) else "swing"
    return draft if draft.at(("limits", gone)) is None else draft.edited(("limits", gone), None)


def _take(path: Path, key: str) -> None:
    way = session.entered(key)
    if way is not None and way != way_of(session.draft(), path):
        session.put(moving(session.draft(), path, way))


def _show_eyes(path: Path, faults: list[Fault]) -> None:
    body = str(path[1])
    form = Form(model.Body, path, faults)
    streamlit.markdown(f"**{form.words(_PICKS).label}**")
    for eye in draft_parts.picks(session.draft(), body):
        part_names.rename_eye(body, eye)
        part_form.show_place(form, _PICKS, (*path, "picks", eye), "Its place", ["0 m", "0 m"])
        if not draft_parts.pick_users(session.draft(), body, eye):
            streamlit.button("Remove this eye", key=f"remove eye {session.generation()} {eye}", on_click=_remove_eye, args=(body, eye))
    part_names.add_eye(body)


def _remove_eye(body: str, eye: str) -> None:
    session.put(draft_parts.pick_removed(session.draft(), body, eye))
