"""The words beside each field of the rig: its label, the unit a bare number takes there, and what to measure or where to look."""

from __future__ import annotations

from dataclasses import dataclass

from rigcheck import units
from rigcheck.ui.model_fields import QUANTITY, ModelField


@dataclass(frozen=True)
class Words:
    """Label, unit of the label, help."""

    label: str
    unit: str
    help: str


_WORDS = {
    ("Rig", "name"): ("Name of the rig", "", "A few words by which you will find it again."),
    ("Rig", "about"): ("What it is for", "", "What is raised, where, and what is special about it."),
    ("Point", "at"): ("Place", "m", "Where the rope or the sheave's axle hangs: across and up from one corner of the room, depth if it is not in one plane."),
    ("Point", "fixing"): ("Fixing", "", "What holds it: bolt, beam, screw, and its size."),
    ("Body", "role"): ("What it is", "", "Exactly one body is the load."),
    ("Body", "mass"): ("Mass", "kg", "Weigh it with everything that hangs on it: slings, spreader, block."),
    ("Body", "at"): ("Place when lowest", "m", "The middle of its underside in the lowest pose."),
    ("Body", "centre_of_gravity"): ("Centre of gravity", "m", "From the middle of its underside. Balance it on an edge, or hang it from two points, to find it."),
    ("Body", "picks"): ("Eyes and hooks", "m", "Where ropes are made fast, from the middle of its underside."),
    ("Body", "size"): ("Size", "m", "Width and height, for the drawing and for what it may touch."),
    ("Guided", "along"): ("Direction of the guide", "", "Across and up: 0 and 1 is straight up."),
    ("Guided", "tilts"): ("Free to tilt in the guide", "", "Whether it can turn in the plane of the drawing while it runs."),
    ("Level", "in_depth"): ("Moves in depth too", "", "Whether it can move towards you and away."),
    ("Sheave", "on"): ("Sits on", "", "The point it hangs from, or the body it rides on."),
    ("Sheave", "offset"): ("Axle from there", "m", "Across and up from the point or from the body's reference point to the axle."),
    ("Sheave", "pitch_diameter"): ("Pitch diameter", "mm", "Across the bottom of the groove, plus one rope diameter."),
    ("Sheave", "axis"): ("Direction of the axle", "", "0, 0, 1 for a sheave seen face on."),
    ("Sheave", "bearing"): ("Bearing", "", "Turn it by hand: balls or rollers, or does metal slide on metal?"),
    ("Sheave", "efficiency"): ("Efficiency, if measured", "", "Pull on the one side over pull on the other while the rope runs; it replaces the rule for the bearing."),
    ("Sheave", "rated_load"): ("Rated load", "kN", "Stamped on the block or on its data sheet."),
    ("Sheave", "groove_diameter"): ("Groove diameter", "mm", "Twice the radius of the groove, with a groove gauge or round bars."),
    ("Rope", "kind"): ("Steel or fibre", "", ""),
    ("Rope", "diameter"): ("Diameter", "mm", "Across the widest place, with a caliper, at several places."),
    ("Rope", "construction"): ("Construction", "", "Strands times wires in a strand, and the core: count them at an end, or read the certificate. For steel rope."),
    ("Rope", "material"): ("Material", "", "As its label says. For fibre rope."),
    ("Rope", "grade"): ("Rope grade", "N/mm²", "On the certificate. For steel rope."),
    ("Rope", "breaking_force"): ("Minimum breaking force", "kN", "On the certificate; it goes before the catalogue."),
    ("Rope", "remaining_strength"): ("Share of strength left", "", "1 for a new rope. Look along its whole length: broken wires, glazing, powder, cuts, thinning."),
    ("Rope", "modulus"): ("Modulus of elasticity", "N/mm²", "From the maker's leaflet. It is needed where ropes share a load by their stiffness."),
    ("Rope", "metal_area"): ("Metal area", "mm²", "From the maker's leaflet."),
    ("Rope", "length"): ("Length", "m", "From end to end with the load at its lowest. Left out, it is taken from the drawing."),
    ("MadeFast", "made_fast_to"): ("Made fast to", "", "The point or body the end holds on to."),
    ("MadeFast", "pick"): ("At its eye", "", "Which of the body's eyes."),
    ("MadeFast", "fitting"): ("Fitting or knot", "", "Look how this end is made."),
    ("MadeFast", "fitting_share"): ("Share of strength the end keeps", "", "From the certificate of the fitting; it goes before the catalogue."),
    ("Over", "over"): ("Over the sheave", "", ""),
    ("Over", "turns"): ("Turning", "", "The sense in which the rope's path turns there, walking from its first end, seen from the front."),
    ("WoundOn", "turns"): ("Wound on the drum, turning", "", "The sense in which the rope's path turns, walking from its first end, seen from the front."),
    ("ByHand", "pulled_by_hand_at"): ("Where the hand is", "m", "Across and up."),
    ("Drum", "at"): ("Axis of the drum", "m", "Across and up."),
    ("Drum", "diameter"): ("Diameter of the bare drum", "mm", "Without rope."),
    ("Drum", "width"): ("Width between the flanges", "mm", ""),
    ("Drum", "flange_diameter"): ("Diameter of the flanges", "mm", ""),
    ("Drum", "grooved"): ("Grooved", "", "Whether the drum has a groove cut for the rope."),
    ("Drum", "dead_wraps"): ("Turns left on the drum", "", "Count them with the load at its lowest."),
    ("Drum", "rope_friction"): ("Friction of the rope on the drum", "", "A low value is the cautious one here."),
    ("Drum", "base"): ("Middle of the winch's base", "m", "Across and up: the middle of what it is bolted down with."),
    ("Drum", "anchor_holds"): ("What the rope's anchor holds", "kN", "The screw, clamp or wedge that holds the end in the drum."),
    ("Gear", "kind"): ("Kind of stage", "", ""),
    ("Gear", "ratio"): ("Ratio", "", "Turns of its input for one turn of its output: count teeth, or turn it by hand."),
    ("Gear", "efficiency"): ("Efficiency", "", "From the data sheet. For a worm it follows from lead angle and friction."),
    ("Gear", "efficiency_backwards"): ("Efficiency when driven backwards", "", "From the data sheet."),
    ("Gear", "lead_angle"): ("Lead angle of the worm", "deg", "From the data sheet, or starts × pitch over the worm's circumference."),
    ("Gear", "pressure_angle"): ("Pressure angle of the worm", "deg", "From the data sheet."),
    ("Gear", "friction"): ("Friction, highest", "", "Cold, after standing: for the motor's effort."),
    ("Gear", "friction_lowest"): ("Friction, lowest", "", "Warm, thin oil, shaken: for whether it holds."),
    ("Gear", "output_torque_rating"): ("Rated torque at its output", "N·m", "On the data sheet of the gear."),
    ("Motor", "voltage"): ("Voltage of the nameplate", "V", ""),
    ("Motor", "no_load_speed"): ("Speed without load", "rpm", "Data sheet, or measured with nothing on the shaft."),
    ("Motor", "no_load_current"): ("Current without load", "A", "Data sheet, or measured with nothing on the shaft."),
    ("Motor", "stall_torque"): ("Torque at standstill", "N·m", "Data sheet: stall or starting torque."),
    ("Motor", "stall_current"): ("Current at standstill", "A", "Data sheet: stall or starting current."),
    ("Motor", "rated_torque"): ("Rated torque", "N·m", "On the nameplate or data sheet: what it may give for long."),
    ("Supply", "voltage"): ("Voltage of the supply", "V", "Measured at its terminals without load."),
    ("Supply", "resistance"): ("Resistance inside the supply", "ohm", "Drop of voltage over the current that makes it drop."),
    ("Cable", "area"): ("Cross-section of a wire", "mm²", "Printed on the cable."),
    ("Cable", "length"): ("Length, one way", "m", "From the supply to the motor."),
    ("Cable", "conductor"): ("Conductor", "", ""),
    ("Cable", "temperature"): ("Temperature of the cable", "°C", "As warm as it gets in use."),
    ("Brake", "torque"): ("Torque of the brake", "N·m", "On its data sheet."),
    ("Brake", "on"): ("Sits on", "", ""),
    ("Brake", "sets_itself"): ("Sets by itself when power fails", "", "Cut the power with no load on and see."),
    ("Pawl", "holds"): ("What the pawl holds", "N·m", "Torque at the drum."),
    ("Crank", "radius"): ("Radius of the crank", "m", "From the shaft to the middle of the handle."),
    ("Crank", "people"): ("People at the crank", "", ""),
    ("HandLine", "people"): ("People at the hand line", "", ""),
    ("Limits", "travel"): ("Travel", "m", "How far the load is raised from its lowest place."),
    ("Limits", "taut_margin"): ("Pull to be left in the hoist rope", "N", "So that it stays taut; the best counterweight is worked out from it."),
    ("Limits", "stopping"): ("Braking while stopping", "m/s²", "Speed over the time it takes to stop."),
    ("Demands", "factors"): ("Basis of the required factors", "", "A published set. Which one binds you is for your local rules to say."),
    ("Demands", "sheave_rule"): ("Rule for the friction of sheaves", "", "Published rules differ by a third; each is named with its source."),
    ("Demands", "rope_factor"): ("Required rope factor of your own", "", "Left out, that of the basis is taken. A lower one than the basis asks is named in the report."),
    ("Demands", "dynamic_factor"): ("Dynamic factor", "", "1 where the basis already covers starting and stopping."),
}  # fmt: skip


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
