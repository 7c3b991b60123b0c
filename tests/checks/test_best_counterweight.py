"""The best counterweight by hand: load m, counterweight M over one sheave of efficiency η.

Lowering leaves g (m - M / η); stopped as hard as a it goes slack where g (m - M / η) = a (m + M / η), so at M = η m (g - a) / (g + a).
Both ask least of the lightest load, so with a tolerance they are asked there.
"""

import json

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, HOLDS
from rigcheck.report.as_json import contract
from rigcheck.report.as_text import text
from rigcheck.rig import examples, files
from rigcheck.rig.model import Rig
from rigcheck.whatif import other_counterweight
from tests.rigs import BREAKING_FORCE_N, G, assessed, check_of, counterweighted, fast, lead_sheave, over

TAUT, STOPPING, LEAST = "taut.hoist", "counterweight.stopping", "load.tolerance.least"
LOAD, MARGIN_N, HARD = "100 kg ± 4 kg", 50.0, 0.5


def lift(
    counterweight_kg: float = 60.0, load: str = LOAD, efficiency: float = 1.0, margin_n: float = MARGIN_N, stopping: float | None = HARD
):
    data = counterweighted(100, counterweight_kg, efficiency)
    data["bodies"]["load"]["mass"] = load
    data["limits"]["taut_margin"] = f"{margin_n!r} N"
    if stopping is not None:
        data["limits"]["stopping"] = f"{stopping!r} m/s²"
    return data


def best_of(*given, **named) -> float:
    return assessed(lift(*given, **named)).best_counterweight_kg


@pytest.mark.parametrize("efficiency", [1.0, 0.9])
def test_stopping_and_the_lightest_load_decide_it(efficiency):
    """96 · 0.9 or 96 kg times 9.30665 / 10.30665; the pull of 50 N alone would allow η (100 - 5.1) = 94.9 kg for η = 1."""
    assert best_of(efficiency=efficiency) == pytest.approx(efficiency * 96 * (G - HARD) / (G + HARD), rel=1e-9)


def test_where_it_stops_gently_the_stated_pull_at_the_lightest_load_decides_it():
    assert best_of(stopping=0.01) == pytest.approx(96 - MARGIN_N / G, rel=1e-9)


def test_without_a_tolerance_the_load_entered_decides_it():
    assert best_of(load="100 kg", stopping=0.01) == pytest.approx(100 - MARGIN_N / G, rel=1e-9)


def test_a_wider_tolerance_or_a_harder_stop_never_makes_it_heavier():
    by_tolerance = [best_of(load=f"100 kg ± {kg} kg") for kg in (1, 5, 20)]
    by_stopping = [best_of(stopping=hard) for hard in (0.01, 0.5, 2.0)]
    assert by_tolerance == sorted(by_tolerance, reverse=True)
    assert by_stopping == sorted(by_stopping, reverse=True)
    assert len(set(by_tolerance)) == 3
    assert by_stopping[0] > by_stopping[-1]


@pytest.mark.parametrize("data", [lift(), lift(stopping=0.01), lift(efficiency=0.9), lift(load="100 kg")])
def test_with_it_every_check_on_it_holds_and_with_a_little_more_one_does_not(data):
    best = assessed(data).best_counterweight_kg
    ids = [id for id in (TAUT, STOPPING, LEAST, "load.tolerance") if id in (TAUT, STOPPING) or "±" in data["bodies"]["load"]["mass"]]
    for kg, holds in ((best * 0.99999, True), (best * 1.00001, False)):
        data["bodies"]["counterweight"]["mass"] = f"{kg!r} kg"
        verdicts = [check_of(assessed(data), id).verdict for id in ids]
        assert (set(verdicts) == {HOLDS}) == holds


@pytest.mark.parametrize("name", ["kiln-shell", "studio-counterweight"])
def test_the_examples_hold_with_the_best_weight_as_it_is_written(name):
    best = assess(examples.example(name)).best_counterweight
    data = json.loads(files.dumps(examples.example(name)))
    data["bodies"]["counterweight"]["mass"] = f"{int(best.mass_kg * 100) / 100} kg"
    found = assess(Rig.model_validate(data))
    assert {check_of(found, id).verdict for id in (TAUT, STOPPING, LEAST)} == {HOLDS}


def test_the_rope_that_it_hangs_on_may_give_way_before_the_hoist_rope_goes_slack():
    """A rope of 6 mm bears M g / 5 of 0.95 · 23066.64 N at its wedge: 4382.7 N or 446.9 kg; for 1000 kg the hoist rope stays taut up to 995 kg."""
    data = counterweighted(1000, 300)
    data["limits"] |= {"taut_margin": "50 N", "stopping": "0.01 m/s²"}
    data["ropes"]["hoist"] |= {"diameter": "12 mm"}
    data["sheaves"]["head"] |= {"pitch_diameter": "240 mm", "groove_diameter": "13 mm", "rated_load": "90 kN"}
    weakest = min(
        check_of(assessed(data), id).capacity.number
        for id in ("rope.cw rope.first-end", "rope.cw rope.last-end", "rope.cw rope.sheave.cw sheave")
    )
    assert weakest < BREAKING_FORCE_N
    best = assessed(data).best_counterweight
    assert best.mass_kg == pytest.approx(weakest / 5 / G, rel=1e-9)
    assert best.governs.part == ("rope", "cw rope")


def test_where_even_the_lightest_leaves_too_little_there_is_none_and_it_says_why():
    """A load of 100 kg alone pulls 980.7 N; 2000 N are asked."""
    found = assessed(lift(load="100 kg", margin_n=2000.0))
    assert found.best_counterweight_kg is None
    assert contract(found)["best_counterweight_kg"] is None
    assert found.best_counterweight.words.startswith("However light it is, this falls short: rope hoist, pull left over")
    assert "there is no best one. However light it is" in check_of(found, TAUT).remedy
    assert "none. However light it is" in " ".join(text(found).split())


def test_a_stopping_that_is_not_stated_is_named_as_left_out_of_it():
    found = assessed(lift(load="100 kg", stopping=None))
    assert found.best_counterweight_kg == pytest.approx(100 - MARGIN_N / G, rel=1e-9)
    assert "How hard it stops is not stated" in found.best_counterweight.words
    assert check_of(found, STOPPING).verdict == CANNOT_TELL


def test_what_falls_short_with_it_all_the_same_is_named():
    """A motor of 1 N·m does not lift what the best counterweight of 86.7 kg leaves: 13.3 kg · g on 63 mm is 8.2 N·m."""
    data = lift()
    data["drive"]["motor"] |= {"rated_torque": "1 N·m"}
    found = assessed(data)
    assert found.best_counterweight_kg == pytest.approx(96 * (G - HARD) / (G + HARD))
    assert "With it this falls short all the same: motor, torque while raising" in found.best_counterweight.words


def test_every_remedy_for_too_heavy_a_counterweight_names_the_same_weight():
    """97 kg: 3 kg · g = 29 N of 50 N are left, and it may be stopped with 0.15 m/s²; at 96 kg nothing is left."""
    found = assessed(lift(97.0))
    told = "less counterweight: at most 86.68 kg, the best weight."  # 96 · 9.30665 / 10.30665 = 86.6856
    for id in (TAUT, STOPPING, LEAST):
        check = check_of(found, id)
        assert check.verdict == FALLS_SHORT, id
        assert told in check.remedy, id
    limits = other_counterweight.limits(found, "counterweight")
    assert (limits.best_kg, limits.best.words) == (found.best_counterweight_kg, found.best_counterweight.words)
    assert contract(found)["best_counterweight_kg"] == found.best_counterweight_kg


def test_it_does_not_depend_on_the_counterweight_entered():
    assert [best_of(kg) for kg in (5.0, 60.0, 97.0, 150.0)] == pytest.approx([best_of()] * 4, rel=1e-9)


def test_neither_without_a_counterweight_nor_without_a_stated_pull_is_there_one():
    assert assessed(lead_sheave()).best_counterweight is None
    assert assessed(counterweighted(100, 60)).best_counterweight is None


def test_it_is_a_line_of_the_working():
    found = assessed(lift())
    (line,) = [line for line in found.solution.working.lines if line.sign.letter == "M_best"]
    assert line.number == found.best_counterweight_kg


def test_of_several_counterweights_none_is_called_the_best_and_that_is_said():
    data = lift()
    data["bodies"]["load"]["picks"]["third eye"] = ["-0.1 m", "0.5 m"]
    data["bodies"]["second weight"] = data["bodies"]["counterweight"] | {"at": ["-0.9 m", "2 m"], "mass": "10 kg"}
    data["points"]["hanger of second sheave"] = {"at": ["-0.7 m", "4 m"]}
    data["sheaves"]["second sheave"] = data["sheaves"]["cw sheave"] | {"on": "hanger of second sheave", "pitch_diameter": "400 mm"}
    data["ropes"]["second rope"] = data["ropes"]["cw rope"] | {
        "path": [fast("load", "third eye"), over("second sheave", "anticlockwise"), fast("second weight", "eye")]
    }
    found = assessed(data)
    assert found.best_counterweight is None
    assert any("there are several (counterweight, second weight)" in text for text in found.not_checked)
    alone = other_counterweight.limits(found, "counterweight").best.mass_kg
    data["bodies"]["counterweight"]["mass"] = f"{alone * 0.999!r} kg"
    assert check_of(assessed(data), LEAST).verdict == HOLDS, "for each it is found with the others as they are"
