"""How thick the material is behind a surface, and how wide the gap is in front of it.

From points spread evenly over the surface a ray goes straight into the material until it leaves it
(thickness) and another straight away from it until it meets material (gap). Shells may overlap:
material ends where as many surfaces have been left as were entered. Only what is nearly parallel to
the surface on the other side makes a wall or a gap; two faces that run into an edge do not.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.face_tree import LEAF_FACES
from viewer.geometry.ray_tree import RayTree
from viewer.progress import Progress

# Common practice, no source: sides that close up faster are an edge, not a wall. At 20° such an
# edge is rounded by some 1 mm in the print, as any sharp edge is by less.
WALL_TAPER_DEG = 20.0
TOUCH_MM = 0.005  # closer than this, surfaces touch: no gap between them, no wall behind them
_MOST_POINTS = 100_000
_FEWEST_POINTS = 4_000
_ROADS_APART = 0.6  # points stand this many roads apart, on parts that are not too large
_FACES_A_GO = 1 << 15
_DEEPEST = 64
_MOST_HITS = 16


class WallSamples(NamedTuple):
    """Points on the surface, (n, …), and what is near them; inf where nothing is within reach.

    points_mm : (n, 3) float64, in the frame of the tree; normals : (n, 3), out of the material
    faces : (n,) int32, face of the mesh
    thickness_mm : (n,) float64, of the wall behind the point
    gap_mm : (n,) float64, width of the gap before the point
    step_mm2 : area that each point stands for
    """

    points_mm: np.ndarray
    normals: np.ndarray
    faces: np.ndarray
    thickness_mm: np.ndarray
    gap_mm: np.ndarray
    step_mm2: float


def sample_walls(
    tree: RayTree,
    orientation: np.ndarray,
    area_mm2: float,
    road_mm: float,
    reach_mm: float,
    progress: Progress,
) -> WallSamples:
    """Thickness and gap at points that stand for equal areas, up to `reach_mm`.

    tree : over the faces of the mesh; orientation : (m,) int8, −1 where the winding faces inward
    area_mm2 : of all faces together
    """
    each = float(np.clip(area_mm2 / (_ROADS_APART * road_mm) ** 2, _FEWEST_POINTS, _MOST_POINTS))
    step = area_mm2 / each
    sides = orientation[tree.order].astype(np.float64)
    least_cosine = float(np.cos(np.radians(WALL_TAPER_DEG)))
    rows, left, count = [np.empty((0, 9))], 0.5 * step, 0
    for first in range(0, len(tree.order), _FACES_A_GO):
        last = min(first + _FACES_A_GO, len(tree.order))
        while True:
            # A few large faces may hold all points, so that points are counted as well as faces.
            part, first, left, count = _sample(
                tree, sides, first, last, step, left, count, reach_mm, least_cosine
            )
            rows.append(part)
            progress.report(first / len(tree.order), "Measuring walls and gaps")
            if first == last:
                break
    table = np.concatenate(rows)
    place = table[:, 8].astype(np.int64)
    return WallSamples(
        table[:, :3], table[:, 3:6], tree.order[place], table[:, 6], table[:, 7], step
    )


@compiled
def _sample(tree, sides, first, last, step, left, count, reach, least_cosine):
    """Rows (point, normal, thickness, gap, place) on faces first..last, at most some thousands.

    left : area to pass until the next point. Returns the rows, the face to go on with, and the
    area left and the number of points so far for it.
    """
    rows = np.empty((4096, 9))
    used, f = 0, first
    hits, other_hits = np.empty((_MOST_HITS, 2)), np.empty((_MOST_HITS, 2))
    point, normal = np.empty(3), np.empty(3)
    while f < last:
        a, b, c = tree.corners_mm[f, 0], tree.corners_mm[f, 1], tree.corners_mm[f, 2]
        ux, uy, uz = b[0] - a[0], b[1] - a[1], b[2] - a[2]
        vx, vy, vz = c[0] - a[0], c[1] - a[1], c[2] - a[2]
        nx, ny, nz = uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx
        double = (nx * nx + ny * ny + nz * nz) ** 0.5
        area = 0.5 * double
        while left < area and used < len(rows):
            # An even, never repeating sequence over the unit square, folded onto the triangle.
            s, t = (0.5 + 0.7548776662466927 * count) % 1.0, (0.5 + 0.569840290998053 * count) % 1.0
            if s + t > 1.0:
                s, t = 1.0 - s, 1.0 - t
            side = sides[f] / double
            normal[0], normal[1], normal[2] = nx * side, ny * side, nz * side
            point[0], point[1] = a[0] + s * ux + t * vx, a[1] + s * uy + t * vy
            point[2] = a[2] + s * uz + t * vz
            for k in range(3):
                rows[used, k], rows[used, 3 + k] = point[k], normal[k]
            behind, before = _both_ways(tree, sides, point, normal, reach, hits, other_hits)
            rows[used, 6] = _to_the_end(hits, behind, 1, least_cosine)
            rows[used, 7] = _to_the_end(other_hits, before, 0, least_cosine)
            rows[used, 8] = f
            used += 1
            count += 1
            left += step
        if left < area:
            return rows, f, left, count  # the rows are full; go on with this face
        left -= area
        f += 1
    return rows[:used].copy(), f, left, count


@compiled
def _to_the_end(hits, count, inside, least_cosine):
    """Distance to where material ends (inside = 1) or begins (0); inf if not within reach.

    inf too where the surface there is not nearly upright to the ray.
    """
    depth = inside
    for i in range(count):
        if hits[i, 0] < TOUCH_MM:
            continue
        depth += 1 if hits[i, 1] < 0.0 else -1
        if inside == 1 and depth <= 0:
            return hits[i, 0] if hits[i, 1] >= least_cosine else np.inf
        if inside == 0 and depth > 0:
            return hits[i, 0] if -hits[i, 1] >= least_cosine else np.inf
    return np.inf


@compiled
def all_hits(tree, sides, origin, direction, reach, hits):
    """The faces along a ray, nearest first: rows (distance, cosine to the outward normal).

    Where one shell ends and another begins at one place, the beginning comes first. Returns how
    many rows of `hits` are used; where more are met than fit, the nearest are kept.
    """
    return _along(tree, sides, origin, direction, 0.0, reach, hits, hits)[1]


@compiled
def _both_ways(tree, sides, origin, direction, reach, behind, before):
    """As `all_hits`, against and along the direction at once: (rows behind, rows before)."""
    return _along(tree, sides, origin, direction, -reach, reach, behind, before)


@compiled
def _along(tree, sides, origin, direction, start, end, behind, before):
    x, y, z = origin[0], origin[1], origin[2]
    # In place of 1 / 0, which would give nan at 0 · ∞.
    ix = 1.0 / direction[0] if direction[0] != 0.0 else 1e300
    iy = 1.0 / direction[1] if direction[1] != 0.0 else 1e300
    iz = 1.0 / direction[2] if direction[2] != 0.0 else 1e300
    waiting = np.empty(_DEEPEST, np.int64)
    waiting[0], height, back, forth = 1, 1, 0, 0
    boxes = tree.node_boxes
    while height > 0:
        height -= 1
        node = waiting[height]
        if boxes[node, 0] > boxes[node, 3]:
            continue  # no faces: a slanting ray would pass the test below
        a, b = (boxes[node, 0] - x) * ix, (boxes[node, 3] - x) * ix
        c, d = (boxes[node, 1] - y) * iy, (boxes[node, 4] - y) * iy
        e, g = (boxes[node, 2] - z) * iz, (boxes[node, 5] - z) * iz
        enter = max(max(min(a, b), min(c, d)), max(min(e, g), start))
        leave = min(min(max(a, b), max(c, d)), min(max(e, g), end))
        if enter > leave:
            continue
        if node < tree.leaves:
            waiting[height] = 2 * node
            waiting[height + 1] = 2 * node + 1
            height += 2
            continue
        first = (node - tree.leaves) * LEAF_FACES
        for f in range(first, min(first + LEAF_FACES, len(tree.corners_mm))):
            t, cosine = _hit(tree.corners_mm, f, origin, direction)
            if t == np.inf:
                continue
            if 0.0 < t <= end:
                forth = _insert(before, forth, t, cosine * sides[f])
            elif start <= t < 0.0:
                back = _insert(behind, back, -t, -cosine * sides[f])
    return back, forth


@compiled
def _insert(hits, count, t, cosine):
    i = count if count < len(hits) else count - 1  # where all rows are used, the farthest gives way
    rank = t - TOUCH_MM if cosine < 0.0 else t
    if i < count and hits[i, 0] - (TOUCH_MM if hits[i, 1] < 0.0 else 0.0) <= rank:
        return count
    while i > 0 and hits[i - 1, 0] - (TOUCH_MM if hits[i - 1, 1] < 0.0 else 0.0) > rank:
        hits[i, 0], hits[i, 1] = hits[i - 1, 0], hits[i - 1, 1]
        i -= 1
    hits[i, 0], hits[i, 1] = t, cosine
    return min(count + 1, len(hits))


@compiled
def _hit(corners, f, origin, direction):
    """Signed distance to a face (inf if missed), cosine between the ray and its winding's normal.

    Möller & Trumbore 1997, "Fast, minimum storage ray–triangle intersection".
    """
    dx, dy, dz = direction[0], direction[1], direction[2]
    ax, ay, az = corners[f, 0, 0], corners[f, 0, 1], corners[f, 0, 2]
    ex, ey, ez = corners[f, 1, 0] - ax, corners[f, 1, 1] - ay, corners[f, 1, 2] - az
    fx, fy, fz = corners[f, 2, 0] - ax, corners[f, 2, 1] - ay, corners[f, 2, 2] - az
    px, py, pz = dy * fz - dz * fy, dz * fx - dx * fz, dx * fy - dy * fx
    volume = ex * px + ey * py + ez * pz
    if volume == 0.0:
        return np.inf, 0.0
    tx, ty, tz = origin[0] - ax, origin[1] - ay, origin[2] - az
    u = (tx * px + ty * py + tz * pz) / volume
    if u < 0.0 or u > 1.0:
        return np.inf, 0.0
    qx, qy, qz = ty * ez - tz * ey, tz * ex - tx * ez, tx * ey - ty * ex
    v = (dx * qx + dy * qy + dz * qz) / volume
    if v < 0.0 or u + v > 1.0:
        return np.inf, 0.0
    t = (fx * qx + fy * qy + fz * qz) / volume
    nx, ny, nz = ey * fz - ez * fy, ez * fx - ex * fz, ex * fy - ey * fx
    return t, -volume / (nx * nx + ny * ny + nz * nz) ** 0.5
