"""Two discs of true areas: there and back, equal areas, contours and hatches where they belong."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from viewer.geometry.direction_discs import (
    LEFT,
    RIGHT,
    contour,
    corners_round,
    direction_at,
    filled,
    hatch_lines,
    on_disc,
    on_discs,
    pixels_of,
)
from viewer.geometry.sphere_directions import angles_deg, icosphere, ring_around

SPREAD = icosphere().directions


def some_directions(count, seed=1):
    drawn = np.random.default_rng(seed).normal(size=(count, 3))
    return drawn / np.linalg.norm(drawn, axis=1)[:, None]


@given(st.integers(0, 10_000))
def test_there_and_back_is_the_same_direction(seed):
    for up in some_directions(5, seed):
        disc, place = on_discs(up[None])
        assert np.hypot(*place[0]) <= 1.0 + 1e-12
        back = direction_at(int(disc[0]), *place[0])
        assert angles_deg(back[None], up)[0] < 1e-5


def test_known_places():
    # r = √2·sin(θ/2) over √2·sin(45°): at 60° from the middle 1/√2.
    ups = np.array(
        [[0, 0, 1], [1, 0, 0], [0, 1, 0], [0, 0, -1], [np.sqrt(0.75), 0, 0.5],
         [0, np.sqrt(0.75), -0.5]], float
    )  # fmt: skip
    disc, place = on_discs(ups)
    assert disc.tolist() == [LEFT, LEFT, LEFT, RIGHT, LEFT, RIGHT]
    half = np.sqrt(0.5)
    assert place == pytest.approx(np.array([[0, 0], [1, 0], [0, 1], [0, 0], [half, 0], [0, half]]))
    # Unfolded: where the discs touch lies one direction, and y is up on both.
    assert on_disc(ups[1:3], RIGHT) == pytest.approx(np.array([[-1, 0], [0, 1]]))
    assert direction_at(LEFT, 3.0, 0.0) == pytest.approx([1, 0, 0])


def test_areas_are_true():
    """An even spread has as many directions in any two regions of the discs of equal area."""
    directions = icosphere(5).directions
    disc, place = on_discs(directions)
    assert (disc == LEFT).mean() == pytest.approx(0.5, abs=0.01)
    radius = np.hypot(*place.T)
    for part in (0.2, 0.5, 0.8):
        assert (radius**2 < part).mean() == pytest.approx(part, abs=0.01)
    for angle in (0.3, 1.2):
        turned = place @ [[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]]
        assert ((turned[:, 0] > 0.2) & (radius < 0.7)).mean() == pytest.approx(
            ((place[:, 0] > 0.2) & (radius < 0.7)).mean(), abs=0.01
        )


def test_the_triangle_round_a_direction_is_found_and_weighs_linearly():
    ups = some_directions(2000)
    corners, weights = corners_round(ups)
    assert weights.sum(axis=1) == pytest.approx(1)
    assert (weights >= 0).all()
    mean = np.einsum("kc,kcx->kx", weights, SPREAD[corners])
    mean /= np.linalg.norm(mean, axis=1)[:, None]
    assert np.einsum("kx,kx->k", mean, ups).min() > np.cos(np.radians(1e-4))
    # Corners of the spread lie in a triangle of their own, wholly.
    corners, weights = corners_round(SPREAD)
    assert (corners[np.arange(len(SPREAD)), weights.argmax(axis=1)] == np.arange(len(SPREAD))).all()


def test_a_picture_shows_a_smooth_measure_as_it_is():
    for disc, sign in ((LEFT, 1), (RIGHT, -1)):
        pixels = pixels_of(disc, 101)
        shown = np.full(pixels.inside.shape, np.nan)
        shown[pixels.inside] = pixels.blend(SPREAD[:, 2])
        assert shown[50, 50] == pytest.approx(sign, abs=0.01)
        x = np.full(pixels.inside.shape, np.nan)
        x[pixels.inside] = pixels.blend(SPREAD[:, 0])
        assert x[50, 98] * sign > 0.9
        assert np.isfinite(shown).sum() == pytest.approx(np.pi / 4 * 101**2, rel=0.01)


def test_what_is_not_known_yet_follows_its_neighbours():
    values = SPREAD[:, 0].copy()
    coarse = values.copy()
    coarse[162:] = np.nan
    assert np.abs(filled(coarse, SPREAD) - values).max() < 0.15
    assert (filled(coarse, SPREAD)[:162] == values[:162]).all()
    assert filled(values, SPREAD) is values
    assert np.isnan(filled(np.full(5, np.nan), SPREAD[:5])).all()


def test_a_contour_of_height_is_a_circle_of_latitude():
    ends = contour(SPREAD[:, 2], 0.5)
    assert ends[:, :, 2] == pytest.approx(0.5, abs=0.003)
    length = np.linalg.norm(ends[:, 0] - ends[:, 1], axis=1).sum()
    assert length == pytest.approx(2 * np.pi * np.sqrt(0.75), rel=0.01)
    assert len(contour(SPREAD[:, 2], 2.0)) == 0
    assert len(contour(np.full(len(SPREAD), np.nan), 0.5)) == 0


def test_the_outline_of_a_cap_goes_round_it():
    up = some_directions(1, 3)[0]
    inside = (angles_deg(SPREAD, up) < 30).astype(float)
    ends = contour(inside, 0.5).reshape(-1, 3)
    assert np.abs(angles_deg(ends, up) - 30).max() < 4.5  # the spread is some 4° apart
    turns = ring_around(up, 30, 12)
    assert all(angles_deg(ends, each).min() < 5 for each in turns)


@pytest.mark.parametrize("angle_deg", [0, 45, 90, 135])
def test_hatch_lines_cover_what_is_inside_and_nothing_else(angle_deg):
    size = 201
    ticks = (np.arange(size) + 0.5) / size * 2 - 1
    x, y = np.meshgrid(ticks, -ticks)
    inside = (x > 0) & (y > 0.2) & (x * x + y * y <= 1)
    lines = hatch_lines(inside, angle_deg, 0.1)
    middles = lines.mean(axis=1)
    assert (middles[:, 0] > -0.02).all()
    assert (middles[:, 1] > 0.18).all()
    length = np.linalg.norm(lines[:, 1] - lines[:, 0], axis=1).sum()
    assert length * 0.1 == pytest.approx(inside.sum() * (2 / size) ** 2, rel=0.06)
    along = lines[:, 1] - lines[:, 0]
    along = along[np.hypot(*along.T) > 0.1]
    across = np.array([-np.sin(np.radians(angle_deg)), np.cos(np.radians(angle_deg))])
    assert np.abs(along @ across).max() < 1e-9
