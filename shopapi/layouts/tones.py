"""The tone of boards: the mean colour of their squared photographs, so that like goes with like."""

from collections.abc import Iterable

import numpy as np
from PIL import Image

from shopapi.boards.models import Board, Shot
from shopapi.craft.tone import mean_tone

Tone = tuple[float, float, float]
SAMPLE_PX = 128  # a mean needs no more


def tones_of(boards: Iterable[Board]) -> dict[str, Tone]:
    """L*, a*, b* by board; boards without a squared photograph of face A have none."""
    rows = list(boards)
    if not rows:
        return {}
    shots = Shot.objects.for_workshop(rows[0].workshop_id).filter(board__in=rows, face="A", state=Shot.State.SQUARED)
    newest = {str(shot.board_id): shot for shot in shots.order_by("created_at") if shot.squared.name}
    return {key: _tone(shot) for key, shot in newest.items()}


def _tone(shot: Shot) -> Tone:
    with shot.squared.open("rb") as file, Image.open(file) as picture:
        picture.draft("RGB", (SAMPLE_PX, SAMPLE_PX))  # decodes a fraction of it only
        small = picture.convert("RGB")
        small.thumbnail((SAMPLE_PX, SAMPLE_PX))
        return mean_tone(np.asarray(small))
