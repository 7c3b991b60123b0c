"""Ropes, place by place: each number is worked out by hand beside the assertion (W = 100 kg · 9.80665 m/s² = 980.665 N)."""

import re

import pytest

from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, HOLDS
from rigcheck.errors import PartError
from rigcheck.parts.wire_rope import wire_rope_diameters
from tests.rigs import BREAKING_FORCE_N, G, assessed, check_of, fast, lead_sheave, straight_lift, tackle

W = 100 * G
POUND_FORCE_N = 4.4482216152605
END = "rope.hoist.first-end"
HEAD = "rope.hoist.sheave.head"


def with_rope(data: dict, **changes) -> dict:
    data["ropes"]["hoist"] |= changes
    return data


def without(data: dict, *keys: str) -> dict:
    for key in keys:
        del data["ropes"]["hoist"][key]
    return data


def with_end(**end) -> dict:
    data = lead_sheave()
    data["ropes"]["hoist"]["path"][0] = fast("load", "eye", **end)
    return data


def fibre(material: str | None = "polyamide", **changes) -> dict:
    data = without(lead_sheave(), "construction", "grade")
    data["ropes"]["hoist"]["path"][0] = fast("load", "eye", fitting="eye splice")
    return with_rope(data, kind="fibre", diameter="12 mm", **({"material": material} if material else {}), **changes)


def rope_checks(found) -> list:
    return [check for check in found.checks if check.id.startswith("rope.") and check.unit == "N"]


# -- the breaking force ----------------------------------------------------------------------------------------------


def test_class_and_grade_give_the_breaking_force_d2_r_k():
    check = check_of(assessed(lead_sheave()), END)
    assert BREAKING_FORCE_N == pytest.approx(36e-6 * 1770e6 * 0.362) == pytest.approx(23066.64)
    assert check.capacity.number == pytest.approx(23066.64, rel=1e-12)
    assert check.demand.number == pytest.approx(980.665, rel=1e-12)
    assert check.factor_value == pytest.approx(23066.64 / 980.665)
    assert (check.required, check.verdict) == (5.0, HOLDS)


def test_a_stated_breaking_force_stands_before_class_and_grade():
    found = assessed(with_rope(lead_sheave(), breaking_force="20 kN"))
    assert check_of(found, END).capacity.number == pytest.approx(20000.0)
    assert check_of(found, HEAD).capacity.number == pytest.approx(20000.0 * 0.91)


def test_a_12_mm_rope_in_the_half_inch_row_is_scaled_by_its_cross_section():
    check = check_of(assessed(fibre()), END)
    assert check.capacity.number == pytest.approx(5750 * POUND_FORCE_N * (12 / 12.7) ** 2 * 0.90)
    assert check.required == 7.0


def test_a_true_half_inch_rope_has_the_strength_of_its_row_unscaled():
    check = check_of(assessed(with_rope(fibre(), diameter="12.7 mm")), END)
    assert check.capacity.number == pytest.approx(5750 * POUND_FORCE_N * 0.90)


@pytest.mark.parametrize(
    ("gone", "named"),
    [(("grade",), "its grade"), (("construction",), "count strands and wires"), (("grade", "construction"), "construction")],
)
def test_a_steel_rope_without_class_or_grade_cannot_be_told_and_the_advice_names_what_is_missing(gone, named):
    found = assessed(without(lead_sheave(), *gone))
    for id in (END, HEAD, "rope.hoist.drum"):
        check = check_of(found, id)
        assert check.verdict == CANNOT_TELL
        assert named in check.reason
        assert "break test" in check.reason
        assert check.demand.number == pytest.approx(W), "the pull is known although the strength is not"


def test_a_fibre_rope_of_unknown_material_cannot_be_told_and_the_advice_names_the_marker_yarn():
    check = check_of(assessed(fibre(None)), END)
    assert check.verdict == CANNOT_TELL
    assert "marker yarn" in check.reason


def test_a_class_whose_factor_is_from_memory_cannot_be_told():
    found = assessed(with_rope(lead_sheave(), construction="8x19 FC"))
    assert {check.verdict for check in rope_checks(found)} == {CANNOT_TELL}
    assert "from memory" in check_of(found, HEAD).reason
    assert found.whole.rated_load_kg is None


def test_a_construction_that_no_catalogue_has_is_an_error_placed_at_the_rope():
    with pytest.raises(PartError) as fault:
        assessed(with_rope(lead_sheave(), construction="9x99"))
    assert fault.value.where.startswith("ropes, hoist")
    assert "9x99" in fault.value.wrong
    assert "7x19" in fault.value.right


# -- end fittings ----------------------------------------------------------------------------------------------------


def test_the_share_from_a_certificate_is_counted_as_stated():
    assert check_of(assessed(with_end(fitting_share=0.75)), END).capacity.number == pytest.approx(0.75 * 23066.64)


def test_the_share_of_a_read_fitting_is_that_of_its_row():
    check = check_of(assessed(with_end(fitting="ferrule-secured eye")), END)
    assert check.capacity.number == pytest.approx(0.80 * 23066.64)
    assert check.verdict == HOLDS


def test_a_fitting_known_from_memory_alone_cannot_be_told():
    check = check_of(assessed(with_end(fitting="wedge socket")), END)
    assert check.verdict == CANNOT_TELL
    assert "from memory" in check.reason


def test_u_bolt_grips_fall_short_whatever_they_hold_and_leave_no_rated_load():
    found = assessed(with_end(fitting="u-bolt grips"))
    kind = check_of(found, f"{END}-kind")
    assert kind.verdict == FALLS_SHORT
    assert "EN 13411-5" in kind.reason
    assert "Fit another kind of end" in kind.remedy
    assert found.whole.rated_load_kg == 0.0
    assert found.whole.governed_by == kind.id


def test_a_fitting_that_no_catalogue_has_is_an_error_placed_at_the_path():
    with pytest.raises(PartError) as fault:
        assessed(with_end(fitting="granny knot"))
    assert fault.value.where.startswith("ropes, hoist, path, fitting")
    assert "granny knot" in fault.value.wrong


def test_an_end_that_is_not_stated_cannot_be_told_and_the_advice_lists_the_fittings():
    data = lead_sheave()
    data["ropes"]["hoist"]["path"][0] = {"made_fast_to": "load", "pick": "eye"}
    check = check_of(assessed(data), END)
    assert check.verdict == CANNOT_TELL
    assert "ferrule-secured eye" in check.reason
    assert "certificate" in check.reason


# -- condition -------------------------------------------------------------------------------------------------------


def test_a_rope_of_unstated_condition_cannot_be_told_at_any_place():
    found = assessed(without(lead_sheave(), "remaining_strength"))
    assert check_of(found, "rope.hoist.condition").verdict == CANNOT_TELL
    assert "broken wires" in check_of(found, "rope.hoist.condition").reason
    assert {check.verdict for check in rope_checks(found)} == {CANNOT_TELL}
    assert found.whole.rated_load_kg is None


def test_what_is_said_of_a_rope_is_repeated_where_its_share_of_strength_is_not_known():
    found = assessed(with_rope(without(lead_sheave(), "remaining_strength"), notes={"remaining_strength": "worn or damaged"}))
    assert check_of(found, "rope.hoist.condition").verdict == CANNOT_TELL
    assert "Of its condition it is said: worn or damaged." in check_of(found, "rope.hoist.condition").reason


@pytest.mark.parametrize(("left", "verdict"), [(0.84, FALLS_SHORT), (0.85, HOLDS), (1, HOLDS)])
def test_a_wire_rope_is_retired_below_85_percent(left, verdict):
    found = assessed(with_rope(lead_sheave(), remaining_strength=left))
    assert check_of(found, "rope.hoist.condition").verdict == verdict
    assert check_of(found, END).capacity.number == pytest.approx(left * 23066.64)


def test_a_fibre_rope_counts_its_condition_and_says_that_no_retirement_share_is_published():
    found = assessed(fibre(remaining_strength=0.5))
    assert check_of(found, END).capacity.number == pytest.approx(5750 * POUND_FORCE_N * (12 / 12.7) ** 2 * 0.90 * 0.5)
    assert "rope.hoist.condition" not in [check.id for check in found.checks]
    assert any("no published share" in text for text in found.not_checked)


# -- bends -----------------------------------------------------------------------------------------------------------


def with_head(diameter: str) -> dict:
    data = lead_sheave()
    data["sheaves"]["head"]["pitch_diameter"] = diameter
    return data


@pytest.mark.parametrize(
    ("diameter", "share"),
    [("6 mm", 0.50), ("60 mm", 0.86), ("75 mm", (0.86 + 0.89) / 2), ("120 mm", 0.91), ("480 mm", 0.95)],  # D/d = 1, 10, 12.5, 20, 80
)
def test_a_bend_leaves_its_share_of_the_table(diameter, share):
    assert check_of(assessed(with_head(diameter)), HEAD).capacity.number == pytest.approx(share * 23066.64)


def test_a_bend_sharper_than_the_table_cannot_be_told():
    check = check_of(assessed(with_head("5 mm")), HEAD)
    assert check.verdict == CANNOT_TELL
    assert "bend ratio 0.8333" in check.reason


@pytest.mark.parametrize(("diameter", "verdict"), [("95.9 mm", FALLS_SHORT), ("96 mm", HOLDS)])
def test_sixteen_rope_diameters_exactly_are_enough_for_a_sheave(diameter, verdict):
    assert check_of(assessed(with_head(diameter)), "sheave.head.ratio.hoist").verdict == verdict


@pytest.mark.parametrize("millimetres", [3, 4, 5, 5.5, 6, 6.3, 7, 9, 11, 13, 19])
def test_sixteen_diameters_are_enough_in_every_size_in_spite_of_rounding(millimetres):
    data = with_rope(with_head(f"{16 * millimetres:.4g} mm"), diameter=f"{millimetres} mm")
    assert check_of(assessed(data), "sheave.head.ratio.hoist").verdict == HOLDS


def test_the_sheave_proposed_for_a_thick_rope_holds():
    data = with_rope(lead_sheave(), diameter="9 mm")
    short = check_of(assessed(data), "sheave.head.ratio.hoist")
    assert short.verdict == FALLS_SHORT
    assert short.capacity.number == pytest.approx(120 / 9)
    proposed = re.search(r"A sheave of (\S+ mm)", short.remedy).group(1)
    assert proposed == "144 mm"
    assert check_of(assessed(with_rope(with_head(proposed), diameter="9 mm")), "sheave.head.ratio.hoist").verdict == HOLDS


def test_the_least_sheave_for_fibre_rope_stands_beside_the_ropes_strength_there_and_never_judges():
    found = assessed(fibre())
    assert not [check for check in found.checks if ".ratio." in check.id]
    assert (
        "The sheave measures 10 rope diameters; 8 or more are asked for fibre rope (from memory, so it does not judge)"
        in check_of(found, HEAD).reason
    )
    assert [text for text in found.not_checked if "no published least size is at hand" in text], "what is not judged is named all the same"


@pytest.mark.parametrize(("diameter", "is_small"), [("60 mm", True), ("95.9 mm", True), ("96 mm", False)])
def test_a_sheave_below_eight_diameters_of_a_fibre_rope_is_told_and_leaves_the_verdict(diameter, is_small):
    data = fibre()
    data["sheaves"]["head"]["pitch_diameter"] = diameter
    check = check_of(assessed(data), HEAD)
    assert ("By what is remembered the sheave is too small" in check.reason) == is_small
    assert check.verdict == HOLDS


def test_a_thicker_fibre_rope_is_not_proposed_without_a_word_on_its_sheaves():
    data = fibre()
    data["bodies"]["load"]["mass"] = "500 kg"
    short = check_of(assessed(data), HEAD)
    assert short.verdict == FALLS_SHORT
    thicker, left = re.match(
        r"([\d.]+) mm of the same rope .*would then measure only ([\d.]+) rope diameters; 8 or more", short.remedy
    ).groups()
    assert float(left) == pytest.approx(120 / float(thicker), abs=0.01)
    assert float(left) < 8


# -- the required factor -----------------------------------------------------------------------------------------------


def test_a_basis_that_asks_no_factor_of_fibre_rope_cannot_tell():
    found = assessed(fibre() | {"basis": {"factors": "michigan-hoist"}})
    check = check_of(found, END)
    assert check.verdict == CANNOT_TELL
    assert "asks no factor of a fibre rope" in check.reason


def test_a_raised_factor_is_asked_and_told():
    found = assessed(lead_sheave() | {"basis": {"rope_factor": 6}})
    check = check_of(found, END)
    assert check.required == 6.0
    assert "raised from 5 to 6" in check.reason
    assert not any("LOWERED" in text for text in found.not_checked)


def test_a_lowered_factor_is_asked_and_the_report_says_so_in_both_places():
    found = assessed(lead_sheave() | {"basis": {"rope_factor": 4}})
    check = check_of(found, END)
    assert check.required == 4.0
    assert "lowered from 5 to 4" in check.reason
    assert any("LOWERED from 5" in text and "to 4" in text for text in found.not_checked)


def test_the_dynamic_factor_multiplies_the_pull_once():
    found = assessed(lead_sheave() | {"basis": {"dynamic_factor": 1.5}})
    assert check_of(found, END).demand.number == pytest.approx(1.5 * W)
    assert check_of(found, END).capacity.number == pytest.approx(23066.64)
    assert any("counted against the ropes only" in text for text in found.not_checked)


# -- the pull that is counted ------------------------------------------------------------------------------------------


def test_the_pull_at_a_place_is_the_greatest_of_the_runs_that_meet_raising_resting_and_lowering():
    """Two parts, η = 0.95, becket - lower sheave - upper sheave - drum.

    Raising the becket's part carries η W / (1 + η), lowering W / (1 + η): there lowering is the worst.
    Over the lower sheave it is W / (1 + η) either way, over the upper one raising asks W / (η (1 + η)).
    """
    found = assessed(tackle(2, efficiency=0.95))
    assert check_of(found, END).demand.number == pytest.approx(W / 1.95)
    assert check_of(found, "rope.hoist.sheave.sheave 1").demand.number == pytest.approx(W / 1.95)
    assert check_of(found, "rope.hoist.sheave.sheave 2").demand.number == pytest.approx(W / (0.95 * 1.95))
    assert check_of(found, "rope.hoist.drum").demand.number == pytest.approx(W / (0.95 * 1.95))


def test_every_stop_of_every_rope_is_a_place():
    ids = {check.id for check in rope_checks(assessed(tackle(3)))}
    assert ids == {END, *(f"rope.hoist.sheave.sheave {n}" for n in (1, 2, 3)), "rope.hoist.drum"}


# -- remedies --------------------------------------------------------------------------------------------------------


def heavy(mass_kg: float, diameter: str = "6 mm", sheave: str = "600 mm", **rope) -> dict:
    data = with_rope(lead_sheave(mass_kg), diameter=diameter, **rope)
    data["sheaves"]["head"]["pitch_diameter"] = sheave
    data["points"]["hanger of head"]["at"] = [f"{float(sheave.split()[0]) / 2!r} mm", "4 m"]  # the fall stays plumb
    return data


def proposed_size(remedy: str) -> float:
    return float(re.match(r"(\S+) mm of the same rope would hold at every place", remedy).group(1))


@pytest.mark.parametrize("mass_kg", [500.0, 900.0, 1500.0])
def test_the_diameter_proposed_holds_at_every_place_and_the_next_smaller_does_not(mass_kg):
    short = [check for check in rope_checks(assessed(heavy(mass_kg))) if check.verdict == FALLS_SHORT]
    (size,) = {proposed_size(check.remedy) for check in short}
    sizes = [round(1000 * d, 6) for d in wire_rope_diameters()]
    smaller = sizes[sizes.index(size) - 1]
    assert {check.verdict for check in rope_checks(assessed(heavy(mass_kg, f"{size} mm")))} == {HOLDS}
    assert FALLS_SHORT in {check.verdict for check in rope_checks(assessed(heavy(mass_kg, f"{smaller} mm")))}


def test_for_900_kg_the_size_is_9_mm_by_hand():
    """5 · 900 kg · g = 44130 N. 8 mm: 64e-6 · 1770e6 · 0.362 = 41007 N is too little before any bend; 9 mm: 51900 N · 0.88 on the drum = 45672 N."""
    short = check_of(assessed(heavy(900.0)), END)
    assert short.remedy == "9 mm of the same rope would hold at every place."


def test_a_thicker_rope_is_proposed_together_with_the_sheaves_it_asks():
    short = check_of(assessed(heavy(600.0, sheave="120 mm")), HEAD)
    assert short.remedy == "8 mm of the same rope would hold at every place. Its sheaves must then measure at least 128 mm."


def test_the_remedy_for_a_rope_with_a_certificate_says_on_what_it_rests():
    """10 kN at 6 mm: 44130 N needs 12.6 mm by cross-section alone, so 13 mm or more with the drum's bend."""
    short = check_of(assessed(heavy(900.0, breaking_force="10 kN")), END)
    assert short.remedy.startswith("14 mm of the same rope")
    assert "if its breaking force grows with its cross-section" in short.remedy
    assert {c.verdict for c in rope_checks(assessed(heavy(900.0, "14 mm", breaking_force=f"{10 * (14 / 6) ** 2!r} kN")))} == {HOLDS}
    assert FALLS_SHORT in {c.verdict for c in rope_checks(assessed(heavy(900.0, "13 mm", breaking_force=f"{10 * (13 / 6) ** 2!r} kN")))}


def test_where_no_size_holds_the_force_that_is_needed_is_told():
    short = check_of(assessed(heavy(20000.0)), END)
    assert short.remedy.startswith("No size of this rope in the catalogue holds")
    assert "981 kN" in short.remedy  # 5 · 20000 kg · g = 980.7 kN, rounded up


def test_the_size_proposed_for_a_fibre_rope_holds_and_the_next_smaller_does_not():
    def lifted(size: str) -> dict:
        return with_rope(fibre(), diameter=size) | {"bodies": lead_sheave(300.0)["bodies"]}

    size = proposed_size(check_of(assessed(lifted("8 mm")), END).remedy)
    smaller = {10: 8, 11: 10, 12: 11, 14: 12}[size]
    assert {check.verdict for check in rope_checks(assessed(lifted(f"{size:g} mm")))} == {HOLDS}
    assert FALLS_SHORT in {check.verdict for check in rope_checks(assessed(lifted(f"{smaller:g} mm")))}


def test_a_rope_with_no_sheave_is_judged_at_its_end_and_on_the_drum():
    found = assessed(straight_lift())
    assert check_of(found, END).demand.number == pytest.approx(W)
    assert check_of(found, "rope.hoist.drum").capacity.number == pytest.approx(0.91 * 23066.64)
