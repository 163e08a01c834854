"""Marks carried over to a newer version of a part, and what of them has no place there any more."""

from typing import NamedTuple

import numpy as np

from viewer.geometry.carried_marks import carry_marks, nearest_of
from viewer.geometry.cut_surface import Marked
from viewer.geometry.face_classes import ByClass, sum_by_class
from viewer.geometry.mesh import Mesh
from viewer.geometry.rigid_motion import STILL, RigidMotion, likely_motion
from viewer.progress import Progress

WITHIN_SHARE = 0.003  # of the diagonal: other triangles of one smooth surface differ by less
LEAST_WITHIN_MM = 0.1


class Revision(NamedTuple):
    """Marks on the newer version, and what could not be carried over.

    marked : pieces of the newer mesh and their (m',) classes
    lost : (k,) rows of `marked` on which the old part had no surface; they are unmarked
    lost_mm2 : their area
    gone_mm2 : area that was marked and of which the newer version has no surface, by class
    within_mm : how far apart the two surfaces may lie to be the same
    motion : from where the old part lies in its file to where the newer one does
    shift_mm : how far it carries the middle of the old part's box
    """

    marked: Marked
    lost: np.ndarray
    lost_mm2: float
    gone_mm2: ByClass
    within_mm: float
    motion: RigidMotion
    shift_mm: float


def carry_to_revision(
    old: Mesh, old_classes: np.ndarray, new: Mesh, progress: Progress | None = None
) -> Revision:
    """Carry (m,) classes to a newer version, which may lie turned and shifted in its file.

    The newer mesh is left where its file has it. Raises Cancelled.
    """
    progress = progress or Progress()
    diagonal_mm = float(np.linalg.norm(np.ptp(new.box_mm, axis=0)))
    within_mm = max(WITHIN_SHARE * diagonal_mm, LEAST_WITHIN_MM)
    motion = likely_motion(old, new, within_mm, progress.part(0.0, 0.1))
    there = old if motion is STILL else Mesh(motion.of_points(old.vertices_mm), old.faces)
    carried = carry_marks(there, old_classes, new, within_mm, progress.part(0.1, 0.8))
    marked, pieces = carried.marked, new
    if marked.pieces is not None:
        pieces = Mesh(marked.pieces.vertices_mm, marked.pieces.faces)
    lost = np.flatnonzero(~carried.found)
    shown = np.flatnonzero(old_classes)
    enough = np.ones(len(shown), bool)
    near = nearest_of(new, there, shown, within_mm, progress.part(0.8, 1.0), enough)
    gone = np.where(near < 0, old.face_areas_mm2[shown], 0.0)
    return Revision(
        marked,
        lost,
        float(pieces.face_areas_mm2[lost].sum()),
        sum_by_class(gone, old_classes[shown]),
        within_mm,
        motion,
        0.0 if motion is STILL else motion.shift_of_mm(old.box_mm.mean(axis=0)),
    )
