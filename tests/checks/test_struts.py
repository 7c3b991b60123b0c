"""Struts and feet judged: bowing out, pull, guys that go slack, kick and lift, and what is told of what was not counted."""

import math

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, HOLDS
from rigcheck.errors import RigFileError
from rigcheck.rig import examples, files
from tests.rigs import G, assessed, check_of, place
from tests.strut_rigs import JOINT, framed, on_head_n, pole_with_guys, tripod, wall_jib

SOLID = {"diameter": "80 mm", "modulus": "9000 N/mm²", "strength": "18 N/mm²"}
EULER_N = math.pi**2 * 9e9 * (math.pi * 0.08**4 / 64) / (1.5**2 + 4**2)


def legs_of(data: dict, **stated) -> dict:
    for strut in data["struts"].values():
        strut |= SOLID | stated
    return data


def test_a_slender_leg_bears_eulers_force_over_the_required_factor():
    data = legs_of(tripod()) | {"basis": {"strut_factor": 3}}
    check = check_of(assessed(data), "strut.leg 0.push")
    assert check.verdict == HOLDS
    assert check.capacity.number == pytest.approx(EULER_N, rel=1e-9)
    assert check.demand.number == pytest.approx(on_head_n() * math.hypot(1.5, 4) / 12, rel=1e-9)
    assert "Euler" in check.source


def test_the_rated_load_is_where_eulers_force_is_just_the_factor_times_the_push():
    data = legs_of(tripod(), diameter="30 mm") | {"basis": {"strut_factor": 3}}
    found = assessed(data)
    assert found.whole.governed_by.startswith("strut.leg")
    bears = EULER_N * (30 / 80) ** 4
    assert found.whole.rated_load_kg == pytest.approx(bears / 3 * 12 / math.hypot(1.5, 4) / (2 * G), rel=1e-6)


def test_without_a_required_factor_it_cannot_tell_but_a_push_beyond_eulers_force_falls_short():
    check = check_of(assessed(legs_of(tripod())), "strut.leg 0.push")
    assert check.verdict == CANNOT_TELL
    assert ("basis", "strut_factor") in check.wants
    assert "times its push" in check.reason
    thin = check_of(assessed(legs_of(tripod(), diameter="15 mm")), "strut.leg 0.push")
    assert thin.verdict == FALLS_SHORT
    assert thin.factor_value < 1


@pytest.mark.parametrize("field", ["diameter", "modulus", "strength"])
def test_a_leg_of_which_something_is_not_stated_cannot_be_told_and_asks_for_it(field):
    data = legs_of(tripod()) | {"basis": {"strut_factor": 3}}
    del data["struts"]["leg 0"][field]
    check = check_of(assessed(data), "strut.leg 0.push")
    assert check.verdict == CANNOT_TELL
    assert ("struts", "leg 0", field) in check.wants
    assert assessed(data).whole.rated_load_kg is None


def test_a_stocky_leg_bears_half_of_what_crushes_it():
    data = legs_of(tripod(), diameter="400 mm") | {"basis": {"strut_factor": 3}}
    check = check_of(assessed(data), "strut.leg 0.push")
    assert check.capacity.number == pytest.approx(18e6 * math.pi * 0.2**2 / 2, rel=1e-9)
    assert "stocky" in check.reason


def test_a_clamped_foot_with_a_free_head_bears_a_quarter():
    data = legs_of(tripod(), end_factor=2) | {"basis": {"strut_factor": 3}}
    assert check_of(assessed(data), "strut.leg 0.push").capacity.number == pytest.approx(EULER_N / 4, rel=1e-9)


def test_any_section_may_be_stated_by_its_second_moment_and_area():
    stated = {"second_moment": "11.586 cm⁴", "area": "453.4 mm²", "modulus": "210000 N/mm²", "strength": "235 N/mm²"}
    data = tripod() | {"basis": {"strut_factor": 3}}
    for strut in data["struts"].values():
        strut |= stated
    # a tube of 48.3 × 3.2 mm bears 60.0 kN over 2 m (computed with the reference's formula), so over 4.272 m less by the square
    assert check_of(assessed(data), "strut.leg 0.push").capacity.number == pytest.approx(60.03e3 * 4 / (1.5**2 + 4**2), rel=1e-3)


def test_a_tie_is_judged_by_its_rated_pull_and_asks_for_it():
    data = wall_jib()
    assert check_of(assessed(data), "strut.tie.pull").wants == (("struts", "tie", "rated_pull"),)
    data["struts"]["tie"]["rated_pull"] = "3 kN"
    short = check_of(assessed(data), "strut.tie.pull")
    assert (short.verdict, short.demand.number) == (FALLS_SHORT, pytest.approx(on_head_n() * 5 / 3, rel=1e-9))
    data["struts"]["tie"]["rated_pull"] = "4 kN"
    assert check_of(assessed(data), "strut.tie.pull").verdict == HOLDS


def test_a_guy_on_the_wrong_side_goes_slack_and_falls_short():
    data = pole_with_guys()
    del data["struts"]["back guy"]
    found = assessed(data)
    check = check_of(found, "strut.front guy.slack")
    assert check.verdict == FALLS_SHORT
    assert "goes slack" in check.reason
    assert found.whole.rated_load_kg == 0


def test_where_no_choice_of_guys_holds_every_strut_says_so():
    data = pole_with_guys()
    data["points"]["back"]["at"] = place(2.0, 0)
    found = assessed(data)
    assert {check.verdict for check in found.checks if check.id.startswith("strut.") and check.id.endswith("force")} == {FALLS_SHORT}


def test_a_foot_kicks_against_the_friction_that_is_stated():
    assert check_of(assessed(tripod(held="ground")), "foot.foot 0.kick").verdict == CANNOT_TELL
    slippery = check_of(assessed(tripod(held="ground", friction=0.3)), "foot.foot 0.kick")
    assert (slippery.verdict, slippery.demand.number) == (FALLS_SHORT, pytest.approx(1.5 / 4, rel=1e-9))
    assert check_of(assessed(tripod(held="ground", friction=0.4)), "foot.foot 0.kick").verdict == HOLDS


def test_a_foot_that_is_lifted_falls_short():
    data = framed(
        {"near foot": ((-0.5, -4, 0), {"held": "ground", "friction": 1}), "far foot": ((-1.5, -4, 0), {"held": "ground", "friction": 1})},
        {"near leg": "near foot", "far leg": "far foot"},
    )
    check = check_of(assessed(data), "foot.far foot.lift")
    assert check.verdict == FALLS_SHORT
    # moments about the near foot: 0.5 m of the force against 1 m of the lift
    assert "981 N" in check.reason
    assert on_head_n() / 2 == pytest.approx(980.665)


def test_struts_more_than_needed_of_unknown_stiffness_cannot_be_told():
    data = framed({f"foot {k}": ((x, -4, 0), {}) for k, x in enumerate((-1.5, 0.0, 1.5))}, {f"leg {k}": f"foot {k}" for k in range(3)})
    found = assessed(data)
    assert {check.verdict for check in found.checks if check.id.startswith("strut.")} == {CANNOT_TELL}
    assert found.whole.rated_load_kg is None


def test_uneven_guys_more_than_needed_cannot_be_told_until_their_stiffness_is_stated():
    points = {"foot": ((-0.8, -4, 0), {})} | {
        f"anchor {k}": ((5 * math.cos(turn), -4, 5 * math.sin(turn)), {}) for k, turn in enumerate((0.3, 1.4, 2.9, 3.6, 5.0))
    }
    guys = {f"guy {k}": {"other_end": f"anchor {k}", "pulls_only": True, "rated_pull": "9 kN"} for k in range(5)}
    data = framed(points, {"pole": "foot", **guys})
    check = check_of(assessed(data), "strut.pole.force")
    assert check.verdict == CANNOT_TELL
    assert ("struts", "guy 0", "modulus") in check.wants
    for name, strut in data["struts"].items():
        strut |= {"modulus": "100000 N/mm²", "area": "30 mm²"} if name != "pole" else {"modulus": "9000 N/mm²", "diameter": "90 mm"}
    found = assessed(data)
    assert not [check for check in found.checks if check.id.endswith(".force")]
    assert any(check.id.startswith("strut.guy") and check.verdict == HOLDS for check in found.checks)


def test_what_is_not_counted_is_told():
    told = " ".join(assess(examples.example("well-tripod")).not_checked)
    for words in (
        "joined at head",
        "bent by their own weight",
        "just taut",
        "ground under the feet",
        "pulls: the force is counted as if it met the joint",
    ):
        assert words in told, words
    near = framed({"left": ((-2, 0.05, 0), {}), "right": ((2, 0.05, 0), {})}, {"left tie": "left", "right tie": "right"})
    assert "20 times as great" in " ".join(assessed(near).not_checked)
    beside = tripod()
    beside["drive"]["drum"]["at"] = place(0.06 + 1.2, 0.7)
    beside["ropes"]["hoist"]["path"][-1]["turns"] = "clockwise"
    assert "beside leg 0" in " ".join(assessed(beside).not_checked)


WRONG = [
    ({"other_end": "load"}, "which moves"),
    ({"other_end": "leg 1"}, "is a beam, not a strut"),
    ({"other_end": "nowhere"}, "is no point"),
    ({"other_end": JOINT}, "at one place"),
    ({"other_end": "foot 1"}, "between the same points"),
    ({"wall": "3 mm"}, "without a diameter"),
    ({"diameter": "40 mm", "wall": "21 mm"}, "more than half"),
    ({"diameter": "40 mm", "area": "100 mm²"}, "in one way|stated by"),
    ({"broad_side": "40 mm", "thin_side": "50 mm"}, "broader"),
    ({"ends": ["a", "b"]}, "not known here"),
    ({"second_moment": "12 mm²"}, "second moment|mm"),
]


@pytest.mark.parametrize(("change", "told"), WRONG, ids=[told for _, told in WRONG])
def test_a_strut_that_cannot_be_is_refused_with_where_and_why(change, told):
    data = tripod()
    data["struts"]["leg 0"] |= change
    with pytest.raises(RigFileError, match=told) as refused:
        files.read(data, "rig")
    assert "struts, leg 0" in refused.value.where or "leg 0" in refused.value.wrong  # of two side by side the later one is named


def test_a_point_held_by_nothing_and_a_strut_between_fixed_places_are_refused():
    data = tripod()
    data["points"]["loose"] = {"at": place(1, 1), "held": "struts"}
    with pytest.raises(RigFileError, match="no strut ends there"):
        files.read(data, "rig")
    data = tripod()
    data["struts"]["brace"] = {"one_end": "foot 0", "other_end": "foot 1"}
    with pytest.raises(RigFileError, match="carries nothing that could be told"):
        files.read(data, "rig")


@pytest.mark.parametrize(("bolted_to", "told"), [("mast", "is no strut"), ("guy", "can only pull"), ("leg 0", "beyond the ends")])
def test_a_winch_is_bolted_to_a_strut_that_is_there_and_can_bear_it(bolted_to, told):
    data = tripod()
    data["points"]["anchor"] = {"at": place(5, 0)}
    data["struts"]["guy"] = {"one_end": JOINT, "other_end": "anchor", "pulls_only": True}
    data["drive"]["drum"] |= {"bolted_to": bolted_to, "at": place(4, -3)}
    with pytest.raises(RigFileError, match=told):
        files.read(data, "rig")


def test_a_tie_that_leaves_some_kick_to_the_ground_cannot_be_told_and_a_ring_of_them_can():
    data = tripod(held="ground", friction=0.9)
    chain = {"pulls_only": True, "rated_pull": "20 kN"}
    data["struts"]["chain"] = {"one_end": "foot 0", "other_end": "foot 1", **chain}
    alone = check_of(assessed(data), "strut.chain.pull")
    assert alone.verdict == CANNOT_TELL
    assert "do not hold all of the kick" in alone.reason
    data["struts"] |= {f"chain {k}": {"one_end": f"foot {k}", "other_end": f"foot {(k + 1) % 3}", **chain} for k in (1, 2)}
    found = assessed(data)
    assert check_of(found, "strut.chain.pull").verdict == HOLDS
    assert check_of(found, "foot.foot 0.kick").verdict == HOLDS


def with_winch_on_a_leg(**stated) -> dict:
    data = legs_of(tripod(), **stated) | {"basis": {"strut_factor": 3}}
    data["drive"]["drum"] |= {"at": place(0.06 + 1.2, 0.7), "bolted_to": "leg 0"}
    data["ropes"]["hoist"]["path"][-1]["turns"] = "clockwise"
    return data


def test_a_leg_with_a_winch_on_it_is_judged_pressed_and_bent():
    found = assessed(with_winch_on_a_leg())
    check = check_of(found, "strut.leg 0.bent")
    assert check.verdict == HOLDS
    # by hand: the rope pulls with 980.665 N; the leg is a beam from the foot to the head, the rope's line passes its foot at a lever
    foot, head = (1.56, 0.0), (0.06, 4.0)
    path = found.solution.travel.paths["hoist"]
    contact, (dx, dy, _) = path.ends[-1][0], path.directions[-1][0]
    pull, long = (-980.665 * dx, -980.665 * dy), math.hypot(1.5, 4)
    u = ((head[0] - foot[0]) / long, (head[1] - foot[1]) / long)
    at_head = ((contact[0] - foot[0]) * pull[1] - (contact[1] - foot[1]) * pull[0]) / long
    crosswise = u[0] * pull[1] - u[1] * pull[0]
    reach = (1.26 - foot[0]) * u[0] + 0.7 * u[1]
    bend = max(abs(at_head) * (long - reach), abs(crosswise - at_head) * reach)
    push = found.members.by_name["leg 0"].push.number
    area, second = math.pi * 0.08**2 / 4, math.pi * 0.08**4 / 64
    assert check.demand.number == pytest.approx(push / area + bend * 0.04 / second / (1 - 3 * push / EULER_N), rel=1e-9)
    assert check.capacity.number == 18e6


def test_a_bent_leg_of_unknown_edge_cannot_be_told_and_a_thin_one_falls_short():
    any_section = {"diameter": None, "second_moment": "201 cm⁴", "area": "5026 mm²"}
    check = check_of(assessed(with_winch_on_a_leg(**any_section)), "strut.leg 0.bent")
    assert (check.verdict, ("struts", "leg 0", "diameter") in check.wants) == (CANNOT_TELL, True)
    assert check_of(assessed(with_winch_on_a_leg(diameter="65 mm")), "strut.leg 0.bent").verdict == FALLS_SHORT


def test_a_rope_led_from_the_winch_towards_the_foot_is_not_told():
    data = with_winch_on_a_leg()
    data["drive"]["drum"]["at"] = place(0.5, 3.4)
    data["points"]["hanger of low sheave"] = {"at": place(1.0, 0.3)}
    data["sheaves"]["low"] = {**data["sheaves"]["head"], "on": "hanger of low sheave"}
    data["ropes"]["hoist"]["path"].insert(2, {"over": "low", "turns": "anticlockwise"})
    assert check_of(assessed(data), "strut.leg 0.bent").verdict == CANNOT_TELL
