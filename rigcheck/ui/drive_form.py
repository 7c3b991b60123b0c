"""The form of the drive: the parts it has, those it may have, the order of its gears, and the change from winch to hand line and back."""

from __future__ import annotations

import streamlit

from rigcheck.report.model_fields import PARTS, fields_of
from rigcheck.rig import model
from rigcheck.rig.faults import Fault
from rigcheck.rig.fields import FieldError
from rigcheck.ui import begun_parts, drive_change, faults_view, part_choice, part_form, session, worked_out_view
from rigcheck.ui.draft import Path
from rigcheck.ui.plain_text import escaped

_REFUSED = "drive refused"


def show(path: Path, faults: list[Fault], with_notes: bool) -> None:
    """The part of the drive at a path, with what can be done to it."""
    if path == ("drive",):
        part_form.show(model.HandLine, path, faults, with_notes=with_notes)
        return
    form = begun_parts.form_of(path) if path[1] != "drum" else model.Drum
    part_form.show(form, path, faults, with_notes=with_notes)
    worked_out_view.show(form.__name__, path)
    if path[1] == "gears":
        _show_order(path)
    elif path[1] != "drum":
        streamlit.button(f"Leave the {path[1]} out", key=f"out {session.generation()}", on_click=_leave_out, args=(path,))


def _leave_out(path: Path) -> None:
    session.put(session.draft().edited(path, None))
    part_choice.open_one(("drive",))


def _show_order(path: Path) -> None:
    index, many = path[2], len(session.draft().at(drive_change.GEARS))
    with streamlit.container(horizontal=True):
        streamlit.button(
            "Move it towards the motor", key=f"gear back {session.generation()}", disabled=index == 0, on_click=_move, args=(index, -1)
        )
        streamlit.button(
            "Move it towards the drum", key=f"gear on {session.generation()}", disabled=index == many - 1, on_click=_move, args=(index, 1)
        )
        streamlit.button("Remove this stage", key=f"gear out {session.generation()}", on_click=_remove, args=(index,))


def _move(index: int, by: int) -> None:
    session.put(drive_change.gear_moved(session.draft(), index, by))
    part_choice.open_one(("drive", "gears", index + by))


def _remove(index: int) -> None:
    session.put(drive_change.gear_removed(session.draft(), index))
    part_choice.open_one(("drive",))


def show_what_else() -> None:
    """What the drive may have besides, and the other kind of drive."""
    draft = session.draft()
    begun = begun_parts.begun(draft)
    with streamlit.container(horizontal=True):
        if drive_change.is_hand_line(draft):
            if begun_parts.WINCH not in begun:
                streamlit.button("Change to a winch", on_click=_begin, args=(begun_parts.WINCH,))
        else:
            for field in fields_of(model.Winch):
                path = begun_parts.GEAR if field.kind == PARTS else ("drive", field.name)
                if path not in begun and (path == begun_parts.GEAR or draft.at(path) is None) and field.name != "drum":
                    words = "a gear stage" if path == begun_parts.GEAR else f"the {field.name}"
                    streamlit.button(f"Add {words}", key=f"add {field.name}", on_click=_begin, args=(path,))
            streamlit.button("Change to a hand line", key="to hand line", on_click=_to_hand_line,
                             help="Drum, gears and motor go out of the rig; Undo brings them back.")  # fmt: skip
    with streamlit.container():
        if refused := session.remembered(_REFUSED):
            faults_view.beside(*refused)
        elif drive_change.is_hand_line(draft) and any(_stands_where_the_drum_was(rope) for rope in (draft.at(("ropes",)) or {}).values()):
            streamlit.caption(escaped(f"The hand is {drive_change.WHERE_THE_DRUM_WAS}, under Ropes and ends."))


def _stands_where_the_drum_was(rope: dict) -> bool:
    return drive_change.WHERE_THE_DRUM_WAS in str(rope.get("path"))


def _begin(path: Path) -> None:
    session.remember(_REFUSED, None)
    session.put(begun_parts.begin(session.draft(), path))
    part_choice.open_one(path)


def _to_hand_line() -> None:
    try:
        draft = drive_change.to_hand_line(session.draft())
    except FieldError as fault:
        session.remember(_REFUSED, (fault.wrong, fault.right))
        return
    session.remember(_REFUSED, None)
    session.put(draft)
    part_choice.open_one(("drive",))
