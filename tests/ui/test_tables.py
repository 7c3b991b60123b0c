"""Tables whose rows become blocks where there is no room: every figure keeps its head, and a browser is told what every part is."""

import re

from rigcheck.ui import tables

ROWS = [("hoist rope", "12 N", "holds"), ("tag line", "", "cannot tell")]


def test_every_cell_below_a_head_names_it():
    made = tables.table(("rope", "pull", "verdict"), ROWS, numbers=(1,))
    assert re.findall(r'data-head="(\w+)"', made) == ["pull", "verdict"] * 2
    assert made.count('class="rc-number"') == 3
    assert re.findall(r'role="(\w+)"', made).count("cell") == 4


def test_a_cell_that_takes_the_place_of_several_has_no_head_and_those_after_it_keep_theirs():
    made = tables.table(
        ("drum", "torque", "speed", "rated load"), [("0.2 m", tables.wide_cell("cannot be worked out", 2), "95 kg")], numbers=(1, 2, 3)
    )
    assert '<td role="cell" colspan="2">cannot be worked out</td>' in made
    assert 'data-head="rated load" class="rc-number">95 kg</td>' in made
    assert 'data-head="torque"' not in made


def test_heads_and_names_are_text():
    made = tables.table(("<b>", "x"), [("a", "b")], name='"><i>')
    assert "<b>" not in made
    assert "<i>" not in made
