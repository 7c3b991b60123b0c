"""Names in charts do not stand on one another: letters of places of the motor, names of upright lines of weights."""

import itertools

import pytest

from rigcheck.ui import motor_view, weight_chart
from rigcheck.ui.motor_view import HOLDING, RAISING_EASIEST, RAISING_WORST, STARTING, lettered


def place(what: str, torque: float, speed: float = 0.0) -> dict:
    return {"what": what, "torque": torque, "speed": speed}


def test_places_on_one_another_share_one_label():
    (found,) = lettered([place(STARTING, 1.0), place(HOLDING, 1.001)], 8.0, 3000.0)
    assert found[0] == "A, B"


def test_places_close_together_have_their_letters_on_opposite_sides():
    first, second = lettered([place(STARTING, 0.76), place(HOLDING, 0.30)], 8.0, 3000.0)
    assert (first[0], first[2][0]) == ("B", "right")
    assert (second[0], second[2][0]) == ("A", "left")


def test_a_place_between_two_others_has_its_letter_above_theirs():
    places = [place(RAISING_EASIEST, 1.0), place(STARTING, 1.4), place(HOLDING, 1.8)]
    left, middle, right = lettered(places, 8.0, 3000.0)
    assert (left[2][0], middle[2][0], right[2][0]) == ("right", "center", "left")
    assert middle[2][2] < right[2][2]


def test_places_of_another_speed_do_not_matter():
    found = lettered([place(RAISING_WORST, 0.76, 2700.0), place(STARTING, 0.76)], 8.0, 3000.0)
    assert {letters: beside[0] for letters, _, beside in found} == {"A": "left", "B": "left"}


@pytest.mark.parametrize("masses", [(105.0, 113.0, 116.0, 100.0), (5.0, 7.0, 9.0, 12.0), (10.0, 100.0, 104.0, 30.0)])
def test_no_name_of_a_weight_is_crossed_by_the_line_of_another(masses):
    named = weight_chart.named_lines(list(zip(("now", "best", "stopping limit", "tried"), masses, strict=True)), 1000.0, 150.0)
    assert len({row["pull"] for row in named}) == 4
    assert all(row["pull"] > 1000.0 for row in named), "above all curves"
    for name, line in itertools.permutations(named, 2):
        runs_under = line["mass"] < name["mass"] if name["align"] == "right" else line["mass"] > name["mass"]
        if runs_under and line["align"] == name["align"]:
            assert line["pull"] < name["pull"]


def test_equal_weights_share_one_line():
    named = weight_chart.named_lines([("now", 80.0), ("best", 80.0)], 1000.0, 150.0)
    assert [row["what"] for row in named] == ["now = best: 80 kg"]


def test_the_letters_of_the_motor_follow_one_another_whichever_places_there_are():
    for places in ((RAISING_WORST, RAISING_EASIEST, STARTING, HOLDING), (RAISING_WORST, STARTING, HOLDING), (STARTING,)):
        assert list(motor_view.letters_of(places).values()) == list("ABCD"[: len(places)])
