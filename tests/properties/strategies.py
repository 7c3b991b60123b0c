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
from tests.rig_builders import END, LOAD, Builder, counterweighted, drum, fast, over, place, tackle

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


def _out(side: float, angle: float, long_m: float, aside_m: float = 0.0) -> tuple[float, float]:
    """So far out from a hinge in a direction, and so far aside from it; mirrored for the other side."""
    return side * (long_m * numpy.cos(angle) - aside_m * numpy.sin(angle)), long_m * numpy.sin(angle) + aside_m * numpy.cos(angle)


def _lid(draw, name: str) -> tuple[Builder, float, float, float]:
    """A lid to the left or right of its hinge at (0, 1 m), its weight anywhere on it; with its side, its angle and its length."""
    b = Builder(name, swing_rad=1.0)
    side, angle, long = draw(st.sampled_from([1.0, -1.0])), draw(reals(-0.4, 0.3)), draw(reals(0.8, 2.0))
    x, y = _out(side, angle, long / 2)
    gravity = _out(side, angle, draw(reals(-0.2, 0.2)) * long, draw(reals(-0.1, 0.1)))
    b.body(LOAD, draw(masses), (x, 1.0 + y), "load", picks={"edge": (x, y), "middle": (0.0, 0.0)}, centre_of_gravity=place(*gravity),
           moves={"kind": "hinged", "hinge": place(0.0, 1.0)})  # fmt: skip
    return b, side, angle, long


def _hoisted(draw, b: Builder, side: float, long: float, parts: int) -> None:
    """The hoist rope from the lid's edge, or round a sheave there, over a head sheave beyond the hinge to the drum."""
    high = 1.0 + long + draw(reals(1.0, 2.0))
    b.sheave("head", (-side * draw(reals(0.3, 1.2)), high), draw(sizes), **draw(sheaves))
    b.winch((-side * 3.0, 0.5))
    anti = [over("head", side < 0), drum(side < 0)]
    if parts == 1:
        b.rope("hoist", [fast(LOAD, "edge", **END), *anti])
        return
    edge = [float(text.removesuffix(" m")) for text in b.data["bodies"][LOAD]["picks"]["edge"]]
    b.sheave("running", edge, draw(sizes), LOAD, **draw(sheaves))
    b.rope("hoist", [fast(b.point("anchor", (-side * 1.3, high - 0.8)), **END), over("running", side < 0), *anti])


@st.composite
def lids(draw) -> Builder:
    """A lid on one or two parts of rope, with a weight on an arm behind its hinge or without."""
    b, side, angle, long = _lid(draw, "lid")
    _hoisted(draw, b, side, long, draw(st.integers(1, 2)))
    if draw(st.booleans()):
        far = draw(reals(0.3, 0.8))
        mass = draw(reals(0.05, 0.3)) * float(b.data["bodies"][LOAD]["mass"].split()[0]) * long / far
        x, y = _out(side, angle + draw(reals(-0.3, 0.1)), -far)
        b.body("weight", mass, (x, 1.0 + y), "counterweight", moves={"kind": "carried", "by": LOAD})
    return b


@st.composite
def lids_with_hanging_weights(draw) -> Builder:
    """A lid with a guided counterweight on a rope of its own over one sheave beyond the hinge."""
    b, side, _, long = _lid(draw, "lid with hanging weight")
    _hoisted(draw, b, side, long, 1)
    size, up = draw(sizes), 1.0 + long + draw(reals(0.5, 1.0))
    across = -side * draw(reals(0.3, 0.8))
    b.sheave("weight sheave", (across, up), size, **draw(sheaves))
    mass = draw(reals(0.05, 0.3)) * float(b.data["bodies"][LOAD]["mass"].split()[0])
    b.body("weight", mass, (across - side * size / 2, up - 1.0), "counterweight", picks={"eye": (0.0, 0.2)})
    b.rope("weight rope", [fast(LOAD, "middle", **END), over("weight sheave", side < 0), fast("weight", "eye", **END)])
    return b


@st.composite
def loads_on_arms(draw) -> Builder:
    """A guided load that hangs from an arm on a hinge; the hoist rope raises the arm, and with it the load and a block fixed on the arm."""
    b = Builder("load on an arm")
    long, angle = draw(reals(1.6, 2.4)), draw(reals(-0.5, -0.2))
    x, y = _out(1.0, angle, long)
    b.body("arm", draw(masses) / 4, (x / 2, 3.0 + y / 2), picks={"end": (x / 2, y / 2)}, moves={"kind": "hinged", "hinge": place(0.0, 3.0)})
    b.body("block", draw(masses) / 8, (x * 0.7, 3.0 + y * 0.7), moves={"kind": "carried", "by": "arm"})
    b.body(LOAD, draw(masses), (x + draw(reals(-0.1, 0.1)), 0.5), "load", picks={"eye": (0.0, 0.3)})
    b.rope("sling", [fast(LOAD, "eye", **END), fast("arm", "end", **END)])
    b.sheave("head", (-draw(reals(0.3, 1.0)), 3.0 + long + 0.5), draw(sizes), **draw(sheaves))
    b.winch((-3.0, 0.5))
    b.rope("hoist", [fast("arm", "end", **END), over("head", False), drum(False)])
    return b


@st.composite
def lids_in_space(draw) -> Builder:
    """A lid whose hinge lies askew in space, its eye and the head sheave out of the front plane, a weight fixed on it."""
    b = Builder("lid in space", swing_rad=1.0)
    axis = [draw(reals(-0.4, 0.4)), draw(reals(-0.3, 0.3)), 1.0]
    long = draw(reals(0.8, 1.8))
    b.body(LOAD, draw(masses), (long / 2, 1.0, 0.0), "load", picks={"edge": (long / 2, 0.0, draw(reals(-0.4, 0.4)))},
           moves={"kind": "hinged", "hinge": place(0.0, 1.0, draw(reals(-0.2, 0.2))), "axis": axis})  # fmt: skip
    b.body("weight", draw(reals(1.0, 15.0)), (-0.4, 1.0, draw(reals(-0.3, 0.3))), "counterweight", moves={"kind": "carried", "by": LOAD})
    b.sheave("head", (-draw(reals(0.3, 1.0)), 1.0 + long + draw(reals(0.8, 1.6)), draw(reals(-0.5, 0.5))), draw(sizes), **draw(sheaves))
    b.winch((-3.0, 0.5, draw(reals(-0.4, 0.4))))
    b.rope("hoist", [fast(LOAD, "edge", **END), over("head", False), drum(False)])
    return b


KINDS = {
    "tackles": tackles, "counterweights": counterweights, "tilting spreaders": tilting_spreaders, "sloping guides": sloping_guides, "level bodies": level_bodies,
    "running counterweights": running_counterweights, "in space": rigs_in_space, "level in space": level_bodies_in_space,
    "lids": lids, "lids with hanging weights": lids_with_hanging_weights, "loads on arms": loads_on_arms, "lids in space": lids_in_space,
}  # fmt: skip
plane_rigs = st.one_of(*(KINDS[k]() for k in KINDS if "space" not in k))
any_rigs = st.one_of(*(kind() for kind in KINDS.values()))


def solved(builder: Builder, heights_m: numpy.ndarray = HEIGHTS) -> Solution:
    """Solve a drawn rig; a degenerate draw is drawn again."""
    try:
        return solve(builder.rig(), heights_m)
    except GeometryError:
        reject()
