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
from shopapi.boards.photographs.joined import JoinedFace, Shown, join_face, suggestions_for
from shopapi.boards.photographs.proposed import Proposed, propose
from shopapi.boards.photographs.squared import (
    CutOut,
    ReferencePoint,
    SquaredPhoto,
    checked_corners,
    checked_points,
    cut_out,
    square_photo,
    square_stretch,
)

__all__ = [
    "GREATEST_BYTES",
    "GREATEST_MEGAPIXELS",
    "PREVIEW_PX",
    "CutOut",
    "Intake",
    "JoinedFace",
    "PhotoError",
    "Proposed",
    "Received",
    "ReferencePoint",
    "Shown",
    "SquaredPhoto",
    "Upright",
    "checked_corners",
    "checked_points",
    "cut_out",
    "digest_of",
    "join_face",
    "propose",
    "read_upload",
    "receive",
    "square_photo",
    "square_stretch",
    "stand_upright",
    "suggestions_for",
]
