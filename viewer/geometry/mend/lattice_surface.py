"""The surface between the inside and the outside of a lattice, with its vertices on a given one.

Each pair of neighbouring cells' middles makes four tetrahedra with the edges of the face between
them (the body-centred lattice of Labelle & Shewchuk 2007, "Isosurface stuffing"). In each of them
one or two triangles part the corners inside from those outside, as in marching tetrahedra (Doi &
Koide 1991); MEM. Every piece stays within its tetrahedron and fits the pieces beyond its faces,
whatever the vertices are along their edges: the surface is closed, has two faces at every edge and
never crosses itself. A vertex is put where the given surface is met first from outside.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.face_faults import SLIVER_MM
from viewer.geometry.mend.enclosed_lattice import HALF, Enclosed, Lattice
from viewer.geometry.ray_tree import RayTree, nearest_hit
from viewer.geometry.winding_tree import WindingTree, build_winding_tree, winding_at
from viewer.progress import Progress

_LEAST_MM = 2.0 * SLIVER_MM  # how near a vertex may come to a node: less would make slivers
_MOST = 0.05  # of an edge, likewise
_EDGES = 14  # that belong to a cell: 3 of its first corner, 3 of its middle, 8 between them


class LatticeSurface(NamedTuple):
    """points_mm : (n, 3) float64; faces : (m, 3) int32; made_up : (n,) bool, vertices where the
    given surface has a hole
    """

    points_mm: np.ndarray
    faces: np.ndarray
    made_up: np.ndarray


def lattice_surface(
    lattice: Lattice, enclosed: Enclosed, tree: RayTree, progress: Progress | None = None
) -> LatticeSurface:
    """The surface around all nodes inside; `tree` holds the given surface. Raises Cancelled."""
    progress = progress or Progress()
    crossed, first = _crossed_edges(lattice, enclosed.inside)
    progress.check()
    count = int(first[-1])
    points, made_up = np.empty((count, 3)), np.zeros(count, bool)
    lids = enclosed.lids if enclosed.lids is not None else _no_lids()
    for row in range(lattice.ny):
        progress.report(0.8 * row / lattice.ny, "Laying the new skin")
        _place_vertices(row, lattice, enclosed.inside, enclosed.winding, crossed, first, tree,
                        lids, points, made_up, progress.stop_flag)  # fmt: skip
        progress.check()
    room = 4 * count + 16
    while True:
        faces, used = _part_tetrahedra(lattice, enclosed.inside, crossed, first, points, room)
        progress.check()
        if used <= room:
            return LatticeSurface(points, faces[:used].copy(), made_up)
        room = int(used)


def _no_lids() -> WindingTree:
    """A tree that adds nothing anywhere."""
    return build_winding_tree(np.zeros((3, 3)), np.array([[0, 1, 2]], np.int32))


@compiled
def _ends(lattice, cell, edge):
    """Grid and place of both ends of an edge of a cell: (shift, node, shift, node)."""
    along_y, along_x = lattice.nx * lattice.nz, lattice.nz
    if edge < 6:
        shift, axis = edge // 3, edge % 3
        return shift, cell, shift, cell + (along_x if axis == 0 else along_y if axis == 1 else 1)
    corner = edge - 6
    node = cell + (corner & 1) * along_x + (corner >> 1 & 1) * along_y + (corner >> 2)
    return 1, cell, 0, node


@compiled
def _crossed_edges(lattice, inside):
    """For each cell a bit for each of its edges with one end inside, and the number of the first
    of them; one more number at the end.
    """
    nx, ny, nz = lattice.nx, lattice.ny, lattice.nz
    crossed = np.zeros(nx * ny * nz, np.uint16)
    first = np.zeros(nx * ny * nz + 1, np.int32)
    count = 0
    for j in range(ny):
        for i in range(nx):
            for k in range(nz):
                cell = (j * nx + i) * nz + k
                first[cell] = count
                if i == nx - 1 or j == ny - 1 or k == nz - 1:
                    continue  # all outside
                bits = 0
                for edge in range(_EDGES):
                    s, a, t, b = _ends(lattice, cell, edge)
                    if inside[s, a] != inside[t, b]:
                        bits |= 1 << edge
                        count += 1
                crossed[cell] = bits
    first[nx * ny * nz] = count
    return crossed, first


@compiled
def _place(lattice, shift, node, place):
    k, line = node % lattice.nz, node // lattice.nz
    half = 0.5 * shift
    place[0] = lattice.x0_mm + lattice.spacing_mm * (line % lattice.nx + half)
    place[1] = lattice.y0_mm + lattice.spacing_mm * (line // lattice.nx + half)
    place[2] = lattice.z0_mm + lattice.spacing_mm * (k + half)


@compiled
def _place_vertices(row, lattice, inside, winding, crossed, first, tree, lids, points, made_up,
                    stop):  # fmt: skip
    """A vertex on every crossed edge of a row of cells, seen from the end that lies outside."""
    outer, inner, direction = np.empty(3), np.empty(3), np.empty(3)
    start = row * lattice.nx * lattice.nz
    for cell in range(start, start + lattice.nx * lattice.nz):
        if crossed[cell] == 0:
            continue
        if stop[0]:
            return
        vertex = first[cell]
        for edge in range(_EDGES):
            if not crossed[cell] >> edge & 1:
                continue
            s, a, t, b = _ends(lattice, cell, edge)
            if inside[s, a]:
                s, a, t, b = t, b, s, a
            _place(lattice, s, a, outer)
            _place(lattice, t, b, inner)
            length = np.sqrt(((inner - outer) ** 2).sum())
            direction[:] = (inner - outer) / length
            share = nearest_hit(tree, outer, direction, length)[0] / length
            if share > 1.0:  # nothing there: the lid of a hole
                low = winding[s, a] - winding_at(lids, outer[0], outer[1], outer[2])
                high = winding[t, b] - winding_at(lids, inner[0], inner[1], inner[2])
                share = (HALF - low) / (high - low) if high > low else 0.5
                made_up[vertex] = True
            least = min(_LEAST_MM / length, _MOST)
            share = min(max(share, least), 1.0 - least)
            points[vertex] = outer + share * (inner - outer)
            vertex += 1


@compiled
def _vertex(crossed, first, cell, edge):
    """Number of the vertex on an edge of a cell."""
    number = first[cell]
    for before in range(edge):
        number += crossed[cell] >> before & 1
    return number


@compiled
def _part_tetrahedra(lattice, inside, crossed, first, points, room):
    """Triangles, (room, 3) int32, and how many there are, which may exceed `room`."""
    faces, count = np.empty((room, 3), np.int32), 0
    nx, nz = lattice.nx, lattice.nz
    steps = (nz, nx * nz, 1)
    for cell in range(lattice.nx * lattice.ny * lattice.nz):
        k, i, j = cell % nz, cell // nz % nx, cell // (nx * nz)
        if i >= nx - 2 or j >= lattice.ny - 2 or k >= nz - 2:
            continue
        for axis in range(3):
            beyond = cell + steps[axis]
            u, v = steps[(axis + 1) % 3], steps[(axis + 2) % 3]
            # Corners of the face between the two cells, anticlockwise about the axis.
            ring = (beyond, beyond + u, beyond + u + v, beyond + v)
            one, other = inside[1, cell], inside[1, beyond]
            if one == other and (
                inside[0, ring[0]] == one and inside[0, ring[1]] == one
                and inside[0, ring[2]] == one and inside[0, ring[3]] == one
            ):  # fmt: skip
                continue
            for side in range(4):
                p, q = ring[side], ring[(side + 1) % 4]
                mask = one + 2 * other + 4 * inside[0, p] + 8 * inside[0, q]
                if mask == 0 or mask == 15:
                    continue
                a = _edge_numbers(lattice, crossed, first, cell, axis, side, p, q)
                count = _part_one(mask, a, points, faces, count, room)
    return faces, count


@compiled
def _edge_numbers(lattice, crossed, first, cell, axis, side, p, q):
    """Vertices on the edges 01, 02, 03, 12, 13, 23 of a tetrahedron: two middles, two corners.

    Where an edge is not crossed the number means nothing.
    """
    nx, nz = lattice.nx, lattice.nz
    steps = (nz, nx * nz, 1)
    beyond = cell + steps[axis]
    bit, bit_u, bit_v = 1 << axis, 1 << (axis + 1) % 3, 1 << (axis + 2) % 3
    around = (0, bit_u, bit_u | bit_v, bit_v)
    c, d = around[side], around[(side + 1) % 4]
    # The edge between the two corners runs along u on the even sides, along v on the odd ones.
    along = (axis + 1 + side % 2) % 3
    return (
        _vertex(crossed, first, cell, 3 + axis),
        _vertex(crossed, first, cell, 6 + (bit | c)),
        _vertex(crossed, first, cell, 6 + (bit | d)),
        _vertex(crossed, first, beyond, 6 + c),
        _vertex(crossed, first, beyond, 6 + d),
        _vertex(crossed, first, min(p, q), along),
    )


@compiled
def _part_one(mask, edges, points, faces, count, room):
    """Write the triangles of one tetrahedron, seen anticlockwise from outside."""
    e01, e02, e03, e12, e13, e23 = edges
    if mask == 1 or mask == 14:
        a, b, c, d = e01, e02, e03, -1
    elif mask == 2 or mask == 13:
        a, b, c, d = e01, e13, e12, -1
    elif mask == 4 or mask == 11:
        a, b, c, d = e02, e12, e23, -1
    elif mask == 8 or mask == 7:
        a, b, c, d = e03, e23, e13, -1
    elif mask == 3 or mask == 12:
        a, b, c, d = e02, e03, e13, e12
    elif mask == 5 or mask == 10:
        a, b, c, d = e03, e01, e12, e23
    else:
        a, b, c, d = e01, e02, e23, e13
    if mask == 14 or mask == 13 or mask == 11 or mask == 7 or mask == 12 or mask == 10 or mask == 6:
        a, b, c, d = (c, b, a, -1) if d < 0 else (d, c, b, a)
    if d >= 0 and _square(points, b, d) < _square(points, a, c):
        a, b, c, d = b, c, d, a
    if count < room:
        faces[count, 0], faces[count, 1], faces[count, 2] = a, b, c
    count += 1
    if d >= 0:
        if count < room:
            faces[count, 0], faces[count, 1], faces[count, 2] = a, c, d
        count += 1
    return count


@compiled
def _square(points, i, j):
    total = 0.0
    for axis in range(3):
        total += (points[i, axis] - points[j, axis]) ** 2
    return total
