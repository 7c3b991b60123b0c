"""Another counterweight: the curve over its mass against `assess` of the rig file with that mass, and against hand calculation."""

import copy
import json

import numpy
import pytest

from rigcheck.checks.assessment import assess
from rigcheck.checks.check import FALLS_SHORT, HOLDS
from rigcheck.rig import examples, files
from rigcheck.rig.model import Rig
from rigcheck.whatif import other_counterweight as other
from tests import guided_rigs
from tests.rigs import G, assessed, check_of, counterweighted

WITH = ["kiln-shell", "studio-counterweight"]
MASSES = [5.0, 40.0, 79.0, 83.3, 90.0, 104.9, 126.0, 131.0, 160.0]
STUDIO, ROLLING = "studio-counterweight", 1.04


def with_mass(name: str, mass_kg: float) -> Rig:
    data = json.loads(files.dumps(examples.example(name)))
    data["bodies"]["counterweight"]["mass"] = f"{mass_kg!r} kg"
    return Rig.model_validate(data)


@pytest.mark.parametrize("name", WITH)
def test_the_curve_gives_what_assess_gives_for_every_mass(name):
    found = other.curve(assess(examples.example(name)), "counterweight", numpy.array(MASSES))
    for i, mass in enumerate(MASSES):
        wanted = assess(with_mass(name, mass))
        pulls = wanted.solution.drive_pull
        assert found.least_n[i] == pytest.approx(check_of(wanted, "taut.hoist").capacity.number, rel=1e-9, abs=1e-6)
        assert found.is_slack[i] == wanted.solution.slack().any()
        if found.is_slack[i]:
            assert numpy.isnan(found.raising_n[i])
            assert numpy.isnan(found.lowering_n[i])
        else:
            assert found.raising_n[i] == pytest.approx(pulls["raising"].value.max(), rel=1e-9)
            assert found.lowering_n[i] == pytest.approx(pulls["lowering"].value.max(), rel=1e-9)


@pytest.mark.parametrize("name", WITH)
def test_the_best_weight_is_that_of_the_assessment_and_the_steady_one_leaves_just_the_margin(name):
    assessment = assess(examples.example(name))
    found = other.limits(assessment, "counterweight")
    assert found.best_kg == assessment.best_counterweight_kg
    left = check_of(assess(with_mass(name, found.steady_kg)), "taut.hoist")
    assert left.capacity.number == pytest.approx(found.margin_n, abs=1e-6)


def test_the_limits_of_the_studio_agree_with_hand_calculation():
    """One rope straight up over a head sheave, the counterweight over two: lowering leaves (m - M f²) g / f at the drum, raising (m - M / f²) g f."""
    found = other.limits(assess(examples.example(STUDIO)), "counterweight")
    squared = ROLLING**2
    assert found.slack_kg == pytest.approx(90 / squared)
    assert found.runs_away_kg == pytest.approx(90)
    assert found.lightest_load_kg == pytest.approx(65 * squared)
    assert found.steady_kg == pytest.approx((90 - 40 * ROLLING / G) / squared)


@pytest.mark.parametrize("name", WITH)
def test_beyond_the_weight_at_which_the_rope_goes_slack_the_check_falls_short(name):
    slack_kg = other.limits(assess(examples.example(name)), "counterweight").slack_kg
    for mass, is_slack in ((slack_kg * 0.999, False), (slack_kg * 1.001, True)):
        assert assess(with_mass(name, mass)).solution.slack().any() == is_slack
    assert check_of(assess(with_mass(name, slack_kg * 1.001)), "taut.hoist").verdict == FALLS_SHORT


@pytest.mark.parametrize("name", WITH)
def test_a_weight_above_that_for_stopping_falls_short_when_stopped_as_hard_as_stated(name):
    stopping_kg = other.limits(assess(examples.example(name)), "counterweight").stopping_kg
    for mass, verdict in ((stopping_kg * 0.999, HOLDS), (stopping_kg * 1.001, FALLS_SHORT)):
        assert check_of(assess(with_mass(name, mass)), "counterweight.stopping").verdict == verdict


def test_the_weight_for_stopping_agrees_with_two_masses_over_a_pulley():
    """g (m - M) / (m + M) = a gives M = m (g - a) / (g + a)."""
    data = counterweighted(100, 60)
    assert other.limits(assessed(data), "counterweight").stopping_kg is None, "how hard it stops is not stated"
    data["limits"]["stopping"] = "0.5 m/s²"
    assert other.limits(assessed(data), "counterweight").stopping_kg == pytest.approx(100 * (G - 0.5) / (G + 0.5))


def test_a_load_lighter_than_the_lightest_lets_the_rope_go_slack():
    lightest = other.limits(assess(examples.example(STUDIO)), "counterweight").lightest_load_kg
    data = json.loads(files.dumps(examples.example(STUDIO)))
    for factor, is_slack in ((1.001, False), (0.999, True)):
        data["bodies"]["lighting frame"]["mass"] = f"{lightest * factor!r} kg"
        assert assess(Rig.model_validate(data)).solution.slack().any() == is_slack


def test_asking_for_limits_adds_nothing_to_the_working_of_the_assessment():
    assessment = assess(examples.example(STUDIO))
    before = list(assessment.solution.working.lines)
    other.limits(assessment, "counterweight")
    other.curve(assessment, "counterweight", numpy.linspace(0, 100, 7))
    other.heaviest_by_height(assessment, "counterweight")
    assert assessment.solution.working.lines == before


def test_without_a_stated_margin_there_is_no_best_weight():
    found = other.limits(assessed(counterweighted(100, 60)), "counterweight")
    assert found.best_kg is None
    assert found.margin_n is None
    assert found.slack_kg == pytest.approx(100.0)


@pytest.mark.parametrize("name", WITH)
def test_the_heaviest_by_height_is_the_steady_weight_where_it_is_least(name):
    assessment = assess(examples.example(name))
    along = other.heaviest_by_height(assessment, "counterweight")
    assert along.shape == assessment.solution.travel.heights_m.shape
    assert along.min() == pytest.approx(other.limits(assessment, "counterweight").steady_kg)


def test_the_heaviest_by_height_follows_a_pull_that_changes_with_the_height():
    data = counterweighted(100, 60)
    data["limits"]["taut_margin"] = "50 N"
    data["points"]["hanger of head"]["at"] = ["1.5 m", "4 m"]
    assessment = assessed(data)
    along = other.heaviest_by_height(assessment, "counterweight")
    assert numpy.ptp(along) > 0.1, "the fall to the load leans, so its pull changes with the height"
    assert along.min() == pytest.approx(other.limits(assessment, "counterweight").steady_kg)


def test_what_is_left_while_stopping_is_nothing_at_the_acceleration_that_the_check_gives_as_its_limit():
    assessment = assess(examples.example(STUDIO))
    limit = check_of(assessment, "counterweight.stopping").capacity.number
    assert other.slack_limit(assessment) == pytest.approx(limit)
    data = json.loads(files.dumps(assessment.rig))
    data["limits"]["stopping"] = f"{limit!r} m/s²"
    left = other.left_along(assess(Rig.model_validate(data)))
    assert left[other.STOPS].min() == pytest.approx(0.0, abs=1e-6)


def test_what_is_left_while_stopping_agrees_with_two_masses_over_a_pulley():
    """m = 100 kg, M = 60 kg, no friction, a = 0.5 m/s²: 40 g - 160 · 0.5."""
    data = counterweighted(100, 60)
    data["limits"]["stopping"] = "0.5 m/s²"
    left = other.left_along(assessed(data))
    assert left[other.STOPS] == pytest.approx(40 * G - 80)
    assert left[other.RAISING] == pytest.approx(40 * G)


def test_without_a_stated_stopping_nothing_is_said_of_it():
    assert other.STOPS not in other.left_along(assessed(counterweighted(100, 60)))


def test_a_tried_weight_is_assessed_as_its_rig_file():
    assessment = assess(examples.example(STUDIO))
    tried = other.try_counterweight(assessment.rig, other.edits(assessment.rig, "counterweight", 72.5))
    wanted = assess(with_mass(STUDIO, 72.5))
    assert tried.text == "72.5 kg"
    assert tried.assessment.counts == wanted.counts
    assert tried.assessment.whole == wanted.whole
    assert tried.assessment.rig.bodies["counterweight"].notes["mass"] == other.CHOSEN


def test_the_best_weight_rounded_down_holds_at_both_ends_of_the_tolerance_and_while_stopping():
    """The lightest frame is 87 kg and it stops at 0.4 m/s²: 87 (g - 0.4) / (g + 0.4) / 1.04² = 74.13 kg."""
    assessment = assess(examples.example(STUDIO))
    assert assessment.best_counterweight_kg == pytest.approx(87 * (G - 0.4) / (G + 0.4) / ROLLING**2)
    best = other.edits(assessment.rig, "counterweight", assessment.best_counterweight_kg, towards="down")
    tried = other.try_counterweight(assessment.rig, best)
    assert tried.text == "74.13 kg"
    for id in ("taut.hoist", "counterweight.stopping", "load.tolerance.least", "load.tolerance"):
        assert check_of(tried.assessment, id).verdict == HOLDS, id


def test_a_weight_typed_in_pounds_stays_in_pounds():
    data = json.loads(files.dumps(examples.example(STUDIO)))
    data["bodies"]["counterweight"]["mass"] = "143 lb"
    tried = other.try_counterweight(Rig.model_validate(data), other.edits(Rig.model_validate(data), "counterweight", 72.5))
    assert tried.text == "159.8 lb"
    assert tried.mass_kg == pytest.approx(159.8 * 0.45359237)


def test_the_counterweight_goes_down_as_the_load_goes_up():
    assessment = assess(examples.example(STUDIO))
    places = other.places_along(assessment, "counterweight")
    assert places[0] == pytest.approx(2.6)
    assert places[-1] == pytest.approx(0.1)


def test_what_draws_the_load_up_by_itself_is_found_without_the_friction_of_guides_too():
    data = guided_rigs.counterweighted(0.3, 0.1, 0.2, friction=0.3)
    plain = copy.deepcopy(data)
    for body in plain["bodies"].values():
        body["moves"] = {"kind": "guided"}
    rubbing, free = (other.limits(assessed(each), "counterweight").runs_away_kg for each in (data, plain))
    assert rubbing == pytest.approx(free)
    assert free == pytest.approx(100.0)


def test_the_curve_gives_what_assess_gives_where_guides_rub():
    data = guided_rigs.counterweighted(0.2, 0.1, 0.2, friction=0.3)
    masses = [15.0, 30.0, 40.0]
    found = other.curve(assessed(data), "counterweight", numpy.array(masses))
    for i, mass in enumerate(masses):
        changed = copy.deepcopy(data)
        changed["bodies"]["counterweight"]["mass"] = f"{mass!r} kg"
        pulls = assessed(changed).solution.drive_pull
        assert found.raising_n[i] == pytest.approx(pulls["raising"].value.max())
        assert found.lowering_n[i] == pytest.approx(pulls["lowering"].value.max())
    limit = other.slack_limit(assessed(data))
    assert limit == pytest.approx(
        check_of(assessed(data | {"limits": {"travel": "1 m", "stopping": "0.1 m/s²"}}), "counterweight.stopping").capacity.number
    )
