"""Clear stretches of strips: the short way for marks that block everything gives what the full way gives."""

from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from shopapi.craft.layout.frame import BLOCKED, Frame, clear_stretches, gaps_between
from shopapi.craft.layout.model import Problem, Rules
from tests.craft.layout.problems import board, part

FRAME = Frame(Problem((board("B", 500, 100),), (part("a", 1, 20),), Rules(kerf=0)))


@given(st.lists(st.tuples(st.integers(0, 490), st.integers(1, 60)), max_size=6))
def test_gaps_between_flaws_are_the_clear_stretches(spans):
    rows = sorted((x, min(500, x + size)) for x, size in spans)
    flaws = np.array([(x0, x1, 0, 100, BLOCKED) for x0, x1 in rows], np.int32).reshape(-1, 5)
    (full,) = clear_stretches(flaws, 500, FRAME, 0)
    assert [(a, b) for a, b, _ in full] == gaps_between([list(row) for row in rows], 500)
