"""Balls round blocks of points, to find the lowest and the highest of a turned part.

Points follow one another in a file much as they lie on the part. Where they do not, more of them
are looked at; the answer is the same.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled

_BLOCK = 32


class PointBlocks(NamedTuple):
    """Block i holds points 32·i up to 32·(i + 1).

    middles_mm : (b, 3) float64; radii_mm : (b,) float64
    """

    middles_mm: np.ndarray
    radii_mm: np.ndarray


def block_points(points_mm: np.ndarray) -> PointBlocks:
    """Blocks of (n, 3) float64 points."""
    return PointBlocks(*_blocks(points_mm))


@compiled
def _blocks(points):
    count = (len(points) + _BLOCK - 1) // _BLOCK
    middles, radii = np.empty((count, 3)), np.empty(count)
    for i in range(count):
        block = points[_BLOCK * i : _BLOCK * (i + 1)]
        for axis in range(3):
            low, high = np.inf, -np.inf
            for k in range(len(block)):
                low, high = min(low, block[k, axis]), max(high, block[k, axis])
            middles[i, axis] = 0.5 * (low + high)
        far = 0.0
        for k in range(len(block)):
            square = 0.0
            for axis in range(3):
                square += (block[k, axis] - middles[i, axis]) ** 2
            far = max(far, square)
        radii[i] = np.sqrt(far) * (1 + 1e-12)
    return middles, radii


@compiled
def lowest_and_highest(points, blocks, up):
    """Least and greatest height along `up` ((3,) float64, unit) of (n, 3) float64 points.

    All points of a block lie at or below the top of its ball. So the lowest point of all does, too,
    and no block whose ball lies wholly above that height holds it.
    """
    heights = np.empty(len(blocks.radii_mm))
    low, high = np.inf, -np.inf
    for i in range(len(heights)):
        heights[i] = height_of(blocks.middles_mm[i], up)
        low = min(low, heights[i] + blocks.radii_mm[i])
        high = max(high, heights[i] - blocks.radii_mm[i])
    slack = 1e-9 * (abs(low) + abs(high))  # for rounding
    low_bound, high_bound = low + slack, high - slack
    low, high = np.inf, -np.inf
    for i in range(len(heights)):
        reach = blocks.radii_mm[i]
        if heights[i] - reach > low_bound and heights[i] + reach < high_bound:
            continue
        for k in range(_BLOCK * i, min(_BLOCK * (i + 1), len(points))):
            height = height_of(points[k], up)
            low, high = min(low, height), max(high, height)
    return low, high


@compiled
def lowest_and_highest_of_all(points, up):
    """The same by a look at all points, for those that are turned once."""
    low, high = np.inf, -np.inf
    for i in range(len(points)):
        height = height_of(points[i], up)
        low, high = min(low, height), max(high, height)
    return low, high


@compiled
def height_of(point, up):
    """Height of a point along `up`, which is the last row of a rotation."""
    return up[0] * point[0] + up[1] * point[1] + up[2] * point[2]
