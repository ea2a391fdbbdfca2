"""Works out, and keeps what was worked out."""

import math
from typing import Any

from django.db import transaction

from shopapi.craft.limits import OutOfRangeError
from shopapi.craft.measures import MeasureError
from shopapi.craft.species import UnknownSpeciesError
from shopapi.workings.declare import Line, Table, WorkingKind
from shopapi.workings.given import Given, InputRefusalError, Value, read_inputs
from shopapi.workings.models import Working
from shopapi.workings.selectors import told
from shopapi.workings.spoken import Tape, retold


def work_out(*, kind: WorkingKind, inputs: Any, tape: Tape) -> dict[str, Any]:
    """The answer of a kind to these inputs: what was asked, lines, formula, sources, limits, cautions.

    Raises InputRefusalError naming each field that cannot be worked with.
    """
    values = read_inputs(kind.fields, inputs, tape)
    try:
        found = kind.run(Given(values, tape))
    except (OutOfRangeError, UnknownSpeciesError, MeasureError) as refusal:
        raise InputRefusalError({"": [retold(str(refusal), tape)]}) from refusal
    return {
        **told(kind),
        "inputs": _echo(kind, values),
        "lines": [_line(line) for line in found.lines],
        "table": _table(found.table),
        "method": found.method or kind.formula,
        "cautions": [retold(caution, tape) for caution in found.cautions],
    }


@transaction.atomic
def working_create(*, kind: WorkingKind, inputs: Any, tape: Tape, **fields: Any) -> Working:
    """Keeps an answer with its inputs, as they were read. It is worked out here, whatever a phone showed."""
    values = read_inputs(kind.fields, inputs, tape)
    answer = work_out(kind=kind, inputs=inputs, tape=tape)
    working = Working(kind=kind.key, inputs=values, answer=answer, **fields)
    working.title = working.title or kind.title
    working.full_clean(validate_unique=False)
    working.save(force_insert=True)
    return working


def _echo(kind: WorkingKind, values: dict[str, Value]) -> list[dict[str, Any]]:
    """What was asked, with the labels it was asked under; what was left empty is left out."""
    echoed = []
    for field in kind.fields:
        value = values[field.name]
        if value is None:
            continue
        words = next((choice.word for choice in field.choices if choice.value == value), value)
        is_words = isinstance(value, str)
        echoed.append(
            {
                "name": field.name,
                "label": field.label,
                "kind": "text" if is_words else field.kind,
                "unit": "" if is_words else field.unit,
                "value": None if is_words else value,
                "text": words if is_words else "",
            }
        )
    return echoed


def _line(line: Line) -> dict[str, Any]:
    if line.value is not None and not math.isfinite(line.value):
        raise ValueError(f"{line.label}: {line.value} cannot be told; say it in words.")
    return {
        "label": line.label,
        "kind": line.kind,
        "unit": line.unit,
        "value": line.value,
        "text": line.text,
        "digits": line.digits,
        "fine": line.fine,
        "main": line.main,
    }


def _table(table: Table | None) -> dict[str, Any] | None:
    if table is None:
        return None
    columns = [
        {"label": column.label, "kind": column.kind, "digits": column.digits, "fine": column.fine}
        for column in table.columns
    ]
    return {"columns": columns, "rows": [list(row) for row in table.rows]}
