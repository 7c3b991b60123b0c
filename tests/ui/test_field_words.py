"""Every field of the model has words of its own, a unit of its own kind, and an offer where a catalogue answers."""

from __future__ import annotations

import pytest

from rigcheck import units
from rigcheck.report.field_words import listed, words_for
from rigcheck.report.model_fields import NAMED_PARTS, NUMBER, PART, PARTS, PLACE, QUANTITY, fields_of
from rigcheck.rig import examples, model
from rigcheck.ui import draft as drafts
from rigcheck.ui.offers import offers
from rigcheck.ui.typed import with_unit

FORMS = [form for form in vars(model).values() if isinstance(form, type) and issubclass(form, model.Part) and form is not model.Part]
FIELDS = [(form, field) for form in FORMS for field in fields_of(form) if field.kind not in (PART, PARTS, NAMED_PARTS)]


def test_no_words_are_left_for_a_field_that_is_gone():
    assert listed() <= {(form.__name__, field.name) for form, field in FIELDS}


@pytest.mark.parametrize(
    "form, field", [pair for pair in FIELDS if pair[1].kind == QUANTITY], ids=lambda v: getattr(v, "__name__", getattr(v, "name", ""))
)
def test_the_unit_in_a_label_is_of_the_kind_of_its_field(form, field):
    kinds = {field.quantity_kind, "mass"} if field.name == "rated_load" else {field.quantity_kind}  # blocks are stamped in kilograms
    assert kinds & set(units.kind_of_unit(words_for(form.__name__, field).unit))


def test_a_rated_load_that_is_typed_bare_is_the_lesser_of_the_two_it_could_be():
    field = next(field for field in fields_of(model.Sheave) if field.name == "rated_load")
    typed = with_unit("400", words_for("Sheave", field).unit)
    draft = drafts.of_rig(examples.example("found-winch"), "an example").edited(("sheaves", "head sheave", "rated_load"), typed)
    rated = draft.read()[0].sheaves["head sheave"].rated_load
    assert (rated.kind, rated.value) == ("mass", 400)


@pytest.mark.parametrize(
    "form, field", [pair for pair in FIELDS if pair[1].kind == NUMBER], ids=lambda v: getattr(v, "__name__", getattr(v, "name", ""))
)
def test_a_plain_number_has_no_unit(form, field):
    assert words_for(form.__name__, field).unit == ""


def test_places_are_in_metres():
    assert {words_for(form.__name__, field).unit for form, field in FIELDS if field.kind == PLACE} == {"m"}


def test_a_rope_is_offered_only_the_ends_of_its_own_kind():
    draft = drafts.of_rig(examples.example("tired-hoist"), "an example")
    fitting = next(field for field in fields_of(model.MadeFast) if field.name == "fitting")
    assert "bowline" in offers(draft, "MadeFast", ("ropes", "hoist rope", "path", 0), fitting)
    steel = draft.edited(("ropes", "hoist rope", "kind"), "steel")
    assert "bowline" not in offers(steel, "MadeFast", ("ropes", "hoist rope", "path", 0), fitting)
