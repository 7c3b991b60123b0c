"""Labels never cover one another and never leave the picture, on every rig we have and in pictures far too small for them."""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree
from itertools import combinations, pairwise

import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rigcheck.report.crowding import THICK as THICK_FROM
from rigcheck.report.crowding import InkMap, boxes_overlap, points_in_boxes
from rigcheck.report.drawing import compose
from rigcheck.report.labels import Box, Wish, around, text_width
from rigcheck.report.outlines import rope_line
from rigcheck.report.placement import Sheet
from rigcheck.rig.arrangements import ARRANGEMENTS
from tests.report.drawn_rigs import both_pulls_of, drawn, picture_of, pulls_of, station, travel_of

boxes = st.builds(
    Box, st.floats(0, 100), st.floats(0, 100), st.floats(1, 60), st.floats(1, 30), st.sampled_from([0.0, 90.0, -90.0, 30.0, -57.3])
)


def separated(one: Box, two: Box) -> bool:
    """Whether some line parts two rectangles: told from their corners alone, along many directions."""
    if not (one.angle_deg or two.angle_deg):
        a, b = one.corners, two.corners
        return bool(((a.max(axis=0) <= b.min(axis=0) + 1e-9) | (b.max(axis=0) <= a.min(axis=0) + 1e-9)).any())
    own = [one.angle_deg, one.angle_deg + 90, two.angle_deg, two.angle_deg + 90]
    turns = numpy.radians(numpy.concatenate([numpy.arange(0, 180, 0.5), own]))
    directions = numpy.stack([numpy.cos(turns), numpy.sin(turns)])
    a, b = one.corners @ directions, two.corners @ directions
    return bool(((a.max(axis=0) <= b.min(axis=0) + 1e-9) | (b.max(axis=0) <= a.min(axis=0) + 1e-9)).any())


def check(picture) -> None:
    for one, two in combinations(picture.placed, 2):
        assert separated(one.box, two.box), (one.wish.lines, two.wish.lines)
    for one in picture.placed:
        assert one.box.corners.min() >= 0
        assert one.box.corners[:, 0].max() <= picture.width
        assert one.box.corners[:, 1].max() <= picture.height


@pytest.mark.parametrize("name", drawn())
def test_no_two_labels_overlap_and_all_are_inside(name):
    travel = travel_of(name)
    picture = picture_of(name)
    check(picture)
    assert {one.wish.name for one in picture.placed if one.wish.part == "run"} == {f"{rope}:{k}" for rope, k in pulls_of(travel)}


@pytest.mark.parametrize("at", [25, 50, 100])
@pytest.mark.parametrize("name", [name for name in drawn() if name.startswith("example")])
def test_nor_at_other_heights(name, at):
    travel = travel_of(name)
    check(compose(travel, at=station(travel, at), labels=pulls_of(travel), ticks=dict.fromkeys(travel.rig.ropes, 5), ghost=0))


BEGINNINGS = [name for name in drawn() if name.startswith("example") or name in ARRANGEMENTS]
THICK = {"rig-line", "rig-body", "rig-guess", "rig-sheave", "rig-strap", "rig-tick"}


@pytest.mark.parametrize("unit", ["N", "lbf"])
@pytest.mark.parametrize("width_px", [360, 520, 680, 820, 900])
@pytest.mark.parametrize("name", BEGINNINGS)
def test_no_label_overlaps_another_or_stands_on_a_line_without_paper_under_it(name, width_px, unit):
    travel = travel_of(name)
    labels = both_pulls_of(travel, unit)
    times = {rope: k for k, rope in enumerate(travel.rig.ropes)}
    for at in (station(travel, percent) for percent in (0, 37, 100)):
        picture = compose(travel, at=at, labels=labels, ticks=times, ghost=0 if at else -1, width_px=width_px)
        check(picture)
        assert {one.wish.name for one in picture.placed if one.wish.part == "run"} == {f"{rope}:{k}" for rope, k in labels}
        ink = thick_ink(picture, travel, at)
        bare = [one for one in picture.placed if not one.papered]
        assert [one.wish.lines for one in bare if stands_on(one, ink)] == []
        # paper hides what is drawn; in a picture of the usual size it is kept to a label or two that would else be far away
        assert len([one for one in picture.placed if one.papered and not one.on_line]) <= {360: 12, 520: 5}.get(width_px, 2)


def thick_ink(picture, travel, at: int) -> numpy.ndarray:
    """Places on every line that is not thin, told from the finished drawing, and from the travel for the ropes, (n, 2)."""
    root = ElementTree.fromstring(picture.text)
    body = next(g for g in root if g.get("class") == "rig-marks")
    found = [dense(picture.views[0].px(rope_line(path, at))) for path in travel.paths.values()]
    for element in body.iter():
        if element.get("class") not in THICK:
            continue
        value = {key: float(element.get(key)) for key in ("x1", "y1", "x2", "y2", "cx", "cy", "r") if element.get(key)}
        if element.tag.endswith("line"):
            found.append(dense(numpy.array([(value["x1"], value["y1"]), (value["x2"], value["y2"])])))
        elif element.tag.endswith("circle"):
            turn = numpy.linspace(0, 2 * numpy.pi, 90)
            found.append(value["r"] * numpy.stack([numpy.cos(turn), numpy.sin(turn)], axis=1) + (value["cx"], value["cy"]))
        elif element.tag.endswith("polygon"):
            corners = numpy.array([tuple(map(float, pair.split(","))) for pair in element.get("points").split()])
            found.append(dense(numpy.concatenate([corners, corners[:1]])))
    return numpy.concatenate(found)


def dense(places: numpy.ndarray) -> numpy.ndarray:
    steps = [start + (end - start) * numpy.linspace(0, 1, int(numpy.hypot(*(end - start))) + 2)[:, None] for start, end in pairwise(places)]
    return numpy.concatenate(steps)


def stands_on(one, ink: numpy.ndarray) -> bool:
    """Whether a line runs through the letters: the box less the air round them."""
    box = one.box
    letters = Box(box.x, box.y, box.width - 6, box.height - 4, box.angle_deg)
    return bool(letters.holds(ink).any())


@pytest.mark.parametrize("width_px", [320, 480, 1600])
@pytest.mark.parametrize("name", ["example kiln-shell", "tackle-counterweight", "in depth", "oddly named"])
def test_nor_in_small_or_large_pictures_with_long_texts(name, width_px):
    travel = travel_of(name)
    labels = {run: f"raising {text}, lowering 981.25 N" for run, text in pulls_of(travel).items()}
    check(compose(travel, labels=labels, ticks=dict.fromkeys(travel.rig.ropes, 12), ghost=-1, width_px=width_px))


def test_texts_of_a_label_stay_within_its_box():
    for one in compose(travel_of("example kiln-shell"), labels=pulls_of(travel_of("example kiln-shell"))).placed:
        for line in one.wish.lines:
            assert text_width(line, one.wish.size_px, bold=one.wish.bold) <= one.box.width


@given(boxes, boxes)
def test_boxes_overlap_exactly_when_no_line_parts_them(one, two):
    # the directions of separated() are half a degree apart, so only boxes that touch by a hair may be told differently
    if overlap(one, two, -0.2):
        assert not separated(one, two)
    if not overlap(one, two, 0.2):
        assert separated(one, two)


@given(st.lists(boxes, min_size=1, max_size=4), st.lists(boxes, min_size=1, max_size=4))
def test_many_boxes_are_weighed_at_once_as_they_are_one_by_one(ones, others):
    together = boxes_overlap(rows(ones), rows(others), 2.0)
    assert together.tolist() == [any(overlap(one, two, 2.0) for two in others) for one in ones]


@given(boxes, st.lists(st.tuples(st.floats(0, 100), st.floats(0, 100)), min_size=1, max_size=8))
def test_places_in_many_boxes_are_those_in_each(box, places):
    places = numpy.array(places)
    assert (points_in_boxes(places, rows([box]), 1.0)[:, 0] == box.holds(places, 1.0)).mean() == 1.0


@given(st.lists(st.tuples(st.floats(1, 99), st.floats(1, 79), st.sampled_from([0.2, 0.75, 1.0, 2.0])), min_size=1, max_size=30), boxes)
def test_the_ink_under_a_box_is_told_to_a_cell_and_thick_lines_are_told_apart(ink, box):
    ink = numpy.array(ink)
    crowd = InkMap(100.0, 80.0, ink[:, :2], ink[:, 2])
    half = numpy.array([[box.width / 2, box.height / 2]])
    weight, thick = crowd.weight_in(numpy.array([[box.x, box.y]]), half[0])
    away = numpy.abs(ink[:, :2] - (box.x, box.y))
    surely, perhaps = (away < half - 1.6).all(axis=1), (away < half + 1.6).all(axis=1)
    assert ink[surely, 2].sum() - 1e-6 <= weight[0] <= ink[perhaps, 2].sum() + 1e-6
    assert (ink[surely, 2] >= THICK_FROM).sum() <= thick[0] <= (ink[perhaps, 2] >= THICK_FROM).sum()


def rows(many: list[Box]) -> numpy.ndarray:
    return numpy.array([(box.x, box.y, box.width / 2, box.height / 2, box.angle_deg) for box in many])


def overlap(one: Box, two: Box, gap: float = 0.0) -> bool:
    return bool(boxes_overlap(rows([one]), rows([two]), gap)[0])


@given(boxes)
def test_a_box_holds_its_middle_and_no_place_beyond_its_corners(box):
    middle = numpy.array([[box.x, box.y]])
    assert box.holds(middle).all()
    assert not box.holds(middle + 1.01 * (box.corners - middle)).any()


def test_where_nothing_is_free_the_picture_grows():
    sheet = Sheet(120.0, 40.0, numpy.empty((0, 2)), numpy.empty(0))
    wish = Wish("sheave", "a", ("a name of some length",), (60.0, 20.0))
    wish = Wish("sheave", "a", wish.lines, wish.target, spots=tuple(around(wish.width, wish.height, wish.target, 4.0)))
    for _ in range(12):
        sheet.set(wish)
    assert sheet.height > 40.0
    assert all(not overlap(one, two) for one, two in combinations(sheet.taken, 2))
    assert all(box.corners[:, 1].max() <= sheet.height for box in sheet.taken)
    assert all(box.corners.min() >= 0 for box in sheet.taken)


def test_texts_of_any_signs_are_cut_to_what_the_smallest_picture_holds():
    travel = travel_of("example loft-lift")
    labels = {("hoist rope", 0): "W" * 90, ("hoist rope", 1): "\u8377" * 90, ("hoist rope", 2): ""}
    picture = compose(travel, labels=labels, width_px=320)
    check(picture)
    assert {one.wish.name for one in picture.placed if one.wish.part == "run"} == {"hoist rope:0", "hoist rope:1"}


def test_a_label_keeps_off_the_lines_where_there_is_room():
    line = numpy.stack([numpy.full(60, 112.0), numpy.arange(0, 180, 3.0)], axis=1)
    sheet = Sheet(300.0, 180.0, line, numpy.full(len(line), 2.0))
    wish = Wish("sheave", "a", ("head sheave",), (98.0, 90.0))
    placed = sheet.set(Wish("sheave", "a", wish.lines, wish.target, 4.0, spots=tuple(around(wish.width, wish.height, wish.target, 4.0))))
    assert not placed.box.holds(line).any()
    assert placed.box.x < 98.0


def test_in_a_narrow_picture_a_label_rather_covers_thin_lines_than_stands_far_from_what_it_names():
    x, y = numpy.meshgrid(numpy.arange(90.0, 271.0, 16.0), numpy.arange(90.0, 271.0, 16.0))
    ink = numpy.stack([x.ravel(), y.ravel()], axis=1)
    wish = Wish("sheave", "head", ("head sheave",), (180.0, 180.0), reach=6.0)
    narrow, wide = (Sheet(width, 360.0, ink, numpy.full(len(ink), 0.7)).set(wish) for width in (360.0, 900.0))
    near, far = (float(numpy.hypot(one.box.x - 180.0, one.box.y - 180.0)) for one in (narrow, wide))
    assert near < far
