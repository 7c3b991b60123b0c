"""The errand in a real browser: begin, type, read the verdict, change rope and motor, take the papers away, open them again."""

from __future__ import annotations

import json
from pathlib import Path

from playwright.sync_api import expect

from rigcheck.rig import files


def test_the_whole_errand(watched, tmp_path):
    page = watched.page
    watched.choose("How is it rigged?", "Straight lift over one sheave")
    watched.see("Straight lift over one sheave")
    page.locator(".sheet svg").wait_for()

    watched.type_in("Mass of the load [kg]", "95")
    watched.type_in("Travel [m]", "1.2")
    page.locator(".rc-sentence").filter(has_text="With 95 kg").wait_for()
    page.locator(".sheet svg").filter(has_text="travel 1.2 m").wait_for()

    watched.type_in("Height of the head sheave [m]", "three")
    watched.see("older result")
    page.locator(".rc-fault").filter(has_text="does not begin with a number").first.wait_for()
    expect(page.get_by_label("Height of the head sheave [m]", exact=True)).to_have_value("three")
    watched.type_in("Height of the head sheave [m]", "3.2")
    expect(page.locator(".rc-fault")).to_have_count(0)

    watched.go_to("Change parts")
    page.get_by_text("Ropes and ends", exact=True).click()
    watched.type_in("Diameter [mm]", "5")
    watched.type_in("Share of strength left", "1")
    page.get_by_text("The last change turned").first.wait_for()
    page.get_by_text("Drive", exact=True).click()
    watched.type_in("Torque at standstill [N·m]", "2.5")
    watched.type_in("Rated torque [N·m]", "0.5")

    watched.go_to("Verdicts")
    page.get_by_text("hoist rope, condition", exact=False).first.wait_for()

    watched.go_to("Report")
    report, rig_file = watched.save("Save the report as PDF"), watched.save("Save the rig file")
    report.save_as(tmp_path / "report.pdf")
    rig_file.save_as(tmp_path / "saved.rig.json")
    assert (tmp_path / "report.pdf").read_bytes().startswith(b"%PDF-")
    assert rig_file.suggested_filename.endswith(".rig.json")
    saved = files.load(tmp_path / "saved.rig.json")
    assert saved.load.mass.text == "95 kg"
    assert saved.ropes["hoist rope"].diameter.text == "5 mm"
    assert saved.drive.motor.stall_torque.text == "2.5 N·m"
    assert saved.drive.motor.rated_torque.text == "0.5 N·m"
    answer = watched.save("Save every number as JSON")
    answer.save_as(tmp_path / "answer.json")
    assert json.loads((tmp_path / "answer.json").read_text())["rig"] == saved.name

    watched.go_to("Begin")
    watched.choose("Begin with", "an example")
    watched.choose("Which scene?", "well crank")
    watched.see("well crank")
    watched.choose("Begin with", "a rig file")
    page.locator("input[type=file]").set_input_files(tmp_path / "saved.rig.json")
    watched.see(saved.name)
    page.locator(".rc-sentence").filter(has_text="With 95 kg").wait_for()


def test_a_broken_file_is_told_and_the_rig_stays(watched, tmp_path):
    watched.choose("Begin with", "an example")
    watched.choose("Which scene?", "loft lift")
    watched.see("loft lift")
    (tmp_path / "broken.rig.json").write_text('{"format": 1, "name": ')
    watched.choose("Begin with", "a rig file")
    watched.page.locator("input[type=file]").set_input_files(tmp_path / "broken.rig.json")
    watched.page.locator(".rc-fault").filter(has_text="the file is not JSON").wait_for()
    watched.see("loft lift")


def test_what_was_typed_survives_a_reload_and_every_page(watched):
    page = watched.page
    watched.choose("How is it rigged?", "Tackle on a winch")
    watched.see("Tackle on a winch")
    watched.type_in("Mass of the load [kg]", "88")
    page.locator(".rc-sentence").filter(has_text="With 88 kg").wait_for()
    for title in ("Change parts", "Pulls", "Verdicts", "Line by line", "Report", "Limits and sources", "Begin"):
        watched.go_to(title)
        watched.see("Tackle on a winch")
        assert page.get_by_text("could not be shown").count() == 0
    page.reload()
    page.locator(".rc-sentence").filter(has_text="With 88 kg").wait_for()
    expect(page.get_by_label("Mass of the load [kg]", exact=True)).to_have_value("88")


def test_nothing_is_lost_when_a_fast_typist_goes_from_field_to_field(watched):
    page = watched.page
    watched.choose("How is it rigged?", "Straight lift over one sheave")
    watched.see("Straight lift over one sheave")
    watched.go_to("Change parts")
    page.get_by_text("Ropes and ends", exact=True).click()
    for label, text in (
        ("Diameter [mm]", "wrong"),
        ("Share of strength left", "0.9"),
        ("Minimum breaking force [kN]", "18"),
        ("Diameter [mm]", "5"),
    ):
        field = page.get_by_label(label, exact=True)
        field.click()
        page.keyboard.press("Control+a")
        page.keyboard.type(text, delay=60)
        page.keyboard.press("Tab")
    watched.see("Straight lift over one sheave")
    expect(page.locator(".rc-fault")).to_have_count(0)
    for label, text in (("Diameter [mm]", "5"), ("Share of strength left", "0.9"), ("Minimum breaking force [kN]", "18")):
        expect(page.get_by_label(label, exact=True)).to_have_value(text)
    saved = files.loads(Path(watched.save_on("Report", "Save the rig file")).read_text(encoding="utf-8"))
    rope = saved.ropes["hoist rope"]
    assert (rope.diameter.text, rope.remaining_strength, rope.breaking_force.text) == ("5 mm", 0.9, "18 kN")


def test_the_height_moves_the_drawing(watched):
    page = watched.page
    watched.choose("Begin with", "an example")
    watched.choose("Which scene?", "loft lift")
    watched.see("loft lift")
    watched.go_to("Pulls")
    page.get_by_text("The load is 0 m above its lowest place").wait_for()
    page.get_by_role("slider").press("ArrowRight")
    page.get_by_text("The load is 0 m above its lowest place").wait_for(state="detached")
    page.locator(".sheet svg").wait_for()


def test_a_telephone_shows_every_page_without_scrolling_sideways(narrow):
    page = narrow.page
    narrow.choose("Begin with", "an example")
    narrow.choose("Which scene?", "loft lift")
    narrow.see("loft lift")
    page.locator(".sheet svg[width='360']").or_(page.locator(".sheet svg[viewBox^='0 0 360']")).wait_for()
    for title in ("Change parts", "Pulls", "Verdicts", "Line by line", "Report", "Limits and sources", "Begin"):
        narrow.go_to(title)
        narrow.see("loft lift")
        assert page.evaluate("document.querySelector('[data-testid=stMain]').scrollWidth <= window.innerWidth")
