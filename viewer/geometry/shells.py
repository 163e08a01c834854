"""The shells of a part (faces joined along edges) and the winding that makes them solid."""

from dataclasses import dataclass

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.face_tree import corners_in_order
from viewer.geometry.mesh import Mesh
from viewer.geometry.nesting import Nesting, shells_around
from viewer.geometry.solid_neighbours import join_at_crowded_edges
from viewer.progress import Progress

_CLEARLY = 0.01  # share of its box that an open shell's volume must reach to speak for a direction


@dataclass(frozen=True, eq=False)
class Shells:
    """Shells of a part, and how each face has to be wound for the part to be solid.

    shell_of_face : (m,) int32
    orientation : (m,) int8, +1 where the file's winding stands, −1 where it is turned over
    rewound : (m,) bool, faces that were wound against the rest of their shell
    closed : (k,) bool, no open edge and orientable
    volume_mm3 : (k,) float64, about the shell's own centre, signed by the winding of the file
    depth : (k,) int32, number of closed shells wholly around the shell
    inner, outer : (p,) int32, pairs of a shell and a closed shell around it
    apart : (p,) bool, the two of a pair do not touch
    flipped : (k,) bool, the whole shell faces the wrong way in the file
    boxes_mm : (k, 2, 3) float64
    """

    shell_of_face: np.ndarray
    orientation: np.ndarray
    rewound: np.ndarray
    closed: np.ndarray
    volume_mm3: np.ndarray
    depth: np.ndarray
    inner: np.ndarray
    outer: np.ndarray
    apart: np.ndarray
    flipped: np.ndarray
    boxes_mm: np.ndarray

    @property
    def count(self) -> int:
        """Number of shells, cavities included."""
        return len(self.closed)

    @property
    def cavities(self) -> int:
        """Number of closed shells that bound a hollow inside another shell."""
        return int(np.count_nonzero(self.closed & (self.depth % 2 == 1)))

    @property
    def inward_shells(self) -> int:
        """Number of shells that face the wrong way in the file."""
        return int(np.count_nonzero(self.flipped))


def find_shells(
    mesh: Mesh, neighbours: np.ndarray | None = None, progress: Progress | None = None
) -> Shells:
    """Shells of a mesh, nested and oriented: outer shells outward, cavities inward.

    neighbours : (m, 3) int32 from `face_neighbours`, worked out here if not given

    A shell with an odd number of closed shells around it is a cavity, whatever the file says. An
    open shell keeps the file's winding unless its volume about its own centre is clearly negative.
    Raises Cancelled if `progress` says so.
    """
    progress = progress or Progress()
    if neighbours is None:
        neighbours = face_neighbours(mesh.faces, progress)
    joined = join_at_crowded_edges(mesh.vertices_mm, mesh.faces, neighbours, progress)
    shell, side, count, twisted = _grow_shells(mesh.faces, joined, progress.stop_flag)
    progress.check()
    boxes, balance, is_open = _sums(
        mesh.vertices_mm, mesh.faces, joined, shell, side, count, progress.stop_flag
    )
    progress.check()
    # In each shell the greater area keeps the winding of the file; where none is right, all does.
    side = np.where(twisted[shell], 1, side).astype(np.int8) if twisted.any() else side
    side = _times_of_shell(side, shell, np.where(~twisted & (balance < 0), -1, 1).astype(np.int8))
    closed = ~twisted & ~is_open
    volumes = _volumes(mesh.vertices_mm, mesh.faces, shell, side, boxes, progress.stop_flag)
    progress.check()
    outward = np.where(volumes < 0, -1.0, 1.0)
    nesting = _nesting(mesh, side, shell, closed, outward, boxes, progress)
    wanted = np.where(nesting.depth % 2 == 1, -1.0, 1.0)
    box_volumes = np.prod(boxes[:, 1] - boxes[:, 0], axis=1)
    doubtful = ~closed & (volumes > -_CLEARLY * box_volumes)
    flipped = (outward != wanted) & ~doubtful
    orientation = _times_of_shell(side, shell, np.where(flipped, -1, 1).astype(np.int8))
    return Shells(shell, orientation, side < 0, closed, volumes, *nesting, flipped, boxes)


def _nesting(mesh, side, shell, closed, outward, boxes, progress):
    if len(closed) < 2:
        nothing = np.empty(0, np.int32)
        return Nesting(np.zeros(len(closed), np.int32), nothing, nothing, nothing.astype(bool))
    wound = np.where(side[:, None] > 0, mesh.faces, mesh.faces[:, ::-1])
    progress.check()
    every = np.arange(len(wound), dtype=np.int32)
    corners = corners_in_order(mesh.vertices_mm, wound, every, progress)
    return shells_around(corners, shell, closed, outward, boxes, progress)


@compiled
def _grow_shells(faces, neighbours, stop):
    """Walk from face to face: shell of each face, and its side: −1 where wound against the first.

    `twisted` shells cannot be wound consistently (a Möbius band, or crossed seams).
    Faces without area of their own (a vertex named twice) join the shell of their first vertex.
    """
    shell = np.full(len(faces), -1, np.int32)
    side = np.ones(len(faces), np.int8)
    twisted_list = [False]
    twisted_list.pop()
    stack = np.empty(len(faces), np.int32)
    count, steps = 0, 0
    for seed in range(len(faces)):
        a, b, c = faces[seed]
        if shell[seed] >= 0 or a == b or b == c or c == a:
            continue
        stack[0], height = seed, 1
        shell[seed] = count
        twisted_list.append(False)
        while height > 0:
            height -= 1
            f = stack[height]
            steps += 1
            if steps & LOOK_BITS == 0 and stop[0]:
                return shell, side, 0, np.zeros(0, np.bool_)
            for k in range(3):
                g = neighbours[f, k]
                if g < 0:
                    continue
                start, end = faces[f, k], faces[f, (k + 1) % 3]
                same_way = False
                for j in range(3):
                    same_way |= faces[g, j] == start and faces[g, (j + 1) % 3] == end
                wanted = -side[f] if same_way else side[f]
                if shell[g] < 0:
                    shell[g] = count
                    side[g] = wanted
                    stack[height] = g
                    height += 1
                elif side[g] != wanted:
                    twisted_list[count] = True
        count += 1
    count = _adopt_degenerate_faces(faces, shell, count)
    twisted = np.zeros(count, np.bool_)
    for i in range(len(twisted_list)):
        twisted[i] = twisted_list[i]
    return shell, side, count, twisted


@compiled
def _adopt_degenerate_faces(faces, shell, count):
    at_vertex = np.full(faces.max() + 1 if len(faces) else 0, -1, np.int32)
    for f in range(len(faces)):
        if shell[f] >= 0:
            for k in range(3):
                at_vertex[faces[f, k]] = shell[f]
    for f in range(len(faces)):
        if shell[f] < 0:
            shell[f] = max(at_vertex[faces[f, 0]], 0)
            count = max(count, 1)
    return count


@compiled
def _sums(vertices, faces, neighbours, shell, side, count, stop):
    """Of each shell: box, area less the area wound against it, and whether it has an open edge."""
    boxes = np.empty((count, 2, 3))
    boxes[:, 0], boxes[:, 1] = np.inf, -np.inf
    balance, is_open = np.zeros(count), np.zeros(count, np.bool_)
    for f in range(len(faces)):
        if f & LOOK_BITS == 0 and stop[0]:
            break
        a, b, c = faces[f, 0], faces[f, 1], faces[f, 2]
        s = shell[f]
        for v in (a, b, c):
            for axis in range(3):
                x = vertices[v, axis]
                if x < boxes[s, 0, axis]:  # rarely: a branch is quicker here than min and max
                    boxes[s, 0, axis] = x
                if x > boxes[s, 1, axis]:
                    boxes[s, 1, axis] = x
        ux, uy, uz = _less(vertices, b, a)
        vx, vy, vz = _less(vertices, c, a)
        x, y, z = uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx
        balance[s] += 0.5 * np.sqrt(x * x + y * y + z * z) * side[f]
        if neighbours[f, 0] < 0 or neighbours[f, 1] < 0 or neighbours[f, 2] < 0:
            is_open[s] |= a != b and b != c and c != a
    return boxes, balance, is_open


@compiled
def _less(vertices, v, w):
    return (
        vertices[v, 0] - vertices[w, 0],
        vertices[v, 1] - vertices[w, 1],
        vertices[v, 2] - vertices[w, 2],
    )


@compiled
def _volumes(vertices, faces, shell, side, boxes, stop):
    """Volume of each shell about the middle of its box, where a flat one has none at all."""
    volumes, middles = np.zeros(len(boxes)), 0.5 * (boxes[:, 0] + boxes[:, 1])
    for f in range(len(faces)):
        if f & LOOK_BITS == 0 and stop[0]:
            break
        s, a, b, c = shell[f], faces[f, 0], faces[f, 1], faces[f, 2]
        x, y, z = middles[s, 0], middles[s, 1], middles[s, 2]
        ax, ay, az = vertices[a, 0] - x, vertices[a, 1] - y, vertices[a, 2] - z
        bx, by, bz = vertices[b, 0] - x, vertices[b, 1] - y, vertices[b, 2] - z
        cx, cy, cz = vertices[c, 0] - x, vertices[c, 1] - y, vertices[c, 2] - z
        product = ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)
        volumes[s] += side[f] * product / 6.0
    return volumes


@compiled
def _times_of_shell(side, shell, factor):
    """(m,) int8: the side of each face times the factor of its shell."""
    turned = np.empty_like(side)
    for f in range(len(side)):
        turned[f] = side[f] * factor[shell[f]]
    return turned
