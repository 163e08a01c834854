"""Where the surface begins: cups, from which islands grow.

A cup is a connected piece of the surface below the middle of layer k that nowhere reaches down to
the middle of layer k − 1. Its rim at the middle of layer k bounds a region of that layer; if the
material is inside the rim, the region starts in mid-air. Every cup has a lowest vertex, and that
is a local minimum of height over the surface. So: one pass over the faces for the minima, then a
walk over the faces from each minimum, which ends as soon as it reaches the layer below. Nothing
here depends on how steep the faces are.

A vertex within `snap` of a plane counts as below it, so that level faces lie on one side of it.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.progress import Progress

_SEEDS_AT_ONCE = 20_000  # between two looks at the progress token
_LEAST_MM2 = 1e-9  # rims that enclose less are rounding


class Cups(NamedTuple):
    """Cups that hold material, and the rims of all cups.

    layer : (c,) int32, index k of the layer whose middle bounds the cup, the lowest being 0
    lowest_vertex : (c,) int32
    face_starts, faces : (c + 1,) and (f,) int64, faces of cup i are faces[starts[i]:starts[i + 1]]
    rim_layer : (r,) int32
    rim_cup : (r,) int32, −1 where the rim is that of a pit, a cup that holds air
    rim_area_mm2 : (r,) float64, positive where the material is inside
    rim_starts, rim_points_mm : (r + 1,) int64 and (p, 2) float64, corners of each rim
    """

    layer: np.ndarray
    lowest_vertex: np.ndarray
    face_starts: np.ndarray
    faces: np.ndarray
    rim_layer: np.ndarray
    rim_cup: np.ndarray
    rim_area_mm2: np.ndarray
    rim_starts: np.ndarray
    rim_points_mm: np.ndarray


def find_cups(
    points_mm: np.ndarray,
    faces: np.ndarray,
    neighbours: np.ndarray,
    platform_mm: float,
    layer_mm: float,
    snap_mm: float,
    progress: Progress,
) -> Cups:
    """All cups of a surface that do not start in the lowest layer.

    points_mm : (n, 3) float64, z up
    faces : (m, 3) int32, wound outward
    neighbours : (m, 3) int32, the face across the edge from corner k to corner k + 1, −1 if open
    snap_mm : how far above a plane a vertex still counts as on it

    A cup with an open edge has no inside and is left out.
    """
    heights = points_mm[:, 2] - platform_mm
    progress.check()
    seeds, layers = _find_minima(faces, heights, layer_mm, snap_mm, progress.stop_flag)
    progress.check()
    seed_of_face = np.full(len(faces), -1, np.int32)
    traced = np.full(len(faces), -1, np.int32)
    queue = np.empty(len(faces), np.int32)
    found = []
    for first in range(0, len(seeds), _SEEDS_AT_ONCE):
        progress.check()
        last = min(first + _SEEDS_AT_ONCE, len(seeds))
        found.append(
            _grow_cups(
                first, last, seeds, layers, points_mm, faces, neighbours, heights,
                layer_mm, snap_mm, seed_of_face, traced, queue, progress.stop_flag,
            )
        )  # fmt: skip
        progress.check()
    return _one_after_another(found)


def _one_after_another(found) -> Cups:
    if not found:
        nothing, zero = np.empty(0, np.int32), np.zeros(1, np.int64)
        return Cups(
            nothing, nothing, zero, nothing, nothing, nothing, np.empty(0), zero, np.empty((0, 2))
        )
    if len(found) == 1:
        return Cups(*found[0])
    joined, cups = [], 0
    for i, column in enumerate(zip(*found, strict=True)):
        if i in (2, 7):  # starts
            ends = np.cumsum([0, *(starts[-1] for starts in column)])
            parts = [starts[:-1] + end for starts, end in zip(column, ends, strict=False)]
            joined.append(np.concatenate([*parts, ends[-1:]]))
        elif i == 5:  # the cup of each rim
            cups = np.cumsum([0, *(len(chunk[0]) for chunk in found)])
            parts = [np.where(c >= 0, c + n, -1) for c, n in zip(column, cups, strict=False)]
            joined.append(np.concatenate(parts).astype(np.int32))
        else:
            joined.append(np.concatenate(column))
    return Cups(*joined)


@compiled
def _find_minima(faces, heights, layer, snap, stop):
    """A face at each vertex without a lower neighbour, and the layer that starts there."""
    higher = np.zeros(len(heights), np.bool_)
    for f in range(len(faces)):
        a, b, c = faces[f, 0], faces[f, 1], faces[f, 2]
        if f & LOOK_BITS == 0 and stop[0]:
            break
        low = min(heights[a], heights[b], heights[c])
        higher[a] |= heights[a] > low
        higher[b] |= heights[b] > low
        higher[c] |= heights[c] > low
    for v in range(len(heights)):
        higher[v] |= heights[v] <= 0.5 * layer + snap  # starts on the platform
    count = 0
    for f in range(len(faces)):
        count += not (higher[faces[f, 0]] and higher[faces[f, 1]] and higher[faces[f, 2]])
    seeds, layers = np.empty(count, np.int32), np.empty(count, np.int32)
    count = 0
    for f in range(len(faces)):
        a, b, c = faces[f, 0], faces[f, 1], faces[f, 2]
        if (higher[a] and higher[b] and higher[c]) or a == b or b == c or c == a:
            continue
        low = min(heights[a], heights[b], heights[c])
        seeds[count] = f
        layers[count] = int(np.ceil((low - snap) / layer - 0.5))
        count += 1
    return seeds[:count], layers[:count]


@compiled
def _grow_cups(
    first, last, seeds, layers, points, faces, neighbours, heights, layer, snap,
    seed_of_face, traced, queue, stop,
):  # fmt: skip
    """The columns of `Cups` for the seeds from `first` to `last`."""
    cup_layer, lowest, face_starts = [np.int32(0)], [np.int32(0)], [np.int64(0)]
    cup_faces, rim_layer, rim_cup = [np.int32(0)], [np.int32(0)], [np.int32(0)]
    rim_area, rim_starts, xs, ys = [0.0], [np.int64(0)], [0.0], [0.0]
    for some in (cup_layer, lowest, cup_faces, rim_layer, rim_cup):
        some.pop()
    for some in (rim_area, xs, ys):
        some.pop()
    for seed in range(first, last):
        if stop[0]:
            break
        k = layers[seed]
        known = seed_of_face[seeds[seed]]
        if known >= 0 and layers[known] == k:
            continue  # reached already, from another minimum
        plane = (k + 0.5) * layer
        count = _flood(seed, seeds, layers, faces, neighbours, heights, plane + snap, layer,
                       seed_of_face, queue)  # fmt: skip
        rims, total = len(rim_area), 0.0
        whole = count > 0
        for i in range(count):
            f = queue[i]
            if traced[f] == seed or not _crosses(faces, heights, f, plane + snap):
                continue
            area = _trace(f, seed, points, faces, neighbours, heights, plane, snap, traced, xs, ys)
            whole &= area == area
            total += area
            rim_area.append(area)
            rim_starts.append(len(xs))
            rim_layer.append(k)
            rim_cup.append(np.int32(len(cup_layer)) if whole else np.int32(-1))
        holds_material = whole and total > _LEAST_MM2
        for r in range(rims, len(rim_area)):
            rim_cup[r] = np.int32(len(cup_layer)) if holds_material else np.int32(-1)
            if not whole:
                rim_area[r] = 0.0
        if holds_material:
            low = faces[seeds[seed], 0]
            for i in range(count):
                cup_faces.append(queue[i])
                for j in range(3):
                    if heights[faces[queue[i], j]] < heights[low]:
                        low = faces[queue[i], j]
            face_starts.append(len(cup_faces))
            cup_layer.append(k)
            lowest.append(low)
    rim_points = np.empty((len(xs), 2))
    for i in range(len(xs)):
        rim_points[i, 0], rim_points[i, 1] = xs[i], ys[i]
    return (
        np.array(cup_layer), np.array(lowest), np.array(face_starts), np.array(cup_faces),
        np.array(rim_layer), np.array(rim_cup), np.array(rim_area), np.array(rim_starts),
        rim_points,
    )  # fmt: skip


@compiled
def _flood(seed, seeds, layers, faces, neighbours, heights, top, layer, seed_of_face, queue):
    """Walk over all faces below `top` from a seed; they are left in `queue`, their number returned.

    Returns 0 if the walk comes to an open edge, to the layer below, or to faces of which another
    walk in the same layer has found that. Faces are marked with the seed that reached them last; a
    mark from a lower layer cannot be met without coming to the layer below.
    """
    k = layers[seed]
    floor = top - layer
    queue[0] = seeds[seed]
    seed_of_face[seeds[seed]] = seed
    done, count = 0, 1
    while done < count:
        f = queue[done]
        done += 1
        for j in range(3):
            if heights[faces[f, j]] <= floor:
                return 0
        for j in range(3):
            if heights[faces[f, j]] > top and heights[faces[f, (j + 1) % 3]] > top:
                continue
            g = neighbours[f, j]
            if g < 0:
                return 0
            other = seed_of_face[g]
            if other == seed:
                continue
            if other >= 0 and layers[other] == k:
                return 0
            seed_of_face[g] = seed
            queue[count] = g
            count += 1
    return count


@compiled
def _crosses(faces, heights, f, top):
    """Whether a face of a cup reaches above the plane."""
    a, b, c = faces[f, 0], faces[f, 1], faces[f, 2]
    return max(heights[a], heights[b], heights[c]) > top


@compiled
def _trace(start, seed, points, faces, neighbours, heights, plane, snap, traced, xs, ys):
    """Follow a rim from face to face, the material on its left; append its corners to xs, ys.

    Returns its area by the shoelace formula, NaN where neighbours are wound against each other.
    """
    begin = len(xs)
    top = plane + snap
    f = start
    while traced[f] != seed:
        traced[f] = seed
        j = 0
        while not (heights[faces[f, j]] <= top and heights[faces[f, (j + 1) % 3]] > top):
            j += 1  # to the edge that rises through the plane, where the face's cut ends
        a, b = faces[f, j], faces[f, (j + 1) % 3]
        share = (plane - heights[a]) / (heights[b] - heights[a])
        share = min(max(share, 0.0), 1.0)
        xs.append(points[a, 0] + share * (points[b, 0] - points[a, 0]))
        ys.append(points[a, 1] + share * (points[b, 1] - points[a, 1]))
        f = neighbours[f, j]
        against = True
        for i in range(3):
            against &= not (faces[f, i] == b and faces[f, (i + 1) % 3] == a)
        if against:
            return np.nan
    if f != start:
        return np.nan
    area = 0.0
    x0, y0 = xs[begin], ys[begin]
    for i in range(begin + 1, len(xs) - 1):
        area += (xs[i] - x0) * (ys[i + 1] - y0) - (xs[i + 1] - x0) * (ys[i] - y0)
    return 0.5 * area
