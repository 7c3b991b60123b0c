"""The words beside each field of the rig: its label, the unit a bare number takes there, and what to measure or where to look."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

from rigcheck import units
from rigcheck.parts.basis import bases
from rigcheck.parts.gear_stage import gear_kinds, gear_stage, worm_friction
from rigcheck.report import source_words
from rigcheck.report.model_fields import QUANTITY, ModelField

_MANY = 10  # above this a ratio is more than one pair of wheels makes


@dataclass(frozen=True)
class Words:
    """Label, unit of the label, help."""

    label: str
    unit: str
    help: str


_WORDS = {
    ("Rig", "name"): ("Name of the rig", "", "A few words by which you will find it again."),
    ("Rig", "about"): ("What it is for", "", "What is raised, where, and what is special about it."),
    ("Point", "at"): ("Place", "m", "Where the rope or the sheave's axle hangs: across and up from one corner of the room. Depth, towards you as you see the drawing (minus: away), only where not all hangs in one plane."),
    ("Point", "fixing"): ("Fixing", "", "What holds it: bolt, beam, screw, and its size."),
    ("Point", "held"): ("Held by", "", "fixed: the building or an anchor in the ground. struts: nothing but struts, ties and guys that meet there. ground: a foot that only stands on it."),
    ("Point", "friction"): ("Friction of the foot on its ground", "", "The pull at which the loaded foot slides over what presses it down. A low value is the cautious one."),
    ("Strut", "one_end"): ("From", "", "The point where it begins: a joint, a foot, a place on the wall."),
    ("Strut", "other_end"): ("To", "", "The point where it ends. Struts meet at points alone: what is bolted to the middle of one bends it."),
    ("Strut", "pulls_only"): ("Can only pull", "", "Yes for a rope, a chain or a strap; no for what can push as well."),
    ("Strut", "diameter"): ("Outer diameter", "mm", "Of a round pole, at its thinnest, or of a tube. Left empty for any other section."),
    ("Strut", "wall"): ("Wall of the tube", "mm", "How thick the wall of a tube is. Left empty for what is solid."),
    ("Strut", "broad_side"): ("Broad side", "mm", "Of a rectangular timber. A hollow section is entered with its second moment and area."),
    ("Strut", "thin_side"): ("Thin side", "mm", "Of a rectangular timber: over this side it bows out."),
    ("Strut", "second_moment"): ("Second moment of area, the least", "cm⁴", "From the table of the section, about its weaker axis."),
    ("Strut", "area"): ("Area of the section", "mm²", "From the table of the section."),
    ("Strut", "modulus"): ("Elastic modulus", "N/mm²", "Of its material, from a table of strength classes or grades. For timber the lower value of the two that are printed is the cautious one."),
    ("Strut", "strength"): ("Strength along it", "N/mm²", "Stress at which its material crushes along the grain or yields: from a table of strength classes or grades."),
    ("Strut", "end_factor"): ("Bowing length over its length", "", "1 where both ends can turn, as taken if left empty; 2 for one that is clamped at its foot with a free head."),
    ("Strut", "rated_pull"): ("Rated pull with its ends", "kN", "What it and the fixings of its ends may be pulled with, whichever is least: tag, certificate, or the rating of bolts and shackles."),
    ("Strut", "mass"): ("Mass", "kg", "Half of its weight comes to either end. Left empty, its weight is not counted."),
    ("Drum", "bolted_to"): ("Bolted to the strut", "", "The leg or pole that the winch is bolted to; left empty where it stands by itself."),
    ("Demands", "strut_factor"): ("Required factor of struts", "", "What bows a strut out over its greatest push must be at least that. No source at hand gives it: take it from your local rules."),
    ("Body", "role"): ("What it is", "", "Exactly one body is the load."),
    ("Body", "mass"): ("Mass", "kg", "With everything that hangs on it: slings, spreader, block."),
    ("Body", "at"): ("Place at lowest", "m", "The middle of its underside in the lowest pose."),
    ("Body", "centre_of_gravity"): ("Centre of gravity", "m", "From the middle of its underside. Balance it on an edge, or hang it from two points, to find it."),
    ("Body", "picks"): ("Eyes and hooks", "m", "Where ropes are made fast, from the middle of its underside."),
    ("Body", "size"): ("Size", "m", "Width and height, for the drawing and for what it may touch."),
    ("Guided", "along"): ("Guide's direction", "", "Across and up: 0 and 1 is straight up."),
    ("Guided", "tilts"): ("Free to tilt in the guide", "", "Whether it can turn in the plane of the drawing while it runs."),
    ("Guided", "shoes_apart"): ("Distance of the shoes", "m", "Along the guide, from the middle of the lower shoe or roller to the middle of the upper one. With it the body is asked whether it sticks."),
    ("Guided", "friction"): ("Friction of the guide", "", "The highest it may come to, dry and dusty: rise over run of the rail at which the body begins to slide by itself. Never a guess on the low side."),
    ("Guided", "shoes"): ("Shoes", "", "Whether the shoes grip around one rail or mast, or run between two rails: it matters only where something pulls aside."),
    ("Guided", "faces_apart"): ("Width between the faces", "mm", "Across the rail or mast between the two faces that the shoes touch; between two rails, from face to face. Only where something pulls aside."),
    ("Guided", "play"): ("Play across the guide", "mm", "How far a shoe can be moved across the rail, from touching on the one side to touching on the other."),
    ("Guided", "runs_off"): ("Rope run off before it is noticed", "m", "If it sticks while the drive pays out: rope that lies slack before somebody stops the drive, or the travel of a slack-rope switch."),
    ("Guided", "lower_shoe"): ("Lower shoe", "m", "Across and up from the middle of the body's underside to the middle of the lower shoe, on the middle line of the rail or rails."),
    ("Level", "in_depth"): ("Moves towards you and away too", "", "Whether it can move in depth: towards you and away, as you see the drawing."),
    ("Free", "in_depth"): (
        "Moves and turns in depth too",
        "",
        "Whether it can swing towards you and away, and turn every way, as under a hook; if not, it swings and tilts in the plane of the drawing.",
    ),
    ("Hinged", "hinge"): ("Hinge", "m", "Across and up to the middle of the hinge's pin."),
    ("Hinged", "axis"): ("Hinge's axis", "", "0, 0, 1 for a hinge seen end on; 1, 0, 0 for one that runs across."),
    ("Carried", "by"): ("Fixed on", "", "The body it moves with as one piece."),
    ("Sheave", "on"): ("Sits on", "", "The fixed place it hangs from, or the body it rides on."),
    ("Sheave", "offset"): ("Axle from there", "m", "Across and up from the point or from the body's reference point to the axle."),
    ("Sheave", "pitch_diameter"): ("Pitch diameter", "mm", "Across the bottom of the groove, plus one rope diameter."),
    ("Sheave", "axis"): ("Axle's direction", "", "0, 0, 1 for a sheave seen face on."),
    ("Sheave", "bearing"): ("Bearing", "", "Balls or rollers (rolling), or metal sliding on metal (plain)?"),
    ("Sheave", "efficiency"): ("Efficiency, if measured", "", "Pull on the one side over pull on the other while the rope runs; it replaces the rule for the bearing."),
    ("Sheave", "rated_load"): (
        "Rated load of this one sheave", "kg",
        "What the pin of this sheave may bear; as a force it is written such as 6 kN or 1300 lbf. A rating stamped on a block is for all that hangs on the block: divide it by the parts of rope at the block, an end made "
        "fast to it counted as one and a half, and enter two parts for each sheave. A block stamped 400 kg (or 800 lb) with two sheaves: 4 parts, so 200 kg (400 lb) for each.",
    ),
    ("Sheave", "groove_diameter"): ("Groove diameter", "mm", "Twice the radius of the groove, with a groove gauge or round bars."),
    ("Rope", "kind"): ("Steel or fibre", "", "What it is made of decides which of the other questions are asked."),
    ("Rope", "diameter"): ("Diameter", "mm", "Across the widest place."),
    ("Rope", "construction"): ("Construction", "", "Strands times wires in a strand, and the core."),
    ("Rope", "material"): ("Material", "", "As its label says."),
    ("Rope", "grade"): ("Rope grade", "N/mm²", "Strength of the wires, on the certificate."),
    ("Rope", "breaking_force"): ("Minimum breaking force", "kN", "On the certificate of this very rope; where it is stated, construction and grade are not needed."),
    ("Rope", "remaining_strength"): ("Share of strength left", "", "1 for a new rope. Look along its whole length: broken wires, glazing, powder, cuts, thinning."),
    ("Rope", "modulus"): ("Elastic modulus", "N/mm²", "From the maker's leaflet. It is needed where ropes share a load by their stiffness."),
    ("Rope", "metal_area"): ("Metal area", "mm²", "All wires together, from the maker's leaflet; for fibre rope the area its modulus is stated for."),
    ("Rope", "length"): ("Length", "m", "From end to end with the load at its lowest. Left empty, it is taken from the drawing."),
    ("MadeFast", "made_fast_to"): ("Made fast to", "", "The point or body the end holds on to."),
    ("MadeFast", "pick"): ("At its eye", "", "Which of the body's eyes."),
    ("MadeFast", "fitting"): ("Fitting or knot", "", "Look how this end is made."),
    ("MadeFast", "fitting_share"): ("Share of strength the end keeps", "", "From the certificate of the fitting; it goes before the catalogue."),
    ("Over", "over"): ("Over the sheave", "", "The next sheave along the rope."),
    ("Over", "turns"): ("Turning", "", "The sense in which the rope's path turns there, walking from its first end, seen from the front."),
    ("WoundOn", "turns"): ("Wound on the drum, turning", "", "The sense in which the rope's path turns, walking from its first end, seen from the front."),
    ("ByHand", "pulled_by_hand_at"): ("Where the hand is", "m", "Across and up."),
    ("Drum", "at"): ("Axis of the drum", "m", "Across and up."),
    ("Drum", "diameter"): ("Diameter of the bare drum", "mm", "Without rope."),
    ("Drum", "width"): ("Width between the flanges", "mm", "Where the rope can lie."),
    ("Drum", "flange_diameter"): ("Diameter of the flanges", "mm", "The discs at the drum's ends."),
    ("Drum", "grooved"): ("Grooved", "", "Whether the drum has a groove cut for the rope."),
    ("Drum", "dead_wraps"): ("Turns left on the drum", "", "Count them with the load at its lowest."),
    ("Drum", "rope_friction"): ("Friction of the rope on the drum", "", "A low value is the cautious one here."),
    ("Drum", "base"): ("Middle of the winch's base", "m", "Across and up: the middle of what it is bolted down with."),
    ("Drum", "anchor_holds"): ("What the rope's anchor holds", "kN", "The screw, clamp or wedge that holds the end in the drum."),
    ("Gear", "kind"): ("Kind of stage", "", "One pair of wheels is one stage; a gearbox with its ratio on the plate may be entered as one."),
    ("Gear", "ratio"): ("Ratio", "", "Turns of its input for one turn of its output: count teeth, or turn it by hand."),
    ("Gear", "efficiency"): ("Efficiency", "", "From the data sheet. For a worm it follows from lead angle and friction."),
    ("Gear", "efficiency_backwards"): ("Efficiency backwards", "", "From the data sheet."),
    ("Gear", "lead_angle"): ("Lead angle of the worm", "deg", "From the data sheet, or the angle whose tangent is starts × pitch along the shaft over the worm's circumference."),
    ("Gear", "pressure_angle"): ("Pressure angle of the worm", "deg", "From the data sheet."),
    ("Gear", "friction"): ("Friction in the worm, highest", "", "Cold, after standing: for the motor's effort."),
    ("Gear", "friction_lowest"): ("Friction in the worm, lowest", "", "Warm, thin oil, shaken: for whether it holds."),
    ("Gear", "output_torque_rating"): ("Rated torque at its output", "N·m", "On the data sheet of the gear."),
    ("Motor", "voltage"): ("Nameplate voltage", "V", "The one at which the figures below are stated."),
    ("Motor", "no_load_speed"): ("Speed without load", "rpm", "Of the motor's own shaft, before any gears: data sheet, or measured with nothing on the shaft."),
    ("Motor", "no_load_current"): ("Current without load", "A", "Data sheet, or measured with nothing on the shaft."),
    ("Motor", "stall_torque"): ("Torque at standstill", "N·m", "Data sheet: stall or starting torque."),
    ("Motor", "stall_current"): ("Current at standstill", "A", "Data sheet: stall or starting current."),
    ("Motor", "rated_torque"): ("Rated torque", "N·m", "Of the motor's own shaft, before any gears, on the nameplate or data sheet: what it may give for long."),
    ("Supply", "voltage"): ("Voltage of the supply", "V", "Measured at its terminals without load."),
    ("Supply", "resistance"): ("Resistance inside the supply", "ohm", "Drop of voltage over the current that makes it drop."),
    ("Cable", "area"): ("Cross-section of a wire", "mm²", "Printed on the cable."),
    ("Cable", "length"): ("Length, one way", "m", "From the supply to the motor."),
    ("Cable", "conductor"): ("Conductor", "", "What one wire of the cable is made of."),
    ("Cable", "temperature"): ("Temperature of the cable", "°C", "As warm as it gets in use."),
    ("Brake", "torque"): ("Torque of the brake", "N·m", "On its data sheet."),
    ("Brake", "on"): ("Sits on", "", "On the motor's shaft its torque is multiplied by the gears; on the drum it holds even if a gear breaks."),
    ("Brake", "sets_itself"): ("Sets by itself when power fails", "", "Cut the power with no load on and see."),
    ("Pawl", "holds"): ("What the pawl holds", "N·m", "Torque at the drum."),
    ("Crank", "radius"): ("Radius of the crank", "m", "From the shaft to the middle of the handle."),
    ("Crank", "people"): ("People at the crank", "", "Who turn at the same time."),
    ("HandLine", "people"): ("People at the hand line", "", "Who pull at the same time."),
    ("Limits", "travel"): ("Travel", "m", "How far the load is raised from its lowest place."),
    ("Limits", "swing"): ("Swing", "deg", "How far the load turns about its hinge from its lowest place."),
    ("Limits", "taut_margin"): ("Pull to be left in the hoist rope", "N", "So that it stays taut; the best counterweight is worked out from it."),
    ("Limits", "stopping"): ("Braking while stopping", "m/s²", "Speed over the time it takes to stop."),
    ("Demands", "factors"): ("Basis of the required factors", "", "A published set. Which one binds you is for your local rules to say."),
    ("Demands", "sheave_rule"): ("Rule for the friction of sheaves", "", "Published rules differ by a third; each is named with its source."),
    ("Demands", "rope_factor"): ("Required rope factor of your own", "", "Left empty, that of the basis is taken. A lower one than the basis asks is named in the report."),
    ("Demands", "dynamic_factor"): ("Dynamic factor", "", "1 where the basis already covers starting and stopping."),
}  # fmt: skip

_OFTEN = {
    ("Strut", "diameter"): (40, 150, "mm"),
    ("Strut", "wall"): (2, 6, "mm"),
    ("Sheave", "pitch_diameter"): (60, 300, "mm"),
    ("Sheave", "rated_load"): (100, 2000, "kg"),
    ("Rope", "diameter"): (4, 12, "mm"),
    ("Rope", "modulus"): (40_000, 120_000, "N/mm²"),
    ("Drum", "diameter"): (60, 300, "mm"),
    ("Drum", "width"): (60, 400, "mm"),
    ("Drum", "flange_diameter"): (100, 500, "mm"),
    ("Drum", "dead_wraps"): (2, 5, ""),
    ("Gear", "output_torque_rating"): (20, 1000, "N·m"),
    ("Motor", "voltage"): (12, 24, "V"),
    ("Motor", "no_load_speed"): (1000, 4000, "rpm"),
    ("Motor", "no_load_current"): (0.5, 10, "A"),
    ("Motor", "stall_torque"): (1, 30, "N·m"),
    ("Motor", "stall_current"): (20, 300, "A"),
    ("Motor", "rated_torque"): (0.3, 5, "N·m"),
    ("Supply", "voltage"): (12, 24, "V"),
    ("Supply", "resistance"): (0.01, 0.3, "ohm"),
    ("Cable", "area"): (2.5, 16, "mm²"),
    ("Cable", "length"): (1, 10, "m"),
    ("Cable", "temperature"): (20, 50, "°C"),
    ("Brake", "torque"): (2, 60, "N·m"),
    ("Crank", "radius"): (0.25, 0.4, "m"),
    ("Limits", "travel"): (0.5, 4, "m"),
    ("Limits", "swing"): (45, 90, "deg"),
    ("Limits", "stopping"): (0.1, 1, "m/s²"),
    ("Demands", "dynamic_factor"): (1, 1.5, ""),
}
_OFTEN_RATIOS = {
    "spur": (2, 8),
    "helical": (2, 8),
    "bevel": (1, 5),
    "chain": (1.5, 6),
    "belt": (1.5, 5),
    "worm": (10, 60),
    "planetary": (3, 10),
}
COMMON = "common practice, no source"


def often(model: str, field: str, kind: str = "") -> str:
    """The range a value often lies in, in the units that are shown, with where that is from; "" where none is known. Never put in by itself.

    >>> often("Rope", "diameter"), often("Gear", "ratio", "worm"), often("Body", "mass")
    ('often 4 mm to 12 mm: common practice, no source', 'often 10 to 60: common practice, no source', '')
    """
    if (model, field) == ("Gear", "efficiency") and kind in gear_kinds():
        printed = gear_stage(kind)
        return f"often {units.number(printed.low)} to {units.number(printed.high)}: {printed.source}, {printed.note}"
    if (model, field) in (("Gear", "friction"), ("Gear", "friction_lowest")):
        printed = worm_friction()
        return f"often {units.number(printed.low)} to {units.number(printed.high)}: {printed.source}"
    if (model, field) == ("Gear", "ratio") and kind in _OFTEN_RATIOS:
        low, high = _OFTEN_RATIOS[kind]
        return f"often {low:g} to {high:g}: {COMMON}"
    if (model, field) not in _OFTEN:
        return ""
    low, high, unit = _OFTEN[model, field]
    shown = [units.show(units.from_unit(value, unit), unit, 2) for value in (low, high)]
    return f"often {shown[0]} to {shown[1]}: {COMMON}"


def remark(model: str, field: str, data: dict) -> str:
    """What is unusual about a value that is allowed all the same, with what to look at; "" for most."""
    if (model, field) == ("Gear", "ratio") and data.get("kind") in ("spur", "helical", "bevel", "chain", "belt"):
        ratio, high = data.get("ratio"), _OFTEN_RATIOS[data["kind"]][1]
        if isinstance(ratio, int | float) and not isinstance(ratio, bool) and ratio > _MANY:
            return f"One {data['kind']} stage seldom goes above {high:g} ({COMMON}). If this is the ratio of several stages together, state their efficiency together too."
    return ""


def words_for(model: str, field: ModelField) -> Words:
    """The words beside a field; one that is not listed is called by its name in the model."""
    if (model, field.name) in _WORDS:
        return Words(*_WORDS[model, field.name])
    unit = units.KINDS[field.quantity_kind].metric if field.kind == QUANTITY else ""
    return Words(field.name.replace("_", " ").capitalize(), unit, "")


def listed() -> set[tuple[str, str]]:
    """The fields that have words of their own."""
    return set(_WORDS)


def with_unit_in_label(label: str, unit: str) -> str:
    return f"{label} [{unit}]" if unit else label


def title_of(field: str) -> Callable[[str], str]:
    """How the options of a field are written out.

    >>> title_of("sheave_rule")("din-15020"), title_of("material")("polyester")
    ('rule of DIN 15020', 'polyester')
    """
    titles = {"factors": _basis_titles, "sheave_rule": lambda: source_words.RULES}.get(field)
    return (lambda slug: titles().get(slug, slug)) if titles else str


@cache
def _basis_titles() -> dict[str, str]:
    return {each.slug: each.title for each in bases()}
