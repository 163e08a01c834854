"""Sizes that make one ask for the unit, and the unit they look like."""

import pytest

from viewer.geometry.unit_doubt import unit_doubt


@pytest.mark.parametrize(
    ("size", "suggested", "words"),
    [
        ((0.11, 0.05, 0.02), "m", "metres"),
        ((0.125, 0.038, 0.045), "m", "metres"),  # the grip drawn in metres
        ((4.921, 1.496, 1.772), "inch", "inches"),  # the grip, 25.4 times too small
        ((5, 2.5, 1.375), "inch", "inches"),
        ((7.25, 4.5, 3.75), "inch", "inches"),
        ((0.001, 0.002, 0.003), "", "which unit"),
        ((125_000, 38_000, 45_000), "", "larger than most machines"),
    ],
)
def test_odd_sizes_are_asked_about(size, suggested, words):
    question, unit = unit_doubt(size)
    assert unit == suggested
    assert words in question
    assert f"{size[0]:.3g}" in question


@pytest.mark.parametrize(
    "size", [(125, 38, 45), (10, 20, 30), (10, 1, 1), (950, 950, 202), (0, 0, 0)]
)
def test_usual_sizes_are_not(size):
    assert unit_doubt(size) == ("", "")


@pytest.mark.parametrize("size", [(11, 30, 4), (80, 50, 20), (254, 254, 300), (390, 2, 2)])
def test_a_part_drawn_in_metres_is_told(size):
    assert unit_doubt([side / 1000 for side in size])[1] == "m"


@pytest.mark.parametrize("size", [(30, 11, 4), (80, 50, 20), (210, 200, 250)])
def test_a_part_drawn_in_inches_is_told(size):
    assert unit_doubt([side / 25.4 for side in size])[1] == "inch"
