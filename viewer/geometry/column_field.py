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

from viewer.geometry.compiled import compiled


class ColumnGrid(NamedTuple):
    """Where the upright lines stand; `u = (x − x0) / pitch`, `v = (y − y0) / pitch`."""

    x0_mm: float
    y0_mm: float
    pitch_mm: float
    nx: int
    ny: int
    shift_u: np.ndarray  # (ny,) float64, 0 <= shift < 1
    shift_v: np.ndarray  # (ny,) float64, 0 <= shift < 1


class ColumnField(NamedTuple):
    """Crossings of every line, from below.

    starts : (nx · ny + 1,) int32; those of line j · nx + i are starts[line]:starts[line + 1]
    z_mm : (c,) float64, rising within a line
    side : (c,) int32, 2 · face + 1 for an upper side (the line leaves the part), 2 · face otherwise
    """

    starts: np.ndarray
    z_mm: np.ndarray
    side: np.ndarray


def grid_over(low_mm, high_mm, cells: int, jitter: np.random.Generator | None) -> ColumnGrid:
    """A grid with `cells` lines along the longer side of the box from `low_mm` to `high_mm`.

    low_mm, high_mm : (2,) float64
    jitter : each row gets its own random shifts; without it, lines stand at the cell centres
    """
    low, high = np.asarray(low_mm, np.float64)[:2], np.asarray(high_mm, np.float64)[:2]
    size = np.maximum(high - low, 1e-6)
    pitch = float(size.max() / cells)
    nx, ny = (int(n) for n in np.maximum(np.ceil(size / pitch - 1e-9), 1))
    x0, y0 = 0.5 * (low + high - pitch * np.array([nx, ny]))
    if jitter is None:
        return ColumnGrid(x0, y0, pitch, nx, ny, np.full(ny, 0.5), np.full(ny, 0.5))
    return ColumnGrid(x0, y0, pitch, nx, ny, jitter.random(ny), jitter.random(ny))


def column_field(turned_mm: np.ndarray, faces: np.ndarray, grid: ColumnGrid) -> ColumnField:
    """All crossings of the lines of `grid` with the faces, sorted from below.

    turned_mm : (n, 3) float64, vertices turned so that z is up, near the origin
    faces : (m, 3) int32, wound outward
    """
    points = np.empty_like(turned_mm)
    points[:, 0] = (turned_mm[:, 0] - grid.x0_mm) / grid.pitch_mm
    points[:, 1] = (turned_mm[:, 1] - grid.y0_mm) / grid.pitch_mm
    points[:, 2] = turned_mm[:, 2]
    row_v = np.arange(grid.ny) + grid.shift_v
    room = int(6 * grid.nx * grid.ny) + 1024
    while True:
        line, z, side, count = _scan_faces(points, faces, grid.nx, row_v, grid.shift_u, room)
        if count <= room:
            break
        room = int(count)
    return ColumnField(*_sort_lines(line[:count], z[:count], side[:count], grid.nx * grid.ny))


@compiled
def _scan_faces(points, faces, nx, row_v, shift_u, room):
    """Crossings in face order: line, z, side, and how many there are (may exceed `room`)."""
    line = np.empty(room, np.int32)
    height = np.empty(room, np.float64)
    side = np.empty(room, np.int32)
    count = 0
    ny = len(row_v)
    for f in range(len(faces)):
        a, b, c = faces[f, 0], faces[f, 1], faces[f, 2]
        va, vb, vc = points[a, 1], points[b, 1], points[c, 1]
        v_low, v_high = min(va, vb, vc), max(va, vb, vc)
        if v_high <= 0.0 or v_low >= ny:
            continue
        row = int(v_low) if v_low > 0.0 else 0
        if row_v[row] < v_low:
            row += 1
        while row < ny and row_v[row] < v_high:
            v = row_v[row]
            u_rise, z_rise, u_fall, z_fall = _edges_at_row(points, a, b, c, v)
            up = u_rise > u_fall
            u_left, z_left = (u_fall, z_fall) if up else (u_rise, z_rise)
            u_right, z_right = (u_rise, z_rise) if up else (u_fall, z_fall)
            first = int(np.ceil(max(u_left - shift_u[row], 0.0)))
            last = int(np.ceil(min(u_right - shift_u[row], float(nx))))
            for i in range(first, last):
                if count < room:
                    share = (i + shift_u[row] - u_left) / (u_right - u_left)
                    line[count] = row * nx + i
                    height[count] = z_left + share * (z_right - z_left)
                    side[count] = 2 * f + up
                count += 1
            row += 1
    return line, height, side, count


@compiled
def _edges_at_row(points, a, b, c, v):
    """Where the two edges that meet row v do so: (u, z) of the rising one, (u, z) of the falling.

    A rising edge goes from a vertex with v_vertex <= v to one above it, in the face's own order.
    """
    below_a, below_b, below_c = points[a, 1] <= v, points[b, 1] <= v, points[c, 1] <= v
    if below_a and not below_b:
        u_rise, z_rise = _along_edge(points, a, b, v)
    elif below_b and not below_c:
        u_rise, z_rise = _along_edge(points, b, c, v)
    else:
        u_rise, z_rise = _along_edge(points, c, a, v)
    if below_b and not below_a:
        u_fall, z_fall = _along_edge(points, b, a, v)
    elif below_c and not below_b:
        u_fall, z_fall = _along_edge(points, c, b, v)
    else:
        u_fall, z_fall = _along_edge(points, a, c, v)
    return u_rise, z_rise, u_fall, z_fall


@compiled
def _along_edge(points, low, high, v):
    share = (v - points[low, 1]) / (points[high, 1] - points[low, 1])
    u = points[low, 0] + share * (points[high, 0] - points[low, 0])
    z = points[low, 2] + share * (points[high, 2] - points[low, 2])
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
    place = starts[:-1].copy()
    z_sorted = np.empty(len(line), np.float64)
    side_sorted = np.empty(len(line), np.int32)
    for i in range(len(line)):
        first = starts[line[i]]
        j = place[line[i]]
        place[line[i]] += 1
        z, s = height[i], side[i]
        while j > first and (
            z_sorted[j - 1] > z or (z_sorted[j - 1] == z and (side_sorted[j - 1] & 1) < (s & 1))
        ):
            z_sorted[j] = z_sorted[j - 1]
            side_sorted[j] = side_sorted[j - 1]
            j -= 1
        z_sorted[j] = z
        side_sorted[j] = s
    return starts, z_sorted, side_sorted
