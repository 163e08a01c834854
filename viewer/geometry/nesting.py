"""Which shells lie wholly inside which closed shells."""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.upright_lines import SKEW, UprightLines, bin_faces, bin_of, crossing
from viewer.progress import Progress

_SAMPLES = 48  # points asked for each shell; overlapping shells differ at some of them
_STEP_MM = 0.002  # asked this far outside: what touches the wall from inside is not nested


class Nesting(NamedTuple):
    """How shells lie in one another.

    depth : (k,) int32, number of closed shells around each shell
    inner, outer : (p,) int32, pairs of a shell and a closed shell around it
    apart : (p,) bool, the two do not touch
    """

    depth: np.ndarray
    inner: np.ndarray
    outer: np.ndarray
    apart: np.ndarray


def shells_around(
    corners_mm: np.ndarray,
    shell_of_face: np.ndarray,
    closed: np.ndarray,
    outward: np.ndarray,
    boxes_mm: np.ndarray,
    progress: Progress | None = None,
) -> Nesting:
    """Which closed shells lie wholly around each shell.

    corners_mm : (m, 3, 3) float64, consistently wound inside each shell
    shell_of_face : (m,) int32
    closed : (k,) bool
    outward : (k,) float, +1 where the winding of a shell faces outward, −1 where it faces inward
    boxes_mm : (k, 2, 3) float64, box of each shell

    A shell that overlaps, touches or repeats another is not nested in it: sample points, moved
    0.002 mm outward, have to lie inside the other. What touches the wall of a cavity from within
    the cavity does count as inside it, for it is a body in a hollow. Raises Cancelled.
    """
    progress = progress or Progress()
    nothing = np.empty(0, np.int32)
    candidates = _with_a_box_around(boxes_mm, closed, progress)
    if not candidates.any():
        return Nesting(np.zeros(len(closed), np.int32), nothing, nothing, nothing.astype(bool))
    near, far, shells = _points_beside(corners_mm, shell_of_face, candidates, outward, progress)
    inside_closed = np.flatnonzero(closed[shell_of_face])
    progress.check()
    corners_mm = corners_mm[inside_closed]
    progress.check()
    lines = bin_faces(corners_mm, progress)
    pairs = _find_around(
        lines, shell_of_face[inside_closed], near @ SKEW.T, far @ SKEW.T, shells, len(closed),
        progress.stop_flag,
    )  # fmt: skip
    progress.check()
    sizes = np.prod(boxes_mm[:, 1] - boxes_mm[:, 0], axis=1)
    return _nest(*pairs, sizes, closed)


def _nest(inner, outer, strictly, sizes, closed):
    """Depths from pairs; a pair that only touches counts where the outer one is a cavity."""
    depth = np.zeros(len(sizes), np.int32)
    kept = np.zeros(len(inner), bool)
    for i in np.argsort(-sizes[inner], kind="stable"):
        kept[i] = closed[inner[i]] and (strictly[i] or depth[outer[i]] % 2 == 1)
        depth[inner[i]] += kept[i]
    return Nesting(depth, inner[kept], outer[kept], strictly[kept])


def _with_a_box_around(boxes_mm, closed, progress):
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
        progress.check()
    return found


def _points_beside(corners_mm, shell_of_face, candidates, outward, progress):
    """Sample points on the faces of the candidates, moved inward and outward, and their shells."""
    faces = np.flatnonzero(candidates[shell_of_face])
    progress.check()
    faces = faces[np.argsort(shell_of_face[faces], kind="stable")]
    progress.check()
    shell = shell_of_face[faces]
    sizes = np.bincount(shell)
    size = sizes[shell]
    rank = np.arange(len(faces)) - (np.cumsum(sizes) - sizes)[shell]
    progress.check()
    # Evenly through each shell's faces: rank·samples/size steps to a new whole number.
    chosen = (rank * _SAMPLES) // size != ((rank - 1) * _SAMPLES) // size
    faces, shell = faces[chosen], shell[chosen]
    a, b, c = (corners_mm[faces, k] for k in range(3))
    normal = np.cross(b - a, c - a)
    length = np.linalg.norm(normal, axis=1)
    solid = length > 0
    step = normal[solid] * (_STEP_MM * outward[shell[solid]] / length[solid])[:, None]
    middle = (a + b + c)[solid] / 3
    return middle - step, middle + step, shell[solid]


@compiled
def _find_around(lines: UprightLines, shell_of_face, near, far, point_shell, shells, stop):
    """Pairs (inner, outer, strictly): all `near` points of inner lie in outer; all `far` ones too.

    The points of one shell follow one another.
    """
    inner, outer, strictly = [np.int32(0)], [np.int32(0)], [False]
    windings = np.zeros(shells, np.int32)
    touched = np.empty(len(shell_of_face), np.int32)
    loose, strict = np.zeros(shells, np.int32), np.zeros(shells, np.int32)
    start = 0
    while start < len(near):
        if stop[0]:
            break
        own = point_shell[start]
        end = start
        loose[:] = 0
        strict[:] = 0
        while end < len(near) and point_shell[end] == own:
            _count_inside(lines, shell_of_face, near[end], windings, touched, loose)
            _count_inside(lines, shell_of_face, far[end], windings, touched, strict)
            end += 1
        for shell in range(shells):
            if shell != own and loose[shell] == end - start:
                inner.append(own)
                outer.append(np.int32(shell))
                strictly.append(strict[shell] == end - start)
        start = end
    return np.array(inner)[1:], np.array(outer)[1:], np.array(strictly)[1:]


@compiled
def _count_inside(lines, shell_of_face, point, windings, touched, inside):
    """Add 1 to `inside` for every shell around the point; `windings` is left all zero."""
    x, y, z = point
    b = bin_of(lines, x, y)
    if b < 0:
        return
    count = 0
    for i in range(lines.starts[b], lines.starts[b + 1]):
        f = lines.faces[i]
        sign, height = crossing(lines.corners, f, x, y)
        if sign != 0 and height > z:
            windings[shell_of_face[f]] += sign
            touched[count] = shell_of_face[f]
            count += 1
    for i in range(count):
        if windings[touched[i]] != 0:
            inside[touched[i]] += 1
            windings[touched[i]] = 0
