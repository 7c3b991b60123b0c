"""One view being drawn: its marks in layers, and where their ink is, so that labels and supports can keep clear of it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

import numpy

from rigcheck.report import svg
from rigcheck.report.labels import sampled
from rigcheck.report.svg import Markup
from rigcheck.report.view import View

LAYERS = (
    "floor",
    "person",
    "struts",
    "guides",
    "supports",
    "straps",
    "bodies",
    "winch",
    "sheaves",
    "ropes",
    "ghost",
    "axles",
    "dimensions",
    "ticks",
)
GRIP_RADIUS_PX = 13.0
_INSIDE_WEIGHT = 0.35
_TURN = numpy.linspace(0, 2 * numpy.pi, 25)
_CIRCLE = numpy.stack([numpy.cos(_TURN), numpy.sin(_TURN)], axis=1)


@dataclass(frozen=True)
class Grip:
    """Where a part is taken hold of in the drawing, and what it is called to whoever does not see it."""

    place_px: numpy.ndarray
    words: str


@dataclass
class Canvas:
    """`before` is put before every id, so that a second view of the same part has an id of its own; `is_held`: parts get their grips."""

    view: View
    before: str = ""
    is_held: bool = False
    layers: dict[str, list[Markup]] = field(default_factory=lambda: {name: [] for name in LAYERS})
    ink: list[tuple[numpy.ndarray, float]] = field(default_factory=list)
    runs: list[tuple[numpy.ndarray, numpy.ndarray]] = field(default_factory=list)
    _gathered: tuple[int, numpy.ndarray, numpy.ndarray] | None = None

    def part(self, layer: str, part: str, name: str, marks: Iterable[Markup], grip: Grip | None = None) -> None:
        """Add the marks of a part; where parts are held, with an unseen round place to take hold of it."""
        held = {}
        if self.is_held and grip is not None:
            marks = [*marks, svg.circle(grip.place_px, GRIP_RADIUS_PX, class_="rig-grip")]
            held = {"tabindex": "0", "role": "button", "aria_label": grip.words}
        self.layers[layer].append(svg.group(part, name, marks, before=self.before, **held))

    def inked(self, places_px: numpy.ndarray, weight: float = 1.0) -> None:
        """Remember a line as ink."""
        self.ink.append((sampled(numpy.asarray(places_px, dtype=float)), weight))

    def filled(self, corners_px: numpy.ndarray) -> None:
        """Remember the inside of a box as a place better left free."""
        low, high = corners_px.min(axis=0) + 3, corners_px.max(axis=0)
        across, down = numpy.arange(low[0], high[0], 6.0), numpy.arange(low[1], high[1], 6.0)
        grid = numpy.stack([numpy.tile(across, len(down)), numpy.repeat(down, len(across))], axis=1)
        self.ink.append((grid, _INSIDE_WEIGHT))

    def ink_within(self, low: numpy.ndarray, high: numpy.ndarray) -> bool:
        """Whether any ink lies in an upright box."""
        return self.weight_within(low, high) > 0

    def weight_within(self, low, high) -> float:
        """How much ink lies in an upright box."""
        places, weights = self.all_ink()
        inside = (places[:, 0] > low[0]) & (places[:, 0] < high[0]) & (places[:, 1] > low[1]) & (places[:, 1] < high[1])
        return float(weights[inside].sum())

    def all_ink(self) -> tuple[numpy.ndarray, numpy.ndarray]:
        """All ink so far: places, (n, 2), and their weights, (n,)."""
        if self._gathered is None or self._gathered[0] != len(self.ink):
            done, places, weights = self._gathered or (0, numpy.empty((0, 2)), numpy.empty(0))
            new = self.ink[done:]
            places = numpy.concatenate([places, *(p for p, _ in new)])
            weights = numpy.concatenate([weights, numpy.repeat([w for _, w in new], [len(p) for p, _ in new])])
            self._gathered = len(self.ink), places, weights
        return self._gathered[1:]

    def line(self, start, end, class_: str, weight: float = 1.0) -> Markup:
        self.inked(numpy.array([start, end]), weight)
        return svg.line(start, end, class_=class_)

    def circle(self, centre, radius: float, class_: str, weight: float = 1.0) -> Markup:
        self.inked(numpy.asarray(centre) + radius * _CIRCLE, weight)
        return svg.circle(centre, radius, class_=class_)

    def polygon(self, places_px: numpy.ndarray, class_: str, weight: float = 1.0) -> Markup:
        self.inked(numpy.concatenate([places_px, places_px[:1]]), weight)
        return svg.polygon(places_px, class_=class_)

    def hatch(self, start, end, out, class_: str = "rig-hatch", step_px: float = 6.0, length_px: float = 7.0) -> Markup:
        """Short slanting strokes along a line, on the side that `out` points to."""
        start, end, out = (numpy.asarray(p, dtype=float) for p in (start, end, out))
        length = float(numpy.hypot(*(end - start)))
        along = (end - start) / length
        slant = (out - along) * length_px * 0.7071
        many = max(int(length // step_px), 1)
        feet = start + along * (length * (numpy.arange(many) + 0.7) / many)[:, None]
        self.ink.append((numpy.concatenate([feet, feet + slant / 2, feet + slant]), 1.3))
        strokes = zip(feet.tolist(), (feet + slant).tolist(), strict=True)
        data = "".join(f"M{svg.number(x)} {svg.number(y)}L{svg.number(u)} {svg.number(v)}" for (x, y), (u, v) in strokes)
        return svg.element("path", d=data, class_=class_)
