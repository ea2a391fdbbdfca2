"""Reads a printed document back, as other programs would."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cached_property
from io import BytesIO
from typing import Any

import pdfplumber
from PIL import Image, ImageDraw
from pypdf import PdfReader

from shopapi.craft.packet import Picture

PT_PER_MM = 72 / 25.4


class Printed:
    """A PDF as pypdf and pdfplumber see it."""

    def __init__(self, content: bytes) -> None:
        self.content = content
        self.pypdf = PdfReader(BytesIO(content))

    @cached_property
    def plumber(self) -> pdfplumber.PDF:
        return pdfplumber.open(BytesIO(self.content))

    @property
    def pages(self) -> int:
        return len(self.pypdf.pages)

    @cached_property
    def text(self) -> str:
        """All words of the document with single spaces."""
        return " ".join(" ".join(page.extract_text().split()) for page in self.pypdf.pages)

    def page_text(self, number: int) -> str:
        return " ".join(self.pypdf.pages[number].extract_text().split())

    def page_with(self, words: str) -> int:
        """The page whose text has these words, the last if several have."""
        return max(n for n in range(self.pages) if words in self.page_text(n))

    def sizes_of(self, wanted: Callable[[str], bool]) -> list[float]:
        """Type sizes [points] of the words that are wanted."""
        found = []
        for page in self.plumber.pages:
            words = page.extract_words(extra_attrs=["size"], use_text_flow=False, keep_blank_chars=False)
            found += [float(word["size"]) for word in words if wanted(word["text"])]
        return found

    def outline(self) -> list[tuple[str, int]]:
        return [(entry.title, self.pypdf.get_destination_page_number(entry)) for entry in self.pypdf.outline]

    def fonts(self) -> list[dict[str, Any]]:
        fonts = []
        for page in self.pypdf.pages:
            for font in page["/Resources"].get("/Font", {}).values():
                fonts.append(font.get_object())
        return fonts

    def images(self) -> list[tuple[int, int, float]]:
        """Pixels across, pixels up and drawn width [points] of each picture."""
        return [
            (image["srcsize"][0], image["srcsize"][1], image["x1"] - image["x0"])
            for page in self.plumber.pages
            for image in page.images
        ]


def printed(build: Callable[..., int], data: object, **more: Any) -> Printed:
    out = BytesIO()
    pages = build(data, out, **more)
    result = Printed(out.getvalue())
    assert result.pages == pages
    return result


def lengths_near(document: Printed, length_pt: float, tolerance_pt: float = 0.05) -> int:
    """How many straight lines of the document have this length."""
    return sum(
        abs(line["x1"] - line["x0"] - length_pt) < tolerance_pt and abs(line["bottom"] - line["top"]) < 0.01
        for page in document.plumber.pages
        for line in page.lines
    )


def picture(length_px: int = 3000, width_px: int = 205) -> Picture:
    """A brown board whose butt half is darker, so that what is drawn can be told from what is not."""
    image = Image.new("RGB", (length_px, width_px), (190, 150, 105))
    ImageDraw.Draw(image).rectangle((0, 0, length_px // 2, width_px), fill=(150, 110, 70))
    out = BytesIO()
    image.save(out, "JPEG", quality=90)
    return Picture(content=out.getvalue())


def plain(words: str) -> str:
    return re.sub(r"\s+", " ", words).strip()
