"""The edge of a page: whatever goes wrong behind it is told as text, and what was typed stays."""

from __future__ import annotations

import logging
from collections.abc import Callable

import streamlit

from rigcheck.errors import RigcheckError
from rigcheck.ui import faults_view

_LOG = logging.getLogger(__name__)


def within(show_page: Callable[[], None]) -> None:
    """Show a page."""
    try:
        show_page()
    except RigcheckError as fault:
        faults_view.error(fault)
        _kept()
    except Exception as fault:
        _LOG.exception("a page failed")
        wrong = f"this page could not be shown: {type(fault).__name__}: {fault}"
        faults_view.beside(wrong, "This is a fault of rigcheck: please report it with the rig file. The other pages may still work.")
        _kept()


def _kept() -> None:
    streamlit.caption("Nothing that was typed is lost.")
