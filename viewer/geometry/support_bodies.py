"""Support columns as closed bodies to draw: tops, bottoms, and walls where a neighbour is lower.

Each column fills its grid cell between its two heights. A wall is needed only over the heights at
which the neighbouring cell holds no column, so that touching columns melt into one body.
"""

from dataclasses import dataclass

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.support_columns import SupportColumns


@dataclass(frozen=True, eq=False)
class Quads:
    """Loose rectangles, four corners each, anticlockwise seen from outside.

    corners_mm : (q, 4, 3) float32, in the posed frame
    """

    corners_mm: np.ndarray

    def __len__(self) -> int:
        return len(self.corners_mm)


def support_bodies(columns: SupportColumns) -> Quads:
    """Closed surface of the supports; its volume is the sum of height × pitch² over the columns.

    Columns in one cell must not overlap in height. Inner walls between columns that stand side by
    side are left out.
    """
    starts, order = _by_cell(columns.cell, columns.bottom_mm, columns.shape[0] * columns.shape[1])
    bottom, top = columns.bottom_mm[order], columns.top_mm[order]
    cell = columns.cell[order]
    count = _wall_count(starts, cell, bottom, top, *columns.shape) + 2 * len(cell)
    corners = np.empty((count, 4, 3), np.float32)
    x0, y0 = (float(v) - columns.pitch_mm / 2 for v in columns.origin_mm)
    _fill(starts, cell, bottom, top, *columns.shape, x0, y0, columns.pitch_mm, corners)
    return Quads(corners)


def platform_footprint(columns: SupportColumns, height_mm: float = 0.0) -> Quads:
    """The cells in which a support stands on the platform, as level squares at `height_mm`."""
    cell = columns.cell[columns.bottom_face < 0]
    corners = _cell_corners_mm(columns, cell)
    heights = np.full((len(cell), 4, 1), height_mm)
    return Quads(np.concatenate([corners, heights], axis=2).astype(np.float32))


def footprint_rim(columns: SupportColumns) -> np.ndarray:
    """(e, 2, 3) float32 pieces of line at z = 0 round the cells in which a support stands."""
    nx, ny = columns.shape
    stands = np.zeros((nx + 2, ny + 2), bool)
    ix, iy = np.divmod(columns.cell[columns.bottom_face < 0], ny)
    stands[ix + 1, iy + 1] = True
    pieces = []
    for axis in (0, 1):
        before = np.take(stands, range(stands.shape[axis] - 1), axis)
        after = np.take(stands, range(1, stands.shape[axis]), axis)
        # A change between two cells is a piece of rim along the side they share.
        place = np.argwhere(before != after).astype(np.float64) - 0.5
        place[:, 1 - axis] -= 1.0
        end = place + (np.array([0.0, 1.0]) if axis == 0 else np.array([1.0, 0.0]))
        pieces.append(np.stack([place, end], axis=1))
    flat = np.concatenate(pieces) * columns.pitch_mm + np.asarray(columns.origin_mm, np.float64)
    return np.concatenate([flat, np.zeros((*flat.shape[:2], 1))], axis=2).astype(np.float32)


def marks_on_faces(
    columns: SupportColumns, corners_mm: np.ndarray, normals: np.ndarray, end: str, lift_mm: float
) -> tuple[Quads, np.ndarray]:
    """Where columns end on the part, as one patch per column on the plane of the face it ends on.

    corners_mm : (m, 3) float64, one corner of each face in the posed frame; normals : (m, 3),
    unit, posed; end : "bottom" for landing, "top" for touch; lift_mm : along the normal, so that a
    patch does not flicker with its face. Returns the patches and (q,) int32 the face of each.
    A patch on a steep face rises at most two pitches above or below its middle.
    """
    face = columns.bottom_face if end == "bottom" else columns.top_face
    middle = columns.bottom_mm if end == "bottom" else columns.top_mm
    chosen = face >= 0
    face, middle = face[chosen], middle[chosen].astype(np.float64)
    plan = _cell_corners_mm(columns, columns.cell[chosen])
    normal, on_plane = normals[face], corners_mm[face]
    slope = -normal[:, :2] / np.where(np.abs(normal[:, 2:]) > 1e-9, normal[:, 2:], 1e-9)
    offset = plan - on_plane[:, None, :2]
    heights = on_plane[:, None, 2] + np.einsum("qkx,qx->qk", offset, slope)
    reach = 2.0 * columns.pitch_mm
    heights = np.clip(heights, middle[:, None] - reach, middle[:, None] + reach)
    corners = np.concatenate([plan, heights[:, :, None]], axis=2) + lift_mm * normal[:, None, :]
    if end == "top":  # seen from below
        corners = corners[:, ::-1]
    return Quads(corners.astype(np.float32)), face


def _cell_corners_mm(columns: SupportColumns, cell: np.ndarray) -> np.ndarray:
    """(q, 4, 2) float64 corners of grid cells, anticlockwise seen from above."""
    middle = np.stack(np.divmod(cell, columns.shape[1]), axis=1) * columns.pitch_mm
    middle = middle + np.asarray(columns.origin_mm, np.float64)
    half = columns.pitch_mm / 2
    around = np.array([[-half, -half], [half, -half], [half, half], [-half, half]])
    return middle[:, None, :] + around


@compiled
def _by_cell(cell, bottom, cell_count):
    """Where each cell's columns start, and the order that sorts columns by cell, then height."""
    starts = np.zeros(cell_count + 1, np.int64)
    for c in cell:
        starts[c + 1] += 1
    for c in range(cell_count):
        starts[c + 1] += starts[c]
    order = np.empty(len(cell), np.int64)
    filled = starts[:-1].copy()
    for k in range(len(cell)):
        at = filled[cell[k]]
        while at > starts[cell[k]] and bottom[order[at - 1]] > bottom[k]:
            order[at] = order[at - 1]
            at -= 1
        order[at] = k
        filled[cell[k]] += 1
    return starts, order


@compiled
def _neighbour_range(starts, c, side, nx, ny):
    """First and last+1 column of the cell beside `c`: side 0 −x, 1 +x, 2 −y, 3 +y."""
    ix, iy = c // ny, c % ny
    if side == 0 and ix > 0:
        return starts[c - ny], starts[c - ny + 1]
    if side == 1 and ix < nx - 1:
        return starts[c + ny], starts[c + ny + 1]
    if side == 2 and iy > 0:
        return starts[c - 1], starts[c]
    if side == 3 and iy < ny - 1:
        return starts[c + 1], starts[c + 2]
    return 0, 0


@compiled
def _wall_count(starts, cell, bottom, top, nx, ny):
    """How many wall rectangles `_fill` will make."""
    count = 0
    for k in range(len(cell)):
        for side in range(4):
            first, last = _neighbour_range(starts, cell[k], side, nx, ny)
            free_from = bottom[k]
            for j in range(first, last):
                if top[j] <= free_from or bottom[j] >= top[k]:
                    continue
                if bottom[j] > free_from:
                    count += 1
                free_from = max(free_from, top[j])
            if free_from < top[k]:
                count += 1
    return count


@compiled
def _put(corners, at, corner, x, y, z):
    corners[at, corner, 0] = x
    corners[at, corner, 1] = y
    corners[at, corner, 2] = z


@compiled
def _wall(corners, at, xa, ya, xb, yb, low, high):
    """One upright rectangle from (xa, ya) to (xb, yb), its outside on the right of that line."""
    _put(corners, at, 0, xa, ya, low)
    _put(corners, at, 1, xb, yb, low)
    _put(corners, at, 2, xb, yb, high)
    _put(corners, at, 3, xa, ya, high)


@compiled
def _fill(starts, cell, bottom, top, nx, ny, x0, y0, pitch, corners):
    """Write bottoms, tops and walls of all columns into `corners`."""
    at = 0
    for k in range(len(cell)):
        xa, ya = x0 + (cell[k] // ny) * pitch, y0 + (cell[k] % ny) * pitch
        xb, yb = xa + pitch, ya + pitch
        for corner, x, y in ((0, xa, ya), (1, xb, ya), (2, xb, yb), (3, xa, yb)):
            _put(corners, at, 3 - corner, x, y, bottom[k])
            _put(corners, at + 1, corner, x, y, top[k])
        at += 2
        for side in range(4):
            first, last = _neighbour_range(starts, cell[k], side, nx, ny)
            free_from = bottom[k]
            for j in range(first, last + 1):
                if j < last:
                    if top[j] <= free_from or bottom[j] >= top[k]:
                        continue
                    low, high, free_from = free_from, bottom[j], max(free_from, top[j])
                else:
                    low, high = free_from, top[k]
                if high > low:
                    if side == 0:
                        _wall(corners, at, xa, yb, xa, ya, low, high)
                    elif side == 1:
                        _wall(corners, at, xb, ya, xb, yb, low, high)
                    elif side == 2:
                        _wall(corners, at, xa, ya, xb, ya, low, high)
                    else:
                        _wall(corners, at, xb, yb, xa, yb, low, high)
                    at += 1
