"""Walls, gaps and relief finer than the roads they are to be printed with."""

from dataclasses import dataclass

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.gap_floors import have_floors
from viewer.geometry.mesh import Mesh
from viewer.geometry.point_grid import group_near, point_grid, rows_near
from viewer.geometry.ray_tree import RayTree, nearest_hit
from viewer.geometry.shells import Shells
from viewer.geometry.wall_samples import TOUCH_MM, all_hits, sample_walls
from viewer.progress import Progress

# Common practice, no source: what stands out or is sunk by no more than a few roads is relief.
RELIEF_ROADS = 3.0
_NEARLY_ALL = 0.9  # share of a place's points that must lie so close to solid ground
_FEWEST_POINTS = 3  # a point or two are the run-out of an edge
_EQUAL = 1e-4  # a wall of exactly two roads is two roads
_FLAT = 0.7071  # upward part of the normal of what lies rather than stands
_POINTS_A_GO = 2048


@dataclass(frozen=True, eq=False)
class NearPoints:
    """Points of the surface with another surface close behind or before them, whatever the pose.

    points_mm : (n, 3) float64, in part coordinates; normals : (n, 3), out of the material
    faces : (n,) int32
    thickness_mm, gap_mm : (n,) float64, inf where there is none within two roads
    on_ground, in_ground : (n,) bool, solid ground lies within a few roads: of what stands out, and
        of what is sunk, which has a floor within as many roads too
    step_mm2 : surface that each point stands for
    """

    points_mm: np.ndarray
    normals: np.ndarray
    faces: np.ndarray
    thickness_mm: np.ndarray
    gap_mm: np.ndarray
    on_ground: np.ndarray
    in_ground: np.ndarray
    step_mm2: float


@dataclass(frozen=True, eq=False)
class ThinKind:
    """Places of one kind; a place is a group of sampled points near each other.

    points_mm : (n, 3) float64, points on the surface in part coordinates
    faces : (n,) int32, face of each point
    group : (n,) int64, place of each point, from 0
    area_mm2 : surface that the points stand for
    least_mm : the smallest thickness or gap among them
    """

    points_mm: np.ndarray
    faces: np.ndarray
    group: np.ndarray
    area_mm2: float
    least_mm: float

    @property
    def count(self) -> int:
        """Number of places."""
        return int(self.group.max(initial=-1)) + 1


@dataclass(frozen=True, eq=False)
class ThinPlaces:
    """What is finer than a road, or than a layer where it lies flat.

    walls : thinner than one road; one_road_walls : thinner than two
    gaps : narrower than one road, between bodies or between two sides of one
    raised, sunk : relief narrower than one road that stands out, or is sunk, a few roads at most
    """

    walls: ThinKind
    one_road_walls: ThinKind
    gaps: ThinKind
    raised: ThinKind
    sunk: ThinKind


def find_near_points(
    mesh: Mesh,
    shells: Shells,
    tree: RayTree,
    road_mm: float,
    progress: Progress | None = None,
    unclear: np.ndarray | None = None,
    tight: bool = True,
    body_of_shell: np.ndarray | None = None,
) -> NearPoints:
    """`NearPoints` of a mesh for a road width, out of points spread over its surface.

    tree : over all faces of the mesh, in the frame of the middle of its box
    unclear : int32, faces that are not asked, as the surface crosses or repeats itself there
    tight : no holes to speak of, so that it is clear what lies inside another shell
    body_of_shell : (k,) int64; what lies between two bodies is a gap and never relief

    Between the points, features smaller than a road can be missed. Raises Cancelled.
    """
    progress = progress or Progress()
    sides = shells.orientation[tree.order].astype(np.float64)
    area, reach = float(mesh.face_areas_mm2.sum()), 2.0 * road_mm
    samples = sample_walls(tree, shells.orientation, area, road_mm, reach, progress)
    near = np.minimum(samples.thickness_mm, samples.gap_mm) < reach
    if unclear is not None:
        near &= ~np.isin(samples.faces, unclear)
    chosen = np.flatnonzero(near)
    if shells.count > 1 and tight:
        chosen = chosen[_exposed(tree, sides, samples, chosen, progress)]
    grounds = []
    for sense, values in ((-1.0, samples.thickness_mm), (1.0, samples.gap_mm)):
        asked = np.flatnonzero(values[chosen] < road_mm)
        if sense > 0 and body_of_shell is not None and shells.count > 1:
            body = body_of_shell[shells.shell_of_face]
            asked = asked[_in_one_body(tree, samples, chosen[asked], body)]
        ground = np.zeros(len(chosen), bool)
        ground[asked] = _by_ground(
            tree, sides, samples, values, chosen[asked], sense, road_mm, progress
        )
        grounds.append(ground)
    # Without a floor near by the two sides are not those of a sunk line, and might move apart.
    asked = np.flatnonzero(grounds[1])
    reach = RELIEF_ROADS * road_mm
    grounds[1][asked] = have_floors(tree, samples, chosen[asked], reach, road_mm, progress)
    return NearPoints(
        samples.points_mm[chosen] + mesh.box_mm.mean(axis=0),
        samples.normals[chosen],
        samples.faces[chosen],
        samples.thickness_mm[chosen],
        samples.gap_mm[chosen],
        *grounds,
        samples.step_mm2,
    )


def thin_places(
    near: NearPoints,
    up: np.ndarray,
    layer_mm: float,
    road_mm: float,
    progress: Progress | None = None,
) -> ThinPlaces:
    """`ThinPlaces` in a pose; up : (3,) float64, unit, in part coordinates.

    In a layer a wall of thickness t, inclined so that its normal has the upward part n_z, is a
    strip t / √(1 − n_z²) wide (CALC): that is compared with the roads. Where it lies flat it is
    lost if it is t / |n_z| < a layer high. Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    n_z = np.abs(near.normals @ up)
    across = np.maximum(np.sqrt(np.maximum(1.0 - n_z * n_z, 0.0)), 1e-9)
    upright = np.maximum(n_z, 1e-9)
    less = 1.0 - _EQUAL

    def finer(values, roads):
        strip = values < roads * road_mm * less * across
        return strip | ((n_z > _FLAT) & (values < layer_mm * less * upright))

    thin, narrow = finer(near.thickness_mm, 1.0), finer(near.gap_mm, 1.0)
    medium = finer(near.thickness_mm, 2.0) & ~thin
    progress.check()
    raised, walls = _relief_apart(near, thin, near.thickness_mm, -1.0, near.on_ground, progress)
    sunk, gaps = _relief_apart(near, narrow, near.gap_mm, 1.0, near.in_ground, progress)
    kinds = (
        (walls, -1.0),
        (np.flatnonzero(medium), -1.0),
        (gaps, 1.0),
        (raised, -1.0),
        (sunk, 1.0),
    )
    return ThinPlaces(*(_kind(near, chosen, sense, progress) for chosen, sense in kinds))


def _groups(near: NearPoints, chosen, sense, progress):
    """Groups of points by the middles of the walls or gaps there, so that two sides are one."""
    values = (near.thickness_mm if sense < 0 else near.gap_mm)[chosen]
    middles = near.points_mm[chosen] + (0.5 * sense * values)[:, None] * near.normals[chosen]
    within = max(2.5 * near.step_mm2**0.5, float(values.max(initial=0.0)))
    return group_near(middles, within, progress)


def _relief_apart(near, wanted, values, sense, ground, progress):
    """Split the points into relief and what is not: nearly all of a place is close to ground."""
    chosen = np.flatnonzero(wanted & (values < np.inf))
    if not len(chosen):
        return chosen, chosen
    group = _groups(near, chosen, sense, progress)
    share = np.bincount(group, ground[chosen]) / np.bincount(group)
    relief = (share >= _NEARLY_ALL)[group]
    return chosen[relief], chosen[~relief]


def _kind(near: NearPoints, chosen, sense, progress) -> ThinKind:
    """The places with enough points."""
    group = _groups(near, chosen, sense, progress)
    keep = np.bincount(group, minlength=1)[group] >= _FEWEST_POINTS
    chosen, group = chosen[keep], np.unique(group[keep], return_inverse=True)[1]
    values = near.thickness_mm if sense < 0 else near.gap_mm
    return ThinKind(
        near.points_mm[chosen],
        near.faces[chosen],
        group.astype(np.int64),
        float(len(chosen) * near.step_mm2),
        float(values[chosen].min(initial=np.inf)),
    )


def _in_one_body(tree, samples, chosen, body_of_face):
    """(k,) bool: the gap before a point has the same body on both sides, or is missed again."""
    here = samples.faces[chosen]
    places = _places_across(tree, samples, chosen)
    across = np.where(places < 0, here, tree.order[places])
    return body_of_face[across] == body_of_face[here]


@compiled
def _places_across(tree, samples, chosen):
    """(k,) int64: place in the tree of the face beyond the gap before each point, or −1."""
    places = np.empty(len(chosen), np.int64)
    for i in range(len(chosen)):
        p, normal, gap = (
            samples.points_mm[chosen[i]], samples.normals[chosen[i]], samples.gap_mm[chosen[i]]
        )  # fmt: skip
        places[i] = nearest_hit(tree, p + (gap - 0.5 * TOUCH_MM) * normal, normal, TOUCH_MM)[1]
    return places


def _by_ground(tree, sides, samples, values, chosen, sense, road_mm, progress):
    """(k,) bool: solid ground lies within RELIEF_ROADS of the chosen points.

    That is a point from which neither the ray straight on (sense −1: into the material, +1: away
    from it) nor four rays at 60° to it meet the surface within a road.
    """
    found = np.zeros(len(chosen), bool)
    if not len(chosen):
        return found
    grid = point_grid(samples.points_mm, RELIEF_ROADS * road_mm)
    ground = np.full(len(samples.faces), -1, np.int8)
    ground[values < np.inf] = 0
    for first in range(0, len(chosen), _POINTS_A_GO):
        some = slice(first, first + _POINTS_A_GO)
        found[some] = _near_ground(
            grid, tree, sides, samples.normals, chosen[some], ground, sense, road_mm
        )
        progress.check()
    return found


@compiled
def _near_ground(grid, tree, sides, normals, chosen, ground, sense, road):
    """(k,) bool: solid ground lies within a cube's side; `ground` remembers what was asked."""
    near = np.zeros(len(chosen), np.bool_)
    rows = np.empty((9, 2), np.int64)
    hits = np.empty((16, 2))
    for c in range(len(chosen)):
        p = grid.points_mm[chosen[c]]
        rows_near(grid, p, rows)
        for r in range(9):
            for i in range(rows[r, 0], rows[r, 1]):
                other = grid.order[i]
                if near[c] or ground[other] == 0:
                    continue
                q = grid.points_mm[other]
                x, y, z = p[0] - q[0], p[1] - q[1], p[2] - q[2]
                if x * x + y * y + z * z > grid.cell_mm * grid.cell_mm:
                    continue
                if ground[other] < 0:
                    free = _is_free(tree, sides, q, normals[other], sense, road, hits)
                    ground[other] = 1 if free else 0
                near[c] = ground[other] == 1
    return near


@compiled
def _is_free(tree, sides, point, normal, sense, road, hits):
    """Whether four rays at 60° to the normal go on for a road without meeting the surface."""
    least = np.argmin(np.abs(normal))
    other = np.zeros(3)
    other[least] = 1.0
    e1 = np.cross(normal, other)
    e1 /= np.sqrt(np.sum(e1 * e1))
    e2 = np.cross(normal, e1)
    direction = np.empty(3)
    for turn in range(4):
        a = (1.0, 0.0, -1.0, 0.0)[turn] * 0.8660254037844386
        b = (0.0, 1.0, 0.0, -1.0)[turn] * 0.8660254037844386
        for k in range(3):
            direction[k] = 0.5 * sense * normal[k] + a * e1[k] + b * e2[k]
        count = all_hits(tree, sides, point, direction, road, hits)
        for i in range(count):
            if hits[i, 0] >= TOUCH_MM:
                return False
    return True


def _exposed(tree, sides, samples, asked, progress):
    """(k,) bool: the points lie on the outside of all shells together."""
    exposed = np.zeros(len(asked), bool)
    for first in range(0, len(asked), _POINTS_A_GO):
        some = slice(first, first + _POINTS_A_GO)
        chosen = asked[some]
        exposed[some] = _is_outside(tree, sides, samples.points_mm[chosen], samples.normals[chosen])
        progress.check()
    return exposed


@compiled
def _is_outside(tree, sides, points, normals):
    """Whether the ways in and out along the ray from the surface to infinity cancel out."""
    outside = np.zeros(len(points), np.bool_)
    hits = np.empty((256, 2))
    for i in range(len(points)):
        count = all_hits(tree, sides, points[i], normals[i], np.inf, hits)
        depth = 0
        for h in range(count):
            if hits[h, 0] >= TOUCH_MM:
                depth += 1 if hits[h, 1] > 0.0 else -1
        outside[i] = depth == 0
    return outside
