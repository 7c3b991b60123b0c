"""Whole errands in a real browser: from nothing to a verdict and a report, and nothing that was typed is ever lost."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest
from playwright.sync_api import expect

from rigcheck.rig import files
from tests.browser.serving import HOME
from tests.pages.conftest import PAGES

OTHER_PAGES = [title for title in PAGES if title != "Begin"]


def test_ones_own_rig_from_nothing_to_a_verdict_and_a_saved_report(watched, tmp_path):
    page = watched.page
    expect(page.locator(".rc-sentence")).to_contain_text("it holds")
    page.locator(".sheet svg").first.wait_for()

    watched.pick_card("straight")
    watched.see("Straight lift over one sheave")
    numbers = {
        "Mass of the load [kg]": "95",
        "Height of the load [m]": "0.5",
        "Travel [m]": "1.2",
        "Height of the head sheave [m]": "3.2",
        "Diameter of the sheaves [mm]": "150",
        "Diameter of the rope [mm]": "6",
        "Diameter of the drum [mm]": "150",
        "Distance from the load to the winch [m]": "1.8",
    }
    assert len(numbers) <= 8
    for label, text in numbers.items():
        watched.type_in(label, text)
    watched.sentence("With 95 kg")
    page.locator(".sheet svg").filter(has_text="travel 1.2 m").wait_for()

    watched.go_to("Report")
    report, rig_file = watched.save("Save the report as PDF"), watched.save("Save the rig file")
    assert Path(report.path()).read_bytes().startswith(b"%PDF-")
    assert rig_file.suggested_filename.endswith(".rig.json")
    saved = files.load(rig_file.path())
    assert (saved.load.mass.text, saved.limits.travel.text) == ("95 kg", "1.2 m")
    answer = json.loads(Path(watched.save("Save every number as JSON").path()).read_text())
    assert answer["rig"] == saved.name


def test_a_saved_rig_file_is_opened_again(watched, tmp_path):
    watched.begin("straight")
    watched.type_in("Mass of the load [kg]", "95")
    watched.sentence("With 95 kg")
    saved = watched.save("Save the rig file")
    saved.save_as(tmp_path / "mine.rig.json")
    watched.begin("well-crank")
    watched.choose("What to do", "Begin with another")
    watched.page.locator("[data-testid=stFileUploader] input[type=file]").set_input_files(tmp_path / "mine.rig.json")
    watched.sentence("With 95 kg")


def test_what_cannot_be_read_is_told_at_once_and_mended(watched):
    page = watched.page
    watched.begin("straight")
    watched.type_in("Height of the head sheave [m]", "three")
    watched.see("older result")
    page.locator(".rc-fault").filter(has_text="does not begin with a number").first.wait_for()
    expect(watched.field("Height of the head sheave [m]")).to_have_value("three")
    watched.type_in("Height of the head sheave [m]", "3.2")
    expect(page.locator(".rc-fault")).to_have_count(0)


def test_a_broken_file_is_told_and_the_rig_stays(watched, tmp_path):
    watched.begin("loft-lift")
    (tmp_path / "broken.rig.json").write_text('{"format": 1, "name": ')
    watched.choose("What to do", "Begin with another")
    watched.page.locator("[data-testid=stFileUploader] input[type=file]").set_input_files(tmp_path / "broken.rig.json")
    watched.page.locator(".rc-fault").filter(has_text="the file is not JSON").wait_for()
    watched.see("loft lift")


def test_what_was_typed_survives_a_reload_every_page_undo_and_redo(watched):
    page = watched.page
    watched.begin("tackle")
    watched.type_in("Mass of the load [kg]", "88")
    watched.sentence("With 88 kg")
    for title in [*OTHER_PAGES, "Begin"]:
        watched.go_to(title)
        watched.see("Tackle on a winch")
        assert page.get_by_text("could not be shown").count() == 0
    page.reload()
    watched.sentence("With 88 kg")
    expect(watched.field("Mass of the load [kg]")).to_have_value("88")
    page.get_by_role("button", name="Undo", exact=True).click()
    watched.sentence("With 120 kg")
    page.get_by_role("button", name="Redo", exact=True).click()
    watched.sentence("With 88 kg")


def test_a_number_and_enter_and_the_next_page_at_once(watched):
    watched.begin("straight")
    watched.type_in("Mass of the load [kg]", "91")
    watched.go_to("Verdicts")
    watched.go_to("Begin")
    watched.sentence("With 91 kg")


def test_nothing_is_lost_when_a_fast_typist_goes_from_field_to_field(watched):
    page = watched.page
    watched.begin("straight")
    entered = {"Mass of the load [kg]": "91", "Travel [m]": "1.1", "Diameter of the rope [mm]": "5", "Diameter of the drum [mm]": "100"}
    for label, text in entered.items():
        watched.field(label).click()
        page.keyboard.press("Control+a")
        page.keyboard.type(text, delay=40)
        page.keyboard.press("Tab")
    watched.sentence("With 91 kg")
    for label, text in entered.items():
        expect(watched.field(label)).to_have_value(text)
    saved = files.load(watched.save("Save the rig file").path())
    assert (saved.load.mass.text, saved.limits.travel.text, saved.ropes["hoist rope"].diameter.text) == ("91 kg", "1.1 m", "5 mm")
    assert saved.drive.drum.diameter.text == "100 mm"


def test_units_switch_everywhere_at_once(watched):
    page = watched.page
    watched.begin("loft-lift")
    page.get_by_role("radiogroup", name="Units").get_by_text("US", exact=True).click()
    page.locator(".rc-sight").filter(has_text=" lb").wait_for()
    for title in OTHER_PAGES:
        watched.go_to(title)
        expect(page.locator(".rc-sight")).to_contain_text(" lb")
    page.get_by_role("radiogroup", name="Units").get_by_text("metric", exact=True).click()
    page.locator(".rc-sight").filter(has_text=" kg").wait_for()


@pytest.mark.parametrize("narrow", ["light", "dark"], indirect=True)
def test_a_telephone_shows_every_page_without_scrolling_sideways(narrow):
    page = narrow.page
    narrow.begin("loft-lift")
    page.locator(".sheet svg[viewBox^='0 0 360']").wait_for()
    for title in [*OTHER_PAGES, "Begin"]:
        narrow.go_to(title)
        narrow.see("loft lift")
        assert page.evaluate("document.querySelector('[data-testid=stMain]').scrollWidth <= window.innerWidth"), title


def test_the_keyboard_alone_reaches_a_verdict(watched):
    page = watched.page
    page.locator(".card").first.wait_for()
    for _ in range(60):
        page.keyboard.press("Tab")
        slug = page.evaluate(
            "document.activeElement?.shadowRoot?.activeElement?.dataset?.slug ?? document.activeElement?.dataset?.slug ?? ''"
        )
        if slug == "straight":
            break
    assert slug == "straight"
    page.keyboard.press("Enter")
    watched.see("Straight lift over one sheave")
    watched.field("Mass of the load [kg]").focus()
    page.keyboard.press("Control+a")
    page.keyboard.type("84")
    page.keyboard.press("Enter")
    watched.sentence("With 84 kg")


def test_a_rope_that_falls_short_is_replaced_by_one_that_holds_and_put_back(watched):
    page = watched.page
    watched.begin("straight")
    watched.type_in("Mass of the load [kg]", "400")
    watched.sentence("With 400 kg")
    before = files.load(watched.save("Save the rig file").path()).ropes["hoist rope"]
    watched.go_to("Ropes")
    watched.choose("What to look at", "Other ropes")
    page.get_by_role("button", name=re.compile("^Try it: ")).first.click()
    page.get_by_role("button", name="Put the rope back that was there").wait_for()
    watched.still()
    tried_file = watched.save_on("Report", "Save the rig file")
    tried = files.load(tried_file)
    rope = tried.ropes["hoist rope"]
    assert rope != before
    told = subprocess.run(
        [sys.executable, "-m", "rigcheck", "check", str(tried_file), "--json"], cwd=HOME, capture_output=True, text=True, check=False
    )
    answer = json.loads(told.stdout)
    own = [check for check in answer["checks"] if check["id"].startswith("rope.hoist rope.") and check["unit"] == "N"]
    assert own
    assert not [check["id"] for check in own if check["verdict"] == "falls short"]
    page.get_by_role("button", name="Undo", exact=True).click()
    watched.still()
    assert files.load(watched.save_on("Report", "Save the rig file")).ropes["hoist rope"] == before


def test_what_is_typed_just_before_the_press_stands_in_the_file_that_is_saved(watched):
    watched.begin("straight")
    watched.field("Mass of the load [kg]").fill("87")
    assert files.load(watched.save("Save the rig file").path()).bodies["load"].mass.value == 87
    watched.go_to("Report")
    with watched.page.expect_download() as waiting:
        watched.page.get_by_role("button", name="Undo", exact=True).click()
        watched.page.get_by_role("button", name="Save the rig file").click()
    assert files.load(waiting.value.path()).bodies["load"].mass.value != 87
