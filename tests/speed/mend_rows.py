"""Rows of the speed table for mending: each step against the library that does the same or less."""

from typing import Any

import manifold3d
import numpy as np
import trimesh

from tests.speed.timing import row, seconds
from viewer.geometry.mend.drop_doubled import drop_doubled
from viewer.geometry.mend.fill_holes import fill_holes
from viewer.geometry.mend.merge_near import merge_near
from viewer.geometry.mend.sew_seams import sew_seams
from viewer.geometry.mend.turn_outward import turn_outward
from viewer.geometry.mesh import Mesh

STRIP = 64  # faces to a strip with corners of its own
APART_MM = 1e-6


def mend(case: Any) -> list[dict]:
    """Merging, sewing, filling, turning and dropping copies, on the made mesh spoilt for each."""
    mesh: Mesh = case.part.mesh
    return [_merge(mesh), _sew(mesh), _fill(mesh), _turn(mesh), _drop(mesh)]


def _fresh(mesh: Mesh) -> Mesh:
    """So that nothing is known of it."""
    return Mesh(mesh.vertices_mm, mesh.faces)


def _theirs(mesh: Mesh) -> trimesh.Trimesh:
    return trimesh.Trimesh(np.array(mesh.vertices_mm), np.array(mesh.faces), process=False)


def _merge(mesh: Mesh) -> dict:
    """Every face with corners of its own, and noise of a tenth of the tolerance."""
    corners = mesh.corners_mm.reshape(-1, 3)
    corners = corners + 0.05 * APART_MM * np.random.default_rng(1).normal(size=corners.shape)
    soup = Mesh(corners, np.arange(len(corners)).reshape(-1, 3))
    ours = seconds(lambda: merge_near(_fresh(soup), APART_MM), 3)
    theirs = seconds(lambda: _theirs(soup).merge_vertices(digits_vertex=6), 2)
    return row("mend, merge", mesh.face_count, ours, "trimesh: by rounding", theirs, 2)


def _sew(mesh: Mesh) -> dict:
    """Strips of faces beside one another with corners of their own.

    Ours also cuts edges on which a corner lies, and undoes what lets more than two faces meet.
    """
    strip = np.arange(mesh.face_count)[:, None] // STRIP
    own = strip.astype(np.int64) * len(mesh.vertices_mm) + mesh.faces
    kept, faces = np.unique(own, return_inverse=True)
    points = np.array(mesh.vertices_mm[kept % len(mesh.vertices_mm)])
    strips = Mesh(points, faces.reshape(-1, 3))

    def theirs() -> None:
        made = manifold3d.Mesh64(
            vert_properties=points, tri_verts=strips.faces.astype(np.uint64), tolerance=APART_MM
        )
        made.merge()

    ours = seconds(lambda: sew_seams(_fresh(strips), APART_MM), 2)
    return row(
        "mend, sew", mesh.face_count, ours, "manifold3d: merge, cuts no edge", seconds(theirs, 2), 1
    )


def _fill(mesh: Mesh) -> dict:
    """Every fiftieth face is missing, as far as they do not meet."""
    gone, taken = [], np.zeros(len(mesh.vertices_mm), bool)
    for face in range(0, mesh.face_count, 50):
        if not taken[mesh.faces[face]].any():
            gone.append(face)
            taken[mesh.faces[face]] = True
    holed = Mesh(mesh.vertices_mm, np.delete(mesh.faces, gone, axis=0))
    ours = seconds(lambda: fill_holes(_fresh(holed)), 2)
    theirs = seconds(lambda: trimesh.repair.fill_holes(_theirs(holed)), 2)
    against = "trimesh: holes of 3 or 4 corners only"
    return row("mend, fill", mesh.face_count, ours, against, theirs, 1)


def _turn(mesh: Mesh) -> dict:
    """Every seventh face is turned over."""
    faces = mesh.faces.copy()
    faces[::7] = faces[::7, ::-1]
    turned = Mesh(mesh.vertices_mm, faces)
    ours = seconds(lambda: turn_outward(_fresh(turned)), 3)
    theirs = seconds(lambda: trimesh.repair.fix_normals(_theirs(turned)), 1)
    return row("mend, turn", mesh.face_count, ours, "trimesh", theirs, 5)


def _drop(mesh: Mesh) -> dict:
    """A tenth of the faces is there twice.

    Ours also finds copies cut into other triangles, which asks for neighbours and patches, and
    keeps what a body needs: each of its passes along all edges takes as long as all of theirs.
    """
    faces = np.concatenate([mesh.faces, mesh.faces[: mesh.face_count // 10]])
    doubled = Mesh(mesh.vertices_mm, faces)

    def theirs() -> None:
        made = _theirs(doubled)
        made.update_faces(made.unique_faces())

    ours = seconds(lambda: drop_doubled(_fresh(doubled)), 3)
    against = "trimesh: never asks whether a body needs both"
    return row("mend, drop copies", mesh.face_count, ours, against, seconds(theirs, 2), 1)
