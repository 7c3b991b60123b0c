"""The section through the drum: every turn drawn once, in its layer, the dead wraps told apart."""

import re

import pytest

from rigcheck.rig.model import Drum
from rigcheck.ui import drum_view
from rigcheck.ui.drum_section import section
from rigcheck.whatif.rope_on_drum import RopeOnDrum

DRUM = {"at": ["0 m", "0 m"], "diameter": "100 mm", "width": "60 mm", "flange_diameter": "160 mm"}


def rope(**changed) -> RopeOnDrum:
    plain = {"name": "hoist", "diameter_m": 0.006, "per_layer": 10, "turns_down": 3.0, "turns_up": 17.4, "layers_up": 2, "most_m": 6.0, "room_m": 9.0,
             "layers_fitting": 3}  # fmt: skip
    return RopeOnDrum(**plain | changed)


def circles(drawing: str) -> list[tuple[float, float, str]]:
    found = re.findall(r'<circle cx="([\d.]+)" cy="([\d.]+)" r="[\d.]+" fill="(\w+)"', drawing)
    return [(float(x), float(y), fill) for x, y, fill in found]


def test_every_turn_is_drawn_once_and_the_dead_wraps_are_filled():
    found = circles(section(Drum(**DRUM), [rope()]))
    assert len(found) == 18, "the eighteenth turn is begun"
    assert [fill for *_, fill in found].count("currentColor") == 3
    assert len({(x, y) for x, y, _ in found}) == 18


def test_a_layer_lies_one_diameter_above_the_other_and_runs_back():
    found = circles(section(Drum(**DRUM), [rope()]))
    first, second = found[:10], found[10:]
    scale = 300 / 0.060
    assert first[0][1] - second[0][1] == pytest.approx(0.006 * scale, abs=0.02)
    assert second[0][0] == first[-1][0], "the second layer begins above the end of the first"
    assert first[1][0] - first[0][0] == pytest.approx(0.006 * scale, abs=0.02)


def test_two_ropes_each_have_their_half_of_the_drum():
    found = circles(
        section(Drum(**DRUM), [rope(per_layer=5, turns_up=4.0, layers_up=1), rope(name="other", per_layer=5, turns_up=4.0, layers_up=1)])
    )
    middle = 12 + 150
    assert [x < middle for x, *_ in found] == [True] * 4 + [False] * 4


def test_without_a_width_there_is_no_picture():
    plain = {key: value for key, value in DRUM.items() if key != "width"}
    assert section(Drum(**plain), [rope()]) == ""
    assert section(Drum(**DRUM), []) == ""
    assert section(Drum(**DRUM), [rope(turns_up=5000.0)]) == ""


def test_the_picture_says_in_words_what_it_shows_and_a_name_is_no_markup():
    drawing = section(Drum(**DRUM), [rope(name="<b>x</b>")])
    assert "lies in 17.4 turns and 2 layers with the load up, 3 turns of them with the load down" in drawing
    assert "<b>" not in drawing


@pytest.mark.parametrize(
    ("fitting", "up", "layers", "holds"),
    [
        (3, 2, "2 of 3 that fit", "9 m"),
        (0, 1, "1; none fits under the flange", "not one layer"),
        (1, 2, "2; room for 1", "9 m"),
        (None, 2, "2", "unknown"),
    ],
)
def test_layers_and_room_are_told_as_they_are_where_the_flange_is_too_low_or_not_stated(fitting, up, layers, holds):
    one = rope(layers_fitting=fitting, layers_up=up, room_m=None if fitting is None else 0.0 if fitting == 0 else 9.0)
    assert (drum_view.layers(one), drum_view.holds(one)) == (layers, holds)
