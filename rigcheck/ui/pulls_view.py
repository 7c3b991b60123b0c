"""The pulls along the travel: a table of every run, and a chart with the height upwards as it is on the wall."""

from __future__ import annotations

import altair
import numpy

from rigcheck import units
from rigcheck.checks.assessment import Assessment
from rigcheck.report import contents
from rigcheck.report.pulls import Extreme, RunOfRope, runs_of
from rigcheck.ui.plain_text import in_html

NEVER_KNOWN = "unknown"
_DASHES = {"raising": [1, 0], "holding, least": [2, 3], "holding, most": [8, 3], "lowering": [5, 3, 1, 3]}


def run_name(run: RunOfRope) -> str:
    return f"{run.rope}, from {run.start} to {run.end}"


def runs(assessment: Assessment) -> list[RunOfRope]:
    return runs_of(assessment.solution)


def table(found: list[RunOfRope]) -> str:
    """The extremes of every run along the travel, as HTML; pulls are rounded up, the least pull down."""
    head = "".join(
        f'<th class="rc-number" scope="col">{words}</th>' for words in ("raising", "holding, least", "holding, most", "lowering")
    )
    rows = "".join(
        f'<tr><th scope="row">{in_html(run.rope)}</th><td>{in_html(run.start)} – {in_html(run.end)}{_shared(run)}</td>'
        f"{_cell(run.raising)}{_cell(run.holding_least, 'down')}{_cell(run.holding_most)}{_cell(run.lowering)}</tr>"
        for run in found
    )
    return (
        '<div class="rc-scroll"><table class="rc-table"><thead><tr><th scope="col">rope</th><th scope="col">run</th>'
        f"{head}</tr></thead><tbody>{rows}</tbody></table></div>"
    )


def forces(assessment: Assessment) -> str:
    """What the ropes do to the building, as HTML."""
    rows = "".join(
        f'<tr><th scope="row">{in_html(told.name)}</th><td class="rc-number">{in_html(told.force)}<br><span class="rc-small">{in_html(told.when)}</span></td>'
        f"<td>{in_html(told.direction)}{'<br>moment ' + in_html(told.moment) if told.moment else ''}</td></tr>"
        for told in contents.forces_on_the_building(assessment)
    )
    return (
        '<div class="rc-scroll"><table class="rc-table"><thead><tr><th scope="col">point</th><th class="rc-number" scope="col">force</th>'
        f'<th scope="col">which way</th></tr></thead><tbody>{rows}</tbody></table></div>'
    )


def _shared(run: RunOfRope) -> str:
    if not run.shares_load:
        return ""
    likely = f"; likely {units.show(run.likely_raising_n, 'N', 4, 'up')} by stiffness" if run.likely_raising_n is not None else ""
    return f'<br><span class="rc-small">worst share of several ropes{likely}</span>'


def _cell(extreme: Extreme, towards: str = "up") -> str:
    if extreme.pull_n is None:
        return f'<td class="rc-number">{NEVER_KNOWN}</td>'
    where = units.show(round(extreme.at_m, 4), "m", 3)
    return f'<td class="rc-number">{units.show(extreme.pull_n, "N", 4, towards)}<br><span class="rc-small">at {where}</span></td>'


def along(assessment: Assessment, run: RunOfRope) -> list[dict]:
    """The pulls of one run at every height, one row for each kind of pull and height."""
    pulls = assessment.solution.runs[run.rope][run.number]
    heights = assessment.solution.travel.heights_m
    bad = assessment.solution.slack()
    lines = {
        "raising": pulls.raising,
        "holding, least": pulls.holding_least,
        "holding, most": pulls.holding_most,
        "lowering": pulls.lowering,
    }
    found = []
    for words, line in lines.items():
        value = numpy.where(bad, numpy.nan, numpy.broadcast_to(line.value, heights.shape))
        found += [
            {"height_m": float(h), "pull_n": float(v), "while": words} for h, v in zip(heights, value, strict=True) if numpy.isfinite(v)
        ]
    return found


def chart(assessment: Assessment, run: RunOfRope, height_m: float, ink: str) -> altair.LayerChart:
    """Pull against height for one run; the kinds of pull are told apart by their dashes."""
    data = altair.Data(values=along(assessment, run))
    base = altair.Chart(data).encode(
        x=altair.X("pull_n:Q", title="pull in N", scale=altair.Scale(zero=True, nice=True)),
        y=altair.Y("height_m:Q", title="height of the load in m"),
        order="height_m:Q",
        strokeDash=altair.StrokeDash("while:N", title="while", scale=altair.Scale(domain=list(_DASHES), range=list(_DASHES.values())),
                                     legend=altair.Legend(orient="top", symbolSize=400, columns=2)),
        tooltip=[altair.Tooltip("while:N"), altair.Tooltip("pull_n:Q", title="pull in N", format=".1f"),
                 altair.Tooltip("height_m:Q", title="height in m", format=".3f")],
    )  # fmt: skip
    here = (
        altair.Chart(altair.Data(values=[{"height_m": height_m}])).mark_rule(strokeWidth=1, opacity=0.7, color=ink).encode(y="height_m:Q")
    )
    both = (base.mark_line(strokeWidth=2, color=ink) + here).properties(height=380)
    return both.configure_axis(labelColor=ink, titleColor=ink).configure_legend(labelColor=ink, titleColor=ink)


def labels_at(assessment: Assessment, index: int, words: str) -> dict[tuple[str, int], str]:
    """The text beside every run of the drawing at one height."""
    solution = assessment.solution
    if solution.slack()[index]:
        return {}
    found = {}
    for rope, own in solution.runs.items():
        for number, pulls in enumerate(own):
            line = {"raising": pulls.raising, "lowering": pulls.lowering, "holding": pulls.holding_most}[words]
            value = float(line.value[min(index, line.value.shape[-1] - 1)])
            found[rope, number] = units.show(value, "N", 3, "up") if numpy.isfinite(value) else NEVER_KNOWN
    return found
