"""Step: unite bodies that overlap or touch into one surface (exact boolean by manifold3d)."""

import manifold3d
import numpy as np

from viewer.geometry.known_of_mesh import shells_of
from viewer.geometry.mend.mended import MendedMesh, after, unchanged
from viewer.geometry.mend.part_bodies import part_bodies
from viewer.geometry.mend.turn_outward import turn_outward
from viewer.geometry.mesh import Mesh
from viewer.geometry.outward_steps import outward_steps
from viewer.geometry.self_intersections import near_distance_mm
from viewer.geometry.shells import Shells
from viewer.progress import Progress


def unite_shells(mesh: Mesh, grow_mm: float = 0.0, progress: Progress | None = None) -> MendedMesh:
    """The surface of the union of all closed shells, each a body with its cavities.

    grow_mm : bodies are grown by so much beforehand, so that those that only touch become one
    Unchanged if a shell is open or is no solid, or if there is one body only. Raises Cancelled;
    the boolean itself cannot be stopped.
    """
    progress = progress or Progress()
    progress.report(0.0, "Uniting bodies")
    first = turn_outward(mesh)
    first = after(first, part_bodies(first.mesh, 0.0, progress.part(0.0, 0.2)))
    shells = shells_of(first.mesh)
    bodies = _bodies(shells)
    if len(bodies) < 2 or not shells.closed.all():
        return unchanged(mesh)
    points, faces = first.vertices_mm, first.faces
    if grow_mm > 0.0:
        points = points + outward_steps(points, faces, first.mesh.face_normals, grow_mm)
    solids = []
    for members in bodies:
        progress.check()
        own = np.flatnonzero(np.isin(shells.shell_of_face, members))
        solid = as_solid(points, faces[own], own)
        if solid is None:
            return unchanged(mesh)
        solids.append(solid)
    progress.report(0.4, "Uniting bodies")
    united = manifold3d.Manifold.batch_boolean(solids, manifold3d.OpType.Add)
    # Files keep float32: edges shorter than its steps would collapse when the file is read.
    united = united.simplify(4.0 * near_distance_mm(mesh.box_mm))
    progress.report(0.9, "Uniting bodies")
    if united.status() != manifold3d.Error.NoError or united.is_empty():
        return unchanged(mesh)
    found = united.to_mesh64()
    second = MendedMesh(
        np.array(found.vert_properties)[:, :3].copy(),
        np.array(found.tri_verts, np.int32),
        np.asarray(found.face_id, np.int32),
    )
    return after(first, second)


def as_solid(
    points_mm: np.ndarray, faces: np.ndarray, numbers: np.ndarray
) -> manifold3d.Manifold | None:
    """Faces as a solid whose pieces keep their `numbers` ((m,) int) as face_id; None if it is none.

    points_mm : (n, 3) float64; faces : (m, 3)
    """
    a, b, c = faces.T
    proper = (a != b) & (b != c) & (c != a)
    used, corners = np.unique(faces[proper], return_inverse=True)
    solid = manifold3d.Manifold(
        manifold3d.Mesh64(
            vert_properties=np.ascontiguousarray(points_mm[used]),
            tri_verts=corners.reshape(-1, 3).astype(np.uint64),
            face_id=numbers[proper].astype(np.uint64),
        )
    )
    if solid.status() != manifold3d.Error.NoError or solid.is_empty():
        return None
    return solid


def _bodies(shells: Shells) -> list[np.ndarray]:
    """Shells in groups: an outer one with its cavities; a cavity belongs to the innermost."""
    owner = np.arange(shells.count)
    for inner, outer in zip(shells.inner, shells.outer, strict=True):
        if shells.depth[inner] % 2 == 1 and shells.depth[outer] == shells.depth[inner] - 1:
            owner[inner] = outer
    return [np.flatnonzero(owner == body) for body in np.unique(owner)]
