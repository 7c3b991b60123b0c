"""Charts for the report: the pull that the drive feels in each rope, and those at its far end, against the height of the load or,
where it turns about a hinge, the angle of its swing.

SVG text, black on white, the axes and their round numbers in the units that are shown.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rigcheck import units
from rigcheck.report import svg
from rigcheck.report.pulls import RunOfRope
from rigcheck.report.svg import Markup
from rigcheck.statics.stations import Stations

WIDTH, HEIGHT = 480.0, 190.0
LEFT, RIGHT, TOP, FOOT = 62.0, 14.0, 12.0, 40.0
SIZE = 11.0
INK = "#000000"
DASHES = {"raising": None, "lowering": "6 4"}


@dataclass(frozen=True)
class Chart:
    """A finished chart with the words beneath it; `flat` says that nothing in it changes with the height."""

    title: str
    text: str
    flat: bool


def charts(runs: list[RunOfRope], stations: Stations) -> list[Chart]:
    """One chart for each rope: its run at the drive or, without a drive, its first run."""
    found = []
    for run in runs:
        if run.at_drive:
            values = [v for v in (*run.raising_along_n, *run.lowering_along_n) if v is not None]
            title = f"{run.rope}, run {run.number + 1}: from {run.start} to {run.end}"
            each = [[v for v in along if v is not None] for along in (run.raising_along_n, run.lowering_along_n)]
            flat = (
                bool(values)
                and all(max(own) - min(own) <= 1e-6 * max(map(abs, values)) for own in each if own)
                and len(each[0]) == len(stations.values)
            )
            found.append(Chart(title, _chart(run, stations, values), flat))
    return found


def ticks(low: float, high: float, about: int = 5) -> list[float]:
    """Round numbers that cover a range.

    >>> ticks(0.0, 1.0), ticks(0.0, 437.8)
    ([0.0, 0.2, 0.4, 0.6, 0.8, 1.0], [0.0, 100.0, 200.0, 300.0, 400.0, 500.0])
    """
    span = high - low if high > low else 1.0
    power = 10.0 ** math.floor(math.log10(span / about))
    step = next(s * power for s in (1.0, 2.0, 5.0, 10.0) if s * power * about >= span * 0.999)
    first, last = math.floor(low / step + 1e-9), math.ceil(high / step - 1e-9)
    return [float(f"{k * step:.12g}") for k in range(first, max(last, first + 1) + 1)]


def _chart(run: RunOfRope, stations: Stations, values: list[float]) -> Markup:
    heights = [units.in_shown(value, stations.unit) for value in stations.values.tolist()]
    across = ticks(heights[0], heights[-1])
    up = ticks(0.0, units.in_shown(max(values, default=1.0) or 1.0, "N"), about=4)
    right, high = heights[-1], up[-1]

    def px(height: float, pull: float) -> tuple[float, float]:  # both as shown
        return LEFT + (WIDTH - LEFT - RIGHT) * height / right, HEIGHT - FOOT - (HEIGHT - TOP - FOOT) * pull / high

    marks: list[Markup] = []
    for value in up:
        y = px(0.0, value)[1]
        marks.append(svg.line((LEFT, y), (WIDTH - RIGHT, y), stroke=INK, stroke_width=0.4, stroke_opacity=0.35))
        marks.append(_words(units.number(value, 6), (LEFT - 6, y + 4), "end"))
    for value in across:
        if value <= right * (1 + 1e-9):
            x = px(value, 0.0)[0]
            marks.append(svg.line((x, HEIGHT - FOOT), (x, HEIGHT - FOOT + 4), stroke=INK, stroke_width=0.8))
            marks.append(_words(units.number(value, 6), (x, HEIGHT - FOOT + 16), "middle"))
    marks.append(svg.line((LEFT, HEIGHT - FOOT), (WIDTH - RIGHT, HEIGHT - FOOT), stroke=INK, stroke_width=0.8))
    marks.append(svg.line((LEFT, TOP), (LEFT, HEIGHT - FOOT), stroke=INK, stroke_width=0.8))
    above = "" if stations.are_angles else " above its lowest place"
    across_words, up_words = f"{stations.count}{above}, {units.label(stations.unit)}", f"pull, {units.label('N')}"
    marks.append(_words(across_words, ((LEFT + WIDTH - RIGHT) / 2, HEIGHT - 6), "middle"))
    marks.append(_words(up_words, (14.0, (TOP + HEIGHT - FOOT) / 2), "middle", turned=True))
    for word, along in (("raising", run.raising_along_n), ("lowering", run.lowering_along_n)):
        places = [None if v is None else px(h, units.in_shown(max(v, 0.0), "N")) for h, v in zip(heights, along, strict=True)]
        marks += _curve(places, DASHES[word])
    if not values:
        marks.append(_words("a rope goes slack: the pulls are not known", ((LEFT + WIDTH) / 2, HEIGHT / 2), "middle"))
    return svg.element("svg", *marks, xmlns="http://www.w3.org/2000/svg", viewBox=f"0 0 {WIDTH:g} {HEIGHT:g}", width=WIDTH, height=HEIGHT)


def _curve(places: list[tuple[float, float] | None], dashes: str | None) -> list[Markup]:
    """The curve in pieces: where a pull is not known there is a gap."""
    pieces: list[list[tuple[float, float]]] = [[]]
    for place in places:
        if place is None:
            pieces.append([])
        else:
            pieces[-1].append(place)
    return [
        svg.element(
            "polyline",
            points=" ".join(f"{svg.number(x)},{svg.number(y)}" for x, y in piece),
            fill="none",
            stroke=INK,
            stroke_width=1.6,
            stroke_dasharray=dashes,
        )
        for piece in pieces
        if len(piece) > 1
    ]


def _words(text: str, place: tuple[float, float], anchor: str, turned: bool = False) -> Markup:
    return svg.element(
        "text", text, x=place[0], y=place[1], text_anchor=anchor, font_size=SIZE, font_family="Libertinus Serif, serif", fill=INK,
        transform=f"rotate(-90 {svg.number(place[0])} {svg.number(place[1])})" if turned else None,
    )  # fmt: skip
