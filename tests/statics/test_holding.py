"""The holding ranges alone, from bare lifts: by hand, against linear programs, and that they serve for any weights."""

import numpy
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays
from scipy.optimize import linprog

from rigcheck.rig import examples, files
from rigcheck.rig.model import Rig
from rigcheck.statics.holding import HoldingRanges
from rigcheck.statics.solution import solve

UNBOUNDED = 3


def limits(lifts, efficiencies, weight, rope, run):
    """Least and greatest pull of one run by a linear program in the pulls of all runs, infinite where there is no limit; None if nothing balances."""
    starts = numpy.cumsum([0, *(len(part) for part in lifts)])
    ratios = []
    for start, efficiency in zip(starts, efficiencies, strict=False):
        for s, e in enumerate(efficiency):
            for low, high in ((s, s + 1), (s + 1, s)):
                ratios.append(numpy.zeros(starts[-1]))
                ratios[-1][[start + low, start + high]] = e, -1.0
    aim = numpy.zeros(starts[-1])
    aim[starts[rope] + run] = 1.0
    bounds = {"A_ub": numpy.array(ratios), "b_ub": numpy.zeros(len(ratios))} if ratios else {}
    found = [linprog(way * aim, A_eq=numpy.concatenate(lifts).T, b_eq=weight, **bounds, method="highs") for way in (1, -1)]
    if found[0].status != 0:
        return None
    return found[0].fun, numpy.inf if found[1].status == UNBOUNDED else -found[1].fun


@st.composite
def systems(draw, wild: bool):
    """One to three equations, as many ropes or one more, of one to four runs; wild ones also push down, and their weights are balanced somewhere."""
    equations = draw(st.integers(1, 3))
    entries = st.integers(-200 if wild else 0, 200).map(lambda i: i / 100)
    runs = draw(st.lists(st.integers(1, 4), min_size=equations, max_size=equations + 1))
    lifts = [draw(arrays(float, (many, equations), elements=entries)) for many in runs]
    efficiencies = [draw(arrays(float, many - 1, elements=st.integers(70, 100).map(lambda i: i / 100))) for many in runs]
    shares = draw(arrays(float, len(runs), elements=st.integers(1, 100).map(lambda i: i / 100)))
    weight = sum(share * lift.sum(axis=0) for share, lift in zip(shares, lifts, strict=True))
    assume(numpy.max(numpy.abs(weight)) > 0.1)
    return lifts, efficiencies, weight


def ranges_of(lifts, efficiencies):
    return HoldingRanges([lift[:, None] for lift in lifts], [e[:, None] for e in efficiencies])


@given(st.booleans().flatmap(systems))
def test_a_range_that_is_found_is_that_of_the_linear_program(system):
    lifts, efficiencies, weight = system
    least, most = ranges_of(lifts, efficiencies).at(weight[:, None])
    for r in range(len(lifts)):
        for k in range(len(lifts[r])):
            found = (least[r][k, 0], most[r][k, 0])
            if not numpy.isnan(found).all():
                expected = limits(lifts, efficiencies, weight, r, k)
                assert expected is not None
                for one, other in zip(found, expected, strict=True):
                    assert numpy.isnan(one) or one == pytest.approx(other, rel=1e-6, abs=1e-6), (r, k)


def test_a_rope_over_two_sheaves_by_hand():
    """90 N on the first run: 81 N to 100 N after one sheave of 0.9, 72 N to 112.5 N after another of 8/9."""
    least, most = ranges_of([numpy.array([[1.0], [0.0], [0.0]])], [numpy.array([0.9, 8 / 9])]).at(numpy.array([[90.0]]))
    assert least[0][:, 0] == pytest.approx([90.0, 81.0, 72.0])
    assert most[0][:, 0] == pytest.approx([90.0, 100.0, 112.5])


def test_of_three_falls_on_a_beam_the_middle_one_may_hang_loose_and_an_end_one_too():
    """Falls at -1 m, 0 and 1 m, the weight of 100 N at -0.5 m. The outer pair carries 75 N and 25 N, the left and the middle one 50 N each."""
    lifts = [numpy.array([[1.0, place]]) for place in (-1.0, 0.0, 1.0)]
    least, most = ranges_of(lifts, [numpy.ones(0)] * 3).at(numpy.array([[100.0], [-50.0]]))
    assert [part[0, 0] for part in least] == pytest.approx([50.0, 0.0, 0.0])
    assert [part[0, 0] for part in most] == pytest.approx([75.0, 50.0, 25.0])


def test_where_two_ropes_can_be_tightened_against_each_other_there_is_no_greatest_pull():
    """One rope lifts, another pulls down: the first holds 100 N at least, and there is no limit to either."""
    least, most = ranges_of([numpy.array([[1.0]]), numpy.array([[-1.0]])], [numpy.ones(0)] * 2).at(numpy.array([[100.0]]))
    assert [part[0, 0] for part in least] == pytest.approx([100.0, 0.0])
    assert numpy.isnan([part[0, 0] for part in most]).all()


def test_a_rope_that_would_have_to_push_has_no_range():
    least, most = ranges_of([numpy.array([[-1.0]])], [numpy.ones(0)]).at(numpy.array([[100.0]]))
    assert numpy.isnan([*least[0][:, 0], *most[0][:, 0]]).all()


@given(systems(False))
def test_efficiencies_asked_at_once_give_what_they_give_one_by_one(system):
    lifts, efficiencies, weight = system
    several = [numpy.stack([e, 0.9 * e, e**2], axis=1)[..., None] for e in efficiencies]
    together = HoldingRanges([lift[:, None] for lift in lifts], several).at(numpy.tile(weight[:, None, None], (1, 3, 1)))
    for i in range(3):
        alone = ranges_of(lifts, [e[:, i, 0] for e in several]).at(weight[:, None])
        for one, other in zip(together, alone, strict=True):
            for r in range(len(lifts)):
                assert one[r][:, i] == pytest.approx(other[r], rel=1e-12, nan_ok=True)


# -- whole rigs with falls that are not plumb ------------------------------------------------------------------------------


def moved(name: str, by_mm: int) -> Rig:
    """An example rig with all its sheaves so much further to the right, so that no fall stays plumb."""
    data = files.parsed(files.dumps(examples.example(name)), name)
    for point in data["points"].values():
        across = float(point["at"][0].split()[0]) + by_mm / 1000
        point["at"][0] = f"{across!r} m"
    return files.read(data, name)


def holding_lines(solution):
    return [line for runs in solution.runs.values() for run in runs for line in (run.holding_least, run.holding_most)]


@pytest.mark.parametrize("name", ["kiln-shell", "studio-counterweight"])
@pytest.mark.parametrize("by_mm", [-80, -10, 30, 50, 80])
def test_many_loads_asked_at_once_give_the_linear_programs_of_each_at_the_ends_of_the_travel(name, by_mm):
    solution = solve(moved(name, by_mm))
    travel, mass = solution.travel, solution.masses[solution.rig.load_name]
    loads = mass.number * numpy.array([0.9, 1.0, 1.7, 30.0])
    found = iter(solution.working.evaluate({mass: loads[:, None]}, holding_lines(solution)))
    efficiencies = [numpy.array([solution.efficiencies[s.name].number for s in path.stops[1:-1]]) for path in travel.paths.values()]
    others = {body: line.number for body, line in solution.weights.items()}
    for r, growth in enumerate(travel.growth.values()):
        for k in range(len(growth)):
            least, most = next(found), next(found)
            for i, load in enumerate(loads):
                weight = numpy.array(
                    [(others | {solution.rig.load_name: load * solution.gravity.number})[free.body] for free in travel.free]
                )
                for height in (0, -1):
                    expected = limits([-part[:, height] for part in travel.growth.values()], efficiencies, weight, r, k)
                    assert least[i, height] == pytest.approx(expected[0], rel=1e-7)
                    assert most[i, height] == pytest.approx(expected[1], rel=1e-7)
