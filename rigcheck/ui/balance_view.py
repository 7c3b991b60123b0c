"""The counterweight: what it leaves to pull along the travel, the best weight, its limits, and another weight to try."""

from __future__ import annotations

import math

import numpy
import streamlit

from rigcheck import units
from rigcheck.checks.assessment import Assessment
from rigcheck.checks.counterweight import pulled_in_words
from rigcheck.ui import height_chart, look, session, trying, weight_chart, weight_trial
from rigcheck.ui.in_sight import PARTS_PAGE
from rigcheck.ui.plain_text import in_html
from rigcheck.ui.session import Standing
from rigcheck.ui.verdict_words import check_of, named
from rigcheck.whatif import other_counterweight
from rigcheck.whatif.other_counterweight import Limits

MASSES = 121
WITHOUT = (
    "This rig has no counterweight. To add one: under Change parts, a body with the role counterweight, a rope made fast to it and to the load, "
    "and the sheaves that the rope runs over. Or begin with a scene that has one, under Begin, and put your numbers in."
)


def show(standing: Standing) -> None:
    """The whole page below its title."""
    assessment = standing.assessment
    names = other_counterweight.counterweights(assessment.rig)
    if not names:
        streamlit.markdown(WITHOUT)
        streamlit.page_link("change_parts.py", label="Add one under Change parts")
        return
    name = names[0] if len(names) == 1 else streamlit.selectbox("Counterweight", names, key=f"which-weight {session.opened()}")
    found = _limits(session.good_text(), session.system(), name, assessment)
    trying.tell("weight")
    streamlit.html("".join(f"<p>{in_html(sentence)}</p>" for sentence in told(assessment, name, found)))
    _ways(name, found)
    entry, picture = look.beside([2, 3])
    with entry:
        tried = weight_trial.show(standing, name, found)
    with picture:
        masses = [(weight_chart.NOW, assessment.rig.bodies[name].mass.value)]
        masses += [
            (words, mass)
            for words, mass in ((weight_chart.BEST, found.best_kg), (weight_chart.STOPPING, found.stopping_kg))
            if mass is not None
        ]
        spec = _pulls_by_weight(session.good_text(), session.system(), look.ink(), name, assessment, found, masses)
        streamlit.vega_lite_chart(spec if tried is None else weight_chart.with_tried(spec, tried), width="stretch")
        streamlit.caption(
            "Greatest pulls and the least pull at the drive, along the whole travel, for every weight that leaves all ropes taut."
        )
    _left_along(assessment)
    _by_height(assessment, name)


def _ways(name: str, found: Limits) -> None:
    """The ways to the fields on which all this rests."""
    fields = [("Change its weight in its own field", ("bodies", name, "mass"))]
    if found.margin_n is None:
        fields.append(("State the pull to be left in the hoist rope", ("limits", "taut_margin")))
    with streamlit.container(horizontal=True, gap="medium"):
        for words, path in fields:
            if streamlit.button(words, key=f"to field {path}", type="tertiary"):
                session.open_part(path)
                streamlit.switch_page(PARTS_PAGE)


@streamlit.cache_resource(max_entries=32, show_spinner=False)
def _limits(text: str, system: str, name: str, _assessment: Assessment) -> Limits:
    return other_counterweight.limits(_assessment, name)


def told(assessment: Assessment, name: str, found: Limits) -> list[str]:
    """What the counterweight does as it is, the best weight and its limits, and the loads it does for."""
    least = other_counterweight.least_pull(assessment).number
    mass = assessment.rig.bodies[name].mass
    said = [
        f"Weight of {name}: {mass}. The least pull left at the drive ({pulled_in_words(assessment.rig)}), along the travel and both ways while the "
        f"load moves, is {units.show(least, 'N', 4, 'down')}."
    ]
    if found.margin_n is None:
        said.append("The best weight cannot be told: state under Change parts, limits, the pull to be left in the hoist rope.")
    elif found.best is None or found.best_kg is None:
        said.append(f"There is no best weight. {found.best.words if found.best else ''}".strip())
    else:
        said.append(
            f"The best weight is {units.show(found.best_kg, 'kg', 4, 'down')}, the heaviest that may hang whatever the load weighs within its tolerance. "
            f"{found.best.words} A lighter one leaves more for the drive to lift."
        )
    limits = []
    if found.steady_kg is not None:
        limits.append(
            f"above {units.show(found.steady_kg, 'kg', 4, 'down')} less than the stated pull of {units.show(found.margin_n, 'N')} is left while the load "
            "moves steadily"
        )
    if found.stopping_kg is not None:
        hard = units.show(assessment.rig.limits.stopping.value, "m/s²")
        limits.append(
            f"above {units.show(found.stopping_kg, 'kg', 4, 'down')} the hoist rope goes slack when the load is started down or stopped as hard as is stated, {hard}"
        )
    if found.slack_kg is not None:
        limits.append(f"above {units.show(found.slack_kg, 'kg', 4, 'down')} it goes slack even while the load moves steadily")
    if found.runs_away_kg is not None:
        limits.append(
            f"above {units.show(found.runs_away_kg, 'kg', 4, 'down')} it runs away where nothing but friction holds it: it draws the load up by itself"
        )
    if limits:
        said.append(f"Limits of the counterweight with the load as entered: {'; '.join(limits)}.")
    if found.lightest_load_kg is not None:
        said.append(
            f"With the counterweight as it is, the hoist rope goes slack if the load weighs less than {units.show(found.lightest_load_kg, 'kg', 4, 'up')}. "
            "Before the load is made lighter or taken off, block the counterweight: then nothing else holds it up."
        )
    return [*said, loads(assessment)]


def loads(assessment: Assessment) -> str:
    """The range of loads over which every check holds, in a sentence."""
    whole = assessment.whole
    governs = check_of(assessment, whole.governed_by)
    if whole.rated_load_kg is None:
        return (
            f"Over which loads every check holds cannot be told, because of: {named(governs)}."
            if governs
            else "Over which loads every check holds cannot be told."
        )
    if whole.rated_load_kg == 0:
        return (
            f"There is no load for which every check holds: {named(governs)} falls short."
            if governs
            else "There is no load for which every check holds."
        )
    least = units.show(whole.least_load_kg or 0.0, "kg", 4, "up")
    most = "any heavier one" if math.isinf(whole.rated_load_kg) else units.show(whole.rated_load_kg, "kg", 4, "down")
    return f"Every check holds for loads from {least} to {most}."


# -- charts ---------------------------------------------------------------------------------------------------------------


@streamlit.cache_data(max_entries=64, show_spinner=False)
def _pulls_by_weight(
    text: str, system: str, ink: str, name: str, _assessment: Assessment, _found: Limits, masses: list[tuple[str, float]]
) -> dict:
    greatest = max([value for _, value in masses] + [_found.runs_away_kg or 0.0, _assessment.rig.load.mass.value]) * 1.05
    wanted = numpy.unique(
        numpy.concatenate([numpy.linspace(0.0, greatest, MASSES), [value for _, value in masses], [_found.slack_kg or 0.0]])
    )
    return weight_chart.pulls_by_weight(other_counterweight.curve(_assessment, name, wanted), masses, _found.margin_n, ink)


def _left_along(assessment: Assessment) -> None:
    streamlit.markdown("#### Pull left in the hoist rope along the travel")
    left = other_counterweight.left_along(assessment)
    streamlit.html(f"<p>{in_html(height_chart.sentence('Left at the drive', left, 'N', 'down'))}</p>")
    if other_counterweight.STOPS not in left:
        check = next((check for check in assessment.checks if check.id == "counterweight.stopping"), None)
        why = check.reason if check else next((text for text in assessment.not_checked if text.startswith("Starting and stopping")), "")
        streamlit.html(f"<p>◇ While starting and stopping it cannot be told. {in_html(why)}</p>")
    if not height_chart.is_flat(left):
        margin = assessment.rig.limits.taut_margin
        marks = [] if margin is None else [("to be left, as stated", margin.value)]
        streamlit.vega_lite_chart(
            _along(session.good_text(), session.system(), look.ink(), "pull", "N", assessment, left, marks), width="stretch"
        )


def _by_height(assessment: Assessment, name: str) -> None:
    stations = assessment.solution.travel.stations
    streamlit.markdown(f"#### The counterweight against the {stations.count}")
    places = other_counterweight.places_along(assessment, name)
    streamlit.html(f"<p>{in_html(runs_from(name, places))}</p>")
    if numpy.max(numpy.abs(places - numpy.interp(stations.values, stations.values[[0, -1]], places[[0, -1]]))) > 1e-6:
        curves = {"counterweight": places}
        streamlit.vega_lite_chart(
            _along(session.good_text(), session.system(), look.ink(), "height of the counterweight", "m", assessment, curves),
            width="stretch",
        )
    heaviest = other_counterweight.heaviest_by_height(assessment, name)
    if heaviest is None:
        return
    curves = {"counterweight": heaviest}
    streamlit.html(f"<p>{in_html(height_chart.sentence('Weight that leaves just the stated pull', curves, 'kg', 'down'))}</p>")
    if not height_chart.is_flat(curves):
        marks = [("weight now", assessment.rig.bodies[name].mass.value)]
        streamlit.vega_lite_chart(
            _along(
                session.good_text(),
                session.system(),
                look.ink(),
                "weight that leaves just the stated pull",
                "kg",
                assessment,
                curves,
                marks,
            ),
            width="stretch",
        )


def runs_from(name: str, places: numpy.ndarray) -> str:
    """Where the counterweight is with the load down and with the load up."""
    down, up = (units.show(round(float(places[i]), 6), "m", 4) for i in (0, -1))
    return f"The reference point of {name} (the middle of its underside) stands at {down} with the load down and at {up} with the load up."


@streamlit.cache_data(max_entries=64, show_spinner=False)
def _along(text: str, system: str, ink: str, title: str, unit: str, _assessment: Assessment, _curves, marks=()) -> dict:
    return height_chart.chart(_curves, _assessment.solution.travel.stations, title, unit, ink, marks=marks)
