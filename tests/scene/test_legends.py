"""Legends: every colour of a lens is named, carries its unit, and needs no colour vision alone."""

from itertools import combinations

import numpy as np
import pytest

from viewer.geometry.print_settings import PrintSettings
from viewer.scene import palettes
from viewer.scene.legends import Hatch, legend
from viewer.scene.lenses import Lens
from viewer.scene.themes import DARK, LIGHT


def luminance(colour) -> float:
    """Relative luminance (WCAG 2.2)."""
    parts = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in colour]
    return float(np.dot(parts, [0.2126, 0.7152, 0.0722]))


def contrast(one, other) -> float:
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_contrast_agrees_with_published_values():
    """Row 40: black on white 21, #767676 on white 4.54, vermilion on white 3.87 (CALC)."""
    assert contrast((0, 0, 0), (1, 1, 1)) == pytest.approx(21)
    assert contrast(palettes.colour("767676"), (1, 1, 1)) == pytest.approx(4.54, abs=0.005)
    assert contrast(palettes.VERMILION, (1, 1, 1)) == pytest.approx(3.87, abs=0.005)


@pytest.mark.parametrize("theme", [LIGHT, DARK])
def test_text_and_graphics_reach_wcag(theme):
    for behind in (theme.background_top, theme.background_bottom, theme.card, theme.platform):
        assert contrast(theme.text, behind) >= 4.5
        assert contrast(theme.ring, behind) >= 3.0
        assert contrast(theme.accent, behind) >= 3.0
    for colour in palettes.CLASS_COLOURS:
        # Lines on the part: dark on every class; the pointer's line shows by itself or its halo.
        assert contrast(theme.contour, colour) >= 3.0
        assert max(contrast(theme.accent, colour), contrast(theme.halo, colour)) >= 1.4
    assert contrast(theme.accent, theme.halo) >= 4.5


@pytest.mark.parametrize("lens", list(Lens))
def test_no_two_entries_differ_by_colour_alone(lens):
    entries = legend(lens, PrintSettings()).entries
    for one, other in combinations(entries, 2):
        assert (one.hatch, one.letter) != (other.hatch, other.letter)


@pytest.mark.parametrize("lens", list(Lens))
def test_every_scale_has_a_unit_and_every_lens_an_explanation(lens):
    shown = legend(lens, PrintSettings())
    assert shown.title
    assert shown.explanation.endswith(".")
    assert (shown.scale is None) == (shown.unit == "")
    assert all(entry.label for entry in shown.entries)


def test_overhang_runs_from_a_ceiling_to_the_limit():
    scale = legend(Lens.OVERHANG, PrintSettings(support_limit_deg=50.0)).scale
    assert (scale.low, scale.high, scale.mark) == (0.0, 50.0, 50.0)
    assert scale.mark_label == "support limit 50°"
    assert luminance(scale.stops[0]) < luminance(scale.stops[-1])  # dark at the ceiling


def test_a_limit_of_0_has_nothing_to_show():
    assert legend(Lens.OVERHANG, PrintSettings(support_limit_deg=0.0)).scale is None


def test_terraces_run_to_three_roads_with_the_road_marked():
    scale = legend(Lens.TERRACES, PrintSettings(road_mm=0.5)).scale
    assert (scale.low, scale.high, scale.mark, scale.above) == (0.0, 1.5, 0.5, "+")
    assert scale.mark_label == "road width 0.5 mm"


def test_class_letters():
    letters = [entry.letter for entry in legend(Lens.CLASSES, PrintSettings()).entries]
    assert letters == ["A", "B", "–"]


def test_landing_is_dotted_and_touch_is_striped():
    entries = legend(Lens.TOUCH, PrintSettings()).entries
    for entry in entries:
        if entry.label.startswith("landing"):
            assert entry.hatch is Hatch.DOTS
        if entry.label.startswith("touch"):
            assert entry.hatch in (Hatch.RISING, Hatch.FALLING, Hatch.LEVEL)


@pytest.mark.parametrize("name", ["lajolla", "lapaz"])
def test_maps_are_ordered_and_smooth(name):
    """Crameri's maps rise steadily in lightness and have no jumps (Crameri et al. 2020, READ)."""
    table = palettes.crameri(name)
    assert table.shape == (256, 3)
    lightness = [luminance(row) ** (1 / 2.4) for row in table]
    assert np.all(np.diff(lightness) > -1e-3)
    assert np.abs(np.diff(table, axis=0)).max() < 0.02


def test_hatches_stand_out_from_their_colour():
    """WCAG 2.2, 1.4.11: 3:1 for what carries a meaning; on every colour that is hatched."""
    hatched = [
        entry.colour
        for lens in Lens
        for entry in legend(lens, PrintSettings()).entries
        if entry.hatch not in (Hatch.NONE, Hatch.TRANSLUCENT)
    ]
    for colour in (*hatched, *palettes.difference_table()):
        assert contrast(colour, palettes.ink_on(tuple(colour))) >= 3.0
