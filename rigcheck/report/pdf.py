"""The report as a PDF: data from here, layout in `report.typ`. What people typed goes in as data and never as markup.

The same rig gives the same bytes: no date, and the fonts that come with the typesetter. Only for scripts that those fonts lack are
the fonts of the machine allowed as well.
"""

from __future__ import annotations

import json
import re
import textwrap
import threading
from collections.abc import Callable, Iterable
from functools import cache
from pathlib import Path

import typst

from rigcheck import MODEL_VERSION
from rigcheck.checks.assessment import Assessment
from rigcheck.checks.check import Check
from rigcheck.report import contents, drift_told, file_words, inputs, source_words, struts_told, whole_words
from rigcheck.report.chapters import Chapter, Entry, chapters
from rigcheck.report.charts import charts
from rigcheck.report.drawing import draw
from rigcheck.report.pulls import RunOfRope, runs_of
from rigcheck.report.svg import clean
from rigcheck.report.words_explained import WORDS_EXPLAINED
from rigcheck.rig import files
from rigcheck.statics.stations import Stations

TEMPLATE = Path(__file__).with_name("report.typ")
DRAWING_WIDTH_PX, TALL_DRAWING_WIDTH_PX = 640, 460
VIEW_BOX = re.compile(r'viewBox="0 0 ([\d.]+) ([\d.]+)"')
# Latin, Greek, Cyrillic, Hebrew, Arabic; Latin additions, punctuation, arrows, mathematics, shapes
COVERED = (range(0x0000, 0x0530), range(0x0590, 0x0700), range(0x1E00, 0x2C00), range(0x1D400, 0x1D800))
NOT_PROSE = {"drawing", "svg", "typeset", "rows", "digest"}
LONG_WORD = re.compile(r"\S{25,}")
_one_at_a_time = threading.Lock()


def pdf(assessment: Assessment) -> bytes:
    """The report of a rig, A4."""
    return typeset(TEMPLATE, "report", report_data(assessment), "pdf", timestamp=0)


def sheets(assessment: Assessment) -> list[str]:
    """The very pages of the report as pictures, SVG text, to be looked at before it is saved."""
    made = typeset(TEMPLATE, "report", report_data(assessment), "svg")
    return [sheet.decode("utf-8") for sheet in (made if isinstance(made, list) else [made])]


def typeset(template: Path, name: str, told: dict, form: str, **more):
    """What a template makes of data, which it reads under a name; one at a time, whatever is typeset."""
    data, fonts_suffice = as_data(told)
    with _one_at_a_time:
        return typst.compile(_text_of(template), format=form, sys_inputs={name: data}, ignore_system_fonts=fonts_suffice, **more)


def as_data(told: dict) -> tuple[str, bool]:
    """What a template prints, as JSON text fit for it, and whether the fonts that come with the typesetter have all its letters."""
    data = json.dumps(_cleaned(told), ensure_ascii=False, allow_nan=False)
    return data, _is_covered(data)


@cache
def _text_of(template: Path) -> bytes:
    return template.read_bytes()


def _is_covered(text: str) -> bool:
    return all(any(ord(sign) in block for block in COVERED) for sign in set(text))


def _cleaned(data, key: str = ""):
    """The data without signs that could turn or hide what stands around them, and with places where very long words may break."""
    if isinstance(data, str):
        lines = "\n".join(clean(line.replace("\t", " ")) for line in data.split("\n"))
        return lines if key in NOT_PROSE else LONG_WORD.sub(lambda word: "\u200b".join(textwrap.wrap(word[0], 12)), lines)
    if isinstance(data, dict):
        return {name: _cleaned(value, name) for name, value in data.items()}
    return [_cleaned(value, key) for value in data] if isinstance(data, list) else data


def report_data(assessment: Assessment) -> dict:
    """Everything the template prints, as texts, lists and mappings."""
    rig, basis, solution = assessment.rig, assessment.basis, assessment.solution
    runs = runs_of(solution)
    counts, plain = assessment.counts, file_words.plain_words(rig)
    return {
        "name": rig.name,
        "about": [part for part in rig.about.split("\n") if part.strip()],
        "verdict": f"{whole_words.sentence(assessment)} {contents.verdict_sentence(assessment)}",
        "counts": [[verdict, str(counts[verdict])] for verdict in contents.WORST_FIRST],
        "figures": [list(pair) for pair in (*contents.rated_load(assessment), *contents.figures(assessment))],
        "basis": {"title": basis.title, "source": basis.source, "covers": basis.covers},
        "drawing": _drawing(assessment, runs),
        "checks": [_check(check, plain) for check in contents.worst_first(assessment.checks)],
        "pulls": [_pull(run) for run in runs],
        "hangs": drift_told.where_it_hangs(assessment),
        "drift": [vars(told) for told in drift_told.shown_bands(assessment)],
        "drift_counted": drift_told.COUNTED,
        "struts": [vars(told) for told in struts_told.shown_struts(assessment)],
        "forces": [vars(told) for told in contents.forces_on_the_building(assessment)],
        "pull_notes": contents.pull_notes(assessment, runs),
        "charts": _charts(runs, solution.travel.stations),
        "guesses": [plain(guess) for guess in assessment.guesses],
        "inputs": [{"title": group.title, "fields": [[f.name, f.value, f.note] for f in group.fields]} for group in inputs.groups(rig)],
        "chapters": [_chapter(chapter, plain) for chapter in chapters(assessment)],
        "not_checked": [plain(line) for line in assessment.not_checked],
        "cautions": list(contents.CAUTIONS),
        "words": [list(each) for each in WORDS_EXPLAINED],
        "model_version": MODEL_VERSION,
        "digest": files.digest(rig),
    }


def _drawing(assessment: Assessment, runs: list[RunOfRope]) -> str:
    """The rig at its lowest; a tall one is drawn narrower, so that what is written in it is no smaller on paper."""

    def drawn(width_px: int) -> str:
        return draw(
            assessment.solution.travel,
            at=0,
            labels=contents.labels(runs, 0) | struts_told.labels(assessment, 0),
            ticks=contents.factors_in_hand(assessment),
            notes=[contents.SHARED_IN_A_DRAWING] if any(run.shares_load for run in runs) else [],
            width_px=width_px,
            theme="print",
        )

    wide = drawn(DRAWING_WIDTH_PX)
    width, height = map(float, VIEW_BOX.search(wide).groups())
    return drawn(TALL_DRAWING_WIDTH_PX) if height > width else wide


def _check(check: Check, plain: Callable[[str], str]) -> dict:
    told = contents.shown(check)
    return vars(told) | {
        "notes": [
            [words, plain(said)] for words, said in (("To make it hold", told.remedy), ("", told.reason), ("Source", told.source)) if said
        ]
    }


def _pull(run: RunOfRope) -> dict:
    return {
        "rope": run.rope,
        "run": str(run.number + 1),
        "from": run.start,
        "to": run.end,
        "raising": [contents.pull_text(run.raising), contents.height_text(run.raising)],
        "likely": ""
        if run.likely_raising_n is None
        else f"{contents.newtons(run.likely_raising_n)} at {contents.height_text(run.likely_raising)}",
        "least": [contents.pull_text(run.holding_least, "down"), contents.height_text(run.holding_least)],
        "most": [contents.pull_text(run.holding_most), contents.height_text(run.holding_most)],
        "lowering": [contents.pull_text(run.lowering), contents.height_text(run.lowering)],
    }


def _charts(runs: list[RunOfRope], stations: Stations) -> list[dict]:
    return [{"title": chart.title, "svg": str(chart.text), "flat": chart.flat} for chart in charts(runs, stations)]


def _chapter(chapter: Chapter, plain: Callable[[str], str]) -> dict:
    return {"title": chapter.title, "lines": [_line(entry, plain) for entry in chapter.entries]}


def _decision(check: Check) -> list[str]:
    told = contents.shown(check)
    needs = f", needs {told.required}" if told.required else ""
    return [told.verdict, f"{told.item}, {told.what}" + (f": factor {told.factor}{needs}" if told.factor else "")]


def _line(entry: Entry, say: Callable[[str], str]) -> dict:
    one, rows, plain = entry.typeset, entry.in_rows, entry.plain
    return {
        "what": one.what,
        "kind": one.kind,
        "typeset": list(_parts(one.sign, one.formula, one.numbers)),
        "rows": list(_parts(rows.sign, rows.formula, rows.numbers)),
        "plain": " = ".join(part for part in (plain.sign, plain.formula, plain.numbers, plain.shown) if part),
        "result": one.shown,
        "source": say(source_words.row_words(one.source)),
        "decides": [_decision(check) for check in entry.decides],
        "height": contents.heights_told(one),
    }


def _parts(*parts: str) -> Iterable[str]:
    return (part for part in parts if part)
