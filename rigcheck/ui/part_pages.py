"""The page of the parts: one part's form at a time, and beside it the drawing, what the last change did, and the checks of that part."""

from __future__ import annotations

import streamlit

from rigcheck.report.path_words import in_words
from rigcheck.rig import model
from rigcheck.rig.faults import Fault
from rigcheck.ui import (
    begun_form,
    begun_parts,
    body_form,
    drawing_view,
    drive_form,
    letters,
    opening,
    part_checks,
    part_choice,
    part_form,
    part_names,
    rope_ends,
    rope_path,
    session,
    still_missing,
    turns_view,
    worked_out_view,
)  # fmt: skip
from rigcheck.ui.draft import Path
from rigcheck.ui.part_choice import GROUPS
from rigcheck.ui.plain_text import escaped
from rigcheck.ui.session import Standing

__all__ = ["GROUPS", "show"]

_MODELS = {"sheaves": model.Sheave, "points": model.Point, "struts": model.Strut, "limits": model.Limits, "basis": model.Demands}


def show(standing: Standing) -> None:
    """Form on the left, what it does on the right; on a narrow screen below one another."""
    still_missing.show(still_missing.PARTS_PAGE)
    path = part_choice.choose_group(session.draft())
    form, result = streamlit.columns([3, 2], gap="large")
    with form:
        part_choice.choose_one(session.draft(), path)
        _show_part(path, standing.faults)
    with result:
        turns_view.show(standing)
        if standing.assessment is not None:
            drawing_view.show(standing.assessment, key="drawing-parts", on_open=opening.open_part)
            with streamlit.container():
                streamlit.markdown(f"**Checks of {escaped(_called(path))}**")
                part_checks.show(standing.assessment, path)


def _called(path: Path) -> str:
    return "the whole rig" if path == part_choice.WHOLE else "the hand line" if path == ("drive",) else in_words(path[:2])


def _show_part(path: Path, faults: list[Fault]) -> None:
    group = part_choice.group_of(path)
    if path in begun_parts.begun(session.draft()):
        begun_form.show(path)
    elif len(path) == 1 and path[0] in part_choice.SECTIONS.values():
        streamlit.caption("There is none yet.")
    else:
        _show_form(path, faults)
    if group == part_choice.ROPES:
        rope_path.show_another()
    elif group in part_choice.SECTIONS:
        part_names.begin(part_choice.SECTIONS[group])
    elif group == part_choice.DRIVE:
        drive_form.show_what_else()


def _show_form(path: Path, faults: list[Fault]) -> None:
    with_notes = streamlit.toggle("Say where each value comes from", value=session.remembered("notes", False), key="parts-notes")
    session.remember("notes", with_notes)
    with streamlit.container():
        if field := part_choice.asked_field(path):
            letter = letters.of_fields(session.draft()).get(field)
            streamlit.caption(escaped(f"Asked for: {letter + ' · ' if letter else ''}{in_words(field)}"))
    if path == part_choice.WHOLE:
        part_form.show(model.Rig, (), faults)
        return
    section = path[0]
    if section in part_choice.SECTIONS.values():
        part_names.rename(path)
    if section == "bodies":
        body_form.show(path, faults, with_notes)
    elif section == "ropes":
        part_form.show(model.Rope, path, faults, with_notes=with_notes)
        rope_path.show(path, faults, with_notes)
        rope_ends.show(path, faults, with_notes)
    elif section == "drive":
        drive_form.show(path, faults, with_notes)
    else:
        part_form.show(_MODELS[section], path, faults, with_notes=with_notes)
    if section in ("bodies", "sheaves", "limits"):
        worked_out_view.show({"bodies": "Body", "sheaves": "Sheave", "limits": "Limits"}[section], path)
    if section in part_choice.SECTIONS.values():
        part_names.remove(path)
