"""Arrangements: ways to rig a hoist that turn a few measured numbers into a whole rig.

A form is built from what an arrangement declares: `inputs` (quantities as text) and `choices`; `make(values)` gives the rig.
"""

from __future__ import annotations

from rigcheck.rig.arrangements import lid, straight, struts, tackle, two_falls
from rigcheck.rig.arrangements.inputs import Arrangement, Choice, Input

__all__ = ["ARRANGEMENTS", "Arrangement", "Choice", "Input"]

ARRANGEMENTS: dict[str, Arrangement] = {
    each.slug: each
    for each in (*straight.ARRANGEMENTS, *tackle.ARRANGEMENTS, *two_falls.ARRANGEMENTS, *lid.ARRANGEMENTS, *struts.ARRANGEMENTS)
}  # fmt: skip
