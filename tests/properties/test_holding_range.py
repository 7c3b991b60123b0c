"""At rest: the range of every pull, against linear programs in the pulls of all runs, solved by another routine."""

import numpy
import pytest
from hypothesis import assume, given, reject
from hypothesis import strategies as st
from scipy.optimize import linprog

from rigcheck.errors import StaticsError
from rigcheck.statics.coefficients import gravity_forces
from rigcheck.statics.solution import solve
from tests.properties.strategies import HEIGHTS, any_rigs, counterweights, solved
from tests.rig_builders import END, LOAD, Builder, fast


def extremes(solution, rope, run, height):
    """Least and greatest pull of one run at one height by a linear program: unknown are the pulls of all runs."""
    travel = solution.travel
    place, rows, many = {}, [], 0
    for name, growth in travel.growth.items():
        for k in range(len(growth)):
            place[name, k] = many
            many += 1
    for name, path in travel.paths.items():
        for k, stop in enumerate(path.stops[1:-1]):
            efficiency = solution.efficiencies[stop.name].number
            for less, more in (((name, k), (name, k + 1)), ((name, k + 1), (name, k))):
                row = numpy.zeros(many)
                row[place[less]], row[place[more]] = efficiency, -1.0
                rows.append(row)
    balance = numpy.zeros((len(travel.free), many))
    for (name, k), column in place.items():
        balance[:, column] = -travel.growth[name][k, height]
    weights = gravity_forces(travel, {n: line.number for n, line in solution.weights.items()})
    right = numpy.array([numpy.broadcast_to(w, len(travel.heights_m))[height] for w in weights])
    scale = numpy.max(numpy.abs(right))
    found = []
    for sign in (1.0, -1.0):
        aim = numpy.zeros(many)
        aim[place[rope, run]] = sign
        got = linprog(aim, A_ub=numpy.array(rows) if rows else None, b_ub=numpy.zeros(len(rows)) if rows else None, A_eq=balance, b_eq=right / scale,
                      bounds=[(0, None)] * many, method="highs")  # fmt: skip
        found.append(sign * got.fun * scale if got.status == 0 else numpy.nan)
    return found


def value(line, height):
    return line.value[min(height, len(line.value) - 1)]


@given(any_rigs)
def test_the_holding_range_of_every_run_is_that_of_a_linear_program_and_holds_both_moving_values(builder):
    solution = solved(builder)
    assume(not solution.slack().any())
    height = 3
    for rope, runs in solution.runs.items():
        for k, run in enumerate(runs):
            least, most = extremes(solution, rope, k, height)
            assert value(run.holding_least, height) == pytest.approx(least, rel=1e-7, abs=1e-7 * most), (rope, k)
            assert value(run.holding_most, height) == pytest.approx(most, rel=1e-7), (rope, k)
            for moving in (run.raising, run.lowering):
                assert least * (1 - 1e-9) <= value(moving, height) <= most * (1 + 1e-9), (rope, k)


@given(any_rigs, st.lists(st.tuples(st.sampled_from((-1, 1)), st.integers(10, 100)), min_size=8, max_size=8))
def test_with_every_point_moved_sideways_the_range_is_still_that_of_the_linear_program(builder, moves):
    for (way, by_mm), point in zip(moves, builder.data["points"].values(), strict=False):
        across_m = float(point["at"][0].split()[0]) + way * by_mm / 1000
        point["at"][0] = f"{across_m!r} m"
    solution = solved_or_refused(builder)
    assume(not solution.slack().any())
    for rope, runs in solution.runs.items():
        for k, run in enumerate(runs):
            least, most = extremes(solution, rope, k, 2)
            assert value(run.holding_least, 2) == pytest.approx(least, rel=1e-7, abs=1e-7 * most), (rope, k)
            assert value(run.holding_most, 2) == pytest.approx(most, rel=1e-7), (rope, k)


def solved_or_refused(builder):
    """Solve a rig whose points were moved; one that the travel then refuses is drawn again."""
    try:
        return solve(builder.rig(), HEIGHTS)
    except StaticsError:
        reject()


@given(counterweights())
def test_a_counterweight_near_balance_gives_the_range_of_the_linear_program_or_no_range_at_all(builder):
    builder.data["bodies"]["counterweight"]["mass"] = f"{float(builder.data['bodies'][LOAD]['mass'].split()[0]) * 0.97!r} kg"
    solution = solved(builder, numpy.array([0.0, 1.0]))
    for rope, runs in solution.runs.items():
        for k, run in enumerate(runs):
            for line, limit in zip((run.holding_least, run.holding_most), extremes(solution, rope, k, 0), strict=True):
                assert numpy.isnan(line.value[0]) or line.value[0] == pytest.approx(limit, rel=1e-7, abs=1e-6), (rope, k)


def shared_by(others, travel=0.05):
    """A guided load on a rope straight up to the drum, and so many more ropes beside it in the same place."""
    b = Builder("shared", travel)
    b.body(LOAD, 100.0, (0.0, 0.0), "load", moves={"kind": "guided"})
    b.winch((0.053, 3.0))
    b.rope("hoist", [fast(LOAD, **END), {"wound_on": "drum", "turns": "clockwise"}])
    for i in range(others):
        b.rope(f"second {i}", [fast(LOAD, **END), {"wound_on": "drum", "turns": "clockwise"}])
    return b


def test_of_two_ropes_that_share_a_level_load_either_may_carry_all_or_nothing_at_rest():
    solution = solve(shared_by(1).rig(), HEIGHTS * 0.05)
    for rope in ("hoist", "second 0"):
        run = solution.runs[rope][0]
        assert (run.holding_least.value[0], run.holding_most.value[0]) == pytest.approx(extremes(solution, rope, 0, 0), rel=1e-9)
        assert run.holding_most.value[0] == pytest.approx(980.665, rel=1e-9)
        assert run.raising.value[0] == pytest.approx(980.665, rel=1e-9)


def test_a_rope_that_alone_can_hold_a_body_has_a_least_pull_although_two_others_share():
    b = shared_by(1)
    b.body("lamp", 20.0, (0.6, 0.0))
    b.point("lamp post", (0.6, 3.0))
    b.sheave("lamp sheave", (0.3, 3.0), 0.6, efficiency=0.9)
    b.rope("lamp rope", [fast(LOAD, **END), {"over": "lamp sheave", "turns": "clockwise"}, fast("lamp", **END)])
    solution = solve(b.rig(), HEIGHTS * 0.05)
    for rope, runs in solution.runs.items():
        for k, run in enumerate(runs):
            least, most = extremes(solution, rope, k, 0)
            assert run.holding_least.value[0] == pytest.approx(least, rel=1e-7, abs=1e-6), (rope, k)
            assert run.holding_most.value[0] == pytest.approx(most, rel=1e-7), (rope, k)
