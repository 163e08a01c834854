"""Marks of whole faces: given a class, exchanged, and how much of each face eyes see."""

import numpy as np

from viewer.geometry.face_classes import CLASS_A, CLASS_B
from viewer.geometry.known_of_mesh import shells_to_draw
from viewer.geometry.mesh import Mesh, frozen
from viewer.geometry.visible_faces import Eye, Seen, most_seen
from viewer.progress import Progress


def with_class(classes: np.ndarray, which: np.ndarray, face_class: int) -> np.ndarray:
    """(m,) uint8 classes with the faces `which`, a mask or indices, given another class."""
    changed = classes.copy()
    changed[which] = face_class
    return changed


def swap_classes(classes: np.ndarray) -> np.ndarray:
    """(m,) uint8 with class A and class B exchanged."""
    other = np.array([0, CLASS_B, CLASS_A], np.uint8)
    return other[classes]


def see_faces(mesh: Mesh, eyes: list[Eye], progress: Progress | None = None) -> np.ndarray:
    """(m,) uint8: how much of each face the eyes see, as of `look_at`."""
    return look_at(mesh, eyes, progress).faces


def look_at(
    mesh: Mesh,
    eyes: list[Eye],
    progress: Progress | None = None,
    asked: np.ndarray | None = None,
) -> Seen:
    """How much of each face the eyes see, as of `most_seen`.

    A part that is not closed shows the backs of its faces, too.
    """
    progress = progress or Progress()
    shells = shells_to_draw(mesh)
    outward = np.asarray(shells.orientation)[:, None] > 0
    faces = mesh.faces
    if not outward.all():
        faces = frozen(np.where(outward, faces, faces[:, [0, 2, 1]]))
    open_somewhere = not bool(np.all(shells.closed))
    seen = most_seen(mesh.vertices_mm, faces, eyes, open_somewhere, progress, asked)
    progress.check()
    return seen
