"""Words of the trade and of the working that a reader of the report may not know, each in one sentence."""

from __future__ import annotations

WORDS_EXPLAINED: tuple[tuple[str, str], ...] = (
    ("factor, required factor", "what a part can bear over what is asked of it, and how much that must be at least"),
    ("times what is required", "the factor over the required factor: 1 is just enough, 2 is twice enough"),
    ("rated load", "the greatest load with which every check holds, everything else as it is"),
    (
        "raising, lowering, holding",
        "the drum winds in, pays out, stands still; friction pulls the other way each time, so each has pulls of its own",
    ),
    ("run, fall, lead line", "a straight piece of rope between two stops; a run that carries the load; the run to drum or hand"),
    ("parts of line", "how many runs carry the moving block of a tackle"),
    ("D/d", "the diameter round which a rope bends over the diameter of the rope"),
    ("fleet angle", "how far the rope is led sideways on its way to the drum"),
    ("dead wraps", "the turns that stay on the drum with the load at its lowest"),
    ("FC, IWRC, WSC", "what is in the middle of a wire rope: a fibre core, a small wire rope of its own, a wire strand"),
    ("grade", "how strong the wires of a rope are, as its certificate or label says"),
    ("efficiency", "the share of the work put in that comes out; the rest is friction"),
    ("efficiency backwards", "the same with the load driving the gears; nothing comes out where they lock"),
    ("run-back guard", "what keeps the load from turning the drum back; not a brake, which stops it moving"),
    ("working point", "the speed and the current at which the motor gives just the torque that is asked of it"),
    (
        "strut, guy, joint",
        "a straight member that pushes or pulls along its own line; one that can only pull; a place that struts alone hold",
    ),
    ("kick", "what pushes the foot of a leg aside, along the ground"),
    ("worst share", "the most that one of several ropes may have to carry if the others are a little too long"),
    ("linear program", "a search for the greatest or the least of all pulls that balance the weights with every friction allowed"),
    (
        "read, common practice, from memory",
        "where a value comes from: a source that was read, a rule of thumb without one, or recollection, which decides nothing alone",
    ),
)
"""The word, and what it means here."""
