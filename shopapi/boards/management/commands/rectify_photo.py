"""Square one photograph from the command line; the answer is JSON on standard output."""

import json
import sys
from argparse import ArgumentParser
from pathlib import Path
from typing import Any, NoReturn

from django.core.management.base import BaseCommand

from shopapi.boards.photographs import PhotoError, read_upload, square_photo
from shopapi.craft.rectify import CornersMissingError, RectifyError


class Command(BaseCommand):
    help = "Square a photograph to true board millimetres."
    requires_system_checks = []

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("photo", metavar="PHOTO", type=Path)
        parser.add_argument("--length", metavar="MM", required=True, help="length of the board")
        parser.add_argument("--width", metavar="MM", required=True, help="width of the board")
        parser.add_argument(
            "--corners",
            metavar='"x,y x,y x,y x,y"',
            required=True,
            help="butt-end lower, far-end lower, far-end upper, butt-end upper; pixels of the upright photo",
        )
        parser.add_argument("--out", metavar="FILE", type=Path, required=True, help="where the squared JPEG goes")

    def handle(self, *args: Any, **options: Any) -> None:
        out: Path = options["out"]
        try:
            squared = square_photo(
                _read(options["photo"]),
                _corners(options["corners"]),
                length_mm=_millimetres("length", options["length"]),
                width_mm=_millimetres("width", options["width"]),
            )
        except (PhotoError, RectifyError) as refusal:
            self._refuse(str(refusal))
        try:
            out.write_bytes(squared.jpeg)
        except OSError as error:
            self._refuse(f"{out} cannot be written: {error.strerror}.")
        if squared.corners_px != _corners(options["corners"]):
            self.stderr.write("The corners ran clockwise; they were put in order: " + _shown(squared.corners_px))
        answer = {
            "homography": squared.homography,
            "residual_mm": squared.residual_mm,
            "mm_per_px": squared.mm_per_px,
            "out": str(out),
        }
        self.stdout.write(json.dumps(answer))

    def _refuse(self, message: str) -> NoReturn:
        self.stderr.write(message)
        sys.exit(2)


def _read(path: Path) -> bytes:
    try:
        with path.open("rb") as file:
            return read_upload(file).upright
    except OSError as error:
        raise PhotoError(f"{path} cannot be read: {error.strerror}.") from None


def _millimetres(name: str, text: str) -> float:
    try:
        return float(text)
    except ValueError:
        raise RectifyError(f"The {name} must be a number of millimetres, such as 2592, not “{text}”.") from None


def _corners(text: str) -> list[list[float]]:
    try:
        corners = [[float(number) for number in pair.split(",")] for pair in text.split()]
    except ValueError:
        corners = []
    if len(corners) != 4 or any(len(corner) != 2 for corner in corners):
        raise CornersMissingError(
            'The corners must be four pairs, such as "170,1110 3060,1120 2980,980 260,820": butt-end lower, far-end '
            "lower, far-end upper, butt-end upper."
        )
    return corners


def _shown(corners: list[list[float]]) -> str:
    return " ".join(f"{x:g},{y:g}" for x, y in corners)
