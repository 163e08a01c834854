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

from viewer.geometry.column_grid import ColumnGrid
from viewer.geometry.compiled import compiled

_FACES_OF_A_LINE = 6  # with fewer for each line, a second look at faces does not pay
_BATCH = 128  # faces whose corners are fetched in one go


class ColumnField(NamedTuple):
    """Crossings of every line, from below.

    starts : (nx · ny + 1,) int32; those of line j · nx + i are starts[line]:starts[line + 1]
    z_mm : (c,) float64, rising within a line
    side : (c,) int32, 2 · face + 1 for an upper side (the line leaves the part), 2 · face otherwise
    """

    starts: np.ndarray
    z_mm: np.ndarray
    side: np.ndarray


def column_field(turned_mm: np.ndarray, faces: np.ndarray, grid: ColumnGrid) -> ColumnField:
    """All crossings of the lines of `grid` with the faces, sorted from below.

    turned_mm : (n, 3) float64, vertices turned so that z is up, near the origin
    faces : (m, 3) int32, wound outward
    """
    row_v = np.arange(grid.ny) + grid.shift_v
    lines = grid.nx * grid.ny
    near = _faces_near_lines(faces, _coarse_places(turned_mm, grid, row_v), grid)
    room = int(4 * lines) + 1024
    while True:
        line, z, side, count = _scan_faces(turned_mm, faces, near, grid, row_v, room)
        if count <= room:
            break
        room = int(count)
    return ColumnField(*_sort_lines(line[:count], z[:count], side[:count], lines))


@compiled
def _coarse_places(points, grid, row_v):
    """(n, 2) int16 of each vertex: its first row and, roughly, its u (see `_steps_of_u`).

    The first row is the first with v_row >= v_vertex, so that rows before it lie below the vertex.
    Four bytes a vertex stay in the processor's cache, which makes passing over the many faces
    between two rows or two lines cheap.
    """
    places = np.empty((len(points), 2), np.int16)
    per_mm = 1.0 / grid.pitch_mm
    steps = _steps_of_u(grid)
    for i in range(len(points)):
        places[i, 0] = _first_row((points[i, 1] - grid.y0_mm) * per_mm, row_v)
        u = (points[i, 0] - grid.x0_mm) * per_mm
        places[i, 1] = int(min(max(u, 0.0), float(grid.nx)) * steps)
    return places


@compiled
def _first_row(v, row_v):
    """The first row at or above v."""
    if v <= 0.0:
        return 0
    if v >= len(row_v):
        return len(row_v)
    row = int(v)
    return row + (row_v[row] < v)


@compiled
def _steps_of_u(grid):
    """Into how many steps the coarse places divide the pitch: all of them fit into 16 bits."""
    return 32_000.0 / grid.nx


@compiled
def _faces_near_lines(faces, coarse, grid):
    """Faces that cross a row and may meet one of its lines, (k,) int32 rising.

    Each face is written down and the count moved on only if it stays: to branch on each face
    would cost more, as a processor cannot foresee which ones stay.
    """
    near = np.empty(len(faces) + 1, np.int32)
    count = 0
    for f in range(len(faces)):
        a, b, c = np.uint32(faces[f, 0]), np.uint32(faces[f, 1]), np.uint32(faces[f, 2])
        ra, rb, rc = coarse[a, 0], coarse[b, 0], coarse[c, 0]
        near[count] = f
        count += ((ra ^ rb) | (rb ^ rc)) != 0
    if len(faces) < _FACES_OF_A_LINE * grid.nx * grid.ny:
        return near[:count]  # lines so close that most of these faces meet one
    crossing, count = count, 0
    per_step, nx = 1.0 / _steps_of_u(grid), grid.nx
    for i in range(crossing):
        f = near[i]
        a, b, c = np.uint32(faces[f, 0]), np.uint32(faces[f, 1]), np.uint32(faces[f, 2])
        ra, rb, rc = coarse[a, 0], coarse[b, 0], coarse[c, 0]
        ua, ub, uc = coarse[a, 1], coarse[b, 1], coarse[c, 1]
        first, last = min(ra, rb, rc), max(ra, rb, rc)
        # One step of slack at each end, as the coarse places are rounded down.
        low, high = (min(ua, ub, uc) - 1) * per_step, (max(ua, ub, uc) + 2) * per_step
        shift = grid.shift_u[first]
        meets = _first_line(low - shift, nx) != _first_line(high - shift, nx)
        near[count] = f
        count += meets | (last - first > 1)
    return near[:count]


@compiled
def _scan_faces(points, faces, near, grid, row_v, room):
    """Crossings in face order: line, z, side, and how many there are (may exceed `room`)."""
    line = np.empty(room, np.int32)
    height = np.empty(room, np.float64)
    side = np.empty(room, np.int32)
    batch = np.empty((_BATCH, 3, 3))
    count = 0
    nx = grid.nx
    for start in range(0, len(near), _BATCH):
        stop = min(start + _BATCH, len(near))
        _gather_corners(points, faces, near[start:stop], grid, batch)
        for i in range(stop - start):
            f, corners = near[start + i], batch[i]
            low_row = _first_row(min(corners[0, 1], corners[1, 1], corners[2, 1]), row_v)
            high_row = _first_row(max(corners[0, 1], corners[1, 1], corners[2, 1]), row_v)
            if low_row == high_row:
                continue
            u_low = min(corners[0, 0], corners[1, 0], corners[2, 0])
            u_high = max(corners[0, 0], corners[1, 0], corners[2, 0])
            for row in range(low_row, high_row):
                shift = grid.shift_u[row]
                if _first_line(u_low - shift, nx) == _first_line(u_high - shift, nx):
                    continue
                u_rise, z_rise, u_fall, z_fall = _edges_at_row(corners, row_v[row])
                up = u_rise > u_fall
                u_left, z_left = (u_fall, z_fall) if up else (u_rise, z_rise)
                u_right, z_right = (u_rise, z_rise) if up else (u_fall, z_fall)
                first, last = _first_line(u_left - shift, nx), _first_line(u_right - shift, nx)
                for i in range(first, last):
                    if count < room:
                        share = (i + shift - u_left) / (u_right - u_left)
                        line[count] = row * nx + i
                        height[count] = z_left + share * (z_right - z_left)
                        side[count] = 2 * f + up
                    count += 1
    return line, height, side, count


@compiled
def _gather_corners(points, faces, chosen, grid, corners):
    """Corners (u, v, z) of the chosen faces; with no branch between them, reads overlap."""
    per_mm = 1.0 / grid.pitch_mm
    for i in range(len(chosen)):
        for k in range(3):
            p = points[np.uint32(faces[chosen[i], k])]
            corners[i, k, 0] = (p[0] - grid.x0_mm) * per_mm
            corners[i, k, 1] = (p[1] - grid.y0_mm) * per_mm
            corners[i, k, 2] = p[2]


@compiled
def _first_line(u, nx):
    """The first line at or right of u, between 0 and nx."""
    return int(np.ceil(min(max(u, 0.0), float(nx))))


@compiled
def _edges_at_row(corners, v):
    """Where the two edges that meet row v do so: (u, z) of the rising one, (u, z) of the falling.

    A rising edge goes from a corner with v_corner <= v to one above it, in the face's own order.
    """
    below_a, below_b, below_c = corners[0, 1] <= v, corners[1, 1] <= v, corners[2, 1] <= v
    if below_a and not below_b:
        u_rise, z_rise = _along_edge(corners, 0, 1, v)
    elif below_b and not below_c:
        u_rise, z_rise = _along_edge(corners, 1, 2, v)
    else:
        u_rise, z_rise = _along_edge(corners, 2, 0, v)
    if below_b and not below_a:
        u_fall, z_fall = _along_edge(corners, 1, 0, v)
    elif below_c and not below_b:
        u_fall, z_fall = _along_edge(corners, 2, 1, v)
    else:
        u_fall, z_fall = _along_edge(corners, 0, 2, v)
    return u_rise, z_rise, u_fall, z_fall


@compiled
def _along_edge(corners, low, high, v):
    share = (v - corners[low, 1]) / (corners[high, 1] - corners[low, 1])
    start, end = corners[low, 0], corners[high, 0]
    # Rounding must not carry u past the ends of the edge, on which faces are passed over unseen.
    u = min(max(start + share * (end - start), min(start, end)), max(start, end))
    z = corners[low, 2] + share * (corners[high, 2] - corners[low, 2])
    return u, z


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
