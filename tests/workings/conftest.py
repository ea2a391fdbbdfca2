"""Works things out through the API, as a phone does."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import pytest

from tests.conftest import Person


@dataclass(frozen=True)
class Answer:
    """An answer as it came, with its lines by label."""

    body: dict[str, Any]

    def __getitem__(self, label: str) -> Any:
        (line,) = [line for line in self.body["lines"] if line["label"] == label]
        return line["text"] if line["kind"] == "text" else line["value"]

    def column(self, label: str) -> list[Any]:
        labels = [column["label"] for column in self.body["table"]["columns"]]
        return [row[labels.index(label)] for row in self.body["table"]["rows"]]


@pytest.fixture
def work_out(maker: Person) -> Callable[..., Answer]:
    def ask(key: str, **inputs: Any) -> Answer:
        answer = maker.client.post(f"/api/craft/{key}/", inputs, format="json")
        assert answer.status_code == 200, answer.content
        return Answer(answer.json())

    return ask


@pytest.fixture
def refused(maker: Person) -> Callable[..., dict[str, str]]:
    """The texts by field of inputs that must be refused."""

    def ask(key: str, person: Person = maker, **inputs: Any) -> dict[str, str]:
        answer = person.client.post(f"/api/craft/{key}/", inputs, format="json")
        assert answer.status_code == 400, answer.content
        assert answer["Content-Type"] == "application/problem+json"
        return {field: " ".join(texts) for field, texts in answer.json()["errors"].items()}

    return ask
