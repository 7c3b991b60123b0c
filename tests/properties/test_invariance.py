"""What must not matter does not: left and right, the unit a length is typed in, and a journey through a file."""

import copy

import numpy
import pytest
from hypothesis import given

from rigcheck.rig import files
from rigcheck.rig.model import Rig
from rigcheck.statics.solution import solve
from tests.properties.strategies import HEIGHTS, any_rigs, solved
from tests.rig_builders import metres

WAYS = ("raising", "lowering", "holding_least", "holding_most")


def everything(solution):
    """Every pull along the travel and the motion, in one array."""
    rows = [numpy.broadcast_to(getattr(run, way).value, HEIGHTS.shape) for runs in solution.runs.values() for run in runs for way in WAYS]
    return numpy.array([*rows, solution.travel.motion.take_in])


def same(one, other):
    a, b = everything(one), everything(other)
    assert a == pytest.approx(b, rel=1e-9, abs=1e-9 * numpy.nanmax(numpy.abs(a)), nan_ok=True)


def _flip(text: str) -> str:
    return metres(-float(text.removesuffix(" m")))


def mirrored(data: dict) -> dict:
    """The rig as its front shows in a mirror at the side: across changes sign, every sense turns round."""
    found = copy.deepcopy(data)
    places = [p["at"] for p in found["points"].values()] + [found["drive"]["drum"]["at"]]
    for body in found["bodies"].values():
        places += [body["at"], *body["picks"].values(), *([body["centre_of_gravity"]] if "centre_of_gravity" in body else [])]
        if "along" in body.get("moves", {}):
            body["moves"]["along"][0] *= -1
        places += [body["moves"]["hinge"]] if "hinge" in body.get("moves", {}) else []
        if "axis" in body.get("moves", {}):
            body["moves"]["axis"][0] *= -1
    for sheave in found["sheaves"].values():
        places += [sheave["offset"]] if "offset" in sheave else []
        if "axis" in sheave:
            sheave["axis"][0] *= -1
    for where in places:
        where[0] = _flip(where[0])
    for rope in found["ropes"].values():
        for stop in rope["path"]:
            if "turns" in stop:
                stop["turns"] = {"clockwise": "anticlockwise", "anticlockwise": "clockwise"}[stop["turns"]]
    return found


@given(any_rigs)
def test_a_mirror_changes_no_pull(builder):
    same(solved(builder), solve(Rig.model_validate(mirrored(builder.data)), HEIGHTS))


def _in_feet(value):
    if isinstance(value, str) and value.endswith(" m"):
        return f"{float(value.removesuffix(' m')) / 0.3048!r} ft"
    if isinstance(value, str) and value.endswith(" kg"):
        return f"{float(value.removesuffix(' kg')) / 0.45359237!r} lb"
    if isinstance(value, dict):
        return {key: _in_feet(inner) for key, inner in value.items()}
    return [_in_feet(inner) for inner in value] if isinstance(value, list) else value


@given(any_rigs)
def test_feet_and_pounds_change_no_pull(builder):
    same(solved(builder), solve(Rig.model_validate(_in_feet(builder.data)), HEIGHTS))


@given(any_rigs)
def test_a_rig_that_was_saved_and_loaded_is_the_same_rig(builder):
    rig = builder.rig()
    text = files.dumps(rig)
    assert files.loads(text) == rig
    assert files.dumps(files.loads(text)) == text
    assert files.digest(files.loads(text)) == files.digest(rig)


@given(any_rigs)
def test_the_order_in_which_ropes_and_bodies_are_written_changes_no_pull(builder):
    data = copy.deepcopy(builder.data)
    for part in ("ropes", "bodies", "sheaves", "points"):
        data[part] = dict(reversed(data[part].items()))
    one, other = solved(builder), solve(Rig.model_validate(data), HEIGHTS)
    for rope in one.runs:
        for run, again in zip(one.runs[rope], other.runs[rope], strict=True):
            for way in WAYS:
                largest = one.weights[one.rig.load_name].number
                assert getattr(run, way).value == pytest.approx(getattr(again, way).value, rel=1e-9, abs=1e-9 * largest, nan_ok=True)
