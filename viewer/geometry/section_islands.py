"""What hangs together of a section, at some heights: a thin finger apart from a thick block.

Faces that a plane cuts follow one another round an outline by their common edges, so outlines are
groups of faces (`union_find`). Area and perimeter of an outline are sums over its cuts, as in
`layer_profile`. An outline of negative area is a hole: from its rightmost point on there is
material up to the next outline on the right, which so belongs to the same island.
"""

from dataclasses import dataclass

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.geometry.mesh import frozen
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.turned_part import TurnedPart, turn_part_by
from viewer.geometry.union_find import join_groups, lowest_of_group
from viewer.progress import Progress

MOST_PLANES = 48
_MOST_LOOKS = 20_000_000  # at cuts beside holes; beyond that the holes of a plane are not placed


@dataclass(frozen=True, eq=False)
class SectionIslands:
    """Islands of the sections at (plane + ½) · step_mm above the platform, lowest first.

    plane : (i,) int32; area_mm2, perimeter_mm : (i,) float64, holes taken off and gone round
    low_mm, high_mm : (i, 2) float64, box of each in the frame of `TurnedPart`
    Outlines that do not close, and all of a plane whose holes are too many, are left out.
    """

    step_mm: float
    plane: np.ndarray
    area_mm2: np.ndarray
    perimeter_mm: np.ndarray
    low_mm: np.ndarray
    high_mm: np.ndarray

    def thickness_mm(self) -> np.ndarray:
        """(i,) float64: the shorter side of a rectangle of that area and perimeter.

        CALC: sides d ≤ l with d·l = A and 2·(d + l) = P are P/4 ∓ √(P²/16 − A). What is rounder
        than a square counts as one.
        """
        quarter = 0.25 * self.perimeter_mm
        longer = np.sqrt(np.maximum(quarter**2 - self.area_mm2, 0.0))
        return np.where(longer > 0, quarter - longer, np.sqrt(self.area_mm2))


def section_islands(
    part: PreparedPart, turned: TurnedPart, planes: int, progress: Progress | None = None
) -> SectionIslands:
    """Cut `part`, shells united, at that many heights, at most MOST_PLANES. Raises Cancelled."""
    progress = progress or Progress()
    points = turned.points_mm
    if part.solid_points_mm is not part.points_mm:
        points = turn_part_by(part.solid_points_mm, turned.rotation).points_mm
    planes = max(min(planes, MOST_PLANES), 1)
    step = turned.height_mm / planes
    below = _planes_below(points, turned.platform_mm, step, planes)
    progress.check()
    faces, neighbours = part.solid_faces, part.solid_neighbours
    cut, first, row_of = _cut_faces(below, faces, progress.stop_flag)
    progress.check()
    joined, is_open = _join(below, faces, neighbours, cut, first, row_of)
    cuts, plane = _cuts(points, below, faces, cut, first, turned.platform_mm, step)
    outline, sums = _outlines(joined, is_open, cuts, plane)
    progress.check()
    islands = _join_holes(outline, sums, cuts, plane, planes)
    found = _add_up(islands, sums)
    found = found[(found[:, 1] > 0) & (found[:, 7] == 0)]
    order = np.argsort(found[:, 0], kind="stable")
    found = found[order]
    return SectionIslands(
        float(step),
        frozen(found[:, 0].astype(np.int32)),
        *(frozen(np.ascontiguousarray(found[:, k])) for k in (1, 2)),
        *(frozen(np.ascontiguousarray(found[:, k : k + 2])) for k in (3, 5)),
    )


@compiled
def _planes_below(points, platform, step, planes):
    """(n,) int16: how many planes lie below each point."""
    below = np.empty(len(points), np.int16)
    for v in range(len(points)):
        s = np.ceil((points[v, 2] - platform) / step - 0.5)
        below[v] = np.int16(min(max(s, 0.0), float(planes)))
    return below


@compiled
def _cut_faces(below, faces, stop):
    """Faces that planes cut, the first of each one's cuts (one more at the end), their rows."""
    cut, row_of = np.empty(len(faces), np.int32), np.full(len(faces), -1, np.int32)
    first = np.empty(len(faces) + 1, np.int64)
    rows, cuts = 0, 0
    for f in range(len(faces)):
        if f & LOOK_BITS == 0 and stop[0]:
            break
        a, b, c = below[faces[f, 0]], below[faces[f, 1]], below[faces[f, 2]]
        if a == b and b == c:
            continue
        cut[rows], row_of[f], first[rows] = f, rows, cuts
        rows, cuts = rows + 1, cuts + max(a, b, c) - min(a, b, c)
    first[rows] = cuts
    return cut[:rows].copy(), first[: rows + 1].copy(), row_of


@compiled
def _lowest(below, faces, f):
    return min(below[faces[f, 0]], below[faces[f, 1]], below[faces[f, 2]])


@compiled
def _join(below, faces, neighbours, cut, first, row_of):
    """Groups of cuts that follow one another, and which cuts end at an open edge."""
    joined, is_open = np.arange(first[-1]), np.zeros(first[-1], np.bool_)
    for row in range(len(cut)):
        f = cut[row]
        low = _lowest(below, faces, f)
        for k in range(3):
            a, b = below[faces[f, k]], below[faces[f, (k + 1) % 3]]
            g = neighbours[f, k]
            for p in range(min(a, b), max(a, b)):
                here, beside = first[row] + p - low, row_of[g] if g >= 0 else -1
                there = -1
                if beside >= 0:
                    there = first[beside] + p - _lowest(below, faces, g)
                if beside >= 0 and first[beside] <= there < first[beside + 1]:
                    join_groups(joined, here, there)
                else:
                    is_open[here] = True
    return joined, is_open


@compiled
def _cuts(points, below, faces, cut, first, platform, step):
    """(c, 4) x and y where each cut begins and ends, material on the left, and (c,) its plane.

    Seen from outside a face is wound anticlockwise: where its edge goes up, the cut ends.
    """
    cuts, plane = np.empty((first[-1], 4)), np.empty(first[-1], np.int32)
    for row in range(len(cut)):
        f = cut[row]
        low = _lowest(below, faces, f)
        for k in range(3):
            v, w = faces[f, k], faces[f, (k + 1) % 3]
            a, b = below[v], below[w]
            for p in range(min(a, b), max(a, b)):
                height = platform + (p + 0.5) * step
                t = (height - points[v, 2]) / (points[w, 2] - points[v, 2])
                here, at = first[row] + p - low, 2 if a < b else 0
                cuts[here, at] = points[v, 0] + t * (points[w, 0] - points[v, 0])
                cuts[here, at + 1] = points[v, 1] + t * (points[w, 1] - points[v, 1])
                plane[here] = p
    return cuts, plane


@compiled
def _outlines(joined, is_open, cuts, plane):
    """(c,) outline of each cut; (o, 8): plane, area, perimeter, box low and high, open or not."""
    outline = np.empty(len(joined), np.int32)
    count = 0
    for k in range(len(joined)):
        root = lowest_of_group(joined, k)
        if root == k:
            outline[k] = count
            count += 1
        else:
            outline[k] = outline[root]
    sums = np.zeros((count, 8))
    sums[:, 3:5], sums[:, 5:7] = np.inf, -np.inf
    for k in range(len(joined)):
        o = outline[k]
        x0, y0, x1, y1 = cuts[k, 0], cuts[k, 1], cuts[k, 2], cuts[k, 3]
        sums[o, 0] = plane[k]
        sums[o, 1] += 0.5 * (x0 * y1 - x1 * y0)
        sums[o, 2] += np.hypot(x1 - x0, y1 - y0)
        sums[o, 3], sums[o, 4] = min(sums[o, 3], x0, x1), min(sums[o, 4], y0, y1)
        sums[o, 5], sums[o, 6] = max(sums[o, 5], x0, x1), max(sums[o, 6], y0, y1)
        if is_open[k]:
            sums[o, 7] = 1.0
    return outline, sums


@compiled
def _join_holes(outline, sums, cuts, plane, planes):
    """(o,) groups of outlines: each hole with the outline on the right of its rightmost point."""
    islands = np.arange(len(sums))
    start, holes = np.zeros(planes + 1, np.int64), np.zeros(planes, np.int64)
    for k in range(len(plane)):
        start[plane[k] + 1] += 1
    for p in range(planes):
        start[p + 1] += start[p]
    for o in range(len(sums)):
        if sums[o, 1] < 0:
            holes[int(sums[o, 0])] += 1
    order, filled = np.empty(len(plane), np.int64), start.copy()
    right = np.full(len(sums), -1, np.int64)
    for k in range(len(plane)):
        order[filled[plane[k]]] = k
        filled[plane[k]] += 1
        known = right[outline[k]]
        if known < 0 or cuts[k, 2] > cuts[known, 2]:
            right[outline[k]] = k
    for o in range(len(sums)):
        p = int(sums[o, 0])
        if holes[p] * (start[p + 1] - start[p]) * planes > _MOST_LOOKS:
            sums[o, 7] = 1.0
        elif sums[o, 1] < 0 and right[o] >= 0:
            x, y = cuts[right[o], 2], cuts[right[o], 3]
            nearest, beside = np.inf, -1
            for at in range(start[p], start[p + 1]):
                k = order[at]
                if outline[k] == o or (cuts[k, 1] > y) == (cuts[k, 3] > y):
                    continue
                t = (y - cuts[k, 1]) / (cuts[k, 3] - cuts[k, 1])
                there = cuts[k, 0] + t * (cuts[k, 2] - cuts[k, 0])
                if x <= there < nearest:
                    nearest, beside = there, outline[k]
            if beside >= 0:
                join_groups(islands, o, beside)
    return islands


@compiled
def _add_up(islands, sums):
    """(o, 8): of each group of outlines the sums, at its lowest; elsewhere 0."""
    found = np.zeros_like(sums)
    found[:, 3:5], found[:, 5:7] = np.inf, -np.inf
    for o in range(len(sums)):
        i = lowest_of_group(islands, o)
        found[i, 0] = sums[o, 0]
        found[i, 1] += sums[o, 1]
        found[i, 2] += sums[o, 2]
        for k in (3, 4):
            found[i, k] = min(found[i, k], sums[o, k])
            found[i, k + 2] = max(found[i, k + 2], sums[o, k + 2])
        found[i, 7] = max(found[i, 7], sums[o, 7])
    return found
