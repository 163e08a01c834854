"""Which face lies across each edge: the ground for shells, runs of faces, marking and health."""

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.progress import Progress

_FEW = 48  # so many edges at one vertex are compared pair by pair; more are sorted first


def face_neighbours(faces: np.ndarray, progress: Progress | None = None) -> np.ndarray:
    """The face across each edge, −1 where the edge is open or shared by more than two faces.

    faces : (m, 3) int32, vertex indices
    returns (m, 3) int32; column k is the face across the edge from corner k to corner k + 1

    Two faces that run along their edge in the same direction (one of them is wound the wrong way)
    are neighbours all the same. A face that names a vertex twice has no neighbours and is none.
    Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    faces = np.ascontiguousarray(faces, np.int32)
    if not len(faces):
        return np.empty((0, 3), np.int32)
    stop, count = progress.stop_flag, int(faces.max()) + 1
    neighbours, crowded, unpaired = _pair_opposite(faces, count, stop)
    progress.check()
    if crowded:
        return _pair_any(faces, progress)
    if unpaired:
        # Open edges, and pairs that run the same way: these few are looked at one by one.
        few = with_unpaired_edge(neighbours)
        progress.check()
        among = _pair_any(faces[few], progress)
        found = np.where(among >= 0, few[among], -1)
        neighbours[few] = np.where(neighbours[few] < 0, found, neighbours[few])
    return neighbours


def _pair_any(faces, progress):
    starts, edges = edges_by_low_vertex(faces, int(faces.max()) + 1, progress.stop_flag)
    progress.check()
    neighbours = _pair_edges(len(faces), starts, edges, progress.stop_flag)
    progress.check()
    return neighbours


@compiled
def _pair_opposite(faces, vertex_count, stop):
    """Pair edges with those that run the other way, as nearly all do in nearly all meshes.

    Edges that rise (from a lower to a higher vertex) are grouped by the lower one; each falling
    edge looks for its partner there, among some three. Half the edges are moved, which takes half
    the time. `crowded`: more than two faces meet somewhere, and the result is not to be used.
    """
    starts = np.zeros(vertex_count + 1, np.int32)
    for f in range(len(faces)):
        a, b, c = faces[f, 0], faces[f, 1], faces[f, 2]
        if a != b and b != c and c != a:
            starts[a + 1] += a < b
            starts[b + 1] += b < c
            starts[c + 1] += c < a
    for v in range(vertex_count):
        starts[v + 1] += starts[v]
    rising = np.empty(starts[vertex_count], np.int64)
    place = starts[:-1].copy()
    for f in range(len(faces)):
        if f & LOOK_BITS == 0 and stop[0]:
            break
        a, b, c = faces[f, 0], faces[f, 1], faces[f, 2]
        if a != b and b != c and c != a:
            if a < b:
                rising[place[a]] = np.int64(b) << 32 | f << 2
                place[a] += 1
            if b < c:
                rising[place[b]] = np.int64(c) << 32 | f << 2 | 1
                place[b] += 1
            if c < a:
                rising[place[c]] = np.int64(a) << 32 | f << 2 | 2
                place[c] += 1
    neighbours = np.full(faces.shape, -1, np.int32)
    paired, falling, crowded = 0, 0, False
    for f in range(len(faces)):
        if f & LOOK_BITS == 0 and stop[0]:
            break
        a, b, c = faces[f, 0], faces[f, 1], faces[f, 2]
        if a == b or b == c or c == a:
            continue
        for k in range(3):
            low, high = (b, a) if k == 0 else ((c, b) if k == 1 else (a, c))
            if low > high:
                continue
            falling += 1
            seen = 0
            for i in range(starts[low], starts[low + 1]):
                if rising[i] >> 32 == high:
                    seen += 1
                    other, j = (rising[i] & 0xFFFFFFFF) >> 2, rising[i] & 3
                    crowded |= neighbours[other, j] >= 0
                    neighbours[other, j], neighbours[f, k] = f, other
            crowded |= seen > 1
            paired += seen
    return neighbours, crowded, paired != falling or paired != len(rising)


@compiled
def with_unpaired_edge(neighbours):
    """Faces (k,) int32, ascending, with no neighbour across one of their edges."""
    few = np.empty(len(neighbours), np.int32)
    count = 0
    for f in range(len(neighbours)):
        few[count] = f
        count += min(neighbours[f, 0], neighbours[f, 1], neighbours[f, 2]) < 0
    return few[:count].copy()


@compiled
def edges_by_low_vertex(faces, vertex_count, stop):
    """Edges of all faces grouped by the lower of their two vertices.

    Returns (starts, edges): those of vertex v are edges[starts[v]:starts[v + 1]], each written as
    (higher vertex << 32 | face << 2 | corner). Grouping by counting takes linear time, and the few
    edges of one vertex can then be compared directly. Not to be used once `stop` is set.
    """
    starts = np.zeros(vertex_count + 1, np.int32)
    for f in range(len(faces)):
        a, b, c = faces[f, 0], faces[f, 1], faces[f, 2]
        if a != b and b != c and c != a:
            starts[min(a, b) + 1] += 1
            starts[min(b, c) + 1] += 1
            starts[min(c, a) + 1] += 1
    for v in range(vertex_count):
        starts[v + 1] += starts[v]
    edges = np.empty(starts[vertex_count], np.int64)
    place = starts[:-1].copy()
    for f in range(len(faces)):
        if f & LOOK_BITS == 0 and stop[0]:
            break
        a, b, c = faces[f, 0], faces[f, 1], faces[f, 2]
        if a != b and b != c and c != a:
            low = min(a, b)
            edges[place[low]] = np.int64(max(a, b)) << 32 | f << 2
            place[low] += 1
            low = min(b, c)
            edges[place[low]] = np.int64(max(b, c)) << 32 | f << 2 | 1
            place[low] += 1
            low = min(c, a)
            edges[place[low]] = np.int64(max(c, a)) << 32 | f << 2 | 2
            place[low] += 1
    return starts, edges


@compiled
def _pair_edges(face_count, starts, edges, stop):
    neighbours = np.full((face_count, 3), -1, np.int32)
    for v in range(len(starts) - 1):
        if v & LOOK_BITS == 0 and stop[0]:
            break
        here = edges[starts[v] : starts[v + 1]]
        if len(here) > _FEW:
            here.sort()
            _pair_sorted(here, neighbours)
        else:
            _pair_few(here, neighbours)
    return neighbours


@compiled
def _pair_few(here, neighbours):
    for i in range(len(here)):
        high = here[i] >> 32
        count = 0
        partner = np.int64(0)
        for j in range(len(here)):
            if here[j] >> 32 == high and j != i:
                count += 1
                partner = here[j]
        if count == 1:
            face = (here[i] & 0xFFFFFFFF) >> 2
            neighbours[face, here[i] & 3] = (partner & 0xFFFFFFFF) >> 2


@compiled
def _pair_sorted(here, neighbours):
    i = 0
    while i < len(here):
        j = i + 1
        while j < len(here) and here[j] >> 32 == here[i] >> 32:
            j += 1
        if j - i == 2:
            one, other = (here[i] & 0xFFFFFFFF) >> 2, (here[i + 1] & 0xFFFFFFFF) >> 2
            neighbours[one, here[i] & 3] = other
            neighbours[other, here[i + 1] & 3] = one
        i = j
