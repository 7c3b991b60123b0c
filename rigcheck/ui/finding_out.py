"""Ways to find a value out with what a workshop has, by the field it belongs to, and what cannot be told without it.

All of it is common practice, no source, unless a sentence names another; nothing here is counted with.
"""

from __future__ import annotations

from rigcheck import units
from rigcheck.ui.draft import Draft, Path

_SERIES = "Not with a series-wound motor, as in car starters and many vehicle winches: without load it can run away."

_WAYS = {
    ("Point", "at"): "A tape and a plumb line: pick one corner of the floor as zero, mark where the plumb line meets the floor, and measure from there across and up.",
    ("Point", "fixing"): "Look at what holds it: size and marking on the bolt's head, what it is screwed into, and whether there is a nut behind.",
    ("Point", "held"): "Look what would move if the struts were taken away: a joint would fall, a foot would stay.",
    ("Point", "friction"): "Stand the foot on its ground with a known mass on it and pull it aside with a spring balance, low down: the pull at which it slides over the weight on it. Wet, icy or greasy ground has less.",
    ("Strut", "pulls_only"): "Push its two ends together: a rope or chain gives way.",
    ("Strut", "diameter"): "A caliper across it at its thinnest; or a tape round it, divided by 3.1416.",
    ("Strut", "wall"): "A caliper at its open end, past the burr.",
    ("Strut", "broad_side"): "A caliper or a rule across the broader side.",
    ("Strut", "thin_side"): "A caliper or a rule across the thinner side.",
    ("Strut", "second_moment"): "The table of the section, by its size and wall; take the lesser of the two values.",
    ("Strut", "area"): "The table of the section. Or weigh a metre of it: for steel, grams per metre over 7.85 is mm².",
    ("Strut", "modulus"): "The table of its grade or strength class. Steel is near 210000 N/mm²; timber differs by class, moisture and age.",
    ("Strut", "strength"): "The table of its grade or strength class, which is stamped on graded timber and stands on the certificate of steel. It cannot be seen: without a mark take the lowest class.",
    ("Strut", "end_factor"): "Look at its ends: a bolt, a lashing or a foot on the ground lets it turn.",
    ("Strut", "rated_pull"): "Tag or certificate of chain, rope and shackles; for bolted ends ask who works out such joints. Do not try it out under load.",
    ("Strut", "mass"): "Set each end on a bathroom scale and add what the two show.",
    ("Drum", "bolted_to"): "Look what the bolts of the winch go through.",
    ("Body", "mass"): "Set each end on a bathroom scale, as far as the scales go, and add what the two show; keep hands and feet from under it. "
                      "Or ask what it weighed at delivery, or weigh its pieces.",
    ("Body", "at"): "Set the load down where it stands at its lowest and measure with a tape, across and up, from the same zero as the fixed places.",
    ("Body", "centre_of_gravity"): "Set its two ends on two scales: from the left support to the balance is the span × what the right scale shows / the sum of both. "
                                   "For its height: hang it by one eye, low over the floor, mark the plumb line from that eye, do the same at another: the lines cross there.",
    ("Body", "picks"): "A tape from the middle of its underside: how far across and how high each eye sits.",
    ("Body", "size"): "A tape across it and up it, at its widest and tallest.",
    ("Guided", "along"): "Hold a level or a plumb line against the guide: plumb is 0 across and 1 up.",
    ("Guided", "tilts"): "With the load down, push one corner: does the guide let it rock?",
    ("Guided", "shoes_apart"): "A tape along the guide, from the middle of the lower shoe, roller or bush to the middle of the upper one.",
    ("Guided", "friction"): "Lay the body, its shoes on a length of the rail, on a plank and tip it until it slides by itself: rise over run is the friction. Take the highest of several tries, dry and dusty.",
    ("Guided", "shoes"): "Look from above: is the rail inside the shoe, or the shoe between the rails?",
    ("Guided", "faces_apart"): "A caliper across the rail, or a rule from rail to rail, where the shoes run.",
    ("Guided", "play"): "Push the shoe against one side of the rail and try with feeler gauges or drill shanks what goes in on the other side.",
    ("Guided", "runs_off"): "Think of the lift as you use it: how long would the drum turn before you see the rope hang slack? Rope for that many turns. With a slack-rope switch: let rope off by hand until it clicks.",
    ("Guided", "lower_shoe"): "A tape from the middle of its underside to the middle of the lower shoe, across and up; to the left is minus.",
    ("Hinged", "hinge"): "A tape to the middle of the hinge's pin, across and up, from the same zero as the fixed places.",
    ("Hinged", "axis"): "Look along the pin: if you see its end from where the drawing is seen, it is 0, 0, 1.",
    ("Carried", "by"): "Move the one by hand: what it is fixed on moves along.",
    ("Level", "in_depth"): "Push it towards the wall and away, with the ropes just taut.",
    ("Free", "in_depth"): "Push it towards the wall and away, with the ropes just taut.",
    ("Sheave", "on"): "Follow the hook or bolt of the block: does it end in the building, or in something that moves?",
    ("Sheave", "offset"): "A tape from the fixed place, or from the middle of the body's underside, to the axle.",
    ("Sheave", "pitch_diameter"): "Lay a string once round the bottom of the groove, divide its length by 3.1416 and add one rope diameter; or a caliper across the bottom of the groove, and add one rope diameter.",
    ("Sheave", "axis"): "Look along the axle: if you see the sheave face on from where the drawing is seen, it is 0, 0, 1.",
    ("Sheave", "bearing"): "Take the rope off and flick it: one that runs on for many turns has balls or rollers, one that stops at once has a bush.",
    ("Sheave", "efficiency"): "Hang a known mass on one side and pull the other over the sheave with a spring balance, slowly and evenly: the weight over the pull while it rises. "
                              "Keep it low over the floor.",
    ("Sheave", "rated_load"): "Look for a stamp on the cheeks or the hook; without one, ask the maker. Do not try it out: a block that held once is not a rated block.",
    ("Sheave", "groove_diameter"): "Try drill shanks in the groove until one lies snug on its bottom: that shank's diameter is it.",
    ("Rope", "kind"): "Look at a cut end: wires are steel; a coloured coat may hide them, so bend the end and look under the coat. A magnet draws steel wire, but stainless wire hardly.",
    ("Rope", "diameter"): "A caliper over the widest place, on two strands facing each other, at three places with the rope a little taut. "
                          "For a cord: lay ten turns side by side round a rod and divide their width by ten.",
    ("Rope", "construction"): "At a cut end count the strands, then the wires of one strand; in the middle there is a fibre core (FC), a small rope of its own (IWRC) or a strand like the others.",
    ("Rope", "material"): "The label or a marker yarn says it. In a bucket of water polypropylene floats, as some others do; polyester and polyamide sink. If in doubt leave it unknown.",
    ("Rope", "grade"): "It stands on the certificate and often on a tag or thread in the core. It cannot be seen or measured: ask who sold the rope.",
    ("Rope", "breaking_force"): "It stands on the certificate that came with the rope: ask who sold it. Not to be found out by pulling in the workshop.",
    ("Rope", "remaining_strength"): "Run the whole rope slowly through a rag, in gloves, and look: broken wires catch, a glazed, powdery or thin place shows. "
                                    "New and without fault is 1; a rope with faults is better replaced than judged.",
    ("Rope", "modulus"): "The maker's leaflet has it. Or: mark 2 m of the rope, hang two known masses one after the other, and measure how much longer the marked piece is with the "
                         "heavier one: extra pull × length over (metal area × extra length). Stand clear of the line of the rope.",
    ("Rope", "metal_area"): "The maker's leaflet has it. Or weigh one metre of the rope on a kitchen scale: for a rope without fibre core, grams per metre over 9 is close to mm², rather a little less than it has.",
    ("Rope", "length"): "A tape along the rope; or count the turns that come off the drum. Mark the rope where it leaves the drum with the load at its lowest.",
    ("MadeFast", "made_fast_to"): "Follow the rope to its end.",
    ("MadeFast", "pick"): "Look which eye the rope's end holds on to.",
    ("MadeFast", "fitting"): "Look at the end: a pressed metal sleeve is a ferrule, U-shaped bolts are grips, a wedge in a pocket is a wedge socket, woven strands a splice, anything else a knot.",
    ("MadeFast", "fitting_share"): "It stands in the papers of the fitting. Unknown is fine where its kind is chosen: the catalogue's share is then taken.",
    ("Over", "over"): "Follow the rope along its path.",
    ("Over", "turns"): "Walk along the rope from its first end and look from the front: do you go round the sheave as the hands of a clock go?",
    ("WoundOn", "turns"): "Walk along the rope from its first end towards the drum: do you come onto the drum the way the hands of a clock go?",
    ("ByHand", "pulled_by_hand_at"): "Stand where you pull and measure where your hands are, across and up, from the same zero as the fixed places.",
    ("Drum", "at"): "A tape to the middle of the drum's shaft, across and up, from the same zero as the fixed places.",
    ("Drum", "diameter"): "Lay a tape once round the bare drum and divide by 3.1416. If rope covers it: the circumference over the rope, divided likewise, less two rope diameters for each layer.",
    ("Drum", "width"): "A rule between the insides of the two flanges.",
    ("Drum", "flange_diameter"): "A rule across the flange, through the middle of the shaft.",
    ("Drum", "grooved"): "Look at the drum where no rope lies.",
    ("Drum", "dead_wraps"): "Lower the load to its lowest place, switch off, and count the full turns that still lie on the drum.",
    ("Drum", "rope_friction"): "No simple way in a workshop: leave it unknown, or take a low value from a table.",
    ("Drum", "base"): "A tape to the middle between the bolts the winch stands on.",
    ("Drum", "anchor_holds"): "The maker's papers. Do not try it out under load.",
    ("Gear", "kind"): "Look at the shafts: in line or side by side are spur or planetary gears, crossing at a right angle with a screw on one is a worm, meeting at a corner are bevel gears.",
    ("Gear", "ratio"): "Count the teeth of both wheels and divide the driven by the driving (a worm counts as its number of threads). Or chalk both shafts and count turns of the input for one "
                       "turn of the output, by hand with the power off.",
    ("Gear", "efficiency"): "From the data sheet. Or leave it unknown: the motor's checks then cannot tell, which is honest for a gear without papers.",
    ("Gear", "efficiency_backwards"): "From the data sheet. Leave it unknown if it has none.",
    ("Gear", "lead_angle"): "Measure the pitch p from thread to thread along the shaft of the worm, its number of threads n, and with a tape its circumference c half-way up the thread: the angle whose tangent is n·p/c.",
    ("Gear", "pressure_angle"): "From the data sheet. It is half the angle between the two flanks of the thread, seen on a cut square to the thread, not along the shaft.",
    ("Gear", "friction"): "No simple way in a workshop: the highest value on the data sheet or in a table.",
    ("Gear", "friction_lowest"): "No simple way in a workshop: the lowest value on the data sheet or in a table. Holding must not depend on a guess here.",
    ("Gear", "output_torque_rating"): "On the plate or data sheet of the gear. It cannot be measured.",
    ("Motor", "voltage"): "On the plate. Otherwise ask who sold it; what it was fed with before is only a hint.",
    ("Motor", "no_load_speed"): "Uncouple the motor, stick a flag of tape on its shaft, run it at its voltage and film it; slow the film down to count the turns made in ten seconds of real time. "
                                "Keep sleeves and hair away. " + _SERIES,
    ("Motor", "no_load_current"): "Uncouple the motor, run it at its voltage, and read a clamp meter round one of its two wires (one that reads direct current for a DC motor). " + _SERIES,
    ("Motor", "stall_torque"): "From the data sheet. Do not hold a motor still under power to measure it: it burns out in seconds and can break your wrist.",
    ("Motor", "stall_current"): "From the data sheet, or for a brushed DC motor: its voltage over the cold resistance between its two wires, shaft still and power off, least of several positions, less what the meter shows with its tips touching. "
                                "Do not stall it under power.",
    ("Motor", "rated_torque"): "On the plate or data sheet; or from rated power and rated speed: watts × 9.55 over turns per minute gives N·m. The power must be what the shaft gives (some plates name what it draws), the speed that of the motor's own shaft and not of a shaft behind gears.",
    ("Supply", "voltage"): "A multimeter at its terminals with nothing running. Only at extra-low voltage; mains is for an electrician.",
    ("Supply", "resistance"): "Read its voltage with nothing running and again, with a clamp meter on the wire, while something heavy runs: the fall in volts over the amperes.",
    ("Cable", "area"): "Printed on the sheath. Otherwise count the hairs of one wire, measure one with a caliper: number × 0.785 × diameter²; take the next listed cross-section below that.",
    ("Cable", "length"): "A tape along the cable, or pace it: one way only, from supply to motor.",
    ("Cable", "conductor"): "Look at a cut end: many hair-fine wires are flexible; one or a few stiff wires are solid or stranded.",
    ("Cable", "temperature"): "A contact thermometer on the cable after it has worked for an hour; in a hot place at least the temperature of that place.",
    ("Brake", "torque"): "On its plate or data sheet. Otherwise ask the maker by its marking.",
    ("Brake", "on"): "Look which shaft its disc or band sits on.",
    ("Brake", "sets_itself"): "With no load on, switch the power off and listen and turn by hand: does it hold at once, by itself?",
    ("Pawl", "holds"): "The maker's papers; it cannot be measured in a workshop.",
    ("Crank", "radius"): "A rule from the middle of the shaft to the middle of the handle.",
    ("Crank", "people"): "Count who really stands at it.",
    ("HandLine", "people"): "Count who really pulls.",
    ("Limits", "travel"): "Chalk the load's underside on a post at its lowest and at its highest, and measure between the marks.",
    ("Limits", "swing"): "Lay a telephone that shows its slope along the load at its lowest and at its highest, and take the difference. "
                         "Or measure at both how high its far edge stands, and draw it to scale.",
    ("Limits", "taut_margin"): "You choose it: how hard the hoist rope is to be pulled at least. Lift the slack with a spring balance to feel what a pull is.",
    ("Limits", "stopping"): "Time one metre of lift with a stop watch: that gives the speed. Film how long it still runs after the switch is let go: speed over that time is the mean; a brake that grabs is harder for a moment.",
}  # fmt: skip

# What names a unit in them, and how that is told where US units are shown
_IN_US = {
    ("Strut", "area"): ("weigh a metre of it: for steel, grams per metre over 7.85 is mm²", "weigh a foot of it: for steel, pounds per foot over 3.4 is in²"),
    ("Strut", "modulus"): ("210000 N/mm²", "30000 ksi"),
    ("Rope", "modulus"): ("mark 2 m of the rope", "mark 6 ft of the rope"),
    ("Rope", "metal_area"): ("one metre of the rope on a kitchen scale: for a rope without fibre core, grams per metre over 9 is close to mm²",
                             "one yard of the rope on a kitchen scale: for a rope without fibre core, its ounces over 187 is close to in²"),
    ("Motor", "rated_torque"): ("watts × 9.55 over turns per minute gives N·m", "horsepower × 5252 over turns per minute gives lbf·ft, and so does watts × 7.04"),
    ("Limits", "stopping"): ("one metre of lift", "one metre of lift (3 ft 3 3/8 in)"),
}  # fmt: skip

_OF_INPUTS = {
    "mass": ("Body", "mass"),
    "travel": ("Limits", "travel"),
    "swing": ("Limits", "swing"),
    "sheave_diameter": ("Sheave", "pitch_diameter"),
    "rope_diameter": ("Rope", "diameter"),
    "drum_diameter": ("Drum", "diameter"),
    "counterweight": ("Body", "mass"),
    "bearing": ("Sheave", "bearing"),
    "rope": ("Rope", "construction"),
    "grade": ("Rope", "grade"),
    "condition": ("Rope", "remaining_strength"),
    "ends": ("MadeFast", "fitting"),
    "dead_wraps": ("Drum", "dead_wraps"),
}
_OF_INPUTS_ALONE = {
    "load_height": "A tape up the load, from its underside to the eye the rope is made fast to.",
    "head_height": "A tape or a folding rule from the floor to the axle; where that cannot be reached, a plumb line let down from it and measured.",
    "distance": "A tape along the floor, from the plumb line under the load's rope.",
    "lid_length": "A tape along the lid, from the middle of the hinge's pin to the eye the rope holds on to.",
    "arm_length": "A tape along the arm, from the middle of the hinge's pin to where the counterweight balances on an edge.",
    "foot_distance": "A plumb line let down from the head, and a tape from where it touches the ground to the middle of a foot.",
    "lean": "A plumb line let down from the head, and a tape from where it touches the ground back to the foot, or square to the line between the feet.",
    "reach": "A tape along the jib, from the wall to where the tie holds it.",
    "spread": "A tape from eye to eye on the load or its spreader.",
    "depth": "A tape from a front eye to the back eye behind it.",
    "circle": "A tape from one eye to the next; the circle they lie on is 1.155 times as wide.",
    "leg_length": "A tape along a leg that is drawn taut, from the inside of the ring to the eye on the load.",
    "off_middle": "Set the load on an edge or a round bar and shift it until it balances: the distance from there to the middle between the eyes.",
    "to_ring": "A tape along the floor, from under the ring to under the middle of the load, with the load at its lowest.",
    "span": "A tape from where the rope is made fast to the axle of the head sheave, or from post to post along the floor.",
    "parts": "Count the ropes that carry the moving block, from one side to the other.",
    "people": "Count who really pulls.",
    "ratio": "On the plate of the gears. Otherwise mark the motor's shaft and count its turns for one turn of the drum, by hand, with the power off.",
    "voltage": "On the plate of the motor.",
    "brake": "With no load on, switch the power off and look: does something hold the shaft or the drum at once, by itself?",
    "worked_by": "Look at the gears: a worm lies across its wheel, spur wheels lie side by side.",
}

_WITHOUT = {
    ("Point", "friction"): "whether the foot slides cannot be told",
    ("Strut", "diameter"): "when the strut bows out cannot be told",
    ("Strut", "modulus"): "when the strut bows out cannot be told",
    ("Strut", "strength"): "whether it is too stocky to bow out, and crushes sooner, cannot be told",
    ("Strut", "rated_pull"): "whether it and its ends bear a pull, should it be pulled, cannot be told",
    ("Strut", "mass"): "its own weight is not counted",
    ("Sheave", "bearing"): "the pulls are worked out with a plain bush, the stiffer one",
    ("Sheave", "rated_load"): "whether the sheave bears the force on its pin cannot be told",
    ("Sheave", "groove_diameter"): "whether the rope fits the groove is not checked",
    ("Rope", "construction"): "the rope's strength cannot be told",
    ("Rope", "material"): "the rope's strength cannot be told",
    ("Rope", "grade"): "the rope's strength cannot be told",
    ("Rope", "remaining_strength"): "the rope's condition and strength cannot be told",
    ("MadeFast", "fitting"): "the strength of this end cannot be told",
    ("Drum", "width"): "whether the rope fits on the drum, and how far sideways it is led, cannot be told",
    ("Drum", "flange_diameter"): "whether the rope fits below the flange cannot be told",
    ("Drum", "dead_wraps"): "whether enough turns stay on the drum, and whether the rope fits on it, cannot be told",
    ("Drum", "anchor_holds"): "the anchor of the rope in the drum is not checked",
    ("Gear", "efficiency"): "the torque the motor needs cannot be told",
    ("Gear", "lead_angle"): "whether the worm locks cannot be told",
    ("Gear", "pressure_angle"): "whether the worm locks cannot be told",
    ("Gear", "friction_lowest"): "whether the worm locks cannot be told",
    ("Gear", "output_torque_rating"): "the strength of this stage is not checked",
    ("Motor", "no_load_speed"): "speed and time are not worked out",
    ("Motor", "no_load_current"): "current and the cable's loss cannot be told",
    ("Motor", "stall_torque"): "starting under load cannot be told",
    ("Motor", "stall_current"): "starting under load and the cable's loss cannot be told",
    ("Motor", "rated_torque"): "whether the motor may lift this for long cannot be told",
    ("Supply", "resistance"): "what the supply itself loses is not counted, so starting may be judged no better than cannot tell",
    ("Pawl", "holds"): "whether the pawl keeps the load from running back cannot be told",
    ("Limits", "taut_margin"): "the best counterweight is not worked out",
    ("Limits", "stopping"): "slack and shock while stopping cannot be told",
}  # fmt: skip


def way(model: str, field: str) -> str:
    """How to find a field's value out with what a workshop has, in one to three sentences; "" for a field that is a matter of choice."""
    told = _WAYS.get((model, field), "")
    return told.replace(*_IN_US[model, field]) if units.system() == units.US and (model, field) in _IN_US else told


def of_input(key: str) -> str:
    """How to find out what an arrangement asks, by the key of its input or choice; "" where it is a matter of looking."""
    return _OF_INPUTS_ALONE.get(key, "") or way(*_OF_INPUTS.get(key, ("", "")))


def without(draft: Draft, model: str, path: Path, field: str) -> str:
    """What cannot be told while an optional field of the part at a path is not known; "" where nothing waits for it."""
    part = draft.at(path)
    if not isinstance(part, dict) or part.get(field) is not None:
        return ""
    match model, field:
        case "Rope", "construction" | "grade":
            waits = part.get("kind") == "steel" and part.get("breaking_force") is None
        case "Rope", "material":
            waits = part.get("kind") == "fibre" and part.get("breaking_force") is None
        case "Point", "friction":
            waits = part.get("held") == "ground"
        case "Strut", "diameter":
            waits = not any(part.get(each) is not None for each in ("pulls_only", "broad_side", "second_moment"))
        case "Strut", "modulus" | "strength":
            waits = part.get("pulls_only") is not True
        case "Sheave", "bearing":
            waits = part.get("efficiency") is None
        case "MadeFast", "fitting":
            waits = part.get("fitting_share") is None
        case "Gear", "efficiency":
            waits = part.get("kind") != "worm" or any(part.get(each) is None for each in ("lead_angle", "pressure_angle", "friction"))
        case "Gear", "lead_angle" | "pressure_angle" | "friction_lowest":
            waits = part.get("kind") == "worm" and part.get("efficiency_backwards") is None
        case "Limits", "taut_margin" | "stopping":
            waits = any(isinstance(body, dict) and body.get("role") == "counterweight" for body in (draft.at(("bodies",)) or {}).values())
        case _:
            waits = True
    return _WITHOUT.get((model, field), "") if waits else ""


def listed() -> set[tuple[str, str]]:
    """The fields that have a way of their own."""
    return set(_WAYS)
