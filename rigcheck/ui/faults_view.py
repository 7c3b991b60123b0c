"""Faults as people see them: where, what is wrong with which value, what would be right."""

from __future__ import annotations

import streamlit

from rigcheck.errors import RigcheckError
from rigcheck.rig import faults
from rigcheck.rig.faults import Fault
from rigcheck.ui.plain_text import in_html


def beside(wrong: str, right: str, where: str = "") -> None:
    """A fault beside the field it belongs to."""
    place = f"{in_html(where)}: " if where else ""
    streamlit.html(f'<p class="rc-fault" role="alert"><b>{place}{in_html(wrong)}</b><br>{in_html(right)}</p>')


def error(fault: RigcheckError) -> None:
    """An error of the engine, in its three parts."""
    beside(fault.wrong, fault.right, fault.where)


def of_field(found: list[Fault], path: tuple) -> None:
    """The faults that belong to one field."""
    for fault in found:
        if fault.path[: len(path)] == path:
            beside(fault.wrong, fault.right)


def listed(found: list[Fault]) -> None:
    """Faults with their places, where the fields themselves are not on the page."""
    for fault in found:
        beside(fault.wrong, fault.right, faults.words(fault.path))
