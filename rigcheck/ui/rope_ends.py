"""The ends of a rope that are made fast: at which eye, with which fitting or knot, and what share of the strength it keeps."""

from __future__ import annotations

import streamlit

from rigcheck.parts.end_fitting import ROPE_KINDS, end_fittings
from rigcheck.rig import model
from rigcheck.rig.faults import Fault
from rigcheck.ui import faults_view, part_form, session
from rigcheck.ui.asked_fields import END_FIELDS
from rigcheck.ui.draft import Path
from rigcheck.ui.plain_text import escaped


def show(path: Path, faults: list[Fault], with_notes: bool) -> None:
    """The fields of each end that is made fast; an eye is asked for only on a body, which has some."""
    draft = session.draft()
    stops = draft.at((*path, "path")) or []
    for index, words in ((0, "First end"), (len(stops) - 1, "Last end")):
        stop = stops[index] if 0 <= index < len(stops) else None
        if isinstance(stop, dict) and "made_fast_to" in stop:
            streamlit.markdown(f"**{words}, made fast to {escaped(str(stop['made_fast_to']))}**")
            part_form.show(model.MadeFast, (*path, "path", index), faults, with_notes=with_notes, only=END_FIELDS)
            with streamlit.container():
                if told := does_not_fit(draft.at((*path, "kind")), stop):
                    faults_view.beside(*told)


def does_not_fit(kind, stop: dict) -> tuple[str, str] | None:
    """What is wrong with an end that is none for its kind of rope, and what would be right; what was typed stays as it is.

    A fitting that no list has may have its share stated from a certificate; a knot in a wire rope is no end whatever is stated of it.

    >>> does_not_fit("steel", {"fitting": "bowline"})[0], does_not_fit("fibre", {"fitting": "bowline"})
    ('"bowline" is no end for a steel rope', None)
    """
    fitting = stop.get("fitting")
    if kind not in ROPE_KINDS or not isinstance(fitting, str) or fitting in end_fittings(kind):
        return None
    is_of_the_other = any(fitting in end_fittings(other) for other in ROPE_KINDS)
    if not is_of_the_other and stop.get("fitting_share") is not None:
        return None
    wrong = f'"{fitting}" is no end for a {kind} rope' if is_of_the_other else f'"{fitting}" is in no list of ends for a {kind} rope'
    return wrong, f"For a {kind} rope choose one of: {', '.join(end_fittings(kind))}. Or: I don't know."
