"""The drawing follows the units that are shown: what was typed is converted on it and in its words, and stays as it is in the rig file."""

from __future__ import annotations

import json
import re

import pytest

from rigcheck.report.drawing import draw
from rigcheck.rig import files
from rigcheck.rig.examples import example, names
from rigcheck.rig.model import Rig
from rigcheck.statics.travel import follow, heights
from rigcheck.units import METRIC, US, shown_in

QUANTITY = {METRIC: re.compile(r"[0-9] ?(?:mm|cm|m|kg|t|kN|N)(?![\w²·/])"), US: re.compile(r"[0-9] ?(?:in|ft|lb|lbf)(?![\w²·/])")}


def drawn(rig: Rig, system: str) -> str:
    """The drawing as text, without what was written about the fixing of a point, which is nobody's to convert."""
    with shown_in(system):
        return re.sub(r", fixing: \u2068.*?\u2069", "", draw(follow(rig, heights(rig, 2)), width_px=720), flags=re.DOTALL)


def written(svg: str) -> list[str]:
    return re.findall(r"<text[^>]*>([^<]*)</text>", svg)


def with_load(mass: str, travel: str) -> Rig:
    data = json.loads(files.dumps(example("loft-lift")))
    data["bodies"]["platform"]["mass"], data["limits"]["travel"] = mass, travel
    return Rig.model_validate(data)


@pytest.mark.parametrize("name", names())
@pytest.mark.parametrize(("system", "other"), [(METRIC, US), (US, METRIC)])
def test_a_drawing_holds_quantities_of_the_system_shown_alone(name, system, other):
    svg = drawn(example(name), system)
    assert QUANTITY[system].search(svg)
    assert not QUANTITY[other].search(svg)


@pytest.mark.parametrize(
    ("mass", "travel", "metric", "us"),
    [
        ("200 kg ± 5 kg", "3.2 m", ("200 kg ± 5 kg", "travel 3.2 m"), ("440.9 lb ± 11 lb", "travel 10.5 ft")),
        ("441 lb", "10 ft 6 in", ("200 kg", "travel 3.2 m"), ("441 lb", "travel 10 ft 6 in")),
    ],
)
def test_the_mass_and_the_travel_are_written_as_typed_or_converted(mass, travel, metric, us):
    rig = with_load(mass, travel)
    for system, (told_mass, told_travel) in ((METRIC, metric), (US, us)):
        svg = drawn(rig, system)
        assert {told_mass, told_travel} <= set(written(svg))
        assert f"it {told_travel.replace('travel', 'travels')}." in svg


def test_the_rig_file_is_the_same_whatever_is_shown():
    rig = example("loft-lift")
    metric = files.dumps(rig)
    with shown_in(US):
        assert files.dumps(rig) == metric
        assert files.dumps(files.loads(metric.encode(), "loft lift")) == metric
    assert '"3.2 m"' in metric
