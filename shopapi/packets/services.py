"""Writes about packets: freeze the data, then draw it."""

from uuid import UUID

from django.db import transaction

from shopapi.commissions.models import Commission
from shopapi.packets.models import Packet
from shopapi.workshops.models import Workshop


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


def packets_left_behind() -> int:
    """Marks packets that a stopped service left half printed."""
    left = Packet.objects.filter(state__in=[Packet.State.QUEUED, Packet.State.RUNNING], gone_at=None)
    for packet in left:
        packet.state = Packet.State.FAILED
        packet.problem = "The service was stopped before this was printed. Make the packet again."
        packet.save(update_fields=["state", "problem"])
    return len(left)
