"""Photographs taken in: every orientation, every format, nothing of the place, and each refusal."""

import io
import struct
import zlib

import numpy as np
import pillow_heif
import pytest
from PIL import ExifTags, Image, ImageCms

from shopapi.boards.photographs import GREATEST_BYTES, PREVIEW_PX, PhotoError, digest_of, read_upload

pillow_heif.register_heif_opener()

SECRET = "Under the old walnut tree"
RED, GREEN, BLUE, WHITE = (250, 20, 20), (20, 200, 20), (20, 20, 250), (250, 250, 250)


def quarters(size=(240, 160)):
    """Upright: red upper left, green upper right, blue lower left, white lower right."""
    picture = Image.new("RGB", size)
    half = (size[0] // 2, size[1] // 2)
    for corner, colour in (((0, 0), RED), ((half[0], 0), GREEN), ((0, half[1]), BLUE), (half, WHITE)):
        picture.paste(colour, (*corner, corner[0] + half[0], corner[1] + half[1]))
    return picture


def place_and_time(orientation=1):
    exif = Image.Exif()
    exif[ExifTags.Base.Orientation] = orientation
    exif[ExifTags.Base.Make] = "Camera"
    exif[ExifTags.Base.ImageDescription] = SECRET
    shot = exif.get_ifd(ExifTags.IFD.Exif)
    shot[ExifTags.Base.DateTimeOriginal] = "2026:11:25 10:20:30"
    shot[ExifTags.Base.FocalLength] = 4.2
    shot[ExifTags.Base.MakerNote] = SECRET.encode()
    place = exif.get_ifd(ExifTags.IFD.GPSInfo)
    place[ExifTags.GPS.GPSLatitudeRef] = "N"
    place[ExifTags.GPS.GPSLatitude] = (44.0, 58.0, 39.0)
    place[ExifTags.GPS.GPSProcessingMethod] = SECRET.encode()
    return exif


def saved(picture, form, **options):
    out = io.BytesIO()
    picture.save(out, form, **options)
    return out.getvalue()


def colours_of(jpeg):
    picture = Image.open(io.BytesIO(jpeg))
    w, h = picture.size
    return picture.size, [picture.getpixel((w * x // 4, h * y // 4)) for y in (1, 3) for x in (1, 3)]


def assert_upright(jpeg, size=(240, 160)):
    assert Image.open(io.BytesIO(jpeg)).getexif().get(ExifTags.Base.Orientation, 1) == 1
    seen_size, seen = colours_of(jpeg)
    assert seen_size == size
    for colour, expected in zip(seen, (RED, GREEN, BLUE, WHITE), strict=True):
        assert np.abs(np.subtract(colour, expected)).max() < 40


# How a camera held in each of the eight ways stores an upright scene.
# Source: EXIF 2.32 (CIPA DC-008), tag Orientation, "row 0 is the visual ... side".
STORED = {
    1: (),
    2: (Image.Transpose.FLIP_LEFT_RIGHT,),
    3: (Image.Transpose.ROTATE_180,),
    4: (Image.Transpose.FLIP_TOP_BOTTOM,),
    5: (Image.Transpose.TRANSPOSE,),
    6: (Image.Transpose.ROTATE_90,),
    7: (Image.Transpose.TRANSVERSE,),
    8: (Image.Transpose.ROTATE_270,),
}


@pytest.mark.parametrize("orientation", STORED)
@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP"])
def test_all_eight_orientations(form, orientation):
    picture = quarters()
    for turn in STORED[orientation]:
        picture = picture.transpose(turn)
    taken = read_upload(saved(picture, form, exif=place_and_time(orientation).tobytes()))
    assert (taken.width_px, taken.height_px) == (240, 160)
    assert_upright(taken.upright)
    assert_upright(taken.preview)


def test_a_heic_is_turned_by_its_container():
    taken = read_upload(saved(quarters(), "HEIF", quality=90, exif=place_and_time().tobytes()))
    assert_upright(taken.upright)
    turned = quarters().transpose(Image.Transpose.ROTATE_90)
    taken = read_upload(saved(turned, "HEIF", quality=90, exif=place_and_time(6).tobytes()))
    assert_upright(taken.upright)
    assert (taken.original_type, taken.suffix) == ("image/heic", "heic")


XMP = f"<x:xmpmeta xmlns:x='adobe:ns:meta/'><GPSLatitude>{SECRET}</GPSLatitude></x:xmpmeta>".encode()


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP", "HEIF"])
def test_nothing_of_the_place_is_left_and_no_pixel_changes(form):
    noise = Image.fromarray(np.random.default_rng(3).integers(0, 255, (90, 130, 3), dtype=np.uint8))
    options = {"comment": SECRET} if form == "JPEG" else {}
    if form == "PNG":
        from PIL.PngImagePlugin import PngInfo

        options["pnginfo"] = PngInfo()
        options["pnginfo"].add_text("Location", SECRET)
    else:
        options["xmp"] = XMP
    data = saved(noise, form, exif=place_and_time().tobytes(), **options)
    assert SECRET.encode() in data
    taken = read_upload(data)
    for kept in (taken.original, taken.upright, taken.preview):
        assert SECRET.encode() not in kept
        exif = Image.open(io.BytesIO(kept)).getexif()
        assert not exif.get_ifd(ExifTags.IFD.GPSInfo)
        assert ExifTags.Base.MakerNote not in exif.get_ifd(ExifTags.IFD.Exif)
    before, after = Image.open(io.BytesIO(data)), Image.open(io.BytesIO(taken.original))
    assert before.format == after.format
    assert np.array_equal(np.asarray(before), np.asarray(after))
    if form != "WEBP" or b"VP8X" in taken.original:
        kept_shot = after.getexif().get_ifd(ExifTags.IFD.Exif)
        assert kept_shot[ExifTags.Base.DateTimeOriginal] == "2026:11:25 10:20:30"


def test_what_follows_a_jpeg_goes():
    """A second picture or a short film behind the photo has metadata of its own."""
    first = saved(quarters(), "JPEG", progressive=True, exif=place_and_time().tobytes())
    second = saved(quarters((64, 64)), "JPEG", exif=place_and_time().tobytes())
    taken = read_upload(first + second + b"moov" + SECRET.encode())
    assert SECRET.encode() not in taken.original
    assert taken.original.endswith(b"\xff\xd9")
    assert taken.original.count(b"\xff\xd8\xff") == 1
    assert np.array_equal(np.asarray(Image.open(io.BytesIO(first))), np.asarray(Image.open(io.BytesIO(taken.original))))


def test_an_upright_jpeg_is_not_coded_again():
    taken = read_upload(saved(quarters(), "JPEG"))
    assert taken.upright is taken.original


def test_the_colour_profile_stays():
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    taken = read_upload(saved(quarters(), "JPEG", icc_profile=profile, exif=place_and_time(3).tobytes()))
    for kept in (taken.original, taken.upright, taken.preview):
        assert Image.open(io.BytesIO(kept)).info["icc_profile"] == profile


@pytest.mark.parametrize("mode", ["L", "P", "1", "RGBA", "LA", "CMYK", "I;16"])
def test_every_way_to_store_colour(mode):
    if mode == "I;16":
        picture = Image.fromarray(np.full((100, 150), 40000, np.uint16))
    else:
        picture = quarters((150, 100)).convert(mode)
    taken = read_upload(saved(picture, "JPEG" if mode == "CMYK" else "PNG"))
    upright = Image.open(io.BytesIO(taken.upright))
    assert upright.mode in {"RGB", "L"}
    assert upright.size == (150, 100)


def test_see_through_becomes_white():
    picture = Image.new("RGBA", (100, 100), (0, 0, 0, 0))
    taken = read_upload(saved(picture, "PNG"))
    assert Image.open(io.BytesIO(taken.upright)).getpixel((50, 50)) == (255, 255, 255)


def test_the_preview_is_small_and_in_proportion():
    taken = read_upload(saved(quarters((4000, 1000)), "JPEG"))
    assert (taken.preview_width_px, taken.preview_height_px) == (PREVIEW_PX, 400)
    assert Image.open(io.BytesIO(taken.preview)).size == (PREVIEW_PX, 400)
    assert (taken.width_px, taken.height_px) == (4000, 1000)


def test_a_file_is_known_again():
    data = saved(quarters(), "JPEG")
    file = io.BytesIO(data)
    assert digest_of(file) == read_upload(file).sha256 == read_upload(data).sha256


# Refusals


def png_header_only(width, height):
    """A PNG of a few bytes that unpacks to width x height."""

    def chunk(kind, body):
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", zlib.compress(b"\0" * 99)) + chunk(b"IEND", b"")
    )


def jpeg_says(width, height):
    data = bytearray(saved(quarters(), "JPEG"))
    at = data.index(b"\xff\xc0")
    data[at + 5 : at + 9] = struct.pack(">HH", height, width)
    return bytes(data)


def heic_says(width, height, picture=None):
    data = bytearray(saved(picture or quarters(), "HEIF"))
    at = data.index(b"ispe") + 8
    data[at : at + 8] = struct.pack(">II", width, height)
    return bytes(data)


NOISE = Image.fromarray(np.random.default_rng(1).integers(0, 255, (400, 600, 3), dtype=np.uint8))

REFUSED = {
    "nothing": (b"", "empty"),
    "text": (b"Board B7, 8 ft, one knot\n" * 9, "not a photograph"),
    "pdf": (b"%PDF-1.7\n" + b"0" * 400, "not a photograph"),
    "gif": (saved(quarters(), "GIF"), "JPEG, PNG, WebP and HEIC work"),
    "tiff": (saved(quarters(), "TIFF"), "not a photograph"),
    "too big a file": (b"\xff\xd8" + b"\0" * GREATEST_BYTES, "40 MB"),
    "200 megapixels": (jpeg_says(16000, 12500), "megapixels"),
    "100 megapixels": (jpeg_says(10000, 10000), "100 megapixels; 80 at most"),
    "png bomb": (png_header_only(60000, 60000), "megapixels"),
    "heic bomb": (heic_says(30000, 30000), "megapixels"),
    "heic that lies": (heic_says(64, 64, NOISE), "damaged"),
    "thumbnail": (saved(quarters((20, 20)), "PNG"), "20 x 20"),
    "cut jpeg": (saved(NOISE, "JPEG")[:-20000], "cut short"),
    "cut jpeg header": (saved(NOISE, "JPEG")[:100], "not a photograph|cut short"),
    "cut png": (saved(NOISE, "PNG")[:-90000], "cut short"),
    "cut webp": (saved(NOISE, "WEBP")[:-9000], "not a photograph|cut short"),
    "cut heic": (saved(NOISE, "HEIF")[:-20000], "not a photograph|cut short"),
}


@pytest.mark.parametrize("name", REFUSED)
def test_refused_in_plain_words(name):
    data, says = REFUSED[name]
    with pytest.raises(PhotoError, match=says):
        read_upload(data)
    with pytest.raises(PhotoError, match=says):
        read_upload(io.BytesIO(data))


def test_an_unreadable_exif_block_does_not_cost_the_photo():
    data = saved(quarters(), "JPEG", exif=b"Exif\0\0MM\0*\xff\xff\xff\xff" + b"\x99" * 40)
    assert_upright(read_upload(data).upright)


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP", "HEIF"])
def test_any_damage_is_refused_or_read_never_raised(form):
    """Bytes broken at random: a photograph comes out, or a PhotoError (of a PNG always that: it has checksums)."""
    data = saved(NOISE.resize((120, 80)), form, exif=place_and_time().tobytes())
    rng = np.random.default_rng(5)
    refused = 0
    for _ in range(60):
        broken = bytearray(data)
        for at in rng.integers(0, min(len(data), 700), 3):
            broken[at] = rng.integers(0, 256)
        try:
            taken = read_upload(bytes(broken))
            assert min(taken.width_px, taken.height_px) > 0
        except PhotoError:
            refused += 1
    assert refused > 0
