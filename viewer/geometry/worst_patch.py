"""The worst patch: the smallest box that holds the largest touch or terrace field on class A.

What is worst in a pose can be printed by itself before the whole part is.
"""

from dataclasses import dataclass
from typing import Literal

import manifold3d
import numpy as np

from viewer.errors import RequestProblem
from viewer.geometry.cut_pieces import CutPlane, box_planes
from viewer.geometry.face_classes import CLASS_A
from viewer.geometry.face_groups import group_by_vertices
from viewer.geometry.pose import Pose, rotation
from viewer.geometry.pose_measures import FaceFields
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.print_settings import PrintSettings
from viewer.words import say

Kind = Literal["touch", "terrace"]
_UPRIGHT = 0.01  # |n_z| below which a wall has no terraces to speak of
MARGIN_MM = 3.0  # of material around the patch, so that it prints as it does in the whole


@dataclass(frozen=True, eq=False)
class WorstPatch:
    """A patch and the upright box around it.

    faces : (k,) int64, faces of the part; area_mm2 : what touches or steps among them
    low_mm, high_mm : (3,) float64, corners of the box along its axes
    axes : (3, 3) float64, unit vectors in part coordinates, the build direction last
    """

    kind: Kind
    faces: np.ndarray
    area_mm2: float
    low_mm: np.ndarray
    high_mm: np.ndarray
    axes: np.ndarray

    @property
    def planes(self) -> list[CutPlane]:
        """The box as six outward planes, for `cut_out`."""
        return box_planes(self.low_mm, self.high_mm, self.axes)


def worst_patch(
    part: PreparedPart,
    face_classes: np.ndarray,
    fields: FaceFields,
    pose: Pose,
    settings: PrintSettings,
    kind: Kind = "touch",
    margin_mm: float = MARGIN_MM,
) -> WorstPatch:
    """The largest patch of its kind on class A and the smallest upright box around it.

    face_classes : (m,) uint8; fields : what the faces show in that pose, from `measure_pose`
    margin_mm : how far the box reaches beyond the patch

    A patch is a run of faces that hang together. Terraces count where they are wider
    than the road, or all of them if none is. Raises RequestProblem where class A has none.
    """
    share = _share_of_faces(part, face_classes, fields, pose, settings, kind)
    areas = part.exposed_mm2 * share
    if not (areas > 0).any():
        raise RequestProblem(
            say("There is no touch on class A in this pose, so there is no worst patch of it.")
            if kind == "touch"
            else say(
                "There are no terraces on class A in this pose, so there is no worst patch of them."
            )
        )
    chosen = np.flatnonzero(areas > 0)
    group = group_by_vertices(part.mesh.faces[chosen])
    sums = np.bincount(group, areas[chosen])
    faces = chosen[group == int(sums.argmax())]
    axes = _tightest_axes(part.mesh.corners_mm[faces].reshape(-1, 3), pose)
    along = part.mesh.corners_mm[faces].reshape(-1, 3) @ axes.T
    low, high = along.min(axis=0) - margin_mm, along.max(axis=0) + margin_mm
    return WorstPatch(kind, faces, float(sums.max()), low, high, axes)


def _share_of_faces(part, face_classes, fields, pose, settings, kind) -> np.ndarray:
    on_a = face_classes == CLASS_A
    if kind == "touch":
        return np.where(on_a, fields.touch_share, 0.0)
    level = np.abs(part.normals @ np.asarray(pose.up, np.float32))
    width = settings.layer_mm * level / np.sqrt(np.maximum(1.0 - level * level, 1e-12))
    steps = on_a & fields.terrace_counts & (level > _UPRIGHT)
    wide = steps & (width > settings.shown_terrace_mm)
    return (wide if wide.any() else steps).astype(np.float64)


def _tightest_axes(points_mm: np.ndarray, pose: Pose) -> np.ndarray:
    """(3, 3) axes of the upright box with the least foot around points (k, 3).

    One side of the smallest rectangle lies along a side of the hull (Freeman & Shapira 1975,
    "Determining the minimum-area encasing rectangle for an arbitrary closed curve"; MEM).
    """
    turn = rotation(pose)
    plan = np.ascontiguousarray((points_mm @ turn.T)[:, :2])
    hull = manifold3d.CrossSection.hull_points(plan).to_polygons()
    best = np.array([1.0, 0.0])
    if hull:
        sides = np.roll(hull[0], -1, axis=0) - hull[0]
        length = np.linalg.norm(sides, axis=1)
        along = sides[length > 0] / length[length > 0, None]
        across = np.stack([-along[:, 1], along[:, 0]], axis=1)
        feet = np.ptp(hull[0] @ along.T, axis=0) * np.ptp(hull[0] @ across.T, axis=0)
        best = along[int(feet.argmin())]
    plan_axes = np.array([[best[0], best[1], 0.0], [-best[1], best[0], 0.0], [0.0, 0.0, 1.0]])
    return plan_axes @ turn
