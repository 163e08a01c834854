"""Edges that do not join exactly two faces the right way round, and the loops of open edges."""

from dataclasses import dataclass

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.geometry.face_neighbours import edges_by_low_vertex
from viewer.geometry.union_find import join_groups, lowest_of_group
from viewer.progress import Progress

_OPEN, _CROWDED, _FLIPPED = 1, 2, 3


@dataclass(frozen=True, eq=False)
class EdgeFaults:
    """Edges as pairs of vertices, each edge once, and one of its faces.

    open : (k, 2) int32, used by one face only, in that face's direction
    crowded : (l, 2) int32, used by three faces or more (not manifold)
    flipped : (n, 2) int32, joining two faces that run along it in the same direction
    open_faces, crowded_faces, flipped_faces : int32, the faces at those edges, each once
    """

    open: np.ndarray
    crowded: np.ndarray
    flipped: np.ndarray
    open_faces: np.ndarray
    crowded_faces: np.ndarray
    flipped_faces: np.ndarray


@dataclass(frozen=True, eq=False)
class OpenLoops:
    """Connected groups of open edges.

    count : number of groups; loop_of_edge : (k,) int32
    length_mm : (count,) float64, length of its edges
    width_mm : (count,) float64, mean width of the gap: 2·|vector area| / length, which is the
    radius of a round hole and the gap of a long slit (CALC); the length itself where the group
    does not close, because nothing is known about the missing side
    """

    count: int
    loop_of_edge: np.ndarray
    length_mm: np.ndarray
    width_mm: np.ndarray


def find_edge_faults(faces: np.ndarray, progress: Progress | None = None) -> EdgeFaults:
    """All faulty edges of (m, 3) int32 faces; faces that name a vertex twice are left out.

    Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    faces = np.ascontiguousarray(faces, np.int32)
    if not len(faces):
        edges, few = np.empty((0, 2), np.int32), np.empty(0, np.int32)
        return EdgeFaults(edges, edges, edges, few, few, few)
    starts, edges = edges_by_low_vertex(faces, int(faces.max()) + 1, progress.stop_flag)
    progress.check()
    table = _faulty_edges(faces, starts, edges, progress.stop_flag)
    progress.check()
    lists, face_lists = [], []
    for kind in (_OPEN, _CROWDED, _FLIPPED):
        rows = table[table[:, 3] == kind]
        first = np.ones(len(rows), bool)
        first[1:] = (rows[1:, :2] != rows[:-1, :2]).any(axis=1)
        pairs = rows[first][:, :2] if kind != _OPEN else _in_face_direction(rows, faces)
        lists.append(pairs)
        progress.check()
        at_fault = np.zeros(len(faces), bool)  # quicker than sorting where there are many
        at_fault[rows[:, 2]] = True
        face_lists.append(np.flatnonzero(at_fault).astype(np.int32))
        progress.check()
    return EdgeFaults(*lists, *face_lists)


def _in_face_direction(rows, faces):
    low, high, face = rows[:, 0], rows[:, 1], faces[rows[:, 2]]
    backwards = (face == high[:, None]) & (np.roll(face, -1, axis=1) == low[:, None])
    return np.where(backwards.any(axis=1)[:, None], rows[:, 1::-1], rows[:, :2])


@compiled
def _faulty_edges(faces, starts, edges, stop):
    """Rows (low vertex, high vertex, face, kind), one for each use of a faulty edge."""
    found = [(np.int32(0), np.int32(0), np.int32(0), np.int32(0))]
    found.pop()
    for v in range(len(starts) - 1):
        if v & LOOK_BITS == 0 and stop[0]:
            break
        here = edges[starts[v] : starts[v + 1]]
        if len(here) > 32:
            here.sort()
        else:
            for i in range(1, len(here)):
                key, j = here[i], i - 1
                while j >= 0 and here[j] > key:
                    here[j + 1] = here[j]
                    j -= 1
                here[j + 1] = key
        i = 0
        while i < len(here):
            j = i + 1
            while j < len(here) and here[j] >> 32 == here[i] >> 32:
                j += 1
            kind = 0
            if j - i == 1:
                kind = 1
            elif j - i > 2:
                kind = 2
            elif _leaves_low(faces, here[i], v) == _leaves_low(faces, here[i + 1], v):
                kind = 3
            if kind:
                for k in range(i, j):
                    face = (here[k] & 0xFFFFFFFF) >> 2
                    found.append(
                        (np.int32(v), np.int32(here[k] >> 32), np.int32(face), np.int32(kind))
                    )
            i = j
    table = np.empty((len(found), 4), np.int32)
    for i in range(len(found)):
        table[i, 0], table[i, 1], table[i, 2], table[i, 3] = found[i]
    return table


@compiled
def _leaves_low(faces, edge, low):
    return faces[(edge & 0xFFFFFFFF) >> 2, edge & 3] == low


def find_open_loops(
    vertices_mm: np.ndarray, open_edges: np.ndarray, progress: Progress | None = None
) -> OpenLoops:
    """Groups of `open_edges` ((k, 2) int32, directed) joined at their ends, and how wide they gape.

    Groups are joined at every vertex they share: two holes that meet in a point count as one.
    Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    if not len(open_edges):
        return OpenLoops(0, np.empty(0, np.int32), np.empty(0), np.empty(0))
    edges = np.ascontiguousarray(open_edges, np.int32)
    loop, count = _number_loops(len(vertices_mm), edges, progress.stop_flag)
    progress.check()
    length, width = _measure_loops(vertices_mm, edges, loop, count, progress.stop_flag)
    progress.check()
    return OpenLoops(int(count), loop, length, width)


@compiled
def _number_loops(vertices, edges, stop):
    """Loop of each edge, numbered as their lowest vertices follow, and how many loops there are."""
    loop = np.empty(len(edges), np.int32)
    parent = np.arange(vertices)
    for e in range(len(edges)):
        if e & LOOK_BITS == 0 and stop[0]:
            return loop, 0
        join_groups(parent, edges[e, 0], edges[e, 1])
    number = np.full(vertices, -1, np.int32)  # of the lowest vertex of each loop
    for e in range(len(edges)):
        number[lowest_of_group(parent, edges[e, 0])] = 0
    count = 0
    for v in range(vertices):
        if number[v] == 0:
            number[v] = count
            count += 1
    for e in range(len(edges)):
        if e & LOOK_BITS == 0 and stop[0]:
            break
        loop[e] = number[lowest_of_group(parent, edges[e, 0])]
    return loop, count


@compiled
def _measure_loops(vertices, edges, loop, count, stop):
    """Length and width of each loop; areas are taken about its middle, which keeps digits."""
    length, middle, ends = np.zeros(count), np.zeros((count, 3)), np.zeros(count)
    balance = np.zeros(len(vertices), np.int32)  # how often edges leave, less how often they come
    for e in range(len(edges)):
        if e & LOOK_BITS == 0 and stop[0]:
            break
        a, b, k = edges[e, 0], edges[e, 1], loop[e]
        balance[a] += 1
        balance[b] -= 1
        square = 0.0
        for axis in range(3):
            square += (vertices[b, axis] - vertices[a, axis]) ** 2
            middle[k, axis] += vertices[a, axis] + vertices[b, axis]
        length[k] += np.sqrt(square)
        ends[k] += 2
    closed, twice = np.ones(count, np.bool_), np.zeros((count, 3))
    for e in range(len(edges)):
        if e & LOOK_BITS == 0 and stop[0]:
            break
        a, b, k = edges[e, 0], edges[e, 1], loop[e]
        closed[k] &= balance[a] == 0 and balance[b] == 0
        p = vertices[a] - middle[k] / ends[k]
        q = vertices[b] - middle[k] / ends[k]
        twice[k] += np.cross(p, q)
    width = length.copy()
    for k in range(count):
        if closed[k]:
            width[k] = np.sqrt(np.sum(twice[k] ** 2)) / max(length[k], 1e-300)
    return length, width
