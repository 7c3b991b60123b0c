"""Extremes along the travel, each with the height where it stands: ropes that share a load, by hand.

Two plumb falls of lengths a - h and b - h to a load of weight W = 980.665 N that is held level: by stiffness the first carries W (b - h) / (a + b - 2 h).
"""

import numpy
import pytest

from rigcheck.report.as_text import text
from rigcheck.report.pulls import runs_of
from tests.rigs import G, assessed, falls

W = 100 * G


@pytest.fixture(scope="module")
def shared():
    return assessed(falls([-0.5, 0.5]))


def test_the_likely_share_is_the_greatest_along_the_travel_and_stands_at_a_height_of_its_own(shared):
    lengths = {name: shared.solution.travel.paths[name].straight.sum(axis=0) for name in ("fall 1", "fall 2")}
    long, short = sorted(lengths, key=lambda name: -lengths[name][0])
    share_of_short = W * lengths[long] / (lengths[long] + lengths[short])
    assert numpy.all(numpy.diff(share_of_short) > 0), "the nearer to the top, the more the shorter fall carries"
    runs = {run.rope: run for run in runs_of(shared.solution) if run.number == 0}
    assert (runs[short].likely_raising.at_m, runs[long].likely_raising.at_m) == (1.0, 0.0)
    assert runs[short].likely_raising_n == pytest.approx(share_of_short[-1])
    assert runs[long].likely_raising_n == pytest.approx(W - share_of_short[0])
    assert {run.raising.at_m for run in runs.values()} == {0.0}, "the worst share is W at every height, so the lowest is named"


def test_the_text_names_the_height_of_each_likely_share(shared):
    told = " ".join(text(shared).split())
    assert "likely" in told
    for run in runs_of(shared.solution):
        if run.number == 0:
            assert f"({run.likely_raising.at_m:g} m)" in told


def test_a_rope_that_carries_its_load_alone_has_no_likely_share():
    assert {run.likely_raising for run in runs_of(assessed(falls([0.0])).solution)} == {None}
