"""A person for scale: a plain outline of 1.7 m on the floor, clear of everything that moves or is pulled, or by the hand line if there is one.

The drawing is no place to learn from that people stand among running ropes: where there is no room beside the rig, there is no person.
"""

from __future__ import annotations

import numpy

from rigcheck.report.canvas import Canvas
from rigcheck.report.outlines import outline
from rigcheck.statics.layout import driven_end
from rigcheck.statics.travel import Travel

HEIGHT_M = 1.7
_LEAST_PX = 44.0
_LEAST_SHARE, _MOST_SHARE = 0.1, 0.75
_LEAST_ROOM_PX = 300.0
_HALF_WIDTH_M, _CLEAR_PX = 0.27, 5.0
_HEAD_M, _HEAD_AT_M = 0.11, 1.59
_STEP_PX = 6.0
_MOST_INK = 12.0
_APART_M = 0.08
# The right half of the outline from the neck down to the crotch, in metres from the middle of the feet
_HALF = (
    (0.05, 1.47), (0.14, 1.44), (0.20, 1.38), (0.235, 1.15), (0.25, 0.90), (0.235, 0.80), (0.20, 0.81), (0.195, 0.93), (0.165, 1.17),
    (0.15, 1.05), (0.165, 0.90), (0.155, 0.48), (0.12, 0.06), (0.175, 0.0), (0.045, 0.0), (0.05, 0.46), (0.02, 0.80),
)  # fmt: skip


def draw_person(canvas: Canvas, travel: Travel, at: int, left: float, right: float, view_px: float) -> bool:
    """Draw it between two edges, in a view of a height, where it collides with little; False where there is no such place, or it would be too small or too large to help."""
    scale = canvas.view.scale
    height = HEIGHT_M * scale
    if not max(_LEAST_PX, _LEAST_SHARE * view_px) <= height <= _MOST_SHARE * view_px or right - left < _LEAST_ROOM_PX:
        return False
    half = _HALF_WIDTH_M * scale + _CLEAR_PX
    floor = canvas.view.level_px
    places, weights = canvas.all_ink()
    standing = (places[:, 1] > floor - height - _CLEAR_PX) & (places[:, 1] < floor - 2)
    across, weights = places[standing, 0], weights[standing]
    if not len(across) or floor - height < _CLEAR_PX:
        return False
    wished = _beside_the_hand(canvas, travel, at)
    middle = wished if wished is not None else float(across.mean())
    hung = _under_bodies(canvas, travel, half) if wished is not None else [_within_the_rig(canvas, travel, half)]
    best = None
    for x in numpy.arange(left + half, right - half, _STEP_PX).tolist():
        if any(left < x < right for left, right in hung):
            continue
        ink = float(weights[numpy.abs(across - x) < half].sum())
        cost = ink + 0.02 * abs(x - middle)
        if best is None or cost < best[0]:
            best = cost, x, ink
    if best is None or best[2] > _MOST_INK:
        return False
    foot = numpy.array([best[1], floor])
    one_side = numpy.array(_HALF)
    shape = numpy.concatenate([one_side, (one_side * (-1, 1))[::-1]]) * (scale, -scale) + foot
    head = canvas.circle(foot - (0, _HEAD_AT_M * scale), _HEAD_M * scale, "rig-person", 0.6)
    body = canvas.polygon(shape, "rig-person", 0.6)
    canvas.filled(foot + numpy.array([[-0.2 * scale, -HEIGHT_M * scale], [0.2 * scale, 0.0]]))
    canvas.part("person", "person", "person", [body, head])
    return True


def _under_bodies(canvas: Canvas, travel: Travel, half: float) -> list[tuple[float, float]]:
    """Where nobody is to stand: under what moves or close to it, wherever it is along the travel."""
    found, apart = [], _APART_M * canvas.view.scale
    for name in travel.rig.bodies:
        corners = [canvas.view.px(travel.poses.on_body(name, corner)) for corner in outline(travel.rig, name).corners()]
        across = numpy.concatenate([places[:, 0] for places in corners])
        found.append((float(across.min()) - half - apart, float(across.max()) + half + apart))
    return found


def _within_the_rig(canvas: Canvas, travel: Travel, half: float) -> tuple[float, float]:
    """From the first to the last thing that moves or is pulled, whatever lies between: bodies and ropes wherever they are along the travel."""
    spans = _under_bodies(canvas, travel, half)
    places = [canvas.view.px(places)[..., 0] for path in travel.paths.values() for places in (path.starts, path.ends)]
    clear = half + _APART_M * canvas.view.scale
    return (
        min([left for left, _ in spans] + [float(across.min()) - clear for across in places]),
        max([right for _, right in spans] + [float(across.max()) + clear for across in places]),
    )


def _beside_the_hand(canvas: Canvas, travel: Travel, at: int) -> float | None:
    """Where who pulls a line would stand, beyond it as seen from the load."""
    for name, path in travel.paths.items():
        end = driven_end(travel.rig, name)
        if travel.rig.drive.kind != "winch" and end is not None:
            hand = canvas.view.px(path.starts[0][at] if end == 0 else path.ends[-1][at])
            load = canvas.view.px(travel.poses.reference(travel.rig.load_name)[at])
            return float(hand[0]) + (0.45 if hand[0] >= load[0] else -0.45) * canvas.view.scale
    return None
