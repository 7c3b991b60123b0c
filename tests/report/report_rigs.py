"""Rigs for the tests of the reports: every example, and variants of them that are awkward to report on."""

from __future__ import annotations

import json
from functools import cache

from rigcheck.checks.assessment import Assessment, assess
from rigcheck.rig import examples, files
from rigcheck.rig.model import Rig

HOSTILE = 'a "b" $x$ #c *d* _e_ @f <g> \\h `i` [j] ~k & //l'
HEBREW = "\u05de\u05e0\u05d5\u05e3"


def data_of(name: str) -> dict:
    """The data of an example's rig file, to be changed."""
    return json.loads(files.dumps(examples.example(name)))


def read(data: dict) -> Rig:
    return files.loads(json.dumps(data))


@cache
def assessed(name: str) -> Assessment:
    return assess(ALL[name]())


def renamed(data: dict, old: str, new: str) -> dict:
    """The same rig with one name changed wherever it stands."""
    return json.loads(json.dumps(data).replace(json.dumps(old), json.dumps(new)))


def slack() -> Rig:
    """A counterweight far heavier than the load: the hoist rope would have to push."""
    data = data_of("studio-counterweight")
    data["bodies"]["counterweight"]["mass"] = "300 kg"
    return read(data)


def hostile() -> Rig:
    """Names and notes that would be markup, mathematics or code if they were not kept apart from it."""
    data = renamed(renamed(data_of("loft-lift"), "hoist rope", HOSTILE), "head sheave", HEBREW)
    data = renamed(data, "platform", 'p) #import "x" $')
    data["name"] = "#panic(1) $ \\u{0} */ \"'"
    data["about"] = '*bold*? <label> @ref #eval("1") \\ $x$\n= no heading\n- no list\t//'
    data["points"]["hanger of lead sheave"]["fixing"] = '#read("/etc/passwd") \u202eturned'
    data["ropes"][HOSTILE]["notes"]["diameter"] = "$guess$ \\"
    return read(data)


def askew() -> Rig:
    """A rope that pulls aside, so that every pull changes along the travel."""
    data = data_of("loft-lift")
    data["points"]["hanger of head sheave"]["at"][0] = "0.9 m"
    data["drive"]["drum"]["at"][0] = "3 m"
    return read(data)


def huge() -> Rig:
    """A load of a thousand tonnes: numbers that are printed with powers of ten."""
    data = data_of("loft-lift")
    data["bodies"]["platform"]["mass"] = "999000 kg"
    data["ropes"]["hoist rope"]["breaking_force"] = "99000000 N"
    return read(data)


def longest_names() -> Rig:
    """Names as long as they may be, all over the longest formula."""
    data = data_of("loft-lift")
    return read(renamed(renamed(data, "hoist rope", ("hoist rope of the lift " * 3)[:60].strip()), "head sheave", "W" * 60))


ALL = {name: (lambda name=name: examples.example(name)) for name in examples.names()} | {
    "slack": slack, "hostile": hostile, "askew": askew, "huge": huge, "longest names": longest_names,
}  # fmt: skip
