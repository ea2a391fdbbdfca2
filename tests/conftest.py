"""People and rows that tests of the service share: a maker, their helper, and a stranger with a shop of their own."""

import io
import itertools
import os
import uuid
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings
from PIL import Image, ImageDraw
from rest_framework.test import APIClient

from shopapi.workshops import services
from shopapi.workshops.models import Member, Workshop

# Property tests on shared machines: a slow moment is no failure.
settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")

REPOSITORY = Path(__file__).resolve().parent.parent


@pytest.fixture(scope="session")
def reference_dir() -> Path:
    """The folder with third-party photographs and instance sets; tests that need it are skipped without it."""
    folder = Path(os.environ.get("REFERENCE_DIR") or REPOSITORY.parent / "shared" / "reference")
    if not folder.is_dir():
        pytest.skip(f"REFERENCE_DIR: no folder {folder}, so published instances and photographs go unchecked")
    return folder


@pytest.fixture(autouse=True)
def _files_elsewhere(settings: Any, tmp_path: Path) -> None:
    settings.MEDIA_ROOT = tmp_path / "files"


@dataclass
class Person:
    """A member with a signed-in client."""

    member: Member
    client: APIClient = field(default_factory=APIClient)

    @property
    def workshop(self) -> Workshop:
        return self.member.workshop

    def make(self, path: str, expect: int = 201, **body: Any) -> dict[str, Any]:
        """Posts a row and gives it back."""
        answer = self.client.post(f"/api/{path}/", {"id": str(uuid.uuid4()), **body}, format="json")
        assert answer.status_code == expect, answer.content
        return answer.json()


_numbers = itertools.count(1)


def _person(member: Member) -> Person:
    person = Person(member)
    person.client.force_login(member.user)
    return person


@pytest.fixture
def new_workshop(db: None) -> Callable[..., Person]:
    def make(**settings: Any) -> Person:
        number = next(_numbers)
        return _person(
            services.workshop_create(
                name=f"Workshop {number}", owner_name=f"Owner {number}", username=f"owner-{number}", **settings
            )
        )

    return make


@pytest.fixture
def maker(new_workshop: Callable[..., Person]) -> Person:
    """The owner of a workshop that measures in millimetres."""
    return new_workshop(units="metric")


@pytest.fixture
def apprentice(maker: Person) -> Person:
    """A helper in the maker's workshop."""
    return _person(services.member_create(workshop=maker.workshop, name="Helper", username=f"helper-{next(_numbers)}"))


@pytest.fixture
def stranger(new_workshop: Callable[..., Person]) -> Person:
    """The owner of another workshop, who must see nothing of the maker's."""
    return new_workshop(units="inch")


def work_on_photographs() -> None:
    """What the background worker does, done now."""
    from shopapi.boards import selectors
    from shopapi.boards import services as photographs

    for shot in selectors.unfinished_shots():
        photographs.shot_work(shot=shot)
    for face in selectors.unfinished_faces():
        photographs.face_work(face=face)


BOARD = {"species": "white oak", "length_mm": 2400, "width_mm": 200, "thickness_mm": 27}
# Butt-end lower, far-end lower, far-end upper, butt-end upper; pixels.
PICTURE_CORNERS = [[40, 260], [760, 250], [760, 190], [40, 180]]
PART = {"name": "Rail", "length_mm": 600, "width_mm": 80, "thickness_mm": 20, "species": "white oak"}


@pytest.fixture
def board(maker: Person) -> dict[str, Any]:
    return maker.make("boards", tag="B1", **BOARD)


@pytest.fixture
def commission(maker: Person) -> dict[str, Any]:
    return maker.make("commissions", title="Writing desk")


@pytest.fixture(scope="session")
def picture_of_board() -> bytes:
    """A small JPEG: a pale board on a dark floor, corners at `PICTURE_CORNERS`."""
    picture = Image.new("RGB", (800, 400), (60, 58, 55))
    ImageDraw.Draw(picture).polygon([tuple(corner) for corner in PICTURE_CORNERS], fill=(200, 170, 130))
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=90)
    return out.getvalue()
