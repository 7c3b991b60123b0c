"""The chart of the pulls at the drive against the weight of the counterweight, with upright lines at the weights that matter."""

from __future__ import annotations

import altair
import numpy

from rigcheck import units
from rigcheck.ui import height_chart
from rigcheck.whatif.other_counterweight import Curve

GREATEST, LEAST, TO_BE_LEFT = "greatest pull, both ways", "least pull left, both ways", "pull to be left, as stated"
BEST, STOPPING, NOW, TRIED = "best", "stopping limit", "now", "tried"
_NAMES_APART = 0.09  # names of upright lines stand one above the other over all curves, by this share of the greatest pull
_AT_THE_LEFT = 0.2  # names of lines as far left as this share of the axis stand to the right of them, all others to the left


def pulls_by_weight(found: Curve, masses: list[tuple[str, float]], margin_n: float | None, ink: str) -> dict:
    """Pulls against the weight of the counterweight, with upright lines at the weights named; what is slack is not drawn."""
    curves = {GREATEST: numpy.fmax(found.raising_n, found.lowering_n), LEAST: numpy.where(found.least_n < -1e-9, numpy.nan, found.least_n)}
    if margin_n is not None:
        curves[TO_BE_LEFT] = numpy.full(len(found.masses_kg), margin_n)
    curves = height_chart.merged(curves)
    rows = [
        _row(words, *pair)
        for words, pulls in curves.items()
        for pair in zip(found.masses_kg, pulls, strict=True)
        if numpy.isfinite(pair[1])
    ]
    top = max((row["pull"] for row in rows), default=1.0)
    end = max(row["mass"] for row in [*rows, *(_row(words, mass, 0.0) for words, mass in masses)])
    across, up = f"weight of the counterweight in {units.label('kg')}", f"pull at the drive in {units.label('N')}"
    x = altair.X("mass:Q", title=across, scale=altair.Scale(zero=True, nice=True), axis=altair.Axis(tickCount=6))
    over = top * (1 + _NAMES_APART * (len(masses) + 2))
    y = altair.Y("pull:Q", title=up, scale=altair.Scale(domain=[0, over], nice=False), axis=altair.Axis(tickCount=6))
    tips = [
        altair.Tooltip("what:N"),
        altair.Tooltip("mass:Q", title=across, format=".4g"),
        altair.Tooltip("pull:Q", title=up, format=".4g"),
    ]
    lines = altair.Chart(altair.Data(values=rows)).mark_line(color=ink)
    lines = lines.encode(x=x, y=y, order="mass:Q", tooltip=tips, **height_chart.told_apart(list(curves)))
    upright = altair.Chart(altair.Data(values=named_lines(masses, top, end)))
    rule = upright.mark_rule(strokeWidth=1, color=ink).encode(x=x, y=y, y2="foot:Q")
    layers = [lines, rule]
    for align, dx in (("right", -4), ("left", 4)):
        names = upright.mark_text(align=align, dx=dx, color=ink, fontSize=13)
        layers.append(names.encode(x=x, y=y, text="what:N").transform_filter(f"datum.align == '{align}'"))
    named = ", ".join(f"{words} {units.show(mass, 'kg')}" for words, mass in masses)
    told = f"Pull at the drive against the weight of the counterweight, with upright lines at these weights: {named}. The figures stand in the table."
    made = height_chart.finished(altair.layer(*layers), ink, told, 320, len(curves))
    return made | {"usermeta": {"masses": masses, "top": top, "end": end}}


def named_lines(masses: list[tuple[str, float]], top: float, end: float) -> list[dict]:
    """The upright lines, each up to its name; equal weights share one line and name.

    A name to the left of its line runs over the lines left of it, so that those end lower; and one to the right the other way round.
    """
    shared: dict[float, str] = {}
    for words, mass in masses:
        same = next((other for other in shared if abs(other - mass) <= 1e-6 * max(mass, 1e-9)), mass)
        shared[same] = f"{shared[same]} = {words}" if same in shared else words
    found = [_row(f"{words}: {units.show(mass, 'kg', 4, 'down')}", mass, 0.0) for mass, words in shared.items()]
    for row in found:
        row["align"] = "left" if row["mass"] < _AT_THE_LEFT * end else "right"
    at_right = sorted((row for row in found if row["align"] == "right"), key=lambda row: row["mass"])
    at_left = sorted((row for row in found if row["align"] == "left"), key=lambda row: -row["mass"])
    for place, row in enumerate([*at_right, *at_left], 1):
        row["pull"], row["foot"] = top * (1 + _NAMES_APART * place), 0.0
    return found


def with_tried(spec: dict, mass_kg: float) -> dict:
    """The chart with one more upright line, put among those it has: quicker than making the whole chart anew at every step of the slider."""
    kept = spec["usermeta"]
    values = named_lines([*map(tuple, kept["masses"]), (TRIED, mass_kg)], kept["top"], kept["end"])
    layers = [spec["layer"][0], *({**layer, "data": {"values": values}} for layer in spec["layer"][1:])]
    told = f"{spec['description']} The weight tried is {units.show(mass_kg, 'kg')}."
    return {**spec, "layer": layers, "description": told}


def _row(words: str, mass_kg: float, pull_n: float) -> dict:
    return {"what": words, "mass": units.in_shown(float(mass_kg), "kg"), "pull": units.in_shown(float(pull_n), "N")}
