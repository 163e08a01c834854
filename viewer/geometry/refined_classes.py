"""Face classes from coarse faces to their pieces, and back to the faces of the file."""

import numpy as np

from viewer.geometry.bisect_faces import Pieces
from viewer.geometry.brush_stroke import BrushStroke
from viewer.geometry.face_classes import CLASS_B
from viewer.geometry.fine_marks import cut_along
from viewer.geometry.outlines import sweep_outline


def paint_stroke(
    stroke: BrushStroke, face_classes: np.ndarray, face_class: int
) -> tuple[Pieces, np.ndarray]:
    """The pieces after a stroke, and their (m',) uint8 classes.

    Faces that the rim does not cross stay whole. face_classes : (m,) before the stroke
    """
    outline = sweep_outline(np.array(stroke.sweeps_mm), stroke.radius_mm)
    whole = np.zeros(stroke.mesh.face_count, bool)
    whole[stroke.whole] = True
    pieces, inside = cut_along(stroke.mesh, stroke.neighbours, stroke.crossed, outline)
    classes = face_classes[pieces.parents]
    classes[inside] = face_class
    classes[whole[pieces.parents]] = face_class
    return pieces, classes


def classes_of_base(
    face_classes: np.ndarray, areas_mm2: np.ndarray, base_face: np.ndarray, base_count: int
) -> np.ndarray:
    """(base_count,) uint8: of each base face the class that covers most of it, the lower of equals.

    face_classes, areas_mm2, base_face : (m,) class, area and base face of each piece
    """
    kinds = CLASS_B + 1
    place = base_face.astype(np.int64) * kinds + face_classes
    covered = np.bincount(place, areas_mm2, base_count * kinds).reshape(-1, kinds)
    classes = covered.argmax(axis=1).astype(np.uint8)
    # A face without area has nothing to cover; its own class stands.
    empty = ~(covered.sum(axis=1) > 0.0)
    if empty.any():
        classes[empty] = face_classes[:base_count][empty]
    return classes
