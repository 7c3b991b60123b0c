"""A button that hands a file over: made from the rig as it stands once everything typed before the press has been read.

A link made with the page would be stale where a number was typed just before the press; a press is answered after what came before it.
"""

from __future__ import annotations

import base64
from collections.abc import Callable
from pathlib import Path

import streamlit

_HERE = Path(__file__).parent
_component = streamlit.components.v2.component("handed_over", html="<span></span>", js=(_HERE / "handing_over.js").read_text("utf-8"))


def offer(label: str, made: Callable[[], str | bytes], file_name: str, mime: str, *, key: str, help: str | None = None) -> None:
    """The button; pressed, `made` makes the file and the browser saves it under the name."""
    if streamlit.button(label, key=key, help=help):
        made_now = made()
        content = made_now.encode("utf-8") if isinstance(made_now, str) else made_now
        _component(
            data={"name": file_name, "mime": mime, "content": base64.b64encode(content).decode("ascii")}, key=f"{key}-handed", height=1
        )
