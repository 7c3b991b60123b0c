"""What every part of a rig has in common: it is frozen, refuses keys it does not know, and may say where its values come from."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict, model_validator

from rigcheck.rig import keys
from rigcheck.rig.fields import FieldError


class Part(BaseModel):
    """Anything with its own form: it may carry notes by field, saying where a value comes from."""

    model_config = ConfigDict(frozen=True, extra="forbid", validate_default=True)
    notes: dict[str, str] = {}

    @model_validator(mode="before")
    @classmethod
    def _keys_are_known(cls, given):
        if isinstance(given, dict):
            keys.check(cls, given)
        return given

    @model_validator(mode="after")
    def _notes_name_fields(self):
        for name, text in self.notes.items():
            if name not in type(self).model_fields or name == "notes":
                raise FieldError(
                    f'the note "{name}" names no field of this part',
                    f"Fields: {', '.join(n for n in type(self).model_fields if n != 'notes')}.",
                )
            if len(text) > 400:
                raise FieldError(f'the note on "{name}" has {len(text)} characters', "Keep a note to 400 characters.")
        return self
