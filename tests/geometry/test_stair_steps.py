"""Cusp, terrace width and ideal roughness: rows 1 to 8 of the check values (CALC)."""

import pytest

from viewer.geometry.stair_steps import (
    cusp_height_mm,
    ideal_roughness_um,
    step_along_slope_mm,
    terrace_width_mm,
)


@pytest.mark.parametrize(
    ("layer", "slope", "cusp", "terrace", "roughness"),
    [
        (0.2, 5, 0.1992, 2.286, 49.8),
        (0.2, 10, 0.1970, 1.134, 49.2),
        (0.2, 30, 0.1732, 0.3464, 43.3),
        (0.2, 45, 0.1414, 0.200, 35.4),
        (0.2, 60, 0.1000, 0.1155, 25.0),
        (0.1, 10, 0.0985, 0.567, 24.6),
        (0.3, 15, 0.2898, 1.120, 72.4),
        (0.2, 0, 0, 0, 0),
        (0.2, 90, 0, 0, 0),
    ],
)
def test_rows_1_to_8(layer, slope, cusp, terrace, roughness):
    assert cusp_height_mm(layer, slope) == pytest.approx(cusp, abs=6e-5)
    assert terrace_width_mm(layer, slope) == pytest.approx(terrace, abs=6e-4)
    assert ideal_roughness_um(layer, slope) == pytest.approx(roughness, abs=0.06)


def test_step_along_a_slope_of_30_degrees():
    """Row 3 (CALC)."""
    assert step_along_slope_mm(0.2, 30) == pytest.approx(0.4, abs=1e-12)
