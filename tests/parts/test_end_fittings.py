"""End fittings and knots against figures retyped from their sources."""

import pytest

from rigcheck.errors import PartError
from rigcheck.parts.end_fitting import end_fitting, end_fitting_rows, end_fittings


# the lower of the USCG Boat Crew Seamanship Manual, a cordage handbook of 1946 and published tests
@pytest.mark.parametrize(
    ("knot", "share"),
    [
        ("bowline", 0.60),
        ("two bowlines", 0.57),
        ("reef knot", 0.45),
        ("sheet bend", 0.59),
        ("timber hitch", 0.65),
        ("round turn and two half hitches", 0.65),
        ("two half hitches", 0.75),
        ("anchor bend", 0.70),
        ("clove hitch", 0.60),
        ("overhand", 0.35),
        ("figure-eight stopper", 0.48),
        ("sheepshank", 0.45),
        ("eye splice", 0.90),
        ("short splice", 0.85),
    ],
)
def test_a_knot_leaves_the_least_share_that_was_read(knot, share):
    fitting = end_fitting(knot, "fibre")
    assert (fitting.share, fitting.mark, fitting.forbidden) == (share, "read", "")


def test_a_figure_eight_loop_is_recalled_and_is_not_the_stopper():
    loop = end_fitting("figure-eight loop", "fibre")
    assert (loop.share, loop.mark) == (0.75, "from memory")
    assert end_fitting("figure-eight stopper", "fibre").share == 0.48


def test_a_socket_leaves_the_whole_strength():
    socket = end_fitting("metal or resin socket", "steel")  # EN 13411-4
    assert (socket.share, socket.mark) == (1.0, "read")


# 30 CFR 57.19025 and WAC 296-870-70085(2): least strength asked of an attachment, 0.80
@pytest.mark.parametrize("name", ["ferrule-secured eye", "swaged socket", "mechanical splice"])
def test_a_factory_fitting_counts_no_more_than_the_least_asked_until_a_certificate_is_at_hand(name):
    fitting = end_fitting(name, "steel")
    assert (fitting.share, fitting.mark) == (0.80, "read")
    assert "certificate" in fitting.note
    assert any(row.mark == "from memory" for row in end_fitting_rows(name, "steel"))


def test_a_rule_that_prohibits_splices_is_not_the_source_for_one():
    assert end_fitting("mechanical splice", "steel").source.startswith("WAC 296-870-70085(2)")


def test_u_bolt_grips_are_recalled_and_forbidden_as_the_fastening_of_a_hoist_rope():
    grips = end_fitting("u-bolt grips", "steel")
    assert (grips.share, grips.mark) == (0.80, "from memory")
    assert "EN 13411-5" in grips.forbidden


def test_a_hand_tucked_eye_is_recalled():
    eye = end_fitting("hand-tucked eye", "steel")
    assert (eye.share, eye.mark) == (0.80, "from memory")


@pytest.mark.parametrize("rope_kind", ["steel", "fibre"])
def test_no_row_that_was_read_is_less_than_the_answer(rope_kind):
    for name in end_fittings(rope_kind):
        answer = end_fitting(name, rope_kind)
        assert all(answer.share <= row.share for row in end_fitting_rows(name, rope_kind) if row.mark == "read")


def test_a_knot_in_steel_rope_and_an_unknown_kind_of_rope_are_refused():
    with pytest.raises(PartError, match=r'end fitting for steel rope "bowline".*\n.*metal or resin socket'):
        end_fitting("bowline", "steel")
    with pytest.raises(PartError, match=r'"chain".*\n.*steel, fibre'):
        end_fitting("bowline", "chain")
    with pytest.raises(PartError, match='"chain"'):
        end_fittings("chain")
