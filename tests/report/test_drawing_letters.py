"""Lettered dimensions and callouts for the sheet to measure by: true to the places they are between, inside the picture, clear of labels."""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree
from itertools import combinations

import numpy
import pytest

from rigcheck.report.drawing import Callout, Dimension, compose, draw
from rigcheck.rig.fields import coordinates
from tests.report.drawn_rigs import drawn, pulls_of, travel_of
from tests.report.test_drawing_labels import check, overlap

SVG = "{http://www.w3.org/2000/svg}"
MEASURED = [name for name in drawn() if "," not in name]


def lettered(name: str) -> tuple[list[Dimension], list[Callout]]:
    """What a sheet would ask for: heights, distances, diameters; the load and a rope."""
    travel = travel_of(name)
    rig = travel.rig
    load = travel.poses.reference(rig.load_name)[0]
    dimensions = []
    for letter, point in zip("BCDE", rig.points.values(), strict=False):
        place = coordinates(point.at)
        dimensions.append(Dimension(letter, (place[0], 0.0, 0.0), place))
    for letter, (sheave, stated) in zip("FG", rig.sheaves.items(), strict=False):
        centre, half = travel.poses.on(stated.on, coordinates(stated.offset))[0], stated.pitch_diameter.value / 2
        dimensions.append(Dimension(letter, (centre[0] - half, *centre[1:]), (centre[0] + half, *centre[1:])))
        assert sheave
    if rig.drive.kind == "winch":
        at = coordinates(rig.drive.drum.at)
        dimensions.append(Dimension("H", (load[0], 0.0, 0.0), (at[0], 0.0, 0.0)))
    first = next(iter(travel.paths.values()))
    return dimensions, [
        Callout("A", tuple(load + numpy.array([0.0, 0.1, 0.0]))),
        Callout("K", tuple((first.starts[0][0] + first.ends[0][0]) / 2)),
    ]


@pytest.mark.parametrize("width_px", [360, 640])
@pytest.mark.parametrize("name", MEASURED)
def test_letters_collide_with_no_label_and_stay_inside(name, width_px):
    dimensions, callouts = lettered(name)
    picture = compose(
        travel_of(name), width_px=width_px, theme="print", dimensions=dimensions, callouts=callouts, labels=pulls_of(travel_of(name))
    )
    check(picture)
    letters = [one.wish.lines[0] for one in picture.placed if one.wish.part == "letter"]
    assert sorted(letters) == sorted(each.letter for each in (*dimensions, *callouts))


def test_a_dimension_is_as_long_as_the_distance_it_names_and_square_to_what_carries_it_out():
    travel = travel_of("example loft-lift")
    dimensions, _ = lettered("example loft-lift")
    picture = compose(travel, width_px=640, dimensions=dimensions)
    root = ElementTree.fromstring(picture.text)
    for index, each in enumerate(dimensions):
        group = next(g for g in root.iter(f"{SVG}g") if g.get("id") == f"dimension:{each.letter}:{index}")
        line, *carriers = ([float(e.get(key)) for key in ("x1", "y1", "x2", "y2")] for e in group.findall(f"{SVG}line"))
        along = numpy.array(line[2:]) - line[:2]
        meant = picture.views[0].px(each.end) - picture.views[0].px(each.start)
        assert along == pytest.approx(meant, abs=0.03)
        if numpy.hypot(*meant) > 24:
            for x1, y1, x2, y2 in carriers:
                assert abs((x2 - x1) * along[0] + (y2 - y1) * along[1]) < 0.03 * numpy.hypot(*along)


def test_a_letter_stands_in_a_ring_and_is_told_in_words():
    callouts = [Callout("A", (0.0, 0.2, 0.0))]
    dimensions = [Dimension("B", (0.0, 0.0, 0.0), (0.0, 2.0, 0.0))]
    root = ElementTree.fromstring(draw(travel_of("example loft-lift"), dimensions=dimensions, callouts=callouts))
    rings = [c for c in root.iter(f"{SVG}circle") if c.get("class") == "rig-ring"]
    assert len(rings) == 2
    words = root.find(f"{SVG}desc").text
    assert "Letter A: at 0 m across, 0.2 m up." in words
    assert "Letter B: from 0 m across, 0 m up to 0 m across, 2 m up." in words


def test_letters_of_places_that_coincide_do_not_hide_one_another():
    same = [Dimension(letter, (0.0, 0.0, 0.0), (0.0, 2.0, 0.0)) for letter in "BCD"] + [Dimension("E", (0.0, 1.0, 0.0), (0.0, 1.0, 0.0))]
    picture = compose(travel_of("example loft-lift"), width_px=480, dimensions=same, callouts=[Callout("A", (0.0, 1.0, 0.0))] * 2)
    check(picture)
    own = [one.box for one in picture.placed if one.wish.part == "letter"]
    assert len(own) == 6
    assert all(not overlap(one, two) for one, two in combinations(own, 2))
    ids = [element.get("id") for element in ElementTree.fromstring(picture.text).iter() if element.get("id")]
    assert len(ids) == len(set(ids))
