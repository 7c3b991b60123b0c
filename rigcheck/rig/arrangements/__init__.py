"""Arrangements: ways to rig a hoist that turn a few measured numbers into a whole rig.

A form is built from what an arrangement declares: `inputs` (quantities as text) and `choices`; `make(values)` gives the rig.
"""

from __future__ import annotations

from rigcheck.rig.arrangements import between_posts, bridle, gathering, lid, straight, struts, tackle, two_falls
from rigcheck.rig.arrangements.inputs import Arrangement, Choice, Input

__all__ = ["ARRANGEMENTS", "Arrangement", "Choice", "Input"]

_KINDS = (straight, tackle, two_falls, lid, bridle, gathering, between_posts, struts)
ARRANGEMENTS: dict[str, Arrangement] = {each.slug: each for kind in _KINDS for each in kind.ARRANGEMENTS}
