"""Hardwood grade of a board by the clear-face rules, with the cuttings that prove it."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from shopapi.craft.grading.clear import Box, maximal_clear_boxes
from shopapi.craft.grading.cuttings import find_cuttings
from shopapi.craft.grading.limits_of_fas import fas_faults
from shopapi.craft.grading.marking import Face, GradeMark
from shopapi.craft.grading.rules import (
    FAS,
    LEAST_BOARD,
    NOT_CLEAR,
    NOT_SOUND,
    ONE_COMMON,
    TWO_A_COMMON,
    UNIT_MM2,
    Rule,
)
from shopapi.craft.limits import OutOfRangeError, require_more_than_zero
from shopapi.craft.marks import KINDS
from shopapi.craft.measures import MM_PER_FOOT, MM_PER_INCH, surface_measure

Grade = Literal["FAS", "F1F", "Selects", "1 Common", "2A Common", "below 2A Common"]
FaceResult = Literal["FAS", "1 Common", "2A Common", "below 2A Common"]

_ORDER: tuple[FaceResult, ...] = ("below 2A Common", "2A Common", "1 Common", "FAS")
# A board stored to the millimetre may be half a millimetre short of its inch or foot.
_STORED_TO_MM = 0.5
_LEAST_LENGTH_MM, _LEAST_WIDTH_MM = 2 * MM_PER_FOOT, 3 * MM_PER_INCH
_CAUTIONS = (
    "An estimate from the marks drawn: unmarked flaws lower it, and only an inspector's grade counts in a sale.",
    "Walnut, cherry, alder and some others have rules of their own.",
)


@dataclass(frozen=True)
class FaceGrade:
    """One face: the best grade its clear wood reaches, the cuttings that prove it, and why no better one.

    `cuttings` are rectangles (x0, y0, x1, y1) [mm]; units are inches x feet. `proved` is False only where the search
    for a better grade gave up, so that the face may be better than said.
    """

    grade: FaceResult
    cuttings: tuple[Box, ...]
    units_found: float
    units_needed: float
    cuts_allowed: int
    why_not_better: tuple[str, ...]
    proved: bool


@dataclass(frozen=True)
class Grading:
    """A board's grade with its surface measure [sq ft], both faces, and what to say beside it."""

    grade: Grade
    surface_measure_sqft: int
    face_a: FaceGrade
    face_b: FaceGrade
    why_not_better: tuple[str, ...]
    proved: bool
    cautions: tuple[str, ...]

    @property
    def poorer_face(self) -> Face:
        """The face that decides; of two alike, face A."""
        return "B" if _ORDER.index(self.face_b.grade) < _ORDER.index(self.face_a.grade) else "A"


@dataclass(frozen=True)
class _Face:
    length_mm: float
    width_mm: float
    measure: int
    seen: tuple[GradeMark, ...]
    blocked: tuple[Box, ...]


def grade(length_mm: float, width_mm: float, marks: Iterable[GradeMark] = ()) -> Grading:
    """Hardwood grade of a rough board from its size and marks, with the cuttings that prove it.

    length_mm, width_mm: rough size [mm], more than 0, up to 20 m and 2 m. marks: on either face, in face A's
    coordinates. The poorer face decides, except F1F and Selects (better face FAS, poorer 1 Common). Cuttings are
    found by exact search; a board whose search gave up has `proved=False`. Raises OutOfRangeError, also for an unknown
    kind of mark.
    Source: LUMBER-RULES, standard grades (secondary copies of the charts; soundness of the reverse side from memory).

    >>> grade(8 * 304.8, 6 * 25.4).grade
    'FAS'
    """
    require_more_than_zero("Length", length_mm, 20_000, "mm")
    require_more_than_zero("Width", width_mm, 2_000, "mm")
    noted = tuple(marks)
    for mark in noted:
        if mark.kind not in KINDS:
            raise OutOfRangeError(f'"{mark.kind}" is no kind of mark. Known: {", ".join(KINDS)}.')
    measure = surface_measure(length_mm, width_mm)
    a, b = (_grade_face(_face(length_mm, width_mm, measure, noted, face)) for face in ("A", "B"))
    best, why = _whole_board(length_mm, width_mm, a, b)
    return Grading(best, measure, a, b, why, a.proved and b.proved, _CAUTIONS)


def _face(length_mm: float, width_mm: float, measure: int, marks: tuple[GradeMark, ...], face: Face) -> _Face:
    seen = tuple(mark for mark in marks if mark.seen_on(face))
    blocked = [mark.box for mark in seen if mark.kind in NOT_CLEAR]
    # The reverse side of a cutting must be sound.
    blocked += [mark.box for mark in marks if not mark.seen_on(face) and mark.kind in NOT_SOUND]
    return _Face(length_mm, width_mm, measure, seen, tuple(blocked))


def _grade_face(face: _Face) -> FaceGrade:
    """The best of FAS, 1 Common and 2A Common that the face's yield reaches; board sizes come later."""
    boxes = maximal_clear_boxes(face.length_mm, face.width_mm, face.blocked, (0, 0, _LEAST_LENGTH_MM, _LEAST_WIDTH_MM))
    why: list[str] = []
    proved = True
    faults = fas_faults(face.length_mm, face.width_mm, face.measure, face.seen)
    why += [f"FAS: {fault}" for fault in faults]
    for rule in (FAS, ONE_COMMON, TWO_A_COMMON):
        if rule is FAS and faults:
            continue
        reached = _special(face, rule) or _by_cuttings(face, rule, boxes)
        if isinstance(reached, tuple):
            allowed, needed, cuttings = reached
            units = sum(map(_units, cuttings))
            return FaceGrade(rule.grade, cuttings, units, needed, allowed, tuple(why), proved)  # type: ignore[arg-type]
        proved = proved and reached
        allowed, needed = rule.offers(face.measure)[0]
        why.append(f"{rule.grade}: {allowed} clear cuttings do not reach {needed:g} units")
    return FaceGrade("below 2A Common", (), 0.0, 0.0, 0, tuple(why), proved)


def _by_cuttings(face: _Face, rule: Rule, boxes: list[Box]) -> tuple[int, float, tuple[Box, ...]] | bool:
    """(cuttings allowed, units needed, cuttings), or whether it is proved that there are none."""
    proved = True
    for allowed, needed in rule.offers(face.measure):
        if allowed < 1 or needed <= 0:
            continue
        found = find_cuttings(boxes, allowed, needed * UNIT_MM2, rule.sizes_mm)
        if found.boxes:
            return allowed, needed, found.boxes
        proved = proved and found.proved
    return proved


def _special(face: _Face, rule: Rule) -> tuple[int, float, tuple[Box, ...]] | None:
    """Rules outside the table: FAS and Selects of few or full-width cuttings, and boards of 1 and 2 surface measure."""
    measure = face.measure
    whole = (0.0, 0.0, face.length_mm, face.width_mm)
    if rule is FAS and 6 <= measure <= 12 and face.width_mm + _STORED_TO_MM >= 6 * MM_PER_INCH:
        # 97 % in two cuttings of the full width and any length.
        stretches = maximal_clear_boxes(face.length_mm, face.width_mm, face.blocked, (0, 0, 1.0, face.width_mm))
        best = tuple(sorted(stretches, key=_units, reverse=True)[:2])
        if sum(map(_units, best)) >= 11.64 * measure - 1e-9:
            return 2, 11.64 * measure, best
    if rule is FAS and measure in (2, 3):
        # Selects only: all clear, or 11/12 in one cutting.
        return _whole_or_one(face, 11.0 * measure, whole, rule)
    if rule is ONE_COMMON and measure == 1:
        return (1, 12.0, (whole,)) if not face.blocked else None
    if rule is ONE_COMMON and measure == 2:
        return _whole_or_one(face, 9.0 * measure, whole, rule)
    if rule is TWO_A_COMMON and measure == 1:
        return _whole_or_one(face, 8.0, whole, rule)
    return None


def _whole_or_one(face: _Face, needed: float, whole: Box, rule: Rule) -> tuple[int, float, tuple[Box, ...]] | None:
    if not face.blocked:
        return 1, needed, (whole,)
    boxes = maximal_clear_boxes(face.length_mm, face.width_mm, face.blocked, (0, 0, _LEAST_LENGTH_MM, _LEAST_WIDTH_MM))
    sizes = rule.sizes_mm if rule is not FAS else ONE_COMMON.sizes_mm
    found = find_cuttings(boxes, 1, needed * UNIT_MM2, sizes)
    return (1, needed, found.boxes) if found.boxes else None


def _whole_board(length_mm: float, width_mm: float, a: FaceGrade, b: FaceGrade) -> tuple[Grade, tuple[str, ...]]:
    """The poorer face decides, except F1F and Selects; each grade asks a least board."""
    poorer, better = sorted((a, b), key=lambda face: _ORDER.index(face.grade))
    why = [*poorer.why_not_better]
    candidates: list[tuple[Grade, bool]] = [
        ("FAS", poorer.grade == "FAS"),
        ("F1F", better.grade == "FAS" and _at_least(poorer, "1 Common")),
        ("Selects", better.grade == "FAS" and _at_least(poorer, "1 Common")),
        ("1 Common", _at_least(poorer, "1 Common")),
        ("2A Common", _at_least(poorer, "2A Common")),
    ]
    for name, reached in candidates:
        width_in, length_ft = LEAST_BOARD[name]
        wide = width_mm + _STORED_TO_MM >= width_in * MM_PER_INCH
        long = length_mm + _STORED_TO_MM >= length_ft * MM_PER_FOOT
        if reached and wide and long and not (name in ("FAS", "F1F") and _below_fas_measure(length_mm, width_mm)):
            return name, tuple(dict.fromkeys(why))
        if reached:
            why.append(f"{name}: the board is smaller than {width_in} in x {length_ft} ft")
    return "below 2A Common", tuple(dict.fromkeys(why))


def _below_fas_measure(length_mm: float, width_mm: float) -> bool:
    """The special rule for 2 and 3 surface measure makes Selects, never FAS."""
    return surface_measure(length_mm, width_mm) < 4


def _at_least(face: FaceGrade, grade: FaceResult) -> bool:
    return _ORDER.index(face.grade) >= _ORDER.index(grade)


def _units(box: Box) -> float:
    return (box[2] - box[0]) * (box[3] - box[1]) / UNIT_MM2
