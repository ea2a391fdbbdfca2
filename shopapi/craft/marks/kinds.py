"""Kinds of mark, how each is drawn and what it usually keeps away. Common practice, no source."""

from dataclasses import dataclass
from typing import Literal

from shopapi.craft.marks.shapes import MarkError

ShapeType = Literal["ellipse", "line", "outline"]
Blocks = Literal["all", "show", "none"]

BLOCKS: tuple[Blocks, ...] = ("all", "show", "none")


@dataclass(frozen=True)
class Kind:
    """One kind of mark.

    shape: the shape a new mark of this kind starts with.
    blocks: whether it keeps off every part ("all"), parts that would show it ("show") or none ("none").
    margin_mm: wood beside the mark that is spoilt with it (short grain around a knot, a check's unseen end) [mm].
    through: whether it usually goes through to the other face.
    """

    key: str
    label: str
    shape: ShapeType
    blocks: Blocks
    margin_mm: float
    through: bool = False


KINDS: dict[str, Kind] = {
    kind.key: kind
    for kind in (
        Kind("knot", "Knot", "ellipse", "all", 6.0, through=True),
        Kind("check", "Check", "line", "all", 3.0),
        Kind("split", "Split", "line", "all", 10.0, through=True),
        Kind("wane", "Wane", "outline", "all", 2.0),
        Kind("sapwood", "Sapwood", "outline", "show", 0.0),
        Kind("bark_pocket", "Bark pocket", "ellipse", "all", 3.0),
        Kind("worm_holes", "Worm holes", "ellipse", "show", 2.0),
        Kind("pitch", "Pitch", "ellipse", "show", 2.0),
        Kind("stain", "Stain", "outline", "show", 0.0),
        Kind("pith", "Pith", "line", "all", 5.0),
        Kind("snipe", "Snipe", "outline", "all", 0.0),
        Kind("other", "Other", "ellipse", "all", 0.0),
        Kind("figure", "Prized figure", "outline", "none", 0.0),
    )
}


def kind_of(key: str) -> Kind:
    """The kind of that name; MarkError names the ones there are.
    Source: OWN, kinds of mark; margins are common practice.

    >>> kind_of("knot").label
    'Knot'
    """
    if key not in KINDS:
        raise MarkError(f"“{key}” is no kind of mark. Use one of: {', '.join(KINDS)}.")
    return KINDS[key]
