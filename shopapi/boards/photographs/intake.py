"""From an uploaded file to an upright photograph, a preview and an original without its place."""

import hashlib
import io
import warnings
from dataclasses import dataclass
from typing import BinaryIO

import pillow_heif
from PIL import Image, ImageOps

from shopapi.boards.photographs.metadata import kept_exif, without_place

pillow_heif.register_heif_opener()

GREATEST_BYTES = 40 * 1024 * 1024
GREATEST_MEGAPIXELS = 80
LEAST_SIDE_PX = 32
PREVIEW_PX = 1600

_FORMATS = {"JPEG": ("image/jpeg", "jpg"), "PNG": ("image/png", "png"), "WEBP": ("image/webp", "webp")}
_FORMATS |= {"MPO": _FORMATS["JPEG"], "HEIF": ("image/heic", "heic")}
_OPENERS = ("JPEG", "PNG", "WEBP", "HEIF")
_ACCEPTED = "JPEG, PNG, WebP and HEIC work."
# What the decoders raise for files that end early, lie about themselves or unpack to more than they say.
_BROKEN = (OSError, SyntaxError, ValueError, EOFError, RuntimeError, MemoryError, Image.DecompressionBombError)


class PhotoError(ValueError):
    """A file that cannot be used as a photograph; the message is meant for the maker."""


@dataclass(frozen=True)
class Intake:
    """A photograph as it is kept.

    original: the file as it came, its pixels untouched, place and maker's notes removed from its metadata.
    original_type, suffix: media type and file ending of `original`.
    upright: JPEG, turned upright; the pixels that corners are given in. The original itself where that is one already.
    width_px, height_px: of `upright`.
    preview: upright JPEG, long side 1600 px at most.
    sha256: of the file as it came, to know it again.
    """

    original: bytes
    original_type: str
    suffix: str
    upright: bytes
    width_px: int
    height_px: int
    preview: bytes
    preview_width_px: int
    preview_height_px: int
    sha256: str


def read_upload(file: BinaryIO | bytes) -> Intake:
    """Take in a photograph; PhotoError where the file is none, is broken, or is bigger than would help."""
    data = _bytes_of(file)
    image = _opened(data)
    media_type, suffix = _FORMATS[image.format or ""]
    exif = kept_exif(image)
    icc = image.info.get("icc_profile")
    upright_already = suffix == "jpg" and image.getexif().get(0x0112, 1) == 1 and image.mode in ("RGB", "L")
    picture = _decoded(image)
    original = without_place(data, suffix, exif)
    if original is None:  # a container we cannot clean: keep the pixels, drop the rest
        original, media_type, suffix = _jpeg(picture, 97, icc), "image/jpeg", "jpg"
    upright = original if upright_already else _jpeg(picture, 92, icc)
    width, height = picture.size
    picture.thumbnail((PREVIEW_PX, PREVIEW_PX), Image.Resampling.BICUBIC, reducing_gap=2.0)
    return Intake(
        original=original,
        original_type=media_type,
        suffix=suffix,
        upright=upright,
        width_px=width,
        height_px=height,
        preview=_jpeg(picture, 84, icc),
        preview_width_px=picture.width,
        preview_height_px=picture.height,
        sha256=hashlib.sha256(data).hexdigest(),
    )


def digest_of(file: BinaryIO) -> str:
    """`Intake.sha256` of a file without taking it in; the file is wound back."""
    digest = hashlib.sha256(file.read(GREATEST_BYTES + 1)).hexdigest()
    file.seek(0)
    return digest


def _bytes_of(file: BinaryIO | bytes) -> bytes:
    # One byte more than allowed is enough to know that a file is too big.
    data = file if isinstance(file, bytes) else file.read(GREATEST_BYTES + 1)
    if not data:
        raise PhotoError("The file is empty. Take the photo again, or choose another one.")
    if len(data) > GREATEST_BYTES:
        raise PhotoError(
            f"The photo is bigger than {GREATEST_BYTES // 2**20} MB. "
            "Set the camera to about 12 megapixels, or save it as JPEG."
        )
    return data


def _opened(data: bytes) -> Image.Image:
    """The image with only its header read, so that a small file cannot unpack to fill the memory."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            image = Image.open(io.BytesIO(data), formats=_OPENERS)
    except Image.DecompressionBombError:
        raise _too_many_pixels("far more") from None
    except _BROKEN:
        raise PhotoError(f"This file is not a photograph that can be read. {_ACCEPTED}") from None
    megapixels = image.width * image.height / 1e6
    if megapixels > GREATEST_MEGAPIXELS:
        raise _too_many_pixels(f"{megapixels:.0f}")
    if min(image.size) < LEAST_SIDE_PX:
        raise PhotoError(
            f"The picture is only {image.width} x {image.height} pixels. A photo from the phone's camera would work."
        )
    return image


def _too_many_pixels(megapixels: str) -> PhotoError:
    return PhotoError(
        f"The photo has {megapixels} megapixels; {GREATEST_MEGAPIXELS} at most can be read. "
        "Set the camera to about 12 megapixels: marks land just as well."
    )


def _decoded(image: Image.Image) -> Image.Image:
    """All pixels, upright, in RGB. A transparent background becomes white, as on paper."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            image.load()
            picture = ImageOps.exif_transpose(image)
            if picture.has_transparency_data:
                see_through = picture.convert("RGBA")
                picture = Image.new("RGB", picture.size, "white")
                picture.paste(see_through, mask=see_through)
            picture = picture if picture.mode == "RGB" else picture.convert("RGB")
            picture.info = {}  # Pillow would write its comment into every copy
            return picture
    except _BROKEN:
        raise PhotoError("The photo is damaged or was cut short on its way. Send it again, or take it again.") from None


def _jpeg(picture: Image.Image, quality: int, icc_profile: bytes | None) -> bytes:
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=quality, icc_profile=icc_profile)
    return out.getvalue()
