"""The gallery on the first page: a small drawing of every arrangement and every example, one press to begin with it."""

from __future__ import annotations

from pathlib import Path

import streamlit

from rigcheck.rig import examples
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.ui import session
from rigcheck.ui.cards import cards

_HERE = Path(__file__).parent
_component = streamlit.components.v2.component(
    "rig_gallery",
    html='<div class="gallery"></div>\n',
    css=(_HERE / "gallery.css").read_text("utf-8"),
    js=(_HERE / "gallery.js").read_text("utf-8"),
)


def show(key: str) -> None:
    """The cards; a press opens what is on the card."""
    _component(data={"groups": cards(), "now": _now()}, key=key, on_picked_change=lambda: _open(key))


def _now() -> str:
    draft = session.draft()
    return draft.arrangement or ""


def _open(key: str) -> None:
    picked = session.entered(key)["picked"]
    if picked["kind"] == "arrangement" and picked["slug"] in ARRANGEMENTS:
        session.open_arrangement(picked["slug"])
    elif picked["kind"] == "example" and picked["slug"] in examples.names():
        session.open_example(picked["slug"])
