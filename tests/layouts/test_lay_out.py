"""`manage.py lay_out`: JSON on standard output, messages on standard error, one clear line for a bad instance."""

from __future__ import annotations

import io
import json

import pytest
from django.core.management import CommandError, call_command

INSTANCE = {
    "kerf": 3,
    "boards": [{"id": "B01", "length": 900, "width": 90, "defects": []}],
    "parts": [
        {"id": "P001", "length": 300, "width": 70, "qty": 2, "value": 210},
        {"id": "P002", "length": 300, "width": 170, "qty": 1, "value": 500},
    ],
}


@pytest.fixture
def instance(tmp_path):
    path = tmp_path / "instance.json"
    path.write_text(json.dumps(INSTANCE))
    return path


def lay_out(*args: str) -> tuple[str, str]:
    out, err = io.StringIO(), io.StringIO()
    call_command("lay_out", *args, stdout=out, stderr=err)
    return out.getvalue(), err.getvalue()


def test_prints_the_answer_as_json(instance):
    out, err = lay_out(str(instance), "--seconds", "5")
    answer = json.loads(out)
    assert answer["value"] == answer["bound"] == 420
    assert answer["proved_best"] is True
    assert answer["unplaced"] == [{"part": "P002", "count": 1, "reason": "80 mm wider than any board"}]
    assert "value 420" in err


@pytest.mark.parametrize(
    ("text", "words"),
    [("{", "is not JSON"), ("[]", "must be an object"), ('{"kerf": 3, "boards": [], "parts": []}', "no board")],
)
def test_a_bad_instance_ends_with_one_clear_line(tmp_path, text, words):
    path = tmp_path / "bad.json"
    path.write_text(text)
    with pytest.raises(CommandError, match=words):
        lay_out(str(path))


def test_a_missing_file_and_a_time_of_nought_are_refused(instance, tmp_path):
    with pytest.raises(CommandError, match="Cannot read"):
        lay_out(str(tmp_path / "none.json"))
    with pytest.raises(CommandError, match="above 0"):
        lay_out(str(instance), "--seconds", "0")
