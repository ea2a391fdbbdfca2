"""Shapes of marks: read, written, bounded, mirrored, refused."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shopapi.craft import marks

LENGTH, WIDTH = 2400.0, 180.0

xs = st.floats(0, LENGTH)
ys = st.floats(0, WIDTH)
sizes = st.floats(0.1, 80)
points = st.tuples(xs, ys)
ellipses = st.builds(marks.Ellipse, xs, ys, sizes, sizes)
lines = st.builds(marks.Line, st.lists(points, min_size=2, max_size=6, unique=True).map(tuple), sizes)
outlines = st.builds(marks.Outline, st.lists(points, min_size=3, max_size=9).map(tuple)).filter(
    lambda outline: marks.outline_area_mm2(outline) >= 1
)
shapes = ellipses | lines | outlines


@settings(deadline=None)
@given(shapes)
def test_written_and_read_back(shape):
    assert marks.parse_shape(marks.shape_to_dict(shape)) == shape


@settings(deadline=None)
@given(shapes)
def test_mirrored_twice_is_the_same_and_keeps_its_size(shape):
    mirrored = marks.mirror_across(shape, WIDTH)
    there, back = marks.bounds(shape), marks.bounds(mirrored)
    assert back.length_mm == there.length_mm
    assert back.width_mm == pytest.approx(there.width_mm)
    assert back.y0_mm == pytest.approx(WIDTH - there.y1_mm)
    again = marks.bounds(marks.mirror_across(mirrored, WIDTH))
    assert (again.x0_mm, again.y0_mm) == pytest.approx((there.x0_mm, there.y0_mm))


@settings(deadline=None)
@given(shapes, st.floats(0, 30))
def test_the_blocked_rectangle_holds_the_shape_and_its_margin(shape, margin):
    inner, outer = marks.bounds(shape), marks.blocked_rect(shape, margin_mm=margin)
    assert outer.x0_mm == inner.x0_mm - margin
    assert outer.y1_mm == inner.y1_mm + margin
    reach = shape.width_mm / 2 if isinstance(shape, marks.Line) else 0
    places = [(shape.cx_mm, shape.cy_mm)] if isinstance(shape, marks.Ellipse) else shape.points
    for x, y in places:
        assert inner.x0_mm + reach <= x + 1e-9
        assert y + reach <= inner.y1_mm + 1e-9


@settings(deadline=None)
@given(shapes)
def test_every_shape_on_the_board_is_inside(shape):
    marks.check_inside(shape, LENGTH, WIDTH)


@pytest.mark.parametrize(
    "shape",
    [
        marks.Ellipse(2411, 90, 10, 10),
        marks.Ellipse(100, -11, 40, 40),
        marks.Line(((0, 90), (100, 200)), 2),
        marks.Outline(((0, 0), (100, 0), (100, -30))),
    ],
)
def test_outside_the_board_is_refused(shape):
    with pytest.raises(marks.MarkError, match="2400 mm long and 180 mm wide"):
        marks.check_inside(shape, LENGTH, WIDTH)


def test_a_knot_cut_by_the_edge_is_on_the_board():
    marks.check_inside(marks.Ellipse(500, 178, 30, 20), LENGTH, WIDTH)


@pytest.mark.parametrize(
    ("values", "says"),
    [
        ({}, "ellipse, a line or an outline"),
        ({"type": "circle"}, "ellipse, a line or an outline"),
        ([], "ellipse, a line or an outline"),
        ({"type": "ellipse", "cx_mm": 1, "cy_mm": 1, "rx_mm": 0, "ry_mm": 3}, "more than 0"),
        ({"type": "ellipse", "cx_mm": 1, "cy_mm": 1, "rx_mm": 3, "ry_mm": -3}, "more than 0"),
        ({"type": "ellipse", "cx_mm": float("nan"), "cy_mm": 1, "rx_mm": 3, "ry_mm": 3}, "number"),
        ({"type": "ellipse", "cx_mm": True, "cy_mm": 1, "rx_mm": 3, "ry_mm": 3}, "number"),
        ({"type": "ellipse", "cx_mm": "12", "cy_mm": 1, "rx_mm": 3, "ry_mm": 3}, "number"),
        ({"type": "ellipse", "cx_mm": 1e7, "cy_mm": 1, "rx_mm": 3, "ry_mm": 3}, "no board is that long"),
        ({"type": "ellipse", "cx_mm": 1, "cy_mm": 1, "rx_mm": 3}, "number"),
        ({"type": "ellipse", "cx_mm": 1, "cy_mm": 1, "rx_mm": 3, "ry_mm": 3, "angle": 4}, "no angle"),
        ({"type": "line", "points": [[0, 0]], "width_mm": 2}, "2 to 500"),
        ({"type": "line", "points": [[0, 0]] * 501, "width_mm": 2}, "2 to 500"),
        ({"type": "line", "points": [[5, 5], [5, 5]], "width_mm": 2}, "different ends"),
        ({"type": "line", "points": [[0, 0], [9, 9]], "width_mm": 0}, "more than 0"),
        ({"type": "line", "points": "0,0 1,1", "width_mm": 2}, "list"),
        ({"type": "line", "points": [[0, 0], [1]], "width_mm": 2}, r"\[x, y\]"),
        ({"type": "line", "points": [[0, 0], "ab"], "width_mm": 2}, r"\[x, y\]"),
        ({"type": "outline", "points": [[0, 0], [9, 9]]}, "3 to 500"),
        ({"type": "outline", "points": [[0, 0], [9, 9], [18, 18]]}, "area"),
        ({"type": "outline", "points": [[0, 0], [9, 9], [None, 18]]}, "number"),
    ],
)
def test_refused_with_what_would_work(values, says):
    with pytest.raises(marks.MarkError, match=says):
        marks.parse_shape(values)


@settings(deadline=None)
@given(shapes, st.floats(0.5, 2), st.floats(0.5, 2))
def test_stretched_and_back(shape, along, across):
    there = marks.bounds(marks.stretch(marks.stretch(shape, along, across), 1 / along, 1 / across))
    before = marks.bounds(shape)
    assert (there.x0_mm, there.y0_mm, there.x1_mm, there.y1_mm) == pytest.approx(
        (before.x0_mm, before.y0_mm, before.x1_mm, before.y1_mm), abs=1e-6
    )


@pytest.mark.parametrize("factor", [0, -1, float("nan"), float("inf")])
def test_no_board_stretches_to_nothing(factor):
    with pytest.raises(marks.MarkError):
        marks.stretch(marks.Ellipse(1, 1, 1, 1), factor, 1)


def test_negative_margin_is_refused():
    with pytest.raises(marks.MarkError, match="0 mm or more"):
        marks.blocked_rect(marks.Ellipse(1, 1, 1, 1), margin_mm=-1)


def test_every_kind_starts_with_a_shape_that_exists():
    assert set(marks.KINDS) == {
        *("knot", "check", "split", "wane", "sapwood", "bark_pocket", "worm_holes"),
        *("pitch", "stain", "pith", "snipe", "other", "figure"),
    }
    for key, kind in marks.KINDS.items():
        assert marks.kind_of(key) is kind
        assert kind.shape in {"ellipse", "line", "outline"}
        assert kind.blocks in marks.BLOCKS
        assert kind.margin_mm >= 0
    assert marks.kind_of("figure").blocks == "none"


def test_an_unknown_kind_names_the_known():
    with pytest.raises(marks.MarkError, match="bark_pocket"):
        marks.kind_of("dent")
