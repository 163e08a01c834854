"""Where a part sticks out of a box: an outline along the box's sides, and a hatch beyond them.

All in the posed frame; lines on a surface come from cutting its triangles with planes.
"""

import numpy as np

_HATCHES = 48  # lines across the part's longest side, at the most
_LEAST_STEP_MM = 1.5
_SLACK_MM = 1e-6


def sticking_out(
    posed_mm: np.ndarray, faces: np.ndarray, low_mm: np.ndarray, high_mm: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """Outline and hatch, (n, 2, 3) and (k, 2, 3) float64; both empty where nothing sticks out.

    posed_mm : (v, 3) float64; faces : (m, 3) int; low_mm, high_mm : (3,) corners of the box
    """
    low, high = np.asarray(low_mm, np.float64), np.asarray(high_mm, np.float64)
    beyond = ((posed_mm < low - _SLACK_MM) | (posed_mm > high + _SLACK_MM)).any(axis=1)
    corners = posed_mm[faces[beyond[faces].any(axis=1)]]
    if not len(corners):
        return np.zeros((0, 2, 3)), np.zeros((0, 2, 3))
    rims = []
    for axis in range(3):
        for at in (low[axis], high[axis]):
            heights = corners[..., axis] - at
            crossed = (heights.min(axis=1) < 0) & (heights.max(axis=1) > 0)
            lines = _cuts(corners[crossed], heights[crossed])
            others = [k for k in range(3) if k != axis]
            rims.append(_inside(lines, low, high, others))
    return np.concatenate(rims), _hatch(posed_mm, corners, low, high)


def _hatch(posed_mm: np.ndarray, corners: np.ndarray, low: np.ndarray, high: np.ndarray):
    """Slanting lines on the faces, as far as they lie outside the box."""
    size = float(np.ptp(posed_mm, axis=0).max())
    step = max(size / _HATCHES, _LEAST_STEP_MM)
    along = corners @ (np.ones(3) / np.sqrt(3.0)) / step
    first = np.ceil(along.min(axis=1) + 1e-12).astype(np.int64)
    count = np.maximum(np.floor(along.max(axis=1) - 1e-12).astype(np.int64) - first + 1, 0)
    face = np.repeat(np.arange(len(corners)), count)
    start = np.repeat(np.cumsum(count) - count, count)
    plane = first[face] + np.arange(len(face)) - start
    lines = _cuts(corners[face], along[face] - plane[:, None])
    entry, leaving = _clip(lines, low, high, range(3))
    a, b = lines[:, :1], lines[:, 1:]
    before = np.concatenate([a, a + entry[:, None, None] * (b - a)], axis=1)[entry > 1e-9]
    after = np.concatenate([a + leaving[:, None, None] * (b - a), b], axis=1)[leaving < 1 - 1e-9]
    return np.concatenate([before, after])


def _cuts(corners: np.ndarray, heights: np.ndarray) -> np.ndarray:
    """(n, 2, 3) the lines in which triangles (n, 3, 3) cross a plane; heights (n, 3) over it."""
    above = heights >= 0
    odd = np.where(above.sum(axis=1) == 1, above.argmax(axis=1), (~above).argmax(axis=1))
    rows = np.arange(len(corners))
    ends = []
    for other in (1, 2):
        one, two = odd, (odd + other) % 3
        p, q = heights[rows, one], heights[rows, two]
        share = np.divide(p, p - q, out=np.zeros_like(p), where=p != q)[:, None]
        ends.append(corners[rows, one] + share * (corners[rows, two] - corners[rows, one]))
    return np.stack(ends, axis=1) if len(corners) else np.zeros((0, 2, 3))


def _clip(lines: np.ndarray, low: np.ndarray, high: np.ndarray, axes) -> tuple:
    """(n,) where each line enters and leaves the box, 0 to 1; both 1 where it misses it."""
    entry, leaving = np.zeros(len(lines)), np.ones(len(lines))
    for axis in axes:
        start, way = lines[:, 0, axis], lines[:, 1, axis] - lines[:, 0, axis]
        level = np.abs(way) < 1e-12
        within = (start >= low[axis] - _SLACK_MM) & (start <= high[axis] + _SLACK_MM)
        with np.errstate(divide="ignore", invalid="ignore"):
            first, second = (low[axis] - start) / way, (high[axis] - start) / way
        near = np.where(level, np.where(within, 0.0, 2.0), np.minimum(first, second))
        far = np.where(level, np.where(within, 1.0, -1.0), np.maximum(first, second))
        entry, leaving = np.maximum(entry, near), np.minimum(leaving, far)
    missed = entry >= leaving
    return np.where(missed, 1.0, entry), np.where(missed, 1.0, leaving)


def _inside(lines: np.ndarray, low: np.ndarray, high: np.ndarray, axes: list[int]) -> np.ndarray:
    """(k, 2, 3) what of the lines lies within the box along two axes."""
    entry, leaving = _clip(lines, low, high, axes)
    a, way = lines[:, :1], lines[:, 1:] - lines[:, :1]
    kept = np.concatenate(
        [a + entry[:, None, None] * way, a + leaving[:, None, None] * way], axis=1
    )
    return kept[leaving - entry > 1e-9]
