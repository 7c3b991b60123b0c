"""The drive as it is against hand calculation, and other ratios and drums against the rig file with just that changed."""

import json
import math

import numpy
import pytest

from rigcheck import units
from rigcheck.checks.assessment import assess
from rigcheck.rig import examples, files
from rigcheck.rig.model import Rig
from rigcheck.whatif import other_drive
from rigcheck.whatif.changing import as_typed, with_edits
from rigcheck.whatif.drive_figures import drive_figures, effort, missing_for_motor_line, motor_line, open_questions
from rigcheck.whatif.rope_on_drum import ropes_on_drum

G = 9.80665
ROLLING = 1.04
"""Pull after over pull before a sheave on rolling bearings, Wire Rope Users Manual's table of line parts."""


def changed(name: str, change) -> Rig:
    data = json.loads(files.dumps(examples.example(name)))
    change(data)
    return Rig.model_validate(data)


def by_hand(*, pull_n, radius_m, ratio, efficiency, motor, supply_v, loop_ohm, travel_m):
    """The motor's two equations solved together: V = V_supply - R I and I = I_free V / V_0 + T (I_stall - I_free) / T_stall."""
    torque = pull_n * radius_m / (ratio * efficiency)
    free, stall = motor["free_a"], motor["stall_a"]
    slope = (stall - free) / motor["stall_nm"]
    volts, amps = numpy.linalg.solve([[1.0, loop_ohm], [-free / motor["v"], 1.0]], [supply_v, torque * slope])
    turning = motor["free_rpm"] * 2 * math.pi / 60 * (volts / motor["v"] - torque / motor["stall_nm"])
    speed = turning / ratio * radius_m
    return {"torque": torque, "volts": volts, "amps": amps, "turning": turning, "speed": speed, "time": travel_m / speed}


LOFT = {
    "pull_n": 200 * G * ROLLING**2, "radius_m": (0.125 + 0.006) / 2, "ratio": 5 * 6 * 4, "efficiency": 0.97 * 0.97 * 0.98, "supply_v": 24.0,
    "motor": {"v": 24.0, "free_rpm": 3000, "free_a": 2.0, "stall_nm": 9.0, "stall_a": 120.0}, "travel_m": 3.2,
    "loop_ohm": 0.015 + 2 * 3 * 1.91e-3 * 1.04,  # 10 mm², class 5, and 10 K above 20 °C at 0.4 % a kelvin
}  # fmt: skip
STUDIO = {
    "pull_n": (90 - 65 / ROLLING**2) * G * ROLLING, "radius_m": (0.1 + 0.005) / 2, "ratio": 6 * 6 * 3, "efficiency": 0.95 * 0.95 * 0.97, "supply_v": 24.0,
    "motor": {"v": 24.0, "free_rpm": 3000, "free_a": 0.8, "stall_nm": 3.0, "stall_a": 40.0}, "travel_m": 2.5,
    "loop_ohm": 0.03 + 2 * 5 * 4.95e-3 * 1.04,  # 4 mm²
}  # fmt: skip


@pytest.mark.parametrize(("name", "numbers"), [("loft-lift", LOFT), ("studio-counterweight", STUDIO)])
def test_working_point_speed_current_and_time_agree_with_hand_calculation(name, numbers):
    wanted, found = by_hand(**numbers), drive_figures(assess(examples.example(name)))
    assert found.most_torque.number == pytest.approx(wanted["torque"], rel=1e-9)
    assert found.least_voltage.number == pytest.approx(wanted["volts"], rel=1e-9)
    assert found.most_current.number == pytest.approx(wanted["amps"], rel=1e-9)
    assert found.motor_speed.number == pytest.approx(wanted["turning"], rel=1e-9)
    assert found.least_speed.number == pytest.approx(wanted["speed"], rel=1e-9)
    assert found.time.number == pytest.approx(wanted["time"], rel=1e-9)
    assert found.power_drawn.number == pytest.approx(24.0 * wanted["amps"], rel=1e-9)
    assert found.shaft_power.number == pytest.approx(wanted["torque"] * wanted["turning"], rel=1e-9)
    assert found.held.number * numbers["ratio"] == pytest.approx(found.drum_torque["standing still, most"].number)


@pytest.mark.parametrize("name", ["loft-lift", "studio-counterweight", "gallery-crate", "bakery-flour-hoist"])
def test_the_working_point_lies_on_the_line_that_is_drawn(name):
    assessment = assess(examples.example(name))
    found = drive_figures(assessment)
    line = motor_line(assessment, found)
    on_line = numpy.interp(found.motor_torque.value, line.torques_nm, line.speeds_rad_s)
    assert on_line == pytest.approx(numpy.asarray(found.motor_speed.value))
    assert line.speeds_rad_s[-1] == pytest.approx(0.0, abs=1e-9)
    assert line.torques_nm[-1] < line.stated_torques_nm[-1], "supply and cable take some of the stall torque"


def test_a_motor_that_stands_has_a_line_but_no_speed_and_no_time():
    found = drive_figures(assess(examples.example("tired-hoist")))
    assert found.stands
    assert found.most_torque.number > found.start_given.number
    assert found.load_speed is None
    assert found.time is None


def test_what_is_not_known_is_named_and_nothing_is_told():
    assessment = assess(examples.example("found-winch"))
    found = drive_figures(assessment)
    assert all(value is None for name, value in vars(found).items() if name not in ("drum_torque", "stands"))
    assert found.drum_torque == {}
    assert motor_line(assessment, found) is None
    assert {
        "the motor's stall torque",
        "the motor's no-load speed",
        "the cable's area and length",
        "the efficiency of gear stage 1",
    } <= set(missing_for_motor_line(assessment.rig))
    assert "motor.running" in [check.id for check in open_questions(assessment)]


@pytest.mark.parametrize(
    "change",
    [
        lambda d: d["drive"]["supply"].pop("resistance"),
        lambda d: d["drive"].pop("cable"),
        lambda d: d["drive"]["motor"].pop("stall_current"),
        lambda d: d["drive"]["motor"].update(voltage="12 V"),
        lambda d: d["drive"]["motor"].update(no_load_current="130 A"),
        lambda d: d["drive"]["motor"].update(no_load_speed="9000 rpm"),  # more power out than in
        lambda d: d["drive"]["drum"].pop("dead_wraps"),
    ],
)
def test_no_speed_current_or_time_is_told_while_a_check_of_the_motor_cannot_tell(change):
    found = drive_figures(assess(changed("loft-lift", change)))
    assert [found.current, found.most_current, found.load_speed, found.least_speed, found.time, found.voltage, found.power_drawn] == [
        None
    ] * 7


def test_without_a_no_load_speed_there_is_a_current_but_no_line_and_no_speed():
    assessment = assess(changed("loft-lift", lambda d: d["drive"]["motor"].pop("no_load_speed")))
    found = drive_figures(assessment)
    assert found.most_current.number == pytest.approx(by_hand(**LOFT)["amps"])
    assert found.load_speed is None
    assert motor_line(assessment, found) is None
    assert missing_for_motor_line(assessment.rig) == ["the motor's no-load speed"]


# -- other ratios and drums ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("stage", [0, 2])
def test_another_ratio_is_assessed_as_the_rig_file_with_that_ratio(stage):
    found = assess(examples.example("loft-lift"))
    for change in other_drive.other_ratios(found, stage):
        tried = other_drive.try_drive(found.rig, change)
        ratio = float(change.words.removeprefix("1:"))
        wanted = assess(changed("loft-lift", lambda d, ratio=ratio: d["drive"]["gears"][stage].update(ratio=ratio)))
        assert tried.counts == wanted.counts
        assert tried.rated_load_kg == wanted.whole.rated_load_kg
        assert tried.motor_torque_nm == wanted.motor_torque_nm
        numbers = by_hand(**LOFT | {"ratio": LOFT["ratio"] / found.rig.drive.gears[stage].ratio * ratio})
        assert tried.speed_m_s == pytest.approx(numbers["speed"], rel=1e-9)
        assert tried.current_a == pytest.approx(numbers["amps"], rel=1e-9)
        assert tried.time_s == pytest.approx(numbers["time"], rel=1e-9)


def test_the_present_ratio_stands_among_its_neighbours_with_its_own_figures():
    found = assess(examples.example("loft-lift"))
    changes = other_drive.other_ratios(found, 0)
    assert [change.words for change in changes] == ["1:2.5", "1:3.15", "1:4", "1:5", "1:6.3", "1:8", "1:10"]
    assert [change.is_present for change in changes].index(True) == 3
    present = other_drive.of_assessment(found, changes[3])
    assert present.counts == found.counts
    assert present.motor_torque_nm == found.motor_torque_nm


def test_where_the_motor_is_too_weak_a_ratio_that_gives_torque_enough_is_among_those_tried():
    found = assess(examples.example("tired-hoist"))
    change = other_drive.other_ratios(found, 0)[-1]
    ids = {check.id: check.verdict for check in assess(with_edits(found.rig, change.edits)).checks}
    assert ids["motor.running"] == ids["motor.starting"] == "holds"
    assert change.words == "1:250"  # 30 · 1.678 N·m / 0.25 N·m = 201.4


def test_another_drum_keeps_its_flanges_as_far_out_and_is_assessed_as_its_rig_file():
    found = assess(examples.example("loft-lift"))
    changes = other_drive.other_drums(found.rig)
    assert [change.words for change in changes] == ["90 mm", "100 mm", "112 mm", "125 mm", "140 mm", "160 mm", "180 mm"]
    for change in changes:
        tried = other_drive.try_drive(found.rig, change)
        core = float(change.words.removesuffix(" mm"))
        wanted = assess(
            changed("loft-lift", lambda d, core=core: d["drive"]["drum"].update(diameter=f"{core} mm", flange_diameter=f"{core + 45} mm"))
        )
        assert tried.counts == wanted.counts
        assert tried.rated_load_kg == pytest.approx(wanted.whole.rated_load_kg)
        assert tried.motor_torque_nm == pytest.approx(wanted.motor_torque_nm)
        (bend,) = tried.bends
        assert (bend.rope, bend.least) == ("hoist rope", 18)
        assert bend.ratio == pytest.approx(core / 6)
        assert bend.verdict == ("holds" if core / 6 >= 18 else "falls short")


def test_a_drum_in_inches_goes_by_halves_and_keeps_its_unit():
    rig = changed("loft-lift", lambda d: d["drive"]["drum"].update(diameter="5 in"))
    assert [change.words for change in other_drive.other_drums(rig)] == ["3.5 in", "4 in", "4.5 in", "5 in", "5.5 in", "6 in", "6.5 in"]


def test_another_drum_at_a_crank_tells_the_effort_and_no_motor():
    rig = examples.example("well-crank")
    tried = other_drive.try_drive(rig, other_drive.other_drums(rig)[0])
    assert tried.effort_of_one_n == pytest.approx(40 * G * 1.09 * (0.080 + 0.005) / 2 / 0.35)  # a plain bush: 1.09
    assert tried.motor_torque_nm is None
    assert effort(assess(with_edits(rig, other_drive.other_drums(rig)[0].edits))).most_n == tried.effort_of_one_n


def test_a_change_that_cannot_be_worked_out_tells_why():
    rig = examples.example("loft-lift")
    broken = other_drive.Change("5 km", ((("drive", "drum", "diameter"), "5 km"),))
    tried = other_drive.try_drive(rig, broken)
    assert tried.fault
    assert tried.counts is None


def test_a_changed_value_says_that_it_was_chosen_and_no_longer_that_it_was_measured():
    rig = examples.example("loft-lift")
    made = with_edits(rig, other_drive.other_drums(rig)[0].edits)
    assert made.drive.drum.notes["diameter"] == other_drive.CHOSEN
    assert rig.drive.drum.notes["diameter"] == "measured with a caliper"


@pytest.mark.parametrize(
    ("typed", "kind", "value", "text"),
    [("65 kg ± 1 kg", "mass", 79.28, "79.28 kg"), ("65,5 kg", "mass", 79.25, "79,25 kg"), ("65,5 kg", "mass", 79.125, "79.125 kg"),
     ("140 lb", "mass", 50.0, "110.2 lb"), ("5 ft 6 in", "length", 1.5, "1.5 m"), ("4 1/2 in", "length", 0.0508, "0.0508 m")],
)  # fmt: skip
def test_a_new_value_is_written_in_the_unit_and_with_the_decimal_mark_of_the_old(typed, kind, value, text):
    found = as_typed(units.read(typed, kind), value, digits=5 if text == "79.125 kg" else 4)
    assert found == text
    assert units.read(found, kind).value == pytest.approx(value, rel=1e-3)


# -- by hand, and the rope on the drum -----------------------------------------------------------------------------------


def test_the_effort_of_each_is_that_of_the_check_at_its_greatest():
    for name, id in (("well-crank", "crank.effort"), ("boat-engine", "hand.pull")):
        found = assess(examples.example(name))
        told, check = effort(found), next(c for c in found.checks if c.id == id)
        assert max(value.max() for value in told.of_one_n.values()) == pytest.approx(told.most_n)
        assert told.most_n == check.demand.number
        assert told.customary_n == check.capacity.number
        assert told.source == "common practice, no source"


def test_turns_on_the_drum_agree_with_the_rope_that_the_lift_winds_in():
    (rope,) = ropes_on_drum(assess(examples.example("loft-lift")))
    round_it = math.pi * 0.131
    assert rope.turns_down == pytest.approx(4.0)
    assert rope.turns_up == pytest.approx(4.0 + 3.2 / round_it)
    assert rope.most_m == pytest.approx(4 * round_it + 3.2)
    assert rope.per_layer == 16
    assert rope.layers_fitting == 2  # (170 - 125) / 2 - 1.5 · 6 leaves 13.5 mm
    assert rope.room_m == pytest.approx(math.pi * 16 * (0.131 + 0.143))


def test_ropes_of_one_diameter_lie_alike_each_under_its_own_name():
    left, right = ropes_on_drum(assess(examples.example("kiln-shell")))
    assert (left.name, right.name) == ("left rope", "right rope")
    assert left.turns_up == right.turns_up


def test_a_drum_without_stated_dead_wraps_says_nothing_of_its_turns():
    assert ropes_on_drum(assess(changed("loft-lift", lambda d: d["drive"]["drum"].pop("dead_wraps")))) == []
