"""Suggested marks: dark knots, checks from the ends, wane."""

from dataclasses import dataclass

from shopapi.craft.limits import require_more_than_zero
from shopapi.craft.marks import Shape, bounds
from shopapi.craft.rectify.warp import Picture, check_picture
from shopapi.craft.suggest.darkness import read_wood
from shopapi.craft.suggest.flaws import Found, SuggestedKind, checks, knots, wane

_LEAST_SCORE = 0.3
_MOST = 60


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
    check_picture(squared)
    require_more_than_zero("Millimetres per pixel", mm_per_px, 50, "mm")
    wood = read_wood(squared, mm_per_px)
    edges, bark = wane(wood)
    cracks, cracked = checks(wood, bark)
    found = [*edges, *cracks, *knots(wood, bark | cracked)]
    kept = sorted((each for each in found if each.strength >= _LEAST_SCORE), key=lambda each: -each.strength)
    return tuple(Suggestion(_key(each), each.kind, each.shape, round(each.strength, 2)) for each in kept[:_MOST])


def _key(found: Found) -> str:
    """Its kind and whereabouts to 5 mm, so that a dismissed suggestion stays dismissed when the face is drawn anew."""
    around = bounds(found.shape)
    middle = ((around.x0_mm + around.x1_mm) / 2, (around.y0_mm + around.y1_mm) / 2)
    return f"{found.kind}-{round(middle[0] / 5) * 5}-{round(middle[1] / 5) * 5}"
