"""Sheaves: the force on the pin by the law of cosines, the rating, the groove, the bearing. W = 980.665 N."""

import math
import re

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, HOLDS
from rigcheck.rig.model import Rig
from tests.rigs import DRUM_RADIUS_M, SHEAVE_M, G, assessed, check_of, lead_sheave, over, place, sheave, steel, straight_lift, tackle

W = 100 * G
PIN = "sheave.head.pin.hoist"


def resultant(one: float, other: float, degrees: float) -> float:
    return math.sqrt(one**2 + other**2 - 2 * one * other * math.cos(math.radians(degrees)))


def leading_off(data: dict, centre: tuple[float, float], degrees: float, length: float = 1.5) -> dict:
    """Put the drum where a rope that has turned clockwise through so many degrees from straight up runs on to it as a tangent."""
    along = math.sin(math.radians(degrees)), math.cos(math.radians(degrees))
    left = -along[1], along[0]
    reach = SHEAVE_M / 2 - DRUM_RADIUS_M
    data["drive"]["drum"]["at"] = place(*(c + reach * n + length * a for c, n, a in zip(centre, left, along, strict=True)))
    data["ropes"]["hoist"]["path"][-1]["turns"] = "clockwise"
    return data


def turned(degrees: float, efficiency: float = 1.0) -> dict:
    return leading_off(lead_sheave(efficiency=efficiency), (SHEAVE_M / 2, 4.0), degrees)


def test_a_rope_that_turns_right_round_loads_the_pin_with_twice_its_pull():
    assert check_of(assessed(lead_sheave()), PIN).demand.number == pytest.approx(2 * W)


@pytest.mark.parametrize("degrees", [30, 60, 90, 120, 150])
def test_without_friction_the_pin_carries_2_t_sin_half_the_wrap(degrees):
    assert check_of(assessed(turned(degrees)), PIN).demand.number == pytest.approx(2 * W * math.sin(math.radians(degrees / 2)), rel=1e-9)


def test_with_friction_raising_governs_a_wide_wrap():
    """η = 0.9: the load's part carries W, the lead W / 0.9 raising and 0.9 W lowering."""
    assert check_of(assessed(lead_sheave(efficiency=0.9)), PIN).demand.number == pytest.approx(W + W / 0.9)
    assert check_of(assessed(turned(90, 0.9)), PIN).demand.number == pytest.approx(math.hypot(W, W / 0.9), rel=1e-9)


def test_below_a_quarter_turn_a_weak_run_beside_a_strong_one_presses_hardest():
    """Two sheaves with η = 0.9; at rest the run between them lies between 0.9 W and W / 0.9, the lead between 0.81 W and W / 0.81.

    Over 30° raising gives 0.619 W, but 0.9 W beside W / 0.81 gives 0.640 W.
    """
    data = lead_sheave(efficiency=0.9)
    data["points"]["hanger of second"] = {"at": place(2, 4)}
    data["sheaves"]["second"] = sheave("hanger of second", 0.9)
    data["ropes"]["hoist"]["path"].insert(2, over("second"))
    found = check_of(assessed(leading_off(data, (2.0, 4.0), 120)), "sheave.second.pin.hoist")
    raising, mixed = resultant(W / 0.9, W / 0.81, 30), resultant(0.9 * W, W / 0.81, 30)
    assert raising == pytest.approx(0.619 * W, abs=0.001 * W)
    assert mixed == pytest.approx(0.640 * W, abs=0.001 * W)
    assert found.demand.number == pytest.approx(max(raising, mixed), rel=1e-9)


def test_every_sheave_of_a_tackle_carries_the_two_parts_beside_it():
    """Two parts without friction: W/2 in every part, so W on each pin."""
    found = assessed(tackle(2))
    assert check_of(found, "sheave.sheave 1.pin.hoist").demand.number == pytest.approx(W)
    assert check_of(found, "sheave.sheave 2.pin.hoist").demand.number == pytest.approx(W)


@pytest.mark.parametrize(
    ("rating", "newtons", "verdict"),
    [("201 kg", 201 * G, HOLDS), ("199 kg", 199 * G, FALLS_SHORT), ("2 kN", 2000.0, HOLDS), ("1.96 kN", 1960.0, FALLS_SHORT)],
)
def test_a_rating_may_be_a_mass_or_a_force(rating, newtons, verdict):
    data = lead_sheave()
    data["sheaves"]["head"]["rated_load"] = rating
    check = check_of(assessed(data), PIN)
    assert check.capacity.number == pytest.approx(newtons)
    assert (check.required, check.verdict) == (1.0, verdict)


def test_the_rating_proposed_holds():
    data = lead_sheave()
    data["sheaves"]["head"]["rated_load"] = "100 kg"
    proposed = re.search(r"rated for (\S+ kN)", check_of(assessed(data), PIN).remedy).group(1)
    assert proposed == "1.97 kN"  # 2 W = 1961.33 N, rounded up
    data["sheaves"]["head"]["rated_load"] = proposed
    assert check_of(assessed(data), PIN).verdict == HOLDS


def test_a_sheave_without_a_rating_cannot_be_told_and_the_advice_says_where_to_look():
    data = lead_sheave()
    del data["sheaves"]["head"]["rated_load"]
    found = assessed(data)
    assert check_of(found, PIN).verdict == CANNOT_TELL
    assert "stamped on the block" in check_of(found, PIN).reason
    assert check_of(found, PIN).demand.number == pytest.approx(2 * W)
    assert found.whole.rated_load_kg is None


@pytest.mark.parametrize(("groove", "verdict"), [("6.3 mm", HOLDS), ("6 mm", HOLDS), ("5.9 mm", FALLS_SHORT)])
def test_a_groove_is_at_least_as_wide_as_its_rope(groove, verdict):
    data = lead_sheave()
    data["sheaves"]["head"]["groove_diameter"] = groove
    assert check_of(assessed(data), "sheave.head.groove.hoist").verdict == verdict


def test_a_groove_that_is_not_stated_is_named_among_what_was_not_checked():
    data = lead_sheave()
    del data["sheaves"]["head"]["groove_diameter"]
    found = assessed(data)
    assert "sheave.head.groove.hoist" not in [check.id for check in found.checks]
    assert any("groove of sheave head" in text for text in found.not_checked)


def test_an_unstated_bearing_cannot_be_told_and_counts_the_stiffer_bush():
    """wire-rope-board: K = 1.09 for a plain bush, so raising the lead carries 1.09 W."""
    data = lead_sheave()
    del data["sheaves"]["head"]["efficiency"]
    found = assessed(data)
    assert check_of(found, "sheave.head.bearing").verdict == CANNOT_TELL
    assert "plain bush" in check_of(found, "sheave.head.bearing").reason
    assert check_of(found, PIN).demand.number == pytest.approx((1 + 1.09) * W)


def test_two_ropes_over_one_sheave_cannot_be_told_since_their_forces_add_up():
    data = straight_lift()
    data["bodies"]["load"]["picks"]["second"] = place(0, 0.5)
    data["points"]["hanger of head"] = {"at": place(SHEAVE_M / 2, 4)}
    data["sheaves"]["head"] = sheave("hanger of head")
    data["drive"]["drum"]["at"] = place(SHEAVE_M + DRUM_RADIUS_M, 0.5)
    for name, pick in (("hoist", "eye"), ("twin", "second")):
        ends = {"made_fast_to": "load", "pick": pick, "fitting": "metal or resin socket"}, {"wound_on": "drum", "turns": "anticlockwise"}
        data["ropes"][name] = steel([ends[0], over("head"), ends[1]])
    found = assessed(data)
    for name, other in (("hoist", "twin"), ("twin", "hoist")):
        check = check_of(found, f"sheave.head.pin.{name}")
        assert check.verdict == CANNOT_TELL
        assert f"{other} runs over it too" in check.reason


def test_sheaves_on_one_block_are_named_since_a_stamped_rating_is_for_all_of_them():
    assert any("Sheaves sheave 1, sheave 3, all on load" in text for text in assessed(tackle(4)).not_checked)
    assert not any("all on" in text for text in assessed(lead_sheave()).not_checked)


def test_a_sense_of_turning_that_makes_the_falls_cross_cannot_be_told():
    # Up to a head sheave at (0, 3) and down to a drum at (1, 0.5): turning clockwise the falls part, anticlockwise they cross.
    found = {}
    for turns in ("clockwise", "anticlockwise"):
        rig = Rig.model_validate(
            {
                "format": 1,
                "name": "sense",
                "points": {"beam": {"at": ["0 m", "3 m"]}},
                "bodies": {"load": {"role": "load", "mass": "100 kg", "at": ["0 m", "0 m"]}},
                "sheaves": {"head": {"on": "beam", "pitch_diameter": "120 mm", "bearing": "plain", "rated_load": "5 kN"}},
                "ropes": {
                    "hoist": {
                        "kind": "steel",
                        "diameter": "6 mm",
                        "path": [{"made_fast_to": "load"}, {"over": "head", "turns": turns}, {"wound_on": "drum", "turns": "clockwise"}],
                    }
                },
                "drive": {"kind": "winch", "drum": {"at": ["1 m", "0.5 m"], "diameter": "120 mm"}},
                "limits": {"travel": "1 m"},
            }
        )
        found[turns] = [c for c in assess(rig).checks if c.id == "sheave.head.sense.hoist"]
    assert found["clockwise"] == []
    (check,) = found["anticlockwise"]
    assert check.verdict == "cannot tell"
    assert "cross" in check.reason


def fibre_over_head(**sheave) -> dict:
    data = lead_sheave()
    data["ropes"]["hoist"] = {
        "kind": "fibre", "diameter": "12 mm", "breaking_force": "30 kN", "remaining_strength": 1,
        "path": [{"made_fast_to": "load", "pick": "eye", "fitting_share": 0.9}, *data["ropes"]["hoist"]["path"][1:]],
    }  # fmt: skip
    del data["sheaves"]["head"]["efficiency"]
    data["sheaves"]["head"] |= {"groove_diameter": "12.6 mm"} | sheave
    return data


def test_a_fibre_rope_under_a_rule_for_wire_rope_is_named_with_the_rule():
    told = [text for text in assessed(fibre_over_head(bearing="plain")).not_checked if "rule for wire rope" in text]
    assert len(told) == 1
    assert "hoist, a fibre rope, over head" in told[0]
    assert "Wire Rope" in told[0]


def test_no_such_remark_where_the_friction_was_stated_or_the_rope_is_of_wire():
    steel = lead_sheave()
    del steel["sheaves"]["head"]["efficiency"]
    steel["sheaves"]["head"]["bearing"] = "plain"
    for data in (fibre_over_head(efficiency=0.9), steel):
        assert not any("rule for wire rope" in text for text in assessed(data).not_checked)
