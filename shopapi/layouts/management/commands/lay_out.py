"""Lays parts out on the boards of an instance file and prints the answer as JSON."""

from __future__ import annotations

import json
import sys
from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError

from shopapi.craft.layout import Answer, LayoutError, solve
from shopapi.craft.layout.instances import read_instance, write_answer


class Command(BaseCommand):
    """`manage.py lay_out INSTANCE.json --seconds S`: answer on standard output, progress on standard error."""

    help = "Lay parts out on boards: reads an instance file, prints placements, cuts, value and bound as JSON."
    requires_system_checks: list[str] = []

    def add_arguments(self, parser: ArgumentParser) -> None:
        """The instance, the time, and what steers the search."""
        parser.add_argument("instance", help="JSON file with boards, parts, kerf and trims; - reads standard input")
        parser.add_argument("--seconds", type=float, default=10.0, help="how long to search (default 10)")
        parser.add_argument("--seed", type=int, default=0, help="another seed may find another layout (default 0)")

    def handle(self, *args: Any, **options: Any) -> None:
        """Read, solve, print; a problem that cannot be read or solved ends with one clear line."""
        try:
            problem = read_instance(self._data(options["instance"]))
            answer = solve(problem, options["seconds"], options["seed"], told=self._tell)
        except LayoutError as error:
            raise CommandError(str(error)) from error
        self.stdout.write(json.dumps(write_answer(answer)))

    def _data(self, name: str) -> object:
        try:
            text = sys.stdin.read() if name == "-" else Path(name).read_text(encoding="utf-8")
            return json.loads(text)
        except OSError as error:
            raise CommandError(f"Cannot read {name}: {error.strerror or error}.") from error
        except ValueError as error:
            raise CommandError(f"{name} is not JSON: {error}.") from error

    def _tell(self, answer: Answer) -> None:
        self.stderr.write(f"{answer.seconds:6.1f} s  value {answer.value}  bound {answer.bound}")
