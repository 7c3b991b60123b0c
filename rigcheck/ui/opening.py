"""What happens when a part is pressed on a drawing: its form and its checks open on the page of the parts."""

from __future__ import annotations

from rigcheck.ui import session
from rigcheck.ui.next_steps import path_of


def open_part(kind: str, name: str) -> None:
    """Have the part of a mark on the drawing open; the page goes there with its next run."""
    session.open_part(path_of((kind, name)))
    session.ask_for_page("change_parts.py")
