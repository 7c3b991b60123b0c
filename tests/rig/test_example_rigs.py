"""The example rigs: complete, readable, and what they are said to be."""

import json

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.checks.check import CANNOT_TELL
from rigcheck.errors import RigFileError
from rigcheck.parts import basis, end_fitting, fibre_rope, wire_rope
from rigcheck.rig import examples, files
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.rig.model import Brake

EVERY = pytest.mark.parametrize("name", examples.names())
COMPLETE = (
    "boat-engine",
    "cellar-hatch",
    "gallery-crate",
    "kiln-shell",
    "loft-lift",
    "log-span",
    "orchard-pole",
    "studio-counterweight",
    "tile-lift",
    "well-crank",
    "well-tripod",
    "workshop-jib",
)


def test_the_examples_are_these():
    assert examples.names() == (
        "bakery-flour-hoist", "boat-engine", "cellar-hatch", "found-winch", "gallery-crate", "kiln-shell", "loft-lift", "log-span", "orchard-pole", "studio-counterweight", "tile-lift", "tired-hoist", "well-crank", "well-tripod", "workshop-jib",
    )  # fmt: skip


@EVERY
def test_an_example_reads_back_the_same_and_its_file_stands_as_it_would_be_written(name):
    rig = examples.example(name)
    text = (examples.FOLDER / f"{name}.rig.json").read_text(encoding="utf-8")
    assert files.dumps(rig) == text
    assert files.loads(text) == rig
    assert rig.name.replace(" ", "-") == name


@EVERY
def test_an_example_says_what_it_shows_and_where_its_values_come_from(name):
    assert len(examples.about(name)) > 60
    notes = [part["notes"] for part in parts(json.loads(files.dumps(examples.example(name)))) if "notes" in part]
    assert len(notes) >= 3
    assert not any("typical value" in text for note in notes for text in note.values())


@EVERY
def test_every_catalogue_name_in_an_example_is_in_the_catalogue(name):
    rig = examples.example(name)
    assert basis.basis(rig.basis.factors).slug == rig.basis.factors
    for rope in rig.ropes.values():
        if rope.construction:
            assert wire_rope.wire_rope_class(rope.construction).name == rope.construction
        if rope.material:
            assert rope.material in fibre_rope.fibre_materials()
        for stop in rope.path:
            if getattr(stop, "fitting", None):
                assert stop.fitting in end_fitting.end_fittings(rope.kind)


def parts(value):
    """Every object in JSON data."""
    if isinstance(value, dict):
        yield value
    for inner in value.values() if isinstance(value, dict) else value if isinstance(value, list) else ():
        yield from parts(inner)


@pytest.mark.parametrize("name", COMPLETE)
def test_a_complete_example_leaves_nothing_open_about_its_ropes_and_sheaves(name):
    rig = examples.example(name)
    for rope in rig.ropes.values():
        assert rope.breaking_force is not None
        assert rope.remaining_strength is not None
        assert all(stop.fitting for stop in rope.path if hasattr(stop, "made_fast_to"))
    for sheave in rig.sheaves.values():
        assert sheave.bearing
        assert sheave.rated_load
        assert sheave.groove_diameter
    assert rig.load.mass.plus_minus


@pytest.mark.parametrize(("name", "ratio"), [("loft-lift", 16), ("kiln-shell", 16), ("well-crank", 16), ("boat-engine", 8)])
def test_sheaves_and_drum_of_a_complete_example_are_wide_enough_for_the_rope(name, ratio):
    rig = examples.example(name)
    for rope in rig.ropes.values():
        for stop in rope.path:
            if hasattr(stop, "over"):
                assert rig.sheaves[stop.over].pitch_diameter.value / rope.diameter.value >= ratio
    if rig.drive.kind == "winch":
        assert rig.drive.drum.diameter.value / max(rope.diameter.value for rope in rig.ropes.values()) >= 18
        assert rig.drive.drum.dead_wraps >= 3


def test_the_kiln_shell_hangs_on_two_steel_falls_with_a_counterweight_and_trusts_its_worm():
    rig = examples.example("kiln-shell")
    assert sum(hasattr(rope.path[-1], "wound_on") for rope in rig.ropes.values()) == 2
    assert "counterweight" in rig.bodies
    assert rig.load.moves.tilts is False
    assert rig.drive.brake is None
    assert rig.drive.pawl is None
    worm = rig.drive.gears[-1]
    assert (worm.kind, worm.lead_angle is not None, worm.friction > worm.friction_lowest) == ("worm", True, True)


def test_the_tired_hoist_is_worn_small_and_knotted():
    rig = examples.example("tired-hoist")
    rope = rig.ropes["hoist rope"]
    assert rope.remaining_strength < 0.7
    assert rope.path[0].fitting == "clove hitch"
    assert rig.drive.drum.dead_wraps == 0
    assert rig.sheaves["head sheave"].pitch_diameter.value / rope.diameter.value < 8


def test_the_found_winch_has_no_papers():
    rig = examples.example("found-winch")
    rope = rig.ropes["hoist rope"]
    assert rope.construction is rope.breaking_force is rope.grade is rig.drive.motor.stall_torque is rig.drive.drum.dead_wraps is None


def test_whether_the_found_winch_has_a_brake_is_not_known_in_its_story_its_file_and_its_verdict():
    rig = examples.example("found-winch")
    assert "nobody has looked for a brake" in rig.about
    assert rig.drive.brake == Brake()
    (brake,) = [check for check in assess(rig).checks if check.id == "holding.brake"]
    assert brake.verdict == CANNOT_TELL
    assert "Whether there is a brake is not stated" in brake.reason


def test_no_part_is_called_by_a_word_that_only_the_trade_knows():
    rigs = [examples.example(name) for name in examples.names()] + [each.make(each.defaults()) for each in ARRANGEMENTS.values()]
    for rig in rigs:
        called = [*rig.points, *rig.bodies, *rig.sheaves, *(pick for body in rig.bodies.values() for pick in body.picks)]
        assert not [name for name in called if "becket" in name]


def test_an_unknown_name_is_refused_with_the_nearest_one():
    with pytest.raises(RigFileError) as caught:
        examples.example("loft-lfit")
    assert caught.value.wrong == 'there is no example "loft-lfit"'
    assert caught.value.right.startswith('Perhaps "loft-lift" is meant. There are: bakery-flour-hoist, ')
    with pytest.raises(RigFileError):
        examples.about("../secret")
