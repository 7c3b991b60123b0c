"""The rows under the picture: the scale, what is drawn thin or dashed, and what the strokes across a rope say."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from rigcheck import whereabouts
from rigcheck.report import measures
from rigcheck.report.labels import Box, Wish, text_width, wrapped
from rigcheck.report.outlines import outline
from rigcheck.report.placement import Placed
from rigcheck.report.svg import Markup
from rigcheck.report.theme import SMALL_PX
from rigcheck.report.words import FALLS_SHORT, MOST_STROKES, UNKNOWN, metres
from rigcheck.statics.travel import Travel

_ROW_PX = 18.0


def notes_of(
    travel: Travel, at: int, ticks: Mapping[str, int] | None, ghost: int | None, more: Sequence[str], *, in_depth: bool
) -> list[str]:
    """What stands in the foot, one thing each, the given notes last."""
    notes = [f"load drawn {_raised(travel, at)}"]
    if ghost is not None:
        notes.append(f"thin dashes: {_raised(travel, ghost)}")
    guessed = any(outline(travel.rig, name).guessed for name in travel.rig.bodies)
    if guessed or in_depth:
        notes.append("dashed box: size not stated")
    if travel.rig.drive.kind == "winch" and travel.rig.drive.motor is not None:
        notes.append("motor: not to scale")
    if ticks is not None:
        times = [ticks[rope] for rope in travel.rig.ropes if rope in ticks]
        if any(count > 0 for count in times):
            most = f", {MOST_STROKES}+ for more than {MOST_STROKES}" if any(count > MOST_STROKES for count in times) else ""
            notes.append(f"strokes across a rope: one for each whole time it has its required factor{most}")
        if any(count < 1 for count in times):
            notes.append(f"“{FALLS_SHORT}” at a rope: no stroke earned")
        if any(rope not in ticks for rope in travel.rig.ropes):
            notes.append(f"? at a rope: {UNKNOWN}")
    return [*notes, *more]


def foot(notes: Sequence[str], scale: float, width: float, top: float) -> tuple[list[Markup], list[Placed], float]:
    """The bar of the scale, the notes in their rows, and where the foot ends."""
    y = top + _ROW_PX / 2
    bar, right, length = measures.scale_bar(scale, 12.0, y)
    placed = []
    left = right + 10
    for words in (length, *notes):
        for part in wrapped(words, width - 24):
            size = text_width(part, SMALL_PX) + 4
            if left + size > width - 4 and left > 14:
                left, y = 12.0, y + _ROW_PX
            placed.append(fixed("note", part, left + size / 2, y, target_x=left))
            left += size + 16
    return [bar], placed, y + _ROW_PX / 2 + 4


def _raised(travel: Travel, at: int) -> str:
    if travel.angles_rad is not None:
        return whereabouts.swung(travel.angle_rad(at)) if travel.angle_rad(at) else "at its lowest"
    height_m = travel.heights_m[at]
    return "at its lowest" if abs(height_m) < 5e-7 else f"raised by {metres(height_m)}"


def fixed(part: str, words: str, x: float, y: float, target_x: float | None = None) -> Placed:
    """A label that stands where it is told to."""
    wish = Wish(part, words, (words,), (x if target_x is None else target_x, y), 0.0, SMALL_PX, "rig-quiet")
    return Placed(wish, Box(x, y, wish.width, wish.height))
