"""Photographs: taking one in whatever way the phone sent it, and squaring it to its board."""

from shopapi.boards.photographs.intake import (
    GREATEST_BYTES,
    GREATEST_MEGAPIXELS,
    PREVIEW_PX,
    Intake,
    PhotoError,
    digest_of,
    read_upload,
)
from shopapi.boards.photographs.squared import CutOut, SquaredPhoto, cut_out, square_photo

__all__ = [
    "GREATEST_BYTES",
    "GREATEST_MEGAPIXELS",
    "PREVIEW_PX",
    "CutOut",
    "Intake",
    "PhotoError",
    "SquaredPhoto",
    "cut_out",
    "digest_of",
    "read_upload",
    "square_photo",
]
