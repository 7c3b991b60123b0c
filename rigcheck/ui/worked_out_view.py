"""Working a value out on the page from something easier to measure; what comes out is shown before it is put in the field."""

from __future__ import annotations

import streamlit

from rigcheck import units
from rigcheck.report.field_words import with_unit_in_label
from rigcheck.ui import faults_view, session, worked_out
from rigcheck.ui.draft import Path
from rigcheck.ui.plain_text import escaped
from rigcheck.ui.typed import with_unit
from rigcheck.ui.worked_out import WorkedOut

_OPEN = "working out"


def show(form: str, path: Path) -> None:
    """What can be worked out for the part at a path; one of them is open at a time."""
    ways = worked_out.ways_of(form)
    if not ways:
        return
    with streamlit.container():
        opened = session.remembered(_OPEN)
        with streamlit.container(horizontal=True):
            for way in ways:
                streamlit.button(f"Work out: {way.title[:1].lower()}{way.title[1:]}", key=f"work {path} {way.title}", type="tertiary",
                                 on_click=_turn, args=(path, way.title))  # fmt: skip
        for way in ways:
            if opened == (path, way.title):
                _show(way, path)


def _turn(path: Path, title: str) -> None:
    session.remember(_OPEN, None if session.remembered(_OPEN) == (path, title) else (path, title))


def _show(way: WorkedOut, path: Path) -> None:
    streamlit.caption(way.how)
    given: dict[str, str] = {}
    places = streamlit.columns(3)
    for asked, column in zip(way.asked, places, strict=False):
        unit = units.label(asked.unit)
        with column:
            typed = streamlit.text_input(
                with_unit_in_label(asked.label, unit), key=f"work {session.opened()} {session.system()} {path} {way.title} {asked.key}"
            )
            given[asked.key] = with_unit(typed, unit)
            if asked.key in (found := worked_out.faults(way, given)):
                faults_view.beside(found[asked.key].wrong, found[asked.key].right)
    found = worked_out.result(way, given)
    if found is not None:
        value, note = found
        streamlit.button(escaped(f"Put in {value}, {note}"), key=f"take {path} {way.title}", on_click=_take, args=(way, path, value, note))


def _take(way: WorkedOut, path: Path, value: str | float, note: str) -> None:
    draft = session.draft().edited((*path, way.field), value).edited((*path, "notes", way.field), note)
    session.put(draft)
    session.remember(_OPEN, None)
