"""What is measured only while a part lies still: islands, ways out, layers, Ra, standing, flats."""

from collections.abc import Callable
from typing import Any

import numpy as np

from viewer.geometry.flat_faces import measure_flat_faces
from viewer.geometry.graze import measure_graze
from viewer.geometry.islands import Islands, find_islands
from viewer.geometry.overhang import ON_PLATFORM, Undersides
from viewer.geometry.pose import Pose, pose_matrix
from viewer.geometry.pose_measures import Island
from viewer.geometry.pose_profile import profile_of_pose
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.roughness import measure_roughness
from viewer.geometry.stability import Stability, stability_of_pose
from viewer.geometry.supports import SupportSums
from viewer.geometry.terraces import Terraces
from viewer.geometry.turned_part import TurnedPart
from viewer.geometry.unreachable import measure_unreachable
from viewer.progress import Progress

MOST_LISTED = 1_000


def measure_at_rest(
    part: PreparedPart,
    turned: TurnedPart,
    face_classes: np.ndarray,
    pose: Pose,
    settings: PrintSettings,
    undersides: Undersides,
    touch_share: np.ndarray,
    terraces: Terraces,
    supports: SupportSums,
    standing_mm: np.ndarray,
    centre_of_mass_mm: np.ndarray,
    progress: Progress,
) -> tuple[dict[str, Any], dict[str, Any]]:
    """Further fields of PoseMeasures, and one standard error of those that are sampled.

    touch_share : (m,) float32; standing_mm, centre_of_mass_mm : see `stability_of_pose`
    raises Cancelled if `progress` says so
    """
    on_platform = undersides.kinds == ON_PLATFORM
    progress.report(0.0, "Graze")
    part.get_ready(progress)
    graze = measure_graze(
        part, touch_share > 0, on_platform, face_classes, turned, settings.clearance_mm, progress
    )
    progress.report(0.4, "Islands")
    islands = find_islands(part, turned, settings, progress)
    progress.report(0.6, "Ways out for supports")
    unreachable = measure_unreachable(part, turned, supports.samples, progress)
    progress.report(0.8, "Layers")
    profile = profile_of_pose(
        part, turned, supports.samples, undersides.n_z, face_classes, settings, islands.layer,
        progress,
    )  # fmt: skip
    stability = stability_of_pose(standing_mm, centre_of_mass_mm, supports.samples, profile)
    progress.check()
    surface = _surface_fields(
        part, turned, face_classes, settings, undersides, touch_share, terraces, progress
    )
    fields = {
        "graze_area_mm2": graze.area_mm2,
        "islands": islands.count,
        "island_places": _places(islands),
        "island_support_mm3": islands.support_mm3,
        "unreachable_support_mm3": unreachable.unreachable_mm3,
        "sealed_support_mm3": unreachable.sealed_mm3,
        "unreachable_places": unreachable.places,
        **_standing_fields(stability, _from_turned_to_posed(part, turned, pose)),
        **surface,
        "profile": profile,
    }
    error = {
        "graze_area_mm2": graze.error_mm2,
        "island_support_mm3": islands.support_error_mm3,
        "unreachable_support_mm3": unreachable.unreachable_error_mm3,
        "sealed_support_mm3": unreachable.sealed_error_mm3,
    }
    return fields, error


def _surface_fields(
    part: PreparedPart,
    turned: TurnedPart,
    face_classes: np.ndarray,
    settings: PrintSettings,
    undersides: Undersides,
    touch_share: np.ndarray,
    terraces: Terraces,
    progress: Progress,
) -> dict[str, Any]:
    """Roughness, and level faces beside the layer grid."""
    rough = measure_roughness(
        undersides.n_z, part.exposed_mm2, face_classes, terraces.counts, touch_share,
        settings.layer_mm,
    )  # fmt: skip
    progress.check()
    on_platform = undersides.kinds == ON_PLATFORM
    flats = measure_flat_faces(
        turned.points_mm, part.faces, undersides.n_z, part.exposed_mm2, face_classes,
        on_platform | terraces.counts, turned.platform_mm, settings.layer_mm,
    )  # fmt: skip
    progress.check()
    return {
        "ra_ideal_um": rough.ra_ideal_um,
        "ra_estimate_um": rough.ra_estimate_um,
        "flat_faces": flats.faces,
        "flat_off_grid_mm2": flats.off_grid_mm2,
    }


def _standing_fields(stability: Stability, to_pose: Callable) -> dict[str, Any]:
    """How the part stands; `to_pose` moves points to the posed frame."""
    polygon = np.pad(stability.contact_polygon_mm, ((0, 0), (0, 1)))
    return {
        "centre_of_mass_mm": to_pose(stability.centre_of_mass_mm[None])[0],
        "contact_polygon_mm": to_pose(polygon)[:, :2],
        "tip_angle_supported_deg": stability.tip_angle_supported_deg,
        "tip_angle_worst_deg": stability.tip_angle_worst_deg,
        "tip_angle_worst_mm": stability.tip_angle_worst_mm,
    }


def _from_turned_to_posed(part: PreparedPart, turned: TurnedPart, pose: Pose):
    """What moves points (k, 3), z above the platform, from the turned to the posed frame."""
    matrix = pose_matrix(part.mesh.vertices_mm, pose)

    def moved(points: np.ndarray) -> np.ndarray:
        above = np.array([0.0, 0.0, turned.platform_mm])
        in_part = (points + above) @ turned.rotation + part.centre_mm
        return in_part @ matrix[:3, :3].T + matrix[:3, 3]

    return moved


def _places(islands: Islands) -> tuple[Island, ...]:
    """The islands one by one, those that need most support first where there are very many."""
    chosen = np.sort(np.argsort(-islands.each_support_mm3, kind="stable")[:MOST_LISTED])
    return tuple(
        Island(
            float(islands.height_mm[i]),
            int(islands.layer[i]),
            tuple(islands.lowest_part_mm[i].tolist()),
            float(islands.area_mm2[i]),
            float(islands.each_support_mm3[i]),
        )
        for i in chosen.tolist()
    )
