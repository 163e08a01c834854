"""Small groups of faces that hang together, so that what takes in a whole group need not ask each.

A brush of 20 mm on a part of a million faces covers a hundred thousand of them at every move of the
mouse; only those under its rim have to be measured.
"""

from typing import NamedTuple, Self

import numpy as np

from viewer.geometry.compiled import compiled

FACES_EACH = 32  # more make the groups under the rim cost more, fewer those within
FEW = FACES_EACH // 4  # left over between others: so few join a group beside them


class FacePatches(NamedTuple):
    """Groups of faces; each hangs together by edges.

    group : (m,) int32, the group of each face
    members, starts : (m,) and (p + 1,) int32, the faces group by group, and where each begins
    balls_mm : (p, 4) float64, a ball that holds the group: middle and radius
    beside, beside_starts : (b,) and (p + 1,) int32, groups that touch each group by an edge
    across, across_starts : (e,) and (b + 1,) int32, the faces of each of those beyond an edge
    """

    group: np.ndarray
    members: np.ndarray
    starts: np.ndarray
    balls_mm: np.ndarray
    beside: np.ndarray
    beside_starts: np.ndarray
    across: np.ndarray
    across_starts: np.ndarray

    def of_pieces(self, whole_face: np.ndarray, neighbours: np.ndarray) -> Self:
        """The groups of the pieces that faces were cut in; they lie where the faces lay.

        whole_face : (m',) face that each is a piece of; neighbours : (m', 3) of the pieces
        """
        group = self.group[whole_face]
        members, starts = _sorted(group, len(self.balls_mm))
        across = _across(group, neighbours, self.beside, self.beside_starts)
        return FacePatches(
            group, members, starts, self.balls_mm, self.beside, self.beside_starts, *across
        )


def face_patches(vertices_mm: np.ndarray, faces: np.ndarray, neighbours: np.ndarray) -> FacePatches:
    """Groups of FACES_EACH faces and a few; neighbours : (m, 3) int32 as of `face_neighbours`."""
    group, count = _without_few(*_grouped(neighbours), neighbours)
    members, starts = _sorted(group, count)
    balls = _balls(vertices_mm, faces, members, starts)
    beside = _beside(group, neighbours, members, starts)
    across = _across(group, neighbours, *beside)
    return FacePatches(group, members, starts, balls, *beside, *across)


@compiled
def _grouped(neighbours):
    group = np.full(len(neighbours), -1, np.int32)
    queue = np.empty(FACES_EACH, np.int32)
    count = 0
    for first in range(len(neighbours)):
        if group[first] >= 0:
            continue
        group[first], queue[0] = count, first
        head, tail = 0, 1
        while head < tail and tail < FACES_EACH:
            f = queue[head]
            head += 1
            for k in range(3):
                g = neighbours[f, k]
                if g >= 0 and group[g] < 0 and tail < FACES_EACH:
                    group[g], queue[tail] = count, g
                    tail += 1
        count += 1
    return group, count


@compiled
def _without_few(group, count, neighbours):
    """Groups of few faces join one beside them that stays below twice FACES_EACH."""
    sizes = np.zeros(count, np.int32)
    for f in range(len(group)):
        sizes[group[f]] += 1
    joined = np.arange(count)
    for f in range(len(group)):
        p = group[f]
        if sizes[p] > FEW or joined[p] != p:
            continue
        for k in range(3):
            g = neighbours[f, k]
            if g < 0:
                continue
            q = joined[group[g]]
            while joined[q] != q:
                q = joined[q]
            if q != p and sizes[q] + sizes[p] < 2 * FACES_EACH:
                joined[p] = q
                sizes[q] += sizes[p]
                break
    number = np.full(count, -1, np.int32)
    kept = 0
    for f in range(len(group)):
        q = group[f]
        while joined[q] != q:
            q = joined[q]
        if number[q] < 0:
            number[q] = kept
            kept += 1
        group[f] = number[q]
    return group, kept


@compiled
def _sorted(group, count):
    starts = np.zeros(count + 1, np.int32)
    for f in range(len(group)):
        starts[group[f] + 1] += 1
    for p in range(count):
        starts[p + 1] += starts[p]
    members = np.empty(len(group), np.int32)
    filled = starts[:-1].copy()
    for f in range(len(group)):
        members[filled[group[f]]] = f
        filled[group[f]] += 1
    return members, starts


@compiled
def _beside(group, neighbours, members, starts):
    found = np.empty(8 * len(starts), np.int32)
    begins = np.zeros(len(starts), np.int32)
    count = 0
    for p in range(len(starts) - 1):
        begins[p] = count
        for i in range(starts[p], starts[p + 1]):
            for k in range(3):
                g = neighbours[members[i], k]
                if g < 0 or group[g] == p:
                    continue
                known = False
                for j in range(begins[p], count):
                    known = known or found[j] == group[g]
                if not known:
                    if count == len(found):
                        found = np.concatenate((found, np.empty(len(found), np.int32)))
                    found[count] = group[g]
                    count += 1
    begins[len(starts) - 1] = count
    return found[:count].copy(), begins


@compiled
def _place(beside, begins, p, q):
    """Where group q stands among those beside group p."""
    i = begins[p]
    while beside[i] != q:
        i += 1
    return i


@compiled
def _across(group, neighbours, beside, begins):
    starts = np.zeros(len(beside) + 1, np.int32)
    for f in range(len(group)):
        for k in range(3):
            g = neighbours[f, k]
            if g >= 0 and group[g] != group[f]:
                starts[_place(beside, begins, group[f], group[g]) + 1] += 1
    for i in range(len(beside)):
        starts[i + 1] += starts[i]
    across = np.empty(starts[-1], np.int32)
    filled = starts[:-1].copy()
    for f in range(len(group)):
        for k in range(3):
            g = neighbours[f, k]
            if g >= 0 and group[g] != group[f]:
                i = _place(beside, begins, group[f], group[g])
                across[filled[i]] = g
                filled[i] += 1
    return across, starts


@compiled
def _balls(vertices, faces, members, starts):
    balls = np.empty((len(starts) - 1, 4))
    for p in range(len(starts) - 1):
        low = np.full(3, np.inf)
        high = np.full(3, -np.inf)
        for i in range(starts[p], starts[p + 1]):
            for k in range(3):
                v = faces[members[i], k]
                for axis in range(3):
                    low[axis] = min(low[axis], vertices[v, axis])
                    high[axis] = max(high[axis], vertices[v, axis])
        square = 0.0
        for axis in range(3):
            balls[p, axis] = 0.5 * (low[axis] + high[axis])
        for i in range(starts[p], starts[p + 1]):
            for k in range(3):
                v = faces[members[i], k]
                away = 0.0
                for axis in range(3):
                    away += (vertices[v, axis] - balls[p, axis]) ** 2
                square = max(square, away)
        balls[p, 3] = np.sqrt(square)
    return balls
