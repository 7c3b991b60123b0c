"""Charts along the travel: what they say in words, what is drawn, and that nothing hides behind another curve."""

import numpy
import pytest

from rigcheck import units
from rigcheck.statics.stations import Stations
from rigcheck.ui import height_chart

HEIGHTS = Stations(numpy.linspace(0.0, 2.0, 5))
GROWING = numpy.array([10.0, 12.0, 15.0, 19.0, 24.0])


def rows(spec: dict) -> list[dict]:
    return spec["data"]["values"]


def test_a_quantity_that_does_not_change_is_told_in_a_sentence():
    flat = {"raising": numpy.array([120.04])}
    assert height_chart.is_flat(flat)
    assert height_chart.sentence("Pull", flat, "N") == "Pull, the same at every height: raising 120.1 N."


def test_a_quantity_that_changes_is_told_by_its_least_and_greatest_rounded_outwards():
    told = height_chart.sentence("Pull", {"raising": GROWING + 0.00049}, "N")
    assert told == "Pull: raising 10 N to 24.01 N."
    assert not height_chart.is_flat({"raising": GROWING})


def test_what_is_not_known_is_called_unknown_and_not_drawn():
    curves = {"raising": GROWING, "lowering": numpy.full(5, numpy.nan)}
    assert "lowering unknown" in height_chart.sentence("Pull", curves, "N")
    assert {row["what"] for row in rows(height_chart.chart(curves, HEIGHTS, "pull", "N", "black"))} == {"raising"}


def test_every_height_is_drawn_in_the_unit_of_its_axis_with_the_height_upwards():
    spec = height_chart.chart({"raising": GROWING}, HEIGHTS, "pull", "N", "black")
    assert [(row["height"], row["value"]) for row in rows(spec)] == [
        (pytest.approx(units.in_shown(h, "m")), pytest.approx(units.in_shown(v, "N"))) for h, v in zip(HEIGHTS.values, GROWING, strict=True)
    ]
    assert spec["encoding"]["y"]["title"] == f"height of the load in {units.label('m')}"
    assert spec["encoding"]["x"]["title"] == f"pull in {units.label('N')}"
    assert "raising 10 N to 24 N" in spec["description"]


def test_axes_and_values_follow_the_system_of_units():
    units.show_in(units.US)
    try:
        spec = height_chart.chart({"raising": GROWING}, HEIGHTS, "pull", "N", "black")
    finally:
        units.show_in(units.METRIC)
    assert spec["encoding"]["x"]["title"] == "pull in lbf"
    assert rows(spec)[-1]["value"] == pytest.approx(24.0 / 4.4482216152605)
    assert rows(spec)[-1]["height"] == pytest.approx(2.0 / 0.3048)


def test_curves_that_coincide_are_one_under_both_names():
    spec = height_chart.chart({"raising": GROWING, "lowering": GROWING - 1, "standing": GROWING.copy()}, HEIGHTS, "pull", "N", "black")
    assert {row["what"] for row in rows(spec)} == {"raising = standing", "lowering"}


def test_curves_are_told_apart_by_dashes_and_not_by_colour():
    spec = height_chart.chart({"raising": GROWING, "lowering": GROWING - 1}, HEIGHTS, "pull", "N", "#123456")
    scale = spec["encoding"]["strokeDash"]["scale"]
    assert scale["domain"] == ["raising", "lowering"]
    assert scale["range"][0] != scale["range"][1]
    assert "color" not in spec["encoding"]
    assert spec["mark"]["color"] == "#123456"


def test_a_curve_that_runs_over_another_is_dashed_and_wider_so_that_both_show():
    spec = height_chart.chart({"raising": GROWING, "lowering": numpy.minimum(GROWING, 20.0)}, HEIGHTS, "pull", "N", "black")
    dashes, widths = (spec["encoding"][channel]["scale"]["range"] for channel in ("strokeDash", "strokeWidth"))
    assert dashes[0] == [1, 0]
    assert dashes[1] != [1, 0]
    assert widths[1] > widths[0]
