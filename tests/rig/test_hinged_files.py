"""Rig files with hinges and bodies fixed on others: what is refused, where, and what would be right."""

import copy

import pytest

from rigcheck.errors import RigFileError
from rigcheck.rig import files
from tests.hinged_rigs import lid_by_winch
from tests.rigs import place

WEIGHT = {"role": "other", "mass": "3 kg", "at": place(0.2, 1.0)}


def changed(change) -> dict:
    data = copy.deepcopy(lid_by_winch(weight_kg=5.0))
    change(data)
    return data


@pytest.mark.parametrize(
    ("change", "where", "wrong", "right"),
    [
        (lambda d: d["bodies"]["lid"]["moves"].pop("hinge"), "bodies, lid, moves", '"hinge" is missing', '["0 m", "1 m"]'),
        (lambda d: d["bodies"]["lid"]["moves"].update(axis=[0, 0, 0]), "bodies, lid, moves", "the hinge's axis is zero", "[0, 0, 1]"),
        (lambda d: d["bodies"]["lid"]["moves"].update(hinge=["0 m", "1"]), "bodies, lid, moves, hinge, up", "", "m"),
        (lambda d: d["bodies"]["weight"]["moves"].pop("by"), "bodies, weight, moves", '"by" is missing', '"arm"'),
        (lambda d: d["bodies"]["weight"]["moves"].update(by="beam"), "bodies, weight, moves, by", 'carried by "beam", which is no body', "There are: lid."),
        (lambda d: d["bodies"]["weight"]["moves"].update(by="weight"), "bodies, weight, moves, by", "carried by itself", "must hang"),
        (lambda d: d["limits"].pop("swing"), "limits", '"travel" is missing', '"swing": "60 deg"'),
        (lambda d: d["limits"].update(travel="1 m"), "limits, travel", "its travel is an angle", 'Leave "travel" out'),
        (lambda d: d.update(limits={"travel": "1 m"}), "limits", "how far it swings is not stated", '"swing": "60 deg"'),
        (lambda d: d["limits"].update(swing="400 deg"), "limits, swing", "must not be more than 350 deg", "an angle"),
        (lambda d: d["bodies"]["lid"].update(moves={"kind": "guided"}), "limits, swing", "does not turn about a hinge", '"travel"'),
    ],
)  # fmt: skip
def test_what_does_not_fit_is_told_with_its_place_and_its_remedy(change, where, wrong, right):
    with pytest.raises(RigFileError) as caught:
        files.read(changed(change), "lid.rig.json")
    assert caught.value.where.removeprefix("lid.rig.json, ") == where
    assert wrong in caught.value.wrong
    assert right in caught.value.right


def test_two_bodies_that_carry_each_other_are_refused():
    def change(data):
        data["bodies"]["weight"]["moves"]["by"] = "plate"
        data["bodies"]["plate"] = WEIGHT | {"moves": {"kind": "carried", "by": "weight"}}

    with pytest.raises(RigFileError, match="is carried by itself in the end"):
        files.read(changed(change), "lid.rig.json")


def test_a_body_fixed_on_one_that_hangs_needs_no_rope_of_its_own_and_a_rope_may_be_fast_to_it():
    def change(data):
        data["bodies"]["plate"] = WEIGHT | {"moves": {"kind": "carried", "by": "weight"}}
        data["bodies"]["plate"]["picks"] = {"ring": place(1.8, 0.0)}
        data["ropes"]["hoist"]["path"][0] = {"made_fast_to": "plate", "pick": "ring"}

    rig = files.read(changed(change), "lid.rig.json")
    assert rig.carrier("plate") == "lid"
    assert rig.moving_as_one("lid") == ["lid", "weight", "plate"]
    assert files.loads(files.dumps(rig)) == rig
