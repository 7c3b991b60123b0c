"""The working: lines in order, asked again for other numbers, their slopes and inverses, the height at which each is printed."""

import numpy
import pytest
import sympy

from rigcheck.errors import OutOfRangeError
from rigcheck.formula import Sign, formula
from rigcheck.working import EXTREME, GIVEN, Working

MASS, GRAVITY, WEIGHT = Sign("m", "mass", "kg", low=0), Sign("g", "acceleration of free fall", "m/s²"), Sign("W", "weight", "N")
ANGLE, PULL, MOST = Sign("θ", "angle", "°"), Sign("T", "pull", "N"), Sign("T_max", "greatest pull", "N")


@formula
def weight(mass: MASS, gravity: GRAVITY) -> WEIGHT:
    """Weight.

    Source: definition.
    """
    return mass * gravity


@formula
def pull(weight: WEIGHT, angle: ANGLE) -> PULL:
    """Pull in two ropes at an angle.

    Source: balance of forces.
    """
    return weight / (2 * sympy.cos(angle))


@pytest.fixture
def made():
    """Weight 100 N on two ropes that open from 60° to 0° as it rises and close in again."""
    working = Working(numpy.array([0.0, 0.5, 1.0]))
    mass = working.given(MASS, 10.0, "bodies, load, mass")
    gravity = working.given(GRAVITY, 10.0, "chosen for the test")
    angle = working.geometry(ANGLE, numpy.array([0.2, numpy.pi / 3, 0.0]), "read off")
    heavy = working.apply(weight, mass=mass, gravity=gravity)
    along = working.apply(pull, weight=heavy, angle=angle)
    most = working.extreme(MOST, [along])
    return working, mass, gravity, heavy, along, most


def test_lines_stand_in_order_and_run_along_the_travel_only_where_they_change(made):
    working, mass, _, heavy, along, most = made
    assert [line.sign.letter for line in working.lines] == ["m", "g", "θ", "W", "T", "T_max"]
    assert heavy.value.tolist() == [100.0]
    assert along.value.shape == (3,)
    assert (along.runs_along, mass.runs_along) == (True, False)
    assert most.number == pytest.approx(100.0)
    assert working.where(most) == (along, 1)


def test_lines_with_the_same_sign_are_told_apart(made):
    working, *_ = made
    assert working.given(MASS, 1.0, "again").sign.letter == "m_(2)"
    assert working.given(MASS.of("load"), 1.0, "one").sign.letter == "m_load"
    assert working.given(MASS.of("load"), 1.0, "two").sign.letter == "m_load (2)"


def test_a_column_of_masses_is_evaluated_at_once_and_changes_nothing(made):
    working, mass, _, _, along, most = made
    masses = numpy.array([[5.0], [10.0], [20.0]])
    pulls, greatest = working.evaluate({mass: masses}, [along, most])
    assert pulls.shape == (3, 3)
    assert greatest == pytest.approx(numpy.array([[50.0], [100.0], [200.0]]))
    assert most.number == pytest.approx(100.0)


def test_the_slope_of_an_extreme_by_the_chain_rule_equals_differences(made):
    working, mass, gravity, _, _, most = made
    for line, step in ((mass, 1e-4), (gravity, 1e-4)):
        up, down = (working.evaluate({line: line.value + side * step}, [most])[0][0] for side in (1, -1))
        assert working.derivative(most, line)[0] == pytest.approx((up - down) / (2 * step), rel=1e-8)


def test_the_slope_through_a_routine_is_found_by_differences(made):
    working, mass, _, heavy, *_ = made
    squared = working.solve_in_numbers(Sign("x", "square"), lambda w: w**2, "a routine", "test", w=heavy)
    assert working.derivative(squared, mass)[0] == pytest.approx(2 * 100.0 * 10.0, rel=1e-6)
    assert working.derivative(mass, heavy).tolist() == [0.0]


def test_what_gives_is_exact_where_the_way_is_straight_and_bracketed_where_it_is_not(made):
    working, mass, _, heavy, _, most = made
    assert working.is_linear(heavy, mass)
    assert not working.is_linear(most, mass)
    assert working.what_gives(heavy, 250.0, mass, 0.0, 100.0) == pytest.approx(25.0, rel=1e-14)
    assert working.what_gives(most, 250.0, mass, 0.0, 100.0) == pytest.approx(25.0, rel=1e-9)


@pytest.mark.parametrize("target", [2000.0, -5.0])
def test_what_gives_refuses_what_nothing_in_reach_gives(made, target):
    working, mass, _, heavy, _, most = made
    for line in (heavy, most):
        with pytest.raises(OutOfRangeError, match="no mass brings"):
            working.what_gives(line, target, mass, 0.0, 100.0)


def test_a_line_along_the_travel_is_printed_at_the_height_of_the_extreme_it_leads_to(made):
    working, *_ = made
    printed = {line.sign: line for line in working.printed()}
    assert printed["T"].height_m == 0.5
    assert printed["T"].formula == "W / (2·cos(θ))"
    assert printed["T"].numbers.replace(" °", "°") == "100 N / (2·cos(60°))"
    assert (printed["T[max]"].kind, printed["T[max]"].height_m, printed["T[max]"].formula) == (EXTREME, 0.5, "T")
    assert (printed["m"].kind, printed["m"].height_m, printed["m"].shown) == (GIVEN, None, "10 kg")
    assert printed["T"].value == pytest.approx(printed["T[max]"].value, rel=1e-15)


def test_a_line_that_later_lines_read_at_another_height_is_printed_with_its_number_there(made):
    working, _, _, _, along, _ = made
    least = working.extreme(Sign("T_min", "least"), [along], most=False)
    printed = {line.sign: line for line in working.printed()}
    assert (printed["T"].height_m, printed["T"].elsewhere) == (0.5, (("1 m", "50 N"),))
    assert printed["T[min]"].shown == "50"
    assert printed["W"].elsewhere == printed["T[min]"].elsewhere == ()
    assert least in working.lines


def test_the_least_and_the_greatest_of_several_lines_each_stand_at_their_own_height(made):
    working, _, _, heavy, along, _ = made
    least = working.extreme(Sign("T_min", "least"), [along, heavy], most=False)
    assert least.number == pytest.approx(50.0)
    assert working.where(least) == (along, 2)


def test_a_number_outside_the_range_is_refused_and_one_height_outside_it_is_marked():
    working = Working(numpy.array([0.0, 1.0]))
    gravity = working.given(GRAVITY, 10.0, "chosen")
    with pytest.raises(OutOfRangeError):
        working.apply(weight, mass=working.given(MASS, -1.0, "typed"), gravity=gravity)
    along = working.apply(weight, mass=working.geometry(MASS, numpy.array([-1.0, 1.0]), "read off"), gravity=gravity)
    assert numpy.isnan(along.value[0])
    assert along.value[1] == 10.0
    assert numpy.isnan(working.extreme(MOST, [along]).number), "an unknown height leaves the extreme unknown"


def test_extremes_of_samples_keep_the_axis_of_the_samples(made):
    working, mass, _, _, along, _ = made
    least = working.extreme(Sign("T_min", "least"), [along], most=False)
    found = working.evaluate({mass: numpy.full((4, 1), 10.0)}, [least])[0]
    assert found.shape == (4, 1)
    assert found == pytest.approx(50.0)
