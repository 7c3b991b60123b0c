"""What every assessment keeps to, on every example and arrangement; and the judge's own rules."""

import math

import pytest

from rigcheck.checks.assessment import NEVER_CHECKED, assess
from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, FROM_MEMORY, HOLDS, Judge
from rigcheck.formula import Sign
from rigcheck.rig import examples
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.statics.solution import solve
from tests.rigs import G, assessed, check_of, counterweighted, falls, lead_sheave, rig, straight_lift, tackle

FORCE, STRENGTH, COUNT = Sign("D", "demand", "N"), Sign("C", "capacity", "N"), Sign("n", "count", "")


def _arrangement(slug: str, **choices):
    made = ARRANGEMENTS[slug]
    return made.make(made.defaults() | {k: v for k, v in choices.items() if k in made.defaults()})


RIGS = {f"example {name}": (lambda name=name: examples.example(name)) for name in examples.names()}
RIGS |= {f"arrangement {slug}": (lambda slug=slug: _arrangement(slug)) for slug in ARRANGEMENTS}
RIGS |= {
    f"arrangement {slug}, nothing known": (lambda slug=slug: _arrangement(slug, rope="fibre, material not known")) for slug in ARRANGEMENTS
}
KNOWN = {
    "rope": "steel, 7x7",
    "grade": "1770 N/mm²",
    "condition": "new, no fault found",
    "ends": "metal or resin socket",
    "bearing": "rolling bearing",
}
RIGS |= {f"arrangement {slug}, known": (lambda slug=slug: _arrangement(slug, **KNOWN)) for slug in ARRANGEMENTS}
RIGS |= {f"arrangement {slug}, overloaded": (lambda slug=slug: _arrangement(slug, mass="20 t", **KNOWN)) for slug in ARRANGEMENTS}
RIGS |= {
    "slack": lambda: rig(counterweighted(100, 130, 0.95)),
    "tilting falls": lambda: rig(falls([-0.6, 0.6], tilts=True)),
    "tackle": lambda: rig(tackle(5)),
}


@pytest.fixture(scope="module", params=RIGS)
def found(request):
    return assess(RIGS[request.param]())


def test_every_verdict_is_one_of_three(found):
    assert {check.verdict for check in found.checks} <= {HOLDS, FALLS_SHORT, CANNOT_TELL}
    assert sum(found.counts.values()) == len(found.checks)


def test_every_cannot_tell_says_why(found):
    assert [check.id for check in found.checks if check.verdict == CANNOT_TELL and len(check.reason) < 20] == []


def test_every_falls_short_says_what_to_change_or_why(found):
    assert [check.id for check in found.checks if check.verdict == FALLS_SHORT and not (check.remedy or check.reason)] == []


def test_every_check_has_an_id_of_its_own(found):
    assert len({check.id for check in found.checks}) == len(found.checks)


def test_every_check_that_judges_names_its_source(found):
    assert [check.id for check in found.checks if check.verdict != CANNOT_TELL and not check.source] == []


def test_a_verdict_that_was_computed_follows_from_its_numbers(found):
    for check in found.checks:
        if check.verdict != CANNOT_TELL and check.demand is not None and check.capacity is not None:
            demand, capacity = check.demand.number, check.capacity.number
            assert math.isfinite(demand), check.id
            assert math.isfinite(capacity), check.id
            assert (check.verdict == HOLDS) == (capacity >= check.required * demand), check.id


def test_no_text_calls_anything_safe(found):
    texts = [text for check in found.checks for text in (check.verdict, check.reason, check.remedy, check.what)] + found.not_checked
    assert [text for text in texts if " safe " in f" {text.lower()} "] == []


def test_no_verdict_rests_on_memory_alone(found):
    assert [check.id for check in found.checks if check.mark == FROM_MEMORY and check.verdict != CANNOT_TELL] == []


def test_what_is_never_checked_is_said(found):
    assert set(NEVER_CHECKED) <= set(found.not_checked)


def test_the_rated_load_is_absent_exactly_when_a_check_on_the_load_cannot_tell(found):
    short = any(check.verdict == FALLS_SHORT and not check.on_load for check in found.checks)
    open_question = any(check.verdict == CANNOT_TELL and check.on_load for check in found.checks)
    assert found.whole.rated_load_kg == 0.0 if short else (found.whole.rated_load_kg is None) == open_question


# -- the judge ---------------------------------------------------------------------------------------------------------


@pytest.fixture
def judge():
    return Judge(solve(rig(lead_sheave())))


def compared(judge, demand: float, capacity: float, required: float = 1.0, **more):
    lines = [judge.given(sign, value, "test") for sign, value in ((FORCE, demand), (STRENGTH, capacity))]
    return judge.compare(f"id {demand} {capacity}", "item", "what", ("rope", "hoist"), *lines, required, source="source", **more)


@pytest.mark.parametrize(
    ("demand", "capacity", "required", "verdict"), [(2.0, 10.0, 5.0, HOLDS), (2.0, 9.999999, 5.0, FALLS_SHORT), (0.0, 0.0, 1.0, HOLDS)]
)
def test_it_holds_where_capacity_reaches_required_times_demand(judge, demand, capacity, required, verdict):
    check = compared(judge, demand, capacity, required, remedy="do that")
    assert check.verdict == verdict
    assert check.remedy == ("do that" if verdict == FALLS_SHORT else "")
    assert check.factor_value == (capacity / demand if demand else None)
    assert float(check.margin(demand, capacity)) == pytest.approx(capacity - required * demand)


@pytest.mark.parametrize(("demand", "capacity"), [(math.nan, 1.0), (1.0, math.nan), (math.inf, 1.0)])
def test_what_is_not_a_number_cannot_be_told(judge, demand, capacity):
    check = compared(judge, demand, capacity, reason="A note.")
    assert check.verdict == CANNOT_TELL
    assert "Not known" in check.reason
    assert "A note." in check.reason
    assert check.factor_value is None


@pytest.mark.parametrize("capacity", [0.5, 1000.0])
def test_a_capacity_from_memory_cannot_tell_whether_it_is_great_or_small(judge, capacity):
    check = compared(judge, 1.0, capacity, mark=FROM_MEMORY)
    assert check.verdict == CANNOT_TELL
    assert "certificate" in check.reason


def test_a_check_knows_whether_it_depends_on_the_load(judge):
    pull = judge.solution.runs["hoist"][0].raising
    assert judge.depends_on_load(pull)
    assert not judge.depends_on_load(judge.given(COUNT, 3.0, "test"))


def test_the_same_text_is_left_out_once(judge):
    for _ in range(2):
        judge.leave_out("the weather")
    assert judge.not_checked == ["the weather"]


# -- the assessment as a whole -----------------------------------------------------------------------------------------


def test_the_velocity_ratio_of_a_tackle_is_its_parts():
    assert [assessed(data).velocity_ratio for data in (straight_lift(), tackle(2), tackle(5))] == pytest.approx([1.0, 2.0, 5.0])


def test_the_drum_torque_is_the_pull_on_the_winding_radius():
    """One metre of rope over 0.063 m is two and a half turns: one layer."""
    assert assessed(lead_sheave()).drum_torque_nm == pytest.approx(100 * G * 0.063)


def test_guesses_are_gathered_with_their_place():
    data = lead_sheave()
    data["bodies"]["load"]["notes"] = {"mass": "a guess by two people"}
    data["drive"]["motor"]["notes"] = {"stall_torque": "Guess from a like motor", "voltage": "marking"}
    assert assessed(data).guesses == ["bodies, load, mass: a guess by two people", "drive, motor, stall torque: Guess from a like motor"]


def test_a_rig_that_is_fully_described_and_strong_holds_throughout():
    found = assessed(lead_sheave())
    assert found.all_hold
    assert check_of(found, "rope.hoist.condition").verdict == HOLDS


def test_a_drum_whose_rope_goes_slack_has_no_torque():
    """A drum cannot push its rope: no negative torque is put out as if it could."""
    found = assessed(counterweighted(100, 130, 0.95))
    assert found.drum_torque_nm is None
    assert found.motor_torque_nm is None


def test_tolerances_of_anything_but_the_load_are_said_not_to_count():
    data = counterweighted()
    data["bodies"]["counterweight"]["mass"] = "60 kg ± 2 kg"
    assert any("60 kg ± 2 kg" in text and "middle value" in text for text in assessed(data).not_checked)
    data["bodies"]["load"]["mass"] = "100 kg ± 1 kg"
    assert not any("100 kg ± 1 kg" in text for text in assessed(data).not_checked)
