"""What a remedy names is enough at the worse end of the load's tolerance, and not padded beyond its last digit."""

import copy
import re

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.checks.check import FALLS_SHORT, HOLDS, Check
from rigcheck.rig.model import Rig
from tests.checks.winch_lift import MOTOR, ONE_LAYER, WORM
from tests.rig_builders import straight

HEAVIEST_KG = 110.0


def weak() -> dict:
    """A lift whose every rating is far below what 100 kg need, and the load known to 10 kg."""
    builder = straight(100.0, travel=1.0, sheave={"efficiency": 0.95, "rated_load": "100 N"})
    builder.data["bodies"]["load"]["mass"] = "100 kg ± 10 kg"
    builder.data["ropes"]["hoist"] |= {"construction": "7x19", "grade": "1770 N/mm²", "remaining_strength": 1, "diameter": "2 mm"}
    builder.data["drive"]["drum"] |= {"diameter": "94 mm"} | ONE_LAYER | {"anchor_holds": "50 N", "rope_friction": 0.1}
    builder.data["drive"] |= {
        "gears": [WORM | {"output_torque_rating": "5 N·m"}],
        "motor": MOTOR | {"rated_torque": "0.5 N·m"},
        "supply": {"voltage": "24 V", "resistance": "0.01 ohm"},
        "cable": {"area": "4 mm²", "length": "3 m", "temperature": "20 °C"},
        "brake": {"torque": "1 N·m", "on": "drum", "sets_itself": True},
    }
    return builder.data


def check_of(data: dict, id: str) -> Check:
    return next(check for check in assess(Rig.model_validate(data)).checks if check.id == id)


MENDS = {
    "motor.running": ("drive motor rated_torque", r"a motor rated for at least ([\d.]+) N·m", "N·m"),
    "gears.1.torque": ("drive gears 0 output_torque_rating", r"rated for at least ([\d.]+) N·m", "N·m"),
    "sheave.head.pin.hoist": ("sheaves head rated_load", r"rated for ([\d.]+) kN", "kN"),
    "holding.brake": ("drive brake torque", r"([\d.]+) N·m on the drum", "N·m"),
    "drum.hoist.anchor": ("drive drum anchor_holds", r"holds at least ([\d.]+) N needs", "N"),
}


@pytest.mark.parametrize("id", MENDS)
def test_what_the_remedy_names_is_just_enough_for_the_heaviest_that_the_load_may_be(id):
    where, told, unit = MENDS[id]
    short = check_of(weak(), id)
    assert short.verdict == FALLS_SHORT
    assert "at the worse end of its tolerance" in short.remedy
    named = re.search(told, short.remedy).group(1)
    for share, verdict in ((1.0, HOLDS), (0.99, FALLS_SHORT)):
        data = copy.deepcopy(weak())
        data["bodies"]["load"]["mass"] = f"{HEAVIEST_KG} kg"
        if id == "drum.hoist.anchor":
            data["drive"]["drum"] |= {"dead_wraps": 0}
        *steps, last = (int(step) if step.isdigit() else step for step in where.split())
        part = data
        for step in steps:
            part = part[step]
        part[last] = f"{float(named) * share!r} {unit}"
        assert check_of(data, id).verdict == verdict, (named, share)


def test_the_rope_that_the_remedy_names_holds_the_heaviest_load_and_the_next_thinner_does_not():
    data = weak()
    short = check_of(data, "rope.hoist.drum")  # where it bends most sharply, the last place to hold
    named = float(re.match(r"([\d.]+) mm of the same rope", short.remedy).group(1))
    data["bodies"]["load"]["mass"] = f"{HEAVIEST_KG} kg"
    for diameter_mm, verdict in ((named, HOLDS), (named - 1, FALLS_SHORT)):
        data["ropes"]["hoist"]["diameter"] = f"{diameter_mm} mm"
        assert check_of(data, short.id).verdict == verdict


def test_people_on_a_crank_and_its_handle_are_enough_for_the_heaviest_load():
    builder = straight(100.0, travel=1.0)
    builder.data["drive"]["drum"] |= {"diameter": "94 mm"} | ONE_LAYER
    builder.data["drive"] |= {"crank": {"radius": "200 mm"}}
    builder.data["bodies"]["load"]["mass"] = "100 kg ± 20 kg"
    short = check_of(builder.data, "crank.effort")
    handle = float(re.search(r"a handle of at least (\d+) mm", short.remedy).group(1))
    builder.data["bodies"]["load"]["mass"] = "120 kg"
    builder.data["drive"]["crank"]["radius"] = f"{handle} mm"
    assert check_of(builder.data, "crank.effort").verdict == HOLDS
    builder.data["drive"]["crank"]["radius"] = f"{handle * 0.98} mm"
    assert check_of(builder.data, "crank.effort").verdict == FALLS_SHORT


def test_a_remedy_says_nothing_of_a_tolerance_where_none_is_stated():
    data = weak()
    data["bodies"]["load"]["mass"] = "100 kg"
    assert all("tolerance" not in check.remedy for check in assess(Rig.model_validate(data)).checks)
