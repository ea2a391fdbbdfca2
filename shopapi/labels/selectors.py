"""Reads about board tags: boards gathered into sheets of labels; they have no rows of their own."""

from collections.abc import Sequence
from io import BytesIO
from urllib.parse import urlsplit, urlunsplit
from uuid import UUID

from shopapi.boards.models import Board
from shopapi.craft.packet import BoardLabel, BoardLabelsData, LabelSheet
from shopapi.layouts.breakdown import measures_of
from shopapi.opening.addresses import network_address
from shopapi.printing.documents.labels import build_board_labels
from shopapi.workshops.models import Workshop

_THIS_MACHINE = {"localhost", "127.0.0.1", "::1"}


def boards_in_order(workshop: Workshop, ids: Sequence[UUID]) -> list[Board] | None:
    """The boards as they were asked for; None where one of them is not here."""
    found = {board.pk: board for board in Board.objects.for_workshop(workshop).filter(pk__in=ids)}
    return [found[id] for id in ids] if found.keys() >= set(ids) else None


def labels_pdf(workshop: Workshop, boards: Sequence[Board], sheet: LabelSheet, *, used: int, origin: str) -> bytes:
    """Sheets of tags; `used` labels are gone from the first. Raises SheetError."""
    out = BytesIO()
    origin = reachable(origin)
    labels = tuple(_label(board, origin) for board in boards)
    data = BoardLabelsData(workshop.name, labels, sheet, measures_of(workshop), used % sheet.count)
    build_board_labels(data, out)
    return out.getvalue()


def reachable(origin: str) -> str:
    """The address under which a phone finds this machine: printed from its own screen, a code would lead nowhere."""
    parts = urlsplit(origin)
    if parts.hostname in _THIS_MACHINE and (address := network_address()):
        port = f":{parts.port}" if parts.port else ""
        return urlunsplit((parts.scheme, f"{address}{port}", "", "", ""))
    return f"{parts.scheme}://{parts.netloc}"


def _label(board: Board, origin: str) -> BoardLabel:
    sizes = (board.length_mm, board.width_mm, board.thickness_mm)
    address = f"{origin}/#/rack/{board.pk}"
    return BoardLabel(board.tag, board.species, sizes, address, board.thickness_quarters, board.flitch)
