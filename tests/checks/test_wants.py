"""Whatever is left unknown is asked for: a check that can no longer tell once a field is taken away names that field."""

import json
import types
import typing
from functools import cache

import pytest
from pydantic import BaseModel

from rigcheck.checks.assessment import assess
from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT
from rigcheck.errors import RigcheckError
from rigcheck.rig import examples, files
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.rig.model import Rig


def optional_fields(part, path=()):
    """The path of every field that is stated and may be left out, those of parts within parts among them."""
    for name, field in type(part).model_fields.items():
        value = getattr(part, name)
        if name == "notes" or value is None:
            continue
        if not field.is_required():
            yield (*path, name)
        children = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, tuple) else [(None, value)]
        for step, child in children:
            if isinstance(child, BaseModel):
                yield from optional_fields(child, (*path, name) if step is None else (*path, name, step))


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


def models_in(annotation) -> set[type[BaseModel]]:
    """The forms an annotation may hold, through unions, lists and mappings."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return {annotation}
    if isinstance(annotation, typing.TypeAliasType) if hasattr(typing, "TypeAliasType") else False:
        return models_in(annotation.__value__)
    if isinstance(annotation, types.UnionType) or typing.get_origin(annotation) is not None:
        return set().union(*(models_in(each) for each in typing.get_args(annotation)), set())
    return set()


def exists(path, form: type[BaseModel] = Rig) -> bool:
    """Whether a path leads to a field of the model; names and places in lists stand for themselves."""
    here: set[type[BaseModel]] = {form}
    for step in path:
        if isinstance(step, int):
            continue
        fields = [each.model_fields[step] for each in here if step in each.model_fields]
        if not fields:
            if here and all(step not in each.model_fields for each in here) and named:
                named = False
                continue
            return False
        named = any(typing.get_origin(field.annotation) is dict for field in fields)
        here = set().union(*(models_in(field.annotation) for field in fields))
    return True


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
        old = before.get(check.id)
        if check.verdict == CANNOT_TELL and old is not None and old.verdict != CANNOT_TELL:
            assert any(begins(path, want) or begins(want, path) for want in check.wants), (check.id, check.reason, check.wants)


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
