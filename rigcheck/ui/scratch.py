"""A rig that is none of the arrangements: it begins as one rope over one sheave, pulled by hand, and grows from there.

What must exist and was not measured carries a note that it is a typical value (common practice, no source); what may be left out is left out.
"""

from __future__ import annotations

from rigcheck.rig.files import FORMAT
from rigcheck.ui.draft import SCRATCH, Draft
from rigcheck.ui.form_notes import PLACED, TYPICAL

ROPE = "hoist rope"


def beginning() -> Draft:
    """A guided load on one rope that runs over one sheave to a hand; it is solved as it stands."""
    return Draft(
        {
            "format": FORMAT,
            "name": "a rig of one's own",
            "points": {"hanger of head sheave": {"at": ["0.06 m", "3 m"], "notes": {"at": PLACED}}},
            "bodies": {
                "load": {
                    "role": "load",
                    "mass": "20 kg",
                    "at": ["0 m", "0 m"],
                    "picks": {"eye": ["0 m", "0.5 m"]},
                    "notes": {"mass": f"{TYPICAL}, weigh the load", "picks": TYPICAL},
                }
            },
            "sheaves": {"head sheave": {"on": "hanger of head sheave", "pitch_diameter": "120 mm", "notes": {"pitch_diameter": TYPICAL}}},
            "ropes": {
                ROPE: {
                    "kind": "fibre",
                    "diameter": "12 mm",
                    "path": [
                        {"made_fast_to": "load", "pick": "eye"},
                        {"over": "head sheave", "turns": "clockwise"},
                        {"pulled_by_hand_at": ["0.7 m", "1.2 m"], "notes": {"pulled_by_hand_at": PLACED}},
                    ],
                    "notes": {"kind": TYPICAL, "diameter": TYPICAL},
                }
            },
            "drive": {"kind": "hand line"},
            "limits": {"travel": "1.6 m", "notes": {"travel": TYPICAL}},
        },
        SCRATCH,
    )
