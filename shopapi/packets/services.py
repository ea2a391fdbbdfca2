"""Writes about packets: freeze the data, then draw it."""

import logging
from io import BytesIO
from uuid import UUID

from django.core.files.base import ContentFile
from django.db import transaction
from django.utils import timezone

from shopapi.commissions.models import Commission
from shopapi.craft.packet import PacketData, from_json, to_json
from shopapi.layouts.breakdown import paper_of, read_picture
from shopapi.packets.freezing import packet_data
from shopapi.packets.models import Packet
from shopapi.printing.documents.packet import build_packet
from shopapi.workshops.models import Workshop

log = logging.getLogger(__name__)


@transaction.atomic
def packet_create(*, workshop: Workshop, commission: Commission, paper: str = "", id: UUID | None = None) -> Packet:
    """Puts the packet in the queue; the background worker prints it."""
    from shopapi.packets.tasks import print_packet

    packet = Packet(workshop=workshop, commission=commission, paper=paper or workshop.paper)
    if id is not None:
        packet.id = id
    packet.save()
    transaction.on_commit(lambda: print_packet.enqueue(str(packet.pk)))
    return packet


def packet_print(*, commission: Commission, paper: str = "") -> Packet:
    """Makes a packet at once, without the background worker."""
    workshop = commission.workshop
    # Running from the start, so that no worker takes it too.
    packet = Packet(workshop=workshop, commission=commission, paper=paper or workshop.paper, state=Packet.State.RUNNING)
    packet.save()
    return packet_build(packet=packet)


def packet_build(*, packet: Packet) -> Packet:
    """Freezes the commission as it stands, draws it and keeps both; what goes wrong is kept in words."""
    packet.state = Packet.State.RUNNING
    packet.save(update_fields=["state"])
    try:
        packet.frozen = to_json(packet_data(packet.commission, paper_of(packet.paper or packet.workshop.paper)))
        document = packet_pdf(packet=packet)
        packet.document.save("packet.pdf", ContentFile(document), save=False)
        packet.state, packet.problem = Packet.State.DONE, ""
    except Exception:
        log.exception("packet %s failed", packet.pk)
        packet.state = Packet.State.FAILED
        packet.problem = "The packet could not be printed. Your rows are unharmed; make the packet again."
    packet.made_at = timezone.now()
    packet.save(update_fields=["frozen", "document", "state", "problem", "made_at"])
    return packet


def packet_pdf(*, packet: Packet) -> bytes:
    """The PDF of what the packet froze, drawn anew: the same words and numbers, whatever was changed since."""
    out = BytesIO()
    build_packet(from_json(PacketData, packet.frozen), out, read_picture)
    return out.getvalue()


def packets_left_behind() -> int:
    """Marks packets that a stopped service left half printed."""
    left = Packet.objects.filter(state__in=[Packet.State.QUEUED, Packet.State.RUNNING], gone_at=None)
    for packet in left:
        packet.state = Packet.State.FAILED
        packet.problem = "The service was stopped before this was printed. Make the packet again."
        packet.save(update_fields=["state", "problem"])
    return len(left)
