"""Where upright lines meet the faces of a part, in plain numpy: for first numbers, and as oracle.

Lines may stand anywhere. They are sorted into square bins; each face looks at the bins under its
box only. A point is inside a triangle if the three edge functions have one sign (half-plane test);
each is worked out from the same two corners for both faces at an edge, with opposite signs to the
bit, so that no line slips between two faces. Lines through vertices are avoided by the caller, who
places them at random.
"""

from typing import NamedTuple

import numpy as np

_MOST_BINS = 512  # along a side
_MOST_PAIRS = 2_000_000  # of face and line, looked at in one go


class Crossings(NamedTuple):
    """Crossings sorted by line, then by height; at equal heights the side that leaves comes first.

    line, face : (c,) int64
    z_mm : (c,) float64
    sign : (c,) int64, +1 where the line enters the part (an underside), −1 where it leaves
    """

    line: np.ndarray
    face: np.ndarray
    z_mm: np.ndarray
    sign: np.ndarray


def crossings(points_mm: np.ndarray, faces: np.ndarray, places_mm: np.ndarray) -> Crossings:
    """All crossings of upright lines with faces.

    points_mm : (n, 3) float64, z up
    faces : (m, 3) int, wound outward
    places_mm : (k, 2) float64, x and y of the lines
    """
    x, y, z = (np.ascontiguousarray(points_mm[:, axis]) for axis in range(3))
    found = []
    for face, line in _candidates(x, y, faces, places_mm):
        corner = faces[face]
        px, py = places_mm[line, 0], places_mm[line, 1]
        ax, bx, cx = (x[corner[:, k]] - px for k in range(3))
        ay, by, cy = (y[corner[:, k]] - py for k in range(3))
        wa, wb, wc = bx * cy - by * cx, cx * ay - cy * ax, ax * by - ay * bx
        leaves = (wa > 0) & (wb > 0) & (wc > 0)
        met = np.flatnonzero(leaves | ((wa < 0) & (wb < 0) & (wc < 0)))
        wa, wb, wc, corner = wa[met], wb[met], wc[met], corner[met]
        height = wa * z[corner[:, 0]] + wb * z[corner[:, 1]] + wc * z[corner[:, 2]]
        found.append((line[met], face[met], height / (wa + wb + wc), np.where(leaves[met], -1, 1)))
    if not found:
        nothing = np.empty(0, np.int64)
        return Crossings(nothing, nothing, np.empty(0), nothing)
    line, face, height, sign = (np.concatenate(each) for each in zip(*found, strict=True))
    order = np.lexsort((sign, height, line))
    return Crossings(line[order], face[order], height[order], sign[order])


def _candidates(x, y, faces, places):
    """Yields (faces, lines) in pairs that may meet; a limited number of pairs at once."""
    if not len(places) or not len(faces):
        return
    bins = int(np.clip(np.sqrt(len(places)), 1, _MOST_BINS))
    low = places.min(axis=0)
    per_mm = bins / np.maximum((places.max(axis=0) - low) * (1 + 1e-9), 1e-9)
    column, row = np.clip(((places - low) * per_mm).astype(np.int64), 0, bins - 1).T
    bin_of_line = column * bins + row
    lines = np.argsort(bin_of_line, kind="stable")
    starts = np.searchsorted(bin_of_line[lines], np.arange(bins * bins + 1))

    first_column, last_column, beside = _bin_range(x, faces, low[0], per_mm[0], bins)
    first_row, last_row, before = _bin_range(y, faces, low[1], per_mm[1], bins)
    near = np.flatnonzero(~(beside | before))
    first_column, first_row, last_row = first_column[near], first_row[near], last_row[near]
    width = last_column[near] - first_column + 1
    # One entry for each face and column of bins; the lines of its rows follow one another.
    entry = np.repeat(np.arange(len(near)), width)
    base = (first_column[entry] + _count_up(width)) * bins
    begin = starts[base + first_row[entry]]
    count = starts[base + last_row[entry] + 1] - begin
    kept = count > 0
    entry, begin, count = entry[kept], begin[kept], count[kept]
    chunk = np.cumsum(count) // _MOST_PAIRS
    for part in np.split(np.arange(len(entry)), np.flatnonzero(np.diff(chunk)) + 1):
        if len(part):
            within = np.repeat(begin[part], count[part]) + _count_up(count[part])
            yield near[np.repeat(entry[part], count[part])], lines[within]


def _bin_range(along, faces, low, per_mm, bins):
    """First and last bin under each face on one axis, and whether it lies beside them all."""
    corners = [along[faces[:, k]] for k in range(3)]
    least = (np.minimum(np.minimum(corners[0], corners[1]), corners[2]) - low) * per_mm
    most = (np.maximum(np.maximum(corners[0], corners[1]), corners[2]) - low) * per_mm
    outside = (most < 0) | (least > bins)
    first = np.clip(least, 0, bins - 1).astype(np.int64)
    last = np.clip(most, 0, bins - 1).astype(np.int64)
    return first, last, outside


def _count_up(counts):
    """0, 1, … count − 1 for each of `counts`, one after another."""
    ends = np.cumsum(counts)
    return np.arange(ends[-1] if len(ends) else 0) - np.repeat(ends - counts, counts)
