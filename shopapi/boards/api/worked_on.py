"""What routes of rows that the background worker writes to have in common."""

from django.db.models.fields.files import FieldFile
from django.http import FileResponse
from drf_spectacular.types import OpenApiTypes
from rest_framework.exceptions import NotFound

from shopapi.boards.models import WorkedOn
from shopapi.workshops.routes import WorkshopViewSet
from shopapi.workshops.scoping import WorkshopOwned

PICTURE = {(200, "image/jpeg"): OpenApiTypes.BINARY}


class WorkedOnViewSet(WorkshopViewSet):
    """What the worker wrote since a phone last heard is no reason to refuse what the phone's maker asks."""

    def _demand_current(self, row: WorkshopOwned) -> None:
        given = self.request.headers.get("If-Match", "").strip().removeprefix("W/").strip('"')
        if isinstance(row, WorkedOn) and given.isdecimal() and row.asked_revision <= int(given) <= row.revision:
            return
        super()._demand_current(row)


def picture(file: FieldFile, content_type: str, *, missing: str, attach: bool = False) -> FileResponse:
    """The stored picture; `missing` says why there is none yet."""
    if not file:
        raise NotFound(missing)
    response = FileResponse(file.open("rb"), content_type=content_type, as_attachment=attach)
    # The app asks with the row's revision in the address, so a picture never changes behind its address.
    response["Cache-Control"] = "private, max-age=31536000, immutable"
    return response
