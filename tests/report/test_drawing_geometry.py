"""The drawing is true: to scale, ropes over the right side, arcs at the pitch radius, supports against the pull."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree
from itertools import pairwise

import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rigcheck import units
from rigcheck.report.drawing import compose
from rigcheck.report.outlines import outline, rope_arcs
from rigcheck.report.part_marks import side_away_from
from rigcheck.report.view import FROM_ABOVE, FROM_THE_FRONT, FROM_THE_RIGHT, View, round_length
from rigcheck.rig.fields import coordinates
from tests.report.drawn_rigs import drawn, picture_of, travel_of

SVG = "{http://www.w3.org/2000/svg}"
HALF_A_HUNDREDTH = 0.0051  # coordinates are written to a hundredth of a pixel


def part(root: ElementTree.Element, key: str) -> ElementTree.Element:
    return next(g for g in root.iter(f"{SVG}g") if g.get("id") == key)


def path_of(root: ElementTree.Element, rope: str) -> list[tuple[str, numpy.ndarray]]:
    """The steps of a rope's path: letter and the place it leads to; an arc's radius and sweep come along."""
    data = part(root, f"rope:{rope}").find(f"{SVG}path").get("d")
    steps = []
    for letter, numbers in re.findall(r"([MLA])([^MLA]+)", data):
        values = [float(v) for v in numbers.split()]
        steps.append((letter if letter != "A" else f"A{values[0]:g} {values[4]:g}", numpy.array(values[-2:])))
    return steps


@pytest.mark.parametrize("name", drawn())
def test_the_rope_touches_sheaves_and_drum_where_the_statics_say(name):
    travel, picture = travel_of(name), picture_of(name)
    root, view = ElementTree.fromstring(picture.text), picture.views[0]
    for rope, path in travel.paths.items():
        places = numpy.array([place for _, place in path_of(root, rope)])
        for contact in view.px(numpy.concatenate([path.starts[:, 0], path.ends[:, 0]])):
            assert numpy.min(numpy.abs(places - contact).max(axis=1)) < HALF_A_HUNDREDTH


@pytest.mark.parametrize("name", drawn())
def test_the_middle_of_every_arc_lies_at_the_pitch_radius_on_the_side_the_rope_bends_round(name):
    travel = travel_of(name)
    for path in travel.paths.values():
        for arc in rope_arcs(path, 0):
            middle = arc.places(3)[1]
            assert numpy.linalg.norm(middle - arc.centre) == pytest.approx(arc.radius, rel=1e-12)
            if path.stops[arc.stop].kind == "sheave":
                into, out = path.directions[arc.stop - 1][0], path.directions[arc.stop][0]
                assert arc.places(3)[2] == pytest.approx(path.starts[arc.stop][0], abs=1e-9)
                if 0.01 < arc.wrap_rad < numpy.pi - 0.01:
                    # the sheave is pushed towards out - into, so the rope lies on the other side of its axle
                    assert (middle - arc.centre) @ (out - into) < 0


def test_a_head_sheave_is_passed_over_the_top_with_true_arcs():
    travel = travel_of("example loft-lift")
    picture = compose(travel)
    root, view = ElementTree.fromstring(picture.text), picture.views[0]
    sheave = part(root, "sheave:head sheave").find(f"{SVG}circle")
    centre, radius = numpy.array([float(sheave.get("cx")), float(sheave.get("cy"))]), float(sheave.get("r"))
    steps = path_of(root, "hoist rope")
    arcs = [place for letter, place in steps if letter.startswith("A") and numpy.linalg.norm(place - centre) < radius * 1.1]
    assert radius == pytest.approx(travel.rig.sheaves["head sheave"].pitch_diameter.value / 2 * view.scale, abs=0.01)
    assert len(arcs) == 2
    for place in arcs:
        assert numpy.linalg.norm(place - centre) == pytest.approx(radius, abs=0.02)
        assert place[1] <= centre[1] + 0.02
    # clockwise from the front is clockwise in the drawing, which SVG calls a sweep of 1
    sweeps = {letter.split()[1] for letter, place in steps if letter.startswith("A") and numpy.linalg.norm(place - centre) < radius * 1.1}
    assert sweeps == {"1"}


def test_the_other_sense_of_turning_is_drawn_with_the_other_sweep():
    travel = travel_of("down to the floor")
    root = ElementTree.fromstring(compose(travel).text)
    sweeps = [letter.split()[1] for letter, _ in path_of(root, "line") if letter.startswith("A")]
    assert sweeps == ["1", "1", "0", "0"]


@pytest.mark.parametrize("name", drawn())
def test_distances_in_the_drawing_are_metres_times_one_scale(name):
    travel, picture = travel_of(name), picture_of(name)
    root, view = ElementTree.fromstring(picture.text), picture.views[0]
    placed = {}
    for sheave, given_sheave in travel.rig.sheaves.items():
        axle = part(root, f"sheave:{sheave}").findall(f"{SVG}circle")[-1]
        where = travel.poses.on(given_sheave.on, coordinates(given_sheave.offset))[0]
        placed[sheave] = where, numpy.array([float(axle.get("cx")), float(axle.get("cy"))])
    if travel.rig.drive.kind == "winch":
        axis = part(root, "axis:drum").find(f"{SVG}circle")
        placed["drum"] = numpy.array(coordinates(travel.rig.drive.drum.at)), numpy.array([float(axis.get("cx")), float(axis.get("cy"))])
    names = list(placed)
    assert len(names) >= 2
    for one, two in pairwise(names):
        apart_m = numpy.linalg.norm((placed[one][0] - placed[two][0])[:2])
        apart_px = numpy.linalg.norm(placed[one][1] - placed[two][1])
        assert apart_px == pytest.approx(apart_m * view.scale, abs=2 * HALF_A_HUNDREDTH * 1.5)


def test_the_scale_bar_is_as_long_as_it_says():
    picture = compose(travel_of("example loft-lift"))
    root = ElementTree.fromstring(picture.text)
    bar = part(root, "scale:scale").find(f"{SVG}line")
    assert "500 mm" in [element.text for element in root.iter(f"{SVG}text")]
    assert float(bar.get("x2")) - float(bar.get("x1")) == pytest.approx(0.5 * picture.views[0].scale, abs=0.02)


@pytest.mark.parametrize("name", ["example loft-lift", "example well-crank", "example kiln-shell"])
def test_in_us_units_the_scale_bar_is_round_in_feet_or_inches(name):
    with units.shown_in("us"):
        picture = compose(travel_of(name))
    words = next(one.wish.lines[0] for one in picture.placed if one.wish.part == "note")
    figure, unit = words.split()
    bar = part(ElementTree.fromstring(picture.text), "scale:scale").find(f"{SVG}line")
    length_m = (float(bar.get("x2")) - float(bar.get("x1"))) / picture.views[0].scale
    assert figure.replace(".", "").strip("0") in ("1", "2", "5")
    assert length_m == pytest.approx(float(figure) * {"ft": 0.3048, "in": 0.0254}[unit], abs=1e-3)


@pytest.mark.parametrize("at", [0, 50, 100])
def test_the_travel_arrow_spans_the_stated_travel_at_whatever_height_is_drawn(at):
    travel = travel_of("example loft-lift")
    picture = compose(travel, at=at)
    arrow = part(ElementTree.fromstring(picture.text), "travel:platform").find(f"{SVG}line")
    view = picture.views[0]
    assert float(arrow.get("y1")) - float(arrow.get("y2")) == pytest.approx(travel.rig.limits.travel.value * view.scale, abs=0.02)
    assert float(arrow.get("y1")) == pytest.approx(view.px(coordinates(travel.rig.load.at))[1], abs=HALF_A_HUNDREDTH)


def test_the_ghost_stands_where_the_load_has_been_raised_to():
    travel = travel_of("example loft-lift")
    picture = compose(travel, ghost=-1)
    root = ElementTree.fromstring(picture.text)

    def lowest(key):
        return max(float(pair.split(",")[1]) for pair in part(root, key).find(f"{SVG}polygon").get("points").split())

    raised = (travel.heights_m[-1] - travel.heights_m[0]) * picture.views[0].scale
    assert lowest("body:platform") - lowest("ghost:body:platform") == pytest.approx(raised, abs=0.02)


def test_a_stated_size_is_drawn_as_stated_and_never_guessed():
    rig = drawn()["in depth"]
    box = outline(rig, "outboard motor")
    assert (box.across, box.up, box.guessed) == ((-0.175, 0.175), (0.0, 0.9), False)


@pytest.mark.parametrize(
    "pull, side", [((0, 1), (0, -1)), ((0.4, 1), (0, -1)), ((1, 0), (-1, 0)), ((-1, 0.1), (1, 0)), ((0, -1), (0, 1)), ((0, 0), (0, -1))],
)  # fmt: skip
def test_a_support_stands_against_the_pull(pull, side):
    assert tuple(side_away_from(numpy.array(pull, dtype=float))) == side


def test_what_hangs_is_hatched_above_and_what_is_held_down_below():
    root = ElementTree.fromstring(compose(travel_of("down to the floor")).text)

    def hatch_is_above(name):
        bar = part(root, f"point:{name}").find(f"{SVG}line")
        hatch = next(p for p in part(root, f"point:{name}").findall(f"{SVG}path") if p.get("class") == "rig-hatch")
        level = float(bar.get("y1"))
        slants = [[float(v) for v in re.findall("[0-9.]+", stroke)] for stroke in hatch.get("d").split("M")[1:]]
        assert len(slants) >= 3
        ups = {bottom < level for _, _, _, bottom in slants}
        assert len(ups) == 1
        return ups.pop()

    assert hatch_is_above("beam")
    assert not hatch_is_above("floor eye")


@pytest.mark.parametrize("name, near", [("example loft-lift", True), ("example well-crank", False)])
def test_a_floor_is_drawn_only_where_nothing_hangs_below_it(name, near):
    assert ('data-part="floor"' in compose(travel_of(name)).text) == near


@given(st.tuples(*[st.floats(-50, 50)] * 3), st.tuples(*[st.floats(-50, 50)] * 3), st.floats(1, 500))
def test_both_views_agree_on_height_and_together_on_distance(one, two, scale):
    front, side = View(FROM_THE_FRONT, scale, 10.0, 20.0), View(FROM_THE_RIGHT, scale, 30.0, 20.0)
    a, b = numpy.array(one), numpy.array(two)
    across, up = front.px(a) - front.px(b)
    depth, same_up = side.px(a) - side.px(b)
    assert up == same_up
    assert numpy.sqrt(across**2 + up**2 + depth**2) == pytest.approx(scale * numpy.linalg.norm(a - b), abs=1e-6)


@given(st.tuples(*[st.floats(-50, 50)] * 3), st.tuples(*[st.floats(-50, 50)] * 3), st.floats(1, 500))
def test_the_plan_agrees_with_the_front_view_across_and_has_the_front_at_its_foot(one, two, scale):
    front, plan = View(FROM_THE_FRONT, scale, 10.0, 300.0), View(FROM_ABOVE, scale, 10.0, 20.0)
    a, b = numpy.array(one), numpy.array(two)
    assert (front.px(a) - front.px(b))[0] == (plan.px(a) - plan.px(b))[0]
    assert (plan.px(a) - plan.px(b))[1] == pytest.approx(scale * (a[2] - b[2]), abs=1e-6)


def test_views_stand_in_line_with_one_another_and_apart():
    picture = compose(travel_of("in depth"))
    front, side, plan = picture.views
    assert front.scale == side.scale == plan.scale
    assert front.level_px == side.level_px
    assert front.left_px == plan.left_px
    root = ElementTree.fromstring(picture.text)
    parts = [drawn_places(part(root, key)) for key in ("body:outboard motor", "side:body:outboard motor", "plan:body:outboard motor")]
    assert parts[0][:, 0].max() < parts[1][:, 0].min()
    assert parts[2][:, 1].max() < parts[0][:, 1].min()


@given(st.floats(1e-3, 1e4))
def test_a_scale_bar_has_a_round_length_no_longer_than_allowed_and_more_than_a_third_of_it(longest):
    length = round_length(longest)
    assert longest / 2.6 <= length <= longest * (1 + 1e-9)
    assert f"{length:.0e}"[0] in "125"


def drawn_places(root: ElementTree.Element) -> numpy.ndarray:
    """Ends of lines, corners, and the far sides of circles, (n, 2)."""
    found = []
    for element in root.iter():
        value = {key: float(element.get(key)) for key in ("x1", "y1", "x2", "y2", "cx", "cy", "r") if element.get(key)}
        if element.tag == f"{SVG}line":
            found += [(value["x1"], value["y1"]), (value["x2"], value["y2"])]
        elif element.tag == f"{SVG}circle":
            found += [(value["cx"] - value["r"], value["cy"] - value["r"]), (value["cx"] + value["r"], value["cy"] + value["r"])]
        elif element.tag == f"{SVG}polygon":
            found += [tuple(float(v) for v in pair.split(",")) for pair in element.get("points").split()]
    return numpy.array(found)


def all_inside(picture) -> bool:
    places = drawn_places(ElementTree.fromstring(picture.text))
    return bool((places >= 0).all() and (places <= (picture.width, picture.height)).all())


@pytest.mark.parametrize("name", drawn())
def test_no_mark_leaves_the_picture(name):
    assert all_inside(picture_of(name))


@pytest.mark.parametrize("at", [0, 50, 100])
@pytest.mark.parametrize("width_px", [320, 480])
@pytest.mark.parametrize(
    "name",
    ["example kiln-shell", "example well-crank", "tackle-hand", "two-falls, held in guides, free to tilt", "in depth", "down to the floor"],
)
def test_nor_a_small_picture(name, width_px, at):
    assert all_inside(compose(travel_of(name), at=at, ghost=-1, width_px=width_px))
