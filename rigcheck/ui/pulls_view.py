"""The pulls along the travel: on the drawing at a height, in a chart with the height upwards as it is on the wall, and in a table of every run."""

from __future__ import annotations

import altair
import numpy
import streamlit

from rigcheck import units, whereabouts
from rigcheck.checks.assessment import Assessment
from rigcheck.report import contents, struts_told
from rigcheck.report.pulls import Extreme, RunOfRope, runs_of
from rigcheck.statics.stations import Stations
from rigcheck.statics.travel import Travel
from rigcheck.ui import drawing_view, drift_view, height_chart, look, rope_pick, session, tables
from rigcheck.ui.plain_text import in_html

NEVER_KNOWN = "unknown"
_WAYS = {"raising": "raising", "holding": "holding_most", "lowering": "lowering"}


WORST_SHARE = (
    "Several ropes share the load: each is counted here with the worst share that can fall to it if the others are a little too long, "
    "so the pulls written do not add up to the load; and each may itself hang loose, so its least while holding is nothing."
)


def show(assessment: Assessment) -> None:
    """The whole section: drawing and chart at a height of the travel, the extremes along it, and what the ropes do to the building."""
    found = runs(assessment)
    index = _height(assessment)
    way = streamlit.segmented_control("Pulls written on the drawing while", list(_WAYS), required=True,
                                      default=session.remembered("way", "raising"), key="pulls-way")  # fmt: skip
    session.remember("way", way)
    travel = assessment.solution.travel
    drawing, along_travel = look.beside(2)
    with drawing:
        drawing_view.show(assessment, key="drawing-pulls", at=index, ghost=0 if index else None, labels=labels_at(assessment, index, way),
                          on_open=rope_pick.open_on_drawing, width_px=drawing_view.MIDDLE_PX)  # fmt: skip
        streamlit.caption(_drawing_words(found, travel, index, way))
    with along_travel:
        spec = _chart(session.good_text(), session.system(), _picked(found), look.ink(), assessment)
        streamlit.vega_lite_chart(at_height(spec, travel.stations, index), width="stretch")
    streamlit.markdown("#### Greatest and least along the whole travel")
    streamlit.caption(
        "Each with the height where it stands."
        + (" The angle of the swing stands beside it." if travel.stations.are_angles else "")
        + " While holding, every sheave may hold back as much as its friction allows, either way."
        + (f" {WORST_SHARE}" if any(run.shares_load for run in found) else "")
    )
    streamlit.html(table(found))
    drift_view.show(assessment)
    if assessment.members is not None:
        streamlit.markdown("#### What the struts push and pull")
        streamlit.caption("Each where it is greatest along the travel, raising, lowering or holding.")
        streamlit.html(struts(assessment))
    streamlit.markdown("#### What the ropes do to the building")
    streamlit.caption("Each where it is greatest. Whether beams, bolts and screws bear it is not checked here.")
    streamlit.html(forces(assessment))


def _height(assessment: Assessment) -> int:
    """The slider of the height or of the swing, in the units that are shown; the index of the station nearest to it."""
    stations = assessment.solution.travel.stations
    heights = [units.in_shown(float(value), stations.unit) for value in stations.values]
    remembered = "swing" if stations.are_angles else "height"
    now = min(units.in_shown(session.remembered(remembered, 0.0), stations.unit), heights[-1])
    key = f"height {session.opened()} {session.system()} {heights[-1]}"
    what = "Angle of the swing from its lowest place" if stations.are_angles else "Height of the load above its lowest place"
    label = f"{what}, in {units.label(stations.unit)}"
    chosen = streamlit.slider(
        label, 0.0, heights[-1], value=now, step=heights[1], format="%.1f" if stations.are_angles else "%.3f", key=key
    )
    index = min(range(len(heights)), key=lambda i: abs(heights[i] - chosen))
    session.remember(remembered, float(stations.values[index]))
    return index


def _picked(found: list[RunOfRope]) -> int:
    chosen = streamlit.selectbox("Run in the chart", range(len(found)), format_func=lambda i: run_name(found[i]),
                                 index=min(session.remembered("run", 0), len(found) - 1), key=f"run {session.opened()}")  # fmt: skip
    session.remember("run", chosen)
    return chosen


def _drawing_words(found: list[RunOfRope], travel: Travel, index: int, way: str) -> str:
    swung = "" if travel.angles_rad is None else f", {whereabouts.swung(travel.angle_rad(index))}"
    at = f"The load is {units.show(round(float(travel.heights_m[index]), 6), 'm')} above its lowest place{swung}; pulls while {way}, rounded up."
    return f"{at} {WORST_SHARE}" if any(run.shares_load for run in found) else at


def as_it_hangs(pull_n: float | None, towards: str = "up") -> str:
    """A pull as the mass that hangs with it, for those who think in kilograms; nothing where pounds-force are shown, which say it already.

    >>> as_it_hangs(1176.79)
    'as 120 kg hangs'
    """
    if pull_n is None or pull_n <= 0 or units.system() != units.METRIC:
        return ""
    return f"as {units.number(units.to_unit(pull_n, 'kgf'), 3, towards)} kg hangs"


def run_name(run: RunOfRope) -> str:
    return f"{run.rope}, from {run.start} to {run.end}"


def runs(assessment: Assessment) -> list[RunOfRope]:
    return runs_of(assessment.solution)


def table(found: list[RunOfRope]) -> str:
    """The extremes of every run along the travel, as HTML; pulls are rounded up, the least pull down."""
    heads = ("rope", "run", "raising", "holding, least", "holding, most", "lowering")
    rows = [
        (
            in_html(run.rope), f"{in_html(run.start)} – {in_html(run.end)}{_shared(run)}",
            _cell(run.raising), _cell(run.holding_least, "down"), _cell(run.holding_most), _cell(run.lowering),
        )
        for run in found
    ]  # fmt: skip
    return tables.table(heads, rows, numbers=(2, 3, 4, 5), name="Greatest and least pulls")


def forces(assessment: Assessment) -> str:
    """What the ropes do to the building, as HTML."""
    rows = [
        (
            in_html(told.name),
            in_html(told.force) + _more(told.when),
            in_html(told.direction) + (f"<br>moment {in_html(told.moment)}" if told.moment else ""),
        )
        for told in contents.forces_on_the_building(assessment)
    ]
    return tables.table(("point", "force", "which way"), rows, numbers=(1,), name="Forces on the building")


def struts(assessment: Assessment) -> str:
    """The push and pull of every strut, as HTML."""
    rows = [
        (
            in_html(told.name) + _more(f"{told.between}, {told.length}, {told.lean} from plumb"),
            in_html(told.push) + _more(told.push_when),
            in_html(told.pull) + _more(told.pull_when),
            in_html(told.bears),
        )
        for told in struts_told.shown_struts(assessment)
    ]
    return tables.table(("strut", "greatest push", "greatest pull", "what it bears"), rows, numbers=(1, 2), name="Struts")


def _more(words: str) -> str:
    return f'<br><span class="rc-small">{in_html(words)}</span>' if words else ""


def _shared(run: RunOfRope) -> str:
    if not run.shares_load:
        return ""
    likely = ""
    if run.likely_raising_n is not None:
        likely = (
            f"; likely by stiffness, raising, up to {contents.pull_text(run.likely_raising)} at {contents.height_text(run.likely_raising)}"
        )
    return _more(f"worst share of several ropes{likely}")


def _cell(extreme: Extreme, towards: str = "up") -> str:
    if extreme.pull_n is None:
        return NEVER_KNOWN
    where = f"at {whereabouts.standing(round(extreme.at_m, 4), extreme.at_rad)}"
    return contents.pull_text(extreme, towards) + _more(as_it_hangs(extreme.pull_n, towards)) + _more(where)


def along(assessment: Assessment, run: RunOfRope) -> list[dict]:
    """The pulls of one run at every height in the units that are shown; kinds of pull that are the same at every height are one curve, under both names."""
    pulls = assessment.solution.runs[run.rope][run.number]
    stations = assessment.solution.travel.stations
    bad = assessment.solution.slack()
    lines = {
        "raising": pulls.raising,
        "holding, most": pulls.holding_most,
        "holding, least": pulls.holding_least,
        "lowering": pulls.lowering,
    }
    known = {words: numpy.where(bad, numpy.nan, numpy.broadcast_to(line.value, stations.values.shape)) for words, line in lines.items()}
    return [
        {"height": units.in_shown(float(h), stations.unit), "pull": units.in_shown(float(v), "N"), "what": words}
        for words, value in height_chart.merged(known).items()
        for h, v in zip(stations.values, value, strict=True)
        if numpy.isfinite(v)
    ]


@streamlit.cache_data(max_entries=100, show_spinner=False)
def _chart(text: str, system: str, number: int, ink: str, _assessment: Assessment) -> dict:
    return chart(_assessment, runs(_assessment)[number], ink)


def at_height(spec: dict, stations: Stations, index: int) -> dict:
    """The chart with its line across at a station."""
    curves, here = spec["layer"]
    return spec | {
        "layer": [curves, here | {"data": {"values": [{"height": units.in_shown(float(stations.values[index]), stations.unit)}]}}]
    }


def chart(assessment: Assessment, run: RunOfRope, ink: str) -> dict:
    """The specification of pull against height for one run; the kinds of pull are told apart by their dashes."""
    stations = assessment.solution.travel.stations
    pull, height = f"pull in {units.label('N')}", f"{stations.count} in {units.label(stations.unit)}"
    rows = along(assessment, run)
    names = list(dict.fromkeys(row["what"] for row in rows))
    across = f"{pull}: {names[0]}" if len(names) == 1 else pull  # one line needs no legend
    base = altair.Chart(altair.Data(values=rows)).encode(
        x=altair.X("pull:Q", title=across, scale=altair.Scale(zero=True, nice=True)),
        y=altair.Y("height:Q", title=height),
        order="height:Q",
        **(height_chart.told_apart(names) if len(names) > 1 else {}),
        tooltip=[altair.Tooltip("what:N", title="while"), altair.Tooltip("pull:Q", title=pull, format=".1f"), altair.Tooltip("height:Q", title=height, format=".3f")],
    )  # fmt: skip
    here = altair.Chart(altair.Data(values=[])).mark_rule(strokeWidth=1, opacity=0.7, color=ink).encode(y="height:Q")
    told = f"{run_name(run)}: pull against the {stations.count}. The figures stand in the table."
    return height_chart.finished(base.mark_line(color=ink) + here, ink, told, 380)


def labels_at(assessment: Assessment, index: int, words: str) -> dict[tuple[str, int], str]:
    """The text beside every run of the drawing at one height."""
    solution = assessment.solution
    if solution.slack()[index]:
        return {}
    found = {}
    for rope, own in solution.runs.items():
        for number, pulls in enumerate(own):
            line = getattr(pulls, _WAYS[words])
            value = float(line.value[min(index, line.value.shape[-1] - 1)])
            found[rope, number] = units.show(value, "N", 4, "up") if numpy.isfinite(value) else NEVER_KNOWN
    return found | struts_told.labels(assessment, index, words)
