"""What a field of choice offers: the names of the catalogues, and those of the rig's own parts."""

from __future__ import annotations

from rigcheck.parts.basis import bases
from rigcheck.parts.end_fitting import end_fittings
from rigcheck.parts.fibre_rope import fibre_materials
from rigcheck.parts.sheave_rule import sheave_rules
from rigcheck.parts.wire_rope import constructions, grades
from rigcheck.report.model_fields import CHOICE, ModelField
from rigcheck.ui.draft import Draft, Path


def offers(draft: Draft, model: str, path: Path, field: ModelField) -> list[str] | None:
    """The options of a field, None where it is typed."""
    if field.kind == CHOICE:
        return list(field.choices)
    match model, field.name:
        case "Rope", "construction":
            return [each.name for each in constructions()]
        case "Rope", "material":
            return fibre_materials()
        case "Rope", "grade":
            return [f"{each.name} N/mm²" for each in grades()]
        case "MadeFast", "fitting":
            kind = draft.at((*path[:2], "kind"))
            return end_fittings(kind) if kind in ("steel", "fibre") else []
        case "MadeFast", "made_fast_to":
            return [*(draft.at(("points",)) or {}), *(draft.at(("bodies",)) or {})]
        case "MadeFast", "pick":
            return list(draft.at(("bodies", draft.at((*path, "made_fast_to")), "picks")) or {})
        case "Strut", "one_end" | "other_end":
            return list(draft.at(("points",)) or {})
        case "Drum", "bolted_to":
            return [name for name, strut in (draft.at(("struts",)) or {}).items() if not strut.get("pulls_only")]
        case "Sheave", "on":
            return [*(draft.at(("points",)) or {}), *(draft.at(("bodies",)) or {})]
        case "Carried", "by":
            return [name for name in (draft.at(("bodies",)) or {}) if name != path[1]]
        case "Over", "over":
            return list(draft.at(("sheaves",)) or {})
        case "Demands", "factors":
            return [each.slug for each in bases()]
        case "Demands", "sheave_rule":
            return sheave_rules()
    return None
