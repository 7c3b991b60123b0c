"""Wire ropes, fibre ropes and their heat limits against figures retyped from their sources."""

import math
from itertools import pairwise

import pytest

from rigcheck.errors import PartError
from rigcheck.parts.fibre_rope import ISO, fibre_materials, fibre_rope, fibre_sizes
from rigcheck.parts.rope_heat import heat_items, heat_limits
from rigcheck.parts.wire_rope import constructions, grades, wire_rope_class, wire_rope_diameters, wire_rope_grade

LBF_N = 4.4482216152605

# EN 12385-4 / ISO 2408 factors W, C, K as printed in a rope maker's technical note
FACTORS = {
    "6x7 FC": (0.345, 0.369, 0.332),
    "6x7 IWRC": (0.384, 0.432, 0.359),
    "7x7": (0.384, 0.432, 0.388),
    "6x19 FC": (0.359, 0.384, 0.330),
    "6x19 IWRC": (0.400, 0.449, 0.356),
    "6x19M FC": (0.346, 0.357, 0.307),
    "6x19M IWRC": (None, None, 0.332),
    "7x19": (0.381, 0.418, 0.362),
    "6x36 FC": (0.367, 0.393, 0.330),
    "6x36 IWRC": (0.409, 0.460, 0.356),
    "6x37M FC": (0.346, 0.357, 0.295),
    "6x37M IWRC": (0.381, 0.418, 0.319),
    "6x37M WSC": (0.381, 0.418, 0.346),
    "8x36 FC": (0.348, 0.357, 0.293),
    "8x36 IWRC": (0.417, 0.468, 0.356),
}


@pytest.mark.parametrize("name", FACTORS)
def test_wire_rope_factors_are_those_of_the_standard(name):
    rope = wire_rope_class(name)
    assert (rope.w_factor, rope.c_factor, rope.k_factor) == FACTORS[name]
    assert rope.mark == "read"


def test_recalled_constructions_are_marked_and_no_other_is():
    recalled = {rope.name: rope.k_factor for rope in constructions() if rope.mark == "from memory"}
    assert recalled == {"8x19 FC": 0.293, "8x19 IWRC": 0.356, "1x19": 0.525, "18x7": 0.328, "35(W)x7": 0.36}
    assert {rope.name for rope in constructions() if rope.mark == "read"} == set(FACTORS)


def test_core_and_strands_follow_the_name():
    for rope in constructions():
        if rope.name.endswith((" FC", " IWRC", " WSC")):
            assert rope.core == ("fibre core" if rope.name.endswith(" FC") else "steel core")
        assert rope.strands == int(rope.name.split("x")[0].replace("(W)", ""))


def test_discard_bands_are_those_of_iso_4309_2010():
    bands = {rope.name: rope.discard_wires for rope in constructions() if rope.discard_wires}
    assert bands["7x7"] == (1, 50)
    assert bands["6x19 IWRC"] == (51, 75)
    assert bands["8x19 FC"] == (101, 120)
    assert bands["6x36 FC"] == (161, 180)


# API Spec 9A / ISO 10425 Table C.1, 6x7 fibre core: d mm: kN at 1770, at 1960
@pytest.mark.parametrize(
    ("diameter_mm", "at_1770", "at_1960"),
    [(6, 21.2, 23.4), (7, 28.8, 31.9), (8, 37.6, 41.6), (10, 58.8, 65.1), (12, 84.6, 93.7), (16, 150, 167), (24, 338, 375)],
)
def test_the_6x7_factor_gives_the_strengths_of_another_standard(diameter_mm, at_1770, at_1960):
    factor = wire_rope_class("6x7 FC").k_factor
    for grade, printed in (("1770", at_1770), ("1960", at_1960)):
        strength = wire_rope_grade(grade).strength_pa * (diameter_mm / 1000) ** 2 * factor / 1000
        assert strength == pytest.approx(printed, rel=0.004)  # printed to three figures


# Bhandari, Design of Machine Elements, Table 23.4, 6x19M: d mm: kN at 1570 fibre / steel core, at 1960 fibre / steel core
@pytest.mark.parametrize(
    ("diameter_mm", "printed"),
    [(8, (31, 33, 39, 41.6)), (10, (48, 52, 60, 65)), (13, (82, 88, 102, 110)), (20, (193, 208, 241, 260)), (26, (326, 352, 407, 439))],
)
def test_the_6x19m_factors_give_the_strengths_of_a_textbook(diameter_mm, printed):
    made = [
        wire_rope_grade(grade).strength_pa * (diameter_mm / 1000) ** 2 * wire_rope_class(name).k_factor / 1000
        for grade in ("1570", "1960")
        for name in ("6x19M FC", "6x19M IWRC")
    ]
    assert made == pytest.approx(printed, rel=0.014)  # the textbook rounds to whole kN: up to half a kN in 33


def test_grades_and_sizes_ascend():
    assert [grade.strength_pa for grade in grades()] == [1570e6, 1770e6, 1960e6]
    sizes = wire_rope_diameters()
    assert sizes == sorted(set(sizes))
    assert (sizes[0], sizes[-1], len(sizes)) == (0.003, 0.026, 19)


def test_an_unknown_construction_or_grade_names_it_and_lists_what_exists():
    with pytest.raises(PartError, match=r'"6x99 FC".*\n.*6x7 FC, 6x7 IWRC'):
        wire_rope_class("6x99 FC")
    with pytest.raises(PartError, match=r'"2160".*\n.*1570, 1770, 1960'):
        wire_rope_grade("2160")


# US cordage table: mm: lb of manila, polyamide (nylon), polypropylene
CORDAGE = {
    6: (540, 1490, 1130),
    8: (900, 2300, 1710),
    10: (1220, 3340, 2440),
    11: (1580, 4500, 3160),
    12: (2380, 5750, 3780),
    14: (3100, 7200, 4600),
    16: (3960, 9350, 5600),
    18: (4860, 12800, 7650),
    20: (5850, 15300, 8900),
    22: (6950, 18000, 10400),
}


@pytest.mark.parametrize("size_mm", CORDAGE)
def test_fibre_strengths_are_those_of_the_us_cordage_table(size_mm):
    for material, strength_lbf in zip(("manila", "polyamide", "polypropylene"), CORDAGE[size_mm], strict=True):
        rope = fibre_rope(material, size_mm / 1000)
        assert rope.breaking_force_n == pytest.approx(strength_lbf * LBF_N, rel=1e-12)
        assert (rope.mark, rope.table) == ("read", "fibre_ropes.csv")


def test_the_5_mm_row_exists_for_polyamide_and_polypropylene_only():
    assert fibre_rope("polyamide", 0.005).breaking_force_n == pytest.approx(900 * LBF_N)
    assert fibre_rope("polypropylene", 0.005).breaking_force_n == pytest.approx(720 * LBF_N)
    with pytest.raises(PartError, match=r'"5 mm"\n.*It has: 6 mm, 8 mm'):
        fibre_rope("manila", 0.005)


def test_the_lower_of_two_manila_tables_stands():
    # older federal values: 1/2 in 2650 lb, 5/8 in 4400, 3/4 in 5400; the newer table prints less at each
    for inches, newer_lbf in ((0.5, 2380), (0.625, 3960), (0.75, 4860)):
        assert fibre_rope("manila", inches * 0.0254).breaking_force_n == pytest.approx(newer_lbf * LBF_N)


def test_a_recalled_manila_size_is_not_answered():
    with pytest.raises(PartError, match="no size of manila rope"):
        fibre_rope("manila", 0.0254)


def test_an_inch_size_finds_its_row_as_its_millimetre_size_does():
    assert fibre_rope("polyamide", 0.01905).breaking_force_n == fibre_rope("polyamide", 0.018).breaking_force_n


@pytest.mark.parametrize("offset_mm", [-0.3, 0.3])
def test_a_size_is_found_within_three_tenths_of_a_millimetre(offset_mm):
    assert fibre_rope("manila", (10 + offset_mm) / 1000).breaking_force_n == pytest.approx(1220 * LBF_N)


@pytest.mark.parametrize("diameter_mm", [9, 10.31, 13.1, 19.5, 30, math.nan])
def test_a_size_between_or_beyond_those_listed_is_refused(diameter_mm):
    with pytest.raises(PartError, match="no size of polyamide rope"):
        fibre_rope("polyamide", diameter_mm / 1000)


def test_mass_is_given_where_the_source_prints_it():
    # US cordage table, 1/2 in: 7.50, 6.50, 4.70 lb per 100 ft
    for material, pounds in (("manila", 7.50), ("polyamide", 6.50), ("polypropylene", 4.70)):
        assert fibre_rope(material, 0.012).mass_per_length_kg_m == pytest.approx(pounds * 0.45359237 / 30.48)
        assert fibre_rope(material, 0.010).mass_per_length_kg_m is None


def test_polyester_answers_from_the_licence_rule():
    # US Coast Guard licence rule: 1/2 in manila 2218 lb, polyester twice that
    rope = fibre_rope("polyester", 0.0127)
    assert rope.breaking_force_n == pytest.approx(2 * 2218 * LBF_N, rel=2e-4)
    assert (rope.mark, rope.table) == ("read", "fibre_rope_rules.csv")
    assert fibre_rope("polyester", 0.012).breaking_force_n < rope.breaking_force_n
    with pytest.raises(PartError, match="no size of polyester rope"):
        fibre_rope("polyester", 0.030)


def test_two_fibre_rope_is_a_material_of_its_own():
    # polyester/polyolefin two-fibre rope: 6 mm 5.34 kN, 12 mm 19.6 kN, 24 mm 58.6 kN
    for size_mm, strength_kn in ((6, 5.34), (12, 19.6), (24, 58.6)):
        assert fibre_rope("polyester-polyolefin", size_mm / 1000).breaking_force_n == pytest.approx(strength_kn * 1000)


@pytest.mark.parametrize("material", fibre_materials())
def test_every_listed_size_answers_and_sizes_ascend_with_strength(material):
    sizes = fibre_sizes(material)
    strengths = [fibre_rope(material, size).breaking_force_n for size in sizes]
    assert sizes == sorted(set(sizes))
    assert all(weak < strong for weak, strong in pairwise(strengths))


def test_recalled_iso_values_are_kept_but_never_answer():
    assert {row.mark for row in ISO.rows()} == {"from memory"}
    answers = {fibre_rope("polyamide", size).table for size in fibre_sizes("polyamide")}
    assert ISO.file not in answers


def test_an_unknown_material_lists_what_exists():
    with pytest.raises(PartError, match=r'"hemp".*\n.*manila, polyamide'):
        fibre_rope("hemp", 0.01)
    with pytest.raises(PartError, match='"hemp"'):
        fibre_sizes("hemp")


def test_heat_limits_are_those_of_their_sources():
    # Cal. Title 8 5045(c): fibre core 200 degF; EN 13414-1: steel core 90 % to 200 degC, 75 % to 300, 65 % to 400
    assert min(limit.up_to_k for limit in heat_limits("wire rope fibre core")) == pytest.approx(366.483, abs=1e-3)
    bands = [(round(limit.up_to_k - 273.15), limit.share) for limit in heat_limits("wire rope steel core")]
    assert bands == [(150, 1), (200, 0.9), (300, 0.75), (400, 0.65), (204, 1)]
    # 29 CFR 1926.251(d): fibre rope -20 to 180 degF
    [manila] = [limit for limit in heat_limits("manila") if limit.mark == "read"]
    assert (manila.above_k, manila.up_to_k) == pytest.approx((244.261, 355.372), abs=1e-3)
    [damage] = [limit for limit in heat_limits("polypropylene") if limit.kind == "damage"]
    assert damage.above_k == pytest.approx(423.15)


def test_a_heat_band_runs_upwards_and_only_a_working_limit_has_a_share():
    for item in heat_items():
        for limit in heat_limits(item):
            assert (limit.share is None) == (limit.kind == "damage") == (limit.up_to_k is None)
            if limit.above_k is not None and limit.up_to_k is not None:
                assert limit.above_k < limit.up_to_k


def test_every_fibre_material_has_a_heat_limit_that_was_read():
    for material in fibre_materials():
        assert any(limit.mark == "read" and limit.up_to_k for limit in heat_limits(material))


def test_an_item_without_heat_limit_is_refused():
    with pytest.raises(PartError, match='"string"'):
        heat_limits("string")
