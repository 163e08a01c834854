"""Numbers as text: enough figures, true signs, no blanks."""

import pytest

from viewer.window.quantities import (
    count_text,
    difference_text,
    error_text,
    number_text,
    size_text,
    volume_text,
)


@pytest.mark.parametrize(
    ("value", "text"),
    [(0, "0"), (0.126, "0.13"), (9.996, "10.0"), (12.34, "12.3"), (99.96, "100"),
     (1240.4, "1,240"), (-7.5, "−7.50"), (1234567.8, "1,234,568")],
)  # fmt: skip
def test_number(value, text):
    assert number_text(value) == text


@pytest.mark.parametrize(
    ("error", "value", "text"),
    [(6.2, 1240, "±6"), (0.42, 1240, "±0.4"), (0.42, 1.31, "±0.42"), (0.0, 5, ""),
     (0.001, 5, "±0.01"), (1500.0, 50_000, "±1,500")],
)  # fmt: skip
def test_error_has_figures_that_mean_something(error, value, text):
    assert error_text(error, value) == text


@pytest.mark.parametrize(
    ("value", "pinned", "text"),
    [(10.0, 12.5, "−2.5"), (1300, 1000, "+300"), (5.001, 5.002, "="), (0, 7.25, "−7.25"),
     (9.0, 9.25, "−0.25"), (7.25, 0, "+7.25")],
)  # fmt: skip
def test_difference_is_signed_and_neutral(value, pinned, text):
    assert difference_text(value, pinned) == text


def test_sizes_counts_and_volumes_have_units():
    assert size_text((125.0, 38.0, 4.5)) == "125 × 38.0 × 4.50 mm"
    assert count_text(1, "shell") == "1 shell"
    assert count_text(1200, "cavity", "cavities") == "1,200 cavities"
    assert volume_text(54362) == "54.4 cm³"
    assert volume_text(950) == "950 mm³"
