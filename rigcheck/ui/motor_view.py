"""The motor: where it works on its line from no load to standing, and what it gives and takes along the travel; and the effort of hands."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import altair
import numpy
import streamlit

from rigcheck import units
from rigcheck.checks.assessment import Assessment
from rigcheck.checks.check import Check
from rigcheck.ui import height_chart, look, session, tables
from rigcheck.ui.plain_text import in_html
from rigcheck.whatif.drive_figures import DriveFigures, Effort, MotorLine, effort, missing_for_motor_line, motor_line, open_questions

UNKNOWN = "unknown"
ON_THIS_SUPPLY, AS_STATED, RATED = "motor on this supply and cable", "motor at its stated voltage", "rated torque"
RAISING_WORST, RAISING_EASIEST, STARTING, HOLDING = (
    "raising, where it is hardest", "raising, where it is easiest", "starting from standing still", "holding, the gears giving no help",
)  # fmt: skip
_SAME, _CLOSE = 0.02, 0.12  # shares of the axes: marks that lie on one another, and labels that would
LOWERING = (
    "Lowering is not worked out: the load then turns the motor, or the motor turns against locked gears, and the line from no load to standing says nothing of either. "
    "So no speed of lowering is given. Whether the load stays where it is left is told by the run-back guard and the brake, under Verdicts."
)

TORQUE = "Torque on the drum"
BEYOND = "The motor cannot turn this load on this supply and cable: what raising asks lies beyond its line. The current is the one it draws while it stands."

Place = tuple[str, float, float, float | None]
"""Words, torque in N·m, speed in rad/s, current in A where there is one."""


def places(figures: DriveFigures) -> list[Place]:
    """What is asked of the motor: raising at its hardest and easiest height, starting, holding; beyond the line the speed is nothing."""
    if figures.motor_torque is None:
        return []
    torque = figures.motor_torque.value
    found: list[Place] = []
    if figures.motor_speed is not None and figures.current is not None:
        hard, easy = int(torque.argmax()), int(torque.argmin())
        found.append(_place(RAISING_WORST, figures, hard))
        if torque[hard] - torque[easy] > 1e-6 * abs(torque[hard]):
            found.append(_place(RAISING_EASIEST, figures, easy))
    if figures.start_needed is not None:
        found.append((STARTING, figures.start_needed.number, 0.0, None))
    if figures.held is not None:
        found.append((HOLDING, figures.held.number, 0.0, None))
    return found


def _place(words: str, figures: DriveFigures, index: int) -> Place:
    speed, current = (float(line.value[min(index, line.value.shape[-1] - 1)]) for line in (figures.motor_speed, figures.current))
    return words, float(figures.motor_torque.value[index]), max(speed, 0.0), current


def working_point(line: MotorLine, found: list[Place], rated_nm: float | None, ink: str) -> dict:
    """Speed against torque: the motor's line, the torques that are asked of it, its rated torque."""
    lines = {ON_THIS_SUPPLY: (line.torques_nm, line.speeds_rad_s), AS_STATED: (line.stated_torques_nm, line.stated_speeds_rad_s)}
    if rated_nm is not None:
        lines[RATED] = (numpy.array([rated_nm, rated_nm]), numpy.array([0.0, float(line.stated_speeds_rad_s[0])]))
    across, up = f"torque on the motor's shaft in {units.label('N·m')}", f"speed of the motor in {units.label('rpm')}"
    x = altair.X("torque:Q", title=across, scale=altair.Scale(zero=True, nice=True), axis=altair.Axis(tickCount=6))
    y = altair.Y("speed:Q", title=up, scale=altair.Scale(zero=True, nice=True), axis=altair.Axis(tickCount=6))
    tips = [altair.Tooltip("torque:Q", title=across, format=".4g"), altair.Tooltip("speed:Q", title=up, format=".4g")]
    rows = [
        _point(words, torque, speed) for words, (torques, speeds) in lines.items() for torque, speed in zip(torques, speeds, strict=True)
    ]
    curves = altair.Chart(altair.Data(values=rows)).mark_line(color=ink).encode(x=x, y=y, **height_chart.told_apart(list(lines)))
    points = [_point(words, torque, speed) for words, torque, speed, _ in found]
    layers = [
        curves,
        altair.Chart(altair.Data(values=points))
        .mark_point(size=90, filled=True, opacity=1, color=ink)
        .encode(x=x, y=y, tooltip=[altair.Tooltip("what:N"), *tips]),
    ]
    ends = max(row["torque"] for row in rows + points), max(row["speed"] for row in rows + points)
    for letters, point, (align, across_px, down_px) in lettered(points, *ends):
        label = altair.Chart(altair.Data(values=[point])).mark_text(
            text=letters, align=align, dx=across_px, dy=down_px, fontSize=15, fontWeight="bold", color=ink
        )
        layers.append(label.encode(x=x, y=y))
    named = ", ".join(f"{letter} {words}" for words, letter in letters_of([words for words, *_ in found]).items())
    told = f"The motor's line, speed against torque, with {named}. The figures stand in the table."
    return height_chart.finished(altair.layer(*layers), ink, told, 320, len(lines))


def letters_of(places: Sequence[str]) -> dict[str, str]:
    """A letter for every place there is, none left out between two.

    >>> letters_of([RAISING_WORST, STARTING])
    {'raising, where it is hardest': 'A', 'starting from standing still': 'B'}
    """
    return dict(zip(places, "ABCD", strict=False))


def lettered(points: Sequence[dict], torque_end: float, speed_end: float) -> list[tuple[str, dict, tuple[str, int, int]]]:
    """The letters of places, from low torque to high: places that lie on one another share one label, and labels of places close together part.

    A label stands to the right above its place, clear of the falling line; left of it where another place follows closely; and higher up between two.
    """

    def apart(one: dict, other: dict, share: float) -> bool:
        return abs(one["torque"] - other["torque"]) > share * torque_end or abs(one["speed"] - other["speed"]) > share * speed_end

    groups: list[list[dict]] = []
    for point in sorted(points, key=lambda point: (point["torque"], -point["speed"])):
        same = next((group for group in groups if not apart(group[0], point, _SAME)), None)
        if same is None:
            groups.append([point])
        else:
            same.append(point)
    found, letters = [], letters_of([point["what"] for point in points])
    for index, group in enumerate(groups):
        before, after = (any(not apart(group[0], other[0], _CLOSE) for other in others) for others in (groups[:index], groups[index + 1 :]))
        low = -10 if group[0]["speed"] <= _SAME * speed_end else 14
        beside = ("center", 0, -26) if before and after else ("right", -6, low) if after else ("left", 6, -10)
        found.append((", ".join(sorted(letters[point["what"]] for point in group)), group[0], beside))
    return found


def _point(words: str, torque_nm: float, speed_rad_s: float) -> dict:
    return {"what": words, "torque": units.in_shown(float(torque_nm), "N·m"), "speed": units.in_shown(float(speed_rad_s), "rpm")}


def places_table(found: list[Place], figures: DriveFigures) -> str:
    """The same in figures, as HTML; what is asked is rounded up, what is given down."""
    letters = letters_of([words for words, *_ in found])
    rows = [
        (
            f"{letters[words]} &nbsp;{words}",
            units.show(torque, "N·m", 4, "up"),
            units.show(speed, "rpm", 4, "down"),
            "" if current is None else units.show(current, "A", 3, "up"),
        )
        for words, torque, speed, current in found
    ]
    if figures.rated is not None:
        rows.append((RATED, units.show(figures.rated.number, "N·m", 4, "down"), "", ""))
    if figures.start_given is not None:
        rows.append(
            (
                "what it can start with on this supply and cable",
                units.show(figures.start_given.number, "N·m", 4, "down"),
                units.show(0.0, "rpm"),
                "",
            )
        )
    return tables.table(("at the motor's shaft", "torque", "speed", "current"), rows, numbers=(1, 2, 3), name="Working point of the motor")


def speed_unit(figures: DriveFigures) -> str:
    """The unit in which the speed of the load is shown: it rises, or it turns about a hinge."""
    return "rpm" if figures.load_speed is not None and figures.load_speed.sign.unit == "rpm" else "m/min"


def summary(figures: DriveFigures) -> str:
    """The figures of one whole lift, as HTML."""
    told = (
        ("one lift takes", figures.time, "s", 3, "up"), ("slowest speed of the load", figures.least_speed, speed_unit(figures), 3, "down"),
        ("greatest current", figures.most_current, "A", 3, "up"), ("power drawn at it", figures.power_drawn, "W", 3, "up"),
        ("greatest power on the shaft", figures.shaft_power, "W", 3, "up"), ("least voltage at the motor", figures.least_voltage, "V", 3, "down"),
        ("motor's efficiency, at least", figures.least_efficiency, "%", 3, "down"),
    )  # fmt: skip
    pairs = "".join(
        f"<div><dt>{words}</dt><dd>{_shown(line, unit, digits, towards, figures.stands)}</dd></div>"
        for words, line, unit, digits, towards in told
    )
    return f'<div class="rc-check"><dl>{pairs}</dl></div>'


def _shown(line, unit: str, digits: int, towards: str, stands: bool) -> str:
    return units.show(line.number, unit, digits, towards) if line is not None else "the motor stands" if stands else UNKNOWN


def unanswered(checks: list[Check], missing: list[str]) -> str:
    """What cannot be told of the drive and what to find out, as HTML; empty where everything can."""
    reasons: dict[str, list[str]] = {}
    for check in checks:
        reasons.setdefault(check.reason, []).append(f"{check.item}, {check.what}")
    rows = "".join(
        f'<tr><th scope="row">{"<br>".join(map(in_html, names))}</th><td>{in_html(reason)}</td></tr>' for reason, names in reasons.items()
    )
    told = f"<p>Before the motor's line can be drawn, find out: {in_html('; '.join(missing))}.</p>" if missing else ""
    table = (
        f'<table class="rc-table"><thead><tr><th scope="col">◇ cannot tell</th><th scope="col">what to find out</th></tr></thead><tbody>{rows}</tbody></table>'
        if rows
        else ""
    )
    return told + table


def along(figures: DriveFigures) -> list[tuple[str, Mapping[str, numpy.ndarray], str, str]]:
    """What runs along the travel: title, curves, unit, and which way figures of it are rounded."""
    found = [(TORQUE, {words: line.value for words, line in figures.drum_torque.items()}, "N·m", "up")]
    if figures.load_speed is not None:
        found.append(("Speed of the load", {"raising": figures.load_speed.value}, speed_unit(figures), "down"))
    if figures.current is not None and not figures.stands:
        found.append(("Current", {"raising": figures.current.value}, "A", "up"))
    return [each for each in found if each[1]]


# -- on the page ----------------------------------------------------------------------------------------------------------


def show_unanswered(assessment: Assessment) -> None:
    """What cannot be told of the drive, first of all."""
    drive = assessment.rig.drive
    missing = missing_for_motor_line(assessment.rig) if drive.kind == "winch" and drive.motor is not None else []
    if told := unanswered(open_questions(assessment), missing):
        streamlit.markdown("#### What cannot be told yet")
        streamlit.html(told)


def show_working_point(assessment: Assessment, figures: DriveFigures) -> None:
    """The motor's line with what is asked of it, beside the same in figures."""
    streamlit.markdown("#### Working point of the motor")
    found = places(figures)
    spec = _working_point(session.good_text(), session.system(), look.ink(), assessment, figures, found)
    picture, told = look.beside([3, 2])
    if spec is None:
        picture.markdown("The motor's line is not known, so no picture of it is drawn: what is missing is told above.")
    else:
        with picture:
            streamlit.vega_lite_chart(spec, width="stretch")
    with told:
        if found:
            streamlit.html(places_table(found, figures))
        if figures.stands:
            streamlit.markdown(BEYOND)
        streamlit.caption(LOWERING)


def show_along(assessment: Assessment, figures: DriveFigures) -> None:
    """Torque, speed and current along the travel: a chart where it changes, a sentence where it does not; and one lift as a whole."""
    streamlit.markdown("#### Along the travel")
    found = along(figures)
    if not found:
        streamlit.markdown("The torque on the drum is not known along the travel.")
        return
    if figures.motor_torque is not None:
        streamlit.html(summary(figures))
    changing = [each for each in found if not height_chart.is_flat(each[1])]
    told = [
        each for each in found if each in changing or each[0] == TORQUE or figures.motor_torque is None
    ]  # the summary has what does not change
    streamlit.html("<br>".join(in_html(height_chart.sentence(title, curves, unit, towards)) for title, curves, unit, towards in told))
    if not changing:
        return
    for column, (title, curves, unit, _) in zip(look.beside(len(changing), "along"), changing, strict=True):
        with column:
            streamlit.vega_lite_chart(
                _along(session.good_text(), session.system(), look.ink(), title, unit, assessment, curves), width="stretch"
            )


def show_effort(assessment: Assessment) -> None:
    """What each person gives along the travel, against what is customary."""
    streamlit.markdown("#### Effort of one person")
    found = effort(assessment)
    if found is None:
        streamlit.markdown("The effort cannot be told: see above what is missing.")
        return
    streamlit.html(f"<p>{in_html(effort_told(found))}</p>")
    if not height_chart.is_flat(found.of_one_n):
        marks = [("customary", found.customary_n)]
        curves = found.of_one_n
        spec = _along(session.good_text(), session.system(), look.ink(), "effort of one person", "N", assessment, curves, marks)
        streamlit.vega_lite_chart(spec, width="stretch")


def effort_told(found: Effort) -> str:
    """The effort in words."""
    people = "one person" if found.people == 1 else f"each of {found.people} people"
    what = height_chart.sentence(f"Effort of {people}", found.of_one_n, "N")
    return f"{what} Customary is at most {units.show(found.customary_n, 'N', 4, 'down')} ({found.source})."


@streamlit.cache_data(max_entries=32, show_spinner=False)
def _working_point(text: str, system: str, ink: str, _assessment: Assessment, _figures: DriveFigures, _found: list[Place]) -> dict | None:
    line = motor_line(_assessment, _figures)
    return None if line is None else working_point(line, _found, _figures.rated.number if _figures.rated is not None else None, ink)


@streamlit.cache_data(max_entries=64, show_spinner=False)
def _along(
    text: str, system: str, ink: str, title: str, unit: str, _assessment: Assessment, _curves, marks: Sequence[tuple[str, float]] = ()
) -> dict:
    return height_chart.chart(_curves, _assessment.solution.travel.stations, title, unit, ink, marks=marks)
