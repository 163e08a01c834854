"""Step: part bodies that hang together in an edge, so that every edge joins two faces.

Going round an edge where four faces meet, each wedge of material gets an edge of its own. The
copies are drawn back into their material by a distance far below what prints, because files keep
positions only: on the same spot they would be one edge again when the file is read.
"""

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.edge_faults import find_edge_faults
from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.known_of_mesh import neighbours_of
from viewer.geometry.mend.mended import MendedMesh, unchanged, without_unused_vertices
from viewer.geometry.mesh import Mesh, frozen
from viewer.geometry.outward_steps import outward_steps
from viewer.geometry.solid_neighbours import join_at_crowded_edges
from viewer.progress import Progress


def part_bodies(mesh: Mesh, gap_mm: float, progress: Progress | None = None) -> MendedMesh:
    """The mesh with each edge of more than two faces made several, `gap_mm` apart.

    Faces must be wound consistently and add up at those edges (`chain_boundary`); where they do
    not, the edge is left open. An edge whose ends cannot be told apart by body is cut in half.
    Raises Cancelled.
    """
    progress = progress or Progress()
    progress.report(0.0, "Parting bodies at shared edges")
    crowded = find_edge_faults(mesh.faces).crowded
    if not len(crowded):
        return unchanged(mesh)
    progress.check()
    neighbours = join_at_crowded_edges(mesh.vertices_mm, mesh.faces, neighbours_of(mesh))
    progress.check()
    points, faces, origin = _halved(mesh, neighbours, crowded)
    points, faces = frozen(points), frozen(faces)  # kernels are compiled anew for other arrays
    if len(faces) > mesh.face_count:
        neighbours = join_at_crowded_edges(points, faces, face_neighbours(faces))
        crowded = find_edge_faults(faces).crowded
    at_crowded = np.zeros(len(points), bool)
    at_crowded[crowded] = True
    progress.report(0.5, "Parting bodies at shared edges")
    faces, source = _vertex_for_each_fan(faces, neighbours, len(points), at_crowded)
    progress.check()
    shared = np.bincount(source, minlength=len(points))[source] > 1
    points = points[source]  # a copy
    if gap_mm > 0.0:
        normals = Mesh(points, faces).face_normals
        points[shared] -= outward_steps(points, faces, normals, gap_mm)[shared]
    return without_unused_vertices(points, faces, origin)


def _halved(mesh, neighbours, crowded):
    """Points, faces and origin after cutting those crowded edges in half that fans do not part."""
    at_crowded = np.zeros(len(mesh.vertices_mm), bool)
    at_crowded[crowded] = True
    fans, source = _vertex_for_each_fan(mesh.faces, neighbours, len(mesh.vertices_mm), at_crowded)
    halve = source[find_edge_faults(fans).crowded]
    points, faces = mesh.vertices_mm, mesh.faces
    origin = np.arange(len(faces))
    for a, b in np.unique(np.sort(halve, axis=1), axis=0).tolist():
        middle = np.int32(len(points))
        points = np.append(points, [0.5 * (points[a] + points[b])], axis=0)
        at_edge = np.flatnonzero((faces == a).any(axis=1) & (faces == b).any(axis=1))
        one, other = faces[at_edge].copy(), faces[at_edge].copy()
        one[one == b], other[other == a] = middle, middle
        faces = faces.copy()
        faces[at_edge] = one
        faces = np.append(faces, other, axis=0)
        origin = np.append(origin, origin[at_edge])
    return points, faces, origin


@compiled
def _vertex_for_each_fan(faces, neighbours, vertex_count, wanted):
    """Faces in which each fan of faces at a wanted vertex has a vertex of its own.

    Returns the faces and, for each new vertex, the old one; the first fan keeps the old number.
    """
    parent = np.arange(3 * len(faces))
    for f in range(len(faces)):
        for k in range(3):
            g = neighbours[f, k]
            if g < 0:
                continue
            for v in (faces[f, k], faces[f, (k + 1) % 3]):
                if not wanted[v]:
                    continue
                i, j = 3 * f + _corner(faces, f, v), 3 * g + _corner(faces, g, v)
                while parent[i] != i:
                    parent[i] = parent[parent[i]]
                    i = parent[i]
                while parent[j] != j:
                    parent[j] = parent[parent[j]]
                    j = parent[j]
                parent[max(i, j)] = min(i, j)
    new_faces = faces.copy()
    source = [np.int64(v) for v in range(vertex_count)]
    seen = np.zeros(vertex_count, np.bool_)
    vertex = np.empty(3 * len(faces), np.int64)
    for i in range(3 * len(faces)):
        v = faces[i // 3, i % 3]
        if not wanted[v]:
            continue
        root = i
        while parent[root] != root:
            root = parent[root]
        if root == i:  # the first corner of its fan
            if seen[v]:
                vertex[i] = len(source)
                source.append(np.int64(v))
            else:
                vertex[i] = v
                seen[v] = True
        new_faces[i // 3, i % 3] = vertex[root]
    return new_faces, np.array(source)


@compiled
def _corner(faces, f, v):
    if faces[f, 0] == v:
        return 0
    return 1 if faces[f, 1] == v else 2
