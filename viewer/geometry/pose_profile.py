"""Every layer of a pose: what part and supports fill, where they meet, what starts there."""

from dataclasses import dataclass

import numpy as np

from viewer.geometry.layer_profile import layer_count, layer_moments
from viewer.geometry.mesh import frozen
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.section_islands import SectionIslands, section_islands
from viewer.geometry.support_profile import support_profile
from viewer.geometry.support_samples import SupportSamples
from viewer.geometry.turned_part import TurnedPart, turn_part_by
from viewer.progress import Progress

TOUCH_CLASSES = ("A", "B", "unmarked")
_NOTHING_MM2 = 1e-6  # what rounding may leave of an empty section


@dataclass(frozen=True, eq=False)
class PoseProfile:
    """The layers of a pose, lowest first; sections are taken at the middle of each layer.

    z_mm : (k,) float64, middle of each layer above the platform
    area_mm2, perimeter_mm : (k,) float64, section of the part, touching and overlapping shells
        united
    support_area_mm2 : (k,) float64, plan area of the supports there
    touch_mm2 : (k, 3) float64, true area of the undersides in this layer that rest on a support;
        columns as in TOUCH_CLASSES
    islands : (k,) int32, islands that start in this layer
    mixed : (k,) bool, part and support are both present
    moment_mm3, support_moment_mm3 : (k, 2) float64, ∫x dA and ∫y dA of the two sections in the
        frame of `TurnedPart`
    section_islands : what hangs together at some heights
    """

    layer_mm: float
    z_mm: np.ndarray
    area_mm2: np.ndarray
    perimeter_mm: np.ndarray
    support_area_mm2: np.ndarray
    touch_mm2: np.ndarray
    islands: np.ndarray
    mixed: np.ndarray
    moment_mm3: np.ndarray
    support_moment_mm3: np.ndarray
    section_islands: SectionIslands


def profile_of_pose(
    part: PreparedPart,
    turned: TurnedPart,
    samples: SupportSamples,
    n_z: np.ndarray,
    face_classes: np.ndarray,
    settings: PrintSettings,
    island_layers: np.ndarray,
    progress: Progress | None = None,
) -> PoseProfile:
    """The layers of `part`, turned as in `turned`, with the supports `samples`.

    n_z : (m,) float32, normal · build direction
    face_classes : (m,) uint8
    island_layers : (i,) int, layer in which each island starts, the lowest layer being 0
    raises RequestProblem if there would be too many layers; Cancelled
    """
    progress = progress or Progress()
    points = turned.points_mm
    if part.solid_points_mm is not part.points_mm:
        points = turn_part_by(part.solid_points_mm, turned.rotation).points_mm
    layer_mm = settings.layer_mm
    layers = layer_count(turned.height_mm, layer_mm)
    progress.check()
    sections = layer_moments(
        points, part.solid_faces, layer_mm, turned.platform_mm, layers, progress
    )
    supports = support_profile(samples, n_z, face_classes, layer_mm, layers)
    progress.check()
    return PoseProfile(
        layer_mm,
        frozen((np.arange(layers) + 0.5) * layer_mm),
        sections.area_mm2,
        sections.perimeter_mm,
        frozen(supports.area_mm2),
        frozen(supports.touch_mm2),
        frozen(np.bincount(island_layers, minlength=layers)[:layers].astype(np.int32)),
        frozen((sections.area_mm2 > _NOTHING_MM2) & (supports.area_mm2 > 0)),
        sections.moment_mm3,
        frozen(supports.moment_mm3),
        section_islands(part, turned, layers, progress),
    )
