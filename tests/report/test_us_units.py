"""Reports in US units: figures against hand conversions, axes of charts, the PDF, and JSON that stays in SI."""

from __future__ import annotations

import io
import json
import re
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from functools import cache

import pypdf
import pytest

from rigcheck import units
from rigcheck.checks.assessment import Assessment, assess
from rigcheck.parts.conductor import conductor_areas
from rigcheck.parts.wire_rope import wire_rope_diameters
from rigcheck.report import as_json, as_text, contents
from rigcheck.report.charts import charts
from rigcheck.report.inputs import groups
from rigcheck.report.pdf import pdf, report_data
from rigcheck.report.pulls import runs_of
from rigcheck.rig import files
from tests.report.report_rigs import ALL, assessed

INCH, POUND, GRAVITY = Decimal("0.0254"), Decimal("0.45359237"), Decimal("9.80665")
FOOT, POUND_FORCE = 12 * INCH, POUND * GRAVITY
FACTORS = {
    "mm": ("in", INCH), "m": ("ft", FOOT), "kg": ("lb", POUND), "N": ("lbf", POUND_FORCE), "N·m": ("lbf·ft", POUND_FORCE * FOOT), "m/s²": ("ft/s²", FOOT),
}  # fmt: skip
THREE = ["loft-lift", "studio-counterweight", "well-crank"]
METRIC_QUANTITY = re.compile(
    r"([0-9][0-9.,]*)\s?(kN|N·m|N/mm²|N|kg/m|kg|mm²|mm|m/s²|m/min|m/s|m|°C|ohm/km|newtons?|met(?:re|er)s?)(?![\w·/²])"
)


@cache
def assessed_in_us(name: str) -> Assessment:
    with units.shown_in(units.US):
        return assess(ALL[name]())


@pytest.fixture
def in_us():
    with units.shown_in(units.US):
        yield


def by_hand(value_si: float, unit: str, towards: str) -> str:
    """Four digits in US units, by division and rounding alone."""
    us, factor = FACTORS[unit]
    exact = Decimal(f"{Decimal(value_si) / factor:.11e}")
    if not exact:
        return f"0 {us}"
    rounded = exact.quantize(Decimal((0, (1,), exact.adjusted() - 3)), ROUND_CEILING if towards == "up" else ROUND_FLOOR)
    text = f"{rounded:f}"
    return f"{text.rstrip('0').rstrip('.') if '.' in text else text} {us}"


@pytest.mark.parametrize("name", THREE)
def test_every_check_is_shown_as_converted_by_hand(name, in_us):
    compared = 0
    for check in assessed_in_us(name).checks:
        told = contents.shown(check)
        if check.unit in FACTORS and check.demand and check.capacity:
            assert told.demand == by_hand(check.demand.number, check.unit, "up"), check.id
            assert told.capacity == by_hand(check.capacity.number, check.unit, "down"), check.id
            compared += 1
    assert compared > 10


@pytest.mark.parametrize(
    ("name", "id", "demand", "capacity"),
    [
        # 200 kg hang on the end: 200 / 0.45359237 = 440.92; a sheave marked 8 kN: 8000 / 4.4482216 = 1798.47
        ("loft-lift", "rope.hoist rope.first-end", "441 lbf", "4064 lbf"),
        ("loft-lift", "sheave.head sheave.pin.hoist rope", "636.2 lbf", "1798 lbf"),
        # a rope of 6 mm is 0.23622 in and a groove of 6.4 mm 0.25197 in; a flange 1.5 · 6 mm is 0.35433 in
        ("loft-lift", "sheave.head sheave.groove.hoist rope", "0.2363 in", "0.2519 in"),
        ("loft-lift", "drum.hoist rope.flange", "0.3544 in", "0.6496 in"),
        # 50 N left over: 11.2404; a pawl for 500 N·m: 500 / 1.3558179 = 368.78
        ("loft-lift", "taut.hoist", "11.25 lbf", "407.6 lbf"),
        ("loft-lift", "holding.guard", "102.5 lbf·ft", "368.7 lbf·ft"),
        # 0.4 m/s² is 1.31234 ft/s²; a counterweight of 65 kg weighs 143.300 lbf
        ("studio-counterweight", "counterweight.stopping", "1.313 ft/s²", "3.953 ft/s²"),
        ("studio-counterweight", "rope.counterweight rope.last-end", "143.4 lbf", "2877 lbf"),
        # 40 kg: 88.1849 lbf; a hand's 150 N: 33.7213 lbf; a brake of 80 N·m: 59.0050 lbf·ft
        ("well-crank", "rope.hoist rope.first-end", "88.19 lbf", "2877 lbf"),
        ("well-crank", "crank.effort", "15.8 lbf", "33.72 lbf"),
        ("well-crank", "holding.brake", "18.14 lbf·ft", "59 lbf·ft"),
    ],
)
def test_known_figures_in_us_units(name, id, demand, capacity, in_us):
    told = contents.shown(next(check for check in assessed_in_us(name).checks if check.id == id))
    assert (told.demand, told.capacity) == (demand, capacity)


@pytest.mark.parametrize("name", THREE)
def test_verdicts_factors_and_loads_do_not_depend_on_the_units(name):
    metric, us = assessed(name), assessed_in_us(name)
    assert [(c.id, c.verdict, c.factor_value, c.required) for c in us.checks] == [
        (c.id, c.verdict, c.factor_value, c.required) for c in metric.checks
    ]
    assert us.whole == metric.whole


def test_rated_load_is_rounded_down_and_least_load_up_in_both_systems():
    found = assessed("studio-counterweight")
    rated, least = Decimal(found.whole.rated_load_kg), Decimal(found.whole.least_load_kg)
    for system, unit, kilograms in ((units.METRIC, "kg", 1), (units.US, "lb", POUND)):
        with units.shown_in(system):
            lines = dict(contents.rated_load(found))
        shown_rated, shown_least = (Decimal(re.match(rf"([0-9.]+) {unit},", lines[key])[1]) for key in ("Rated load", "Least load"))
        assert 0 <= rated / kilograms - shown_rated < Decimal("0.1")
        assert 0 <= shown_least / 1 - least / kilograms < Decimal("0.1")
        assert lines["Load entered"] == ("90 kg ± 3 kg" if system == units.METRIC else "90 kg ± 3 kg = 198.4 lb ± 6.61 lb")


def test_a_load_of_nothing_has_the_unit_shown(in_us):
    lines = dict(contents.rated_load(assessed_in_us("tired-hoist")))
    assert lines["Rated load"].startswith("0 lb: whatever the load")


def test_the_velocity_ratio_is_told_per_foot_in_us_units(in_us):
    assert "per foot of rise" in dict(contents.figures(assessed_in_us("loft-lift")))["Velocity ratio"]


def test_labels_of_the_drawing_stand_in_pounds_rounded_up(in_us):
    found = assessed_in_us("loft-lift")
    # 200 kg hang on run 1: 440.92 lbf, up and down alike
    assert contents.labels(runs_of(found.solution), 0)["hoist rope", 0] == "441 / 441 lbf"


def words_and_places(svg: str) -> list[tuple[str, float, float]]:
    return [(m[3], float(m[1]), float(m[2])) for m in re.finditer(r'<text x="([-0-9.]+)" y="([-0-9.]+)"[^>]*>([^<]*)</text>', svg)]


@pytest.mark.parametrize(("system", "pull_unit", "height_unit"), [(units.METRIC, "N", "m"), (units.US, "lbf", "ft")])
def test_a_chart_has_round_numbers_and_its_curve_in_the_units_shown(system, pull_unit, height_unit):
    found = assessed("askew")
    runs, heights = runs_of(found.solution), found.solution.travel.heights_m.tolist()
    with units.shown_in(system):
        svg = str(charts(runs, found.solution.travel.stations)[0].text)
    words = words_and_places(svg)
    assert f"pull, {pull_unit}" in [word for word, *_ in words]
    assert f"height of the load above its lowest place, {height_unit}" in [word for word, *_ in words]
    up = sorted((float(word), y - 4) for word, x, y in words if word.replace(".", "").isdigit() and x < 62)
    across = sorted((float(word), x) for word, x, y in words if word.replace(".", "").isdigit() and x >= 62)
    assert len(up) >= 3
    assert len(across) >= 3
    points = [tuple(map(float, point.split(","))) for point in re.search(r'<polyline points="([^"]+)"', svg)[1].split()]
    run = next(run for run in runs if run.at_drive)
    for (x, y), height_m, pull_n in zip(points, heights, run.raising_along_n, strict=True):
        pull = up[0][0] + (up[-1][0] - up[0][0]) * (y - up[0][1]) / (up[-1][1] - up[0][1])
        height = across[0][0] + (across[-1][0] - across[0][0]) * (x - across[0][1]) / (across[-1][1] - across[0][1])
        assert units.from_unit(pull, pull_unit) == pytest.approx(pull_n, rel=2e-3)
        assert units.from_unit(height, height_unit) == pytest.approx(height_m, abs=0.02)


def metric_quantities(text: str) -> set[tuple[str, str]]:
    return {(number, unit) for number, unit in METRIC_QUANTITY.findall(text)}


def as_typed_or_printed(found: Assessment) -> str:
    """All texts that are never converted: what was typed or left at its default, what sources print, and the sizes cables are sold by."""
    lines = found.solution.working.lines
    typed = [files.dumps(found.rig), *(field.value for group in groups(found.rig) for field in group.fields)]
    cables = [f"{units.number(units.to_unit(area_m2, 'mm²'))} mm²" for kind in ("1/2", "5") for area_m2 in conductor_areas(kind)]
    ropes = [f"{units.number(units.to_unit(size_m, 'mm'))} mm" for size_m in wire_rope_diameters()]
    return " ".join([*typed, *cables, *ropes, *(f"{line.source} {line.how}" for line in lines), *(check.source for check in found.checks)])


@pytest.mark.parametrize("name", [*THREE, "kiln-shell", "tired-hoist", "found-winch"])
def test_a_pdf_in_us_units_holds_no_metric_quantity_but_those_typed_or_printed_in_a_source(name, in_us):
    found = assessed_in_us(name)
    told = "\n".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pdf(found))).pages)
    assert told.count("lbf") > 20
    assert " lb" in told
    assert " in" in told
    assert metric_quantities(told) <= metric_quantities(as_typed_or_printed(found))


def test_a_pdf_is_in_the_units_that_are_on_when_it_is_made():
    found = assessed("loft-lift")
    metric = pdf(found)
    with units.shown_in(units.US):
        us = pdf(found)
    assert us != metric
    assert pdf(found) == metric


@pytest.mark.parametrize("name", ["loft-lift", "kiln-shell"])
def test_inputs_stand_in_a_report_as_they_were_typed(name, in_us):
    data = report_data(assessed_in_us(name))
    with units.shown_in(units.METRIC):
        typed = [[[f.name, f.value, f.note] for f in group.fields] for group in groups(ALL[name]())]
    shown = [[[name, value.partition(" = ")[0], note] for name, value, note in group["fields"]] for group in data["inputs"]]
    if name == "loft-lift":  # of the other, places that are told one after the other have their US values between them
        assert shown == typed
    beside = [
        value
        for group in data["inputs"]
        for name, value, _ in group["fields"]
        if name != "fixing" and re.search(r"[0-9] (mm|m|kg|kN|N)(?![\w·/²])", value)
    ]
    assert beside
    assert all(" = " in value and re.search(r"[0-9] (in|ft|lbf?)\b", value) for value in beside)
    assert any(value.endswith("mm") for group in typed for _, value, _ in group)


@pytest.mark.parametrize("name", [*THREE, "slack", "askew"])
def test_json_is_the_same_whatever_is_shown(name):
    metric = as_json.dumps(assessed(name))
    with units.shown_in(units.US):
        assert as_json.dumps(assessed(name)) == metric
        assert units.system() == units.US
    assert "lbf" not in json.dumps(json.loads(metric), ensure_ascii=False)


def test_text_in_us_units_keeps_its_width(in_us):
    told = as_text.text(assessed_in_us("kiln-shell"))
    assert "lbf" in told
    assert max(map(len, told.split("\n"))) <= as_text.WIDTH
