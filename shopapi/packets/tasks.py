"""Background work of packets."""

from django_tasks import task

from shopapi.packets import services
from shopapi.packets.models import Packet


@task()
def print_packet(packet_id: str) -> None:
    packet = Packet.objects.select_related("workshop", "commission").filter(pk=packet_id, gone_at=None).first()
    if packet is not None and packet.state == Packet.State.QUEUED:
        services.packet_build(packet=packet)
