"""A rig with a hinge in the drawing: the hinge and its arms, the sector of the swing, the lid turned, and what the words say of it."""

import xml.etree.ElementTree as ElementTree

import numpy
import pytest

from rigcheck.report.drawing import compose, describe, draw, thumbnail
from rigcheck.report.hinge_marks import arms, swing_places
from rigcheck.rig import examples
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.statics.travel import follow
from tests.hinged_rigs import lid_by_winch
from tests.rigs import rig


@pytest.fixture(scope="module")
def lid():
    data = lid_by_winch(20.0, swing_deg=60.0, weight_kg=5.0)
    data["bodies"]["lid"]["size"] = ["2 m", "100 mm"]
    return follow(rig(data))


def part(root: ElementTree.Element, key: str) -> ElementTree.Element:
    return next(each for each in root.iter() if each.get("id") == key)


def polyline(element) -> numpy.ndarray:
    return numpy.array([[float(v) for v in pair.split(",")] for pair in element.get("points").split()])


def test_the_hinge_is_drawn_where_it_is_and_the_arms_lead_from_it(lid):
    picture = compose(lid, width_px=700)
    root = ElementTree.fromstring(picture.text)
    pin = part(root, "hinge:lid").find("{*}circle")
    assert (float(pin.get("cx")), float(pin.get("cy"))) == pytest.approx(picture.views[0].px(numpy.array([0.0, 1.0, 0.0])), abs=0.02)
    assert part(root, "arm:weight") is not None
    start, end = arms(lid, 0)["weight"]
    assert start == pytest.approx([0.0, 1.0, 0.0])
    assert end[0] < -0.3


@pytest.mark.parametrize("at", [0, 50, 100])
def test_the_sector_is_as_wide_as_the_swing_whatever_pose_is_drawn(lid, at):
    picture = compose(lid, at=at, width_px=700)
    arc = polyline(part(ElementTree.fromstring(picture.text), "travel:lid").find("{*}polyline"))
    pin = picture.views[0].px(numpy.array([0.0, 1.0, 0.0]))
    first, last = arc[0] - pin, arc[-1] - pin
    turned = numpy.degrees(numpy.arctan2(-(last[1]), last[0]) - numpy.arctan2(-(first[1]), first[0]))
    assert turned == pytest.approx(60.0, abs=0.1)
    assert numpy.linalg.norm(arc - pin, axis=1) == pytest.approx(numpy.linalg.norm(first), abs=0.05)


def test_the_hinge_can_be_taken_hold_of_where_it_is(lid):
    picture = compose(lid, at=60, width_px=700)
    hinge = part(ElementTree.fromstring(picture.text), "hinge:lid")
    assert hinge.get("tabindex") == "0"
    assert hinge.get("aria-label") == "hinge of lid, 0 m across, 1 m up"
    grip = next(each for each in hinge.findall("{*}circle") if each.get("class") == "rig-grip")
    assert (float(grip.get("cx")), float(grip.get("cy"))) == pytest.approx(picture.views[0].px(numpy.array([0.0, 1.0, 0.0])), abs=0.02)


def test_the_lid_is_drawn_turned_and_its_ghost_where_it_lies_shut(lid):
    picture = compose(lid, at=100, ghost=0, width_px=700)
    root = ElementTree.fromstring(picture.text)
    box, ghost = (polyline(part(root, key).find("{*}polygon")) for key in ("body:lid", "ghost:body:lid"))
    view = picture.views[0]
    turn = numpy.radians(60.0)
    edge = numpy.array([2 * numpy.cos(turn), 1 + 2 * numpy.sin(turn), 0.0])
    assert min(numpy.linalg.norm(box - view.px(edge), axis=1)) < 0.05
    assert min(numpy.linalg.norm(ghost - view.px(numpy.array([2.0, 1.0, 0.0])), axis=1)) < 0.05


def test_everything_of_the_swing_lies_within_the_picture(lid):
    picture = compose(lid, width_px=420)
    places = picture.views[0].px(swing_places(lid))
    assert places.min() >= 0
    assert places[:, 0].max() <= picture.width
    assert places[:, 1].max() <= picture.height


def test_the_words_of_the_drawing_tell_hinge_swing_and_what_is_fixed_on_what(lid):
    told = describe(lid, at=50, ghost=0)
    assert "swung by 30°; it swings by 60.0 deg" in told
    assert "turning about a hinge at 0 m across, 1 m up" in told
    assert "Counterweight \u2068weight\u2069, 5.0 kg, fixed on \u2068lid\u2069" in told
    assert "Drawn thin: the same rig with the load 0 m above its lowest place, swung by 0°." in told


@pytest.mark.parametrize(
    "make", [lambda: examples.example("cellar-hatch"), lambda: ARRANGEMENTS["kiln-lid"].make(ARRANGEMENTS["kiln-lid"].defaults())]
)
def test_examples_with_hinges_are_drawn_in_every_size_and_small(make):
    travel = follow(make())
    for width in (340, 680, 900):
        for theme in ("page", "print"):
            assert 'data-part="hinge"' in draw(travel, at=60, ghost=0, width_px=width, theme=theme)
    assert thumbnail(travel).count("<circle") >= 2


def test_a_hinge_askew_in_space_is_drawn_in_three_views():
    data = lid_by_winch(swing_deg=50.0)
    data["bodies"]["lid"]["moves"]["axis"] = [0.2, 0.1, 1.0]
    data["bodies"]["lid"]["picks"]["edge"] = ["1 m", "0 m", "0.3 m"]
    picture = compose(follow(rig(data)), at=80, ghost=0, width_px=800)
    assert len(picture.views) == 3
    assert "nan" not in picture.text
