"""Labels: how much room their text takes, and the spots beside a part where they would like to stand."""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from math import atan2, ceil, cos, degrees, hypot, radians, sin

import numpy

from rigcheck.report.theme import SMALL_PX

# Advance widths in shares of the letter height, read from DejaVu Sans 2.37 and rounded up to a twentieth; most other sans serifs are narrower
_WIDTHS = {
    sign: width
    for width, signs in {
        0.3: "'IJijl·", 0.35: " ,./:;\\|", 0.4: "()-[]ft", 0.45: "!r", 0.5: '"*_`°', 0.55: "?csz", 0.6: "FLkvxy", 0.65: "$0123456789EPSTYabdeghnopqu{}",
        0.7: "ABCKRVXZ", 0.75: "NU", 0.8: "&DGHOQ", 0.85: "#+<=>^w~×±↑↓", 0.9: "M", 1.0: "%@Wm…",
    }.items()
    for sign in signs
}  # fmt: skip
_OTHER_WIDTH, _WIDE_WIDTH, _BOLD = 0.75, 1.05, 1.12
LINE_HEIGHT = 1.2
_BREAKING, _TURNING = 6.0, 4.5
LONGEST_NAME_PX = 180.0
RING_PX = 18.0


@lru_cache(maxsize=4096)
def text_width(text: str, size_px: float, *, bold: bool = False) -> float:
    """About how wide a line of text is, rather too wide than too narrow."""
    wide = sum(_WIDE_WIDTH if unicodedata.east_asian_width(s) in "WF" else _WIDTHS.get(s, _OTHER_WIDTH) for s in text)
    return size_px * wide * (_BOLD if bold else 1.0)


def shortened(text: str, most_px: float = LONGEST_NAME_PX, size_px: float = SMALL_PX, *, bold: bool = False) -> str:
    """A text cut to what a label can hold.

    >>> shortened("counterweight sheave at the far end of the beam")
    'counterweight sheave at the…'
    """
    if text_width(text, size_px, bold=bold) <= most_px:
        return text
    kept = text
    while kept and text_width(kept + "…", size_px, bold=bold) > most_px:
        kept = kept[:-1]
    return kept.rstrip() + "…"


def wrapped(text: str, most_px: float, size_px: float = SMALL_PX) -> list[str]:
    """A text in lines that are no wider than that, broken at spaces.

    >>> wrapped("marks across a rope", 70.0)
    ['marks', 'across a', 'rope']
    """
    lines: list[str] = []
    for word in text.split():
        if lines and text_width(f"{lines[-1]} {word}", size_px) <= most_px:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines


def folded(text: str, longest: int = 16) -> tuple[str, ...]:
    """A text in one line or two, broken at the space nearest its middle.

    >>> folded("becket of the upper block"), folded("head sheave")
    (('becket of the', 'upper block'), ('head sheave',))
    """
    spaces = [k for k, sign in enumerate(text) if sign == " "]
    if len(text) <= longest or not spaces:
        return (text,)
    middle = min(spaces, key=lambda k: abs(k - len(text) / 2))
    return text[:middle], text[middle + 1 :]


@dataclass(frozen=True)
class Box:
    """A rectangle about its middle, turned clockwise by an angle as seen in the drawing."""

    x: float
    y: float
    width: float
    height: float
    angle_deg: float = 0.0

    @property
    def axes(self) -> numpy.ndarray:
        turn = radians(self.angle_deg)
        return numpy.array([[cos(turn), sin(turn)], [-sin(turn), cos(turn)]])

    @property
    def corners(self) -> numpy.ndarray:
        half = numpy.array([[-1, -1], [1, -1], [1, 1], [-1, 1]]) * (self.width / 2, self.height / 2)
        return half @ self.axes + (self.x, self.y)

    def holds(self, places: numpy.ndarray, more: float = 0.0) -> numpy.ndarray:
        """Which of the places (n, 2) lie in the box."""
        x, y, (c, s) = places[:, 0] - self.x, places[:, 1] - self.y, self.axes[0]
        return (numpy.abs(x * c + y * s) < self.width / 2 + more) & (numpy.abs(y * c - x * s) < self.height / 2 + more)


@dataclass(frozen=True)
class Spot:
    """A place for a label's middle, and how little it is liked; `on_line` if it stands on its own run and breaks it."""

    x: float
    y: float
    angle_deg: float = 0.0
    dislike: float = 0.0
    on_line: bool = False


@dataclass(frozen=True)
class Wish:
    """A label to be placed: its lines, the spots it would like, what it points at and from how far a leader is drawn to it.

    `run` is the straight run it belongs to, by both ends, if it belongs to one; `ringed` if it is a letter in a ring;
    `clear_px` is half the width that the run is drawn with; `may_go` if the label may be left out where it finds no clear place.
    """

    part: str
    name: str
    lines: tuple[str, ...]
    target: tuple[float, float]
    reach: float = 0.0
    size_px: float = SMALL_PX
    class_: str = ""
    bold: bool = False
    spots: Sequence[Spot] = ()
    run: tuple[tuple[float, float], tuple[float, float]] | None = None
    ringed: bool = False
    clear_px: float = 0.0
    may_go: bool = False

    @cached_property
    def width(self) -> float:
        if self.ringed:
            return max(self.height, text_width(self.lines[0], self.size_px, bold=self.bold) + 6)
        return max(text_width(line, self.size_px, bold=self.bold) for line in self.lines) + 4

    @cached_property
    def height(self) -> float:
        if self.ringed:
            return RING_PX
        return len(self.lines) * self.size_px * LINE_HEIGHT


def sampled(places: numpy.ndarray, step_px: float = 3.0) -> numpy.ndarray:
    """Places along a line, (n, 2), no further apart than a step."""
    if len(places) == 2:  # most lines are straight, and need no bookkeeping of their pieces
        step = places[1] - places[0]
        many = max(ceil(float(numpy.hypot(step[0], step[1])) / step_px), 1)
        return numpy.concatenate([places[:1], places[0] + step * (numpy.arange(1, many + 1) / many)[:, None]])
    steps = numpy.diff(places, axis=0)
    many = numpy.maximum(numpy.ceil(numpy.hypot(steps[:, 0], steps[:, 1]) / step_px).astype(int), 1)
    first = numpy.repeat(numpy.cumsum(many) - many, many)
    share = (numpy.arange(many.sum()) - first + 1) / numpy.repeat(many, many)
    along = numpy.repeat(places[:-1], many, axis=0) + numpy.repeat(steps, many, axis=0) * share[:, None]
    return numpy.concatenate([places[:1], along])


def around(wish_width: float, wish_height: float, target, reach: float, more: float = 0.0) -> list[Spot]:
    """Spots to the right, left, above, below and at the corners of a round thing."""
    x, y = target
    side, level = reach + 4 + wish_width / 2, reach + 3 + wish_height / 2
    corner = 0.7071 * reach + 4
    straight = [(side, 0, 0), (-side, 0, 0.3), (0, -level, 0.6), (0, level, 0.6)]
    corners = [(sx * (corner + wish_width / 2), sy * (corner + wish_height / 2), 0.9) for sy in (-1, 1) for sx in (1, -1)]
    return [Spot(x + dx, y + dy, 0.0, dislike + more) for dx, dy, dislike in (*straight, *corners)]


def along(wish_width: float, wish_height: float, start, end, *, may_break: bool = False, clear_px: float = 0.0) -> list[Spot]:
    """Spots beside a straight run, upright and lengthways, on both sides of it; and, if it may be broken, on the run itself.

    `clear_px` is half the width the run is drawn with.
    """
    (sx, sy), (ex, ey) = map(float, start), map(float, end)
    length = hypot(ex - sx, ey - sy)
    if length < 1e-9:
        return around(wish_width, wish_height, (sx, sy), 2.0)
    ux, uy = (ex - sx) / length, (ey - sy) / length
    angle = round((degrees(atan2(uy, ux)) + 90) % 180 - 90, 2)
    steep = abs(uy) > 0.7
    out = abs(uy) * wish_width / 2 + abs(ux) * wish_height / 2 + 5 + clear_px
    beside = wish_height / 2 + 3.5 + clear_px
    slanted = 0.0 if steep or abs(angle) < 3 else 1.2
    found = []
    for share in (0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82):
        off_middle = 1.5 * abs(share - 0.5)
        x, y = sx + ux * length * share, sy + uy * length * share
        fits = wish_width > 1.5 * wish_height and length * min(share, 1 - share) > wish_width / 2 + 12
        for side in (1.0, -1.0):
            found.append(Spot(x - uy * side * out, y + ux * side * out, 0.0, off_middle + slanted))
            if fits:
                found.append(Spot(x - uy * side * beside, y + ux * side * beside, angle, off_middle + (_TURNING if steep else 0.0)))
        if fits and may_break:
            found.append(Spot(x, y, angle, off_middle + _BREAKING, on_line=True))
    return found
