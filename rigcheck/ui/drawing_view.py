"""The drawing on a page: our own SVG, taken in as a parsed document and never as markup of the page."""

from __future__ import annotations

from collections.abc import Mapping

import streamlit

from rigcheck.checks.assessment import Assessment
from rigcheck.report import contents
from rigcheck.report.drawing import draw
from rigcheck.rig import files
from rigcheck.ui import session

WIDE_PX, NARROW_PX, NARROW_BELOW_PX = 680, 360, 460

_CSS = """
.sheet { color: var(--st-text-color); --rig-ink: var(--st-text-color); --rig-paper: var(--st-background-color); }
.sheet svg { width: 100%; height: auto; max-height: 38rem; display: block; }
"""
_JS = """
export default function ({ data, parentElement, setStateValue }) {
  const sheet = parentElement.querySelector(".sheet");
  const drawing = new DOMParser().parseFromString(data.svg, "image/svg+xml").documentElement;
  if (drawing.nodeName === "svg") {
    drawing.querySelectorAll("script, foreignObject").forEach((node) => node.remove());
    sheet.replaceChildren(document.importNode(drawing, true));
  } else {
    sheet.textContent = "The drawing could not be shown.";
  }
  const tell = () => {
    const isNarrow = sheet.clientWidth < data.narrow_below_px;
    if (sheet.clientWidth > 0 && isNarrow !== data.is_narrow) setStateValue("is_narrow", isNarrow);
  };
  const watch = new ResizeObserver(tell);
  watch.observe(sheet);
  return () => watch.disconnect();
}
"""
_component = streamlit.components.v2.component("rig_drawing", html='<div class="sheet"></div>\n', css=_CSS, js=_JS)


def show(
    assessment: Assessment, *, key: str, at: int = 0, ghost: int | None = None, labels: Mapping[tuple[str, int], str] | None = None
) -> None:
    """The drawing of a rig at one height of its travel, with whole factors in hand ticked off on its ropes; the page tells how wide it is."""
    is_narrow = session.is_narrow()
    text = _drawn(files.digest(assessment.rig), assessment, at, ghost, labels, NARROW_PX if is_narrow else WIDE_PX)
    _component(
        data={"svg": text, "is_narrow": is_narrow, "narrow_below_px": NARROW_BELOW_PX},
        key=key, default={"is_narrow": is_narrow}, on_is_narrow_change=lambda: session.tell_narrow(key),
    )  # fmt: skip


@streamlit.cache_data(max_entries=300, show_spinner=False)
def _drawn(
    digest: str, _assessment: Assessment, at: int, ghost: int | None, labels: Mapping[tuple[str, int], str] | None, width_px: int
) -> str:
    ticks = contents.factors_in_hand(_assessment)
    return draw(_assessment.solution.travel, at=at, labels=labels, ticks=ticks, ghost=ghost, width_px=width_px)
