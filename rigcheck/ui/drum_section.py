"""Half a section through the drum, to scale: its shell, its flanges, and every turn of rope in its place. SVG text."""

from __future__ import annotations

import math
from dataclasses import dataclass

from rigcheck import units
from rigcheck.report import svg
from rigcheck.report.svg import Markup
from rigcheck.rig.model import Drum
from rigcheck.whatif.rope_on_drum import RopeOnDrum

MOST_TURNS = 600
WIDE, FLANGE_WIDE, MARGIN, HATCH = 300.0, 9.0, 12.0, 9.0
SHELL_SHARE = 0.16  # how much of the drum's inside is shown, as a share of its width
INK = "currentColor"


@dataclass(frozen=True)
class _Frame:
    """Where the drum's width and radii come to lie in the picture."""

    scale: float
    top_m: float

    def across(self, width_m: float) -> float:
        return MARGIN + width_m * self.scale

    def down(self, radius_m: float) -> float:
        return 4.0 + (self.top_m - radius_m) * self.scale


def section(drum: Drum, ropes: list[RopeOnDrum]) -> str:
    """The picture; empty where the width is not known, not one turn fits, or the turns are too many to be seen."""
    if drum.width is None or not ropes or sum(r.turns_up for r in ropes) > MOST_TURNS or any(r.per_layer < 1 for r in ropes):
        return ""
    width, core = drum.width.value, drum.diameter.value / 2
    flange = drum.flange_diameter.value / 2 if drum.flange_diameter is not None else None
    inside = max(core - SHELL_SHARE * width, 0.0)
    frame = _Frame(WIDE / width, max(flange or 0.0, *(core + r.layers_up * r.diameter_m for r in ropes)))
    marks = _shell(frame, width, core, inside)
    if flange is not None:
        for left in (MARGIN - FLANGE_WIDE, MARGIN + WIDE):
            marks.append(_box(left, frame.down(flange), FLANGE_WIDE, frame.down(inside) - frame.down(flange)))
    for place, rope in enumerate(ropes):
        marks += _turns(frame, rope, place * width / len(ropes), core)
    told = told_of(ropes)
    return svg.element("svg", svg.element("title", told), *marks, xmlns="http://www.w3.org/2000/svg", role="img", aria_label=told,
                       viewBox=f"0 0 {WIDE + 2 * MARGIN:g} {frame.down(inside) + 4:.1f}")  # fmt: skip


def told_of(ropes: list[RopeOnDrum]) -> str:
    """The picture in words."""
    each = (
        f"{rope.name} lies in {units.number(rope.turns_up, 3)} turns and {rope.layers_up} layer{'s' if rope.layers_up > 1 else ''} with the load up, "
        f"{units.number(rope.turns_down, 3)} turns of them with the load down"
        for rope in ropes
    )
    return f"Half a section through the drum: {'; '.join(each)}."


def _shell(frame: _Frame, width_m: float, core_m: float, inside_m: float) -> list[Markup]:
    top, foot = frame.down(core_m), frame.down(inside_m)
    marks = [svg.line((MARGIN, top), (MARGIN + WIDE, top), stroke=INK, stroke_width=1.6)]
    slant = foot - top
    for step in range(int((WIDE + slant) / HATCH) + 1):
        start, end = MARGIN + step * HATCH, MARGIN + step * HATCH - slant
        low = max(end, MARGIN)
        high = min(start, MARGIN + WIDE)
        if high > low:
            marks.append(svg.line((high, top + start - high), (low, top + start - low), stroke=INK, stroke_width=0.6, stroke_opacity=0.6))
    return marks


def _box(left: float, top: float, wide: float, high: float) -> Markup:
    return svg.element("rect", x=left, y=top, width=wide, height=high, fill="none", stroke=INK, stroke_width=1.4)


def _turns(frame: _Frame, rope: RopeOnDrum, start_m: float, core_m: float) -> list[Markup]:
    """One circle for each turn, whole or begun: a layer runs one way, the next one back; those that stay with the load down are filled."""
    found = []
    for turn in range(math.ceil(rope.turns_up - 1e-9)):
        layer, place = divmod(turn, rope.per_layer)
        place = rope.per_layer - 1 - place if layer % 2 else place
        centre = frame.across(start_m + (place + 0.5) * rope.diameter_m), frame.down(core_m + (layer + 0.5) * rope.diameter_m)
        radius = max(rope.diameter_m / 2 * frame.scale - 0.7, 0.5)
        stays = turn < rope.turns_down - 1e-9
        found.append(svg.circle(centre, radius, fill=INK if stays else "none", stroke=INK, stroke_width=1.2))
    return found
