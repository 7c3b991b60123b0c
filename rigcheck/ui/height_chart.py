"""A quantity along the travel as a chart, the height upwards as it is on the wall, or the angle of the swing; where it is the same at every height, a sentence instead."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import altair
import numpy

from rigcheck import units
from rigcheck.statics.stations import Stations

DASHES = ([1, 0], [5, 3, 1, 3], [8, 3], [2, 3], [12, 3, 2, 3])
WIDTHS = (1.5, 2.5, 3.5, 4.5, 5.5)  # a dashed line is wider than those drawn before it, so that it shows where it runs over them
HEIGHT_PX, LEGEND_LINE_PX = 280, 24
A_HAIR = 1e-6
PADDING_PX = {"left": 2, "top": 6, "right": 14, "bottom": 8}  # the last number of an axis stands beyond its end


def is_flat(curves: Mapping[str, numpy.ndarray]) -> bool:
    """Whether nothing in it changes along the travel."""
    known = [value[numpy.isfinite(value)] for value in curves.values()]
    return all(len(value) == 0 or numpy.ptp(value) <= A_HAIR * max(1e-12, float(numpy.max(numpy.abs(value)))) for value in known)


def sentence(what: str, curves: Mapping[str, numpy.ndarray], unit: str, towards: str = "up") -> str:
    """What a chart shows, in words: the one value of each curve, or the least and the greatest."""
    told = []
    for words, value in curves.items():
        known = value[numpy.isfinite(value)]
        if not len(known):
            told.append(f"{words} unknown")
        elif is_flat({words: known}):
            told.append(f"{words} {units.show(float(known[0]), unit, 4, towards)}")
        else:
            low, high = units.show(float(known.min()), unit, 4, "down"), units.show(float(known.max()), unit, 4, "up")
            told.append(f"{words} {low} to {high}")
    return f"{what}{', the same at every height' if is_flat(curves) else ''}: {'; '.join(told)}."


def chart(
    curves: Mapping[str, numpy.ndarray],
    stations: Stations,
    title: str,
    unit: str,
    ink: str,
    *,
    marks: Sequence[tuple[str, float]] = (),
    from_zero: bool = True,
) -> dict:
    """The specification of a chart of curves told apart by their dashes, with upright lines at `marks`; values in SI."""
    places = stations.values
    lines = merged({words: numpy.broadcast_to(value, places.shape) for words, value in curves.items()})
    lines |= {words: numpy.full(places.shape, value) for words, value in marks}
    rows = [
        {"value": units.in_shown(float(v), unit), "height": units.in_shown(float(h), stations.unit), "what": words}
        for words, value in lines.items()
        for h, v in _thinned(places, value)
        if numpy.isfinite(v)
    ]
    across, up = f"{title} in {units.label(unit)}", f"{stations.count} in {units.label(stations.unit)}"
    base = altair.Chart(altair.Data(values=rows)).encode(
        x=altair.X("value:Q", title=across, scale=altair.Scale(zero=from_zero, nice=True), axis=altair.Axis(tickCount=5)),
        y=altair.Y("height:Q", title=up, axis=altair.Axis(tickCount=6)),
        order="height:Q",
        tooltip=[altair.Tooltip("what:N"), altair.Tooltip("value:Q", title=across, format=".4g"), altair.Tooltip("height:Q", title=up, format=".3f")],
    )  # fmt: skip
    if len(lines) > 1:
        base = base.encode(**told_apart(list(lines)))
    told = sentence(title, curves, unit)
    mark = base.mark_line(color=ink) if len(lines) > 1 else base.mark_line(strokeWidth=2, color=ink)
    return finished(mark, ink, told, HEIGHT_PX, len(lines) if len(lines) > 1 else 0)


def merged(curves: Mapping[str, numpy.ndarray]) -> dict[str, numpy.ndarray]:
    """Curves that are the same are one, under both names: one would hide the other."""
    found: dict[str, numpy.ndarray] = {}
    for words, value in curves.items():
        same = next((other for other in found if numpy.allclose(found[other], value, rtol=A_HAIR, atol=0.0, equal_nan=True)), None)
        if same is None:
            found[words] = value
        else:
            found = {f"{same} = {words}" if other == same else other: kept for other, kept in found.items()}
    return found


def told_apart(names: Sequence[str]) -> dict[str, altair.StrokeDash | altair.StrokeWidth]:
    """Lines told apart by their dashes and widths, without any colour, their names above the chart."""
    legend = altair.Legend(orient="top", symbolSize=500, labelOffset=14, columns=1, labelLimit=320)
    found = {}
    for channel, each, told in (("strokeDash", altair.StrokeDash, DASHES), ("strokeWidth", altair.StrokeWidth, WIDTHS)):
        scale = altair.Scale(domain=list(names), range=[told[i % len(told)] for i in range(len(names))])
        found[channel] = each("what:N", title=None, scale=scale, legend=legend)
    return found


def finished(one: altair.Chart | altair.LayerChart, ink: str, told: str, height_px: int = HEIGHT_PX, names: int = 0) -> dict:
    """The specification, in the theme's ink; `told` says in words what it shows, `names` are the lines of its legend, which need room of their own."""
    sized = one.properties(height=height_px + LEGEND_LINE_PX * names, description=told, padding=PADDING_PX)
    sized = sized.configure_axis(labelColor=ink, titleColor=ink).configure_axisX(labelFlush=True)
    return sized.configure_legend(labelColor=ink, titleColor=ink).to_dict()


def _thinned(places: numpy.ndarray, value: numpy.ndarray) -> list[tuple[float, float]]:
    """A curve that does not change needs its two ends only."""
    if len(value) > 2 and is_flat({"": value}) and numpy.all(numpy.isfinite(value)):
        return [(places[0], value[0]), (places[-1], value[-1])]
    return list(zip(places, value, strict=True))
