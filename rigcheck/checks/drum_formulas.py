"""Formulas of the drum: layers and turns, what it holds, its torque, the angle at which the rope runs on, its anchor."""

import sympy

from rigcheck.formula import Sign, formula

CORE = Sign("D", "core diameter of the drum", "mm", above=0)
ROPE = Sign("d", "diameter of the rope", "mm", above=0)
FLANGE = Sign("D_flange", "diameter of the flange", "mm", above=0)
WIDTH = Sign("B", "width of the drum between its flanges", "mm", above=0)
ROPES = Sign("n_ropes", "ropes side by side on the drum", "", low=1)
LAYER = Sign("k", "layer of rope on the drum", "", low=1)
RADIUS = Sign("r", "radius of the layer", "mm", above=0)
SIDE_BY_SIDE = Sign("b", "turns that fit side by side", "", above=0)
TURNS_A_LAYER = Sign("N", "whole turns in one layer", "", low=1)
SPARE_LAYERS = Sign("q", "layers that fit below the flange", "")
LAYERS = Sign("m_layers", "whole layers that fit below the flange", "", low=0)
CAPACITY = Sign("L_drum", "rope that the drum holds", "m")
OVERHANG_RATIO = Sign("q_flange", "least overhang of the flange, in rope diameters", "", low=0)
OVERHANG = Sign("h_flange", "overhang of the flange above the top layer", "mm")
OVERHANG_NEEDED = Sign("h_least", "least overhang of the flange", "mm")
OFFSET = Sign("e", "greatest distance sideways from the sheave's plane", "mm", low=0)
RUN = Sign("a_run", "run from the drum to its first stop, square to the drum's axis", "m", above=0)
FLEET = Sign("α", "fleet angle at the drum", "°")
PULL = Sign("T", "pull on the drum", "N")
TORQUE = Sign("M", "torque on the drum", "N·m")
RATIO = Sign("δ", "core diameter of the drum over rope diameter", "")
FRICTION = Sign("μ", "friction between rope and drum", "", low=0, high=1)
DEAD_WRAPS = Sign("n_dead", "dead wraps: turns left on the drum with the load down", "", low=0)
ANCHOR_PULL = Sign("T_anchor", "pull left at the rope's anchor on the drum", "N")


@formula
def layer_radius(core: CORE, rope: ROPE, layer: LAYER) -> RADIUS:
    """Radius from the drum's axis to the middle of the rope in one layer, the layers stacked and not nesting.

    Range: any; turns that sink between those below give a little less.

    Source: geometry of stacked layers.

    >>> round(layer_radius(core=0.2, rope=0.006, layer=2), 4)
    0.109
    """
    return core / 2 + (layer - sympy.Rational(1, 2)) * rope


@formula
def turns_side_by_side(width: WIDTH, ropes: ROPES, rope: ROPE) -> SIDE_BY_SIDE:
    """Turns of each rope that fit side by side, the ropes sharing the width equally.

    Source: geometry.

    >>> round(turns_side_by_side(width=0.3, ropes=2, rope=0.006), 9)
    25.0
    """
    return width / (ropes * rope)


@formula
def layers_below_flange(flange: FLANGE, core: CORE, rope: ROPE, overhang: OVERHANG_RATIO) -> SPARE_LAYERS:
    """Layers of rope that leave the flange standing out as far as it must.

    Source: DGUV Vorschrift 54, section 19 DA and section 35(1): the flange stands 1.5 rope diameters above the top layer.

    >>> round(layers_below_flange(flange=0.25, core=0.2, rope=0.006, overhang=1.5), 3)
    2.667
    """
    return ((flange - core) / 2 - overhang * rope) / rope


@formula
def rope_held(core: CORE, rope: ROPE, turns: TURNS_A_LAYER, layers: LAYERS) -> CAPACITY:
    """Rope that fits on the drum in whole layers, wound tightly: the sum of 2 π r N over the layers.

    Range: tight winding; a reel-capacity note allows up to 30 % less rope for loose winding.

    Source: geometry; the same as the closed form (A + D) A B K of a winch-hire firm's page on drum capacity.

    >>> round(rope_held(core=10.0, rope=0.5, turns=24, layers=10) / 12, 1)
    942.5
    """
    return sympy.pi * turns * layers * (core + layers * rope)


@formula
def flange_overhang(flange: FLANGE, core: CORE, rope: ROPE, layer: LAYER) -> OVERHANG:
    """How far the flange stands out above the top of the layers wound.

    Source: geometry.

    >>> round(flange_overhang(flange=0.25, core=0.2, rope=0.006, layer=2), 4)
    0.013
    """
    return (flange - core) / 2 - layer * rope


@formula
def least_overhang(overhang: OVERHANG_RATIO, rope: ROPE) -> OVERHANG_NEEDED:
    """How far the flange must stand out above the top layer.

    Source: DGUV Vorschrift 54, section 19 DA and section 35(1).

    >>> round(least_overhang(overhang=1.5, rope=0.006), 4)
    0.009
    """
    return overhang * rope


@formula
def fleet_angle(offset: OFFSET, run: RUN) -> FLEET:
    """Angle between the rope and the plane square to the drum's axis, at the flange, where it is greatest.

    Source: geometry.

    >>> import math; round(math.degrees(fleet_angle(offset=0.1, run=2.0)), 2)
    2.86
    """
    return sympy.atan(offset / run)


@formula
def drum_torque(pull: PULL, radius: RADIUS) -> TORQUE:
    """Torque that a pull puts on the drum.

    Source: Mechanical Engineer's Data Handbook, 2.2.3 (hoist), without acceleration.

    >>> drum_torque(pull=3000.0, radius=0.04)
    120.0
    """
    return pull * radius


@formula
def drum_ratio(core: CORE, rope: ROPE) -> RATIO:
    """How gently the drum bends the rope.

    Source: definition; the core diameter is taken, which is the cautious reading.

    >>> round(drum_ratio(core=0.108, rope=0.006), 6)
    18.0
    """
    return core / rope


@formula
def anchor_pull(pull: PULL, friction: FRICTION, turns: DEAD_WRAPS) -> ANCHOR_PULL:
    """Pull left at the anchor once the dead wraps have taken their share by friction.

    Range: turns that lie still and tight on the drum.

    Source: Baker and Haynes, Engineering Statics: Open and Interactive, chapter 9 (belt friction).

    >>> round(anchor_pull(pull=100.0, friction=0.23, turns=4.5), 2)
    0.15
    """
    return pull * sympy.exp(-2 * sympy.pi * friction * turns)
