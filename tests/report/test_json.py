"""The JSON that others rely on: its keys, its units, and null wherever a number is not known."""

from __future__ import annotations

import json
import math
from dataclasses import replace

import pytest

import rigcheck
from rigcheck.checks.assessment import assess
from rigcheck.checks.check import HOLDS
from rigcheck.report.as_json import contract, dumps, known, si_unit
from tests import rigs
from tests.report.report_rigs import ALL, assessed

KEYS = [
    "rig", "model_version", "basis", "tensions", "heights", "velocity_ratio", "drum_torque_nm", "motor_torque_nm", "best_counterweight_kg", "checks", "what_ifs",
    "working", "rated_load_kg", "governed_by", "least_load_kg", "rated_load_on_what_is_known_kg", "not_checked", "members", "drift", "reactions",
]  # fmt: skip
TENSION_KEYS = {
    "rope", "segment", "from", "to", "raising_n", "raising_at_m", "holding_min_n", "holding_max_n", "holding_at_m", "lowering_n", "lowering_at_m",
}  # fmt: skip
CHECK_KEYS = {"id", "item", "what", "demand", "capacity", "unit", "factor", "required", "verdict", "source"}
LINE_KEYS = {"sign", "kind", "what", "formula", "numbers", "value", "unit", "source"}


def numbers_in(data):
    if isinstance(data, dict):
        data = list(data.values())
    if isinstance(data, list):
        for entry in data:
            yield from numbers_in(entry)
    elif isinstance(data, float):
        yield data


@pytest.mark.parametrize("name", ALL)
def test_every_rig_gives_the_promised_keys_and_no_number_that_is_none(name):
    told = json.loads(dumps(assessed(name)), parse_constant=lambda word: pytest.fail(f"{word} in the JSON"))
    assert list(told) == KEYS
    assert all(set(tension) >= TENSION_KEYS for tension in told["tensions"])
    assert all(set(check) >= CHECK_KEYS for check in told["checks"])
    assert all(set(line) >= LINE_KEYS for line in told["working"])
    assert all(math.isfinite(number) for number in numbers_in(told))
    assert told["model_version"] == rigcheck.MODEL_VERSION
    assert told["rig"] == ALL[name]().name


@pytest.mark.parametrize("name", ALL)
def test_there_is_one_tension_for_every_run_and_one_entry_for_every_height(name):
    told, rig = contract(assessed(name)), ALL[name]()
    expected = [(rope, k) for rope in rig.ropes for k in range(len(rig.ropes[rope].path) - 1)]
    assert [(t["rope"], t["segment"]) for t in told["tensions"]] == expected
    assert [h["height_m"] for h in told["heights"]] == sorted(h["height_m"] for h in told["heights"])
    assert told["heights"][0]["height_m"] == 0
    last = told["heights"][-1]
    far = rig.limits.swing or rig.limits.travel
    assert last["angle_rad" if rig.swings else "height_m"] == pytest.approx(far.value)
    assert all([len(runs) for runs in h["ropes"].values()] == [len(rope.path) - 1 for rope in rig.ropes.values()] for h in told["heights"])


@pytest.mark.parametrize("name", ["askew", "kiln-shell", "boat-engine"])
def test_an_extreme_is_the_greatest_of_all_heights_and_stands_at_the_height_it_names(name):
    told = contract(assessed(name))
    for tension in told["tensions"]:
        for way in ("raising", "lowering"):
            along = {h["height_m"]: h["ropes"][tension["rope"]][tension["segment"]][f"{way}_n"] for h in told["heights"]}
            assert tension[f"{way}_n"] == max(along.values())
            assert along[tension[f"{way}_at_m"]] == pytest.approx(tension[f"{way}_n"], rel=1e-8)
        assert tension["holding_min_n"] <= tension["holding_max_n"]


def test_a_segment_is_counted_from_the_first_end_and_named_by_its_stops():
    first, *_, last = contract(assessed("loft-lift"))["tensions"]
    assert (first["segment"], first["from"], first["to"]) == (0, "platform (eye)", "head sheave")
    assert (last["from"], last["to"]) == ("lead sheave", "drum")


def test_where_a_rope_would_go_slack_no_pull_is_told():
    found = assessed("slack")
    assert found.solution.slack().all()
    told = contract(found)
    for tension in told["tensions"]:
        assert all(tension[key] is None for key in TENSION_KEYS - {"rope", "segment", "from", "to"})
    assert all(run == {"raising_n": None, "lowering_n": None} for h in told["heights"] for runs in h["ropes"].values() for run in runs)
    assert not found.all_hold


def test_ropes_that_share_a_load_tell_the_likely_share_beside_the_worst():
    shared = [t for t in contract(assessed("kiln-shell"))["tensions"] if "likely_raising_n" in t]
    assert {t["rope"] for t in shared} == {"left rope", "right rope"}
    assert all(0 < t["likely_raising_n"] < t["raising_n"] for t in shared)


def test_numbers_are_in_the_si_unit_that_stands_beside_them():
    told = contract(assessed("loft-lift"))
    groove = next(c for c in told["checks"] if ".groove." in c["id"])
    assert (groove["demand"], groove["capacity"], groove["unit"]) == (0.006, 0.0064, "m")
    wrap = next(line for line in told["working"] if line["sign"].startswith("β"))
    assert wrap["unit"] == "rad"
    assert 0 < wrap["value"] < 2 * math.pi


@pytest.mark.parametrize("name", ALL)
def test_a_factor_is_capacity_over_demand_and_decides_the_verdict(name):
    for check in contract(assessed(name))["checks"]:
        if check["factor"] is not None:
            assert check["factor"] == pytest.approx(check["capacity"] / check["demand"])
            if check["verdict"] == HOLDS:
                assert check["factor"] >= check["required"] * (1 - 1e-9)


def test_a_rated_load_without_bound_is_not_known():
    found = assessed("loft-lift")
    endless = replace(found, whole=replace(found.whole, rated_load_kg=None, rated_load_on_what_is_known_kg=math.inf))
    assert contract(endless)["rated_load_on_what_is_known_kg"] is None
    assert [known(float("nan")), known(float("-inf")), known(0.0)] == [None, None, 0.0]


@pytest.mark.parametrize(
    ("shown", "si"), [("mm", "m"), ("kN", "N"), ("N·m", "N·m"), ("°C", "K"), ("m/s²", "m/s²"), ("N/mm²", "Pa"), ("", "")]
)
def test_the_si_unit_of_a_shown_unit(shown, si):
    assert si_unit(shown) == si


def test_the_text_is_ascii_whatever_the_names():
    text = dumps(assessed("hostile"))
    assert text.isascii()
    assert json.loads(text) == contract(assessed("hostile"))


def test_falls_that_differ_and_have_no_likely_share_are_told_all_the_same():
    data = rigs.falls([-0.5, 0.5])
    data["ropes"]["fall 2"]["construction"] = "6x19 FC"
    found = contract(assess(rigs.rig(data)))
    assert [t["raising_n"] > 0 for t in found["tensions"]] == [True] * 4


def test_the_force_on_a_head_sheave_and_its_direction_are_told():
    told = contract(assess(rigcheck.example("loft-lift")))
    head = next(r for r in told["reactions"] if r["point"] == "hanger of head sheave")
    assert head["force_n"] == pytest.approx(math.hypot(head["across_n"], head["up_n"]), rel=1e-12)
    run = told["tensions"][0]
    assert head["up_n"] == pytest.approx(-run["raising_n"], rel=1e-12)  # one fall straight down, the other level to the lead sheave
    assert next(r for r in told["reactions"] if r["point"] == "winch")["moment_nm"] == pytest.approx(told["drum_torque_nm"], rel=0.2)


def test_forces_on_the_building_are_unknown_where_a_rope_goes_slack():
    told = contract(assessed("slack"))
    assert told["reactions"]
    assert all(reaction["force_n"] is None for reaction in told["reactions"])
