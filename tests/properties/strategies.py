"""The one home of hypothesis strategies: random rigs of every kind that the statics can solve.

Each strategy draws a Builder. A few draws are degenerate (sheaves that overlap, a rope that leaves its sheave): `solved` lets
hypothesis draw again for those, and `test_strategies.py` counts them.
"""

from __future__ import annotations

import numpy
from hypothesis import reject
from hypothesis import strategies as st

from rigcheck.errors import GeometryError
from rigcheck.statics.solution import Solution, solve
from tests.rig_builders import END, LOAD, Builder, counterweighted, drum, fast, over, tackle

HEIGHTS = numpy.linspace(0.0, 1.0, 5)


def reals(low: float, high: float):
    """Numbers with four decimals, so that a failing example is short to read."""
    return st.integers(round(low * 10000), round(high * 10000)).map(lambda i: i / 10000)


efficiencies = reals(0.85, 1.0)
masses = reals(20.0, 400.0)
sizes = reals(0.06, 0.2)
sheaves = st.one_of(efficiencies.map(lambda e: {"efficiency": e}), st.sampled_from([{"bearing": "plain"}, {"bearing": "rolling"}]))


@st.composite
def tackles(draw) -> Builder:
    """One to eight parts, rove both ways, up to three lead sheaves, sheaves of unequal size: falls that part or close in, wraps over 180°."""
    advantage = draw(st.booleans())
    parts = draw(st.integers(2 if advantage else 1, 8))
    leads = draw(st.integers(0, 3))
    count = parts - advantage + leads
    alike = draw(st.booleans())
    diameters = [0.1] * count if alike else [draw(sizes) for _ in range(count)]
    each = [draw(sheaves)] * count if draw(st.booleans()) else [draw(sheaves) for _ in range(count)]
    return tackle(parts, advantage=advantage, mass_kg=draw(masses), leads=leads, diameters=diameters, each=each)


@st.composite
def counterweights(draw) -> Builder:
    """A counterweight over one to three sheaves, light enough that the hoist rope stays taut."""
    mass, many = draw(masses), draw(st.integers(1, 3))
    each = [draw(sheaves) for _ in range(many)]
    diameters = [draw(sizes) for _ in range(many)]
    heads = [4.0 + draw(reals(-0.02, 0.02)) + 0.15 * (i == 1) for i in range(many)]
    return counterweighted(mass, draw(reals(0.05, 0.5)) * mass, each, draw(sheaves), diameters=diameters, heads=heads)


@st.composite
def tilting_spreaders(draw) -> Builder:
    """A guided spreader, free to tilt, on two falls to one drum; its centre of gravity lies off the middle."""
    b = Builder("spreader")
    half = draw(reals(0.3, 0.8))
    gravity = [f"{draw(reals(-0.25, 0.25)) * half!r} m", f"{draw(reals(-0.2, 0.1))!r} m"]
    b.body(LOAD, draw(masses), (0.0, 0.0), "load", picks={"left": (-half, 0.2), "right": (half, 0.2)}, centre_of_gravity=gravity,
           moves={"kind": "guided", "tilts": True})  # fmt: skip
    for side, x, up, leads in (("left", -half, 4.5, 1), ("right", half, 4.0, 0)):
        d = draw(sizes)
        out = draw(reals(-0.2, 0.2))
        path = [fast(LOAD, side, **END), over(b.sheave(f"{side} head", (x + out + d / 2, up), d, **draw(sheaves)), True)]
        for i in range(leads):
            path.append(over(b.sheave(f"{side} lead {i}", (half + 0.5, up + draw(reals(-0.1, 0.1))), draw(sizes), **draw(sheaves)), True))
        b.rope(side, [*path, drum()], 0.006)
    b.winch((half + 1.3, 0.4), 0.12)
    return b


@st.composite
def sloping_guides(draw) -> Builder:
    """A body on a sloping guide with one sheave on it: two falls whose angles change along the travel."""
    b = Builder("incline")
    b.body(LOAD, draw(masses), (0.0, 0.0), "load", moves={"kind": "guided", "along": [draw(reals(-0.6, 0.6)), 1.0]})
    b.sheave("running", (0.0, 0.3), draw(sizes), LOAD, **draw(sheaves))
    anchor = b.point("anchor", (draw(reals(-1.5, -0.3)), 4.0 + draw(reals(0.0, 1.0))))
    b.sheave("head", (draw(reals(0.3, 1.5)), 4.0 + draw(reals(0.0, 1.0))), draw(sizes), **draw(sheaves))
    b.winch((2.5, 0.5))
    b.rope("hoist", [fast(anchor, **END), over("running", False), over("head", True), drum()])
    return b


@st.composite
def level_bodies(draw) -> Builder:
    """A body that two ropes alone hold: one rope winds it up, the other is made fast or winds too, so that it drifts as it rises."""
    b = Builder("hung between", travel=1.0)
    b.body(LOAD, draw(masses), (0.0, 0.0), "load", picks={"left": (-0.2, 0.3), "right": (0.2, 0.3)}, moves={"kind": "level"})
    anchor = b.point("anchor", (draw(reals(-2.5, -0.6)), 3.0 + draw(reals(0.0, 1.5))))
    if draw(st.booleans()):
        b.rope("side", [fast(LOAD, "left", **END), fast(anchor, **END)])
    else:
        b.sheave("left head", (-0.8, 4.0), draw(sizes), **draw(sheaves))
        b.sheave("left lead", (4.2, 4.6), draw(sizes), **draw(sheaves))
        b.rope("side", [fast(LOAD, "left", **END), over("left head", True), over("left lead", True), drum()], draw(reals(0.004, 0.01)))
    b.sheave("head", (draw(reals(2.4, 3.4)), 4.0), draw(sizes), **draw(sheaves))
    b.winch((4.6, 0.5))
    b.rope("hoist", [fast(LOAD, "right", **END), over("head", True), drum()])
    return b


@st.composite
def running_counterweights(draw) -> Builder:
    """Load and counterweight hang on sheaves that run in the bight of the hoist rope and of a rope between them."""
    b = Builder("running blocks")
    mass = draw(masses)
    b.body(LOAD, mass, (0.0, 0.0), "load", picks={"eye": (-0.2, 0.3)})
    b.sheave("running", (0.1, 0.3), 0.1, LOAD, **draw(sheaves))
    b.sheave("head", (0.2, 4.5), 0.1, **draw(sheaves))
    b.winch((1.2, 0.5))
    b.rope("hoist", [fast(b.point("beam", (0.05, 4.0)), **END), over("running", False), over("head", True), drum()])
    b.body("counterweight", draw(reals(0.1, 0.9)) * mass, (-1.05, 2.8), "counterweight")
    b.sheave("cw running", (0.0, 0.3), 0.1, "counterweight", **draw(sheaves))
    b.sheave("cw head", (-0.6, 4.0), 0.8, **draw(sheaves))
    b.rope(
        "counterweight rope",
        [fast(LOAD, "eye", **END), over("cw head", False), over("cw running", True), fast(b.point("beam left", (-1.1, 4.4)), **END)],
    )
    return b


@st.composite
def rigs_in_space(draw) -> Builder:
    """A guided load with a running sheave below sheaves that stand apart in depth; each swivels into the plane of its falls."""
    b = Builder("in depth")
    b.body(LOAD, draw(masses), (0.0, 0.0, 0.0), "load")
    b.sheave("running", (0.0, 0.3, 0.0), draw(sizes), LOAD, **draw(sheaves))
    anchor = b.point("anchor", (draw(reals(-0.6, -0.1)), 4.0, draw(reals(-0.5, 0.5))))
    b.sheave("head", (draw(reals(0.2, 0.8)), 4.2, draw(reals(-0.5, 0.5))), draw(sizes), **draw(sheaves))
    b.sheave("lead", (draw(reals(1.5, 2.5)), draw(reals(3.8, 4.6)), draw(reals(-0.8, 0.8))), draw(sizes), **draw(sheaves))
    b.winch((3.2, 0.5, draw(reals(-0.5, 0.5))))
    b.rope("hoist", [fast(anchor, **END), over("running", False), over("head", True), over("lead", True), drum()])
    return b


@st.composite
def level_bodies_in_space(draw) -> Builder:
    """A body that three ropes alone hold in space: one to the drum, two made fast."""
    b = Builder("hung in space", travel=1.0)
    b.body(
        LOAD,
        draw(masses),
        (0.0, 0.0, 0.0),
        "load",
        picks={"a": (-0.2, 0.3, 0.1), "b": (-0.2, 0.3, -0.1), "c": (0.2, 0.3, 0.0)},
        moves={"kind": "level", "in_depth": True},
    )
    b.rope("front", [fast(LOAD, "a", **END), fast(b.point("front anchor", (draw(reals(-1.2, -0.6)), 4.0, draw(reals(0.8, 1.5)))), **END)])
    b.rope("back", [fast(LOAD, "b", **END), fast(b.point("back anchor", (draw(reals(-1.2, -0.6)), 4.0, draw(reals(-1.5, -0.8)))), **END)])
    b.sheave("head", (draw(reals(4.0, 5.0)), 4.0, draw(reals(-0.02, 0.02))), draw(sizes), **draw(sheaves))
    b.winch((6.5, 0.5, 0.0))
    b.rope("hoist", [fast(LOAD, "c", **END), over("head", True), drum()])
    return b


KINDS = {
    "tackles": tackles, "counterweights": counterweights, "tilting spreaders": tilting_spreaders, "sloping guides": sloping_guides, "level bodies": level_bodies,
    "running counterweights": running_counterweights, "in space": rigs_in_space, "level in space": level_bodies_in_space,
}  # fmt: skip
plane_rigs = st.one_of(*(KINDS[k]() for k in KINDS if "space" not in k))
any_rigs = st.one_of(*(kind() for kind in KINDS.values()))


def solved(builder: Builder, heights_m: numpy.ndarray = HEIGHTS) -> Solution:
    """Solve a drawn rig; a degenerate draw is drawn again."""
    try:
        return solve(builder.rig(), heights_m)
    except GeometryError:
        reject()
