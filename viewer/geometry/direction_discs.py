"""The whole sphere of build directions as two discs side by side, in which areas are true.

Lambert's azimuthal equal-area projection of each half (Lambert 1772; Snyder 1987, "Map projections:
a working manual", USGS Professional Paper 1395, chapter 24; MEM): a direction at the angle θ from
the middle lies √2·sin(θ/2) from it, so that the rim, at 90°, has radius 1. The left disc holds the
directions with z ≥ 0, the right one the others as if unfolded about the point where both touch:
there +x lies at the right of the left disc and at the left of the right one.
"""

from functools import lru_cache
from typing import NamedTuple

import numpy as np

from viewer.geometry.mesh import frozen
from viewer.geometry.sphere_directions import USUAL_SUBDIVISIONS, icosphere

LEFT, RIGHT = 0, 1
PICTURE_PX = 181  # pixels across a disc; odd, so that one lies in its middle


def on_discs(directions: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Where (d, 3) unit directions lie: (d,) int disc and (d, 2) float64, y up, rim at radius 1."""
    directions = np.asarray(directions, np.float64)
    disc = np.where(directions[:, 2] >= 0, LEFT, RIGHT)
    return disc, on_disc(directions, disc)


def on_disc(directions: np.ndarray, disc: np.ndarray | int) -> np.ndarray:
    """(d, 2) float64 where directions lie on a given disc; beyond its rim for the other half."""
    directions = np.asarray(directions, np.float64)
    across = np.hypot(directions[:, 0], directions[:, 1])
    from_middle = np.where(np.equal(disc, LEFT), directions[:, 2], -directions[:, 2])
    radius = np.sqrt(np.maximum(1.0 - from_middle, 0.0))
    scale = np.divide(radius, across, out=np.zeros_like(across), where=across > 0)
    flipped = np.where(np.equal(disc, LEFT), 1.0, -1.0)
    return np.stack([directions[:, 0] * scale * flipped, directions[:, 1] * scale], axis=1)


def direction_at(disc: int, x: float, y: float) -> np.ndarray:
    """(3,) unit direction at a place of a disc; from beyond the rim the nearest on it."""
    return directions_at(disc, np.array([[x, y]]))[0]


def directions_at(disc: int, places: np.ndarray) -> np.ndarray:
    """(k, 3) unit directions at (k, 2) places of a disc."""
    places = np.asarray(places, np.float64)
    radius = np.hypot(places[:, 0], places[:, 1])
    places = places / np.maximum(radius, 1.0)[:, None]
    square = (places**2).sum(axis=1)
    along = np.sqrt(np.maximum(2.0 - square, 0.0))
    x = places[:, 0] * along
    y = places[:, 1] * along
    if disc == LEFT:
        return np.stack([x, y, 1.0 - square], axis=1)
    return np.stack([-x, y, square - 1.0], axis=1)


class Pixels(NamedTuple):
    """A square picture of one disc.

    inside : (n, n) bool, row 0 at the top; corners : (k, 3) int32 and weights : (k, 3) float32, of
    each pixel inside, the directions of the spread round it and how much each counts
    """

    inside: np.ndarray
    corners: np.ndarray
    weights: np.ndarray

    def blend(self, values: np.ndarray) -> np.ndarray:
        """(k,) float64: values of the spread's directions at the pixels inside, linear between."""
        return np.einsum("kc,kc->k", values[self.corners], self.weights)


@lru_cache(maxsize=4)
def pixels_of(disc: int, size_px: int = PICTURE_PX) -> Pixels:
    """The picture of a disc, over the usual spread of directions."""
    ticks = (np.arange(size_px) + 0.5) / size_px * 2.0 - 1.0
    x, y = np.meshgrid(ticks, -ticks)
    inside = x * x + y * y <= 1.0
    corners, weights = corners_round(
        directions_at(disc, np.stack([x[inside], y[inside]], axis=1))
    )  # fmt: skip
    return Pixels(frozen(inside), frozen(corners), frozen(weights.astype(np.float32)))


def corners_round(directions: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """The triangle of the usual spread that each of (k, 3) directions lies in.

    (k, 3) int32 its corners, as rows of the spread, and (k, 3) float64 weights that add up to 1
    """
    row = np.zeros(len(directions), np.int64)
    for level in range(USUAL_SUBDIVISIONS + 1):
        sphere = icosphere(level)
        # The four parts of triangle t of n are t, n + t, 2n + t and 3n + t of the next level.
        count = len(icosphere(level - 1).triangles) if level else 1
        parts = row[:, None] + count * np.arange(4 if level else len(sphere.triangles))
        weights = _weights(sphere.directions[sphere.triangles], parts, directions)
        best = weights.min(axis=2).argmax(axis=1)
        row = parts[np.arange(len(row)), best]
    found = np.maximum(weights[np.arange(len(row)), best], 0.0)
    return sphere.triangles[row], found / found.sum(axis=1)[:, None]


def _weights(triangles: np.ndarray, rows: np.ndarray, directions: np.ndarray) -> np.ndarray:
    """(k, p, 3) weights of the corners of triangles `rows` (k, p), all ≥ 0 inside."""
    sides = np.cross(triangles[:, [1, 2, 0]], triangles[:, [2, 0, 1]])
    whole = np.einsum("tx,tx->t", triangles[:, 0], sides[:, 0])
    sides = sides / whole[:, None, None]
    found = np.empty((*rows.shape, 3))
    for part in range(rows.shape[1]):
        found[:, part] = np.einsum("kcx,kx->kc", sides[rows[:, part]], directions)
    return found


def filled(values: np.ndarray, directions: np.ndarray) -> np.ndarray:
    """(d,) float64 with what is not known yet (NaN) taken from the three nearest that are.

    All NaN where nothing is known.
    """
    known = np.isfinite(values)
    if known.all() or not known.any():
        return values
    near = directions[~known] @ directions[known].T
    count = min(3, near.shape[1])
    rows = np.argpartition(-near, count - 1, axis=1)[:, :count]
    chords = np.sqrt(np.maximum(2.0 - 2.0 * np.take_along_axis(near, rows, axis=1), 1e-12))
    found = values.copy()
    found[~known] = (values[known][rows] / chords).sum(axis=1) / (1.0 / chords).sum(axis=1)
    return found


def contour(values: np.ndarray, level: float) -> np.ndarray:
    """(s, 2, 3) unit ends of the lines at which values of the spread (d,) cross a level.

    Marching triangles, linear along each side; none where values are NaN.
    """
    sphere = icosphere(USUAL_SUBDIVISIONS)
    corners = sphere.triangles
    above = values[corners] >= level
    with np.errstate(invalid="ignore"):
        mixed = (above.any(axis=1) & ~above.all(axis=1)) & np.isfinite(values[corners]).all(axis=1)
    corners, above = corners[mixed], above[mixed]
    # The corner that differs from the other two is where the line passes round.
    alone = np.where(above.sum(axis=1) == 1, above.argmax(axis=1), (~above).argmax(axis=1))
    rows = np.arange(len(corners))
    one = corners[rows, alone]
    ends = []
    for step in (1, 2):
        other = corners[rows, (alone + step) % 3]
        rise = values[other] - values[one]
        share = np.clip((level - values[one]) / np.where(rise == 0, 1.0, rise), 0.0, 1.0)
        point = sphere.directions[one] + share[:, None] * (
            sphere.directions[other] - sphere.directions[one]
        )
        ends.append(point / np.linalg.norm(point, axis=1)[:, None])
    return np.stack(ends, axis=1)


def hatch_lines(inside: np.ndarray, angle_deg: float, gap: float) -> np.ndarray:
    """(s, 2, 2) float64 ends, on the disc, of parallel lines over the pixels that are `inside`.

    inside : (n, n) bool, row 0 at the top; gap : between lines, in radii of the disc
    """
    size = len(inside)
    along = np.arange(-1.0, 1.0, 1.0 / size)
    aside = np.arange(-1.0 + gap / 2, 1.0, gap)
    c, s = np.cos(np.radians(angle_deg)), np.sin(np.radians(angle_deg))
    x = along[None, :] * c - aside[:, None] * s
    y = along[None, :] * s + aside[:, None] * c
    across = np.clip(((x + 1) / 2 * size).astype(int), 0, size - 1)
    down = np.clip(((1 - y) / 2 * size).astype(int), 0, size - 1)
    on = inside[down, across] & (x * x + y * y <= 1.0)
    steps = np.diff(np.pad(on.astype(np.int8), ((0, 0), (1, 1))), axis=1)
    line, first = np.nonzero(steps == 1)
    _, last = np.nonzero(steps == -1)
    last = last - 1
    starts = np.stack([x[line, first], y[line, first]], axis=1)
    return np.stack([starts, np.stack([x[line, last], y[line, last]], axis=1)], axis=1)
