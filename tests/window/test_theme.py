"""Both themes can be read: WCAG 2.2 asks 4.5:1 for text and 3:1 for controls."""

import pytest
from PySide6.QtGui import QPalette

from viewer.window.theme import DARK, LIGHT, contrast_ratio, palette_of

TEXT_PAIRS = [
    ("text", "window"),
    ("text", "card"),
    ("text", "hover"),
    ("text", "accent_soft"),
    ("quiet_text", "window"),
    ("quiet_text", "card"),
    ("quiet_text", "accent_soft"),
    ("accent_text", "accent"),
    ("notice_text", "notice"),
]
CONTROL_PAIRS = [("edge", "window"), ("edge", "card"), ("accent", "window"), ("accent", "card")]


@pytest.mark.parametrize(
    ("one", "other", "expected"),
    [
        # check-values 40, CALC from the WCAG 2.2 definition of relative luminance
        ("#000000", "#ffffff", 21.0),
        ("#767676", "#ffffff", 4.54),
        ("#d55e00", "#ffffff", 3.87),
        ("#d55e00", "#1e1e1e", 4.31),
        ("#f0e442", "#ffffff", 1.32),
    ],
)
def test_contrast_of_known_pairs(one, other, expected):
    assert contrast_ratio(one, other) == pytest.approx(expected, abs=0.006)
    assert contrast_ratio(other, one) == contrast_ratio(one, other)


@pytest.mark.parametrize("theme", [LIGHT, DARK], ids=lambda theme: theme.name)
@pytest.mark.parametrize(("front", "back"), TEXT_PAIRS)
def test_text_can_be_read(theme, front, back):
    assert contrast_ratio(getattr(theme, front), getattr(theme, back)) >= 4.5


@pytest.mark.parametrize("theme", [LIGHT, DARK], ids=lambda theme: theme.name)
@pytest.mark.parametrize(("front", "back"), CONTROL_PAIRS)
def test_controls_can_be_seen(theme, front, back):
    assert contrast_ratio(getattr(theme, front), getattr(theme, back)) >= 3.0


@pytest.mark.parametrize("theme", [LIGHT, DARK], ids=lambda theme: theme.name)
def test_the_palette_qt_gets_can_be_read(theme, qapp):
    palette, role = palette_of(theme), QPalette.ColorRole
    for front, back in (
        (role.WindowText, role.Window),
        (role.Text, role.Base),
        (role.ButtonText, role.Button),
        (role.PlaceholderText, role.Base),
        (role.ToolTipText, role.ToolTipBase),
        (role.HighlightedText, role.Highlight),
        (role.Link, role.Window),
    ):
        names = (palette.color(front).name(), palette.color(back).name())
        assert contrast_ratio(*names) >= 4.5, (front, back, names)
