"""The measures of many build directions: what normals tell at once, then supports by rays.

Touch, terraces and cusps are exact sums over all faces (see `direction_terms`; where a flat face of
the hull lies on the platform, by a pass over all faces, which knows what lies there), heights are
those of the hull. Support volume, landing, unreachable support and tip angles come from few rays
(see `direction_supports`), graze from few points (see `direction_graze`). Bridges are looked for
only where a flat face lies on the platform; elsewhere what could be bridged counts as touch.
"""

from dataclasses import dataclass
from itertools import product

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.direction_graze import (
    GRAZE_SUMS,
    GrazePlan,
    graze_plan,
    measure_direction_graze,
)
from viewer.geometry.direction_standing import StandingPart, hull_of_points, tip_angles
from viewer.geometry.direction_supports import (
    LANDING,
    SUMS,
    UNREACHABLE,
    VOLUME,
    cast_supports,
    supported_mm,
)
from viewer.geometry.direction_table import COLUMN, COLUMNS, ERROR_COLUMN
from viewer.geometry.direction_terms import FacesByNormal, faces_by_normal, terms_of_directions
from viewer.geometry.face_classes import CLASS_A, CLASS_B
from viewer.geometry.face_pass import pass_over_faces
from viewer.geometry.hull_faces import HullFace, convex_hull, hull_faces
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.overhang import PLATFORM_ANGLE_DEG, steepest_overhang_n_z
from viewer.geometry.platform_rectangle import best_spin_of_hull
from viewer.geometry.pose import Pose, shortest_turn_to_z
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.sphere_directions import angles_deg
from viewer.geometry.surface_samples import SurfaceSamples, surface_samples
from viewer.geometry.turned_part import turn_part
from viewer.progress import Progress

SAMPLES, RAYS, ASKED = 50_000, 500, 32
_WAYS = np.array([np.divide(d, np.linalg.norm(d)) for d in product((0, 1, -1), repeat=3) if any(d)])


@dataclass(frozen=True, eq=False)
class SearchedPart:
    """A part made ready for a direction search, with classes, settings and platform.

    platform_mm : (3,) width, depth, height of the build volume, or None if any will do
    by_normal : faces of each class by their normals
    hull_points_mm : (h, 3) float64, corners of the convex hull in the frame of part.points_mm
    flats : the flat faces of the hull
    """

    part: PreparedPart
    face_classes: np.ndarray
    settings: PrintSettings
    platform_mm: tuple[float, float, float] | None
    by_normal: tuple[FacesByNormal, ...]
    hull_points_mm: np.ndarray
    flats: tuple[HullFace, ...]

    @property
    def standing_directions(self) -> np.ndarray:
        """(f, 3) float64: directions in which the part stands on a flat face without tipping."""
        ups = [-face.normal for face in self.flats if face.stable]
        return np.array(ups).reshape(-1, 3)


def search_part(
    part: PreparedPart,
    face_classes: np.ndarray,
    settings: PrintSettings,
    platform_mm: tuple[float, float, float] | None,
    progress: Progress,
) -> SearchedPart:
    """Make a part ready for `fill_terms`. Raises Cancelled."""
    by_normal = faces_by_normal(part.normals, part.exposed_mm2, face_classes)
    progress.check()
    hull = convex_hull(part.mesh)
    progress.check()
    if hull is None:
        points, flats = part.points_mm[np.unique(part.faces)], ()
    else:
        points = hull.mesh.vertices_mm + (hull.centre_mm - part.centre_mm)
        closed = bool(part.shells.closed.all())
        mass_centre = part.centroid_mm + part.centre_mm if closed else None
        flats = hull_faces(part.mesh, hull, mass_centre)
    progress.check()
    return SearchedPart(part, face_classes, settings, platform_mm, by_normal, points, flats)


def fill_terms(
    searched: SearchedPart,
    directions: np.ndarray,
    values: np.ndarray,
    plan_mm2: np.ndarray,
    progress: Progress | None = None,
) -> None:
    """Fill in what normals and hull tell.

    directions : (d, 3) float64, unit; values : (d, k) float64 and plan_mm2 : (d, 3) float64, by
    class number, are filled. Raises Cancelled.
    """
    progress = progress or Progress()
    terms = terms_of_directions(directions, searched.by_normal, searched.settings)
    plan_mm2[:] = terms.overhang_plan_mm2
    of = COLUMN
    for key, found in (("touch", terms.overhang_mm2), ("terrace", terms.wide_terrace_mm2)):
        values[:, of[f"{key}_a_mm2"]] = found[:, CLASS_A]
        values[:, of[f"{key}_b_mm2"]] = found[:, CLASS_B]
        values[:, of[f"{key}_mm2"]] = found.sum(axis=1)
    values[:, of["cusp_a_mm"]] = terms.cusp_mm[:, CLASS_A]
    values[:, of["cusp_b_mm"]] = terms.cusp_mm[:, CLASS_B]
    for key in ("platform_a_mm2", "platform_b_mm2", "platform_mm2"):
        values[:, of[key]] = 0.0
    heights = np.zeros(len(directions))
    if len(searched.hull_points_mm):
        along = searched.hull_points_mm @ directions.T
        heights = np.ptp(along, axis=0)
    values[:, of["height_mm"]] = heights
    for flat in searched.flats:
        near = angles_deg(directions, -flat.normal) <= 1.1 * PLATFORM_ANGLE_DEG
        for i in np.flatnonzero(near):
            progress.check()
            _fill_lying_flat(searched, directions[i], values[i], plan_mm2[i])
    if searched.platform_mm is not None:
        values[:, of["over_mm"]] = over_mm(searched, directions, heights)


def _fill_lying_flat(searched: SearchedPart, up, row, plan_mm2) -> None:
    """One direction in which a flat face of the hull may lie on the platform."""
    part, of = searched.part, COLUMN
    turned = turn_part(part.points_mm, up)
    under, terraces = pass_over_faces(part, turned, searched.face_classes, searched.settings)
    plan_mm2[:] = under.overhang_plan_mm2
    touch = under.overhang_mm2
    if searched.settings.bridge_mm > 0:
        quick = measure_pose(
            part, searched.face_classes, Pose(tuple(up)), searched.settings, tier="quick"
        )
        touch = quick.touch_area_mm2
        plan_mm2 *= quick.support_plan_area_mm2 / max(plan_mm2.sum(), 1e-300)
    for key, found in (
        ("touch", touch),
        ("terrace", terraces.visible_area_mm2),
        ("platform", under.platform_contact_mm2),
    ):
        row[of[f"{key}_a_mm2"]], row[of[f"{key}_b_mm2"]] = found.A, found.B
        row[of[f"{key}_mm2"]] = found.total
    row[of["cusp_a_mm"]], row[of["cusp_b_mm"]] = terraces.cusp_mean_mm[:2]


def over_mm(searched: SearchedPart, directions: np.ndarray, heights_mm: np.ndarray) -> np.ndarray:
    """(d,) by how much the part is too large for the platform with its best spin; 0 if it fits."""
    width, depth, most = searched.platform_mm
    found = np.maximum(heights_mm - most, 0.0)
    for i, up in enumerate(directions):
        plan = searched.hull_points_mm @ shortest_turn_to_z(up)[:2].T
        across, along = np.ptp(plan, axis=0)
        # Most parts fit as they lie, or across; only of the others all spins are tried.
        if not (across <= width and along <= depth) and not (across <= depth and along <= width):
            hull = hull_of_points(np.ascontiguousarray(plan))
            found[i] = max(found[i], best_spin_of_hull(hull, width, depth).over_mm)
    return found


@dataclass(frozen=True, eq=False)
class RayedPart:
    """What the rays of a search need besides; see `rayed_part`."""

    searched: SearchedPart
    samples: SurfaceSamples
    standing: StandingPart
    graze: GrazePlan
    rays: int = RAYS


def rayed_part(searched: SearchedPart, progress: Progress, rays: int = RAYS) -> RayedPart:
    """Make the ray tree and the points to ask about. Raises Cancelled."""
    part = searched.part
    samples = surface_samples(part, searched.face_classes, SAMPLES, progress)
    standing = StandingPart(
        part.solid_points_mm, part.solid_faces, part.solid_blocks, part.centroid_mm,
        part.volume_mm3,
    )  # fmt: skip
    graze = graze_plan(samples, searched.settings.clearance_mm)
    return RayedPart(searched, samples, standing, graze, rays)


def fill_supports(
    rayed: RayedPart,
    directions: np.ndarray,
    plan_mm2: np.ndarray,
    values: np.ndarray,
    progress: Progress,
) -> None:
    """Fill in support volume, landing, graze, unreachable support and tip angles.

    directions : (d, 3) float64, unit; plan_mm2 : (d, 3) float64, from `fill_terms`
    values : (d, k) float64, filled. Returns early, some rows unfilled, when cancelled.
    """
    searched = rayed.searched
    rotations = np.array([shortest_turn_to_z(up) for up in directions]).reshape(-1, 3, 3)
    along = searched.hull_points_mm @ directions.T
    lows = along.min(axis=0, initial=np.inf)
    heights = along.max(axis=0, initial=-np.inf) - lows
    limits, reach = _limits_and_reach(searched)
    sums = np.zeros((len(directions), SUMS + 3))
    grazes = np.zeros((len(directions), GRAZE_SUMS))
    done = _measure_directions(
        rayed.samples, searched.part.ray_tree, rayed.standing, rayed.graze, rotations, lows,
        heights, limits,
        np.ascontiguousarray(plan_mm2), rayed.rays, ASKED, _WAYS @ rotations, reach,
        searched.settings.layer_mm, sums, grazes, progress.stop_flag,
    )  # fmt: skip
    of, rows = COLUMN, slice(0, done)
    landing = sums[rows, LANDING : LANDING + 3]
    values[rows, of["support_volume_mm3"]] = sums[rows, VOLUME]
    values[rows, of["unreachable_mm3"]] = sums[rows, UNREACHABLE]
    values[rows, of["landing_a_mm2"]] = landing[:, CLASS_A]
    values[rows, of["landing_b_mm2"]] = landing[:, CLASS_B]
    values[rows, of["landing_part_mm2"]] = landing.sum(axis=1)
    values[rows, of["supported_mm"]] = sums[rows, SUMS + 2]
    values[rows, of["tip_angle_deg"]] = sums[rows, SUMS]
    values[rows, of["tip_supported_deg"]] = sums[rows, SUMS + 1]
    areas, errors = grazes[rows, :3], grazes[rows, 3:]
    whole = {"graze_mm2": (areas.sum(axis=1), np.sqrt((errors**2).sum(axis=1)))}
    for key, number in (("graze_a_mm2", CLASS_A), ("graze_b_mm2", CLASS_B)):
        whole[key] = areas[:, number], errors[:, number]
    for key, (area, error) in whole.items():
        values[rows, of[key]], values[rows, ERROR_COLUMN[key]] = area, error


def _limits_and_reach(searched: SearchedPart) -> tuple[np.ndarray, float]:
    """(2,) float32 n_z below which a face overhangs and may lie level; how far any ray may go."""
    steepest = steepest_overhang_n_z(searched.settings.support_limit_deg)
    limits = np.array([steepest, -np.cos(np.radians(PLATFORM_ANGLE_DEG))], np.float32)
    return limits, 2.0 * float(np.linalg.norm(np.ptp(searched.part.mesh.box_mm, axis=0))) + 1.0


def support_feet(rayed: RayedPart, up: np.ndarray) -> np.ndarray:
    """(f, 5) float64: the supports of one direction as `cast_supports` tells them."""
    plan = np.zeros((1, 3))
    fill_terms(rayed.searched, np.ascontiguousarray(up)[None], empty_values(1), plan)
    rotation = shortest_turn_to_z(up)
    low_mm = float((rayed.searched.hull_points_mm @ up).min(initial=np.inf))
    limits, reach = _limits_and_reach(rayed.searched)
    feet = np.empty((rayed.rays, 5))
    count = cast_supports(
        rayed.samples, np.empty(len(rayed.samples.x), np.float32), rayed.searched.part.ray_tree,
        rotation, low_mm, limits, plan[0], rayed.rays, 1, _WAYS @ rotation,
        reach, feet, np.zeros(SUMS),
    )  # fmt: skip
    return feet[:count]


@compiled
def _measure_directions(
    samples, tree, standing, graze, rotations, lows, heights, limits, plan, rays, asked, ways,
    reach, layer, sums, grazes, stop,
):  # fmt: skip
    feet, weights = np.empty((rays, 5)), np.empty(len(samples.x), np.float32)
    for d in range(len(rotations)):
        if stop[0]:
            return d
        count = cast_supports(
            samples, weights, tree, rotations[d], lows[d], limits, plan[d], rays, asked,
            ways[d], reach, feet, sums[d],
        )  # fmt: skip
        alone, supported = tip_angles(standing, rotations[d], lows[d], layer, feet, count)
        sums[d, SUMS], sums[d, SUMS + 1] = alone, supported
        sums[d, SUMS + 2] = supported_mm(feet, count, heights[d])
        measure_direction_graze(
            samples, tree, graze, rotations[d], lows[d], limits[0], weights, grazes[d]
        )
    return len(rotations)


def empty_values(count: int) -> np.ndarray:
    """(count, k) float64 of NaN: a table in which nothing is measured yet."""
    return np.full((count, COLUMNS), np.nan)
