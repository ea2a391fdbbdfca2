"""Routes of the rack."""

from shopapi.boards.api.boards import BoardSerializer, BoardViewSet, ReadingSerializer, ReadingViewSet
from shopapi.boards.api.faces import FacePictureSerializer, FacePictureViewSet
from shopapi.boards.api.scale_card import ScaleCardView
from shopapi.boards.api.shots import ShotSerializer, ShotViewSet

__all__ = [
    "BoardSerializer",
    "BoardViewSet",
    "FacePictureSerializer",
    "FacePictureViewSet",
    "ReadingSerializer",
    "ReadingViewSet",
    "ScaleCardView",
    "ShotSerializer",
    "ShotViewSet",
]
