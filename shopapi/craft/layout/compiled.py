"""Numba's compiler with its cache where one can be written, and without it where none can."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numba


def compiled(function: Callable[..., Any]) -> Callable[..., Any]:
    """The function as machine code, kept for the next start next to the source or in the user's cache folder."""
    try:
        return numba.njit(cache=True, nogil=True)(function)
    except RuntimeError:  # numba found no folder that it may write
        return numba.njit(nogil=True)(function)
