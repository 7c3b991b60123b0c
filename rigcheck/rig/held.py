"""What does not move: places, held by the building, by struts or by the ground, and the struts between them."""

from __future__ import annotations

from typing import Literal

from pydantic import Field, model_validator

from rigcheck.rig import fields as f
from rigcheck.rig.fields import FieldError
from rigcheck.rig.part import Part


class Point(Part):
    """A place that does not move, where ropes, sheaves or struts meet: held by the building, standing on the ground, or held by struts alone.

    `friction` is that of a foot on its ground, the share of its press that may push it aside.
    """

    at: f.Place
    fixing: str = Field("", max_length=200)
    held: Literal["fixed", "struts", "ground"] = "fixed"
    friction: f.ratio(low=0, high=1.5, example="0.3") | None = None

    @model_validator(mode="after")
    def _friction_is_of_the_ground(self):
        if self.friction is not None and self.held != "ground":
            raise FieldError("friction is stated for what does not stand on the ground", 'Leave it out, or write "held": "ground".')
        return self


class Strut(Part):
    """A straight member between two points that pushes or pulls along its own line alone: a leg, pole, jib, brace, tie or guy.

    Round with `diameter` (a tube with its `wall`), rectangular with `broad_side` and `thin_side`, or any other with `second_moment` and
    `area`. `strength` is what its material bears along it before it crushes or yields, `rated_pull` what it and the fixings of its ends may
    be pulled with.
    """

    one_end: f.Name
    other_end: f.Name
    pulls_only: f.Truth = False
    diameter: f.Length | None = None
    wall: f.Length | None = None
    broad_side: f.Length | None = None
    thin_side: f.Length | None = None
    second_moment: f.SecondMoment | None = None
    area: f.Area | None = None
    modulus: f.Stress | None = None
    strength: f.Stress | None = None
    end_factor: f.ratio(low=0.5, high=10, example="1") | None = None
    rated_pull: f.Force | None = None
    mass: f.Mass | None = None

    @property
    def ends(self) -> tuple[str, str]:
        return self.one_end, self.other_end

    @model_validator(mode="after")
    def _has_one_section(self):
        stated = [
            words
            for words, is_stated in (
                ("a diameter", self.diameter is not None),
                ("two sides", self.broad_side is not None or self.thin_side is not None),
                ("a second moment and an area", self.second_moment is not None or self.area is not None),
            )
            if is_stated
        ]
        if len(stated) > 1:
            raise FieldError(f"its section is stated by {' and by '.join(stated)}", "State it in one way alone.")
        if self.wall is not None and self.diameter is None:
            raise FieldError("a wall is stated without a diameter", 'Write the outer "diameter" of the tube too, such as "48.3 mm".')
        if self.wall is not None and self.wall.value > self.diameter.value / 2 * (1 + f.A_HAIR):
            raise FieldError(
                f'the wall "{self.wall.text}" is more than half of the diameter',
                "Measure both again; leave the wall out where it is solid.",
            )
        if self.broad_side is not None and self.thin_side is not None and self.thin_side.value > self.broad_side.value * (1 + f.A_HAIR):
            raise FieldError("the thin side is the broader one", "Change the two round.")
        return self
