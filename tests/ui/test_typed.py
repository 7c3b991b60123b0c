"""What was typed into a field: a switch of units changes the label, never the meaning of what stands in the field."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rigcheck import units
from rigcheck.ui.typed import in_field, unit_of, with_unit

NUMBER = st.sampled_from(["120", "0.5", "1,5", "1 1/4", "3/8", "120 ± 5", "7.5 ± 5 %"])
LABELS = st.sampled_from(
    [("mass", "kg", "lb"), ("length", "mm", "in"), ("length", "m", "ft"), ("force", "kN", "lbf"), ("torque", "N·m", "lbf·ft")]
)


@pytest.mark.parametrize(
    ("data_text", "typed", "label_unit", "shown"),
    [
        ("120 kg", "120", "kg", "120"),
        ("120 kg", "120", "lb", "120 kg"),
        ("120 lb", "120", "lb", "120"),
        ("120 lb", "120", "kg", "120 lb"),
        ("120 kg ± 5", "120 ± 5", "kg", "120 ± 5"),
        ("120 kg ± 5", "120 ± 5", "lb", "120 kg ± 5"),
        ("1/4 in", "1/4 in", "mm", "1/4 in"),
        ("1/4 in", "1/4 in", "in", "1/4 in"),
        ("140 kg ± 4 kg", None, "lb", "140 kg ± 4 kg"),
        ("140 kg ± 4 kg", None, "kg", "140 kg ± 4 kg"),
        ("about six", "about six", "in", "about six"),
        ("0.8", "80 %", "", "80 %"),
        ("0.96", "0,96", "", "0,96"),
        ("", None, "kg", ""),
    ],
)
def test_a_field_shows_what_was_typed_only_while_its_label_gives_it_the_same_meaning(data_text, typed, label_unit, shown):
    assert in_field(data_text, typed, label_unit) == shown


@given(NUMBER, LABELS, st.booleans(), st.lists(st.booleans(), max_size=4))
def test_switching_to_and_fro_keeps_the_quantity(number, labels, begins_us, switches):
    kind, *both = labels
    data_text = with_unit(number, both[begins_us])
    meant = units.read(data_text, kind)
    for us in [begins_us, *switches, begins_us]:
        shown = in_field(data_text, number, both[us])
        again = units.read(with_unit(shown, both[us]), kind)
        assert (again.value, again.plus_minus) == (meant.value, meant.plus_minus)
    assert in_field(data_text, number, both[begins_us]) == number


def test_the_unit_of_a_text_is_found_behind_fractions_and_before_tolerances():
    assert [unit_of(text) for text in ("1 1/4 in ± 1 mm", "2.5 mm²", "-3 °C", "0.5")] == ["in", "mm²", "°C", ""]
