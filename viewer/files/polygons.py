"""Split polygons into triangles, concave ones without leaving their outline.

Triangles, and polygons that are convex seen along their normal, become fans. Quads with a dent
are split at the dent. Other dented polygons are projected along their Newell normal and go to
manifold3d's triangulator.
"""

import manifold3d
import numpy as np

from viewer.geometry.compiled import compiled
from viewer.progress import Progress

_CHUNK = 200_000  # polygons between two looks at the progress token


@compiled
def _newell_normal(positions, corners, normal):
    """Area-weighted normal of a closed outline (Newell's method), not scaled to length one."""
    count = len(corners)
    for axis in range(3):
        normal[axis] = 0.0
    for k in range(count):
        a, b = positions[corners[k]], positions[corners[(k + 1) % count]]
        normal[0] += (a[1] - b[1]) * (a[2] + b[2])
        normal[1] += (a[2] - b[2]) * (a[0] + b[0])
        normal[2] += (a[0] - b[0]) * (a[1] + b[1])


@compiled
def _turn(positions, p, q, r, normal):
    """Positive where the path p, q, r turns left seen against `normal`."""
    a, b, c = positions[p], positions[q], positions[r]
    ux, uy, uz = b[0] - a[0], b[1] - a[1], b[2] - a[2]
    vx, vy, vz = c[0] - b[0], c[1] - b[1], c[2] - b[2]
    return (
        (uy * vz - uz * vy) * normal[0]
        + (uz * vx - ux * vz) * normal[1]
        + (ux * vy - uy * vx) * normal[2]
    )


@compiled
def _fan_chunk(positions, starts, corners, first, last, faces, places, dented):
    """Fans for polygons first..last; a polygon that needs more is flagged and fanned for now."""
    normal = np.zeros(3)
    for polygon in range(first, last):
        begin = starts[polygon]
        count = starts[polygon + 1] - begin
        if count < 3:
            continue
        tip = 0
        if count > 3:
            outline = corners[begin : begin + count]
            _newell_normal(positions, outline, normal)
            dents, dent = 0, 0
            for k in range(count):
                turn = _turn(
                    positions,
                    outline[k - 1],
                    outline[k],
                    outline[(k + 1) % count],
                    normal,
                )
                if turn < 0:
                    dents += 1
                    dent = k
            if count == 4 and dents == 1:
                tip = dent
            elif dents > 0:
                dented[polygon] = True
        place = places[polygon]
        for k in range(1, count - 1):
            faces[place, 0] = corners[begin + tip]
            faces[place, 1] = corners[begin + (tip + k) % count]
            faces[place, 2] = corners[begin + (tip + k + 1) % count]
            place += 1


def _split_dented(positions: np.ndarray, outline: np.ndarray) -> np.ndarray | None:
    """(count − 2, 3) corner indices of a dented polygon, or None where that cannot be done."""
    points = positions[outline]
    points = points - points.mean(axis=0)
    normal = np.zeros(3)
    _newell_normal(points, np.arange(len(points)), normal)
    length = np.linalg.norm(normal)
    if not np.isfinite(length) or length == 0:
        return None
    # Looking against the larger part of the normal keeps the outline anticlockwise.
    axis = int(np.argmax(np.abs(normal)))
    u, v = (axis + 1) % 3, (axis + 2) % 3
    flat = points[:, [u, v] if normal[axis] > 0 else [v, u]]
    triangles = np.asarray(manifold3d.triangulate([np.ascontiguousarray(flat)]))
    if triangles.shape != (len(outline) - 2, 3) or len(np.unique(triangles)) != len(outline):
        return None
    return outline[triangles]


def split_polygons(
    positions: np.ndarray, starts: np.ndarray, corners: np.ndarray, progress: Progress | None = None
) -> tuple[np.ndarray, np.ndarray]:
    """Triangles of polygons, in the order of the polygons.

    positions : (n, 3) float64
    starts : (k + 1,) int64, polygon p has the corners corners[starts[p]:starts[p + 1]]
    corners : (starts[k],) int32 indices into positions
    Returns (m, 3) int32 triangles and (m,) int32, the polygon each belongs to. A polygon of c
    corners gives c − 2 triangles; with fewer than three corners it gives none. Raises Cancelled.
    """
    progress = progress or Progress()
    sizes = np.maximum(np.diff(starts) - 2, 0)
    places = np.concatenate([[0], np.cumsum(sizes)])
    faces = np.empty((int(places[-1]), 3), np.int32)
    dented = np.zeros(len(sizes), bool)
    for first in range(0, len(sizes), _CHUNK):
        last = min(first + _CHUNK, len(sizes))
        _fan_chunk(positions, starts, corners, first, last, faces, places, dented)
        progress.report(0.5 * last / len(sizes), "Splitting polygons")
    awkward = np.flatnonzero(dented)
    for done, polygon in enumerate(awkward):
        split = _split_dented(positions, corners[starts[polygon] : starts[polygon + 1]])
        if split is not None:
            faces[places[polygon] : places[polygon + 1]] = split
        if done % 100 == 0:
            progress.report(0.5 + 0.5 * done / len(awkward), "Splitting polygons")
    return faces, np.repeat(np.arange(len(sizes), dtype=np.int32), sizes)
