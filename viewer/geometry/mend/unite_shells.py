"""Step: unite bodies that overlap or touch into one surface (exact boolean by manifold3d)."""

import numpy as np

from viewer.geometry.known_of_mesh import shells_of
from viewer.geometry.mend.mended import MendedMesh, after, unchanged
from viewer.geometry.mend.part_bodies import part_bodies
from viewer.geometry.mend.turn_outward import turn_outward
from viewer.geometry.mend.united_bodies import united_bodies
from viewer.geometry.mesh import Mesh
from viewer.geometry.outward_steps import outward_steps
from viewer.geometry.self_intersections import near_distance_mm
from viewer.geometry.shells import Shells
from viewer.geometry.unite_solids import Solid
from viewer.progress import Progress


def unite_shells(mesh: Mesh, grow_mm: float = 0.0, progress: Progress | None = None) -> MendedMesh:
    """The surface of the union of all closed shells, each a body with its cavities.

    grow_mm : bodies are grown by so much beforehand, so that those that only touch become one
    Unchanged if a shell is open or is no solid, or if there is one body only. Raises Cancelled.
    """
    progress = progress or Progress()
    progress.report(0.0, "Uniting bodies")
    first = turn_outward(mesh, progress.part(0.0, 0.1))
    first = after(first, part_bodies(first.mesh, 0.0, progress.part(0.1, 0.2)))
    shells = shells_of(first.mesh, progress)
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
        solids.append(_as_solid(points, faces[own], own))
    progress.report(0.4, "Uniting bodies")
    # Files keep float32: edges shorter than its steps would collapse when the file is read.
    within_mm = 4.0 * near_distance_mm(mesh.box_mm)
    united = united_bodies(solids, within_mm, progress.part(0.4, 0.9))
    progress.report(0.9, "Uniting bodies")
    if united is None:
        return unchanged(mesh)
    return after(first, MendedMesh(united.points_mm, united.faces, united.origin))


def _as_solid(points_mm: np.ndarray, faces: np.ndarray, numbers: np.ndarray) -> Solid:
    """Faces that name no vertex twice, as a body whose pieces keep their `numbers` ((m,) int)."""
    a, b, c = faces.T
    proper = (a != b) & (b != c) & (c != a)
    used = np.zeros(len(points_mm), bool)
    used[faces[proper]] = True
    new_index = np.cumsum(used) - 1
    return Solid(
        np.ascontiguousarray(points_mm[used]),
        new_index[faces[proper]].astype(np.uint64),
        numbers[proper].astype(np.uint64),
    )


def _bodies(shells: Shells) -> list[np.ndarray]:
    """Shells in groups: an outer one with its cavities; a cavity belongs to the innermost."""
    owner = np.arange(shells.count)
    for inner, outer in zip(shells.inner, shells.outer, strict=True):
        if shells.depth[inner] % 2 == 1 and shells.depth[outer] == shells.depth[inner] - 1:
            owner[inner] = outer
    return [np.flatnonzero(owner == body) for body in np.unique(owner)]
