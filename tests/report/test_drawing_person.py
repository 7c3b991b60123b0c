"""The person for scale: 1.7 m on the floor, never under what moves, and only where it helps."""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree

import numpy
import pytest

from rigcheck import units
from rigcheck.report.drawing import compose
from rigcheck.report.outlines import outline
from rigcheck.report.person import HEIGHT_M
from rigcheck.rig.model import Rig
from rigcheck.statics.travel import follow
from tests.report.drawn_rigs import drawn, station, travel_of

SVG = "{http://www.w3.org/2000/svg}"


def person(picture) -> numpy.ndarray | None:
    """The outline's places, (n, 2), and None where nobody is drawn."""
    group = next((g for g in ElementTree.fromstring(picture.text).iter(f"{SVG}g") if g.get("data-part") == "person"), None)
    if group is None:
        return None
    body = [tuple(map(float, pair.split(","))) for pair in group.find(f"{SVG}polygon").get("points").split()]
    head = group.find(f"{SVG}circle")
    x, y, r = (float(head.get(key)) for key in ("cx", "cy", "r"))
    return numpy.array([*body, (x, y - r)])


@pytest.mark.parametrize("at", [0, 100])
@pytest.mark.parametrize("name", [name for name in drawn() if "," not in name])
def test_it_stands_on_the_floor_as_tall_as_it_says_and_never_under_what_moves(name, at):
    travel = travel_of(name)
    picture = compose(travel, at=station(travel, at), width_px=680)
    outlined = person(picture)
    words = " ".join(one.wish.name for one in picture.placed if one.wish.part == "note")
    assert ("a person of 1.7 m" in words) == (outlined is not None)
    assert ("a person of 1.7 m" in ElementTree.fromstring(picture.text).find(f"{SVG}desc").text) == (outlined is not None)
    if outlined is None:
        return
    view = picture.views[0]
    assert outlined[:, 1].max() == pytest.approx(view.level_px, abs=0.01)
    assert numpy.ptp(outlined[:, 1]) == pytest.approx(HEIGHT_M * view.scale, abs=0.03)
    assert outlined[:, 0].min() > 0
    assert outlined[:, 0].max() < picture.width
    if travel.rig.drive.kind == "winch":  # among the ropes nobody is shown: who pulls a line by hand alone stands by it
        across = numpy.concatenate([view.px(path.starts)[..., 0].ravel() for path in travel.paths.values()])
        assert outlined[:, 0].max() < across.min() or outlined[:, 0].min() > across.max()
    for body in travel.rig.bodies:
        across = numpy.concatenate([view.px(travel.poses.on_body(body, corner))[:, 0] for corner in outline(travel.rig, body).corners()])
        assert outlined[:, 0].min() > across.max() or outlined[:, 0].max() < across.min()


def test_it_is_drawn_on_most_rigs_with_a_floor_and_on_none_without():
    names = [name for name in drawn() if name.startswith("example")]
    found = {name: person(compose(travel_of(name), width_px=680)) is not None for name in names}
    assert not found["example well-crank"]
    assert sum(found.values()) >= len(names) * 2 / 3


def test_by_a_hand_line_it_stands_by_the_hand():
    picture = compose(travel_of("example boat-engine"), width_px=680)
    outlined = person(picture)
    hand = next(one for one in picture.placed if one.wish.part == "hand").wish.target[0]
    assert abs(outlined[:, 0].mean() - hand) < 0.9 * picture.views[0].scale


@pytest.mark.parametrize("factor", [0.05, 25])
def test_a_tiny_or_a_huge_rig_has_none(factor):
    data = drawn()["straight"].model_dump(mode="json")
    assert person(compose(travel_of("straight"), width_px=680)) is not None
    assert person(compose(follow(Rig.model_validate(scaled(data, factor))), width_px=680)) is None


def scaled(data, factor: float):
    """A rig file with every length in it multiplied; masses and the like do not matter to a drawing."""
    if isinstance(data, dict):
        return {key: scaled(value, factor) for key, value in data.items()}
    if isinstance(data, list):
        return [scaled(value, factor) for value in data]
    if isinstance(data, str) and data.split()[-1:] in (["m"], ["mm"]) and len(data.split()) == 2:
        return f"{float(data.split()[0]) * factor:.6f} {data.split()[1]}"
    return data


def test_its_height_follows_the_system_of_units():
    with units.shown_in("us"):
        picture = compose(travel_of("straight"), width_px=680)
    words = " ".join(one.wish.name for one in picture.placed if one.wish.part == "note")
    assert "a person of" in words
    assert "1.7 m" not in words
