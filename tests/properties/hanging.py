"""Random rigs in which something hangs free: a running block in a bight, a bridle under a ring, a load hauled aside, legs in space."""

from __future__ import annotations

from hypothesis import strategies as st

from tests.properties.strategies import masses, reals, sheaves, sizes
from tests.rig_builders import END, LOAD, Builder, drum, fast, over


@st.composite
def loads_in_a_bight(draw) -> Builder:
    """A load under a running sheave between an anchor and a head: it swings over to where both falls lean alike, friction draws it off."""
    b = Builder("in a bight", travel=1.0)
    turns = draw(st.booleans())
    gravity = [f"{draw(reals(-0.1, 0.1))!r} m", f"{draw(reals(-0.3, -0.1))!r} m"] if turns else ["0 m", "0 m"]
    b.body(
        LOAD, draw(masses), (draw(reals(-0.3, 0.3)), 0.0), "load", moves={"kind": "free" if turns else "level"}, centre_of_gravity=gravity
    )
    b.sheave("running", (0.0, 0.3), draw(sizes), LOAD, **draw(sheaves))
    anchor = b.point("anchor", (draw(reals(-1.2, -0.4)), draw(reals(3.5, 4.5))))
    b.sheave("head", (draw(reals(0.4, 1.2)), draw(reals(3.5, 4.5))), draw(sizes), **draw(sheaves))
    b.rope("hoist", [fast(anchor, **END), over("running", False), over("head", True), drum()])
    b.winch((2.6, 0.5))
    return b


@st.composite
def bridles_under_a_ring(draw) -> Builder:
    """A stiff load on two legs of unequal length under a ring, its weight off the middle: it tilts until the weight is under the hook."""
    b = Builder("bridle", travel=1.0)
    left, right, up = draw(reals(0.3, 0.7)), draw(reals(0.3, 0.7)), draw(reals(0.3, 0.6))
    gravity = [f"{draw(reals(-0.2, 0.2))!r} m", f"{draw(reals(0.0, 0.25))!r} m"]
    b.body(
        LOAD,
        draw(masses),
        (0.0, 0.0),
        "load",
        picks={"left": (-left, up), "right": (right, up)},
        centre_of_gravity=gravity,
        moves={"kind": "free"},
    )
    b.body("ring", draw(reals(0.5, 5.0)), (0.0, up + draw(reals(0.5, 1.0))), "block", moves={"kind": "level"})
    for side in ("left", "right"):
        b.rope(f"{side} leg", [fast(LOAD, side, **END), fast("ring", **END)])
    b.sheave("head", (draw(reals(-0.3, 0.3)), 4.5), draw(sizes), **draw(sheaves))
    b.sheave("lead", (1.5, 4.6), draw(sizes), **draw(sheaves))
    b.rope("hoist", [fast("ring", **END), over("head", True), over("lead", True), drum()])
    b.winch((2.2, 0.5))
    return b


@st.composite
def loads_hauled_aside(draw) -> Builder:
    """A load on one hoist rope with a tag line to a post: slack while the load hangs near it, hauling it aside once it is drawn out."""
    b = Builder("hauled aside", travel=1.0)
    b.body(LOAD, draw(masses), (0.0, 0.0), "load", picks={"eye": (0.0, 0.4)}, moves={"kind": "level"})
    b.body("hook", draw(reals(0.5, 3.0)), (0.0, 1.2), "block", moves={"kind": "level"})
    b.rope("sling", [fast(LOAD, "eye", **END), fast("hook", **END)])
    b.rope("tag", [fast(LOAD, **END), fast(b.point("post", (draw(reals(-2.0, -1.0)), draw(reals(-0.3, 0.3)))), **END)],
           length=f"{draw(reals(1.2, 2.4))!r} m")  # fmt: skip
    b.sheave("head", (draw(reals(-0.2, 0.2)), 4.0), draw(sizes), **draw(sheaves))
    b.rope("hoist", [fast("hook", **END), over("head", True), drum()])
    b.winch((1.6, 0.5))
    return b


@st.composite
def legs_in_space(draw) -> Builder:
    """A stiff load on two to four legs under a ring in space, its weight off the middle, on a line pulled from straight above."""
    b = Builder("legs in space", travel=1.0)
    many = draw(st.integers(2, 4))
    corners = [(-1, -1), (1, 1), (1, -1), (-1, 1)] if many != 3 else [(-1, -1), (1, -1), (0, 1)]
    a, c, up = draw(reals(0.3, 0.7)), draw(reals(0.2, 0.6)), draw(reals(0.3, 0.6))
    picks = {f"p{i}": (a * x, up, c * z) for i, (x, z) in enumerate(corners[:many])}
    gravity = [f"{draw(reals(-0.1, 0.1))!r} m", f"{draw(reals(0.0, 0.2))!r} m", f"{draw(reals(-0.08, 0.08))!r} m"]
    b.body(LOAD, draw(masses), (0.0, 0.0), "load", picks=picks, centre_of_gravity=gravity, moves={"kind": "free", "in_depth": True})
    b.body("ring", draw(reals(0.5, 5.0)), (0.0, up + draw(reals(0.5, 1.0))), "block", moves={"kind": "level", "in_depth": True})
    for i in range(many):
        b.rope(f"leg {i}", [fast(LOAD, f"p{i}", **END), fast("ring", **END)])
    b.rope("line", [fast("ring", **END), {"pulled_by_hand_at": ["0.2 m", "6 m", "0.1 m"]}])
    b.data["drive"] = {"kind": "hand line"}
    return b
