"""The parts of a rig by group, each with its form; one group is shown at a time."""

from __future__ import annotations

import streamlit

from rigcheck.rig import model
from rigcheck.rig.faults import Fault
from rigcheck.ui import faults_view, part_form, session
from rigcheck.ui.draft import Path
from rigcheck.ui.model_fields import NAMED_PARTS, PART, PARTS, fields_of
from rigcheck.ui.plain_text import escaped

GROUPS = {
    "Load and bodies": ("bodies",),
    "Ropes and ends": ("ropes",),
    "Sheaves": ("sheaves",),
    "Fixed places": ("points",),
    "Drive": ("drive",),
    "Limits and basis": ("limits", "basis"),
    "Name": (),
}
_MODELS = {
    "bodies": model.Body,
    "ropes": model.Rope,
    "sheaves": model.Sheave,
    "points": model.Point,
    "limits": model.Limits,
    "basis": model.Demands,
}
_KINDS = {
    "bodies": "Body",
    "ropes": "Rope",
    "sheaves": "Sheave",
    "points": "Fixed place",
    "limits": "Limits",
    "basis": "Basis",
    "drive": "Drive",
}
_STOPS = {"made_fast_to": model.MadeFast, "over": model.Over, "wound_on": model.WoundOn, "pulled_by_hand_at": model.ByHand}


def show(faults: list[Fault]) -> None:
    """The choice of a group and the forms of its parts."""
    options = list(GROUPS)
    chosen = streamlit.segmented_control(
        "Which parts?", options, default=session.remembered("group", options[0]), required=True, key="parts-group"
    )
    session.remember("group", chosen)
    with_notes = streamlit.toggle("Say where each value comes from", value=session.remembered("notes", False), key="parts-notes")
    session.remember("notes", with_notes)
    if chosen == "Name":
        part_form.show(model.Rig, (), faults)
        return
    for section in GROUPS[chosen]:
        if section == "drive":
            _show_drive(faults, with_notes)
        elif section in ("limits", "basis"):
            _heading(_KINDS[section])
            part_form.show(_MODELS[section], (section,), faults, with_notes=with_notes)
        else:
            _show_named(section, faults, with_notes)


def _heading(words: str, name: str = "") -> None:
    streamlit.markdown(f"#### {words}" + (f" {escaped(name)}" if name else ""))


def _show_named(section: str, faults: list[Fault], with_notes: bool) -> None:
    for name in session.draft().at((section,)) or {}:
        path = (section, name)
        _heading(f"{_KINDS[section]}:", name)
        part_form.show(_MODELS[section], path, faults, with_notes=with_notes)
        if section == "bodies":
            _show_moves(path, faults, with_notes)
        if section == "ropes":
            _show_stops(path, faults, with_notes)


def _show_moves(path: Path, faults: list[Fault], with_notes: bool) -> None:
    kind = session.draft().at((*path, "moves", "kind")) or "guided"
    form = model.Level if kind == "level" else model.Guided
    streamlit.markdown("**How it moves:** " + ("without turning, held by its ropes" if form is model.Level else "in a straight guide"))
    part_form.show(form, (*path, "moves"), faults, with_notes=with_notes)


def _show_stops(path: Path, faults: list[Fault], with_notes: bool) -> None:
    streamlit.markdown("**Its path, from the first end to the last**")
    for index, stop in enumerate(session.draft().at((*path, "path")) or []):
        form = next((form for key, form in _STOPS.items() if key in stop), None)
        if form is not None:
            streamlit.caption(f"Stop {index + 1}")
            part_form.show(form, (*path, "path", index), faults, with_notes=with_notes)


def _show_drive(faults: list[Fault], with_notes: bool) -> None:
    drive = session.draft().at(("drive",))
    if drive.get("kind") == "hand line":
        _heading("Hand line")
        part_form.show(model.HandLine, ("drive",), faults, with_notes=with_notes)
        return
    missing = []
    for field in fields_of(model.Winch):
        path, value = ("drive", field.name), drive.get(field.name)
        if field.kind == PARTS:
            for index in range(len(value or [])):
                _heading(f"Gear stage {index + 1}, counted from the motor")
                _show_with_inner(model.Gear, (*path, index), faults, with_notes)
        elif value is not None:
            _heading(field.name.capitalize())
            _show_with_inner(field.model, path, faults, with_notes)
            if field.is_optional:
                streamlit.button(f"Leave the {field.name} out", on_click=session.edit, args=(path, None))
        elif field.is_optional:
            missing.append(field.name)
    if missing:
        _heading("Not in this drive")
        with streamlit.container(horizontal=True):
            for name in missing:
                streamlit.button(f"Add the {name}", on_click=session.edit, args=(("drive", name), {}))


def _show_with_inner(form, path: Path, faults: list[Fault], with_notes: bool) -> None:
    part_form.show(form, path, faults, with_notes=with_notes)
    faults_view.listed([fault for fault in faults if fault.path == path])
    for field in fields_of(form):
        if field.kind in (PART, PARTS, NAMED_PARTS) and field.model is not None and session.draft().at((*path, field.name)) is not None:
            streamlit.markdown(f"**{field.name.replace('_', ' ').capitalize()}**")
            part_form.show(field.model, (*path, field.name), faults, with_notes=with_notes)
