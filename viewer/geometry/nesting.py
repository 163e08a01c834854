"""Which shells lie wholly inside which closed shells."""

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.upright_lines import SKEW, UprightLines, bin_faces, bin_of, crossing_above

_SAMPLES = 48  # points asked for each shell; overlapping shells differ at some of them
_STEP_MM = 0.002  # asked this far outside: what touches the wall from inside is not nested


def shells_around(
    corners_mm: np.ndarray,
    shell_of_face: np.ndarray,
    closed: np.ndarray,
    outward: np.ndarray,
    boxes_mm: np.ndarray,
) -> np.ndarray:
    """How many closed shells lie wholly around each shell.

    corners_mm : (m, 3, 3) float64, consistently wound inside each shell
    shell_of_face : (m,) int32
    closed : (k,) bool
    outward : (k,) float, +1 where the winding of a shell faces outward, −1 where it faces inward
    boxes_mm : (k, 2, 3) float64, box of each shell
    returns (k,) int32

    A shell that overlaps, touches or repeats another is not nested in it: every sample point, moved
    0.002 mm outward, has to lie inside the other.
    """
    depth = np.zeros(len(closed), np.int32)
    candidates = _with_a_box_around(boxes_mm, closed)
    if not candidates.any():
        return depth
    points, point_shell = _outside_points(corners_mm, shell_of_face, candidates, outward)
    inside_closed = np.flatnonzero(closed[shell_of_face])
    lines = bin_faces(corners_mm[inside_closed])
    _count_around(lines, shell_of_face[inside_closed], points @ SKEW.T, point_shell, depth)
    return depth


def _with_a_box_around(boxes_mm, closed):
    """(k,) bool: some closed shell's box lies around the shell's own box."""
    order = np.argsort(-np.prod(boxes_mm[:, 1] - boxes_mm[:, 0], axis=1), kind="stable")
    found = np.zeros(len(boxes_mm), bool)
    for i, shell in enumerate(order):
        bigger = order[:i]
        bigger = bigger[closed[bigger]]
        around = (boxes_mm[bigger, 0] < boxes_mm[shell, 0]) & (
            boxes_mm[bigger, 1] > boxes_mm[shell, 1]
        )
        found[shell] = around.all(axis=1).any()
    return found


def _outside_points(corners_mm, shell_of_face, candidates, outward):
    faces = np.flatnonzero(candidates[shell_of_face])
    faces = faces[np.argsort(shell_of_face[faces], kind="stable")]
    shell = shell_of_face[faces]
    first = np.searchsorted(shell, shell)
    size = np.searchsorted(shell, shell, side="right") - first
    rank = np.arange(len(faces)) - first
    # Evenly through each shell's faces: rank·samples/size steps to a new whole number.
    chosen = (rank * _SAMPLES) // size != ((rank - 1) * _SAMPLES) // size
    faces, shell = faces[chosen], shell[chosen]
    a, b, c = (corners_mm[faces, k] for k in range(3))
    normal = np.cross(b - a, c - a)
    length = np.linalg.norm(normal, axis=1)
    solid = length > 0
    step = _STEP_MM * outward[shell[solid]] / length[solid]
    points = (a + b + c)[solid] / 3 + normal[solid] * step[:, None]
    return points, shell[solid]


@compiled
def _count_around(lines: UprightLines, shell_of_face, points, point_shell, depth):
    windings = np.zeros(len(depth), np.int32)
    inside = np.zeros(len(depth), np.int32)
    asked = np.zeros(len(depth), np.int32)
    touched = np.empty(len(shell_of_face), np.int32)
    start = 0
    while start < len(points):
        own = point_shell[start]
        end = start
        inside[:] = 0
        while end < len(points) and point_shell[end] == own:
            x, y, z = points[end]
            b = bin_of(lines, x, y)
            count = 0
            if b >= 0:
                for i in range(lines.starts[b], lines.starts[b + 1]):
                    f = lines.faces[i]
                    sign = crossing_above(lines.corners, f, x, y, z)
                    if sign != 0:
                        windings[shell_of_face[f]] += sign
                        touched[count] = shell_of_face[f]
                        count += 1
            for i in range(count):
                shell = touched[i]
                if windings[shell] != 0 and shell != own:
                    inside[shell] += 1
                windings[shell] = 0
            end += 1
        asked[own] = end - start
        for shell in range(len(depth)):
            depth[own] += inside[shell] == asked[own]
        start = end
