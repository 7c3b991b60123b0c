"""The figures of the page of drum and motor are the lines that the checks rest on."""

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.checks.check import CANNOT_TELL
from rigcheck.rig import examples
from rigcheck.whatif.drive_figures import drive_figures


def current_of_the_cable(found) -> float:
    """The current by which the cable is judged."""
    (drop,) = [check.demand for check in found.checks if check.id == "cable.drop"]
    return drop.inputs["current"].number


@pytest.mark.parametrize("name", ["kiln-shell", "loft-lift", "bakery-flour-hoist", "tired-hoist", "studio-counterweight"])
def test_the_greatest_current_told_is_the_one_the_cable_is_judged_by(name):
    found = assess(examples.example(name))
    assert drive_figures(found).most_current.number == current_of_the_cable(found)


def test_what_is_open_about_starting_does_not_hide_the_running_current():
    """A worm of which only the running efficiency is stated: whether it starts cannot be told, but the cable is judged by what it draws running."""
    rig = examples.example("kiln-shell")
    running_only = {"efficiency": 0.45, "lead_angle": None, "friction": None, "friction_lowest": None}
    stages = tuple(stage.model_copy(update=running_only) if stage.kind == "worm" else stage for stage in rig.drive.gears)
    found = assess(rig.model_copy(update={"drive": rig.drive.model_copy(update={"gears": stages})}))
    verdicts = {check.id: check.verdict for check in found.checks}
    figures = drive_figures(found)
    assert verdicts["motor.starting"] == CANNOT_TELL
    assert verdicts["cable.drop"] != CANNOT_TELL
    assert figures.most_current.number == current_of_the_cable(found)
    assert figures.start_given is None
