"""The drawing as a document: well formed, every part marked, names harmless, the same bytes each time, the same told in words."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree

import pytest

from rigcheck.report.drawing import compose, describe, draw
from rigcheck.report.theme import style
from tests.report.drawn_rigs import HEBREW, HOSTILE, drawn, picture_of, pulls_of, travel_of

TAGS = ("svg", "title", "desc", "style", "g", "path", "line", "circle", "polygon", "text")
SVG = "{http://www.w3.org/2000/svg}"
TYPICAL = ["example kiln-shell", "tackle-counterweight", "tackle-hand", "in depth", "oddly named", "down to the floor"]


def parsed(name: str, **options) -> ElementTree.Element:
    return ElementTree.fromstring(draw(travel_of(name), **options))


def marks(root: ElementTree.Element) -> set[tuple[str, str]]:
    return {(g.get("data-part"), g.get("data-name")) for g in root.iter(f"{SVG}g") if g.get("data-part")}


@pytest.mark.parametrize("name, theme", [*((name, "page") for name in drawn()), *((name, "print") for name in TYPICAL)])
def test_every_rig_gives_well_formed_svg_in_which_no_id_comes_twice(name, theme):
    root = ElementTree.fromstring(picture_of(name, theme).text)
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    assert root.tag == f"{SVG}svg"
    assert len(ids) == len(set(ids)) > 5


@pytest.mark.parametrize("name", drawn())
def test_every_part_of_the_rig_has_a_mark_with_its_id(name):
    rig, root = drawn()[name], ElementTree.fromstring(picture_of(name).text)
    expected = {
        (part, n)
        for part, names in (("point", rig.points), ("body", rig.bodies), ("sheave", rig.sheaves), ("rope", rig.ropes))
        for n in names
    }
    if rig.drive.kind == "winch":
        expected |= {("drum", "drum"), ("base", "drum")} | {(p, p) for p in ("motor", "crank") if getattr(rig.drive, p) is not None}
    else:
        expected |= {("hand", next(n for n, r in rig.ropes.items() if any(hasattr(s, "pulled_by_hand_at") for s in r.path)))}
    assert expected <= marks(root)
    ids = {element.get("id") for element in root.iter()}
    assert {f"{part}:{n}" for part, n in expected} <= ids


def test_every_mark_tells_its_name_as_a_tooltip():
    for g in parsed("example kiln-shell").iter(f"{SVG}g"):
        if g.get("data-part"):
            assert g.find(f"{SVG}title").text == g.get("data-name")


def test_hostile_names_stay_text():
    labels = {('"', 0): "</text><script>alert(1)</script>", ('"', 1): "\u202eN 7711\x00"}
    text = draw(travel_of("oddly named"), labels=labels)
    root = ElementTree.fromstring(text)
    assert ("body", HOSTILE) in marks(root)
    assert {element.tag for element in root.iter()} <= {f"{SVG}{tag}" for tag in TAGS}
    assert "<b" not in text
    assert "\u202e" not in text
    assert "\x00" not in text
    assert any(element.text == "N 7711\ufffd" for element in root.iter(f"{SVG}text"))


def test_letters_that_run_leftwards_keep_to_their_own_element():
    root = ElementTree.fromstring(draw(travel_of("oddly named")))
    assert root.find(f"{SVG}desc").text.count(f"\u2068{HEBREW}\u2069") == 2
    turned = [element for element in root.iter(f"{SVG}text") if element.get("direction") == "rtl"]
    assert turned
    assert all(any("\u0590" <= sign <= "\u05ff" for sign in element.text) for element in turned)


def test_a_long_name_is_cut_in_the_picture_and_whole_in_its_tooltip():
    root = ElementTree.fromstring(draw(travel_of("oddly named")))
    name = next(iter(drawn()["oddly named"].sheaves))
    shown = " ".join(element.text for element in root.iter(f"{SVG}text"))
    assert name not in shown
    assert "…" in shown
    assert ("sheave", name) in marks(root)


@pytest.mark.parametrize("name", TYPICAL)
def test_nothing_is_fetched_and_nothing_runs(name):
    for theme in ("page", "print"):
        text = draw(travel_of(name), theme=theme)
        assert re.findall(r"https?://[^\"]+", text) == ["http://www.w3.org/2000/svg"]
        assert not re.search(r"<script|href|url\(|@import|@font-face|\son[a-z]+=", text)
        assert re.findall(r"font-family:([^;}]+)", text) == ["sans-serif"]


def test_print_has_literal_black_and_white_and_a_page_takes_its_colours_from_around():
    assert set(re.findall("#[0-9a-f]{6}", draw(travel_of("in depth"), theme="print"))) == {"#000000", "#ffffff"}
    assert "var(" not in style("print")
    assert "currentColor" not in style("print")
    assert "var(--rig-ink, currentColor)" in style("page")
    assert "#ffffff" not in style("page")


@pytest.mark.parametrize("name", TYPICAL)
def test_the_same_rig_gives_the_same_bytes(name):
    options = {"labels": pulls_of(travel_of(name)), "ticks": dict.fromkeys(drawn()[name].ropes, 3), "ghost": -1}
    assert draw(travel_of(name), **options) == draw(travel_of(name), **options)


def strokes(root: ElementTree.Element) -> int:
    return sum(len(g.findall(f"{SVG}line")) for g in root.iter(f"{SVG}g") if g.get("data-part") == "ticks")


def written(root: ElementTree.Element) -> list[str]:
    return [element.text for element in root.iter(f"{SVG}text")]


@pytest.mark.parametrize("times", [1, 5, 6, 9])
def test_a_rope_carries_one_stroke_for_each_whole_time_it_has_its_required_factor(times):
    root = parsed("example loft-lift", ticks={"hoist rope": times})
    assert strokes(root) == times
    assert any(words.startswith("strokes across a rope") for words in written(root))


def test_a_rope_that_falls_short_carries_no_stroke_and_says_so_beside_it():
    root = parsed("example loft-lift", ticks={"hoist rope": 0})
    assert strokes(root) == 0
    assert "falls short" in written(root)
    assert "It falls short" in root.find(f"{SVG}desc").text
    assert "falls short" not in written(parsed("example loft-lift", ticks={"hoist rope": 1}))


@pytest.mark.parametrize("times", [10, 900])
def test_more_than_nine_times_are_written_and_not_drawn(times):
    root = parsed("example loft-lift", ticks={"hoist rope": times})
    assert strokes(root) == 0
    assert "9+ times" in written(root)
    assert "covered more than 9 times" in root.find(f"{SVG}desc").text


def test_a_rope_whose_factor_cannot_be_told_says_so():
    travel = travel_of("example kiln-shell")
    ticks = {"left rope": 4}
    words = written(ElementTree.fromstring(draw(travel, ticks=ticks)))
    assert words.count("?") == len(travel.rig.ropes) - 1
    assert "Whether it has its required factor: cannot tell." in describe(travel, ticks=ticks)
    assert "?" not in written(ElementTree.fromstring(draw(travel)))


def test_steel_and_fibre_differ_in_pattern_not_in_colour():
    def lines(name):
        rope = next(g for g in parsed(name).iter(f"{SVG}g") if g.get("data-part") == "rope")
        return [p for p in rope.findall(f"{SVG}path") if p.get("class") != "rig-hit"]

    assert [p.get("stroke-dasharray") for p in lines("example loft-lift")] == [None]
    assert [p.get("stroke-dasharray") for p in lines("in depth")] == [None, None, "2 3"]


def test_a_view_from_the_right_and_one_from_above_stand_there_only_where_there_is_depth():
    assert len(compose(travel_of("in depth")).views) == 3
    assert len(compose(travel_of("example loft-lift")).views) == 1
    root = parsed("in depth")
    ids = {element.get("id") for element in root.iter()}
    assert {"sheave:rear", "side:sheave:rear", "plan:sheave:rear"} <= ids
    assert {"from the front", "from the right", "from above"} <= set(written(root))
    assert any(words.startswith("third-angle views") for words in written(root))
    assert "from above" not in written(parsed("example loft-lift"))


@pytest.mark.parametrize("name", TYPICAL)
def test_the_words_tell_every_part_and_every_pull(name):
    travel = travel_of(name)
    rig, pulls = travel.rig, pulls_of(travel)
    words = describe(travel, labels=pulls, ticks=dict.fromkeys(rig.ropes, 7), ghost=-1)
    for part in (*rig.points, *rig.bodies, *rig.sheaves, *rig.ropes):
        assert part in words
    for text in pulls.values():
        assert text in words
    assert f"it travels {rig.limits.travel}" in words
    assert words.count("Its required factor is covered 7 times") == len(rig.ropes)
    assert "Drawn thin" in words
    told = parsed(name, labels=pulls, ticks=dict.fromkeys(rig.ropes, 7), ghost=-1).find(f"{SVG}desc").text
    # what the picture decides for itself, the person and the views, comes after what is told without it
    assert told.startswith(words)


def test_a_guessed_size_is_dashed_and_named_as_not_stated():
    assert "size not stated (drawn dashed)" in describe(travel_of("oddly named"))
    assert "size not stated" not in describe(travel_of("in depth"))
    assert "rig-guess" in box_of("oddly named", f"body:{HOSTILE}")
    assert "rig-guess" not in box_of("in depth", "body:outboard motor")


def test_how_deep_a_body_is_is_never_stated_and_so_dashed_in_the_other_views():
    assert "rig-guess" in box_of("in depth", "side:body:outboard motor")
    assert "rig-guess" in box_of("in depth", "plan:body:outboard motor")
    assert "dashed box: size not stated" in written(parsed("in depth"))


def box_of(name: str, key: str) -> str:
    """The kind of line that a body's box is drawn with."""
    group = next(g for g in parsed(name).iter(f"{SVG}g") if g.get("id") == key)
    return group.find(f"{SVG}polygon").get("class")


def test_notes_stand_in_the_foot_and_in_the_words_as_they_are():
    root = parsed("example kiln-shell", notes=["each fall drawn with its <worst> share"])
    assert "each fall drawn with its <worst> share" in " ".join(written(root))
    assert "each fall drawn with its <worst> share" in root.find(f"{SVG}desc").text


@pytest.mark.parametrize(
    "name, part", [("example bakery-flour-hoist", "brake"), ("example bakery-flour-hoist", "pawl"), ("example well-crank", "crank")]
)
def test_what_holds_and_turns_the_drum_is_drawn_where_it_is_described(name, part):
    root = parsed(name)
    assert (part, part) in marks(root)
    assert part in root.find(f"{SVG}desc").text
    assert (part, part) not in marks(parsed("example found-winch"))


def test_the_drum_tells_its_dead_wraps_in_words_and_shows_its_wraps_from_the_side():
    assert "3 dead wraps" in written(parsed("example bakery-flour-hoist"))
    travel = travel_of("winch in depth")
    lowest, highest = (ElementTree.fromstring(draw(travel, at=at)) for at in (0, -1))
    many = [
        len([e for e in part_of(root, "side:drum:drum").iter(f"{SVG}line") if e.get("class") == "rig-thin"]) for root in (lowest, highest)
    ]
    taken_in = (travel.paths["line"].length[0] - travel.paths["line"].length[-1]) / (3.14159265 * (0.2 + 0.008))
    assert many == [2, int(2 + taken_in)]


def part_of(root: ElementTree.Element, key: str) -> ElementTree.Element:
    return next(g for g in root.iter(f"{SVG}g") if g.get("id") == key)


def test_the_ghost_is_drawn_only_when_asked_for():
    assert not [m for m in marks(parsed("example loft-lift")) if m[0].startswith("ghost")]
    assert ("ghost:body", "platform") in marks(parsed("example loft-lift", ghost=-1))
