"""The table of ropes: text in rows, each with a button; which button was pressed comes back as the id of its row."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import streamlit

from rigcheck.ui import session

HEADS = ("rope", "put it in", "factor", "required", "its own checks", "the rest of the rig", "mass")
_HERE = Path(__file__).parent
_component = streamlit.components.v2.component(
    "rope_table",
    html='<div class="ropes"></div>\n',
    css=(_HERE / "rope_table.css").read_text("utf-8"),
    js=(_HERE / "rope_table.js").read_text("utf-8"),
)


def show(rows: list[dict], caption: str, key: str, on_picked: Callable[[str], None]) -> None:
    """The rows under their heads; `on_picked` is called with the id of the row whose button was pressed."""
    _component(
        data={"rows": rows, "caption": caption, "heads": HEADS}, key=key, on_picked_change=lambda: on_picked(session.entered(key)["picked"])
    )
