"""What a face offers: its clear share and its largest clear rectangles, from the marks that are seen on it."""

from collections.abc import Iterable
from dataclasses import dataclass

from shopapi.craft.clear_area.rectangles import clear_rectangles, clear_share
from shopapi.craft.grading.marking import Face, GradeMark
from shopapi.craft.grading.rules import NOT_CLEAR
from shopapi.craft.marks import Rect


@dataclass(frozen=True)
class ClearFace:
    """clear_share: 0 to 1, by the flaws' true shapes. rectangles: the largest clear one, then the largest in what is
    left, and so on, in board mm."""

    clear_share: float
    rectangles: tuple[Rect, ...]


def clear_face(
    length_mm: float, width_mm: float, marks: Iterable[GradeMark], face: Face, *, most: int = 5
) -> ClearFace:
    """The clear wood of one face, with the same flaws left out as in grading: sapwood, figure and snipe count as clear.

    Args: length_mm, width_mm, the board's [mm]; marks on either face, in face A's coordinates; face, "A" or "B";
    most, how many rectangles at most. Errors: OutOfRangeError.
    Source: OWN, rectangles and share of the marks' shapes.

    >>> clear_face(1000, 100, [], "A").clear_share
    1.0
    """
    flaws = [mark.shape for mark in marks if mark.kind in NOT_CLEAR and mark.seen_on(face)]
    return ClearFace(clear_share(length_mm, width_mm, flaws), clear_rectangles(length_mm, width_mm, flaws, most=most))
