"""Reads: the kinds of working there are, as a workshop is asked them."""

from typing import Any

from shopapi.craft.sources import source
from shopapi.workings.declare import Field, WorkingKind
from shopapi.workings.kinds import KINDS
from shopapi.workings.spoken import Tape
from shopapi.workshops.models import Workshop


def kind_named(key: str) -> WorkingKind | None:
    return KINDS.get(key)


def tape_of(workshop: Workshop) -> Tape:
    return Tape("inch" if workshop.units == Workshop.Units.INCH else "metric", workshop.inch_denominator)


def kinds_for(workshop: Workshop) -> list[dict[str, Any]]:
    """Every kind with its fields; defaults are round numbers in the workshop's own units."""
    inch = workshop.units == Workshop.Units.INCH
    return [{**told(kind), "fields": [_field(field, inch=inch) for field in kind.fields]} for kind in KINDS.values()]


def told(kind: WorkingKind) -> dict[str, Any]:
    """What stands beside every answer of a kind."""
    return {
        "key": kind.key,
        "family": kind.family,
        "title": kind.title,
        "purpose": kind.purpose,
        "formula": kind.formula,
        "sources": [
            {
                "key": cited.key,
                "place": cited.place,
                "title": source(cited.key).title,
                "standing": source(cited.key).standing,
                "note": source(cited.key).note,
            }
            for cited in kind.cited
        ],
        "limits": kind.limits,
    }


def _field(field: Field, *, inch: bool) -> dict[str, Any]:
    return {
        "name": field.name,
        "label": field.label,
        "kind": field.kind,
        "unit": field.unit,
        "default": field.default_for(inch=inch),
        "least": field.least,
        "most": field.most,
        "zero_ok": field.zero_ok,
        "whole": field.whole,
        "need": field.need,
        "hint": field.hint,
        "choices": [{"value": choice.value, "word": choice.word} for choice in field.choices],
    }
