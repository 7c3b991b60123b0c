"""Formulas of a guide with two shoes: what presses them, and what their friction takes of a pull or of a weight.

Signs: an arm is positive where the force turns the body anticlockwise about the middle between its shoes. A sense is +1 or -1: which way the body
is pressed over, times +1 where it moves along its guide and -1 where it moves back.
"""

import sympy

from rigcheck.formula import Sign, formula

ARM = Sign("p", "arm about the middle between the shoes", "m")
APART = Sign("h", "distance between the upper and the lower shoe", "m", above=0)
LEVERAGE = Sign("r", "arm over half the distance between the shoes", "")
RUBBING = Sign("μ", "friction of the guide, the highest it may come to", "", low=0)
SENSE = Sign("k", "sense in which the body is pressed over against its motion", "", low=-1, high=1)
TURN_SHARE = Sign("f", "what the friction takes of a pull for each of its leverage", "")
SIDE_SENSE = Sign("j", "sense in which the body is pressed aside against its motion", "", low=-1, high=1)
SIDE_SHARE = Sign("s", "what the friction takes of a pull for each of its share aside", "")
FACES = Sign("w", "width between the faces the shoes run on, counted for the way of motion", "m")
WIDTH = Sign("b", "width between the faces the shoes run on", "m", low=0)
MOMENT = Sign("M", "moment about the middle between the shoes", "N·m")
ASIDE = Sign("H", "force aside on the guide", "N")
FRICTION = Sign("R", "friction in the guide", "N")
SHOE = Sign("N", "force on one shoe", "N")
PLAY = Sign("s_p", "play across the guide", "m", low=0)
LEAN = Sign("θ", "lean that the play allows", "°", low=0)


@formula
def leverage(arm: ARM, apart: APART) -> LEVERAGE:
    """Force on both shoes together for each newton that acts at an arm: two equal forces h apart make the moment.

    Source: balance of moments: N h = F p on each of two shoes, so 2 N = F · 2 p/h.

    >>> leverage(arm=0.3, apart=0.6)
    1.0
    """
    return 2 * arm / apart


@formula
def turn_share(sense: SENSE, friction: RUBBING) -> TURN_SHARE:
    """Friction for each newton on both shoes together, with its sense.

    Source: law of friction: it is μ times what presses the faces together, against the motion.

    >>> turn_share(sense=-1.0, friction=0.25)
    -0.25
    """
    return sense * friction


@formula
def side_share(sense: SIDE_SENSE, friction: RUBBING, turn: TURN_SHARE, faces: FACES, apart: APART) -> SIDE_SHARE:
    """Friction for each newton aside: of what presses both shoes the same way, and of the moment that the friction on faces apart adds.

    The friction at the two faces turns the body by μ H w/2, which the shoes must take too.

    Source: law of friction; balance of moments.

    >>> side_share(sense=1.0, friction=0.25, turn=0.0, faces=0.1, apart=0.5)
    0.25
    """
    return sense * friction + turn * friction * faces / apart


@formula
def tipping_friction(friction: RUBBING, moment: MOMENT, aside: ASIDE, width: WIDTH, apart: APART) -> FRICTION:
    """Greatest friction that a moment brings about in a guide: each of two shoes h apart is pressed with M/h.

    A vertical load at e from the line of its guide (M = W e) holds itself up where 2 μ e/h is one or more, whatever it weighs. A force aside adds
    what the friction at faces apart turns the body by, counted against it.

    Source: balance of moments and law of friction.

    >>> tipping_friction(friction=0.25, moment=-120.0, aside=0.0, width=0.0, apart=0.5)
    120.0
    """
    return 2 * friction * (sympy.Abs(moment) + friction * sympy.Abs(aside) * width / 2) / apart


@formula
def upright_tipping_friction(friction: RUBBING, moment: MOMENT, apart: APART) -> FRICTION:
    """Greatest friction that a moment brings about in a guide in which nothing presses the body aside: each of two shoes h apart is pressed with M/h.

    A vertical load at e from the line of its guide (M = W e) holds itself up where 2 μ e/h is one or more, whatever it weighs.

    Source: balance of moments and law of friction; the friction cones of the two shoes meet at h/(2 μ) from the guide.

    >>> upright_tipping_friction(friction=0.25, moment=-120.0, apart=0.5)
    120.0
    """
    return 2 * friction * sympy.Abs(moment) / apart


@formula
def side_friction(friction: RUBBING, aside: ASIDE) -> FRICTION:
    """Greatest friction that a force aside brings about in a guide.

    Source: law of friction.

    >>> side_friction(friction=0.25, aside=-100.0)
    25.0
    """
    return friction * sympy.Abs(aside)


@formula
def lean(play: PLAY, apart: APART) -> LEAN:
    """Angle by which a body leans in a guide with play: one shoe goes over to the one side, the other to the other.

    Source: geometry of two shoes that each may move aside by the play.

    >>> round(lean(play=0.004, apart=0.4), 5)
    0.01
    """
    return sympy.atan(play / apart)
