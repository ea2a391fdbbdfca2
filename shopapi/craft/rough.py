"""Rough sizes: what to cut from the board so that a part of finished size comes out of it.

Source: COMMON-PRACTICE, no source; the allowances are the maker's own figures.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import Literal

Grain = Literal["length", "width", "any"]


@dataclass(frozen=True)
class Allowances:
    """What milling, squaring and jointing take away. [mm]"""

    length_mm: float
    width_mm: float
    thickness_mm: float
    joint_loss_mm: float

    def __post_init__(self) -> None:
        for name in ("length_mm", "width_mm", "thickness_mm", "joint_loss_mm"):
            value = getattr(self, name)
            if not 0 <= value <= 1000:
                raise ValueError(f"An allowance ({name}) must be from 0 to 1000 mm, not {value}.")


@dataclass(frozen=True)
class RoughSize:
    """A blank as sawn: length along the grain, width across it [whole mm]; how thick the board must be [mm]."""

    length_mm: int
    width_mm: int
    thickness_mm: float
    count: int  # blanks for one finished part: the strips of a panel, else 1 (also where a blank holds several)


def rough_size(
    length_mm: float,
    width_mm: float,
    thickness_mm: float,
    allowances: Allowances,
    *,
    grain: Grain = "length",
    strip_count: int = 1,
    blank_length_mm: float | None = None,
    blank_width_mm: float | None = None,
) -> RoughSize:
    """The blank of a part, or of one strip of a panel.

    length_mm, width_mm, thickness_mm: finished size of the whole part [mm], above 0. grain: the side along which the
    grain runs ("any" counts as "length"). allowances: the maker's own. strip_count: strips of equal width, each
    losing `joint_loss_mm` on both of its edges. blank_length_mm, blank_width_mm: the blank that tapered or curved
    parts are sawn out of once it is milled [mm], lying as the part does; None: as large as the part. Sizes are rounded
    up to whole millimetres, since a blank too small is no blank. Raises ValueError for a size of 0 or less, less than
    one strip, a blank smaller than the part or with one of its sizes only, and a blank for a panel.
    Source: COMMON-PRACTICE, no source.

    >>> rough_size(600, 300, 20, Allowances(25, 6, 5, 3), strip_count=3)
    RoughSize(length_mm=625, width_mm=108, thickness_mm=25, count=3)
    """
    if min(length_mm, width_mm, thickness_mm) <= 0 or strip_count < 1:
        raise ValueError("A part has a length, a width and a thickness above 0, and at least one strip.")
    if (blank_length_mm is None) != (blank_width_mm is None):
        raise ValueError("A blank has a length and a width.")
    if blank_length_mm is not None and blank_width_mm is not None:
        if strip_count != 1:
            raise ValueError("A panel of strips has no blank.")
        if blank_length_mm < length_mm or blank_width_mm < width_mm:
            raise ValueError("A blank is at least as large as one part.")
        length_mm, width_mm = blank_length_mm, blank_width_mm
    along, across = (width_mm, length_mm) if grain == "width" else (length_mm, width_mm)
    strip = (across + allowances.width_mm) / strip_count
    if strip_count > 1:
        strip += 2 * allowances.joint_loss_mm
    return RoughSize(
        length_mm=ceil(round(along + allowances.length_mm, 6)),
        width_mm=ceil(round(strip, 6)),
        thickness_mm=thickness_mm + allowances.thickness_mm,
        count=strip_count,
    )


def blanks_for(pieces: int, holds: int = 1) -> int:
    """How many blanks so many pieces are sawn out of.

    pieces: 0 or more. holds: pieces that come out of one blank, at least 1. Raises ValueError outside of these.
    Source: OWN, a division rounded up.

    >>> blanks_for(5, 2)
    3
    """
    if pieces < 0 or holds < 1:
        raise ValueError("A blank holds at least one piece, and there cannot be fewer pieces than none.")
    return -(-pieces // holds)
