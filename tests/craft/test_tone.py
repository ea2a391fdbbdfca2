"""The tone of a picture against CIELAB written out here (CIE 15; sRGB by IEC 61966-2-1; both from memory)."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopapi.craft.tone import mean_tone

TO_XYZ = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]])
WHITE = TO_XYZ.sum(axis=1)
colours = st.tuples(*[st.integers(0, 255)] * 3)


def lab(colour: tuple[int, int, int]) -> np.ndarray:
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in np.array(colour) / 255]
    ratio = TO_XYZ @ np.array(linear) / WHITE
    root = np.where(ratio > (6 / 29) ** 3, np.cbrt(ratio), ratio / (3 * (6 / 29) ** 2) + 4 / 29)
    return np.array([116 * root[1] - 16, 500 * (root[0] - root[1]), 200 * (root[1] - root[2])])


@given(colours)
def test_one_colour(colour):
    assert mean_tone(np.full((2, 3, 3), colour, np.uint8)) == pytest.approx(lab(colour), abs=0.6)


@given(colours, colours)
def test_two_halves_have_the_mean_of_both(one, other):
    pixels = np.array([[one], [other]], np.uint8)
    assert mean_tone(pixels) == pytest.approx((lab(one) + lab(other)) / 2, abs=0.6)


@pytest.mark.parametrize("shape", [(0, 4, 3), (4, 4), (4, 4, 4)])
def test_what_is_no_picture_is_refused(shape):
    with pytest.raises(ValueError, match="three colours"):
        mean_tone(np.zeros(shape, np.uint8))
