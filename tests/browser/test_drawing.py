"""The drawing as an input, in a real browser: what is moved on it is in the rig that is saved, and the verdict is that of the saved rig."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from io import BytesIO

import pytest
from PIL import Image
from playwright.sync_api import expect

from rigcheck.rig import files

HEAD, LEAD = (f'.sheet [id="sheave:{which} sheave"]' for which in ("head", "lead"))
RUNS = 60
A_PIXEL_AND_A_HALF = 1.5
TRIES, SHORT_MS = 10, 40


def frame_of(watched, selector: str) -> tuple[float, float, float, float]:
    """Left, top, width and height of a mark in the window; asked in one breath, for an answer may lay the drawing anew at any moment."""
    mark, before = watched.page.locator(selector), None
    for _ in range(TRIES):
        found = mark.evaluate(
            """node => {
              if (!node.isConnected) return null;
              const before = node.getBoundingClientRect();
              if (before.top < 0 || before.bottom > innerHeight) node.scrollIntoView({ block: "center" });
              const frame = node.getBoundingClientRect();
              return [frame.x, frame.y, frame.width, frame.height];
            }"""
        )
        if found and found == before:
            return tuple(found)
        before = found
        watched.page.wait_for_timeout(SHORT_MS)
    raise AssertionError(f"{selector} did not come to rest")


def middle(watched, part: str) -> tuple[float, float]:
    left, top, width, height = frame_of(watched, f"{part} .rig-grip")
    return left + width / 2, top + height / 2


def hold_and_move(watched, part: str, right_px: float, down_px: float) -> None:
    """Take hold of a part and move it, without letting go; once more where the drawing was laid anew under the hand."""
    mouse, beside = watched.page.mouse, watched.page.locator(".beside text")
    for _ in range(TRIES):
        x, y = middle(watched, part)
        mouse.move(x, y)
        mouse.down()
        mouse.move(x + right_px / 2, y + down_px / 2)
        mouse.move(x + right_px, y + down_px)
        try:
            expect(beside).to_be_visible(timeout=1_000)
            return
        except AssertionError:
            mouse.up()
    raise AssertionError(f"{part} could not be taken hold of")


def can_undo(watched) -> None:
    expect(watched.page.get_by_role("button", name="Undo", exact=True)).to_be_enabled()
    watched.still()


def cannot_undo(watched) -> None:
    expect(watched.page.get_by_role("button", name="Undo", exact=True)).to_be_disabled()


def saved(watched, tmp_path):
    file = tmp_path / "moved.rig.json"
    watched.save("Save the rig file").save_as(file)
    return file


def place_of(file, point: str = "hanger of head sheave") -> tuple[str, str]:
    return tuple(q.text for q in files.load(file).points[point].at)


def written_beside(watched) -> tuple[str, str]:
    across, up = re.fullmatch(r"(.+) across, (.+) up", watched.page.locator(".beside text").text_content()).groups()
    return across, up


@pytest.fixture
def loft(watched):
    watched.begin("loft-lift")
    watched.page.locator(f"{HEAD} .rig-grip").wait_for(state="attached")
    return watched


def test_a_dragged_sheave_stands_where_it_was_let_go_and_the_verdicts_are_those_of_the_saved_file(loft, tmp_path):
    page = loft.page
    before = page.locator(".rc-sight").inner_text()
    hold_and_move(loft, HEAD, 40, 20)
    expect(page.locator(HEAD)).to_have_attribute("transform", re.compile("translate"))
    across, up = written_beside(loft)
    assert all(float(text.removesuffix(" m")) * 100 == pytest.approx(round(float(text.removesuffix(" m")) * 100)) for text in (across, up))
    page.mouse.up()
    page.wait_for_function("before => document.querySelector('.rc-sight').innerText !== before", arg=before)
    loft.still()
    page.locator(f"{HEAD}[aria-label*='{across} across, {up} up']").wait_for(state="attached")
    expect(page.locator(HEAD)).not_to_have_attribute("transform", re.compile("translate"))
    file = saved(loft, tmp_path)
    assert place_of(file) == (across, up)
    run = subprocess.run([sys.executable, "-m", "rigcheck", "check", str(file), "--json"], capture_output=True, text=True)
    told = json.loads(run.stdout)
    strip = page.locator(".rc-sight").inner_text()
    for verdict, words in (("holds", "hold"), ("falls short", "fall short"), ("cannot tell", "cannot tell")):
        count = sum(check["verdict"] == verdict for check in told["checks"])
        assert f"{count} {verdict if count == 1 else words}" in strip
    loft.go_to("Report")
    assert json.loads(loft.save("Save every number as JSON").path().read_text()) == told


def test_escape_puts_a_part_back_and_nothing_is_sent(loft, tmp_path):
    hold_and_move(loft, HEAD, 60, 70)
    loft.page.keyboard.press("Escape")
    loft.page.mouse.up()
    expect(loft.page.locator(HEAD)).not_to_have_attribute("transform", re.compile("translate"))
    expect(loft.page.locator(".told")).to_have_text("head sheave is put back.")
    cannot_undo(loft)
    assert place_of(saved(loft, tmp_path)) == ("0.0625 m", "4.8 m")


def test_arrow_keys_are_one_step_that_can_be_taken_back_and_the_focus_stays_on_the_part(loft, tmp_path):
    page = loft.page
    page.locator(HEAD).focus()
    for key in ("ArrowRight", "ArrowRight", "ArrowDown", "Shift+ArrowDown"):
        page.keyboard.press(key)
    expect(page.locator(".told")).to_have_text("head sheave: 0.083 m across, 4.789 m up")
    can_undo(loft)
    page.locator(f"{HEAD}[aria-label*='0.083 m across, 4.789 m up']").wait_for(state="attached")
    assert page.locator(HEAD).evaluate("node => node.getRootNode().activeElement === node")
    assert place_of(saved(loft, tmp_path)) == ("0.083 m", "4.789 m")
    page.get_by_role("button", name="Undo", exact=True).click()
    cannot_undo(loft)
    page.locator(f"{HEAD}[aria-label*='0.0625 m across, 4.8 m up']").wait_for(state="attached")


def test_two_parts_let_go_of_in_quick_succession_both_stay_where_they_were_put(loft, tmp_path):
    hold_and_move(loft, HEAD, 20, 30)
    head = written_beside(loft)
    loft.page.mouse.up()
    hold_and_move(loft, LEAD, 20, 20)
    lead = written_beside(loft)
    loft.page.mouse.up()
    loft.page.locator(f"{HEAD}[aria-label*='{head[0]} across, {head[1]} up']").wait_for(state="attached")
    loft.page.locator(f"{LEAD}[aria-label*='{lead[0]} across, {lead[1]} up']").wait_for(state="attached")
    loft.still()
    file = saved(loft, tmp_path)
    assert (place_of(file), place_of(file, "hanger of lead sheave")) == (head, lead)


def test_a_place_that_cannot_be_worked_out_stays_in_the_rig_and_the_last_good_drawing_in_view(loft):
    page = loft.page
    hold_and_move(loft, HEAD, 60, 90)
    page.mouse.up()
    loft.see("older result")
    expect(page.locator(".stale")).to_contain_text("Moved since then, and not worked out: point hanger of head sheave to")
    expect(page.locator(HEAD)).to_have_attribute("transform", re.compile("translate"))
    expect(page.locator(f"{HEAD}[aria-label*='0.0625 m across']")).to_have_count(1)
    page.get_by_role("button", name="Undo", exact=True).click()
    expect(page.locator(HEAD)).not_to_have_attribute("transform", re.compile("translate"))
    expect(page.locator(".stale")).to_be_hidden()


def test_a_press_and_enter_open_the_form_of_a_part(loft):
    page = loft.page
    page.mouse.click(*middle(loft, HEAD))
    page.wait_for_function("document.title === 'Change parts'")
    loft.still()
    page.locator('.sheet [id="rope:hoist rope"]').focus()
    page.keyboard.press("Enter")
    loft.field("Construction").first.wait_for()


def test_a_raised_body_moves_by_the_difference(watched, tmp_path):
    page = watched.page
    watched.begin("gallery-crate")
    watched.go_to("Ropes")
    page.get_by_role("slider").first.focus()
    page.keyboard.press("End")
    expect(page.locator(".how")).to_contain_text("The load is drawn raised")
    watched.still()
    page.locator('.sheet [id="body:crate"]').focus()
    page.keyboard.press("ArrowLeft")
    can_undo(watched)
    watched.go_to("Begin")
    assert [q.text for q in files.load(saved(watched, tmp_path)).load.at] == ["-0.01 m", "0 m"]


def test_in_us_units_a_step_is_half_an_inch(loft, tmp_path):
    page = loft.page
    page.get_by_role("radiogroup", name="Units").get_by_text("US", exact=True).click()
    page.locator(".rc-sight").filter(has_text=" lb").wait_for()
    loft.still()
    page.locator(HEAD).focus()
    page.keyboard.press("ArrowUp")
    expect(page.locator(".told")).to_have_text("head sheave: 2 7/16 in across, 15 ft 9 1/2 in up")
    can_undo(loft)
    assert place_of(saved(loft, tmp_path)) == ("0.0625 m", "4.813 m")


def finger(watched):
    """What dispatches a finger's touches: the kind of event, then the places that are touched."""
    touch = watched.context.new_cdp_session(watched.page)

    def dispatch(kind: str, *places: tuple[float, float]) -> None:
        touch.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": [{"x": x, "y": y} for x, y in places]})

    return dispatch


def test_a_finger_takes_hold_by_the_grip_alone(loft, tmp_path):
    touch = finger(loft)
    x, y = middle(loft, HEAD)
    touch("touchStart", (x, y))
    touch("touchMove", (x + 20, y + 20))
    touch("touchMove", (x + 30, y + 40))
    to = written_beside(loft)
    touch("touchEnd")
    can_undo(loft)
    assert place_of(saved(loft, tmp_path)) == to
    left, top, *_ = frame_of(loft, '.sheet [id="body:platform"]')
    touch("touchStart", (left + 6, top + 6))
    touch("touchMove", (left + 6, top - 30))
    expect(loft.page.locator('.sheet [id="body:platform"]')).not_to_have_attribute("transform", re.compile("translate"))
    touch("touchEnd")


def test_a_tap_on_a_grip_opens_the_form_of_the_part(loft):
    touch = finger(loft)
    touch("touchStart", middle(loft, LEAD))
    touch("touchEnd")
    loft.page.wait_for_function("document.title === 'Change parts'")


def test_the_drawing_is_told_in_words_once(loft):
    page = loft.page
    assert page.locator(".sheet svg desc").count() == 0
    page.get_by_text("The drawing in words").click()
    expect(page.locator(".words")).to_contain_text("Fixed point")
    expect(page.locator(".words")).to_contain_text("4.8 m up")


def test_runs_of_the_pages_leave_no_listeners_and_no_nodes_behind(loft):
    page = loft.page
    figures = loft.context.new_cdp_session(page)
    figures.send("Performance.enable")

    def now() -> dict[str, float]:
        for _ in range(2):
            figures.send("HeapProfiler.collectGarbage")
        found = {each["name"]: each["value"] for each in figures.send("Performance.getMetrics")["metrics"]}
        return {name: found[name] for name in ("Nodes", "JSEventListeners")}

    def counted() -> dict[str, float]:
        """Once nothing changes any more: a page that is still being put up has fewer, one that is taken down more."""
        last = None
        for _ in range(20):
            page.wait_for_timeout(700)
            last, before = now(), last
            if last == before:
                break
        return last

    def runs(count: int) -> None:
        for turn in range(count):
            before = page.locator(HEAD).get_attribute("aria-label")
            page.locator(HEAD).focus()
            page.keyboard.press("ArrowLeft" if turn % 2 else "ArrowRight")
            page.locator(HEAD).evaluate("node => node.blur()")
            expect(page.locator(HEAD)).not_to_have_attribute("aria-label", before)
        loft.still()

    runs(10)
    first = counted()
    runs(RUNS)
    later = counted()
    assert later["JSEventListeners"] <= first["JSEventListeners"] + 10
    assert later["Nodes"] <= first["Nodes"] * 1.05


@pytest.fixture
def photograph(tmp_path):
    file = tmp_path / "wall.png"
    Image.new("RGB", (2400, 1800), (150, 170, 150)).save(file)
    return file


def on_photograph(watched, x_share: float, y_share: float) -> tuple[float, float]:
    left, top, width, height = frame_of(watched, "image.photograph")
    return left + width * x_share, top + height * y_share


def test_a_photograph_is_laid_under_the_drawing_to_scale_and_stays_in_the_browser(loft, photograph, tmp_path):
    page = loft.page
    asked = []
    page.on("request", lambda request: asked.append(request) if request.method == "POST" else None)
    page.get_by_text("A photograph under the drawing").click()
    page.get_by_label("Photograph (PNG, JPEG or WebP)").set_input_files(photograph)
    page.locator("image.photograph").wait_for(state="attached")
    page.get_by_role("button", name="1. Mark two places").click()
    page.mouse.click(*on_photograph(loft, 0.5, 0.25))
    page.mouse.click(*on_photograph(loft, 0.5, 0.75))
    page.get_by_label("Distance between them").fill("none")
    page.get_by_label("Distance between them").press("Enter")
    expect(page.locator(".photo-told")).to_contain_text("does not begin with a number")
    page.get_by_label("Distance between them").fill("9 ft 10 1/8 in")
    page.get_by_label("Distance between them").press("Enter")
    expect(page.locator(".photo-told")).to_contain_text("Scaled")
    scale, left, level = (float(page.locator(".sheet svg").get_attribute(f"data-{name}")) for name in ("scale", "left", "level"))
    photo = page.locator("image.photograph")
    high = 2 * (9 * 12 + 10.125) * 0.0254 * scale
    assert float(photo.get_attribute("height")) == pytest.approx(high, rel=0.01)
    page.get_by_label("2. Known place").select_option(label="sheave head sheave")
    page.get_by_role("button", name="Mark it on the photograph").click()
    page.mouse.click(*on_photograph(loft, 0.5, 0.5))
    expect(page.locator(".photo-told")).to_have_text("The photograph is laid to it.")
    middle_px = [float(photo.get_attribute(at)) + float(photo.get_attribute(size)) / 2 for at, size in (("x", "width"), ("y", "height"))]
    assert middle_px == pytest.approx([left + 0.0625 * scale, level - 4.8 * scale], abs=A_PIXEL_AND_A_HALF)
    page.get_by_role("button", name="Nudge right").click()
    assert float(photo.get_attribute("x")) + float(photo.get_attribute("width")) / 2 == pytest.approx(middle_px[0] + 0.01 * scale, abs=0.02)
    with page.expect_download() as waiting:
        page.get_by_role("button", name="Save drawing and photograph as one picture").click()
    picture = Image.open(BytesIO(waiting.value.path().read_bytes()))
    assert (picture.format, picture.width) == ("PNG", 1360)
    assert "photograph" not in saved(loft, tmp_path).read_text()
    place = photo.get_attribute("x")
    page.reload()
    page.locator("image.photograph").wait_for(state="attached")
    assert page.locator("image.photograph").get_attribute("x") == place
    assert asked == []
    page.get_by_text("A photograph under the drawing").click()
    page.get_by_role("button", name="Remove the photograph").click()
    expect(page.locator("image.photograph")).to_have_count(0)
    page.reload()
    page.locator(HEAD).wait_for(state="attached")
    loft.still()
    expect(page.locator("image.photograph")).to_have_count(0)


def test_places_on_the_photograph_are_marked_with_the_keyboard_alone(loft, photograph):
    page = loft.page
    page.get_by_text("A photograph under the drawing").click()
    page.get_by_label("Photograph (PNG, JPEG or WebP)").set_input_files(photograph)
    page.get_by_role("button", name="1. Mark two places").press("Enter")
    page.keyboard.press("Enter")
    for _ in range(10):
        page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")
    page.keyboard.type("1000 mm")
    page.keyboard.press("Enter")
    expect(page.locator(".photo-told")).to_contain_text("Scaled: the two places are 1000 mm apart")
    per_metre = float(page.locator(".sheet svg").get_attribute("data-scale"))
    ends = page.locator(".ends line")
    assert float(ends.get_attribute("y2")) - float(ends.get_attribute("y1")) == pytest.approx(per_metre, abs=0.1)


def test_what_is_no_photograph_is_refused_in_words(loft, tmp_path):
    page = loft.page
    file = tmp_path / "drawing.png"
    file.write_text('<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>')
    page.get_by_text("A photograph under the drawing").click()
    page.get_by_label("Photograph (PNG, JPEG or WebP)").set_input_files(file)
    expect(page.locator(".photo-told")).to_contain_text("no PNG, JPEG or WebP picture")
    expect(page.locator("image.photograph")).to_have_count(0)
