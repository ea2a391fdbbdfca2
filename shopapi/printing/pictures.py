"""Photographs at the size a printer can show: cropped, shrunk, kept as JPEG."""

from collections.abc import Callable
from functools import lru_cache
from io import BytesIO
from pathlib import Path

from PIL import Image, UnidentifiedImageError
from reportlab.lib.utils import ImageReader

from shopapi.craft.packet import Picture

PRINT_DPI = 220
QUALITY = 86

ReadPicture = Callable[[str], bytes]


class PictureError(ValueError):
    """A photograph that is not there or cannot be read."""


def read_file(path: str) -> bytes:
    """The bytes of a picture kept as a plain file."""
    return Path(path).read_bytes()


class Album:
    """The pictures of one document: each read once, each stretch of it shrunk once."""

    def __init__(self, read: ReadPicture = read_file) -> None:
        self._read = read
        self._open = lru_cache(maxsize=4)(self._opened)
        self._stretches: dict[tuple[Picture, float, float, int], ImageReader] = {}

    def stretch(self, picture: Picture, start: float, end: float, width_pt: float) -> ImageReader:
        """The part of the picture between two shares of its length (0 to 1), fit to be drawn width_pt wide.

        Raises PictureError when it cannot be had.
        """
        pixels = max(1, round(width_pt / 72 * PRINT_DPI))
        key = (picture, start, end, pixels)
        if key not in self._stretches:
            self._stretches[key] = ImageReader(BytesIO(self._shrunk(picture, start, end, pixels)))
        return self._stretches[key]

    def _shrunk(self, picture: Picture, start: float, end: float, pixels: int) -> bytes:
        image = self._open(picture)
        left, right = round(start * image.width), max(round(start * image.width) + 1, round(end * image.width))
        image = image.crop((left, 0, right, image.height))
        if image.width > pixels:
            image = image.resize((pixels, max(1, round(image.height * pixels / image.width))), Image.Resampling.LANCZOS)
        out = BytesIO()
        image.save(out, "JPEG", quality=QUALITY, optimize=True)
        return out.getvalue()

    def _opened(self, picture: Picture) -> Image.Image:
        try:
            content = picture.content or self._read(picture.path)
            with Image.open(BytesIO(content)) as image:
                return image.convert("RGB")
        except (OSError, UnidentifiedImageError, ValueError, Image.DecompressionBombError) as error:
            raise PictureError(f"The picture {picture.path} cannot be read: {error}") from error
