"""Whatever is left unknown is asked for: a check that can no longer tell once a field is taken away names that field."""

import json
import typing
from functools import cache

import pytest
from pydantic import BaseModel

from rigcheck.checks.assessment import assess
from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, HOLDS
from rigcheck.errors import RigcheckError
from rigcheck.rig import examples, files
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.rig.model import Rig


def optional_fields(rig: Rig):
    """The path of every field that is written in the rig file and may be left out, those of parts within parts among them."""
    yield from _optional_fields(rig, json.loads(files.dumps(rig)), ())


def _optional_fields(part: BaseModel, data: dict, path):
    for name, field in type(part).model_fields.items():
        if name == "notes" or name not in data:
            continue
        if not field.is_required():
            yield (*path, name)
        value = getattr(part, name)
        children = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, tuple) else [(None, value)]
        for step, child in children:
            if isinstance(child, BaseModel):
                inner = data[name] if step is None else data[name][step]
                yield from _optional_fields(child, inner, (*path, name) if step is None else (*path, name, step))


def without(rig: Rig, path) -> Rig:
    """The rig with one field taken away."""
    data = json.loads(files.dumps(rig))
    part = data
    for step in path[:-1]:
        part = part[step]
    part.pop(path[-1], None)
    notes = part.get("notes", {})
    notes.pop(path[-1], None)
    return Rig.model_validate(data)


def begins(path, other) -> bool:
    """Whether one of the two paths leads to the other's part."""
    return path[: len(other)] == other


def exists(path, annotation=Rig) -> bool:
    """Whether a path leads to a field of the model; names and places in lists stand for themselves."""
    if not path:
        return True
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        field = annotation.model_fields.get(path[0])
        return field is not None and exists(path[1:], field.annotation)
    origin, inner = typing.get_origin(annotation), typing.get_args(annotation)
    if origin is dict:
        return exists(path[1:], inner[1])
    if origin is tuple:
        return isinstance(path[0], int) and any(exists(path[1:], each) for each in inner)
    return any(exists(path, each) for each in inner)


def leads_somewhere(rig: Rig, path) -> bool:
    """Whether a path leads along parts that this rig has to a field of the last of them; a field that holds nothing yet is one too."""
    part = rig
    for step in path:
        if isinstance(part, BaseModel):
            if step not in type(part).model_fields:
                return False
            part = getattr(part, step)
        elif isinstance(part, dict | tuple) and step in (part if isinstance(part, dict) else range(len(part))):
            part = part[step]
        else:
            return False
    return True


NOTHING_MISSING = {("drive", "gears"), ("drive", "drum", "bolted_to")}
"""Without gears a winch is described all the same: its motor sits on the drum. A brake may then be too weak to serve as run-back guard, and what the
pawl holds is asked for instead. A winch that is bolted to no strut stands by itself: the feet of the struts then bear its pull too."""


@cache
def found(name: str):
    return assess(examples.example(name))


REMOVED = [(name, path) for name in examples.names() for path in optional_fields(examples.example(name))]


@pytest.mark.parametrize(("name", "path"), REMOVED, ids=lambda value: value if isinstance(value, str) else ".".join(map(str, value)))
def test_a_check_that_a_missing_field_leaves_open_asks_for_it(name, path):
    before = {check.id: check for check in found(name).checks}
    try:
        after = assess(without(examples.example(name), path))
    except (RigcheckError, ValueError):
        return  # without the field there is no rig: its absence is told as a fault at its place
    for check in after.checks:
        assert all(exists(want) for want in check.wants), (check.id, check.wants)
        assert all(leads_somewhere(after.rig, want) for want in check.wants), (check.id, check.wants)
        assert len(set(check.wants)) == len(check.wants), (check.id, check.wants)
        assert bool(check.wants) or check.verdict != CANNOT_TELL, (check.id, check.reason)
        assert not check.wants or check.verdict != HOLDS, (check.id, check.wants)
        old = before.get(check.id)
        if check.verdict == CANNOT_TELL and old is not None and old.verdict != CANNOT_TELL:
            asked = any(begins(path, want) or begins(want, path) for want in check.wants)
            assert asked or path in NOTHING_MISSING, (check.id, check.reason, check.wants)


def test_the_walk_takes_away_fields_that_matter():
    """Of the fields taken away many leave some check open; were there none, the test above would assert nothing."""
    name = "loft-lift"
    opened = set()
    for path in optional_fields(examples.example(name)):
        try:
            after = assess(without(examples.example(name), path))
        except (RigcheckError, ValueError):
            continue
        opened |= {path for check in after.checks if check.verdict == CANNOT_TELL}
    assert {path[-1] for path in opened} >= {
        "rated_load",
        "fitting",
        "remaining_strength",
        "dead_wraps",
        "width",
        "stall_torque",
        "voltage",
        "ratio",
        "torque",
    }


@pytest.mark.parametrize("slug", ARRANGEMENTS)
def test_in_an_arrangement_as_it_begins_every_open_check_asks_for_a_field(slug):
    arrangement = ARRANGEMENTS[slug]
    assessment = assess(arrangement.make(arrangement.defaults()))
    open_ones = [check for check in assessment.checks if check.verdict == CANNOT_TELL]
    assert len(open_ones) > 5
    assert [check.id for check in open_ones if not check.wants] == []
    assert all(exists(want) for check in assessment.checks for want in check.wants)


def test_a_path_that_leads_nowhere_is_known_as_such():
    assert exists(("ropes", "hoist rope", "path", 0, "fitting"))
    assert exists(("drive", "gears", 1, "ratio"))
    assert not exists(("ropes", "hoist rope", "colour"))
    assert not exists(("drive", "flywheel"))


@pytest.mark.parametrize("name", examples.names())
def test_what_falls_short_names_only_fields_that_exist(name):
    for check in found(name).checks:
        if check.verdict == FALLS_SHORT:
            assert all(exists(want) for want in check.wants), (check.id, check.wants)


def test_a_missing_brake_leads_to_the_brake():
    short = next(check for check in found("kiln-shell").checks if check.id == "holding.brake")
    assert short.wants == (("drive", "brake"),)
