"""Which ways of carrying count for the pulls that act: at every height, and for every mixture of pulls that may come together at rest."""

from __future__ import annotations

import numpy

from rigcheck.statics.frame import Frame
from rigcheck.statics.joint_loads import Loads

_A_HAIR = 1e-9


def slack_below(values) -> numpy.ndarray:
    """A push of a guy that is nothing but rounding beside the pulls that act."""
    return _A_HAIR * sum((numpy.abs(value) for key, value in values.items() if key.startswith("most")), numpy.zeros(1)) + 1e-12


def carrying(frame: Frame, loads: Loads, values) -> list[numpy.ndarray]:
    """For each way of the frame whether it counts, at every height. Nowhere any where the joints are not held, or where what comes to each member is not sure.

    A way that is right for all pulls that may come together counts alone. Otherwise every way counts that is right for some of them, if each of these
    is sure and the joints are held whatever mixture comes.
    """
    if frame.is_plain:
        return [numpy.ones(1, dtype=bool)]
    hair = slack_below(values)
    possible, right, sure = [], [], []
    for way in frame.ways:
        needed = [loads.extremes(values, row) for row in way.needs]
        possible.append(_all([high >= -hair for _, high in needed]))
        right.append(_all([low >= -hair for low, _ in needed]))
        sure.append(_all([loads.extremes(values, row)[0] >= -hair for row in way.sure]))
    alone = [one & other for one, other in zip(right, sure, strict=True)]
    any_alone = _any(alone)
    together = _all([~one | other for one, other in zip(possible, sure, strict=True)]) & _is_held_throughout(frame, loads, values, hair)
    return [numpy.where(any_alone, one, maybe & together) for one, maybe in zip(alone, possible, strict=True)]


def is_held(frame: Frame, loads: Loads, values) -> bool:
    """Whether some way carries at every height, whatever mixture of pulls comes: a push that is not known all the same depends on how stiff the members are.

    Where the mixtures are too many to be tried, a way that may be right is taken for one: then it is not said that nothing holds.
    """
    if frame.is_plain:
        return True
    hair = slack_below(values)
    if loads.mixtures(values) is not None:
        return bool(numpy.all(_is_held_throughout(frame, loads, values, hair)))
    return bool(numpy.all(_any([_all([loads.extremes(values, row)[1] >= -hair for row in way.needs]) for way in frame.ways])))


def _is_held_throughout(frame: Frame, loads: Loads, values, hair: numpy.ndarray) -> numpy.ndarray:
    """Whether at every corner of the range of pulls some way carries: what lies between them is then held too, since a sum of forces that are held is."""
    mixtures = loads.mixtures(values)
    if mixtures is None:
        return _any([_all([loads.extremes(values, row)[0] >= -hair for row in way.needs]) for way in frame.ways])
    shares = loads.shares(values)
    return _all(
        [_any([_all([part >= -hair for part in loads.following(shares, mixed, way.needs)]) for way in frame.ways]) for mixed in mixtures]
    )


def _all(parts: list[numpy.ndarray]) -> numpy.ndarray:
    found = numpy.ones(1, dtype=bool)
    for part in parts:
        found = found & part
    return found


def _any(parts: list[numpy.ndarray]) -> numpy.ndarray:
    found = numpy.zeros(1, dtype=bool)
    for part in parts:
        found = found | part
    return found
