"""The report as a PDF: the same bytes each time, everything in it, and typed text that stays text."""

from __future__ import annotations

import io
import re

import pypdf
import pytest

from rigcheck.checks.assessment import assess
from rigcheck.report import contents
from rigcheck.report.as_text import text
from rigcheck.report.chapters import chapters
from rigcheck.report.charts import charts
from rigcheck.report.inputs import groups
from rigcheck.report.pdf import pdf, report_data
from rigcheck.report.pulls import runs_of
from rigcheck.rig import examples, files
from tests.report.report_rigs import ALL, HEBREW, HOSTILE, assessed


def pages_of(content: bytes) -> list[str]:
    return [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(content)).pages]


def squeezed(text: str) -> str:
    """Text without spaces, hyphens and places to break, which a line break may add or take."""
    return "".join(text.replace("-", "").replace("\u2010", "").replace("\u00ad", "").replace("\u200b", "").split())


@pytest.mark.parametrize("name", ALL)
def test_every_rig_gives_a_pdf_with_its_verdict_and_all_its_checks(name):
    found = assessed(name)
    content = pdf(found)
    assert content.startswith(b"%PDF-")
    told = squeezed("".join(pages_of(content)))
    assert squeezed(contents.verdict_sentence(found)) in told
    assert all(squeezed(caution) in told for caution in contents.CAUTIONS)
    assert all(squeezed(text) in told for text in found.not_checked if len(text) < 80)
    assert files.digest(ALL[name]()) in told


def test_the_same_rig_gives_the_same_bytes():
    assert pdf(assessed("askew")) == pdf(assess(ALL["askew"]()))


def test_no_date_is_written():
    found = pypdf.PdfReader(io.BytesIO(pdf(assessed("loft-lift")))).metadata
    assert found.creation_date is None
    assert found.title == "loft lift"


def test_pages_are_numbered():
    pages = pages_of(pdf(assessed("loft-lift")))
    assert all(f"{number} of {len(pages)}" in page for number, page in enumerate(pages, 1))


def test_typed_text_stays_text():
    told = squeezed("".join(pages_of(pdf(assessed("hostile")))))
    assert squeezed(HOSTILE) in told
    assert squeezed("#panic(1) $ \\u{0} */ \"'") in told
    assert squeezed('*bold*? <label> @ref #eval("1") \\ $x$') in told
    assert squeezed("- no list //") in told
    assert squeezed('#read("/etc/passwd") turned') in told
    assert HEBREW in told or HEBREW[::-1] in told


def test_a_script_that_the_report_has_no_letters_for_is_still_reported():
    data = report_data(assessed("loft-lift"))
    assert data["name"] == "loft lift"
    named = ALL["loft-lift"]().model_copy(update={"name": "\u7a91 \u7832"})
    assert pdf(assess(named)).startswith(b"%PDF-")


def test_every_line_of_working_stands_once_and_in_its_order():
    for name in ALL:
        found = assessed(name)
        printed = [entry.plain for chapter in chapters(found) for entry in chapter.entries]
        assert [line.sign for line in printed] == [line.sign for line in found.solution.working.printed("text")]


def test_every_check_with_numbers_is_decided_at_its_last_line():
    for name in ALL:
        decided = [check.id for chapter in chapters(assessed(name)) for entry in chapter.entries for check in entry.decides]
        assert sorted(decided) == sorted(c.id for c in assessed(name).checks if c.demand or c.capacity)


def test_the_longest_names_leave_no_formula_wider_than_the_page():
    reader = pypdf.PdfReader(io.BytesIO(pdf(assessed("longest names"))))
    for page in reader.pages:
        places = []
        page.extract_text(
            visitor_text=lambda text, cm, tm, font, size, places=places: places.append(tm[4] * cm[0] + cm[4]) if text.strip() else None
        )
        assert max(places) < float(page.mediabox.width)


def test_every_typed_field_is_listed_with_its_note_and_defaults_are_marked():
    listed = {group.title: {field.name: field for field in group.fields} for group in groups(ALL["kiln-shell"]())}
    assert listed["body: shell"]["mass"].value == "140 kg ± 4 kg"
    assert listed["body: shell"]["mass"].note.startswith("weighed on a platform scale")
    assert listed["body: shell"]["centre of gravity"].value == "0 m across, 0.45 m up"
    assert listed["body: shell"]["free to tilt in the guide"].value == "no"
    assert listed["rope: left rope"]["stop 1"].value == "made fast to shell, at its left eye, with ferrule-secured eye"
    assert listed["rope: left rope"]["stop 2"].value == "over left head sheave, clockwise"
    assert listed["drive: gear stage 2, worm"]["lead angle of the worm"].value == "2.5 deg"
    chosen = listed["basis"]["basis of the required factors"]
    assert (chosen.value, chosen.note) == ("European machinery regulation", "not typed: left at this")


def test_a_chart_is_flat_exactly_where_its_pulls_do_not_change():
    for name, flat in (("loft-lift", True), ("askew", False)):
        found = assessed(name)
        drawn = charts(runs_of(found.solution), found.solution.travel.stations)
        assert [chart.flat for chart in drawn] == [flat]
        assert drawn[0].text.count("<polyline") == 2


def test_a_chart_has_a_gap_where_the_pulls_are_not_known():
    found = assessed("slack")
    drawn = charts(runs_of(found.solution), found.solution.travel.stations)
    assert drawn
    assert all("<polyline" not in chart.text and not chart.flat for chart in drawn)


IN_THE_FILE = re.compile(
    r"(?<![\w ])(bodies|ropes|sheaves|points|drive|limits|basis), [\w ]+|(?<!\w)[a-z]+_[a-z]+|\.csv|wire-rope-board|eu-machinery|taut margin"
)


@pytest.mark.parametrize("name", examples.names())
def test_no_key_of_the_rig_file_and_no_name_of_a_data_file_is_printed(name):
    """Places are told in words: whoever follows the report line by line has no rig file at hand."""
    found = assess(examples.example(name))
    data = report_data(found)
    told = [line["source"] for chapter in data["chapters"] for line in chapter["lines"]]
    told += [*data["guesses"], *data["not_checked"], *(words for group in data["inputs"] for field in group["fields"] for words in field)]
    told += [said for check in data["checks"] for _, said in check["notes"]]
    told += text(found).split("\n")
    assert [words for words in told if IN_THE_FILE.search(words)] == []


def test_the_report_explains_its_words_near_its_end():
    told = "\n".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pdf(assess(examples.example("well-crank"))))).pages[-2:])
    for word in ("IWRC", "dead wraps", "worst share", "linear program"):
        assert word in told


HEADINGS = (
    "Before you rely on this",
    "Not checked",
    "Basis",
    "Checks, worst first",
    "Pulls in the ropes",
    "What was entered",
    "Working",
    "Record",
    "Words",
)


@pytest.mark.parametrize("name", ["kiln-shell", "gallery-crate", "studio-counterweight"])
def test_the_drawing_stands_on_the_first_page_and_no_heading_alone_at_the_foot_of_one(name):
    found = assess(examples.example(name))
    pages = pages_of(pdf(found))
    assert "Beside each run" in pages[0]
    titles = {*HEADINGS, *(chapter.title for chapter in chapters(found))}
    for page in pages:
        lines = [line.strip() for line in page.split("\n") if line.strip()]
        body = [line for line in lines if line != found.rig.name and not re.fullmatch(r"\d+ of \d+", line)]
        assert len(body) > 8
        assert body[-1] not in titles


def test_a_tall_rig_is_drawn_narrower_so_that_its_type_is_no_smaller_on_paper():
    width = {
        name: float(re.search(r'viewBox="0 0 (\d+)', report_data(assessed(name))["drawing"])[1]) for name in ("kiln-shell", "loft-lift")
    }
    assert width["kiln-shell"] > width["loft-lift"]


@pytest.mark.parametrize("name", ["kiln-shell", "longest names"])
def test_a_formula_that_fits_no_row_is_given_in_a_form_that_breaks(name):
    lines = [line for chapter in report_data(assessed(name))["chapters"] for line in chapter["lines"]]
    assert all(len(line["rows"]) == len(line["typeset"]) for line in lines)
    roots = [part for line in lines for part in line["rows"] if "√" in part]
    assert roots
    assert not any("sqrt(" in part or "frac(" in part for line in lines for part in line["rows"])
