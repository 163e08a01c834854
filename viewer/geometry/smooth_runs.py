"""Runs of faces that go on smoothly: neighbours within 10° of each other, joined."""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.geometry.face_rows import BLOCK
from viewer.progress import Progress

RUN_ANGLE_DEG = 10.0
_LARGE = 16  # runs of more faces keep their spans, so that most heights need no look at the faces

# The 13 lines through opposite corners, edges and sides of a cube.
_LINES = np.array(
    [
        (1, 0, 0), (0, 1, 0), (0, 0, 1), (1, 1, 0), (1, -1, 0), (1, 0, 1), (1, 0, -1), (0, 1, 1),
        (0, 1, -1), (1, 1, 1), (1, 1, -1), (1, -1, 1), (-1, 1, 1),
    ],
    np.float64,
)  # fmt: skip


class SmoothRuns(NamedTuple):
    """Runs of a part.

    run_of_face : (m,) int32
    run_of_block : (b,) int32, run of all faces of a block (see `face_rows`), −1 if of several
    starts, members : faces of run r are members[starts[r]:starts[r + 1]]; int32
    span_of_run : (r,) int32, row in `spans` of a large run, −1 for a small one
    spans_mm : (s, 13, 3) float32, along each of 13 lines the step from the run's lowest point to
        its highest; the first three lines are the axes
    """

    run_of_face: np.ndarray
    run_of_block: np.ndarray
    starts: np.ndarray
    members: np.ndarray
    span_of_run: np.ndarray
    spans_mm: np.ndarray


def smooth_runs(
    points_mm: np.ndarray,
    faces: np.ndarray,
    neighbours: np.ndarray,
    normals: np.ndarray,
    progress: Progress | None = None,
) -> SmoothRuns:
    """Number the runs: connected faces whose neighbours' normals differ by at most 10°.

    points_mm : (n, 3) float64
    faces : (m, 3) int32
    neighbours : (m, 3) int32 from `face_neighbours`
    normals : (m, 3) float, unit, oriented alike; zero for faces without area

    A face without area joins its neighbours whatever their angle, so that a needle does not cut a
    surface in two. Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    least_cosine = np.cos(np.radians(RUN_ANGLE_DEG + 1e-3))
    run, starts, members = _number_runs(
        neighbours, normals, np.float32(least_cosine), progress.stop_flag
    )
    progress.check()
    large = np.diff(starts) > _LARGE
    span_of_run = np.where(large, np.cumsum(large) - 1, -1).astype(np.int32)
    spans = _measure_spans(
        points_mm, faces, run, span_of_run, int(large.sum()), _LINES, progress.stop_flag
    )
    progress.check()
    return SmoothRuns(run, _runs_of_blocks(run), starts, members, span_of_run, spans)


def runs_higher_than(
    runs: SmoothRuns, points_mm: np.ndarray, faces: np.ndarray, up: np.ndarray, height_mm: float
) -> np.ndarray:
    """(r,) bool: the run spans more than `height_mm` along `up` ((3,) float64, unit)."""
    return _compare_heights(runs, points_mm, faces, up, height_mm)


@compiled
def _number_runs(neighbours, normals, least_cosine, stop):
    """Run of each face, and the faces of each run (they are met in that order)."""
    run = np.full(len(neighbours), -1, np.int32)
    members = np.empty(len(neighbours), np.int32)
    starts = np.empty(len(neighbours) + 1, np.int32)
    met, count = 0, 0
    for seed in range(len(neighbours)):
        if run[seed] >= 0:
            continue
        run[seed] = count
        starts[count] = met
        members[met] = seed
        looked_at = met
        met += 1
        while looked_at < met:
            if looked_at & LOOK_BITS == 0 and stop[0]:
                return run, starts[:1].copy(), members
            f = members[looked_at]
            looked_at += 1
            ax, ay, az = normals[f]
            for k in range(3):
                g = neighbours[f, k]
                if g < 0 or run[g] >= 0:
                    continue
                bx, by, bz = normals[g]
                flat = (ax == 0 and ay == 0 and az == 0) or (bx == 0 and by == 0 and bz == 0)
                if flat or ax * bx + ay * by + az * bz >= least_cosine:
                    run[g] = count
                    members[met] = g
                    met += 1
        count += 1
    starts[count] = met
    return run, starts[: count + 1].copy(), members


@compiled
def _runs_of_blocks(run):
    blocks = np.empty((len(run) + BLOCK - 1) // BLOCK, np.int32)
    for i in range(len(blocks)):
        here = run[BLOCK * i : BLOCK * (i + 1)]
        blocks[i] = here[0]
        for f in range(len(here)):
            if here[f] != here[0]:
                blocks[i] = -1
                break
    return blocks


@compiled
def _measure_spans(points, faces, run, span_of_run, large, lines, stop):
    low, high = np.full((large, len(lines)), np.inf), np.full((large, len(lines)), -np.inf)
    lowest = np.zeros((large, len(lines)), np.int32)
    highest = np.zeros((large, len(lines)), np.int32)
    for f in range(len(faces)):
        if f & LOOK_BITS == 0 and stop[0]:
            break
        s = span_of_run[run[f]]
        if s < 0:
            continue
        for k in range(3):
            v = faces[f, k]
            x, y, z = points[v, 0], points[v, 1], points[v, 2]
            for i in range(len(lines)):
                along = lines[i, 0] * x + lines[i, 1] * y + lines[i, 2] * z
                if along < low[s, i]:
                    low[s, i], lowest[s, i] = along, v
                if along > high[s, i]:
                    high[s, i], highest[s, i] = along, v
    spans = np.empty((large, len(lines), 3), np.float32)
    for s in range(large):
        for i in range(len(lines)):
            for axis in range(3):
                spans[s, i, axis] = points[highest[s, i], axis] - points[lowest[s, i], axis]
    return spans


@compiled
def _compare_heights(runs, points, faces, up, height):
    higher = np.zeros(len(runs.starts) - 1, np.bool_)
    for r in range(len(higher)):
        s = runs.span_of_run[r]
        if s >= 0:
            # Two of its points differ by so much in height; its box cannot be higher than so.
            least, most = 0.0, 0.0
            for i in range(runs.spans_mm.shape[1]):
                step = runs.spans_mm[s, i]
                least = max(least, abs(up[0] * step[0] + up[1] * step[1] + up[2] * step[2]))
            for axis in range(3):
                most += abs(up[axis] * runs.spans_mm[s, axis, axis])
            if least > height * 1.0001 or most < height * 0.9999:
                higher[r] = least > height
                continue
        low, high = np.inf, -np.inf
        for i in range(runs.starts[r], runs.starts[r + 1]):
            for k in range(3):
                p = points[faces[runs.members[i], k]]
                z = up[0] * p[0] + up[1] * p[1] + up[2] * p[2]
                low, high = min(low, z), max(high, z)
        higher[r] = high - low > height
    return higher
