"""Arrangements: a few numbers make a whole rig, plumb where it must be plumb, and every wrong number is told at its input."""

import itertools
import math

import numpy
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from rigcheck import units
from rigcheck.checks.assessment import assess, guesses
from rigcheck.checks.check import CANNOT_TELL
from rigcheck.checks.gears import MOST_OF_ONE_PAIR
from rigcheck.errors import InputError, RigFileError
from rigcheck.parts import fibre_rope, wire_rope
from rigcheck.parts.diameter_ratio import least_ratio
from rigcheck.parts.end_fitting import ROPE_KINDS, end_fittings
from rigcheck.rig import files
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.rig.arrangements.inputs import MOST_INPUTS
from rigcheck.rig.arrangements.pieces import CONSTRUCTIONS, MATERIALS, NOT_COUNTED, TYPICAL, UNKNOWN
from rigcheck.rig.fields import coordinates
from rigcheck.statics.layout import Layout
from rigcheck.units import Quantity, read

EVERY = pytest.mark.parametrize("arrangement", ARRANGEMENTS.values(), ids=ARRANGEMENTS)
TACKLES = pytest.mark.parametrize("slug", ["tackle", "tackle-counterweight", "tackle-hand"])
CHANGES_THE_SHAPE = ("parts", "rove", "stands", "lead", "held", "worked_by")
HUNG = [slug for slug, each in ARRANGEMENTS.items() if each.make(each.defaults()).load.moves.kind == "free"]
COUNTERWEIGHTED = [slug for slug in ARRANGEMENTS if "counterweight" in slug]


def combinations(arrangement):
    """The values for every combination of the choices that change the shape, each with every option of the others."""
    shape = [choice for choice in arrangement.choices if choice.key in CHANGES_THE_SHAPE]
    others = [choice for choice in arrangement.choices if choice.key not in CHANGES_THE_SHAPE]
    for chosen in itertools.product(*(choice.options for choice in shape)):
        values = arrangement.defaults() | {choice.key: option for choice, option in zip(shape, chosen, strict=True)}
        yield values
        for choice in others:
            for option in choice.options:
                kind = {"ends": "steel, 7x19", "ends_fibre": "fibre, manila"}.get(choice.key)
                yield values | {choice.key: option} | ({"rope": kind} if kind else {})


def ends_of(values, kind):
    """What was said of the ends of a rope of this kind."""
    return values["ends" if kind == "steel" else "ends_fibre"]


def centre(rig, stop):
    """Where the centre of a sheave is, or the place of an end, in metres across and up."""
    if hasattr(stop, "over"):
        sheave = rig.sheaves[stop.over]
        base = rig.points.get(sheave.on) or rig.bodies[sheave.on]
        return [a + b for a, b in zip(coordinates(base.at), coordinates(sheave.offset), strict=True)][:2]
    if hasattr(stop, "made_fast_to"):
        if stop.made_fast_to in rig.points:
            return coordinates(rig.points[stop.made_fast_to].at)[:2]
        body = rig.bodies[stop.made_fast_to]
        return [a + b for a, b in zip(coordinates(body.at), coordinates(body.picks[stop.pick]), strict=True)][:2]
    place = rig.drive.drum.at if hasattr(stop, "wound_on") else stop.pulled_by_hand_at
    return coordinates(place)[:2]


def radius(rig, rope, stop):
    if hasattr(stop, "over"):
        return rig.sheaves[stop.over].pitch_diameter.value / 2
    if hasattr(stop, "wound_on"):
        return (rig.drive.drum.diameter.value + rig.ropes[rope].diameter.value) / 2
    return 0.0


def runs_across(rig, rope):
    """For each run of a rope the two places across where it leaves one stop and meets the next, were it plumb.

    A path that turns clockwise has its centre on the right of its direction, so going up it passes left of the centre.
    """
    runs = []
    for ends in itertools.pairwise(rig.ropes[rope].path):
        up = centre(rig, ends[1])[1] > centre(rig, ends[0])[1]
        sides = [0 if not hasattr(stop, "turns") else -1 if (stop.turns == "clockwise") == up else 1 for stop in ends]
        runs.append([centre(rig, stop)[0] + side * radius(rig, rope, stop) for side, stop in zip(sides, ends, strict=True)])
    return runs


@EVERY
def test_every_arrangement_declares_a_form_that_a_page_can_build(arrangement):
    assert len(arrangement.inputs) <= MOST_INPUTS
    keys = [item.key for item in (*arrangement.inputs, *arrangement.choices)]
    labels = [item.label for item in (*arrangement.inputs, *arrangement.choices)]
    assert len(set(keys)) == len(keys)
    assert len(set(labels)) == len(labels)
    for item in arrangement.inputs:
        assert units.read(item.default, item.kind).value > 0
        assert item.help.endswith(".")
    for choice in arrangement.choices:
        assert choice.default in choice.options
    assert arrangement.title
    assert arrangement.about.endswith(".")


def test_every_rope_offered_is_in_the_catalogue():
    assert all(wire_rope.wire_rope_class(name).name == name for name in CONSTRUCTIONS)
    assert set(MATERIALS) <= set(fibre_rope.fibre_materials())


@EVERY
def test_every_choice_builds_a_rig_that_reads_back_the_same(arrangement):
    built = set()
    for values in combinations(arrangement):
        rig = arrangement.make(values)
        text = files.dumps(rig)
        assert files.loads(text) == rig
        assert files.dumps(files.loads(text)) == text
        built.add(text)
    shapes = math.prod(len(choice.options) for choice in arrangement.choices if choice.key in CHANGES_THE_SHAPE)
    assert len(built) >= shapes


@EVERY
def test_what_was_typed_stands_in_the_rig_as_typed(arrangement):
    way = "swing" if "swing" in arrangement.defaults() else "travel"
    typed = {"mass": "120 kg ± 5 kg", way: {"travel": "4 ft", "swing": "1 rad"}[way], "sheave_diameter": "5 in", "rope_diameter": "1/4 in"}
    rig = arrangement.make(arrangement.defaults() | typed)
    assert rig.load.mass.text == typed["mass"]
    assert getattr(rig.limits, way).text == typed[way]
    assert {sheave.pitch_diameter.text for sheave in rig.sheaves.values()} == {typed["sheave_diameter"]}
    assert {rope.diameter.text for rope in rig.ropes.values()} == {typed["rope_diameter"]}


@EVERY
def test_no_strength_rating_or_motor_figure_is_made_up(arrangement):
    for values in combinations(arrangement):
        rig = arrangement.make(values)
        for rope in rig.ropes.values():
            assert rope.breaking_force is rope.modulus is rope.length is None
            assert (rope.grade is None) == (values["grade"] == UNKNOWN or rope.kind == "fibre")
            assert (rope.remaining_strength is None) == (values["condition"] != "new, no fault found")
            for stop in rope.path:
                if hasattr(stop, "made_fast_to"):
                    assert (stop.fitting or UNKNOWN) == ends_of(values, rope.kind)
                    assert stop.fitting_share is None
        assert all(sheave.rated_load is None and sheave.efficiency is None for sheave in rig.sheaves.values())
        if rig.drive.kind == "hand line":
            continue
        drum = rig.drive.drum
        assert drum.width is drum.flange_diameter is drum.anchor_holds is drum.rope_friction is drum.grooved is None
        assert rig.drive.cable is None
        assert rig.drive.brake is None or rig.drive.brake.torque is None
        assert rig.drive.pawl is None or rig.drive.pawl.holds is None
        for gear in rig.drive.gears:
            assert gear.efficiency is gear.lead_angle is gear.friction is gear.output_torque_rating is None
            assert (gear.ratio is None) == (values["ratio"] == UNKNOWN)
        assert (rig.drive.motor is None) == (values["worked_by"] not in ("gear-motor with worm", "gear-motor with spur gears"))
        if rig.drive.motor:
            assert rig.drive.motor.stall_torque is rig.drive.motor.rated_torque is rig.drive.motor.no_load_speed is None
            stated = None if values["voltage"] == UNKNOWN else values["voltage"]
            assert (rig.drive.motor.voltage and rig.drive.motor.voltage.text) == stated
            assert (rig.drive.supply and rig.drive.supply.voltage.text) == stated
        if rig.drive.crank:
            assert rig.drive.crank.notes == {"radius": TYPICAL, "people": NOT_COUNTED}


WINCHES = [slug for slug in ARRANGEMENTS if slug != "tackle-hand"]


@pytest.mark.parametrize("slug", WINCHES)
def test_the_pairs_of_a_spur_gear_motor_make_up_the_ratio_and_none_is_more_than_a_pair_can_have(slug):
    arrangement = ARRANGEMENTS[slug]
    for ratio in next(choice for choice in arrangement.choices if choice.key == "ratio").options[1:]:
        gears = arrangement.make(arrangement.defaults() | {"worked_by": "gear-motor with spur gears", "ratio": ratio}).drive.gears
        assert math.prod(gear.ratio for gear in gears) == float(ratio)
        assert all(gear.kind == "spur" and gear.ratio <= MOST_OF_ONE_PAIR and "not known" in gear.notes["ratio"] for gear in gears)
        (worm,) = arrangement.make(arrangement.defaults() | {"worked_by": "gear-motor with worm", "ratio": ratio}).drive.gears
        assert (worm.kind, worm.ratio) == ("worm", float(ratio))


@pytest.mark.parametrize("slug", WINCHES)
def test_nothing_of_the_drive_is_taken_for_granted(slug):
    drive = ARRANGEMENTS[slug].make(ARRANGEMENTS[slug].defaults() | {"worked_by": "gear-motor with worm"}).drive
    assert drive.gears[0].ratio is None
    assert drive.motor.voltage is drive.supply is None
    assert drive.brake.on is drive.brake.sets_itself is drive.brake.torque is None


@pytest.mark.parametrize(
    ("said", "on", "pawl"),
    [
        ("neither", None, False),
        ("brake on the shaft of motor or crank, sets itself", "motor shaft", False),
        ("brake on the drum, sets itself", "drum", False),
        ("pawl on the drum, no brake", None, True),
    ],
)
@pytest.mark.parametrize("worked_by", ["gear-motor with worm", "crank on the drum"])
def test_what_holds_the_load_is_what_was_said(said, on, pawl, worked_by):
    arrangement = ARRANGEMENTS["straight"]
    drive = arrangement.make(arrangement.defaults() | {"brake": said, "worked_by": worked_by}).drive
    assert (drive.brake.on if drive.brake else None, drive.pawl is not None) == (on, pawl)
    assert drive.brake is None or drive.brake.sets_itself


@EVERY
def test_the_places_nobody_was_asked_for_are_marked_typical(arrangement):
    rig = arrangement.make(arrangement.defaults())
    assert TYPICAL in rig.drive.drum.notes["at"] if rig.drive.kind == "winch" else TYPICAL in str(rig.ropes["hoist rope"].path[-1].notes)
    if "counterweight rope" in rig.ropes:
        assert rig.bodies["counterweight"].notes["at"] == TYPICAL
        assert TYPICAL in rig.points["hanger of counterweight sheave 2"].notes["at"]


@TACKLES
@pytest.mark.parametrize("parts", ["2", "3", "4", "5", "6"])
@pytest.mark.parametrize("to_advantage", [False, True])
def test_a_tackle_has_its_parts_its_sheaves_and_its_dead_end_where_it_belongs(slug, parts, to_advantage):
    arrangement = ARRANGEMENTS[slug]
    rove = next(choice for choice in arrangement.choices if choice.key == "rove").options[to_advantage]
    rig = arrangement.make(arrangement.defaults() | {"parts": parts, "rove": rove})
    path = rig.ropes["hoist rope"].path
    sheaves = [rig.sheaves[stop.over] for stop in path[1:-1]]
    assert len(sheaves) == int(parts) - to_advantage
    assert (path[0].made_fast_to == "load") == (int(parts) % 2 == 1)
    moving = [sheave.on == "load" for sheave in sheaves]
    assert all(first != second for first, second in itertools.pairwise([path[0].made_fast_to == "load", *moving]))
    assert moving[-1] == to_advantage
    carried = (path[0].made_fast_to == "load") + 2 * sum(moving)
    assert carried == int(parts)


@TACKLES
@pytest.mark.parametrize("diameter", ["120 mm", "5 in", "97.3 mm", "0.21 m", "4 3/8 in"])
@pytest.mark.parametrize("to_advantage", [False, True])
def test_the_falls_of_a_tackle_are_plumb(slug, diameter, to_advantage):
    arrangement = ARRANGEMENTS[slug]
    rove = next(choice for choice in arrangement.choices if choice.key == "rove").options[to_advantage]
    for parts in "23456":
        rig = arrangement.make(arrangement.defaults() | {"parts": parts, "rove": rove, "sheave_diameter": diameter})
        for number, (leaves, meets) in enumerate(runs_across(rig, "hoist rope")[: int(parts)]):
            expected = number * units.read(diameter, "length").value
            assert leaves == pytest.approx(expected, abs=2e-12)
            assert meets == pytest.approx(expected, abs=2e-12)


@pytest.mark.parametrize("slug", [slug for slug in ARRANGEMENTS if "tackle" not in slug and "lid" not in slug and slug not in HUNG])
def test_every_fall_at_the_load_and_the_counterweight_is_plumb(slug):
    for values in combinations(ARRANGEMENTS[slug]):
        rig = ARRANGEMENTS[slug].make(values)
        for name in rig.ropes:
            first, *_, last = runs_across(rig, name)
            assert first[0] == pytest.approx(first[1], abs=2e-12)
            if name == "counterweight rope":
                assert last[0] == pytest.approx(last[1], abs=2e-12)


@pytest.mark.parametrize("slug", [slug for slug in HUNG if slug != "between-posts"])
def test_what_raises_a_load_that_hangs_free_is_drawn_plumb_over_it(slug):
    rig = ARRANGEMENTS[slug].make(ARRANGEMENTS[slug].defaults() | {"sheave_diameter": "97.3 mm"})
    layout = Layout(rig)
    _, laid, *_ = layout.at(numpy.zeros((1, len(layout.free) + 1)), numpy.zeros(1))
    plumb = [name for name in rig.ropes if name.endswith("rope") and (slug == "ring-gathering-four") != (name == "hoist rope")]
    assert len(plumb) == (4 if slug == "ring-gathering-four" else 1)
    for name in plumb:
        assert laid[name].directions[0, 0] == pytest.approx([0, 1, 0], abs=1e-11)


@pytest.mark.parametrize(
    ("slug", "changes", "where", "wrong"),
    [
        ("bridle-two", {"leg_length": "0.4 m"}, "Length of a leg", "too short for eyes so far apart"),
        ("bridle-three", {"circle": "3 m"}, "Length of a leg", "too short for eyes so far apart"),
        ("bridle-four", {"depth": "2 m"}, "Length of a leg", "too short for eyes so far apart"),
        ("ring-gathering-four", {"to_ring": "0.6 m"}, "Distance to the ring", "too near the sheaves over the load"),
        ("between-posts", {"span": "0.5 m"}, "Distance between the posts", "no room for the load between the posts"),
        ("between-posts", {"travel": "2.5 m"}, "Height of the rope at the posts", "leaves no room"),
    ],
)
def test_numbers_with_which_a_load_could_not_hang_so_are_told_at_their_input(slug, changes, where, wrong):
    arrangement = ARRANGEMENTS[slug]
    with pytest.raises(InputError) as caught:
        arrangement.make(arrangement.defaults() | changes)
    assert caught.value.where == where
    assert wrong in caught.value.wrong


def test_legs_are_as_long_as_was_typed():
    for slug in ("bridle-two", "bridle-three", "bridle-four"):
        rig = ARRANGEMENTS[slug].make(ARRANGEMENTS[slug].defaults() | {"leg_length": "1.3 m"})
        ring = numpy.array(coordinates(rig.bodies["ring"].at))
        legs = [numpy.linalg.norm(ring - numpy.array(coordinates(pick))) for pick in rig.load.picks.values()]
        assert legs == pytest.approx([1.3] * {"bridle-two": 2, "bridle-three": 3, "bridle-four": 4}[slug], abs=1e-9)


@pytest.mark.parametrize("slug", COUNTERWEIGHTED)
def test_a_counterweight_hangs_clear_of_the_load_and_has_room_to_fall(slug):
    rig = ARRANGEMENTS[slug].make(ARRANGEMENTS[slug].defaults())
    weight, load = rig.bodies["counterweight"], rig.load
    assert coordinates(weight.at)[1] - rig.limits.travel.value > 0
    left_of_load = coordinates(load.at)[0] + min(coordinates(pick)[0] for pick in load.picks.values())
    assert coordinates(weight.at)[0] <= left_of_load - 0.99
    top = coordinates(weight.at)[1] + coordinates(weight.picks["eye"])[1]
    sheave = rig.points["hanger of counterweight sheave 2"]
    assert top + 0.2 <= coordinates(sheave.at)[1] - rig.sheaves["counterweight sheave 2"].pitch_diameter.value / 2


@pytest.mark.parametrize(
    ("changes", "where", "wrong"),
    [
        ({"mass": "-3 kg"}, "Mass of the load", '"-3 kg" is out of proportion'),
        ({"mass": "0 kg"}, "Mass of the load", '"0 kg" is out of proportion'),
        ({"mass": "1000000 kg"}, "Mass of the load", "out of proportion"),
        ({"mass": "3 ton"}, "Mass of the load", "which ton"),
        ({"mass": "120"}, "Mass of the load", '"120"'),
        ({"mass": 120}, "Mass of the load", "120 is a bare number"),
        ({"mass": ""}, "Mass of the load", "is empty"),
        ({"mass": None}, "Mass of the load", "nothing is given"),
        ({"travel": "1,500.0 mm"}, "Travel", "more than one decimal mark"),
        ({"travel": "1e300 m"}, "Travel", "is beyond"),
        ({"travel": "2.2 m"}, "Height of the head sheave", '"3 m" leaves no room under the head sheave'),
        ({"load_height": "2.5 m"}, "Height of the head sheave", '"3 m" leaves no room under the head sheave'),
        ({"rope_diameter": "61 mm"}, "Diameter of the sheaves", '"120 mm" is less than twice the diameter of the rope'),
        ({"drum_diameter": "2.9 m"}, "Diameter of the drum", '"2.9 m" leaves no room for the drum'),
        ({"distance": "0.1 m"}, "Distance from the load to the winch", '"0.1 m" is too near'),
        ({"stands": "on the roof"}, "The winch stands", "'on the roof' is not one of the options"),
        ({"stands": None}, "The winch stands", "nothing is chosen"),
        ({"colour": "red"}, "Straight lift over one sheave", '"colour" is not asked for'),
    ],
)
def test_a_wrong_number_is_told_at_its_input(changes, where, wrong):
    arrangement = ARRANGEMENTS["straight"]
    with pytest.raises(InputError) as caught:
        arrangement.make(arrangement.defaults() | changes)
    assert caught.value.where == where
    assert wrong in caught.value.wrong
    assert caught.value.right


def test_a_head_sheave_just_high_enough_is_taken_and_a_millimetre_less_is_not():
    arrangement = ARRANGEMENTS["straight"]
    needed = 1.6 + 0.6 + 0.2 + 0.06
    assert arrangement.make(arrangement.defaults() | {"head_height": f"{needed:.3f} m"})
    with pytest.raises(InputError, match=r"at least 2\.46 m"):
        arrangement.make(arrangement.defaults() | {"head_height": f"{needed - 0.001:.3f} m"})


def test_a_spread_narrower_than_two_sheaves_is_refused():
    arrangement = ARRANGEMENTS["two-falls"]
    with pytest.raises(InputError, match="less than two sheave diameters") as caught:
        arrangement.make(arrangement.defaults() | {"spread": "0.2 m"})
    assert caught.value.where == "Distance between the falls"


@st.composite
def answers(draw):
    """An arrangement with answers of every size, in several units, now and then with text that is no quantity."""
    arrangement = ARRANGEMENTS[draw(st.sampled_from(sorted(ARRANGEMENTS)))]
    values: dict[str, str] = {choice.key: draw(st.sampled_from(choice.options)) for choice in arrangement.choices}
    ordinary = draw(st.booleans())
    for item in arrangement.inputs:
        default = units.read(item.default, item.kind).value
        low, high = (0.5, 2.0) if ordinary else (1e-4, 1e4)
        value = default * math.exp(draw(st.floats(math.log(low), math.log(high))))
        unit = draw(st.sampled_from(["kg", "lb", "t"] if item.kind == "mass" else ["m", "mm", "in", "ft"]))
        values[item.key] = f"{units.to_unit(value, unit):.6f} {unit}"
    if draw(st.integers(0, 9)) == 0:
        values[draw(st.sampled_from(sorted(values)))] = draw(st.text(max_size=12) | st.none() | st.integers())
    return arrangement, values


def assert_told_at_an_input(fault, arrangement):
    assert not isinstance(fault, RigFileError)
    assert fault.where in {item.label for item in (*arrangement.inputs, *arrangement.choices)}
    assert fault.wrong
    assert fault.right


@settings(max_examples=600, deadline=None)
@given(answers())
def test_any_answers_give_a_rig_that_reads_back_the_same_or_an_error_at_an_input(case):
    arrangement, values = case
    try:
        rig = arrangement.make(values)
    except InputError as fault:
        assert_told_at_an_input(fault, arrangement)
        return
    assert files.loads(files.dumps(rig)) == rig


@settings(max_examples=300, deadline=None)
@given(answers())
def test_a_rig_from_any_answers_leaves_room_over_the_load_and_under_the_counterweight(case):
    arrangement, values = case
    try:
        rig = arrangement.make(values)
    except InputError:
        assume(False)
    travel, load = rig.limits.travel.value, rig.load
    top = max(coordinates(pick)[1] for pick in load.picks.values()) if load.picks else 0.0
    fixed = [sheave for sheave in rig.sheaves.values() if sheave.on in rig.points and sheave.on != "hanger of lead sheave"]
    for sheave in fixed:
        assert travel + top + 0.2 <= coordinates(rig.points[sheave.on].at)[1] - sheave.pitch_diameter.value / 2 + 1e-6
    for body in rig.bodies.values():
        if body.role == "counterweight":
            assert coordinates(body.at)[1] - travel >= 0.1 - 1e-6
    assert all(isinstance(q, Quantity) for q in load.at)


@EVERY
@pytest.mark.parametrize("kind", ROPE_KINDS)
def test_no_end_is_offered_that_is_none_for_the_kind_of_rope_and_that_of_another_kind_is_left_alone(arrangement, kind):
    said, otherwise = (("ends", "ends_fibre"), ("ends_fibre", "ends"))[kind == "fibre"]
    offered, other = (next(choice.options for choice in arrangement.choices if choice.key == key) for key in (said, otherwise))
    assert offered == (UNKNOWN, *end_fittings(kind))
    rope = {"steel": "steel, 7x19", "fibre": "fibre, manila"}[kind]
    rig = arrangement.make(arrangement.defaults() | {"rope": rope, said: offered[1], otherwise: other[1]})
    fittings = {stop.fitting for rope in rig.ropes.values() for stop in rope.path if hasattr(stop, "made_fast_to")}
    assert fittings == {offered[1]}


@EVERY
def test_every_choice_may_be_left_unknown_and_what_is_drawn_for_it_all_the_same_is_a_guess(arrangement):
    for choice in arrangement.choices:
        (unknown,) = [option for option in choice.options if option.startswith(UNKNOWN)]
        known = arrangement.make(arrangement.defaults() | {choice.key: choice.options[-2]})
        rig = arrangement.make(arrangement.defaults() | {choice.key: unknown})
        if choice.key in ("rope", "stands", "lead", "held", "rove", "parts", "people"):
            assert set(guesses(rig)) - set(guesses(known)), choice.key
            assert "drawn" in unknown or choice.key in ("rope", "people")


@EVERY
def test_a_rope_of_which_nobody_knows_whether_it_is_steel_has_no_strength_and_no_end_until_somebody_looks(arrangement):
    said = {"rope": UNKNOWN, "grade": "1770 N/mm²", "ends": "wedge socket", "ends_fibre": "bowline", "condition": "new, no fault found"}
    found = assess(arrangement.make(arrangement.defaults() | said))
    assert any("nobody has looked yet whether it is steel or fibre" in line for line in found.guesses)
    assert all(least_ratio(what, "steel").value >= least_ratio(what, "fibre").value for what in ("sheave", "drum"))
    of_ropes = [check for check in found.checks if check.id.startswith("rope.")]
    strengths = [check for check in of_ropes if check.id.endswith(("-end", ".drum")) or ".sheave." in check.id]
    assert {check.verdict for check in strengths} == {CANNOT_TELL}


def test_what_turns_the_drum_may_be_unknown_and_is_then_asked_for():
    arrangement = ARRANGEMENTS["straight"]
    checks = assess(arrangement.make(arrangement.defaults() | {"worked_by": UNKNOWN})).checks
    (motor,) = [check for check in checks if check.item == "motor"]
    assert (motor.verdict, motor.reason) == (CANNOT_TELL, "Nothing turns the drum: describe a motor or a crank.")


@EVERY
@pytest.mark.parametrize("said", ["used, no fault found", "worn or damaged"])
def test_a_rope_that_is_used_or_worn_is_noted_so_and_its_strength_is_not_made_up(arrangement, said):
    rig = arrangement.make(arrangement.defaults() | {"condition": said})
    for rope in rig.ropes.values():
        assert rope.remaining_strength is None
        assert rope.notes["remaining_strength"] == f"{said}: how much of its strength is left is not known yet"
    conditions = [check.verdict for check in assess(rig).checks if check.id.endswith(".condition")]
    assert conditions == [CANNOT_TELL] * len(rig.ropes)


@EVERY
@pytest.mark.parametrize("worked_by", ["gear-motor with worm", "gear-motor with spur gears", "crank on the drum", UNKNOWN])
def test_every_number_in_the_rig_was_asked_for_or_is_listed_as_a_guess(arrangement, worked_by):
    said = {"worked_by": worked_by, "ratio": "30", "voltage": "24 V", "dead_wraps": "3", "condition": "new, no fault found"}
    values = arrangement.defaults() | {key: option for key, option in said.items() if key in arrangement.defaults()}
    rig = arrangement.make(values)
    listed = guesses(rig)
    typed = {"1", *values.values()}  # 1 is the share of strength of a new rope
    for where, field, value, note in numbers_of(rig):
        if str(value).removesuffix(".0") not in typed:
            assert any(note and note in line for line in listed), (where, field, value)


def numbers_of(part, where=()):
    """Every stated number of a rig: where it is, its field, its value as typed, and its note."""
    for name in type(part).model_fields:
        value = getattr(part, name)
        if name in ("format", "notes", "basis") or value is None or name not in part.model_fields_set:
            continue
        children = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, tuple) else [("", value)]
        for key, child in children:
            if hasattr(type(child), "model_fields"):
                yield from numbers_of(child, (*where, name, key))
        if isinstance(value, Quantity) or (isinstance(value, int | float) and not isinstance(value, bool)):
            yield where, name, value.text if isinstance(value, Quantity) else value, part.notes.get(name, "")


@pytest.mark.parametrize(
    ("slug", "typed", "told"),
    [
        ("straight", {"worked_by": "crank on the drum"}, "drive, crank, radius"),
        ("straight", {"worked_by": "crank on the drum"}, "drive, crank, people"),
        ("straight", {}, "drive, drum, at"),
        ("straight-counterweight", {}, "bodies, load, picks"),
        ("straight-counterweight", {}, "bodies, counterweight, at"),
        ("tackle", {}, "ropes, hoist rope, path: 4 parts of line"),
        ("tackle-hand", {}, "drive, people"),
        ("tackle-hand", {}, "pulled by hand at"),
        ("two-falls", {}, "points, hanger of left head sheave, at"),
        ("two-falls", {"held": "in guides, free to tilt"}, "bodies, load, centre of gravity"),
        ("two-falls", {"worked_by": "gear-motor with spur gears", "ratio": "30"}, "drive, gears, 1, ratio"),
        ("kiln-lid", {}, "bodies, load, at: its underside level with the hinge"),
        ("kiln-lid", {}, "bodies, load, centre of gravity: half of the length"),
        ("kiln-lid", {}, "bodies, load, picks"),
        ("kiln-lid", {}, "bodies, counterweight, at: its middle level with the hinge"),
    ],
)
def test_what_the_arrangement_puts_in_by_itself_is_listed_among_the_guesses(slug, typed, told):
    arrangement = ARRANGEMENTS[slug]
    assert any(told in line and "guess" in line for line in assess(arrangement.make(arrangement.defaults() | typed)).guesses)


def test_parts_and_people_that_were_counted_are_no_guess():
    arrangement = ARRANGEMENTS["tackle-hand"]
    rig = arrangement.make(arrangement.defaults() | {"parts": "4", "people": "2"})
    assert rig.drive.people == 2
    assert not any("counted" in line for line in guesses(rig))


@pytest.mark.parametrize(("long", "arm"), [("1.2 m", "0.8 m"), ("2 m", "1.5 m"), ("700 mm", "0.2 m")])
def test_a_kiln_lid_reaches_as_far_as_typed_and_its_weight_keeps_clear_of_the_floor_all_the_way(long, arm):
    arrangement = ARRANGEMENTS["kiln-lid"]
    rig = arrangement.make(arrangement.defaults() | {"lid_length": long, "arm_length": arm})
    hinge, weight = coordinates(rig.load.moves.hinge), rig.bodies["counterweight"]
    eye = [a + b for a, b in zip(coordinates(rig.load.at), coordinates(rig.load.picks["eye"]), strict=True)]
    assert eye[0] - hinge[0] == pytest.approx(read(long, "length").value)
    middle = [a + b for a, b in zip(coordinates(weight.at), coordinates(weight.centre_of_gravity), strict=True)]
    assert (hinge[0] - middle[0], middle[1]) == (pytest.approx(read(arm, "length").value), pytest.approx(hinge[1]))
    assert rig.carrier("counterweight") == "load"
    half_wide, half_high = (side.value / 2 for side in weight.size)
    assert hinge[1] - read(arm, "length").value - max(half_wide, half_high) > 0


def test_a_kiln_lid_is_not_swung_until_its_rope_runs_through_the_hinge():
    arrangement = ARRANGEMENTS["kiln-lid"]
    with pytest.raises(InputError, match="into line with the hinge"):
        arrangement.make(arrangement.defaults() | {"swing": "104 deg"})


@pytest.mark.parametrize("slug", ["tackle", "tackle-hand"])
@pytest.mark.parametrize("parts", ["2", "3", "4", "5", "6"])
def test_all_that_the_upper_block_carries_is_told_as_one_force_on_the_building(slug, parts):
    rig = ARRANGEMENTS[slug].make({**ARRANGEMENTS[slug].defaults(), "parts": parts})
    on_block = [sheave.on for name, sheave in rig.sheaves.items() if name.startswith("upper")]
    assert on_block == ["upper block"] * ((int(parts) + 1) // 2)
    solution = assess(rig).solution
    told = next(line for line in solution.working.lines if line.sign.letter == "R_upper block, raising")
    across, up, _ = -solution.travel.paths["hoist rope"].directions[-1][0]  # of the lead line, which leads down from the block
    lead_n = solution.drive_pull["raising"].value.max()
    by_hand_n = math.hypot(lead_n * across, rig.load.mass.value * 9.80665 + lead_n * up)
    assert told.value.max() == pytest.approx(by_hand_n, rel=2e-3)


@pytest.mark.parametrize("worked_by", ["gear-motor with worm", "gear-motor with spur gears"])
@pytest.mark.parametrize("ratio", ["1.5", "46.8", "480", "10000", "60"])
def test_any_ratio_can_be_given_and_the_stages_together_have_it(worked_by, ratio):
    values = {**ARRANGEMENTS["straight"].defaults(), "worked_by": worked_by, "ratio": ratio}
    gears = ARRANGEMENTS["straight"].make(values).drive.gears
    assert math.prod(gear.ratio for gear in gears) == pytest.approx(float(ratio), rel=1e-9)
    if worked_by.endswith("spur gears"):
        assert all(gear.ratio <= 5 + 1e-9 for gear in gears)
        assert all("guess" in gear.notes["ratio"] for gear in gears)


@pytest.mark.parametrize("ratio", ["many", "1", "-4", "20000", "50 ± 1", "5 mm", ""])
def test_a_ratio_that_is_none_is_refused_at_its_label(ratio):
    with pytest.raises(InputError) as refused:
        ARRANGEMENTS["straight"].make({**ARRANGEMENTS["straight"].defaults(), "ratio": ratio})
    assert refused.value.where == "Gear ratio"


def test_every_fault_of_the_answers_is_found_at_once_by_its_key():
    values = {**ARRANGEMENTS["straight"].defaults(), "mass": "heavy", "rope_diameter": "100 mm", "head_height": "1 m", "ratio": "many"}
    assert set(ARRANGEMENTS["straight"].faults(values)) == {"mass", "sheave_diameter", "head_height", "ratio"}


@pytest.mark.parametrize("slug", list(ARRANGEMENTS))
def test_a_number_that_cannot_be_read_makes_no_fault_of_another_one(slug):
    arrangement = ARRANGEMENTS[slug]
    for item in arrangement.inputs:
        assert set(arrangement.faults({**arrangement.defaults(), item.key: "some"})) == {item.key}
