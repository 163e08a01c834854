"""What a mark is bounded by: the ball of a brush along a stroke, two heights, a loop on the screen.

One more has no rim at all: it cuts every face that it is asked about.

An outline is plain numbers, so that one compiled loop serves all kinds. `side_of_face` says of a
face whether it lies inside, outside, or may be crossed; it never calls a crossed face whole.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled

SWEEP, BAND, LASSO, EVERYWHERE = 0, 1, 2, 3
INSIDE, CROSSED, OUTSIDE = -1, 0, 1
RIM_PARTS = 16  # edges along a rim are at most this part of the brush radius
LEAST_EDGE_MM = 0.1  # a quarter of a common road: what is finer cannot be printed
LEAST_RIM_MM, MOST_RIM_MM = 0.15, 0.4  # a common road is 0.4 mm wide, and draws no finer rim
RIM_OF_PART = 400.0  # edges along a rim are at most this part of the part's diagonal


class Outline(NamedTuple):
    """One kind of outline with its numbers.

    kind : SWEEP, BAND, LASSO or EVERYWHERE
    rows : (s, 6) straight lines of the ball's centre; (1, 6) direction, low, high; or (k, 6)
        corners of the loop in pixels, and in each row the box of the loop, low and high
    frame : (4, 4) from mm to pixels, for a loop
    radius_mm : of the ball
    finest_mm : edges up to this length are not cut
    """

    kind: int
    rows: np.ndarray
    frame: np.ndarray
    radius_mm: float
    finest_mm: float


def sweep_outline(sweeps_mm: np.ndarray, radius_mm: float) -> Outline:
    """A ball whose centre moves along (s, 2, 3) straight lines."""
    rows = np.ascontiguousarray(sweeps_mm, np.float64).reshape(-1, 6)
    finest = max(radius_mm / RIM_PARTS, LEAST_EDGE_MM)
    return Outline(SWEEP, rows, np.eye(4), float(radius_mm), finest)


def everywhere(finest_mm: float) -> Outline:
    """No rim: every face is cut, and every place lies inside."""
    return Outline(EVERYWHERE, np.zeros((1, 6)), np.eye(4), 0.0, max(finest_mm, LEAST_EDGE_MM))


def rim_edge_mm(box_mm: np.ndarray) -> float:
    """Length of edges along a rim that has no size of its own, on a part with this (2, 3) box."""
    diagonal_mm = float(np.linalg.norm(np.ptp(box_mm, axis=0)))
    return min(max(diagonal_mm / RIM_OF_PART, LEAST_RIM_MM), MOST_RIM_MM)


def band_outline(up: np.ndarray, low_mm: float, high_mm: float, finest_mm: float) -> Outline:
    """Between two heights p · up, `up` (3,) unit."""
    rows = np.array([[*np.asarray(up, float), low_mm, high_mm, 0.0]])
    return Outline(BAND, rows, np.eye(4), 0.0, max(finest_mm, LEAST_EDGE_MM))


def lasso_outline(loop_px: np.ndarray, to_pixels: np.ndarray, finest_mm: float) -> Outline:
    """Within a closed loop of (k, 2) pixels; even-odd where it crosses itself.

    to_pixels : (4, 4), p (mm, 1) to (x w, y w, ·, w), w > 0 before the eye
    """
    rows = np.zeros((len(loop_px), 6))
    rows[:, :2] = loop_px
    if len(loop_px):
        rows[:, 2:4], rows[:, 4:] = rows[:, :2].min(axis=0), rows[:, :2].max(axis=0)
    frame = np.ascontiguousarray(to_pixels, np.float64)
    return Outline(LASSO, rows, frame, 0.0, max(finest_mm, LEAST_EDGE_MM))


@compiled
def _beyond_ball(rows, radius, x, y, z, matters):
    """How far a point lies outside the swept ball, negative inside; exact up to ±`matters`."""
    least = np.inf
    for s in range(len(rows)):
        ax, ay, az, bx, by, bz = rows[s]
        reach = radius + matters
        if (
            x < min(ax, bx) - reach
            or x > max(ax, bx) + reach
            or y < min(ay, by) - reach
            or y > max(ay, by) + reach
            or z < min(az, bz) - reach
            or z > max(az, bz) + reach
        ):
            continue
        dx, dy, dz = bx - ax, by - ay, bz - az
        square = dx * dx + dy * dy + dz * dz
        t = 0.0
        if square > 0.0:
            t = min(max(((x - ax) * dx + (y - ay) * dy + (z - az) * dz) / square, 0.0), 1.0)
        ex, ey, ez = x - ax - t * dx, y - ay - t * dy, z - az - t * dz
        least = min(least, np.sqrt(ex * ex + ey * ey + ez * ez) - radius)
        if least < -matters:
            break
    return least


@compiled
def _beyond_loop(rows, x, y, matters):
    """How far a pixel lies outside a loop, negative inside, even-odd; exact up to ±`matters`."""
    least, within = np.inf, False
    if len(rows) < 3 or (
        x < rows[0, 2] - matters
        or y < rows[0, 3] - matters
        or x > rows[0, 4] + matters
        or y > rows[0, 5] + matters
    ):
        return least
    j = len(rows) - 1
    for i in range(len(rows)):
        ax, ay, bx, by = rows[j, 0], rows[j, 1], rows[i, 0], rows[i, 1]
        j = i
        dx, dy = bx - ax, by - ay
        if (ay > y) != (by > y) and x < ax + (y - ay) * dx / dy:
            within = not within
        if (
            x < min(ax, bx) - matters
            or x > max(ax, bx) + matters
            or y < min(ay, by) - matters
            or y > max(ay, by) + matters
        ):
            continue
        square = dx * dx + dy * dy
        t = 0.0
        if square > 0.0:
            t = min(max(((x - ax) * dx + (y - ay) * dy) / square, 0.0), 1.0)
        ex, ey = x - ax - t * dx, y - ay - t * dy
        least = min(least, ex * ex + ey * ey)
    return -np.sqrt(least) if within else np.sqrt(least)


@compiled
def _pixel(frame, x, y, z):
    w = frame[3, 0] * x + frame[3, 1] * y + frame[3, 2] * z + frame[3, 3]
    if w <= 1e-9:
        return 0.0, 0.0, False
    across = frame[0, 0] * x + frame[0, 1] * y + frame[0, 2] * z + frame[0, 3]
    upward = frame[1, 0] * x + frame[1, 1] * y + frame[1, 2] * z + frame[1, 3]
    return across / w, upward / w, True


@compiled
def beyond_outline(outline: Outline, x, y, z, matters):
    """How far a point lies outside an outline, negative inside: mm, or pixels for a loop."""
    if outline.kind == SWEEP:
        return _beyond_ball(outline.rows, outline.radius_mm, x, y, z, matters)
    if outline.kind == EVERYWHERE:
        return 0.0
    row = outline.rows[0]
    if outline.kind == BAND:
        height = row[0] * x + row[1] * y + row[2] * z
        return max(row[3] - height, height - row[4])
    px, py, ahead = _pixel(outline.frame, x, y, z)
    return _beyond_loop(outline.rows, px, py, matters) if ahead else np.inf


@compiled
def middle_of_face(vertices, faces, f):
    """Middle of a face."""
    a, b, c = faces[f, 0], faces[f, 1], faces[f, 2]
    return (
        (vertices[a, 0] + vertices[b, 0] + vertices[c, 0]) / 3.0,
        (vertices[a, 1] + vertices[b, 1] + vertices[c, 1]) / 3.0,
        (vertices[a, 2] + vertices[b, 2] + vertices[c, 2]) / 3.0,
    )


@compiled
def _side_of_band(row, a, b, c):
    """Exact, so that a level face at the height of a rim is not cut all over."""
    first = row[0] * a[0] + row[1] * a[1] + row[2] * a[2]
    second = row[0] * b[0] + row[1] * b[1] + row[2] * b[2]
    third = row[0] * c[0] + row[1] * c[1] + row[2] * c[2]
    low, high = min(first, second, third), max(first, second, third)
    if low >= row[3] and high <= row[4]:
        return INSIDE
    return OUTSIDE if high <= row[3] or low >= row[4] else CROSSED


@compiled
def side_of_triangle(outline: Outline, a, b, c):
    """INSIDE, OUTSIDE, or CROSSED where the rim may cross the triangle of three points.

    The distance from the rim changes no faster than the place does, so a triangle is whole if its
    middle lies farther from the rim than its farthest corner from the middle.
    """
    if outline.kind == BAND:
        return _side_of_band(outline.rows[0], a, b, c)
    x, y, z = (a[0] + b[0] + c[0]) / 3.0, (a[1] + b[1] + c[1]) / 3.0, (a[2] + b[2] + c[2]) / 3.0
    reach = 0.0
    if outline.kind == LASSO:
        px, py, ahead = _pixel(outline.frame, x, y, z)
        for p in (a, b, c):
            qx, qy, before = _pixel(outline.frame, p[0], p[1], p[2])
            ahead = ahead and before
            reach = max(reach, (qx - px) ** 2 + (qy - py) ** 2)
        if not ahead:
            return OUTSIDE
    else:
        for p in (a, b, c):
            reach = max(reach, (p[0] - x) ** 2 + (p[1] - y) ** 2 + (p[2] - z) ** 2)
    reach = np.sqrt(reach)
    beyond = beyond_outline(outline, x, y, z, reach)
    return CROSSED if abs(beyond) <= reach else (INSIDE if beyond < 0.0 else OUTSIDE)


@compiled
def side_of_face(outline: Outline, vertices, faces, f):
    """`side_of_triangle` of a face."""
    a, b, c = faces[f, 0], faces[f, 1], faces[f, 2]
    return side_of_triangle(
        outline,
        (vertices[a, 0], vertices[a, 1], vertices[a, 2]),
        (vertices[b, 0], vertices[b, 1], vertices[b, 2]),
        (vertices[c, 0], vertices[c, 1], vertices[c, 2]),
    )
