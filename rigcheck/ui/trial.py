"""Whether a draft would be solved, tried at a few heights of the travel."""

from __future__ import annotations

import numpy

from rigcheck.errors import RigcheckError
from rigcheck.statics.travel import follow, heights
from rigcheck.ui.draft import Draft

_HEIGHTS = 11


def hindrance(draft: Draft) -> RigcheckError | None:
    """Why a draft is not solved: the first of its faults, None where it is solved."""
    rig, faults = draft.read()
    if rig is None:
        return RigcheckError(faults[0].wrong, right=faults[0].right)
    try:
        with numpy.errstate(all="ignore"):  # stops in one place are refused in words
            follow(rig, heights(rig, _HEIGHTS))
    except RigcheckError as fault:
        return fault
    return None
