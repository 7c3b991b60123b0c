"""How far falls of unequal length tilt a load: by hand for two falls, and by laying the rig anew with one fall cut longer."""

import math

import numpy
import pytest
from scipy.optimize import root

from rigcheck import units
from rigcheck.statics.layout import Layout
from rigcheck.statics.poses import Poses
from tests import rigs

WIDE_M, LONGER_M = 0.8, 0.01
STRETCHY = {"modulus": "100 GPa", "metal_area": "14 mm²"}


def spreader(gravity_m: float = 0.0) -> dict:
    return rigs.falls([0.0, WIDE_M], tilts=True, gravity_m=gravity_m)


def told(data: dict) -> str:
    return next(text for text in rigs.assessed(data).not_checked if text.startswith("Whether load hangs level"))


def test_two_falls_tilt_it_by_their_difference_over_the_width_between_them():
    shown = units.show(math.atan(LONGER_M / WIDE_M), "°", 2, "up")
    assert f"by {shown} for every 10 mm that fall 1 is too long" in told(spreader())


def test_that_is_the_tilt_at_which_the_ropes_laid_anew_have_those_lengths():
    layout = Layout(rigs.rig(spreader()))
    tilt = next(j for j, free in enumerate(layout.free) if free.tilts)

    def lengths(q: numpy.ndarray) -> numpy.ndarray:
        poses = Poses(layout.rig, layout.free, q[None])
        return numpy.array([layout.lay(rope, poses, None).length[0] for rope in layout.rig.ropes])

    asked = lengths(numpy.zeros(2)) + numpy.array([0.0, LONGER_M])
    found = root(lambda q: lengths(q) - asked, numpy.zeros(2), tol=1e-12).x
    assert abs(found[tilt]) == pytest.approx(math.atan(LONGER_M / WIDE_M), rel=2e-3)  # the falls lean a little as it tilts


def test_the_stretch_of_its_ropes_is_told_where_it_is_known_how_they_stretch():
    assert "What the stretch of fall 1 and fall 2 adds is not known" in told(spreader())
    data = spreader(0.6)
    for rope in data["ropes"].values():
        rope |= STRETCHY
    found = rigs.assessed(data)
    # fall 2 carries three quarters of the weight, fall 1 one quarter; both as long as they are drawn at the foot
    where = found.solution.travel.paths
    weight = 100.0 * rigs.G
    parts = [weight * share * float(where[rope].straight.sum(axis=0)[0]) / 1.4e6 for rope, share in (("fall 1", 0.25), ("fall 2", 0.75))]
    shown = units.show((parts[1] - parts[0]) / WIDE_M, "°", 2, "up")
    assert f"tilts it by up to {shown}" in told(data)


def test_a_load_that_is_held_level_says_nothing_of_it():
    found = rigs.assessed(rigs.falls([0.0, WIDE_M]))
    assert not any("hangs level" in text for text in found.not_checked)
