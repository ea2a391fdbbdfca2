"""Taking the place, the maker's notes and everything unknown out of a photograph's metadata, its pixels untouched.

What is kept: orientation, when it was taken, the camera's make and model, focal length, colour profile.
"""

import re
import struct
import warnings
import zlib
from collections.abc import Iterator

from PIL import ExifTags, Image

_KEPT = (ExifTags.Base.Orientation, ExifTags.Base.Make, ExifTags.Base.Model, ExifTags.Base.DateTime)
_KEPT_OF_SHOT = (
    ExifTags.Base.DateTimeOriginal,
    ExifTags.Base.OffsetTimeOriginal,
    ExifTags.Base.FocalLength,
    ExifTags.Base.FocalLengthIn35mmFilm,
)
_EXIF_HEAD = b"Exif\0\0"


def kept_exif(image: Image.Image) -> bytes:
    """The few harmless EXIF values of an image as a TIFF block (no "Exif" head); empty where there are none."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # Pillow says much about broken blocks
            return _kept_exif(image)
    except (ValueError, TypeError, KeyError, SyntaxError, OSError, struct.error):
        return b""  # an unreadable block is not worth losing the photo for


def _kept_exif(image: Image.Image) -> bytes:
    found = image.getexif()
    shot = found.get_ifd(ExifTags.IFD.Exif)
    kept = Image.Exif()
    for tag in _KEPT:
        if tag in found:
            kept[tag] = found[tag]
    kept_of_shot = {int(tag): shot[tag] for tag in _KEPT_OF_SHOT if tag in shot}
    if kept_of_shot:
        kept.get_ifd(ExifTags.IFD.Exif).update(kept_of_shot)
    return kept.tobytes().removeprefix(_EXIF_HEAD) if len(kept) or kept_of_shot else b""


def without_place(data: bytes, suffix: str, exif: bytes) -> bytes | None:
    """The file with only `exif` for metadata; None where its container cannot be followed."""
    clean = {"jpg": _clean_jpeg, "png": _clean_png, "webp": _clean_webp, "heic": _clean_heic}[suffix]
    try:
        return clean(data, exif)
    except (ValueError, IndexError, struct.error):
        return None


# JPEG (ITU-T T.81, annex B): segments up to the scans, then what matters ends at EOI.

_STOPS = re.compile(rb"\xff+([^\x00\xd0-\xd7\xff])")


def _clean_jpeg(data: bytes, exif: bytes) -> bytes:
    if data[:2] != b"\xff\xd8":
        raise ValueError("no JPEG")
    head, tables, at = [], [], 2
    while data[at + 1] != 0xDA:  # start of scan
        if data[at] != 0xFF:
            raise ValueError("no marker")
        if data[at + 1] == 0xFF:  # fill byte
            at += 1
            continue
        end = at + 2 + struct.unpack(">H", data[at + 2 : at + 4])[0]
        segment = data[at:end]
        marker, at = data[at + 1], end
        if marker == 0xE0:
            head.append(segment)
        elif (
            (not 0xE1 <= marker <= 0xEF and marker != 0xFE)
            or (marker == 0xE2 and segment[4:15] == b"ICC_PROFILE")
            or (marker == 0xEE and segment[4:9] == b"Adobe")
        ):
            tables.append(segment)
    if exif:
        block = _EXIF_HEAD + exif
        head.append(b"\xff\xe1" + struct.pack(">H", len(block) + 2) + block)
    return b"".join([b"\xff\xd8", *head, *tables, data[at : _end_of_jpeg(data, at)]])


def _end_of_jpeg(data: bytes, at: int) -> int:
    """Where the picture ends; what follows (a second picture, a film) has metadata of its own."""
    while stop := _STOPS.search(data, at):
        if stop[1] == b"\xd9":
            return stop.end()
        at = stop.end() + struct.unpack(">H", data[stop.end() : stop.end() + 2])[0]
    return len(data)


# PNG (ISO/IEC 15948): chunks of length, type, data, checksum.

_PNG_KEPT = {b"IHDR", b"PLTE", b"IDAT", b"IEND", b"tRNS", b"cHRM", b"gAMA", b"iCCP", b"sBIT", b"sRGB", b"cICP", b"pHYs"}


def _clean_png(data: bytes, exif: bytes) -> bytes:
    out, at = [data[:8]], 8
    while at < len(data):
        length, kind = struct.unpack(">I4s", data[at : at + 8])
        end = at + 12 + length
        if end > len(data):
            raise ValueError("chunk past the end")
        if kind in _PNG_KEPT:
            out.append(data[at:end])
        if kind == b"IHDR" and exif:
            checksum = struct.pack(">I", zlib.crc32(b"eXIf" + exif))
            out.append(struct.pack(">I", len(exif)) + b"eXIf" + exif + checksum)
        at = end
        if kind == b"IEND":
            break
    return b"".join(out)


# WebP (RFC 9649): RIFF chunks; VP8X says by bits which others there are.

_WEBP_KEPT = {b"VP8 ", b"VP8L", b"VP8X", b"ALPH", b"ICCP", b"ANIM", b"ANMF"}
_WEBP_HAS_EXIF, _WEBP_HAS_XMP = 0x08, 0x04


def _clean_webp(data: bytes, exif: bytes) -> bytes:
    chunks, at = [], 12
    while at + 8 <= len(data):
        kind, length = struct.unpack("<4sI", data[at : at + 8])
        body = data[at + 8 : at + 8 + length]
        if len(body) < length:
            raise ValueError("chunk past the end")
        if kind == b"VP8X":
            flags = body[0] & ~(_WEBP_HAS_EXIF | _WEBP_HAS_XMP) | (_WEBP_HAS_EXIF if exif else 0)
            body = bytes([flags]) + body[1:]
        if kind in _WEBP_KEPT:
            chunks.append((kind, body))
        at += 8 + length + length % 2
    if exif and chunks[0][0] == b"VP8X":
        chunks.append((b"EXIF", exif))
    body = b"WEBP" + b"".join(k + struct.pack("<I", len(b)) + b + b"\0" * (len(b) % 2) for k, b in chunks)
    return b"RIFF" + struct.pack("<I", len(body)) + body


# HEIC (ISO/IEC 14496-12 and 23008-12): metadata are items of a "meta" box, blanked where they lie.

_EMPTY_TIFF = b"MM\0*\0\0\0\x08\0\0\0\0\0\0"


def _clean_heic(data: bytes, exif: bytes) -> bytes:
    meta = next((body for kind, body, _ in _boxes(data, 0, len(data)) if kind == b"meta"), None)
    if meta is None:
        raise ValueError("no meta box")
    inside = {kind: (start, end) for kind, start, end in _boxes(data, meta + 4, _end_of(data, meta))}
    kinds = dict(_item_kinds(data, *inside[b"iinf"]))
    clean = bytearray(data)
    idat = inside.get(b"idat", (0, 0))[0]
    for item, start, end in _item_places(data, *inside[b"iloc"], idat=idat):
        if end > len(data):
            raise ValueError("item past the end")
        kind = kinds.get(item)
        if kind == b"Exif":
            clean[start:end] = _exif_item(exif, end - start)
        elif kind in (b"mime", b"uri "):
            clean[start:end] = b" " * (end - start)
    return bytes(clean)


def _exif_item(exif: bytes, size: int) -> bytes:
    for tiff in (exif, _EMPTY_TIFF):
        block = struct.pack(">I", len(_EXIF_HEAD)) + _EXIF_HEAD + tiff
        if tiff and len(block) <= size:
            return block + b"\0" * (size - len(block))
    return b"\0" * size


def _boxes(data: bytes, at: int, end: int) -> Iterator[tuple[bytes, int, int]]:
    """(type, start of body, end) of the boxes that lie side by side in a stretch of the file."""
    while at + 8 <= end:
        size, kind = struct.unpack(">I4s", data[at : at + 8])
        head = 8
        if size == 1:
            size, head = struct.unpack(">Q", data[at + 8 : at + 16])[0], 16
        elif size == 0:
            size = end - at
        if size < head or at + size > end:
            raise ValueError("box past the end")
        yield kind, at + head, at + size
        at += size


def _end_of(data: bytes, body: int) -> int:
    return next(end for _, start, end in _boxes(data, 0, len(data)) if start == body)


def _item_kinds(data: bytes, start: int, end: int) -> Iterator[tuple[int, bytes]]:
    first = start + (6 if data[start] == 0 else 8)
    for kind, at, _ in _boxes(data, first, end):
        if kind == b"infe" and data[at] >= 2:
            wide = 4 if data[at] >= 3 else 2
            yield int.from_bytes(data[at + 4 : at + 4 + wide], "big"), data[at + 6 + wide : at + 10 + wide]


def _item_places(data: bytes, start: int, _end: int, *, idat: int) -> Iterator[tuple[int, int, int]]:
    """(item, start, end) of every stretch of the file that holds an item."""
    version = data[start]
    at = start + 4

    def number(size: int) -> int:
        nonlocal at
        at += size
        return int.from_bytes(data[at - size : at], "big")

    sizes = number(2)
    offset_size, length_size, base_size, index_size = (
        (sizes >> 12) & 15,
        (sizes >> 8) & 15,
        (sizes >> 4) & 15,
        sizes & 15,
    )
    wide = 4 if version >= 2 else 2
    for _ in range(number(wide)):
        item = number(wide)
        method = number(2) & 15 if version >= 1 else 0
        number(2)
        base = number(base_size) + (idat if method == 1 else 0)
        for _ in range(number(2)):
            if version >= 1:
                number(index_size)
            offset, length = number(offset_size), number(length_size)
            if method < 2:
                yield item, base + offset, base + offset + length
