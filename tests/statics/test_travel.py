"""What cannot move as described is refused by name: a tether that is too short, falls out of step, a load that nothing holds."""

import math

import pytest

from rigcheck.errors import ClashError
from rigcheck.statics.travel import follow
from tests.rigs import falls, rig, straight_lift


def test_a_tether_to_the_floor_must_give_the_whole_travel():
    data = straight_lift()
    data["points"]["floor"] = {"at": ["0 m", "-1 m"]}
    data["ropes"]["tether"] = {"kind": "steel", "diameter": "6 mm", "path": [{"made_fast_to": "load"}, {"made_fast_to": "floor"}]}
    data["limits"]["travel"] = "200 mm"
    with pytest.raises(ClashError, match=r"tether cannot keep its length .* 200 mm are missing"):
        follow(rig(data))


def test_two_falls_that_part_by_no_more_than_a_millimetre_are_taken_as_alike():
    data = falls([-0.5, 0.5])
    assert abs(follow(rig(data)).mismatch_m).max() < 1e-9


def test_a_load_free_to_tilt_on_one_fall_turns_until_its_weight_hangs_below():
    data = straight_lift()
    data["bodies"]["load"]["moves"] = {"kind": "guided", "tilts": True}
    data["bodies"]["load"]["picks"] = {"eye": ["0.1 m", "0.3 m"]}
    data["ropes"]["hoist"]["path"][0]["pick"] = "eye"
    travel = follow(rig(data))
    assert travel.poses.q[:, 1] == pytest.approx(math.atan2(0.1, 0.3), abs=1e-9)  # anticlockwise: its eye is 0.1 m to the right
