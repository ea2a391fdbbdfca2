"""Reading rack instances and writing answers as plain JSON data.

An instance lists boards with rectangular defects (each blocks everything) and parts at their finished size; the
allowance makes rough sizes of them. Other programs may send flaws that block only show faces: `faces` and `blocks`
of a defect, `clean_faces` and `any_grain` of a part are read where present.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from shopapi.craft.layout.model import Answer, Flaw, LayoutError, Problem, Rules, Stock, Wanted

CUT_TYPES = {"exact": "exact", "trimmed": "trimmed", "non-exact": "trimmed"}


def _field(row: Mapping[str, Any], name: str, what: str) -> Any:
    if name not in row:
        raise LayoutError(f"{what} has no {name!r}.")
    return row[name]


def _mapping(value: object, what: str) -> Mapping[str, Any]:
    if not isinstance(value, Mapping):
        raise LayoutError(f"{what} must be an object with named fields, not {type(value).__name__}.")
    return value


def _rows(data: Mapping[str, Any], name: str, what: str) -> list[Mapping[str, Any]]:
    rows = _field(data, name, what)
    if not isinstance(rows, list):
        raise LayoutError(f"{name!r} must be a list.")
    return [_mapping(row, f"{what}: entry {n + 1} of {name!r}") for n, row in enumerate(rows)]


def _sum(a: object, b: object, what: str) -> int:
    if not isinstance(a, int) or not isinstance(b, int):
        raise LayoutError(f"{what} must be a whole number of millimetres.")
    return a + b


def read_instance(data: object) -> Problem:
    """The problem that an instance states.

    Raises LayoutError naming the field that is missing or wrong.
    """
    instance = _mapping(data, "The instance")
    allowance = _mapping(instance.get("allowance") or {}, "'allowance'")
    extra_length, extra_width = allowance.get("length", 0), allowance.get("width", 0)
    stocks = [_stock(row) for row in _rows(instance, "boards", "The instance")]
    wanted = []
    for row in _rows(instance, "parts", "The instance"):
        name = str(_field(row, "id", "A part"))
        length, width = _field(row, "length", f"Part {name}"), _field(row, "width", f"Part {name}")
        wanted.append(
            Wanted(
                id=name,
                length=_sum(length, extra_length, f"Part {name}: length"),
                width=_sum(width, extra_width, f"Part {name}: width"),
                quantity=_field(row, "qty", f"Part {name}"),
                value=_field(row, "value", f"Part {name}"),
                clean_faces=row.get("clean_faces", "both"),
                any_grain=bool(row.get("any_grain", instance.get("rotation", False))),
            )
        )
    return Problem(tuple(stocks), tuple(wanted), _rules(instance))


def _stock(row: Mapping[str, Any]) -> Stock:
    name = str(_field(row, "id", "A board"))
    flaws = []
    for defect in _rows({"defects": row.get("defects", [])}, "defects", f"Board {name}"):
        x, y, length, width = (_field(defect, side, f"A defect of board {name}") for side in ("x", "y", "w", "h"))
        flaws.append(Flaw(x, y, length, width, frozenset(defect.get("faces", "AB")), defect.get("blocks", "all")))
    return Stock(name, _field(row, "length", f"Board {name}"), _field(row, "width", f"Board {name}"), tuple(flaws))


def _rules(instance: Mapping[str, Any]) -> Rules:
    trims = _mapping(instance.get("trims") or {}, "'trims'")
    cut_type = instance.get("cut_type", "exact")
    if cut_type not in CUT_TYPES:
        raise LayoutError(f"'cut_type' must be one of {', '.join(CUT_TYPES)}, not {cut_type!r}.")
    if instance.get("cut_through_defects", True) is not True:
        raise LayoutError("Layouts whose cuts may not pass through a defect cannot be worked out.")
    return Rules(
        kerf=_field(instance, "kerf", "The instance"),
        trim_left=trims.get("left", 0),
        trim_right=trims.get("right", 0),
        trim_bottom=trims.get("bottom", 0),
        trim_top=trims.get("top", 0),
        cut_type=CUT_TYPES[cut_type],
        stages=instance.get("stages", 3),
        first_cut=instance.get("first_cut", "crosscut"),
    )


def write_answer(answer: Answer) -> dict[str, Any]:
    """The answer as JSON data: value, bound, proved_best, seconds, placements, cuts by board, unplaced."""
    return {
        "value": answer.value,
        "bound": answer.bound,
        "proved_best": answer.proved_best,
        "bound_covers": answer.bound_covers,
        "seconds": round(answer.seconds, 2),
        "placements": [
            {
                "board": p.stock,
                "part": p.wanted,
                "x": p.x,
                "y": p.y,
                "length": p.length,
                "width": p.width,
                "face": p.face,
            }
            for p in answer.placements
        ],
        "cuts": answer.cuts,
        "unplaced": [{"part": u.wanted, "count": u.count, "reason": u.reason} for u in answer.unplaced],
    }
