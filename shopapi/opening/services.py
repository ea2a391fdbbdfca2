"""What must be in place before the shop opens."""

import os
import uuid
from collections.abc import Callable
from pathlib import Path

from shopapi.workshops.models import Member, Workshop


class NotReadyError(Exception):
    """The shop cannot open; the message says what to do."""


def data_folder_ready(folder: Path) -> None:
    probe = folder / f".probe-{uuid.uuid4().hex}"
    try:
        folder.mkdir(parents=True, exist_ok=True)
        probe.touch()
        probe.unlink()
    except OSError as error:
        why = os.strerror(error.errno).lower() if error.errno else str(error)
        raise NotReadyError(
            f"The data folder {folder} cannot be written ({why}). Choose another with --data DIR."
        ) from error


def owner_ready(*, bare: bool, say: Callable[[str], None]) -> Member:
    """The owner who is let in: of the workshop that is there, else of the demo's or an empty one."""
    if not Workshop.objects.exists():
        if bare:
            from shopapi.workshops.services import workshop_create

            workshop_create(name="My workshop", owner_name="Owner", username="owner")
        else:
            from shopapi.demo.services import load_demo

            say("Sawing the demo's boards and taking their pictures ...")
            load_demo()
    else:
        from shopapi.boards.services import photographs_left_behind
        from shopapi.layouts.services import layouts_left_behind
        from shopapi.packets.services import packets_left_behind

        photographs_left_behind()
        layouts_left_behind()
        packets_left_behind()
    return Member.objects.filter(role=Member.Role.OWNER, active=True).order_by("created_at")[0]


def way_in(member: Member) -> str:
    from shopapi.workshops.services import link_create

    return link_create(member=member)
