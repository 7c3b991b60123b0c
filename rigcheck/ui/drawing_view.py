"""The drawing on a page: our own SVG, taken in as a parsed document and never as markup of the page; its parts can be taken hold of.

What happens in the browser is in `drawing_sheet.js` (the drawing as it was sent), `drawing_hold.js` (moving parts), `drawing_photo.js`
and `drawing_aim.js` (the photograph under it).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

import streamlit

from rigcheck.checks.assessment import Assessment
from rigcheck.report import contents
from rigcheck.report.drawing import draw
from rigcheck.report.pulls import runs_of
from rigcheck.rig import files
from rigcheck.ui import drawing_moves, drawing_photo, session

WIDE_PX, MIDDLE_PX, NARROW_PX, NARROW_BELOW_PX = 680, 520, 360, 460  # how wide it is drawn, so that its type keeps its size
HOW = (
    "Take hold of a sheave, point, hinge, body (with a finger: by the middle of its underside), drum or hand and move it, or go to it with Tab and use "
    "the arrow keys: {coarse} a step, with Shift {fine}. Escape puts it back, Undo takes it back."
)
OPENING = " A press, or Enter, opens a part's form."
RAISED = " The load is drawn raised: a part that travels is moved in its lowest place by as much."
_COARSE_AND_FINE = {"metric": ("10 mm", "1 mm"), "us": ("1/2 in", "1/16 in")}

_HERE = Path(__file__).parent
_component = streamlit.components.v2.component(
    "rig_drawing",
    html=(_HERE / "drawing_view.html").read_text("utf-8"),
    css=(_HERE / "drawing_view.css").read_text("utf-8"),
    js="".join((_HERE / f"drawing_{name}.js").read_text("utf-8") for name in ("sheet", "hold", "photo", "aim")),
)


def show(
    assessment: Assessment, *, key: str, at: int = 0, ghost: int | None = None, labels: Mapping[tuple[str, int], str] | None = None,
    on_open: Callable[[str, str], None] | None = None, width_px: int = WIDE_PX,
) -> None:  # fmt: skip
    """The drawing of the draft's last good result at one height of its travel; the page tells where it has less room than `width_px`.

    A part that is moved on it is moved in the draft. `on_open` is called with the kind and the name of a part that is pressed, as
    `data-part` and `data-name` have them: "sheave", "point", "body", "rope", "drum", "motor", "gears", "crank", or "hand" with its rope.
    """
    draft, is_narrow = session.draft(), session.is_narrow()
    svg = _drawn(files.digest(assessment.rig), session.system(), assessment, at, ghost, labels, NARROW_PX if is_narrow else width_px)
    _component(
        data={
            "svg": svg, "is_narrow": is_narrow, "narrow_below_px": NARROW_BELOW_PX, "opened": session.opened(), "opens": on_open is not None,
            "how": _how(on_open is not None, assessment.solution.travel.stations.values[at] > 0),
            **drawing_moves.message(draft, assessment.rig, drawing_moves.taken(key)), **drawing_photo.message(draft, key),
        },
        key=key, default={"is_narrow": is_narrow}, on_is_narrow_change=lambda: session.tell_narrow(key),
        on_moves_change=lambda: drawing_moves.take(key), on_distance_change=lambda: drawing_photo.read_distance(key),
        on_opened_change=lambda: _open(key, on_open),
    )  # fmt: skip


def _how(opens: bool, is_raised: bool) -> str:
    coarse, fine = _COARSE_AND_FINE[session.system()]
    return HOW.format(coarse=coarse, fine=fine) + (OPENING if opens else "") + (RAISED if is_raised else "")


def _open(key: str, on_open: Callable[[str, str], None] | None) -> None:
    pressed = session.entered(key)["opened"]
    if on_open is not None and isinstance(pressed, dict):
        on_open(str(pressed["part"]), str(pressed["name"]))


@streamlit.cache_data(max_entries=300, show_spinner=False)
def _drawn(
    digest: str, system: str, _assessment: Assessment, at: int, ghost: int | None, labels: Mapping[tuple[str, int], str] | None, width_px: int
) -> str:  # fmt: skip
    """The drawing of a rig by the digest of its file; it holds lengths as they are shown in one system of units."""
    ticks = contents.factors_in_hand(_assessment)
    notes = [contents.SHARED_IN_A_DRAWING] if labels and any(run.shares_load for run in runs_of(_assessment.solution)) else []
    return draw(_assessment.solution.travel, at=at, labels=labels, ticks=ticks, ghost=ghost, width_px=width_px, notes=notes)
