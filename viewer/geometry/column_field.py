"""Every crossing of a part with a field of upright lines, watertight by construction.

The lines stand in rows. Row j lies at v = j + row_shift[j], its line i at u = i + row_shift_u[j],
in units of the pitch; random shifts make each row an independent sample.

Rules that leave no line with an odd number of crossings on a closed surface, even where vertices,
edges and upright faces lie exactly on lines:
  - a vertex belongs to the part below a row if v_vertex <= v_row, so a face meets the rows with
    v_min <= v_row < v_max, and in each of them exactly two of its edges;
  - where an edge meets a row is worked out from its lower to its higher end, which gives the same
    bits for both faces that share it; a line is covered if u_left <= u_line < u_right;
  - the face is an upper side if the edge that rises along the row's v is the right one. The sign of
    the face's area is not asked, since rounding may turn it for a needle.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.column_grid import ColumnGrid, shift_of_row
from viewer.geometry.compiled import compiled
from viewer.geometry.face_fours import FaceFours, face_fours
from viewer.geometry.faces_near_lines import faces_near_lines
from viewer.progress import Progress

_FACES_OF_A_LINE = 6  # with fewer for each line, a look at which faces are near does not pay
_BATCH = 128  # faces whose corners are turned in one go


class FacesForLines(NamedTuple):
    """Faces with their corners side by side, best in an order in which neighbours follow.

    face : (m,) int32, the face that each place stands for
    corners_mm : (m, 3, 3) float64, wound outward
    fours : the faces in fours, for a quick look at which lines may meet
    """

    face: np.ndarray
    corners_mm: np.ndarray
    fours: FaceFours


class ColumnField(NamedTuple):
    """Crossings of every line, from below.

    starts : (nx · ny + 1,) int32; those of line j · nx + i are starts[line]:starts[line + 1]
    z_mm : (c,) float64, rising within a line
    side : (c,) int32, 2 · face + 1 for an upper side (the line leaves the part), 2 · face otherwise
    """

    starts: np.ndarray
    z_mm: np.ndarray
    side: np.ndarray


def faces_for_lines(points_mm: np.ndarray, faces: np.ndarray) -> FacesForLines:
    """(m, 3) int32 faces of (n, 3) float64 points in their own order."""
    corners = points_mm[faces]
    return FacesForLines(np.arange(len(faces), dtype=np.int32), corners, face_fours(corners))


def column_field(
    faces: FacesForLines, rotation: np.ndarray, grid: ColumnGrid, progress: Progress | None = None
) -> ColumnField:
    """All crossings of the lines of `grid` with the faces, sorted from below.

    rotation : (3, 3) float64, from the frame of the faces to the frame of the grid, z up
    raises Cancelled if `progress` says so
    """
    progress = progress or Progress()
    rotation = np.ascontiguousarray(rotation, np.float64)
    lines = grid.nx * grid.ny
    if len(faces.face) < _FACES_OF_A_LINE * lines:
        near = np.empty(0, np.int32)  # most faces meet a line; all are scanned
        every = len(faces.face)
    else:
        near, every = faces_near_lines(faces.fours, len(faces.face), rotation, grid), 0
    progress.check()
    row_v = np.arange(grid.ny) + grid.shift_v
    room = int(4 * lines) + 1024
    while True:
        line, z, side, count = _scan_faces(
            faces, rotation, near, every, grid, row_v, room, progress.stop_flag
        )
        progress.check()
        if count <= room:
            break
        room = int(count)
    field = ColumnField(*_sort_lines(line[:count], z[:count], side[:count], lines))
    progress.check()
    return field


@compiled
def _scan_faces(faces, rotation, near, every, grid, row_v, room, stop):
    """Crossings in face order: line, z, side, and how many there are (may exceed `room`).

    near : places of the faces to look at; `every` > 0 for the first so many instead
    """
    line = np.empty(room, np.int32)
    height = np.empty(room, np.float64)
    side = np.empty(room, np.int32)
    batch = np.empty((9, _BATCH))  # u, v, z of the first corner, of the second, of the third
    places, chosen = np.empty(_BATCH, np.int32), np.empty(_BATCH, np.int32)
    low_rows, high_rows = np.empty(_BATCH, np.int32), np.empty(_BATCH, np.int32)
    stays = np.empty(_BATCH, np.uint8)
    count, nx = 0, grid.nx
    total = every if every > 0 else len(near)
    for start in range(0, total, _BATCH):
        if stop[0]:
            break
        held = min(_BATCH, total - start)
        for i in range(held):
            places[i] = start + i if every > 0 else near[start + i]
        _gather_corners(faces.corners_mm, places[:held], batch)
        for k in range(3):
            _turn(batch[3 * k], batch[3 * k + 1], batch[3 * k + 2], rotation, grid)
        _rows_met(
            batch[1], batch[4], batch[7], grid.ny, grid.start_v, grid.step_v, low_rows, high_rows
        )
        _lines_met(
            batch[0], batch[3], batch[6], nx, grid.start_u, grid.step_u, low_rows, high_rows, stays
        )
        kept = 0
        for i in range(held):
            chosen[kept] = i
            kept += stays[i]
        for c in range(kept):
            i = chosen[c]
            au, av, bu, bv = batch[0, i], batch[1, i], batch[3, i], batch[4, i]
            cu, cv = batch[6, i], batch[7, i]
            az, bz, cz = batch[2, i], batch[5, i], batch[8, i]
            u_low, u_high = min(au, bu, cu), max(au, bu, cu)
            for row in range(low_rows[i], high_rows[i]):
                shift = grid.shift_u[row]
                if _first_line(u_low - shift, nx) == _first_line(u_high - shift, nx):
                    continue
                u_rise, z_rise, u_fall, z_fall = _edges_at_row(
                    au, av, az, bu, bv, bz, cu, cv, cz, row_v[row]
                )
                up = u_rise > u_fall
                u_left, z_left = (u_fall, z_fall) if up else (u_rise, z_rise)
                u_right, z_right = (u_rise, z_rise) if up else (u_fall, z_fall)
                first, last = _first_line(u_left - shift, nx), _first_line(u_right - shift, nx)
                for k in range(first, last):
                    if count < room:
                        share = (k + shift - u_left) / (u_right - u_left)
                        line[count] = row * nx + k
                        height[count] = z_left + share * (z_right - z_left)
                        side[count] = 2 * faces.face[places[i]] + up
                    count += 1
    return line, height, side, count


@compiled
def _gather_corners(corners_mm, places, rows):
    """With no branch between them, reads of corners overlap."""
    for i in range(len(places)):
        p = np.uint32(places[i])
        for k in range(3):
            for axis in range(3):
                rows[3 * k + axis, i] = corners_mm[p, k, axis]


@compiled
def _turn(x, y, z, rotation, grid):
    """Turn x, y and z of one corner of each face to u, v and z of the grid, in place."""
    per_mm, x0, y0 = 1.0 / grid.pitch_mm, grid.x0_mm, grid.y0_mm
    xx, xy, xz = rotation[0]
    yx, yy, yz = rotation[1]
    zx, zy, zz = rotation[2]
    for i in range(len(x)):
        p, q, r = x[i], y[i], z[i]
        x[i] = (xx * p + xy * q + xz * r - x0) * per_mm
        y[i] = (yx * p + yy * q + yz * r - y0) * per_mm
        z[i] = zx * p + zy * q + zz * r


@compiled
def _rows_met(av, bv, cv, ny, start, step, low_rows, high_rows):
    """The rows that each face meets: from the first at or above its lowest corner up to, and not
    with, the first at or above its highest.
    """
    most = np.float64(ny)
    for i in range(len(low_rows)):
        a, b, c = av[i], bv[i], cv[i]
        low = min(max(min(a, b, c), 0.0), most)
        high = min(max(max(a, b, c), 0.0), most)
        below, above = np.int32(low), np.int32(high)
        low_rows[i] = below + (below + np.float64(shift_of_row(below, start, step)) < low)
        high_rows[i] = above + (above + np.float64(shift_of_row(above, start, step)) < high)


@compiled
def _lines_met(au, bu, cu, nx, start, step, low_rows, high_rows, stays):
    """Whether each face may meet a line: it meets several rows, or reaches over one of a row."""
    most = np.float64(nx)
    for i in range(len(stays)):
        a, b, c, low_row, high_row = au[i], bu[i], cu[i], low_rows[i], high_rows[i]
        shift = np.float64(shift_of_row(low_row, start, step))
        left = np.ceil(min(max(min(a, b, c) - shift, 0.0), most))
        right = np.ceil(min(max(max(a, b, c) - shift, 0.0), most))
        stays[i] = (high_row > low_row) & ((left != right) | (high_row > low_row + 1))


@compiled
def _first_line(u, nx):
    """The first line at or right of u, between 0 and nx."""
    return int(np.ceil(min(max(u, 0.0), float(nx))))


@compiled
def _edges_at_row(au, av, az, bu, bv, bz, cu, cv, cz, v):
    """Where the two edges that meet row v do so: (u, z) of the rising one, (u, z) of the falling.

    A rising edge goes from a corner with v_corner <= v to one above it, in the face's own order.
    """
    below_a, below_b, below_c = av <= v, bv <= v, cv <= v
    # Choosing numbers instead of branches: no processor foresees which edges a row meets.
    from_a, from_b = below_a & (not below_b), below_b & (not below_c)
    u_rise, z_rise = _along_edge(
        au if from_a else (bu if from_b else cu), av if from_a else (bv if from_b else cv),
        az if from_a else (bz if from_b else cz), bu if from_a else (cu if from_b else au),
        bv if from_a else (cv if from_b else av), bz if from_a else (cz if from_b else az), v,
    )  # fmt: skip
    from_b, from_c = below_b & (not below_a), below_c & (not below_b)
    u_fall, z_fall = _along_edge(
        bu if from_b else (cu if from_c else au), bv if from_b else (cv if from_c else av),
        bz if from_b else (cz if from_c else az), au if from_b else (bu if from_c else cu),
        av if from_b else (bv if from_c else cv), az if from_b else (bz if from_c else cz), v,
    )  # fmt: skip
    return u_rise, z_rise, u_fall, z_fall


@compiled
def _along_edge(low_u, low_v, low_z, high_u, high_v, high_z, v):
    share = (v - low_v) / (high_v - low_v)
    # Rounding must not carry u past the ends of the edge, on which faces are passed over unseen.
    u = min(max(low_u + share * (high_u - low_u), min(low_u, high_u)), max(low_u, high_u))
    return u, low_z + share * (high_z - low_z)


@compiled
def _sort_lines(line, height, side, lines):
    """Counting sort by line, then insertion sort of the few crossings of each line by height.

    At equal heights the side that leaves comes first, so that touching bodies leave no overlap.
    """
    starts = np.zeros(lines + 1, np.int32)
    for i in range(len(line)):
        starts[line[i] + 1] += 1
    for i in range(lines):
        starts[i + 1] += starts[i]
    # Height and side next to each other make one random write of two. A side fits a float64.
    place = starts[:-1].copy()
    pairs = np.empty((len(line), 2))
    for i in range(len(line)):
        j = np.uint32(place[line[i]])
        place[line[i]] += 1
        pairs[j, 0], pairs[j, 1] = height[i], side[i]
    z_sorted = np.empty(len(line), np.float64)
    side_sorted = np.empty(len(line), np.int32)
    for k in range(lines):
        first = starts[k]
        for i in range(first, starts[k + 1]):
            z, s = pairs[i, 0], np.int32(pairs[i, 1])
            j = i
            while j > first and (
                z_sorted[j - 1] > z or (z_sorted[j - 1] == z and (side_sorted[j - 1] & 1) < (s & 1))
            ):
                z_sorted[j] = z_sorted[j - 1]
                side_sorted[j] = side_sorted[j - 1]
                j -= 1
            z_sorted[j] = z
            side_sorted[j] = s
    return starts, z_sorted, side_sorted
