"""What another pose does to each face: how broad its steps come out, and where that differs.

One width in mm stands for how rough a face comes out: its terrace t / tan α where it belongs to a
field of terraces (0 where it does not, or is within 0.5° of level), but at most three roads, and
three roads where a support bears on it. That a touched face counts like the broadest terraces is a
convention of this program, so that one map can show both; it is no model of roughness.
"""

from dataclasses import dataclass

import numpy as np

from viewer.geometry.face_classes import ByClass, sum_by_class
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose
from viewer.geometry.pose_measures import FaceFields
from viewer.geometry.print_settings import PrintSettings

BROADEST_ROADS = 3.0
LEVEL_N_Z = float(np.cos(np.radians(0.5)))
CLEAR_SHARE = 1.0 / 12.0  # of the broadest: a quarter of a road is a difference one can see


@dataclass(frozen=True, eq=False)
class PoseDifference:
    """One pose against another, the reference.

    face_mm : (m,) float32, width of steps in the pose less that in the reference; below 0 better
    clear_mm : a difference at least as large is called better or worse
    mean_mm : the mean of face_mm, weighted by area, by class; 0 where a class has no area
    better_mm2, worse_mm2 : area that comes out clearly better or worse, by class
    """

    face_mm: np.ndarray
    clear_mm: float
    mean_mm: ByClass
    better_mm2: ByClass
    worse_mm2: ByClass


def broadest_mm(settings: PrintSettings) -> float:
    """The width that broader steps, and touched faces, count as: three roads."""
    return BROADEST_ROADS * settings.road_mm


def clear_difference_mm(settings: PrintSettings) -> float:
    """From which difference on a face is called better or worse: a quarter of a road."""
    return CLEAR_SHARE * broadest_mm(settings)


def step_widths_mm(
    normals: np.ndarray, pose: Pose, fields: FaceFields, settings: PrintSettings
) -> np.ndarray:
    """(m,) float32: how broad the steps of each face come out, see the module.

    normals : (m, 3) unit normals in part coordinates; zero ones count as level
    fields : touch and terrace fields measured in `pose`
    """
    upright = np.abs(normals @ np.asarray(pose.up)).astype(np.float32)
    level = np.sqrt(np.maximum((1.0 - upright) * (1.0 + upright), np.float32(1e-12)))
    most = np.float32(broadest_mm(settings))
    width = np.minimum(np.float32(settings.layer_mm) * upright / level, most)
    width[~fields.terrace_counts | (upright > np.float32(LEVEL_N_Z))] = 0.0
    share = np.clip(fields.touch_share, 0.0, 1.0).astype(np.float32)
    return width + share * (most - width)


def difference_of_poses(
    mesh: Mesh,
    face_classes: np.ndarray,
    settings: PrintSettings,
    pose: tuple[Pose, FaceFields],
    reference: tuple[Pose, FaceFields],
) -> PoseDifference:
    """How much broader or narrower the steps of each face are than in the reference.

    face_classes : (m,) uint8; pose, reference : each with the fields measured in it
    """
    normals = mesh.face_normals
    face_mm = step_widths_mm(normals, *pose, settings) - step_widths_mm(
        normals, *reference, settings
    )
    clear_mm, areas = clear_difference_mm(settings), mesh.face_areas_mm2
    whole = sum_by_class(areas, face_classes)
    sums = sum_by_class(areas * face_mm, face_classes)
    mean = ByClass(*(s / a if a > 0 else 0.0 for s, a in zip(sums, whole, strict=True)))
    return PoseDifference(
        face_mm,
        clear_mm,
        mean,
        sum_by_class(areas * (face_mm <= -clear_mm), face_classes),
        sum_by_class(areas * (face_mm >= clear_mm), face_classes),
    )
