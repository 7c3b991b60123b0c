"""The pieces every arrangement is put together from: load, sheaves on their hangers, ropes, winch and counterweight.

Whatever must exist in a rig and is not asked for carries a note that it is a guess; what may be left out is left out.
Such values are common practice, no source: they are listed among the guesses and are there to be replaced.
"""

from __future__ import annotations

import math

from rigcheck import units
from rigcheck.parts.end_fitting import end_fittings
from rigcheck.rig.arrangements.inputs import UNKNOWN, Choice, Input, Values

TYPICAL = "guess, a typical value of this arrangement: check it"
NOT_COUNTED = "guess, a typical value: nobody has counted yet"
NOT_LOOKED = "guess, a typical value: nobody has looked yet"
HEADROOM_M = 0.2
FLOOR_CLEARANCE_M = 0.1
COUNTERWEIGHT_HEIGHT_M = 0.3
COUNTERWEIGHT_DISTANCE_M = 1.0
DRUM_AXIS_M = 0.4
DRUM_DISTANCE_M = 1.5
RING_MASS = "0.5 kg"
LOAD, RING = "load", "ring"

MASS = Input(
    "mass",
    "Mass of the load",
    "mass",
    "120 kg",
    "All that hangs on the rope: the load with its slings, spreader and lower block. Weigh it.",
    most=1e5,
)
HEIGHT = Input(
    "load_height", "Height of the load", "length", "0.6 m", "From the underside of the load up to the eye the rope is made fast to."
)
TRAVEL = Input("travel", "Travel", "length", "1.6 m", "How far the load is raised from where it stands.")
HEAD = Input("head_height", "Height of the head sheave", "length", "3 m", "From the floor up to the axle of the head sheave.")
SHEAVE = Input(
    "sheave_diameter",
    "Diameter of the sheaves",
    "length",
    "120 mm",
    "Across the bottom of the groove, plus one rope diameter. All are taken alike.",
    most=3,
)
ROPE = Input("rope_diameter", "Diameter of the rope", "length", "6 mm", "Across the widest place, with a caliper.", most=0.2)
DRUM = Input("drum_diameter", "Diameter of the drum", "length", "120 mm", "Of the bare drum, without rope.", most=3)
COUNTERWEIGHT = Input("counterweight", "Mass of the counterweight", "mass", "60 kg", "With its hanger. Weigh it.", most=1e5)

CONSTRUCTIONS = ("7x19", "7x7", "6x19 FC", "6x19 IWRC", "6x7 FC", "6x36 IWRC")
MATERIALS = ("manila", "polyamide", "polyester", "polypropylene")
ROPES = (
    {f"steel, {name}": {"kind": "steel", "construction": name} for name in CONSTRUCTIONS}
    | {"steel, construction not known": {"kind": "steel"}}
    | {f"fibre, {name}": {"kind": "fibre", "material": name} for name in MATERIALS}
    | {"fibre, material not known": {"kind": "fibre"}}
    | {
        UNKNOWN: {
            "kind": "steel",
            "notes": {"kind": f"{NOT_LOOKED} whether it is steel or fibre; bends are judged as for steel, which asks for more"},
        }
    }
)
BEARINGS = {UNKNOWN: None, "plain bush": "plain", "rolling bearing": "rolling"}
_WRAPS = {UNKNOWN: None, "2": 2, "3": 3, "4": 4, "5": 5}
_WORM, _SPUR, _CRANK = "gear-motor with worm", "gear-motor with spur gears", "crank on the drum"
_SPUR_PAIRS = {"10": (2.5, 4), "20": (4, 5), "30": (2.5, 3, 4), "40": (2.5, 4, 4), "60": (3, 4, 5), "80": (4, 4, 5), "100": (4, 5, 5)}
"""How a ratio may be parted among pairs of spur wheels: one pair alone hardly has more than about 8 (common practice, no source)."""
PARTED = (
    "guess, a typical value: the pairs are not known, and only the ratio of all together counts in the pulls. "
    "Check them, each pair has an efficiency of its own"
)
MOST_RATIO = 10000.0
_MOST_OF_A_WORM, _MOST_OF_A_PAIR = 100.0, 5.0
WORM_STAGES = "guess, a typical value: so high a ratio is hardly that of one worm alone (common practice, no source). Enter each stage with its own ratio and efficiency"
_BRAKES = {
    UNKNOWN: {"brake": {}},
    "neither": {},
    "brake on the shaft of motor or crank, sets itself": {"brake": {"on": "motor shaft", "sets_itself": True}},
    "brake on the drum, sets itself": {"brake": {"on": "drum", "sets_itself": True}},
    "pawl on the drum, no brake": {"pawl": {}},
}

NEW, USED, WORN = "new, no fault found", "used, no fault found", "worn or damaged"
_SHARE_LEFT = "how much of its strength is left is not known yet"
CONDITIONS = {
    UNKNOWN: {},
    NEW: {"remaining_strength": 1},
    USED: {"notes": {"remaining_strength": f"{USED}: {_SHARE_LEFT}"}},
    WORN: {"notes": {"remaining_strength": f"{WORN}: {_SHARE_LEFT}"}},
}

ROPE_MADE_OF = Choice(
    "rope", "Rope", tuple(ROPES), "steel, 7x19", "As its label or certificate says; a cut end shows whether it is of wires."
)
GRADE = Choice(
    "grade", "Grade of the rope", (UNKNOWN, "1570 N/mm²", "1770 N/mm²", "1960 N/mm²"), UNKNOWN, "On its certificate.", ("rope", "steel")
)
CONDITION = Choice(
    "condition", "Condition of the rope", tuple(CONDITIONS), UNKNOWN,
    "Look along its whole length. Of a rope that is used or worn, the share of its strength that is left is asked for under Change parts; until it "
    "is known there, whether the rope bears the load cannot be told.",
)  # fmt: skip
ENDS = {
    "steel": Choice(
        "ends", "Ends of the steel rope", (UNKNOWN, *end_fittings("steel")), UNKNOWN,
        "The fitting where the rope is made fast. A knot is no end for a steel rope: have a fitting made.", ("rope", "steel"),
    ),
    "fibre": Choice(
        "ends_fibre", "Ends of the fibre rope", (UNKNOWN, *end_fittings("fibre")), UNKNOWN, "The splice or knot where the rope is made fast.",
        ("rope", "fibre"),
    ),
}  # fmt: skip
ROPE_CHOICES = (ROPE_MADE_OF, GRADE, CONDITION, *ENDS.values())
BEARING = Choice("bearing", "Bearing of the sheaves", tuple(BEARINGS), UNKNOWN)
WORKED_BY = Choice(
    "worked_by", "Worked by", (_WORM, _SPUR, _CRANK, UNKNOWN), _WORM, "A worm lies across its wheel, spur wheels lie side by side."
)
RATIO = Choice(
    "ratio", "Gear ratio", (UNKNOWN, *_SPUR_PAIRS), UNKNOWN,
    "On the plate of the gears: turns of the motor for one turn of the drum, all stages together. Any other is typed here, such as 46.8.",
    ("worked_by", "gear-motor"), most=MOST_RATIO,
)  # fmt: skip
VOLTAGE = Choice(
    "voltage", "Voltage of motor and supply", (UNKNOWN, "12 V", "24 V", "36 V", "48 V"), UNKNOWN, "On the plate of the motor.",
    ("worked_by", "gear-motor"),
)  # fmt: skip
BRAKE = Choice(
    "brake", "Brake or pawl", tuple(_BRAKES), UNKNOWN,
    "A brake that sets itself holds at once when the control is let go or the power fails. A worm is no brake.",
)  # fmt: skip
WINCH_CHOICES = (WORKED_BY, RATIO, VOLTAGE, BRAKE)
DEAD_WRAPS = Choice("dead_wraps", "Turns left on the drum", tuple(_WRAPS), UNKNOWN, "Counted with the load at its lowest.")
CHOICES = (*ROPE_CHOICES, BEARING, *WINCH_CHOICES, DEAD_WRAPS)  # of every hoist with a winch


def taken(values: Values, choice: Choice, otherwise: str) -> tuple[str, bool]:
    """What was chosen, or what is drawn otherwise where that is not known; and whether it is a guess for that reason."""
    chosen = values.chosen(choice.key)
    return (otherwise, True) if chosen.startswith(UNKNOWN) else (chosen, False)


def metres(value_m: float) -> str:
    """A computed length as text, exact to 1e-12 m so that falls drawn plumb stay plumb.

    >>> metres(0.06), metres(-1.5), metres(0.1 + 0.2)
    ('0.06 m', '-1.5 m', '0.3 m')
    """
    return f"{round(value_m, 12) + 0.0:.12f}".rstrip("0").rstrip(".") + " m"


def next_millimetre(value_m: float) -> str:
    """A least length as it is shown, rounded up to a millimetre first."""
    return units.show(math.ceil(value_m * 1000 - 1e-6) / 1000, "m", 4, "up")


def plain(number: float) -> float | int:
    """A whole number without its point, as it is written in a rig file."""
    return int(number) if number.is_integer() else number


def spur_pairs(ratio: str) -> tuple[float, ...]:
    """How a ratio of all pairs together may be parted among them: alike, as few as have no more than about 5 each.

    >>> spur_pairs("20"), spur_pairs("3.5"), spur_pairs("400")[:1], round(math.prod(spur_pairs("400")), 6)
    ((4, 5), (3.5,), (4.472136,), 400.0)
    """
    if ratio in _SPUR_PAIRS:
        return _SPUR_PAIRS[ratio]
    whole = float(ratio)
    many = max(1, math.ceil(math.log(whole) / math.log(_MOST_OF_A_PAIR) - 1e-9))
    each = round(whole ** (1 / many), 6)
    return (*[each] * (many - 1), plain(round(whole / each ** (many - 1), 9)))


def place(across_m: float, up_m: float, depth_m: float = 0.0) -> list[str]:
    """A place, its depth left out where it is none."""
    return [metres(across_m), metres(up_m), *([metres(depth_m)] if round(depth_m, 12) else [])]


class Pieces:
    """A rig being put together."""

    def __init__(self, values: Values):
        self.values = values
        self.points: dict[str, dict] = {}
        self.bodies: dict[str, dict] = {}
        self.sheaves: dict[str, dict] = {}
        self.ropes: dict[str, dict] = {}
        self.drive: dict = {}
        if values["rope_diameter"] * 2 > values["sheave_diameter"]:
            values.refuse("sheave_diameter", "is less than twice the diameter of the rope", "Measure both again, in the units written.")

    def whole(self) -> dict:
        """The rig as it stands in a rig file."""
        return {
            "points": self.points, "bodies": self.bodies, "sheaves": self.sheaves, "ropes": self.ropes,
            "drive": self.drive, "limits": {"travel": self.values.text("travel")},
        }  # fmt: skip

    def load(self, across_m: float, **more) -> None:
        self.bodies[LOAD] = {"role": "load", "mass": self.values.text("mass"), "at": place(across_m, 0), "picks": {}, **more}

    def free_load(self, high_m: float, gravity_across_m: float, in_depth: bool) -> None:
        """A load that hangs free, so high, its weight at half its height."""
        self.load(0, moves={"kind": "free", **({"in_depth": True} if in_depth else {})}, centre_of_gravity=place(gravity_across_m, high_m / 2),
                  notes={"centre_of_gravity": f"half of its height: {TYPICAL}", "picks": f"height of the eyes above its underside: {TYPICAL}"})  # fmt: skip

    @staticmethod
    def ring(across_m: float, up_m: float, in_depth: bool) -> dict:
        """A ring in which ropes meet: it moves as they pull it and turns nothing."""
        return {"role": "block", "mass": RING_MASS, "at": place(across_m, up_m), "size": ["80 mm", "80 mm"],
                "moves": {"kind": "level", **({"in_depth": True} if in_depth else {})}, "notes": {"mass": TYPICAL, "size": TYPICAL}}  # fmt: skip

    def pick(self, name: str, across_m: float) -> None:
        """A pick on top of the load, across from its middle."""
        self.bodies[LOAD]["picks"][name] = [metres(across_m), self.values.text("load_height")]

    def point(self, name: str, across_m: float, up_m: float, **notes) -> None:
        self.points[name] = {"at": place(across_m, up_m), **({"notes": notes} if notes else {})}

    def sheave(self, name: str, across_m: float, up_m: float, **notes) -> None:
        """A sheave whose axle is at a fixed place."""
        self.point(f"hanger of {name}", across_m, up_m, **notes)
        self._sheave(name, on=f"hanger of {name}")

    def sheave_on_point(self, name: str, point: str, across_m: float) -> None:
        """A sheave of a block that hangs from a fixed place, its axle across from it."""
        self._sheave(name, on=point, **({"offset": place(across_m, 0)} if across_m else {}))

    def moving_sheave(self, name: str, across_m: float) -> None:
        """A sheave on the lower block, which is part of the load; across from the load's middle."""
        self._sheave(name, on=LOAD, offset=[metres(across_m), self.values.text("load_height")])

    def _sheave(self, name: str, **where) -> None:
        bearing = BEARINGS[self.values.chosen("bearing")]
        self.sheaves[name] = {**where, "pitch_diameter": self.values.text("sheave_diameter"), **({"bearing": bearing} if bearing else {})}

    def rope(self, name: str, path: list[dict], notes: dict[str, str] | None = None) -> None:
        made_of, condition = ROPES[self.values.chosen("rope")], CONDITIONS[self.values.chosen("condition")]
        rope = {**made_of, "diameter": self.values.text("rope_diameter"), **condition}
        is_guess = self.values.chosen("rope") == UNKNOWN
        if rope["kind"] == "steel" and not is_guess and self.values.chosen("grade") != UNKNOWN:
            rope["grade"] = self.values.chosen("grade")
        if not is_guess and (ends := self.values.chosen(ENDS[rope["kind"]].key)) != UNKNOWN:
            path = [stop | {"fitting": ends} if "made_fast_to" in stop else stop for stop in path]
        if told := {**made_of.get("notes", {}), **condition.get("notes", {}), **(notes or {})}:
            rope["notes"] = told
        self.ropes[name] = {**rope, "path": path}

    @property
    def winding_radius_m(self) -> float:
        """From the drum's axis to the middle of the rope in its first layer."""
        return (self.values["drum_diameter"] + self.values["rope_diameter"]) / 2

    def drum_axis_m(self) -> float:
        """How high the drum's axis is above the floor it stands on."""
        return max(DRUM_AXIS_M, self.winding_radius_m + FLOOR_CLEARANCE_M)

    def winch(self, across_m: float, up_m: float, what_is_typical: str) -> None:
        drum = {
            "at": place(across_m, up_m),
            "diameter": self.values.text("drum_diameter"),
            "notes": {"at": f"{what_is_typical}: {TYPICAL}"},
        }
        if (wraps := _WRAPS[self.values.chosen("dead_wraps")]) is not None:
            drum["dead_wraps"] = wraps
        self.drive = {"kind": "winch", "drum": drum, **_BRAKES[self.values.chosen("brake")]}
        worked_by = self.values.chosen("worked_by")
        if worked_by == _CRANK:
            self.drive["crank"] = {"radius": "0.35 m", "people": 1, "notes": {"radius": TYPICAL, "people": NOT_COUNTED}}
        if worked_by in (_CRANK, UNKNOWN):
            return
        ratio = self.values.chosen("ratio")
        if ratio == UNKNOWN:
            self.drive["gears"] = [{"kind": "worm" if worked_by == _WORM else "spur"}]
        elif worked_by == _WORM:
            notes = {"notes": {"ratio": WORM_STAGES}} if float(ratio) > _MOST_OF_A_WORM else {}
            self.drive["gears"] = [{"kind": "worm", "ratio": plain(float(ratio)), **notes}]
        else:
            self.drive["gears"] = [{"kind": "spur", "ratio": pair, "notes": {"ratio": PARTED}} for pair in spur_pairs(ratio)]
        voltage = self.values.chosen("voltage")
        self.drive["motor"] = {}
        if voltage != UNKNOWN:
            self.drive["motor"] = {"voltage": voltage}
            self.drive["supply"] = {"voltage": voltage}

    def headroom(self, needed_below_m: float) -> None:
        """Refuse a head sheave so low that what is under it would reach it at the end of the travel."""
        needed = self.values["travel"] + needed_below_m + HEADROOM_M + self.values["sheave_diameter"] / 2
        if self.values["head_height"] < needed - 1e-9:
            right = f"With this travel and load it must be at least {next_millimetre(needed)}; or raise the load less far."
            self.values.refuse("head_height", "leaves no room under the head sheave at the end of the travel", right)

    def drum_fits_below(self, axis_m: float, head_m: float) -> None:
        if axis_m + self.winding_radius_m + self.values["sheave_diameter"] / 2 > head_m - HEADROOM_M:
            self.values.refuse(
                "drum_diameter", "leaves no room for the drum under the head sheave", "Measure it again, in the unit written."
            )

    def counterweight(self, eye_m: float, load_across_m: float, head_m: float, beside_m: float = 0.0) -> None:
        """A guided counterweight left of the load on a rope of its own over two sheaves.

        `eye_m` is the place across of its eye on the load, `beside_m` how far the load is known to reach left of that.
        """
        diameter = self.values["sheave_diameter"]
        far = eye_m - beside_m - max(COUNTERWEIGHT_DISTANCE_M, 3 * diameter)
        lowest = self.values["travel"] + FLOOR_CLEARANCE_M
        self.pick("counterweight eye", eye_m - load_across_m)
        self.bodies[LOAD].setdefault("notes", {})["picks"] = f"where the counterweight's rope is made fast: {TYPICAL}"
        self.sheave("counterweight sheave 1", eye_m - diameter / 2, head_m)
        self.sheave(
            "counterweight sheave 2", far + diameter / 2, head_m, at=f"how far from the load: {TYPICAL}, it must pass clear of the load"
        )
        self.bodies["counterweight"] = {
            "role": "counterweight", "mass": self.values.text("counterweight"), "at": place(far, lowest),
            "picks": {"eye": place(0, COUNTERWEIGHT_HEIGHT_M)}, "notes": {"at": TYPICAL, "picks": TYPICAL},
        }  # fmt: skip
        self.rope("counterweight rope", [
            {"made_fast_to": LOAD, "pick": "counterweight eye"},
            {"over": "counterweight sheave 1", "turns": "anticlockwise"},
            {"over": "counterweight sheave 2", "turns": "anticlockwise"},
            {"made_fast_to": "counterweight", "pick": "eye"},
        ])  # fmt: skip
