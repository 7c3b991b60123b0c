"""A second opinion on struts by a general frame library (PyNiteFEA, direct stiffness method): random frames, a winch on a leg, and a column near Euler's force."""

import math
import random
from itertools import combinations

import numpy
import pytest
from Pynite import FEModel3D

from rigcheck.checks.strut_formulas import euler_force
from rigcheck.rig import examples
from rigcheck.statics.feet import feet
from rigcheck.statics.joint_loads import bends
from rigcheck.statics.members import members
from rigcheck.statics.solution import solve
from tests.rigs import G, rig
from tests.strut_rigs import JOINT, framed

PINNED = (False, False, False, False, True, True, False, False, False, False, True, True)


def bars(points: dict, struts: dict, joints: set[str], area=lambda name: 1e-3) -> FEModel3D:
    """Bars with pinned ends between points; joints are free to move, all other points are held."""
    model = FEModel3D()
    model.add_material("any", 210e9, 80e9, 0.3, 0)
    for name, at in points.items():
        model.add_node(name, *map(float, at))
        model.def_support(name, *[name not in joints] * 3, True, True, True)
    for name, (one, other) in struts.items():
        model.add_section(f"of {name}", area(name), 1e-6, 1e-6, 2e-6)
        model.add_member(name, one, other, "any", f"of {name}")
        model.def_releases(name, *PINNED)
    return model


def pushed(model: FEModel3D, member: str) -> float:
    return float(model.members[member].axial(0.0))


def loaded(model: FEModel3D, forces: dict) -> FEModel3D:
    for name, force in forces.items():
        for direction, part in zip(("FX", "FY", "FZ"), force, strict=True):
            model.add_node_load(name, direction, float(part))
    model.analyze_linear()
    return model


def two_joints(seed: int) -> tuple[dict, dict]:
    """A head held by a foot, a wall and a second joint, which itself stands on three feet: solved together only as a chain."""
    draw = random.Random(seed)
    near = lambda x, y, z: tuple(v + draw.uniform(-0.4, 0.4) for v in (x, y, z))
    points = {"foot": near(1.5, -4, 0.5), "wall": near(-2, 1, 1), "knee": near(-1, -1.5, -1)}
    points |= {f"base {k}": near(-1 + 1.2 * math.cos(2.1 * k), -4, -1 + 1.2 * math.sin(2.1 * k)) for k in range(3)}
    struts = {"leg": "foot", "tie": "wall", "arm": "knee"}
    return points, struts


@pytest.mark.parametrize("seed", range(4))
def test_a_chain_of_joints_agrees_with_the_stiffness_method(seed):
    points, struts = two_joints(seed)
    data = framed({name: (at, {"held": "struts"} if name == "knee" else {}) for name, at in points.items()}, struts, efficiency=0.9)
    for k in range(3):
        data["struts"][f"post {k}"] = {"one_end": "knee", "other_end": f"base {k}"}
    solution = solve(rig(data))
    found = members(solution)
    force = -sum(float(run.raising.value[0]) for run in solution.runs["hoist"])
    model = bars({JOINT: (0, 0, 0), **points}, {n: (s["one_end"], s["other_end"]) for n, s in data["struts"].items()}, {JOINT, "knee"})
    loaded(model, {JOINT: (0, force, 0)})
    for name, member in found.by_name.items():
        assert float(member.most["raising"].value[0]) == pytest.approx(pushed(model, name), rel=1e-6, abs=1e-6 * -force), name
    for foot in feet(solution, found):
        node = model.nodes[foot.name]
        held = [float(reaction["Combo 1"]) for reaction in (node.RxnFX, node.RxnFY, node.RxnFZ)]
        assert foot.reaction.force.number >= float(numpy.linalg.norm(held)) * (1 - 1e-6)  # at rest it may be more


def test_legs_more_than_needed_share_as_the_stiffness_method_has_it():
    draw = random.Random(5)
    points = {f"foot {k}": (math.cos(1.5 * k) * draw.uniform(1, 2), -4, math.sin(1.5 * k) * draw.uniform(1, 2)) for k in range(4)}
    wide = {f"leg {k}": draw.choice((60, 80, 120)) for k in range(4)}
    data = framed({name: (at, {}) for name, at in points.items()}, {f"leg {k}": f"foot {k}" for k in range(4)})
    for name, strut in data["struts"].items():
        strut |= {"diameter": f"{wide[name]} mm", "modulus": "210000 N/mm²"}
    found = members(solve(rig(data)))
    model = bars(
        {JOINT: (0, 0, 0), **points},
        {f"leg {k}": (JOINT, f"foot {k}") for k in range(4)},
        {JOINT},
        lambda name: math.pi * (wide[name] / 2000) ** 2,
    )
    loaded(model, {JOINT: (0, -2 * 100 * G, 0)})
    for name, member in found.by_name.items():
        assert float(member.most["raising"].value[0]) == pytest.approx(pushed(model, name), rel=1e-6), name


def guyed(seed: int) -> tuple[dict, dict]:
    """A pole leaning a little, with three to six guys all round it, set out unevenly."""
    draw = random.Random(seed)
    many, first = draw.choice((3, 4, 5, 6)), draw.uniform(0, 6)
    points = {"foot": (-draw.uniform(0.2, 1.2), -4, draw.uniform(-0.3, 0.3))}
    for k in range(many):
        out, turn = draw.uniform(3, 6), first + 2 * math.pi * k / many + draw.uniform(-0.2, 0.2)
        points[f"anchor {k}"] = (out * math.cos(turn), -4 + draw.uniform(-0.5, 0.5), out * math.sin(turn))
    return points, {"pole": 100.0} | {f"guy {k}": draw.uniform(0.5, 2) for k in range(many)}


def least_energy(directions: numpy.ndarray, give: numpy.ndarray, force: numpy.ndarray) -> numpy.ndarray:
    """The pushes in pole (first) and guys with the least energy of stretch, no guy pushing: every choice of taut guys tried; `give` is l / EA."""
    best, least = None, math.inf
    for count in range(2, len(give)):
        for taut in combinations(range(1, len(give)), count):
            kept = [0, *taut]
            some, soft = directions[:, kept], numpy.diag(1 / give[kept])
            if numpy.linalg.matrix_rank(some, tol=1e-9) < 3:
                continue
            pushes = numpy.zeros(len(give))
            pushes[kept] = soft @ some.T @ numpy.linalg.solve(some @ soft @ some.T, force)
            if numpy.all(pushes[1:] <= 1e-9 * -force[1]) and (energy := float(give @ pushes**2)) < least:
                best, least = pushes, energy
    return best


def test_uneven_guys_are_told_as_the_least_energy_of_stretch_has_it_or_not_at_all():
    """Whatever the stiffness of the guys: where it is not stated, nothing is told that some stiffness would belie; where it is, the pushes are those of least energy."""
    known = 0
    for seed in range(12):
        points, wide = guyed(seed)
        struts = {"pole": {"other_end": "foot"}} | {
            f"guy {k}": {"other_end": f"anchor {k}", "pulls_only": True} for k in range(len(points) - 1)
        }
        data = framed({name: (at, {}) for name, at in points.items()}, struts)
        plain = members(solve(rig(data)))
        steps = [numpy.array(points["foot"])] + [numpy.array(points[f"anchor {k}"]) for k in range(len(points) - 1)]
        lengths = numpy.array([numpy.linalg.norm(step) for step in steps])
        directions = numpy.array([step / long for step, long in zip(steps, lengths, strict=True)]).T
        expected = least_energy(directions, lengths / numpy.array(list(wide.values())), numpy.array([0, -2 * 100 * G, 0]))
        for name, area in wide.items():
            data["struts"][name] |= {"modulus": "100000 N/mm²", "area": f"{area * 10:.9f} mm²"}
        stated = members(solve(rig(data)))
        for name, push in zip(wide, expected, strict=True):
            assert float(stated.by_name[name].most["raising"].value[0]) == pytest.approx(push, abs=1e-5 * expected[0]), (seed, name)
            told = float(plain.by_name[name].most["raising"].value[0])
            assert math.isnan(told) or told == pytest.approx(push, abs=1e-6 * expected[0]), (seed, name)
            known += not math.isnan(told)
    assert known > 10


def test_a_winch_on_a_leg_bends_it_as_a_beam_between_its_two_ends():
    """The leg in two pieces with a stiff bracket to the drum: the push above the winch and the feet are those of the well tripod."""
    example = examples.example("well-tripod")
    solution = solve(example)
    found = members(solution)
    at = {name: numpy.array([q.value for q in point.at] + [0.0] * (3 - len(point.at))) for name, point in example.points.items()}
    contact = solution.travel.paths["hoist rope"].ends[-1][0]
    drum = numpy.array([q.value for q in example.drive.drum.at] + [0.0])
    along = (at["head"] - at["winch foot"]) / numpy.linalg.norm(at["head"] - at["winch foot"])
    at["on the leg"] = at["winch foot"] + along * ((drum - at["winch foot"]) @ along)
    at["contact"] = contact
    legs = {"front leg": ("head", "front foot"), "back leg": ("head", "back foot")}
    model = bars(at, legs, {"head", "on the leg", "contact"})
    model.add_section("leg", 1e-2, 1e-4, 1e-4, 2e-4)
    model.add_section("bracket", 1e-1, 1e-2, 1e-2, 2e-2)
    for name, ends in {
        "upper": ("head", "on the leg"),
        "lower": ("on the leg", "winch foot"),
        "bracket": ("on the leg", "contact"),
    }.items():
        model.add_member(name, *ends, "any", "bracket" if name == "bracket" else "leg")
    model.def_releases("upper", Ryi=True, Rzi=True)
    model.def_releases("lower", Ryj=True, Rzj=True)
    for free in ("on the leg", "contact"):
        model.def_support(free, False, False, False, False, False, False)
    first, second = (float(run.raising.value[0]) for run in solution.runs["hoist rope"])
    down, towards = (solution.travel.paths["hoist rope"].directions[k][0] for k in (0, 1))
    loaded(model, {
        "head": -first * down + second * towards + numpy.array([0, -1.5 * 12 * G, 0]),
        "contact": -second * towards,
    })  # fmt: skip
    assert pushed(model, "upper") == pytest.approx(float(found.by_name["winch leg"].most["raising"].value[0]), rel=2e-3)
    for name in ("front leg", "back leg"):
        assert pushed(model, name) == pytest.approx(float(found.by_name[name].most["raising"].value[0]), rel=2e-3)
    (bend,) = bends(example, solution.travel)
    bent = max(
        abs(model.members[piece].moment(axis, x))
        for piece in ("upper", "lower")
        for axis in ("My", "Mz")
        for x in numpy.linspace(0, model.members[piece].L(), 9)
    )
    assert second * bend.bends_m[0] == pytest.approx(bent, rel=2e-3)


def test_a_column_at_half_of_eulers_force_bows_as_the_exact_solution_and_the_frame_library_have_it():
    """A push of half P_E makes a bow from a force across its middle 3 (tan u - u) / u³ times as great, u = π/2 √(1/2): the library's second-order bow agrees only if P_E is right."""
    long, modulus, second = 2.5, 9e9, 322e-8
    push = euler_force(modulus=modulus, second_moment=second, end_factor=1.0, length=long) / 2
    pieces = 12

    def bow(push_n: float) -> float:
        model = FEModel3D()
        model.add_material("timber", modulus, modulus / 16, 0.3, 0)
        model.add_section("s", 6.4e-3, second, second, 2 * second)
        for k in range(pieces + 1):
            model.add_node(f"n{k}", long * k / pieces, 0, 0)
        for k in range(pieces):
            model.add_member(f"m{k}", f"n{k}", f"n{k + 1}", "timber", "s")
        model.def_support("n0", True, True, True, True, False, False)
        model.def_support(f"n{pieces}", False, True, True, False, False, False)
        model.add_node_load(f"n{pieces}", "FX", -push_n)
        model.add_node_load(f"n{pieces // 2}", "FY", -1.0)
        model.analyze_PDelta()
        return -float(model.nodes[f"n{pieces // 2}"].DY["Combo 1"])

    u = math.pi / 2 * math.sqrt(0.5)
    assert bow(push) / bow(0.0) == pytest.approx(3 * (math.tan(u) - u) / u**3, rel=1e-3)
