"""The ends of a rope that are made fast: at which eye, with which fitting or knot, and what share of the strength it keeps."""

from __future__ import annotations

import streamlit

from rigcheck.rig import model
from rigcheck.rig.faults import Fault
from rigcheck.ui import part_form, session
from rigcheck.ui.draft import Path
from rigcheck.ui.plain_text import escaped

FIELDS = ("pick", "fitting", "fitting_share")


def show(path: Path, faults: list[Fault], with_notes: bool) -> None:
    """The fields of each end that is made fast; an eye is asked for only on a body, which has some."""
    draft = session.draft()
    stops = draft.at((*path, "path")) or []
    for index, words in ((0, "First end"), (len(stops) - 1, "Last end")):
        stop = stops[index] if 0 <= index < len(stops) else None
        if isinstance(stop, dict) and "made_fast_to" in stop:
            streamlit.markdown(f"**{words}, made fast to {escaped(str(stop['made_fast_to']))}**")
            has_eyes = draft.at(("bodies", stop["made_fast_to"])) is not None or stop.get("pick") is not None
            only = FIELDS if has_eyes else FIELDS[1:]
            part_form.show(model.MadeFast, (*path, "path", index), faults, with_notes=with_notes, only=only)
