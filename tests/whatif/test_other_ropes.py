"""Another rope of the catalogue in the same rig: what is listed is what the checks say of the rig with that rope in it."""

from __future__ import annotations

import json
from random import Random

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, FROM_MEMORY, HOLDS
from rigcheck.parts import fibre_rope, wire_rope
from rigcheck.rig import examples, files
from rigcheck.rig.model import Rig
from rigcheck.whatif.catalogue_ropes import AS_NEW, FIBRE, STEEL, catalogue, like_it, with_rope
from rigcheck.whatif.other_ropes import OtherRopes, governing, is_of_rope, is_worse

ALIKE = 1e-12


def data_of(name: str) -> dict:
    return json.loads(files.dumps(examples.example(name)))


def others(name: str, *, alone: bool = False, fitting: str | None = None) -> OtherRopes:
    """The first rope of an example, with those that are the same unless it is changed alone."""
    assessment = assess(examples.example(name))
    first = next(iter(assessment.rig.ropes))
    return OtherRopes(assessment, [first] if alone else [first, *like_it(assessment.rig, first)], fitting)


def rope_of(kind: str, **what):
    """The one rope of the catalogue with these features."""
    diameter_m = what.pop("diameter_m")
    (found,) = [rope for rope in catalogue(kind, **what) if rope.diameter_m == pytest.approx(diameter_m, rel=1e-12)]
    return found


def sample(kind: str, many: int) -> list:
    return Random(kind).sample(catalogue(kind), many)


def assert_listed_as_assessed(tried: OtherRopes, rope) -> None:
    found = assess(Rig.model_validate(with_rope(json.loads(files.dumps(tried.assessment.rig)), tried.names, rope, tried.fitting)))
    (listed,) = tried.tried([rope])
    own = {check.id: check.verdict for check in found.checks if any(is_of_rope(check, name) for name in tried.names)}
    assert {each.id: each.verdict for each in listed.own} == own
    least = governing(found.checks, tried.names)
    if least is None:
        assert listed.factor is None
    else:
        assert listed.factor == pytest.approx(least.factor_value, rel=ALIKE, abs=0)
        assert (listed.required, listed.where) == (least.required, least.what)
    before, after = ({c.id: c.verdict for c in each.checks if c.id not in own} for each in (tried.assessment, found))
    before = {
        id: verdict
        for id, verdict in before.items()
        if not any(is_of_rope(c, n) for c in tried.assessment.checks if c.id == id for n in tried.names)
    }
    changed = {id for id in {**before, **after} if before.get(id) != after.get(id)}
    turns = tried.turns(rope)
    assert {(turn.before or turn.after).id for turn in turns} == changed
    assert {(turn.after.id, turn.after.verdict) for turn in turns if turn.after} == {(id, after[id]) for id in changed if id in after}


@pytest.mark.parametrize("name", ["loft-lift", "kiln-shell", "bakery-flour-hoist", "boat-engine", "studio-counterweight"])
def test_listed_factors_and_verdicts_are_those_of_the_rig_with_the_rope_in_it(name):
    tried = others(name)
    for rope in sample(STEEL, 8) + sample(FIBRE, 4):
        assert_listed_as_assessed(tried, rope)


@pytest.mark.parametrize("name", ["loft-lift", "tired-hoist", "found-winch"])
def test_a_fitting_given_for_the_other_kind_of_rope_is_counted(name):
    kind = FIBRE if examples.example(name).ropes["hoist rope"].kind == STEEL else STEEL
    fitting = "eye splice" if kind == FIBRE else "ferrule-secured eye"
    tried = others(name, fitting=fitting)
    for rope in sample(kind, 5):
        assert_listed_as_assessed(tried, rope)


def test_many_ropes_at_once_are_told_as_each_alone_and_in_the_order_asked():
    ropes = sample(STEEL, 40)
    together = others("loft-lift").tried(ropes)
    assert [each.rope for each in together] == ropes
    alone = others("loft-lift")
    for each in together[:6]:
        assert alone.tried([each.rope]) == [each]


def test_a_rope_ten_times_too_weak_falls_short_and_one_that_is_strong_enough_holds():
    tried = others("loft-lift")
    thin, right = (rope_of(STEEL, construction="7x19", grade="1770", diameter_m=d) for d in (0.003, 0.006))
    found = {each.rope: each for each in tried.tried([thin, right])}
    assert found[thin].verdict == FALLS_SHORT
    assert found[right].verdict == HOLDS
    # breaking force 0.362 · 6² · 1770 N = 23066.64 N, the end keeps 0.8 of it, the pull there is 200 kg · 9.80665
    assert found[right].factor == pytest.approx(23066.64 * 0.8 / (200 * 9.80665), rel=1e-12)


def test_a_thick_rope_on_small_sheaves_falls_short_however_strong():
    tried = others("loft-lift")
    (listed,) = tried.tried([rope_of(STEEL, construction="7x19", grade="1960", diameter_m=0.02)])
    assert listed.verdict == FALLS_SHORT
    assert any(each.id.startswith("sheave.") and each.verdict == FALLS_SHORT for each in listed.own)


def test_a_construction_known_from_memory_never_decides():
    remembered = [rope for rope in catalogue(STEEL) if rope.mark == FROM_MEMORY]
    assert remembered
    for each in others("loft-lift").tried(remembered):
        assert each.verdict != HOLDS
        assert {v.verdict for v in each.own if v.id.startswith("rope.") and not v.id.endswith(".condition")} == {CANNOT_TELL}


def test_another_kind_of_rope_leaves_its_ends_to_be_chosen():
    tried = others("loft-lift")
    (listed,) = tried.tried([rope_of(FIBRE, material="polyamide", diameter_m=0.012)])
    assert {each.verdict for each in listed.own if each.id.endswith("-end")} == {CANNOT_TELL}
    assert "end at" not in listed.where


def test_a_rope_that_the_rig_cannot_run_on_tells_why():
    # two ropes lower the shell: on the drum a thicker one pays out more for every turn than its neighbour
    tried = others("kiln-shell", alone=True)
    (listed,) = tried.tried([rope_of(STEEL, construction="7x19", grade="1770", diameter_m=0.012)])
    assert "cannot all keep their lengths" in listed.fault
    assert (listed.verdict, listed.factor, tried.turns(listed.rope)) == (CANNOT_TELL, None, ())


def test_a_weak_rope_takes_the_test_of_the_whole_rig_with_it():
    tried = others("loft-lift")
    turns = tried.turns(rope_of(STEEL, construction="7x19", grade="1570", diameter_m=0.003))
    assert {turn.after.id for turn in turns if is_worse(turn)} == {"test.static", "test.dynamic", "load.tolerance"}


def test_the_rope_put_in_is_new_and_nothing_is_kept_of_the_old_one():
    before = data_of("bakery-flour-hoist")
    after = with_rope(before, ["hoist rope"], rope_of(STEEL, construction="6x36 IWRC", grade="1960", diameter_m=0.008))
    old, new = before["ropes"]["hoist rope"], after["ropes"]["hoist rope"]
    assert (old["remaining_strength"], old["breaking_force"]) == (0.95, "16 kN")
    assert new["path"] == old["path"]
    assert {key: new[key] for key in new if key not in ("path", "notes")} == {
        "kind": "steel", "diameter": "8 mm", "construction": "6x36 IWRC", "grade": "1960 N/mm²", "remaining_strength": 1,
    }  # fmt: skip
    assert new["notes"]["remaining_strength"] == AS_NEW
    assert "guess" not in json.dumps(new["notes"])
    assert before == data_of("bakery-flour-hoist"), "the rig it was taken from stays as it was"


def test_a_stated_length_and_the_share_of_a_fitting_stay_with_a_rope_of_the_same_kind_alone():
    data = data_of("loft-lift")
    rope = data["ropes"]["hoist rope"]
    rope["length"] = "9 m"
    rope["notes"]["length"] = "measured on the floor"
    rope["path"][0] |= {"fitting_share": 0.85, "notes": {"fitting_share": "certificate"}}
    steel = with_rope(data, ["hoist rope"], catalogue(STEEL)[0])["ropes"]["hoist rope"]
    fibre = with_rope(data, ["hoist rope"], catalogue(FIBRE)[0], "eye splice")["ropes"]["hoist rope"]
    assert steel["path"] == rope["path"]
    assert fibre["path"][0] == {"made_fast_to": "platform", "pick": "eye", "fitting": "eye splice"}
    assert fibre["path"][1:] == rope["path"][1:]
    for new in (steel, fibre):
        assert (new["length"], new["notes"]["length"]) == ("9 m", "measured on the floor")


def test_every_rope_of_the_tables_is_in_the_catalogue_once_and_reads_back_as_it_was_written():
    steel, fibre = catalogue(STEEL), catalogue(FIBRE)
    assert len(set(steel)) == len(steel) == len(wire_rope.constructions()) * len(wire_rope.wire_rope_diameters()) * len(wire_rope.grades())
    assert len(set(fibre)) == len(fibre) == sum(len(fibre_rope.fibre_sizes(material)) for material in fibre_rope.fibre_materials())
    data = data_of("loft-lift")
    for rope in sample(STEEL, 30) + fibre:
        read = Rig.model_validate(with_rope(data, ["hoist rope"], rope)).ropes["hoist rope"]
        assert read.diameter.value == pytest.approx(rope.diameter_m, rel=1e-12)
        assert (read.kind, read.construction, read.material) == (rope.kind, rope.construction, rope.material)
        if rope.grade:
            assert read.grade.value == wire_rope.wire_rope_grade(rope.grade).strength_pa


def test_the_mass_of_a_metre_is_that_of_its_table():
    assert rope_of(STEEL, construction="6x19 IWRC", grade="1770", diameter_m=0.01).mass_per_metre_kg == pytest.approx(0.400, rel=1e-12)
    assert rope_of(STEEL, construction="6x19M IWRC", grade="1770", diameter_m=0.01).mass_per_metre_kg is None
    # 6.50 lb on 100 ft
    half_inch = rope_of(FIBRE, material="polyamide", diameter_m=0.012)
    assert half_inch.mass_per_metre_kg == pytest.approx(0.065 * 0.45359237 / 0.3048, rel=1e-12)


@pytest.mark.parametrize("name", examples.names())
def test_a_check_that_bears_the_name_of_a_rope_is_that_ropes_own_but_for_the_pin_of_a_sheave(name):
    assessment = assess(examples.example(name))
    for check in assessment.checks:
        kind, *_ = check.id.split(".")
        for rope in assessment.rig.ropes:
            bears_name = check.id.startswith((f"rope.{rope}.", f"drum.{rope}.")) or (kind == "sheave" and check.id.endswith(f".{rope}"))
            assert is_of_rope(check, rope) == (bears_name and ".pin." not in check.id), check.id


def test_ropes_described_alike_are_found_wherever_they_run():
    rig = examples.example("kiln-shell")
    assert like_it(rig, "left rope") == ["right rope", "counterweight rope"]
    assert like_it(examples.example("loft-lift"), "hoist rope") == []
