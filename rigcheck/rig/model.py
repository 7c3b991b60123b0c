"""The rig as data: frozen, unknown keys refused, every quantity kept as it was typed.

Positions are across, up and depth, in the drawn pose, which is the lowest of the travel. An `offset` is counted from
what the thing sits on: from the point, or from the reference point of the body. What may be left out and is left out is
None: the check that needs it answers "cannot tell".
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Discriminator, Field, Tag, model_validator

from rigcheck.rig import fields as f
from rigcheck.rig.fields import FieldError
from rigcheck.rig.held import Point, Strut
from rigcheck.rig.part import Part

Turns = Literal["clockwise", "anticlockwise"]
ORIGIN = ("0 m", "0 m")


class Guided(Part):
    """A body that moves along a straight line, held level or free to tilt in the plane.

    What holds it level are two shoes (or pairs of rollers), `shoes_apart` along the guide, the lower one at `lower_shoe` from the body's reference
    point. `friction` is the highest it may come to; `faces_apart` how far apart the two faces are that the shoes run on.
    """

    kind: Literal["guided"] = "guided"
    along: f.Direction = (0.0, 1.0)
    tilts: f.Truth = False
    shoes_apart: f.Length | None = None
    lower_shoe: f.Place | None = None
    friction: f.ratio(above=0, high=2, example="0.3") | None = None
    shoes: Literal["around a rail", "between rails"] | None = None
    faces_apart: f.Length | None = None
    play: f.Length | None = None
    runs_off: f.Length | None = None

    @model_validator(mode="after")
    def _has_a_direction(self):
        if not any(self.along):
            raise FieldError("the guide's direction is zero", "Write a direction such as [0, 1] for straight up.")
        return self

    @model_validator(mode="after")
    def _shoes_hold_it_level(self):
        if self.tilts and self.is_described:
            raise FieldError(
                "it is free to tilt, and yet its shoes are described, which hold it level",
                "Take out what is said of the shoes, or let it be held level.",
            )
        return self

    @property
    def is_described(self) -> bool:
        """Whether anything at all is said of its shoes."""
        return any(getattr(self, name) is not None for name in SHOE_FIELDS)


SHOE_FIELDS = ("shoes_apart", "lower_shoe", "friction", "shoes", "faces_apart", "play", "runs_off")


class Level(Part):
    """A body that moves without turning, held by its ropes alone."""

    kind: Literal["level"] = "level"
    in_depth: f.Truth = False


class Free(Part):
    """A body that hangs where it will and may turn, held by its ropes and its weight alone."""

    kind: Literal["free"] = "free"
    in_depth: f.Truth = False


class Hinged(Part):
    """A body that turns about a fixed hinge: `hinge` is a place on its axis in the room, `axis` its direction, in depth if left out."""

    kind: Literal["hinged"] = "hinged"
    hinge: f.Place
    axis: tuple[f.Number, f.Number, f.Number] = (0.0, 0.0, 1.0)

    @model_validator(mode="after")
    def _axis_is_a_direction(self):
        if not any(self.axis):
            raise FieldError("the hinge's axis is zero", "Write [0, 0, 1] for a hinge seen end on.")
        return self


class Carried(Part):
    """A body fixed on another one, moving with it as one piece: a weight on an arm, or the load on it. Its own mass stays its own."""

    kind: Literal["carried"] = "carried"
    by: f.Name


class Body(Part):
    """Something that moves; its reference point is the middle of its underside."""

    role: Literal["load", "counterweight", "block", "other"]
    mass: f.Mass
    at: f.Place
    centre_of_gravity: f.Place = ORIGIN
    picks: dict[f.Name, f.Place] = {}
    size: tuple[f.Length, f.Length] | None = None
    moves: Annotated[Guided | Level | Free | Hinged | Carried, Field(discriminator="kind")] = Guided()


class Sheave(Part):
    """A sheave on a point or on a body; it swivels into the plane of its two falls."""

    on: f.Name
    offset: f.Place = ORIGIN
    pitch_diameter: f.Length
    axis: tuple[f.Number, f.Number, f.Number] = (0.0, 0.0, 1.0)
    bearing: Literal["plain", "rolling"] | None = None
    efficiency: f.Share | None = None
    rated_load: f.RatedLoad | None = None
    groove_diameter: f.Length | None = None

    @model_validator(mode="after")
    def _axis_is_a_direction(self):
        if not any(self.axis):
            raise FieldError("the sheave's axis is zero", "Write [0, 0, 1] for a sheave seen face on.")
        return self


class MadeFast(Part):
    """An end made fast to a point or to a body, with its fitting or knot."""

    made_fast_to: f.Name
    pick: f.Name | None = None
    fitting: str | None = Field(None, max_length=60)
    fitting_share: f.Share | None = None


class Over(Part):
    """A sheave the rope runs over; `turns` is the sense in which the path turns there, seen from the front."""

    over: f.Name
    turns: Turns


class WoundOn(Part):
    """The end that is wound on the drum."""

    wound_on: Literal["drum"]
    turns: Turns


class ByHand(Part):
    """The end that is pulled by hand, and where the hand is."""

    pulled_by_hand_at: f.Place


_STOP_KEYS = {"made_fast_to": "made fast", "over": "over a sheave", "wound_on": "wound on", "pulled_by_hand_at": "by hand"}


def _kind_of_stop(stop) -> str | None:
    found = [tag for key, tag in _STOP_KEYS.items() if (key in stop if isinstance(stop, dict) else hasattr(stop, key))]
    return found[0] if len(found) == 1 else None


Stop = Annotated[
    Annotated[MadeFast, Tag("made fast")]
    | Annotated[Over, Tag("over a sheave")]
    | Annotated[WoundOn, Tag("wound on")]
    | Annotated[ByHand, Tag("by hand")],
    Discriminator(_kind_of_stop, custom_error_type="stop", custom_error_message="not a stop of a rope"),
]


class Rope(Part):
    """A rope and the path it takes: an end, then sheaves in order, then an end."""

    kind: Literal["steel", "fibre"]
    diameter: f.Length
    construction: str | None = Field(None, max_length=60)
    material: str | None = Field(None, max_length=60)
    grade: f.Stress | None = None
    breaking_force: f.Force | None = None
    remaining_strength: f.Share | None = None
    modulus: f.Stress | None = None
    metal_area: f.Area | None = None
    length: f.Length | None = None
    path: tuple[Stop, ...] = Field(min_length=2, max_length=60)


class Drum(Part):
    """The drum, its axis seen end on from the front; `base` is the middle of what the winch is bolted down with, or it is bolted to a strut."""

    at: f.Place
    diameter: f.Length
    width: f.Length | None = None
    flange_diameter: f.Length | None = None
    grooved: f.Truth | None = None
    dead_wraps: f.ratio(low=0, high=50, example="3") | None = None
    rope_friction: f.ratio(above=0, high=1, example="0.1") | None = None
    anchor_holds: f.Force | None = None
    base: f.Place | None = None
    bolted_to: f.Name | None = None


class Gear(Part):
    """One stage of the gear train, from the motor towards the drum; a worm stage has its angles and frictions."""

    kind: Literal["spur", "helical", "bevel", "chain", "belt", "worm", "planetary"]
    ratio: f.ratio(above=0, high=10000, example="30") | None = None
    efficiency: f.Share | None = None
    efficiency_backwards: f.Share | None = None
    lead_angle: f.Angle | None = None
    pressure_angle: f.Angle | None = None
    friction: f.ratio(above=0, high=1, example="0.08") | None = None
    friction_lowest: f.ratio(above=0, high=1, example="0.03") | None = None
    output_torque_rating: f.Torque | None = None


class Motor(Part):
    """A motor with a straight torque line between no load and stall, at its stated voltage."""

    voltage: f.Voltage | None = None
    no_load_speed: f.TurningSpeed | None = None
    no_load_current: f.Current | None = None
    stall_torque: f.Torque | None = None
    stall_current: f.Current | None = None
    rated_torque: f.Torque | None = None


class Supply(Part):
    """What feeds the motor."""

    voltage: f.Voltage
    resistance: f.Resistance | None = None


class Cable(Part):
    """The cable from supply to motor; `length` is one way."""

    area: f.Area
    length: f.Length
    conductor: Literal["solid or stranded", "flexible"] = "flexible"
    temperature: f.Temperature | None = None


class Brake(Part):
    """A brake, and the shaft it sits on; one of which nothing is stated may be there or not."""

    torque: f.Torque | None = None
    on: Literal["motor shaft", "drum"] | None = None
    sets_itself: f.Truth | None = None


class Pawl(Part):
    """A pawl on the drum shaft that drops in by itself."""

    holds: f.Torque | None = None


class Crank(Part):
    """A crank turned by hand."""

    radius: f.Length
    people: f.Count = 1


class Winch(Part):
    """A drum, its gears and what turns it."""

    kind: Literal["winch"] = "winch"
    drum: Drum
    gears: tuple[Gear, ...] = ()
    motor: Motor | None = None
    crank: Crank | None = None
    supply: Supply | None = None
    cable: Cable | None = None
    brake: Brake | None = None
    pawl: Pawl | None = None

    @model_validator(mode="after")
    def _one_thing_turns_it(self):
        if self.motor is not None and self.crank is not None:
            raise FieldError("the drum has both a motor and a crank", "Describe the one that is in use.")
        return self


class HandLine(Part):
    """A line pulled by hand."""

    kind: Literal["hand line"] = "hand line"
    people: f.Count = 1


class Limits(Part):
    """How far the load travels, or swings where it turns about a hinge, and what the rig is to keep to."""

    travel: f.Length | None = None
    swing: f.Swing | None = None
    taut_margin: f.Pull | None = None
    stopping: f.Acceleration | None = None

    @model_validator(mode="after")
    def _go_somewhere(self):
        if self.travel is None and self.swing is None:
            raise FieldError('"travel" is missing', 'Add "travel": "1.6 m" or, for a load that turns about a hinge, "swing": "60 deg".')
        return self


class Demands(Part):
    """Which published required factors and rules are used, and how far a factor is raised above them."""

    factors: str = Field("eu-machinery", max_length=60)
    sheave_rule: str = Field("wire-rope-board", max_length=60)
    rope_factor: f.ratio(above=0, high=100, example="6") | None = None
    dynamic_factor: f.AtLeastOne = 1.0
    strut_factor: f.ratio(low=1, high=100, example="3") | None = None


class Rig(Part):
    """A whole rig."""

    format: Literal[1]
    name: f.Name
    about: str = Field("", max_length=2000)
    points: dict[f.Name, Point] = {}
    struts: dict[f.Name, Strut] = {}
    bodies: dict[f.Name, Body]
    sheaves: dict[f.Name, Sheave] = {}
    ropes: dict[f.Name, Rope]
    drive: Annotated[Winch | HandLine, Field(discriminator="kind")]
    limits: Limits
    basis: Demands = Demands()

    @model_validator(mode="after")
    def _parts_fit_together(self):
        from rigcheck.rig import references

        references.check(self)
        return self

    @property
    def load_name(self) -> str:
        """The name of the body that is the load."""
        return next(name for name, body in self.bodies.items() if body.role == "load")

    @property
    def load(self) -> Body:
        return self.bodies[self.load_name]

    def carrier(self, body: str) -> str:
        """The body that a body moves with as one piece: what carries it in the end, or itself."""
        while self.bodies[body].moves.kind == "carried":
            body = self.bodies[body].moves.by
        return body

    def moving_as_one(self, carrier: str) -> list[str]:
        """A body and all that is fixed on it, in the order of the rig."""
        return [name for name in self.bodies if self.carrier(name) == carrier]

    @property
    def swings(self) -> bool:
        """Whether the load turns about a hinge, so that its travel is an angle."""
        return self.bodies[self.carrier(self.load_name)].moves.kind == "hinged"
