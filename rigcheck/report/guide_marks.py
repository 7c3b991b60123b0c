"""The shoes of guided bodies as drawn: the rail they run on, a small block at each shoe, and the arms that carry them."""

from __future__ import annotations

import numpy

from rigcheck.report.canvas import Canvas
from rigcheck.report.outlines import on_body, outline
from rigcheck.rig.fields import coordinates
from rigcheck.statics import guides
from rigcheck.statics.travel import Travel

_LONG_PX, _THICK_PX, _LEAST_RAIL_PX = 7.0, 4.5, 3.0


def has_shoes(travel: Travel, name: str) -> bool:
    """Whether it is stated where the shoes of a body are."""
    moves = travel.rig.bodies[name].moves
    return moves.kind == "guided" and moves.lower_shoe is not None and moves.shoes_apart is not None


def shoe_offsets(travel: Travel, name: str) -> list[tuple[float, float, float]]:
    """The lower and the upper shoe, from the body's reference point."""
    moves = travel.rig.bodies[name].moves
    low = numpy.array(coordinates(moves.lower_shoe))
    return [tuple(low), tuple(low + guides.directions(moves)[0] * moves.shoes_apart.value)]


def draw_shoes(canvas: Canvas, travel: Travel, name: str, at: int) -> None:
    """The faces of the rail as two thin lines as far as the shoes go, the shoes beside them, the arms from the body to them."""
    moves = travel.rig.bodies[name].moves
    along, across = guides.directions(moves)
    ways = travel.poses.reference(name) @ along
    offsets = shoe_offsets(travel, name)
    low, high = on_body(travel, name, offsets, at)
    foot, head = low + along * (ways.min() - ways[at]), high + along * (ways.max() - ways[at])
    sideways, upwards = canvas.view.flat(across), canvas.view.flat(along)
    half = max((moves.faces_apart.value if moves.faces_apart else 0.0) * canvas.view.scale, 2 * _LEAST_RAIL_PX) / 2
    inward = -1.0 if moves.shoes == "between rails" else 1.0
    rail = [canvas.line(*(canvas.view.px(end) + side * half * sideways for end in (foot, head)), "rig-guide", 0.5) for side in (1.0, -1.0)]
    canvas.part("guides", "guide", name, rail)
    box, shoes = outline(travel.rig, name), []
    for offset, place in zip(offsets, (low, high), strict=True):
        outer, inner = canvas.view.px(on_body(travel, name, [offset, box.nearest(offset)], at))
        reach = float((inner - outer) @ sideways)
        if abs(reach) > half:
            shoes.append(canvas.line(outer + numpy.sign(reach) * half * sideways, inner, "rig-strap"))
        for side in (1.0, -1.0):
            middle = canvas.view.px(place) + side * (half + inward * _THICK_PX / 2) * sideways
            corners = [middle + i * _LONG_PX * upwards + j * _THICK_PX / 2 * sideways for i, j in ((-1, -1), (-1, 1), (1, 1), (1, -1))]
            shoes.append(canvas.polygon(numpy.array(corners), "rig-solid"))
    canvas.part("straps", "guide", f"shoes of {name}", shoes)
