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
_ORIENTATION = 0x0112

_FORMATS = {"JPEG": ("image/jpeg", "jpg"), "PNG": ("image/png", "png"), "WEBP": ("image/webp", "webp")}
_FORMATS |= {"MPO": _FORMATS["JPEG"], "HEIF": ("image/heic", "heic")}
_OPENERS = ("JPEG", "PNG", "WEBP", "HEIF")
_ACCEPTED = "JPEG, PNG, WebP and HEIC work."
# What the decoders raise for files that end early, lie about themselves or unpack to more than they say.
_BROKEN = (OSError, SyntaxError, ValueError, EOFError, RuntimeError, MemoryError, Image.DecompressionBombError)


class PhotoError(ValueError):
    """A file that cannot be used as a photograph; the message is meant for the maker."""


@dataclass(frozen=True)
class Received:
    """A photograph that can be read, before anything is made of it.

    original: the file as it came, its pixels untouched, place and maker's notes removed from its metadata.
    original_type, suffix: media type and file ending of `original`.
    width_px, height_px: of the photograph turned upright.
    sha256: of the file as it came, to know it again.
    """

    original: bytes
    original_type: str
    suffix: str
    width_px: int
    height_px: int
    sha256: str


@dataclass(frozen=True)
class Upright:
    """upright: JPEG, turned upright; the pixels that corners are given in. The original where that is one already.
    preview: upright JPEG, long side 1600 px at most."""

    upright: bytes
    preview: bytes
    preview_width_px: int
    preview_height_px: int


@dataclass(frozen=True)
class Intake(Received, Upright):
    """A photograph as it is kept."""


def receive(file: BinaryIO | bytes) -> Received:
    """Check that a file is a whole photograph and take its place out of it.

    PhotoError where it is none, is broken, or is bigger than would help.
    """
    data = _bytes_of(file)
    image = _opened(data)
    media_type, suffix = _FORMATS[image.format or ""]
    exif = kept_exif(image)
    size = image.size
    _read_through(image)
    width, height = size[::-1] if _lies_sideways(image, suffix) else size
    original = without_place(data, suffix, exif)
    if original is None:  # a container we cannot clean: keep the pixels, drop the rest
        icc = image.info.get("icc_profile")
        original, media_type, suffix = _jpeg(_decoded(_opened(data)), 97, icc), "image/jpeg", "jpg"
    return Received(original, media_type, suffix, width, height, hashlib.sha256(data).hexdigest())


def stand_upright(original: bytes) -> Upright:
    """The upright photograph and its preview, from `Received.original`."""
    image = _opened(original)
    icc = image.info.get("icc_profile")
    is_jpeg = _FORMATS[image.format or ""][1] == "jpg"
    if is_jpeg and image.getexif().get(_ORIENTATION, 1) == 1 and image.mode in ("RGB", "L"):
        image.draft(None, (PREVIEW_PX, PREVIEW_PX))  # decodes no finer than the preview needs
        picture, upright = _decoded(image), original
    else:
        picture = _decoded(image)
        upright = _jpeg(picture, 92, icc)
    picture.thumbnail((PREVIEW_PX, PREVIEW_PX), Image.Resampling.BICUBIC, reducing_gap=2.0)
    return Upright(upright, _jpeg(picture, 84, icc), picture.width, picture.height)


def read_upload(file: BinaryIO | bytes) -> Intake:
    """Take in a photograph whole, at once; PhotoError as in `receive`."""
    received = receive(file)
    return Intake(**vars(stand_upright(received.original)), **vars(received))


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


def _lies_sideways(image: Image.Image, suffix: str) -> bool:
    """Whether turning it upright swaps width and height; a HEIC is opened upright."""
    return suffix != "heic" and image.getexif().get(_ORIENTATION, 1) in (5, 6, 7, 8)


def _read_through(image: Image.Image) -> None:
    """All of the file decoded once, a JPEG at an eighth of its size: a photo cut short shows only then."""
    image.draft(None, (1, 1))
    _decoded(image)


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
