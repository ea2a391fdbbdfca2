"""A photograph squared, by the call and by the command, and the real wood of the reference photographs."""

import io
import json

import cv2
import numpy as np
import pytest
from django.core.management import call_command
from PIL import Image

from shopapi.boards.photographs import read_upload, square_photo
from shopapi.craft import rectify

LENGTH, WIDTH = 900.0, 200.0
CORNERS = [[60.0, 500.0], [900.0, 520.0], [820.0, 310.0], [140.0, 300.0]]


def photo(size=(1000, 700)):
    """Grey floor, brown board, a black dot 600 mm from the butt end and 50 mm from the lower edge."""
    image = np.full((size[1], size[0], 3), 128, np.uint8)
    cv2.fillConvexPoly(image, np.int32(CORNERS), (150, 110, 60))
    x, y = rectify.square_corners(CORNERS, LENGTH, WIDTH).to_photo_px([(600, 50)])[0]
    cv2.circle(image, (round(x - 0.5), round(y - 0.5)), 5, (0, 0, 0), -1)
    return image


def as_jpeg(image):
    out = io.BytesIO()
    Image.fromarray(image).save(out, "JPEG", quality=95)
    return out.getvalue()


def dot_mm(jpeg, mm_per_px):
    grey = np.asarray(Image.open(io.BytesIO(jpeg)).convert("L"))
    rows, columns = np.nonzero(grey < 50)
    return (columns.mean() + 0.5) * mm_per_px, WIDTH - (rows.mean() + 0.5) * mm_per_px


def test_the_dot_lands():
    made = square_photo(as_jpeg(photo()), CORNERS, LENGTH, WIDTH)
    assert dot_mm(made.jpeg, made.mm_per_px) == pytest.approx((600, 50), abs=1.5)
    assert Image.open(io.BytesIO(made.jpeg)).size == (made.width_px, made.height_px)
    assert made.width_px * made.mm_per_px == pytest.approx(LENGTH)
    assert made.residual_mm < 1e-6
    assert 1 < made.slip_mm < 30


def test_a_corner_outside_the_photo_is_refused():
    with pytest.raises(rectify.CornersMissingError, match=r"far-end lower.*1000 x 700"):
        square_photo(as_jpeg(photo()), [CORNERS[0], [1100, 520], *CORNERS[2:]], LENGTH, WIDTH)


def run(tmp_path, capsys, *, data=None, **options):
    source, out = tmp_path / "photo.jpg", tmp_path / "squared.jpg"
    source.write_bytes(as_jpeg(photo()) if data is None else data)
    values = {
        "length": LENGTH,
        "width": WIDTH,
        "corners": " ".join(f"{x},{y}" for x, y in CORNERS),
        "out": out,
    } | options
    arguments = [str(source)] + [f"--{name}={value}" for name, value in values.items()]
    code = 0
    try:
        call_command("rectify_photo", *arguments)
    except SystemExit as stop:
        code = stop.code
    captured = capsys.readouterr()
    return code, captured.out, captured.err, out


def test_the_command_prints_json(tmp_path, capsys):
    code, stdout, stderr, out = run(tmp_path, capsys)
    answer = json.loads(stdout)
    assert (code, stderr) == (0, "")
    assert set(answer) == {"homography", "residual_mm", "mm_per_px", "out"}
    assert answer["out"] == str(out)
    assert dot_mm(out.read_bytes(), answer["mm_per_px"]) == pytest.approx((600, 50), abs=1.5)
    board = cv2.perspectiveTransform(np.array([CORNERS]), np.array(answer["homography"]))[0]
    np.testing.assert_allclose(board, [(0, 0), (LENGTH, 0), (LENGTH, WIDTH), (0, WIDTH)], atol=1e-6)


def test_the_command_turns_the_photo_by_its_exif(tmp_path, capsys):
    sideways = Image.fromarray(photo()).transpose(Image.Transpose.ROTATE_90)
    exif = Image.Exif()
    exif[0x0112] = 6
    data = io.BytesIO()
    sideways.save(data, "JPEG", exif=exif.tobytes(), quality=95)
    code, stdout, _, out = run(tmp_path, capsys, data=data.getvalue())
    assert code == 0
    assert dot_mm(out.read_bytes(), json.loads(stdout)["mm_per_px"]) == pytest.approx((600, 50), abs=1.5)


def test_clockwise_corners_are_put_right_and_said(tmp_path, capsys):
    code, stdout, stderr, out = run(tmp_path, capsys, corners=" ".join(f"{x},{y}" for x, y in CORNERS[::-1]))
    assert code == 0
    assert "clockwise" in stderr
    assert dot_mm(out.read_bytes(), json.loads(stdout)["mm_per_px"]) == pytest.approx((600, 50), abs=1.5)


@pytest.mark.parametrize(
    ("options", "says"),
    [
        ({"length": "0"}, "length of 0 mm"),
        ({"width": "-5"}, "width of -5 mm"),
        ({"length": "nan"}, "not a number"),
        ({"length": "1e7"}, "length of 1e"),
        ({"length": "long"}, "such as 2592"),
        ({"corners": "1,2 3,4 5,6"}, "four pairs"),
        ({"corners": "1,2,3 3,4 5,6 7,8"}, "four pairs"),
        ({"corners": "a,b c,d e,f g,h"}, "four pairs"),
        ({"corners": "60,500 900,520 140,300 820,310"}, "cross over"),
        ({"corners": "60,500 480,510 900,520 140,300"}, "one line"),
        ({"corners": "60,500 900,520 820,310 140,-3"}, "outside the photo"),
        ({"data": b""}, "empty"),
        ({"data": b"not a photo at all"}, "not a photograph"),
        ({"out": "/dev/null/nowhere.jpg"}, "cannot be written"),
    ],
)
def test_the_command_refuses_in_one_line(tmp_path, capsys, options, says):
    code, stdout, stderr, out = run(tmp_path, capsys, **options)
    assert code == 2
    assert stdout == ""
    assert says in stderr
    assert len(stderr.strip().splitlines()) == 1
    assert not out.exists()


def test_a_photo_that_is_not_there(tmp_path, capsys):
    with pytest.raises(SystemExit) as stop:
        call_command(
            "rectify_photo", str(tmp_path / "none.jpg"), length="1", width="1", corners="", out=str(tmp_path / "o.jpg")
        )
    assert stop.value.code == 2
    assert "cannot be read" in capsys.readouterr().err


@pytest.fixture
def composite(reference_dir):
    return reference_dir / "photos" / "composite_3.jpg"


def test_flaws_of_the_real_wood_land_within_a_millimetre(composite):
    """Source: SOURCES.json beside the photograph; it counts y downwards from the edge that is upper in the photo."""
    known = json.loads((composite.parent / "SOURCES.json").read_text(encoding="utf-8"))
    entry = next(image for image in known["images"] if image["file"] == composite.name)
    length, width = entry["board_mm"]["length"], entry["board_mm"]["width"]
    upper_butt, upper_far, lower_far, lower_butt = entry["corners_px"]
    taken = read_upload(composite.read_bytes())
    made = square_photo(taken.upright, [lower_butt, lower_far, upper_far, upper_butt], length, width)
    for flaw in entry["boxes_mm"]:
        x0, y0, x1, y1 = flaw["x"], flaw["y"], flaw["x"] + flaw["w"], flaw["y"] + flaw["h"]
        board = [(x0, width - y0), (x1, width - y0), (x1, width - y1), (x0, width - y1)]
        mapped = cv2.perspectiveTransform(np.array([flaw["quad_px"]]), np.array(made.homography))[0]
        assert np.hypot(*(mapped - board).T).max() < 1.4  # place and size are rounded to whole mm


def test_a_dark_flaw_of_the_real_wood_is_dark_where_the_list_says(composite):
    """The missing knot at the lower edge is the darkest thing on the board."""
    made = square_photo(
        read_upload(composite.read_bytes()).upright, [[170, 1110], [3060, 1120], [2980, 980], [260, 820]], 2592, 140
    )
    grey = np.asarray(Image.open(io.BytesIO(made.jpeg)).convert("L"))

    def brightness(x, y, w, h):
        scale = made.mm_per_px
        return grey[int(y / scale) : int((y + h) / scale), int(x / scale) : int((x + w) / scale)].mean()

    hole = brightness(1218 + 3, 109 + 6, 8, 18)  # knot_missing: x 1218, y 109, w 16, h 31
    assert hole < 0.5 * brightness(1180, 60, 30, 30)
