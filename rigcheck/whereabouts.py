"""Where the load stands along its travel, in words: its height and, where it turns about a hinge, how far it has swung."""

from __future__ import annotations

import math

from rigcheck import units


def angle(angle_rad: float) -> str:
    return units.show(round(angle_rad, 9), "°", 3)


def up_to(angle_rad: float) -> str:
    """An angle that is not to be passed, rounded down; what it lacks of a round one by the last digits of a computation does not count.

    >>> up_to(math.radians(77.38)), up_to(math.radians(90 - 1e-8))
    ('77.3°', '90°')
    """
    return f"{units.number(round(math.degrees(angle_rad), 4), 3, 'down')}°"


def swung(angle_rad: float) -> str:
    """How far the load has swung.

    >>> swung(0.5235987755982988)
    'swung by 30°'
    """
    return f"swung by {angle(angle_rad)}"


def standing(height_m: float, angle_rad: float | None = None) -> str:
    """The height of the load above its lowest place and, for a swing, its angle.

    >>> standing(0.5), standing(0.5, 0.5235987755982988)
    ('0.5 m', '0.5 m, swung by 30°')
    """
    height = units.show(round(height_m, 9) + 0.0, "m", 3)
    return height if angle_rad is None else f"{height}, {swung(angle_rad)}"
