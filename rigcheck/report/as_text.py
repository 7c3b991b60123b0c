"""The answer as plain text in aligned columns, never wider than 120."""

from __future__ import annotations

import textwrap

from rigcheck import MODEL_VERSION
from rigcheck.checks.assessment import Assessment
from rigcheck.checks.check import CANNOT_TELL, HOLDS, Check
from rigcheck.report import contents, drift_told, file_words, struts_told, whole_words
from rigcheck.report.pulls import RunOfRope, runs_of
from rigcheck.report.svg import clean

WIDTH = 120
GAP = "  "


def text(assessment: Assessment) -> str:
    """All checks with the worst first, the pulls, what was not checked, and the cautions; ends with a line feed."""
    runs, plain = runs_of(assessment.solution), file_words.plain_words(assessment.rig)
    blocks = [
        _head(assessment),
        _heading("Checks, worst first"),
        *(_item(item, checks) for item, checks in contents.by_item(assessment.checks).items()),
        _heading("Pulls in the ropes, each the extreme along the travel (height in brackets)"),
        _pulls(runs)
        + [""] * bool(contents.pull_notes(assessment, runs))
        + [line for note in contents.pull_notes(assessment, runs) for line in _wrapped(note)],
    ]
    if drift := _drift(assessment):
        blocks += [_heading("How far the load goes aside and tilts"), drift]
    if assessment.members is not None:
        blocks += [_heading("What the struts push and pull, each at its greatest"), _struts(assessment)]
    blocks += [_heading("What the ropes do to the building, each at its greatest"), _forces(assessment)]
    if assessment.guesses:
        blocks += [_heading("Guesses this rests on"), _list(map(plain, assessment.guesses))]
    blocks += [
        _heading("Not checked"),
        _list(map(plain, assessment.not_checked)),
        _heading("Before you rely on this"),
        _list(contents.CAUTIONS),
        [f"rigcheck {MODEL_VERSION}"],
    ]
    return clean_lines("\n\n".join("\n".join(block) for block in blocks if block))


def clean_lines(whole: str) -> str:
    """The text line by line without signs that could turn or erase what stands around them."""
    return "\n".join(clean(line).rstrip() for line in whole.split("\n")) + "\n"


def _head(assessment: Assessment) -> list[str]:
    basis = assessment.basis
    pairs = [
        ("Verdict", f"{whole_words.sentence(assessment)} {contents.verdict_sentence(assessment)}"),
        *contents.rated_load(assessment),
        *contents.figures(assessment),
        ("Basis", f"{basis.title} ({basis.source})"),
        ("What it covers", basis.covers),
    ]
    left = max(len(name) for name, _ in pairs) + 1
    lines = (
        _wrapped(assessment.rig.name)
        + [line for part in assessment.rig.about.split("\n") if part.strip() for line in _wrapped(part)]
        + [""]
    )
    for name, words in pairs:
        lines += _wrapped(words, f"{name + ':':<{left}} ", " " * (left + 1))
    return lines


def _heading(words: str) -> list[str]:
    return [words.upper(), "-" * len(words)]


def _item(item: str, checks: list[Check]) -> list[str]:
    lines = [item]
    for check in checks:
        lines += _check(check)
    return lines


def _check(check: Check) -> list[str]:
    told = contents.shown(check)
    verdict = told.verdict if told.verdict == HOLDS else told.verdict.upper()
    cells = [verdict, told.what]
    widths = [11, 38]
    if told.demand or told.capacity:
        needs = f", needs {told.required}" if told.required else ""
        cells += [f"demand {told.demand}", f"capacity {told.capacity}", f"factor {told.factor}{needs}" if told.factor else ""]
        widths += [17, 18, 26]
    lines = [f"  {line}" for line in _row(cells, widths)]
    for words, said in (
        ("to make it hold: ", told.remedy),
        ("" if told.verdict == CANNOT_TELL else "note: ", told.reason),
        ("source: ", told.source),
    ):
        if said:
            lines += _wrapped(said, f"  {'':11}{GAP}{words}", f"  {'':11}{GAP}  ")
    return lines


def _pulls(runs: list[RunOfRope]) -> list[str]:
    shares = any(run.likely_raising_n is not None for run in runs)
    heads = ["rope", "from", "to", "raising", "standing still", "lowering"]
    widths = [20, 21, 21, 15, 18, 15]
    rows = [_row(heads, widths), ["-" * (sum(widths) + len(GAP) * (len(widths) - 1))]]
    for run in runs:
        still = (
            f"{contents.pull_text(run.holding_least, 'down')} to {contents.pull_text(run.holding_most)}"
            if run.holding_most.pull_n is not None
            else "unknown"
        )
        up = _with_height(run.raising)
        if shares and run.likely_raising_n is not None:
            up += f" likely {_with_height(run.likely_raising)}"
        rows.append(_row([f"{run.rope}, run {run.number + 1}", run.start, run.end, up, still, _with_height(run.lowering)], widths))
    return [line for row in rows for line in row]


def _struts(assessment: Assessment) -> list[str]:
    widths = [24, 22, 22, 46]
    rows = [
        _row(["strut", "greatest push", "greatest pull", "what it bears"], widths),
        ["-" * (sum(widths) + len(GAP) * (len(widths) - 1))],
    ]
    for told in struts_told.shown_struts(assessment):
        push, pull = (
            f"{force} ({when})" if when else force or "none" for force, when in ((told.push, told.push_when), (told.pull, told.pull_when))
        )
        rows.append(_row([f"{told.name}, {told.length}, {told.lean} from plumb", push, pull, told.bears], widths))
    return [line for row in rows for line in row]


def _drift(assessment: Assessment) -> list[str]:
    told = drift_told.shown_bands(assessment)
    where = drift_told.where_it_hangs(assessment)
    bands = _list(f"{b.what}: {b.least} ({b.least_when}) to {b.most} ({b.most_when})" for b in told)
    return (_wrapped(f"{where} {drift_told.COUNTED}" if told else where) if where else []) + bands


def _forces(assessment: Assessment) -> list[str]:
    widths = [32, 12, 24, 46]
    rows = [_row(["point", "force", "when", "which way"], widths), ["-" * (sum(widths) + len(GAP) * (len(widths) - 1))]]
    for told in contents.forces_on_the_building(assessment):
        turning = f"; moment {told.moment}" if told.moment else ""
        rows.append(_row([told.name, told.force, told.when, told.direction + turning], widths))
    return [line for row in rows for line in row]


def _with_height(pull) -> str:
    height = contents.height_text(pull)
    return contents.pull_text(pull) + (f" ({height})" if height else "")


def _row(cells: list[str], widths: list[int]) -> list[str]:
    """One row of a table; a cell too long for its column goes on in the lines below."""
    columns = [textwrap.wrap(cell, width) or [""] for cell, width in zip(cells, widths, strict=True)]
    deep = max(len(column) for column in columns)
    padded = [column + [""] * (deep - len(column)) for column in columns]
    return [GAP.join(f"{cell:<{width}}" for cell, width in zip(line, widths, strict=True)).rstrip() for line in zip(*padded, strict=True)]


def _list(entries) -> list[str]:
    return [line for entry in entries for line in _wrapped(entry, "- ", "  ")]


def _wrapped(words: str, first: str = "", later: str | None = None) -> list[str]:
    return textwrap.wrap(words, WIDTH, initial_indent=first, subsequent_indent=first if later is None else later) or [first.rstrip()]
