"""Where the load stands along its travel, in words: its height and, where it turns about a hinge, how far it has swung."""

from __future__ import annotations

from rigcheck import units


def angle(angle_rad: float) -> str:
    return units.show(round(angle_rad, 9), "°", 3)


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
