"""The small drawing: no words, quick and short, no ids, nothing outside of it, the same rig as the large one."""

from __future__ import annotations

import re
import time
import xml.etree.ElementTree as ElementTree

import numpy
import pytest

from rigcheck.report.drawing import thumbnail
from rigcheck.rig.fields import coordinates
from tests.report.drawn_rigs import HOSTILE, drawn, travel_of

SVG = "{http://www.w3.org/2000/svg}"


@pytest.mark.parametrize("name", drawn())
def test_it_is_short_has_a_title_and_no_words_or_ids(name):
    text = thumbnail(travel_of(name))
    root = ElementTree.fromstring(text)
    assert len(text.encode()) < 6 * 1024
    assert root.find(f"{SVG}title").text == drawn()[name].name
    assert {e.tag for e in root.iter()} <= {f"{SVG}{tag}" for tag in ("svg", "title", "g", "path", "polygon", "circle")}
    assert not [e for e in root.iter() if e.get("id")]
    assert not re.search(r"#[0-9a-f]{3}", text)


@pytest.mark.parametrize("size", [(160, 110), (96, 140)])
@pytest.mark.parametrize("name", drawn())
def test_no_mark_leaves_it(name, size):
    root = ElementTree.fromstring(thumbnail(travel_of(name), *size))
    assert root.get("viewBox") == f"0 0 {size[0]} {size[1]}"
    places = []
    for element in root.iter():
        if element.tag == f"{SVG}circle":
            x, y, r = (float(element.get(key)) for key in ("cx", "cy", "r"))
            places += [(x - r, y - r), (x + r, y + r)]
        numbers = re.findall(r"-?[0-9.]+", element.get("d") or element.get("points") or "")
        places += list(zip(map(float, numbers[::2]), map(float, numbers[1::2]), strict=True))
    places = numpy.array(places)
    assert (places >= 0).all()
    assert (places <= size).all()


def test_it_is_true_to_scale():
    travel = travel_of("example loft-lift")
    circles = [(float(c.get("cx")), float(c.get("cy"))) for c in ElementTree.fromstring(thumbnail(travel)).iter(f"{SVG}circle")]
    rig = travel.rig
    own = [travel.poses.on(s.on, coordinates(s.offset))[0] for s in rig.sheaves.values()] + [numpy.array(coordinates(rig.drive.drum.at))]
    apart_m = numpy.hypot(*(own[0] - own[2])[:2]), numpy.hypot(*(own[1] - own[2])[:2])
    # sheaves are drawn before the drum
    apart_px = [numpy.hypot(*numpy.subtract(circles[k], circles[2])) for k in (0, 1)]
    assert apart_px[0] / apart_px[1] == pytest.approx(apart_m[0] / apart_m[1], rel=0.02)


def test_steel_and_fibre_load_and_counterweight_are_told_apart_without_colour():
    assert "stroke-dasharray" in thumbnail(travel_of("example boat-engine"))
    assert "stroke-dasharray" not in thumbnail(travel_of("example loft-lift"))
    assert 'fill-opacity="0.6"' in thumbnail(travel_of("example kiln-shell"))
    assert 'fill-opacity="0.6"' not in thumbnail(travel_of("example loft-lift"))


def test_a_hostile_name_stays_text_and_the_same_rig_gives_the_same_bytes():
    travel = travel_of("oddly named")
    assert ElementTree.fromstring(thumbnail(travel)).find(f"{SVG}title").text == HOSTILE
    assert thumbnail(travel) == thumbnail(travel)


def test_it_takes_a_few_milliseconds():
    travel = travel_of("tackle-counterweight")
    spent = []
    for _ in range(15):
        start = time.process_time()
        thumbnail(travel)
        spent.append(time.process_time() - start)
    # 2 ms where it was written; the bound leaves room for a slower machine
    assert min(spent) < 0.012
