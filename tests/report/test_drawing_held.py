"""What can be taken hold of on a page: every movable part of the front view at its own place, every rope along its runs, all by keyboard too."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree

import numpy
import pytest

from rigcheck import units
from rigcheck.report.drawing import draw, thumbnail
from rigcheck.rig.fields import coordinates
from rigcheck.statics.layout import driven_end
from tests.report.drawn_rigs import drawn, travel_of

SVG = "{http://www.w3.org/2000/svg}"
MOVABLE = ("point", "sheave", "body", "drum", "hand")
TYPICAL = ["example kiln-shell", "example boat-engine", "tackle-counterweight", "in depth", "up a slope", "oddly named"]


def root_of(name: str, **options) -> ElementTree.Element:
    return ElementTree.fromstring(draw(travel_of(name), **options))


def held(root: ElementTree.Element) -> dict[tuple[str, str], ElementTree.Element]:
    """The groups that can be reached, by kind and name."""
    found = [g for g in root.iter(f"{SVG}g") if g.get("tabindex") is not None]
    assert len({(g.get("data-part"), g.get("data-name")) for g in found}) == len(found)
    return {(g.get("data-part"), g.get("data-name")): g for g in found}


def places_of(name: str, at: int) -> dict[tuple[str, str], numpy.ndarray]:
    """Where every movable part is, (3,), told from the travel."""
    travel = travel_of(name)
    rig = travel.rig
    found = {("point", n): numpy.array(coordinates(p.at)) for n, p in rig.points.items()}
    found |= {("sheave", n): travel.poses.on(s.on, coordinates(s.offset))[at] for n, s in rig.sheaves.items()}
    found |= {("body", n): travel.poses.reference(n)[at] for n in rig.bodies}
    if rig.drive.kind == "winch":
        found["drum", "drum"] = numpy.array(coordinates(rig.drive.drum.at))
    else:
        for n, path in travel.paths.items():
            if (end := driven_end(rig, n)) is not None:
                found["hand", n] = path.starts[0][at] if end == 0 else path.ends[-1][at]
    return found


@pytest.mark.parametrize("at", [0, 60])
@pytest.mark.parametrize("name", TYPICAL)
def test_every_movable_part_has_one_round_grip_where_the_told_scale_puts_its_place(name, at):
    root = root_of(name, at=at, width_px=680)
    scale, left, level = (float(root.get(key)) for key in ("data-scale", "data-left", "data-level"))
    groups, places = held(root), places_of(name, at)
    assert {key for key in groups if key[0] != "rope"} == set(places)
    for key, place in places.items():
        grips = [c for c in groups[key].findall(f"{SVG}circle") if c.get("class") == "rig-grip"]
        assert len(grips) == 1
        assert 2 * float(grips[0].get("r")) >= 24
        x, y = float(grips[0].get("cx")), float(grips[0].get("cy"))
        assert ((x - left) / scale, (level - y) / scale) == pytest.approx(tuple(place[:2]), abs=0.02 / scale)


@pytest.mark.parametrize("name", TYPICAL)
def test_ropes_are_pressed_along_their_runs_but_not_where_they_meet_a_grip(name):
    groups = held(root_of(name))
    assert {key[1] for key in groups if key[0] == "rope"} == set(drawn()[name].ropes)
    for key, group in groups.items():
        hits = [p for p in group.findall(f"{SVG}path") if p.get("class") == "rig-hit"]
        assert len(hits) == (key[0] == "rope")
        if hits:
            assert hits[0].get("d").count("M") == len(travel_of(name).paths[key[1]].directions)


def test_the_pressed_part_of_a_long_run_ends_a_grip_short_of_its_sheaves():
    root = root_of("example loft-lift")
    groups = held(root)
    hit = next(p for p in groups["rope", "hoist rope"].findall(f"{SVG}path") if p.get("class") == "rig-hit")
    ends = numpy.array([[float(v) for v in re.split("[ L]", run)] for run in hit.get("d").split("M")[1:]]).reshape(-1, 2)
    for name in ("head sheave", "lead sheave"):
        rim = groups["sheave", name].find(f"{SVG}circle")
        centre, radius = numpy.array([float(rim.get("cx")), float(rim.get("cy"))]), float(rim.get("r"))
        assert numpy.hypot(*(ends - centre).T).min() >= min(13.0, radius)


@pytest.mark.parametrize("name", TYPICAL)
def test_each_is_a_button_in_the_order_of_tabs_that_says_what_and_where_it_is(name):
    for (part, own), group in held(root_of(name)).items():
        words = group.get("aria-label")
        assert (group.get("tabindex"), group.get("role")) == ("0", "button")
        assert part == "drum" or own in words
        assert part == "rope" or re.search(r"[0-9] m up", words)


def test_the_places_in_the_names_follow_the_system_of_units():
    name = held(root_of("example loft-lift"))["sheave", "head sheave"].get("aria-label")
    assert name.startswith("sheave head sheave, ")
    with units.shown_in("us"):
        us = held(root_of("example loft-lift"))["sheave", "head sheave"].get("aria-label")
    assert us != name
    assert " ft up" in us or " in up" in us


def test_nothing_is_held_in_print_in_a_small_drawing_or_in_another_view_than_the_front_one():
    travel = travel_of("in depth")
    for text in (draw(travel, theme="print"), thumbnail(travel)):
        assert "tabindex" not in text
        assert "rig-grip" not in text
        assert "data-scale" not in text
    beside = [g for g in root_of("in depth").iter(f"{SVG}g") if (g.get("id") or "").startswith(("side:", "plan:"))]
    assert beside
    assert not [g for g in beside if g.get("tabindex")]


def test_a_drawing_with_buttons_is_not_called_one_image():
    assert root_of("example loft-lift").get("role") == "group"
    assert root_of("example loft-lift", theme="print").get("role") == "img"


def test_labels_and_what_is_drawn_over_a_grip_let_the_pointer_through():
    sheet = root_of("example loft-lift").find(f"{SVG}style").text
    through = re.search(r"^(.*)\{pointer-events:none\}", sheet, re.M).group(1).split(",")
    assert {".rig-labels", ".rig-rope", ".rig-ghost", ".rig-tick", ".rig-solid"} <= set(through)
