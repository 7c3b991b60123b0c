"""Legs of a bridle: 60 degrees from the plumb is the most (EN 818-4), and what the remedy says holds when it is done."""

import math

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.checks.check import FALLS_SHORT, HOLDS
from rigcheck.checks.legs import legs
from rigcheck.rig import examples
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.units import read

BRIDLE = ARRANGEMENTS["bridle-two"]


def judged(leg_m: float):
    typed = {"spread": "1 m", "off_middle": "0 mm", "leg_length": f"{leg_m!r} m"}
    found = assess(BRIDLE.make(BRIDLE.defaults() | typed))
    return [check for check in found.checks if check.id.startswith("leg.")]


@pytest.mark.parametrize("lean_deg, verdict", [(30, HOLDS), (59.9, HOLDS), (60.1, FALLS_SHORT), (70, FALLS_SHORT)])
def test_a_leg_leans_sixty_degrees_at_most(lean_deg, verdict):
    for check in judged(0.5 / math.sin(math.radians(lean_deg))):
        assert check.verdict == verdict
        assert math.degrees(check.demand.number) == pytest.approx(lean_deg, abs=1e-6)
        assert "EN 818-4" in check.source


def test_legs_as_long_as_the_remedy_says_hold_and_shorter_ones_do_not():
    (check, _) = judged(0.53)
    length = read(check.remedy.split("at least ")[1].split(" long")[0], "length").value
    assert {each.verdict for each in judged(length)} == {HOLDS}
    assert {each.verdict for each in judged(length * 0.99)} == {FALLS_SHORT}


def test_what_runs_over_a_sheave_is_no_leg_and_a_hoist_on_one_rope_has_none():
    gathered = ARRANGEMENTS["ring-gathering-four"]
    assert legs(gathered.make(gathered.defaults())) == []
    assert legs(examples.example("kiln-shell")) == []
