"""Legs of bridles and loads in a bight: a published example and a published rule, and rigs by hand.

OpenStax, University Physics, volume 1, problem on a child of 30.0 kg on a swing held 30.0° from the vertical: 170 N in each of its two ropes.
EN 818-4, rule for slings of two legs alike: together they bear 2 cos β times what one bears, β their lean from the plumb.
By hand: moments and forces at the place where the load comes to rest, worked out from the lengths typed.
"""

import math

import numpy
import pytest

from rigcheck.checks.assessment import assess
from rigcheck.rig import examples
from rigcheck.rig.arrangements import ARRANGEMENTS

G = 9.80665


def greatest(found, rope: str, run: int = 0) -> float:
    return float(found.solution.runs[rope][run].raising.value.max())


def bridle(slug: str, **typed: str):
    arrangement = ARRANGEMENTS[slug]
    return assess(arrangement.make(arrangement.defaults() | typed))


def test_two_ropes_leaning_by_30_degrees_bear_a_child_of_30_kg_with_170_N_each():
    found = bridle("bridle-two", mass="30 kg", spread="1 m", leg_length="1 m", off_middle="0 mm")
    assert greatest(found, "left leg") == pytest.approx(170, abs=0.5)
    assert greatest(found, "right leg") == pytest.approx(170, abs=0.5)


@pytest.mark.parametrize("lean_deg", [15, 30, 45, 60])
def test_two_legs_alike_bear_what_the_rule_for_slings_says(lean_deg):
    spread = 2 * math.sin(math.radians(lean_deg))
    found = bridle("bridle-two", mass="100 kg", spread=f"{spread!r} m", leg_length="1 m", off_middle="0 mm")
    assert greatest(found, "left leg") * 2 * math.cos(math.radians(lean_deg)) == pytest.approx(100 * G, rel=1e-9)


def test_four_legs_alike_on_a_stiff_load_are_judged_as_two_and_share_alike_by_stiffness():
    """W / (2 cos β): the rule that two of four legs carry it all; by stiffness each carries half of that."""
    found = bridle("bridle-four", mass="100 kg", spread="0.8 m", depth="0.6 m", leg_length="1 m")
    upright = math.sqrt(1 - 0.4**2 - 0.3**2)
    for leg in ("left front leg", "right front leg", "left back leg", "right back leg"):
        assert greatest(found, leg) == pytest.approx(100 * G / (2 * upright), rel=1e-9)
        assert float(found.solution.likely[leg].value.max()) == pytest.approx(100 * G / (4 * upright), rel=1e-6)


def test_a_load_of_uneven_weight_tilts_until_its_weight_hangs_under_the_ring():
    """Legs of 0.75 m to eyes 0.8 m apart, weight 60 mm off the middle and 0.2 m under the eyes; three concurrent forces by sines."""
    found = bridle("bridle-two", mass="85 kg", spread="0.8 m", leg_length="0.75 m", off_middle="60 mm", travel="1.2 m")
    rise = math.sqrt(0.75**2 - 0.4**2)
    tilt = math.atan(0.06 / (rise + 0.2))
    (band,) = [each for each in found.drift if each.what == "tilt"]
    assert band.most.number == pytest.approx(tilt, abs=1e-9)
    half = math.asin(0.4 / 0.75)
    left, right = half + tilt, half - tilt  # lean from the plumb: the heavy right end sinks, so that leg hangs nearer the plumb
    weight = 85 * G
    assert greatest(found, "left leg") == pytest.approx(weight * math.sin(right) / math.sin(left + right), rel=1e-9)
    assert greatest(found, "right leg") == pytest.approx(weight * math.sin(left) / math.sin(left + right), rel=1e-9)


def test_a_load_on_three_legs_is_in_balance_by_moments_about_its_ring():
    """Three legs of 0.8 m to a circle of 0.9 m: unit vectors in the tilted pose, three equations of force, solved by numpy."""
    found = bridle("bridle-three", mass="150 kg", circle="0.9 m", leg_length="0.8 m", off_middle="10 mm", travel="0.8 m")
    out, rise = 0.45, math.sqrt(0.8**2 - 0.45**2)
    weight_at = numpy.array([0.01, -(rise + 0.2), 0.0])  # from the ring, not tilted
    angle = math.atan2(weight_at[0], -weight_at[1])
    turn = numpy.array([[math.cos(angle), math.sin(angle), 0], [-math.sin(angle), math.cos(angle), 0], [0, 0, 1]])
    assert (turn @ weight_at)[0] == pytest.approx(0, abs=1e-12)
    places = {
        "left leg": (-out * math.sqrt(3) / 2, out / 2),
        "right leg": (out * math.sqrt(3) / 2, out / 2),
        "back leg": (0.0, -out),
    }
    units = numpy.array([-(turn @ numpy.array([x, -rise, z])) / 0.8 for x, z in places.values()]).T
    pulls = numpy.linalg.solve(units, [0, 150 * G, 0])
    assert [greatest(found, leg) for leg in places] == pytest.approx(list(pulls), rel=1e-8)


def test_the_log_hangs_where_both_falls_pull_alike_across_and_together_hold_its_weight():
    """Forces at the running block, rope directions from the places told; at rest without friction both falls lean alike."""
    solution = assess(examples.example("log-span")).solution
    efficiency = solution.efficiencies["running sheave"].number
    for word, way in (("raising", 1), ("lowering", -1)):
        travel = solution.ways[word].travel
        (left, right, *_) = travel.paths["hoist rope"].directions
        counts = solution.ways[word].sway.powers["hoist rope"].counts[0, 0]
        one = getattr(solution.runs["hoist rope"][0], word).value
        other = one * efficiency ** (-way * counts)
        assert other * right[:, 0] - one * left[:, 0] == pytest.approx(0, abs=1e-6 * 110 * G)
        assert other * right[:, 1] - one * left[:, 1] == pytest.approx(110 * G, rel=1e-8)
    at_rest = solution.ways["at rest"].travel.paths["hoist rope"].directions
    assert at_rest[0][:, 1] == pytest.approx(-at_rest[1][:, 1], abs=1e-9)
