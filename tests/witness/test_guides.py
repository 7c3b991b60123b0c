"""The friction of guides against a witness that shares no code with ours: every contact of every shoe tried, forces and moments summed in the plane.

Moving, each shoe touches one of its two faces and rubs with μ N against the motion; standing still it rubs with anything up to that. The
witness writes the balance of one rigid body about the corner of the room, once for every choice of faces, and asks a linear program.
"""

from __future__ import annotations

from itertools import product

import numpy
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from rigcheck.rig.fields import coordinates
from rigcheck.statics.solution import solve
from tests import guided_rigs, rigs
from tests.properties.strategies import reals

STATIONS = numpy.linspace(0.0, 1.0, 3)
SMALL_N = 1e-6
SIDES = st.sampled_from(["around a rail", "between rails"])
DRAWN = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def turning(place, force) -> float:
    return place[0] * force[1] - place[1] * force[0]


class Contacts:
    """The balance of every guided body at one station, for one choice of faces: unknown are rope pulls (at their first runs) and shoe forces.

    `between` is the pull of a rope at its last end over that at its first: what the sheave between load and counterweight keeps.
    """

    def __init__(self, solution, at: int, faces: dict[str, tuple[int, int]], between: float = 1.0):
        rig, travel = solution.rig, solution.travel
        self.ropes, self.bodies = list(rig.ropes), list(faces)
        rows, right, self.columns = [], [], {}
        many = len(self.ropes) + 4 * len(self.bodies)
        for b, body in enumerate(self.bodies):
            moves, here = rig.bodies[body].moves, travel.poses.reference(body)[at]
            along = numpy.array(moves.along[:2]) / numpy.linalg.norm(moves.along[:2])
            across = numpy.array([along[1], -along[0]])
            row = numpy.zeros((3, many))
            for r, rope in enumerate(self.ropes):
                path = travel.paths[rope]
                for end, place, sense in ((0, path.starts[0][at], 1.0), (-1, path.ends[-1][at], -1.0)):
                    if getattr(rig.ropes[rope].path[end], "made_fast_to", None) == body:
                        force = sense * path.directions[end][at][:2]
                        row[:, r] += (1.0 if end == 0 else between) * numpy.array([*force, turning(place, force)])
            wide = (moves.faces_apart.value if moves.faces_apart else 0.0) * (1.0 if moves.shoes != "between rails" else -1.0)
            for i, face in enumerate(faces[body]):
                low = here[:2] + numpy.array(coordinates(moves.lower_shoe)[:2]) + i * moves.shoes_apart.value * along
                place = low + face * wide / 2 * across
                normal, rubbing = len(self.ropes) + 4 * b + 2 * i, len(self.ropes) + 4 * b + 2 * i + 1
                row[:, normal] = face * numpy.array([*across, turning(place, across)])
                row[:, rubbing] = numpy.array([*along, turning(place, along)])
                self.columns[body, i] = normal, rubbing
            weight = rig.bodies[body].mass.value * rigs.G
            centre = travel.poses.centre_of_gravity(body)[at]
            rows.append(row)
            right.append(numpy.array([0.0, weight, weight * centre[0]]))
        self.matrix, self.right = numpy.vstack(rows), numpy.concatenate(right)


def moving(solution, at: int, way: int) -> dict[str, float] | None:
    """Pull of each rope at its first run while moving, from the contacts that agree with their own balance: the least raising, the greatest lowering."""
    answers = []
    guided = [name for name, body in solution.rig.bodies.items() if body.moves.kind == "guided"]
    for chosen in product(product((1, -1), repeat=2), repeat=len(guided)):
        faces = dict(zip(guided, chosen, strict=True))
        contacts = Contacts(solution, at, faces, between=guided_rigs.EFFICIENCY**-way)  # raising, rope runs towards the counterweight
        extra = []
        for name in guided:
            moved = 1.0 if name == "load" else -1.0
            for i in (0, 1):
                normal, rubbing = contacts.columns[name, i]
                row = numpy.zeros(contacts.matrix.shape[1])
                row[rubbing], row[normal] = 1.0, moved * way * solution.rig.bodies[name].moves.friction
                extra.append(row)
        whole = numpy.vstack([contacts.matrix, *extra])
        right = numpy.concatenate([contacts.right, numpy.zeros(len(extra))])
        if abs(numpy.linalg.det(whole)) < 1e-12:
            continue
        found = numpy.linalg.solve(whole, right)
        if all(found[contacts.columns[name, i][0]] >= -SMALL_N for name in guided for i in (0, 1)):
            answers.append(dict(zip(contacts.ropes, found, strict=False)))
    answers = [a for a in answers if all(pull >= -SMALL_N for pull in a.values())] or answers
    if not answers:
        return None
    return (min if way == 1 else max)(answers, key=lambda a: a["hoist"])


def told(solution, rope: str, word: str, at: int) -> float:
    return float(numpy.broadcast_to(getattr(solution.runs[rope][0], word).value, STATIONS.shape)[at])


def is_at_the_edge(solution, at: int) -> bool:
    """Whether the friction leaves so little of a pull, or of a bound on it, that its digits mean nothing: no pull is told there."""
    left = []
    for taken in solution.guides["raising"]:
        shoes = taken.row.given.shoes
        lift = sum(-run[at, shoes.equation] for run in solution.travel.growth["hoist"])
        rubbed = [2 * sum(arm[at] for arm in shoes.arm["hoist"]) / shoes.apart_m, sum(side[at] for side in shoes.side["hoist"])]
        left += [abs(lift - sign * shoes.friction * each) / abs(lift) for each in rubbed for sign in (1, -1)]
    return min(left) < 2e-3


def agree(data: dict) -> None:
    solution = solve(rigs.rig(data), STATIONS)
    assert solution.guides["raising"], solution.uncounted_guides
    for word, way in (("raising", 1), ("lowering", -1)):
        for at in range(len(STATIONS)):
            found = moving(solution, at, way)
            for rope in solution.rig.ropes:
                ours = told(solution, rope, word, at)
                if found is None or (numpy.isnan(ours) and is_at_the_edge(solution, at)):
                    assert numpy.isnan(ours)
                else:
                    assert ours == pytest.approx(found[rope], rel=1e-6, abs=1e-5), (word, at, rope)


@DRAWN
@given(gravity=reals(-0.9, 0.9), guide=reals(-0.9, 0.9), friction=reals(0.05, 0.6))
def test_the_pull_of_a_load_off_the_line_of_its_guide_is_that_of_the_shoes_that_touch(gravity, guide, friction):
    agree(guided_rigs.pulled_off(gravity, guide, friction=friction))


@DRAWN
@given(gravity=reals(-0.6, 0.6), foot=reals(-1.5, 1.5), friction=reals(0.05, 0.6), kind=SIDES, wide=reals(0.02, 0.8))
def test_a_rope_that_slants_presses_the_shoes_aside_too(gravity, foot, friction, kind, wide):
    agree(guided_rigs.slanting(gravity, foot, friction, kind, wide))


@DRAWN
@given(lean=reals(-0.5, 0.5), gravity=reals(-0.4, 0.4), friction=reals(0.05, 0.4), kind=SIDES, wide=reals(0.02, 0.5))
def test_a_guide_that_leans_is_pressed_by_the_weight_too(lean, gravity, friction, kind, wide):
    agree(guided_rigs.slanting(gravity, 0.3, friction, kind, wide, along=(lean, 1.0)))


@DRAWN
@given(load=reals(-0.4, 0.4), guide=reals(-0.4, 0.4), weight=reals(-0.4, 0.4), friction=reals(0.05, 0.4))
def test_a_counterweight_rubs_in_its_own_guide_and_the_load_feels_it(load, guide, weight, friction):
    agree(guided_rigs.counterweighted(load, guide, weight, friction))


def resting(solution, at: int, most: bool) -> float | None:
    """The extreme of the load's pull at rest by linear programs over every choice of faces; None without a limit."""
    found = []
    friction = solution.rig.bodies["load"].moves.friction
    for faces in product((1, -1), repeat=2):
        contacts = Contacts(solution, at, {"load": faces})
        many = contacts.matrix.shape[1]
        upper = []
        for i in (0, 1):
            normal, rubbing = contacts.columns["load", i]
            for sign in (1.0, -1.0):
                row = numpy.zeros(many)
                row[rubbing], row[normal] = sign, -friction
                upper.append(row)
        free = {contacts.columns["load", i][1] for i in (0, 1)}
        bounds = [(None, None) if column in free else (0, None) for column in range(many)]
        aim = numpy.zeros(many)
        aim[0] = -1.0 if most else 1.0
        answer = linprog(
            aim, A_ub=numpy.array(upper), b_ub=numpy.zeros(len(upper)), A_eq=contacts.matrix, b_eq=contacts.right, bounds=bounds
        )
        if answer.status == 3:
            return None
        if answer.status == 0:
            found.append(answer.x[0])
    return (max if most else min)(found)


@DRAWN
@given(gravity=reals(-0.9, 0.9), guide=reals(-0.9, 0.9), friction=reals(0.05, 0.6))
def test_what_can_be_held_at_rest_is_what_linear_programs_over_all_contacts_find(gravity, guide, friction):
    solution = solve(rigs.rig(guided_rigs.pulled_off(gravity, guide, friction=friction)), STATIONS)
    most, least = resting(solution, 0, True), resting(solution, 0, False)
    ours_most, ours_least = told(solution, "hoist", "holding_most", 0), told(solution, "hoist", "holding_least", 0)
    assert ours_least == pytest.approx(least, rel=1e-6, abs=1e-4)
    near_the_edge = abs(2 * friction * guide / guided_rigs.APART_M) > 0.9
    assert (
        numpy.isnan(ours_most) if most is None else (near_the_edge and numpy.isnan(ours_most)) or ours_most == pytest.approx(most, rel=1e-6)
    )


@DRAWN
@given(gravity=reals(-0.5, 0.5), foot=reals(-1.0, 1.0), friction=reals(0.05, 0.3), kind=SIDES, wide=reals(0.02, 0.4))
def test_what_is_told_to_be_held_at_rest_leaves_out_nothing_that_can_be(gravity, foot, friction, kind, wide):
    solution = solve(rigs.rig(guided_rigs.slanting(gravity, foot, friction, kind, wide)), STATIONS)
    most, least = resting(solution, 0, True), resting(solution, 0, False)
    ours_most, ours_least = told(solution, "hoist", "holding_most", 0), told(solution, "hoist", "holding_least", 0)
    assert ours_least <= least * (1 + 1e-6) + 1e-4
    assert numpy.isnan(ours_most) if most is None else numpy.isnan(ours_most) or ours_most >= most * (1 - 1e-6)
    if most is not None and numpy.isfinite(ours_most):
        assert ours_most <= most * 1.1  # faces apart at rest are counted a little too cautiously
