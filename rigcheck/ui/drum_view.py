"""The rope on the drum: a section through the drum with every turn in its place, and the figures of turns, layers and room."""

from __future__ import annotations

import streamlit

from rigcheck import units
from rigcheck.checks.assessment import Assessment
from rigcheck.ui import drum_section, tables
from rigcheck.ui.plain_text import in_html
from rigcheck.ui.verdict_words import MARKS
from rigcheck.whatif.rope_on_drum import RopeOnDrum, ropes_on_drum

_CSS = """
.sheet { color: var(--st-text-color); }
.sheet svg { width: 100%; max-width: 34rem; height: auto; display: block; }
"""
_JS = """
export default function ({ data, parentElement }) {
  const sheet = parentElement.querySelector(".sheet");
  const drawing = new DOMParser().parseFromString(data.svg, "image/svg+xml").documentElement;
  if (drawing.nodeName === "svg") {
    drawing.querySelectorAll("script, foreignObject").forEach((node) => node.remove());
    sheet.replaceChildren(document.importNode(drawing, true));
  } else {
    sheet.textContent = "The drawing could not be shown.";
  }
}
"""
_component = streamlit.components.v2.component("rope_on_drum", html='<div class="sheet"></div>\n', css=_CSS, js=_JS)
_HEADS = (
    "rope",
    "turns side by side",
    "turns, load down",
    "turns, load up",
    "layers, load up",
    "rope on it, load up",
    "the drum holds",
    "room for the rope",
)


def show(assessment: Assessment) -> None:
    """The section and the figures, or what is to be found out first."""
    drum, ropes = assessment.rig.drive.drum, ropes_on_drum(assessment)
    if not ropes:
        streamlit.markdown(
            "How the rope lies on the drum cannot be told: its width, and the turns left on it with the load down, must be known."
        )
        return
    if drawing := drum_section.section(drum, ropes):
        _component(data={"svg": drawing}, key="rope-on-drum")
        kept = "" if drum.flange_diameter is not None else " Its flanges are not stated."
        streamlit.caption(
            f"Half a section through the drum, to scale, the load up. Filled: the dead wraps, which stay with the load down. Open: what the lift winds in.{kept}"
        )
    streamlit.html(table(assessment, ropes))


def table(assessment: Assessment, ropes: list[RopeOnDrum]) -> str:
    """Turns, layers and room of every rope, as HTML; rope on the drum is rounded up, room down."""
    verdicts = {check.id: check.verdict for check in assessment.checks}
    rows = [_row(rope, verdicts.get(f"drum.{rope.name}.capacity", "")) for rope in ropes]
    return tables.table(_HEADS, rows, numbers=range(1, len(_HEADS)), name="Rope on the drum")


def _row(rope: RopeOnDrum, verdict: str) -> tuple[str, ...]:
    return (
        in_html(rope.name), str(rope.per_layer), units.number(rope.turns_down, 3), units.number(rope.turns_up, 3), layers(rope),
        units.show(rope.most_m, "m", 3, "up"), holds(rope), f"{MARKS.get(verdict, '')} {verdict}",
    )  # fmt: skip


def layers(rope: RopeOnDrum) -> str:
    """How many layers lie on the drum with the load up, and for how many the flange has room; where that is none, it says so."""
    if rope.layers_fitting is None:
        return str(rope.layers_up)
    if rope.layers_fitting == 0:
        return f"{rope.layers_up}; none fits under the flange"
    return (
        f"{rope.layers_up} of {rope.layers_fitting} that fit"
        if rope.layers_up <= rope.layers_fitting
        else f"{rope.layers_up}; room for {rope.layers_fitting}"
    )


def holds(rope: RopeOnDrum) -> str:
    """The rope that the drum takes below its flange, rounded down."""
    if rope.room_m is None:
        return "unknown"
    return "not one layer" if rope.layers_fitting == 0 else units.show(rope.room_m, "m", 3, "down")
