"""Photographs: taking one in whatever way the phone sent it, and squaring it to its board."""

from shopapi.boards.photographs.intake import (
    GREATEST_BYTES,
    GREATEST_MEGAPIXELS,
    PREVIEW_PX,
    Intake,
    PhotoError,
    Received,
    Upright,
    digest_of,
    read_upload,
    receive,
    stand_upright,
)
from shopapi.boards.photographs.squared import CutOut, SquaredPhoto, checked_corners, cut_out, square_photo

__all__ = [
    "GREATEST_BYTES",
    "GREATEST_MEGAPIXELS",
    "PREVIEW_PX",
    "CutOut",
    "Intake",
    "PhotoError",
    "Received",
    "SquaredPhoto",
    "Upright",
    "checked_corners",
    "cut_out",
    "digest_of",
    "read_upload",
    "receive",
    "square_photo",
    "stand_upright",
]
