"""The demo part: the soft-touch grip of a garden trowel, made by formula.

A hollow, bent sleeve: a rimmed butt, palm swell above, four finger grooves below, a thumb rest,
raised leaves all over the outside (class A), a rolled collar at the tool end (class B), a plain
round socket inside (unmarked). The surface is one closed grid: rows run along the profile (butt
lip, outside, collar, socket, back to the butt lip), columns run around the middle line.
"""

from dataclasses import dataclass

import numpy as np

from viewer.geometry.face_classes import CLASS_A, CLASS_B, UNMARKED
from viewer.geometry.leaf_relief import LeafPattern, leaf_relief_mm, smooth_step
from viewer.geometry.mesh import Mesh

# Places along the middle line, mm from the butt.
BUTT_END_MM = 5.0
RIM_MM, RIM_PLACE_MM, RIM_WIDTH_MM = 4.6, 5.4, 3.6  # the rim that keeps the hand on the grip
COLLAR_CENTRE_MM = 118.3
# Radii of the collar's end, mm: the neck is round there so that the roll is a true ring.
NECK_MM, ROLL_CENTRE_MM, ROLL_MM, ROLL_FILLET_MM = 12.9, 14.5, 4.5, 2.6
SOCKET_MM, SOCKET_END_MM = ROLL_CENTRE_MM - ROLL_MM, 8.4
CREST_MM, CREST_ROUND_MM = SOCKET_END_MM + 1.6, 2.2
AROUND_MM = 100.0  # the leaves' unrolled circumference: about the mean of the outside

# Half width (to the side), half height above and below the middle line, mm, along the part.
_PLACES_MM = np.array([5.0, 17.0, 33.0, 54.0, 72.0, 90.0, 103.0, 112.0])
_SIDE_MM = np.array([14.4, 13.8, 14.8, 15.8, 15.0, 13.6, 12.9, NECK_MM])
_ABOVE_MM = np.array([14.4, 13.8, 15.4, 17.2, 15.9, 13.7, 12.9, NECK_MM])
_BELOW_MM = np.array([15.0, 15.0, 16.4, 16.8, 16.2, 14.8, 13.3, NECK_MM])
_FINGERS_MM = np.array([33.0, 52.0, 70.5, 88.0])
_FINGER_DEPTH_MM = np.array([4.0, 4.4, 4.2, 3.2])


@dataclass(frozen=True, eq=False)
class _Profile:
    """The closed profile, one entry a row: ρ = share · outside radius + plus.

    place_mm : along the middle line; share, plus_mm : how ρ follows the outside;
    label : class of the strip between this row and the next
    """

    place_mm: np.ndarray
    share: np.ndarray
    plus_mm: np.ndarray
    label: np.ndarray


def _spline(x: np.ndarray, knots: np.ndarray, values: np.ndarray) -> np.ndarray:
    """Cubic spline with level ends through (`knots`, `values`), constant beyond them."""
    h, d = np.diff(knots), np.diff(values) / np.diff(knots)
    n = len(knots)
    matrix, right = np.eye(n), np.zeros(n)  # unknowns: slopes at the knots
    for i in range(1, n - 1):
        matrix[i, i - 1 : i + 2] = h[i], 2.0 * (h[i - 1] + h[i]), h[i - 1]
        right[i] = 3.0 * (h[i] * d[i - 1] + h[i - 1] * d[i])
    slopes = np.linalg.solve(matrix, right)
    x = np.clip(x, knots[0], knots[-1])
    i = np.clip(np.searchsorted(knots, x, side="right") - 1, 0, n - 2)
    t = (x - knots[i]) / h[i]
    rest = 1.0 - t
    return (
        rest * rest * (1.0 + 2.0 * t) * values[i]
        + t * t * (3.0 - 2.0 * t) * values[i + 1]
        + h[i] * t * rest * (rest * slopes[i] - t * slopes[i + 1])
    )


def _outside_radius_mm(place_mm: np.ndarray, theta: np.ndarray) -> np.ndarray:
    """(r, c) radius of the smooth outside; `theta` is 0 above and π below the middle line."""
    s = place_mm[:, None]
    up, side = np.cos(theta)[None, :], np.abs(np.sin(theta))[None, :]
    heights = np.where(
        up >= 0,
        _spline(place_mm, _PLACES_MM, _ABOVE_MM)[:, None],
        _spline(place_mm, _PLACES_MM, _BELOW_MM)[:, None],
    )
    widths = _spline(place_mm, _PLACES_MM, _SIDE_MM)[:, None]
    power = 2.0 + 0.35 * smooth_step(107.0, 90.0, s)  # a little squarer than an ellipse
    radius = ((np.abs(up) / heights) ** power + (side / widths) ** power) ** (-1.0 / power)
    # Fingers wrap round from below and lean towards the tool on their way up.
    from_below = np.arccos(np.clip(-up, -1.0, 1.0))
    reach = smooth_step(1.9, 0.35, from_below)
    leaning = s - 2.2 * from_below**2
    for middle, depth in zip(_FINGERS_MM, _FINGER_DEPTH_MM, strict=True):
        radius = radius - depth * reach * np.exp(-(((leaning - middle) / 6.6) ** 2))
    rim = RIM_MM * np.exp(-(((s - RIM_PLACE_MM) / RIM_WIDTH_MM) ** 2))
    thumb = np.exp(-(((s - 93.0) / 10.0) ** 2)) * smooth_step(0.85, 0.0, np.pi - from_below)
    return radius + rim - 1.3 * thumb


def _steps(length_mm: float, step_mm: float) -> np.ndarray:
    """0 ≤ t < 1 in equal steps of about `step_mm`, at least three."""
    return np.arange(n := max(3, int(np.ceil(length_mm / step_mm)))) / n


def _profile(step_mm: float) -> _Profile:
    """Rows about `step_mm` apart outside and three times as far apart in the socket."""
    fillet_centre = COLLAR_CENTRE_MM - np.sqrt(
        (ROLL_MM + ROLL_FILLET_MM) ** 2 - (NECK_MM + ROLL_FILLET_MM - ROLL_CENTRE_MM) ** 2
    )
    contact = np.arctan2(
        NECK_MM + ROLL_FILLET_MM - ROLL_CENTRE_MM, fillet_centre - COLLAR_CENTRE_MM
    )
    parts = []

    def add(place, share, plus, label):
        parts.append(np.stack(np.broadcast_arrays(place, share, plus, label)).astype(float))

    quarter = 0.5 * np.pi * _steps(11.0, step_mm)
    add(
        BUTT_END_MM * (1.0 - np.cos(quarter)),
        np.sin(quarter),
        CREST_MM * (1.0 - np.sin(quarter)),
        CLASS_A,
    )
    add(
        BUTT_END_MM + (fillet_centre - BUTT_END_MM) * _steps(fillet_centre - BUTT_END_MM, step_mm),
        1.0,
        0.0,
        CLASS_A,
    )
    turn = -0.5 * np.pi + (contact - 0.5 * np.pi) % np.pi * _steps(3.0, step_mm)
    add(
        fillet_centre + ROLL_FILLET_MM * np.cos(turn),
        0.0,
        NECK_MM + ROLL_FILLET_MM + ROLL_FILLET_MM * np.sin(turn),
        CLASS_B,
    )
    turn = contact - (contact + 0.5 * np.pi) * _steps(20.0, step_mm)
    add(
        COLLAR_CENTRE_MM + ROLL_MM * np.cos(turn),
        0.0,
        ROLL_CENTRE_MM + ROLL_MM * np.sin(turn),
        CLASS_B,
    )
    inward = _steps(COLLAR_CENTRE_MM - CREST_ROUND_MM, 3.0 * step_mm)
    add(
        COLLAR_CENTRE_MM + (CREST_ROUND_MM - COLLAR_CENTRE_MM) * inward,
        0.0,
        SOCKET_MM + (SOCKET_END_MM - SOCKET_MM) * smooth_step(0.0, 1.0, inward),
        UNMARKED,
    )
    quarter = 0.5 * np.pi * _steps(3.2, step_mm)
    add(
        CREST_ROUND_MM * (1.0 - np.sin(quarter)),
        0.0,
        SOCKET_END_MM + (CREST_MM - SOCKET_END_MM) * (1.0 - np.cos(quarter)),
        UNMARKED,
    )
    place, share, plus, label = np.concatenate(parts, axis=1)
    return _Profile(place, share, plus, label.astype(np.uint8))


def _middle_line(place_mm: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """(r, 3) points of the bent middle line in the x–z plane, and (r,) its slope angle, radians."""
    fine = np.linspace(0.0, 130.0, 2601)
    # Droops at the butt, rises through the palm and levels out towards the tool.
    slope = np.radians(
        _spline(fine, np.array([0.0, 45.0, 92.0, 123.0]), np.array([14.0, 7.0, -5.0, -8.0]))
    )
    step = fine[1] - fine[0]
    x = np.concatenate([[0.0], np.cumsum(0.5 * step * (np.cos(slope[1:]) + np.cos(slope[:-1])))])
    z = np.concatenate([[0.0], np.cumsum(0.5 * step * (np.sin(slope[1:]) + np.sin(slope[:-1])))])
    points = np.stack([np.interp(place_mm, fine, x), 0 * place_mm, np.interp(place_mm, fine, z)], 1)
    return points, np.interp(place_mm, fine, slope)


def grid_normals(points: np.ndarray) -> np.ndarray:
    """Unit outward normals of a grid that closes on itself both ways; (r, c, 3)."""
    along = np.roll(points, -1, axis=0) - np.roll(points, 1, axis=0)
    around = np.roll(points, -1, axis=1) - np.roll(points, 1, axis=1)
    normals = np.cross(along, around)
    return normals / np.linalg.norm(normals, axis=2, keepdims=True)


def grid_faces(points: np.ndarray) -> np.ndarray:
    """(2·r·c, 3) faces of the closed grid, each cell split along its shorter diagonal."""
    rows, columns = points.shape[:2]
    index = np.arange(rows * columns, dtype=np.int32).reshape(rows, columns)
    a, b = index, np.roll(index, -1, axis=0)
    c, d = np.roll(b, -1, axis=1), np.roll(a, -1, axis=1)
    flat = points.reshape(-1, 3)
    first = ((flat[a] - flat[c]) ** 2).sum(-1) <= ((flat[b] - flat[d]) ** 2).sum(-1)
    one = np.where(first[..., None], np.stack([a, b, c], -1), np.stack([a, b, d], -1))
    two = np.where(first[..., None], np.stack([a, c, d], -1), np.stack([b, c, d], -1))
    return np.stack([one, two], axis=2).reshape(-1, 3)


@dataclass(frozen=True, eq=False)
class GripGrid:
    """The grip's surface as a grid that closes on itself both ways.

    place_mm : (r,) places along the middle line; label : (r,) uint8, class of the strip of cells
    between a row and the next; points_mm : (r, c, 3). Cell (i, j) lies between the rows i and
    i + 1 and the columns j and j + 1; its two faces are 2·(i·c + j) and the next.
    """

    place_mm: np.ndarray
    label: np.ndarray
    points_mm: np.ndarray


def grip_grid(resolution: float = 1.0) -> GripGrid:
    """The grid of the grip's surface; `resolution` as in `trowel_grip`."""
    profile = _profile(0.42 / resolution)
    columns = max(12, round(352 * resolution))
    theta = 2.0 * np.pi * np.arange(columns) / columns
    middle, slope = _middle_line(profile.place_mm)
    radius = (
        profile.share[:, None] * _outside_radius_mm(profile.place_mm, theta)
        + profile.plus_mm[:, None]
    )
    up = np.stack([-np.sin(slope), 0.0 * slope, np.cos(slope)], axis=1)
    sideways = np.array([0.0, 1.0, 0.0])
    direction = (
        np.cos(theta)[None, :, None] * up[:, None, :]
        + np.sin(theta)[None, :, None] * sideways[None, None, :]
    )
    points = middle[:, None, :] + radius[..., None] * direction
    outside = profile.label == CLASS_A
    pattern = LeafPattern(start_mm=13.0, end_mm=108.5, around_mm=AROUND_MM)
    leaves = leaf_relief_mm(profile.place_mm[outside], theta * AROUND_MM / (2.0 * np.pi), pattern)
    points[outside] += leaves[..., None] * grid_normals(points)[outside]
    # Rounded to a nanometre so that every machine makes the same part.
    return GripGrid(profile.place_mm, profile.label, np.round(points, 6))


def trowel_grip(resolution: float = 1.0) -> tuple[Mesh, np.ndarray]:
    """The grip as its designer drew it: lying along x, about 125 × 38 × 45 mm.

    resolution : facets along and around relative to the full part; 1.0 gives about 300,000 faces
    returns the closed Mesh and its face classes, (m,) uint8
    """
    grid = grip_grid(resolution)
    classes = np.repeat(grid.label, 2 * grid.points_mm.shape[1])
    return Mesh(grid.points_mm.reshape(-1, 3), grid_faces(grid.points_mm)), classes
