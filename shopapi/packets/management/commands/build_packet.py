"""Print the packet of a commission from the command line; the answer is JSON on standard output."""

import json
import sys
from argparse import ArgumentParser
from pathlib import Path
from typing import Any, NoReturn

from django.core.management.base import BaseCommand

from shopapi.commissions.models import Commission
from shopapi.craft.packet import PacketData, from_json
from shopapi.packets import services
from shopapi.packets.freezing import warnings_of
from shopapi.packets.models import Packet
from shopapi.packets.selectors import commissions_called
from shopapi.printing.pages import PAPERS

MOST_LISTED = 8


class Command(BaseCommand):
    help = "Print the packet of a commission as a PDF."
    requires_system_checks = []

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("commission", metavar="COMMISSION", help="its id, its title or how its title begins")
        parser.add_argument("--out", metavar="FILE.pdf", type=Path, required=True, help="where the PDF goes")
        parser.add_argument("--paper", choices=sorted(PAPERS), default="", help="the workshop's own paper if not given")

    def handle(self, *args: Any, **options: Any) -> None:
        out: Path = options["out"]
        if out.is_dir() or not out.parent.is_dir():
            self._refuse(f"{out} cannot be written: name a file in a folder that exists.")
        packet = services.packet_print(commission=self._commission(options["commission"]), paper=options["paper"])
        if packet.state != Packet.State.DONE:
            self._refuse(packet.problem)
        with packet.document.open("rb") as file:
            document = file.read()
        try:
            out.write_bytes(document)
        except OSError as error:
            self._refuse(f"{out} cannot be written: {error.strerror}.")
        self._answer(packet, out)

    def _answer(self, packet: Packet, out: Path) -> None:
        warnings = list(warnings_of(from_json(PacketData, packet.frozen)))
        for warning in warnings:
            self.stderr.write(warning)
        answer = {
            "packet": str(packet.pk),
            "commission": str(packet.commission_id),
            "title": packet.commission.title,
            "paper": packet.paper,
            "made_at": packet.made_at.isoformat() if packet.made_at else None,
            "warnings": warnings,
            "out": str(out),
        }
        self.stdout.write(json.dumps(answer))

    def _commission(self, name: str) -> Commission:
        found = commissions_called(name)
        if not found:
            known = [commission.title for commission in commissions_called("")[:MOST_LISTED]]
            self._refuse(f'No commission is called "{name}". Known: {", ".join(known) or "none yet"}.')
        if len(found) > 1:
            listed = "; ".join(f"{each.title} ({each.pk})" for each in found[:MOST_LISTED])
            self._refuse(f'"{name}" could be {listed}. Give the id.')
        return found[0]

    def _refuse(self, message: str) -> NoReturn:
        self.stderr.write(message)
        sys.exit(2)
