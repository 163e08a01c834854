"""Which faces an upright line meets: faces in square bins, turned so that no edge lines up.

A point lies inside a closed shell if the faces above it, counted +1 where the shell is left and −1
where it is entered, do not cancel out (the winding number along a ray, for a closed surface).
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.geometry.point_box import point_box
from viewer.progress import Progress

_LOOK_BITS = LOOK_BITS >> 6  # a face may lie over many bins

# A turn about a skew axis: edges of made parts run along the axes of the file, so that after this
# turn no line runs exactly through an edge or vertex.
_HALF = 0.5 * 1.1370241
_AXIS = np.array([0.5346, 0.3518, 0.7684])
_Q = np.array([np.cos(_HALF), *(np.sin(_HALF) * _AXIS / np.linalg.norm(_AXIS))])
SKEW = np.array(
    [
        [1 - 2 * (_Q[2] ** 2 + _Q[3] ** 2), 2 * (_Q[1] * _Q[2] - _Q[0] * _Q[3]),
         2 * (_Q[1] * _Q[3] + _Q[0] * _Q[2])],
        [2 * (_Q[1] * _Q[2] + _Q[0] * _Q[3]), 1 - 2 * (_Q[1] ** 2 + _Q[3] ** 2),
         2 * (_Q[2] * _Q[3] - _Q[0] * _Q[1])],
        [2 * (_Q[1] * _Q[3] - _Q[0] * _Q[2]), 2 * (_Q[2] * _Q[3] + _Q[0] * _Q[1]),
         1 - 2 * (_Q[1] ** 2 + _Q[2] ** 2)],
    ]
)  # fmt: skip


class UprightLines(NamedTuple):
    """Faces in bins over a skew ground plane; see `bin_faces`."""

    corners: np.ndarray  # (m, 3, 3) float64, turned by SKEW
    low: np.ndarray  # (2,) float64, corner of the bins
    per_mm: np.ndarray  # (2,) float64, bins per mm
    bins: int  # along each side
    starts: np.ndarray  # (bins² + 1,) int32
    faces: np.ndarray  # int32, faces of bin i are faces[starts[i]:starts[i + 1]]


def bin_faces(corners_mm: np.ndarray, progress: Progress | None = None) -> UprightLines:
    """Sort faces into bins for `inside_counts` and `windings`.

    corners_mm : (m, 3, 3) float64, corners of the faces in part coordinates
    Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    corners = _turn(np.ascontiguousarray(corners_mm), SKEW, progress.stop_flag)
    progress.check()
    bins = int(np.clip(np.sqrt(len(corners)), 1, 1024))
    low, high = point_box(corners.reshape(-1, 3))[0][:, :2]
    progress.check()
    per_mm = bins / (np.maximum(high - low, 1e-9) * (1 + 1e-9))
    starts, members = _fill_bins(corners, low, per_mm, bins, progress.stop_flag)
    progress.check()
    return UprightLines(corners, low, per_mm, bins, starts, members)


@compiled
def _turn(corners, rotation, stop):
    turned = np.empty_like(corners)
    for f in range(len(corners)):
        if f & LOOK_BITS == 0 and stop[0]:
            break
        for k in range(3):
            x, y, z = corners[f, k, 0], corners[f, k, 1], corners[f, k, 2]
            for axis in range(3):
                row = rotation[axis]
                turned[f, k, axis] = row[0] * x + row[1] * y + row[2] * z
    return turned


@compiled
def _bin_range(corners, f, axis, low, per_mm, bins):
    a, b, c = corners[f, 0, axis], corners[f, 1, axis], corners[f, 2, axis]
    first = int((min(a, b, c) - low[axis]) * per_mm[axis])
    last = int((max(a, b, c) - low[axis]) * per_mm[axis])
    return max(first, 0), min(last, bins - 1)


@compiled
def _fill_bins(corners, low, per_mm, bins, stop):
    starts = np.zeros(bins * bins + 1, np.int64)
    for f in range(len(corners)):
        if f & _LOOK_BITS == 0 and stop[0]:
            return starts, np.empty(0, np.int32)
        i0, i1 = _bin_range(corners, f, 0, low, per_mm, bins)
        j0, j1 = _bin_range(corners, f, 1, low, per_mm, bins)
        for i in range(i0, i1 + 1):
            for j in range(j0, j1 + 1):
                starts[i * bins + j + 1] += 1
    for b in range(bins * bins):
        starts[b + 1] += starts[b]
    members = np.empty(starts[-1], np.int32)
    place = starts[:-1].copy()
    for f in range(len(corners)):
        if f & _LOOK_BITS == 0 and stop[0]:
            break
        i0, i1 = _bin_range(corners, f, 0, low, per_mm, bins)
        j0, j1 = _bin_range(corners, f, 1, low, per_mm, bins)
        for i in range(i0, i1 + 1):
            for j in range(j0, j1 + 1):
                members[place[i * bins + j]] = f
                place[i * bins + j] += 1
    return starts, members


@compiled
def bin_of(lines, x, y):
    """Index of the bin over (x, y), −1 outside all bins."""
    i = int(np.floor((x - lines.low[0]) * lines.per_mm[0]))
    j = int(np.floor((y - lines.low[1]) * lines.per_mm[1]))
    if i < 0 or j < 0 or i >= lines.bins or j >= lines.bins:
        return -1
    return i * lines.bins + j


@compiled
def crossing(corners, f, x, y):
    """Whether the line over (x, y) meets face f, and at which height.

    +1 if a walk up the line leaves through the face (by its winding), −1 if it enters, 0 if it
    misses. Signs of the three edge functions decide (half-plane test).
    """
    ax, ay = corners[f, 0, 0] - x, corners[f, 0, 1] - y
    bx, by = corners[f, 1, 0] - x, corners[f, 1, 1] - y
    cx, cy = corners[f, 2, 0] - x, corners[f, 2, 1] - y
    wa = bx * cy - by * cx
    wb = cx * ay - cy * ax
    wc = ax * by - ay * bx
    up = wa > 0 and wb > 0 and wc > 0
    down = wa < 0 and wb < 0 and wc < 0
    if not (up or down):
        return 0, 0.0
    height = wa * corners[f, 0, 2] + wb * corners[f, 1, 2] + wc * corners[f, 2, 2]
    return 1 if up else -1, height / (wa + wb + wc)
