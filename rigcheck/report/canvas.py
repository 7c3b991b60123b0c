"""One view being drawn: its marks in layers, and where their ink is, so that labels and supports can keep clear of it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

import numpy

from rigcheck.report import svg
from rigcheck.report.labels import sampled
from rigcheck.report.svg import Markup
from rigcheck.report.view import View

LAYERS = ("floor", "guides", "supports", "straps", "bodies", "winch", "sheaves", "ropes", "ghost", "axles", "dimensions", "ticks")
_INSIDE_WEIGHT = 0.35


@dataclass
class Canvas:
    """`before` is put before every id, so that a second view of the same part has an id of its own."""

    view: View
    before: str = ""
    layers: dict[str, list[Markup]] = field(default_factory=lambda: {name: [] for name in LAYERS})
    ink: list[tuple[numpy.ndarray, float]] = field(default_factory=list)
    runs: list[tuple[numpy.ndarray, numpy.ndarray]] = field(default_factory=list)

    def part(self, layer: str, part: str, name: str, marks: Iterable[Markup], class_: str | None = None) -> None:
        self.layers[layer].append(svg.group(part, name, marks, before=self.before, class_=class_))

    def inked(self, places_px: numpy.ndarray, weight: float = 1.0) -> None:
        """Remember a line as ink."""
        self.ink.append((sampled(numpy.asarray(places_px, dtype=float)), weight))

    def filled(self, corners_px: numpy.ndarray) -> None:
        """Remember the inside of a convex shape as a place better left free."""
        low, high = corners_px.min(axis=0), corners_px.max(axis=0)
        grid = numpy.stack(numpy.meshgrid(numpy.arange(low[0] + 3, high[0], 6.0), numpy.arange(low[1] + 3, high[1], 6.0)), axis=-1).reshape(
            -1, 2
        )
        self.ink.append((grid, _INSIDE_WEIGHT))

    def ink_within(self, low: numpy.ndarray, high: numpy.ndarray) -> bool:
        return any(bool(((places > low) & (places < high)).all(axis=1).any()) for places, _ in self.ink)

    def all_ink(self) -> tuple[numpy.ndarray, numpy.ndarray]:
        places = [p for p, _ in self.ink if len(p)]
        weights = [numpy.full(len(p), w) for p, w in self.ink if len(p)]
        return (numpy.concatenate(places), numpy.concatenate(weights)) if places else (numpy.empty((0, 2)), numpy.empty(0))

    def line(self, start, end, class_: str, weight: float = 1.0) -> Markup:
        self.inked(numpy.array([start, end]), weight)
        return svg.line(start, end, class_=class_)

    def circle(self, centre, radius: float, class_: str, weight: float = 1.0) -> Markup:
        turn = numpy.linspace(0, 2 * numpy.pi, 25)
        self.inked(numpy.asarray(centre) + radius * numpy.stack([numpy.cos(turn), numpy.sin(turn)], axis=1), weight)
        return svg.circle(centre, radius, class_=class_)

    def polygon(self, places_px: numpy.ndarray, class_: str, weight: float = 1.0) -> Markup:
        self.inked(numpy.concatenate([places_px, places_px[:1]]), weight)
        return svg.polygon(places_px, class_=class_)

    def hatch(self, start, end, out, class_: str = "rig-hatch", step_px: float = 6.0, length_px: float = 7.0) -> list[Markup]:
        """Short slanting strokes along a line, on the side that `out` points to."""
        start, end, out = (numpy.asarray(p, dtype=float) for p in (start, end, out))
        length = float(numpy.linalg.norm(end - start))
        along = (end - start) / length
        slant = (out - along) * length_px * 0.7071
        many = max(int(length // step_px), 1)
        feet = [start + along * (length * (k + 0.7) / many) for k in range(many)]
        return [self.line(foot, foot + slant, class_, 1.3) for foot in feet]
