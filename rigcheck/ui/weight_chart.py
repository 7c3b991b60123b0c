"""The chart of the pulls at the drive against the weight of the counterweight, with upright lines at the weights that matter."""

from __future__ import annotations

import copy

import altair
import numpy

from rigcheck import units
from rigcheck.ui import height_chart
from rigcheck.whatif.other_counterweight import Curve

GREATEST, LEAST, TO_BE_LEFT = "greatest pull, both ways", "least pull left, both ways", "pull to be left, as stated"
BEST, STOPPING, NOW, TRIED = "best", "stopping", "now", "tried"
_NAMES_APART = 0.07  # names of upright lines stand one below the other, by this share of the greatest pull


def pulls_by_weight(found: Curve, masses: list[tuple[str, float]], margin_n: float | None, ink: str) -> dict:
    """Pulls against the weight of the counterweight, with upright lines at the weights named; what is slack is not drawn."""
    curves = {GREATEST: numpy.fmax(found.raising_n, found.lowering_n), LEAST: numpy.where(found.least_n < -1e-9, numpy.nan, found.least_n)}
    if margin_n is not None:
        curves[TO_BE_LEFT] = numpy.full(len(found.masses_kg), margin_n)
    rows = [
        _row(words, *pair)
        for words, pulls in curves.items()
        for pair in zip(found.masses_kg, pulls, strict=True)
        if numpy.isfinite(pair[1])
    ]
    top = max((float(numpy.nanmax(pulls)) for pulls in curves.values() if numpy.isfinite(pulls).any()), default=1.0)
    across, up = f"weight of the counterweight in {units.label('kg')}", f"pull at the drive in {units.label('N')}"
    x = altair.X("mass:Q", title=across, scale=altair.Scale(zero=True, nice=True), axis=altair.Axis(tickCount=6))
    y = altair.Y("pull:Q", title=up, scale=altair.Scale(zero=True, nice=True), axis=altair.Axis(tickCount=6))
    tips = [
        altair.Tooltip("what:N"),
        altair.Tooltip("mass:Q", title=across, format=".4g"),
        altair.Tooltip("pull:Q", title=up, format=".4g"),
    ]
    lines = altair.Chart(altair.Data(values=rows)).mark_line(strokeWidth=2, color=ink)
    lines = lines.encode(x=x, y=y, order="mass:Q", strokeDash=height_chart.dashes(list(curves)), tooltip=tips)
    layers = [lines]
    for place, (words, mass) in enumerate(sorted(masses, key=lambda pair: pair[1])):
        here = altair.Chart(altair.Data(values=[_row(words, mass, top * (1 - _NAMES_APART * place))]))
        layers.append(here.mark_rule(strokeWidth=1, color=ink).encode(x=x))
        layers.append(here.mark_text(align="right", dx=-4, color=ink, fontSize=13).encode(x=x, y=y, text="what:N"))
    named = ", ".join(f"{words} {units.show(mass, 'kg')}" for words, mass in masses)
    told = f"Pull at the drive against the weight of the counterweight, with upright lines at these weights: {named}. The figures stand in the table."
    return height_chart.finished(altair.layer(*layers), ink, told, 320, len(curves))


def with_tried(spec: dict, mass_kg: float) -> dict:
    """The chart with one more upright line, made after the first of those it has: quicker than making the whole chart anew at every step of the slider."""
    rule, name = (copy.deepcopy(layer) for layer in spec["layer"][1:3])
    below = min(layer["data"]["values"][0]["pull"] for layer in spec["layer"][2::2])
    row = _row(TRIED, mass_kg, 0.0) | {"pull": below - _NAMES_APART * name["data"]["values"][0]["pull"]}
    rule["data"] = name["data"] = {"values": [row]}
    told = f"{spec['description']} The weight tried is {units.show(mass_kg, 'kg')}."
    return {**spec, "layer": [*spec["layer"], rule, name], "description": told}


def _row(words: str, mass_kg: float, pull_n: float) -> dict:
    return {"what": words, "mass": units.in_shown(float(mass_kg), "kg"), "pull": units.in_shown(float(pull_n), "N")}
