"""Suggested marks: dark knots, checks from the ends, wane."""

from dataclasses import dataclass
from typing import Literal

from shopapi.craft.marks import Shape
from shopapi.craft.rectify.warp import Picture

SuggestedKind = Literal["knot", "check", "wane"]


@dataclass(frozen=True)
class Suggestion:
    """A mark the picture suggests.

    kind: a key of craft.marks.KINDS. shape: in board millimetres of the face as seen in the picture (x from its left
    side, y up from its lower side). score: 0 to 1, how strongly. key: the same again for the same picture.
    """

    key: str
    kind: SuggestedKind
    shape: Shape
    score: float


def suggest_marks(squared: Picture, mm_per_px: float) -> tuple[Suggestion, ...]:
    """Suggest marks from a squared picture, the strongest first.

    Args: squared (H, W, 3) 8 bit BGR; mm_per_px [mm]. Errors: PictureError. Source: OWN.
    """
    raise NotImplementedError
