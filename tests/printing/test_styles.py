"""The printed look holds up in black and white, and no type is smaller than its reader can see."""

import pytest
from reportlab.lib.colors import Color

from shopapi.printing import styles


def luminance(colour: Color) -> float:
    """Relative luminance. Source: WCAG 2.1, definition of relative luminance."""
    parts = [
        c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in (colour.red, colour.green, colour.blue)
    ]
    return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]


@pytest.mark.parametrize("ground", ["WHITE", "SHADE"])
@pytest.mark.parametrize("ink", ["GRAPHITE", "PENCIL", "CRAYON"])
def test_every_ink_stands_out_by_lightness_alone(ink, ground):
    """At least 4.5 to 1, which does not depend on hue, so it holds on a black-and-white printer."""
    dark, light = luminance(getattr(styles, ink)), luminance(getattr(styles, ground))
    assert (light + 0.05) / (dark + 0.05) >= 4.5


def test_sizes_of_type():
    sheet = styles.sheet()
    assert styles.SHOP_MEASURE_PT >= 18
    assert min(style.fontSize for name, style in sheet.items() if name.startswith("shop")) >= 14
    assert min(style.fontSize for style in sheet.values()) >= 9
    assert all(style.leading >= style.fontSize for style in sheet.values())


def test_every_style_is_used():
    from pathlib import Path

    folder = Path(styles.__file__).parent
    code = "".join(file.read_text() for file in folder.rglob("*.py") if file.name != "styles.py")
    assert [name for name in styles.sheet() if f'"{name}"' not in code and name != "strong"] == []
