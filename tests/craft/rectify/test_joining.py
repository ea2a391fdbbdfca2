"""Joined shots against the wood itself: dots of a known place, photographed by random cameras, found again."""

import itertools

import numpy as np
import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from shopapi.craft import rectify
from tests.craft.rectify.shots import dotted, shoot, ticks

LENGTH, WIDTH = 3000.0, 180.0
SPOTS = [(x, y) for x in range(70, 3000, 130) for y in (38, 131)]
STRETCHES = [(0, 1150), (950, 2100), (1900, 3000)]
# A photograph takes seconds to draw, and a smaller seed is no simpler one: what fails is told at once.
AT_ONCE = (Phase.explicit, Phase.reuse, Phase.generate)
FACE = dotted(LENGTH, WIDTH, 0.8, np.random.default_rng(1), SPOTS)


def shots_of(rng, stretches=STRETCHES, *, slip_px=1.0, size=(1600, 1200), k=0.0, face=FACE):
    made = []
    for number, (x0, x1) in enumerate(stretches, 1):
        seen = shoot(face, LENGTH, WIDTH, x0, x1, rng, size=size, k=k)
        px, mm = ticks(seen, x0, x1, WIDTH, rng, slip_px)
        fitted = rectify.straighten(px, mm, size, allowed_mm=1.0 if k else 1e9)
        made.append(rectify.Stretch(seen.image, fitted.squaring, x0, x1, f"Shot {number}", fitted.lens))
    return made


def relabelled(stretch, where):
    """The shot as if its reference points had been set elsewhere."""
    squaring = rectify.square(stretch.squaring.points_px, where(stretch.squaring.points_mm.copy()))
    return rectify.Stretch(stretch.image, squaring, stretch.x0_mm, stretch.x1_mm, stretch.name)


def upside_down(stretch):
    return relabelled(stretch, lambda mm: np.array([stretch.x0_mm + stretch.x1_mm, WIDTH]) - mm)


def edges_swapped(stretch):
    return relabelled(stretch, lambda mm: np.column_stack([mm[:, 0], WIDTH - mm[:, 1]]))


def photo_mirrored(stretch):
    """A photo saved as in a mirror, its points set on what it shows."""
    image = np.ascontiguousarray(stretch.image[:, ::-1])
    px, mm = stretch.squaring.points_px.copy(), stretch.squaring.points_mm.copy()
    px[:, 0] = image.shape[1] - px[:, 0]
    mm[:, 1] = WIDTH - mm[:, 1]
    return rectify.Stretch(image, rectify.square(px, mm), stretch.x0_mm, stretch.x1_mm, stretch.name)


def errors_mm(joined, spots=SPOTS, width=WIDTH):
    """How far each dot lies in the joined picture from where it is on the wood."""
    mm, found = joined.mm_per_px, []
    for x, y in spots:
        column, row, reach = x / mm - 0.5, (width - y) / mm - 0.5, 9 / mm
        rows = slice(max(0, round(row - reach)), round(row + reach) + 1)
        columns = slice(max(0, round(column - reach)), round(column + reach) + 1)
        dark = np.clip(70.0 - joined.picture[rows, columns].mean(axis=2), 0, None)
        if dark.sum() < 60:
            found.append(np.inf)
            continue
        at = (dark.sum(axis=1) @ np.arange(len(dark)), dark.sum(axis=0) @ np.arange(dark.shape[1]))
        found.append(mm * np.hypot(at[0] / dark.sum() + rows.start - row, at[1] / dark.sum() + columns.start - column))
    return np.array(found)


@settings(max_examples=10, deadline=None, phases=AT_ONCE)
@given(seed=st.integers(0, 2**32 - 1))
def test_a_mark_on_joined_shots_is_on_the_wood(seed):
    """The target is 3 mm on a 3 m board: three shots from random places, points tapped a pixel beside."""
    joined = rectify.join_shots(shots_of(np.random.default_rng(seed)), LENGTH, WIDTH)
    assert joined.gaps == ()
    assert errors_mm(joined).max() < 3.0
    assert [overlap.disagreement_mm < 3.0 for overlap in joined.overlaps] == [True, True]


@settings(max_examples=5, deadline=None, phases=AT_ONCE)
@given(seed=st.integers(0, 2**32 - 1), k=st.floats(-0.12, 0.12))
def test_a_mark_through_a_bending_lens_is_on_the_wood(seed, k):
    stretches = [(0, 1600), (1400, 3000)]
    joined = rectify.join_shots(shots_of(np.random.default_rng(seed), stretches, slip_px=0.5, k=k), LENGTH, WIDTH)
    assert errors_mm(joined).max() < 3.0


def test_the_order_of_the_shots_makes_no_difference():
    made = shots_of(np.random.default_rng(5))
    pictures = [rectify.join_shots(order, LENGTH, WIDTH).picture for order in itertools.permutations(made)]
    assert all((picture == pictures[0]).all() for picture in pictures)


def test_photos_may_be_read_when_they_are_needed():
    made = shots_of(np.random.default_rng(5))
    read = []

    def reading(stretch):
        return rectify.Stretch(
            lambda: (read.append(stretch.name), stretch.image)[1], stretch.squaring, stretch.x0_mm, stretch.x1_mm
        )

    joined = rectify.join_shots([reading(each) for each in made], LENGTH, WIDTH)
    assert (joined.picture == rectify.join_shots(made, LENGTH, WIDTH).picture).all()
    assert sorted(read) == ["Shot 1", "Shot 2", "Shot 3"]


@pytest.mark.parametrize("which", range(3))
@pytest.mark.parametrize(
    ("wrong", "righted"), [(upside_down, "turned"), (edges_swapped, "mirrored"), (photo_mirrored, "mirrored")]
)
def test_a_shot_laid_wrongly_is_put_right(which, wrong, righted):
    made = shots_of(np.random.default_rng(11))
    made[which] = wrong(made[which])
    joined = rectify.join_shots(made, LENGTH, WIDTH)
    assert [each or "" for each in joined.righted] == [righted if i == which else "" for i in range(3)]
    assert errors_mm(joined).max() < 3.0


def test_two_shots_that_mirror_each_other_are_refused_by_name():
    made = shots_of(np.random.default_rng(11))
    with pytest.raises(rectify.MirroredShotError, match=r"Shot [12] .* Shot [12]"):
        rectify.join_shots([made[0], photo_mirrored(made[1])], LENGTH, WIDTH)


def test_one_shot_of_the_whole_board_is_what_warp_draws():
    rng = np.random.default_rng(2)
    seen = shoot(FACE, LENGTH, WIDTH, 0, LENGTH, rng, size=(2400, 1800), tilt_deg=20)
    squaring = rectify.square_corners(seen.see(rectify.corner_points_mm(LENGTH, WIDTH)), LENGTH, WIDTH)
    joined = rectify.join_shots([rectify.Stretch(seen.image, squaring, 0, LENGTH)], LENGTH, WIDTH)
    alone, mm_per_px = rectify.warp(seen.image, squaring, LENGTH, WIDTH)
    assert joined.mm_per_px == mm_per_px
    assert (joined.picture == alone).all()
    assert joined.overlaps == ()


def test_gaps_and_overlaps_are_told():
    made = shots_of(np.random.default_rng(3), [(0, 900), (800, 1700), (2100, 2800)])
    joined = rectify.join_shots(made, LENGTH, WIDTH, 1.0)
    assert np.allclose(joined.gaps, [(1700, 2100), (2800, 3000)], atol=1)
    assert [(round(each.x0_mm), round(each.x1_mm)) for each in joined.overlaps] == [(800, 900)]
    assert joined.picture.shape == (180, 3000, 3)
    assert (joined.picture[:, 1750:2050] == 128).all()


@pytest.mark.parametrize("shift", [(25.0, 0.0), (-60.0, 0.0), (0.0, 6.0)])
def test_overlaps_that_disagree_say_by_how_much(shift):
    made = shots_of(np.random.default_rng(8), [(0, 1150), (900, 2100)], slip_px=0.2)
    moved = relabelled(made[1], lambda mm: mm + shift)
    overlap = rectify.join_shots([made[0], moved], LENGTH, WIDTH).overlaps[0]
    assert overlap.disagreement_mm == pytest.approx(np.hypot(*shift), abs=1.5)


def test_other_wood_in_the_overlap_is_told_as_nothing_to_go_by():
    other = dotted(LENGTH, WIDTH, 0.8, np.random.default_rng(77), [])
    rng = np.random.default_rng(4)
    made = shots_of(rng, [(0, 1150)]) + shots_of(rng, [(900, 2100)], face=other)
    joined = rectify.join_shots(made, LENGTH, WIDTH)
    assert [overlap.disagreement_mm for overlap in joined.overlaps] == [None]
    assert joined.righted == (None, None)


def test_a_photo_that_ends_before_its_stretch_leaves_a_gap():
    made = shots_of(np.random.default_rng(6), [(0, 1000)])[0]
    longer = rectify.Stretch(made.image, made.squaring, 0, LENGTH)
    ((start, end),) = rectify.join_shots([longer], LENGTH, WIDTH, 1.0).gaps
    assert 1000 < start < 1600
    assert end == LENGTH


@pytest.mark.parametrize(("x0", "x1"), [(3100, 3500), (-300, 0), (800, 800), (900, 700), (float("nan"), 900)])
def test_a_stretch_off_the_board_is_refused_by_its_name(x0, x1):
    made = shots_of(np.random.default_rng(6), [(0, 1000)])[0]
    with pytest.raises(rectify.NoStretchError, match="Shot 1"):
        rectify.join_shots([rectify.Stretch(made.image, made.squaring, x0, x1, "Shot 1")], LENGTH, WIDTH)


def test_no_shot_and_no_picture_are_refused():
    with pytest.raises(rectify.NoStretchError):
        rectify.join_shots([], LENGTH, WIDTH)
    made = shots_of(np.random.default_rng(6), [(0, 1000)])[0]
    with pytest.raises(rectify.PictureError):
        rectify.join_shots([rectify.Stretch(made.image.astype(float), made.squaring, 0, 1000)], LENGTH, WIDTH)
    with pytest.raises(rectify.BoardSizeError):
        rectify.join_shots([made], 0, WIDTH)
