"""The support that islands need: the volume below their undersides.

Volume = ∫ (height of the underside − height of the next solid below, or 0 on the platform) dA over
the plan of the undersides below the middle of the island's first layer. The first term is exact
from the faces; the ground is looked for at random points, in independent stratified sets whose
spread gives the standard error (0 over flat ground).
"""

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.island_cups import Cups
from viewer.geometry.ray_tree import RayTree, nearest_hit
from viewer.progress import Progress

MOST_SETS, FEWEST_SETS = 8, 2
_POINTS = 2_000  # over all cups together; each gets at least one in each set
_MOST_POINTS = 8_000  # where there are so many cups that this is passed, there are fewer sets
_OFF_MM = 1e-5  # a ray starts so far off the underside it belongs to
_SEED = 20240407


def supports_of_cups(
    cups: Cups,
    points_mm: np.ndarray,
    solid_faces: np.ndarray,
    tree: RayTree,
    rotation: np.ndarray,
    platform_mm: float,
    layer_mm: float,
    progress: Progress | None = None,
) -> tuple[np.ndarray, np.ndarray]:
    """(c,) float64, support volume below each cup, mm³, and its standard error.

    points_mm : (p, 3) float64, z up; solid_faces : (t, 3) int32
    tree : over solid_faces in part coordinates; rotation : (3, 3) from there to z up
    Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    if not len(cups.layer):
        return np.zeros(0), np.zeros(0)
    tops = platform_mm + (cups.layer + 0.5) * layer_mm
    plan, under, of_cup, of_face = _undersides(
        points_mm, solid_faces, cups.face_starts, cups.faces, tops, platform_mm
    )
    progress.check()
    sets = int(np.clip(_MOST_POINTS // len(tops), FEWEST_SETS, MOST_SETS))
    each = np.maximum(np.round(_POINTS / sets * of_cup / max(of_cup.sum(), 1e-300)), 1)
    random = np.random.default_rng(_SEED).random((sets, 3))
    ground = _grounds(
        points_mm, solid_faces, cups.face_starts, cups.faces, of_face, of_cup, tops, platform_mm,
        each.astype(np.int64), tree, np.ascontiguousarray(rotation), random, progress.stop_flag,
    )  # fmt: skip
    progress.check()
    volume = under - plan * ground.mean(axis=1)
    return volume, plan * ground.std(axis=1, ddof=1) / np.sqrt(sets)


@compiled
def _clip(points, corners, top, clipped):
    """The part of a face below `top`, as up to four corners in `clipped`; returns their number."""
    count = 0
    for k in range(3):
        a, b = points[corners[k]], points[corners[(k + 1) % 3]]
        if a[2] <= top:
            clipped[count] = a
            count += 1
        if (a[2] <= top) != (b[2] <= top):
            share = (top - a[2]) / (b[2] - a[2])
            clipped[count] = a + share * (b - a)
            count += 1
    return count


@compiled
def _underside(a, b, c):
    """Plan area of a triangle seen from below, negative if it faces up."""
    return 0.5 * ((b[1] - a[1]) * (c[0] - a[0]) - (b[0] - a[0]) * (c[1] - a[1]))


@compiled
def _undersides(points, faces, starts, members, tops, platform):
    """Plan area and volume down to the platform of each cup; plan area of each of its faces."""
    cups = len(tops)
    under, of_cup = np.zeros(cups), np.zeros(cups)
    of_face = np.zeros(len(members))
    clipped = np.empty((4, 3))
    for i in range(cups):
        for m in range(starts[i], starts[i + 1]):
            count = _clip(points, faces[members[m]], tops[i], clipped)
            for k in range(1, count - 1):
                a, b, c = clipped[0], clipped[k], clipped[k + 1]
                area = _underside(a, b, c)
                if area > 0:
                    of_face[m] += area
                    under[i] += area * ((a[2] + b[2] + c[2]) / 3.0 - platform)
            of_cup[i] += of_face[m]
    return of_cup, under, of_cup, of_face


@compiled
def _grounds(points, faces, starts, members, of_face, of_cup, tops, platform, each, tree,
             rotation, random, stop):  # fmt: skip
    """(c, sets) float64: mean height of the ground below each cup, as each set sees it."""
    ground = np.zeros((len(tops), len(random)))
    clipped = np.empty((4, 3))
    down = -rotation[2]
    reach = 2.0 * (tops.max() - platform) + 1.0 if len(tops) else 0.0
    for i in range(len(tops)):
        step = of_cup[i] / each[i]
        for s in range(len(random)):
            if stop[0]:
                return ground
            # Every cup sees other points, of an even sequence that starts at random in each set.
            turn = (random[s, 0] + 0.6180339887498949 * i) % 1.0
            wanted, passed, taken = turn * step, 0.0, 0
            for m in range(starts[i], starts[i + 1]):
                if passed + of_face[m] <= wanted:
                    passed += of_face[m]
                    continue
                count = _clip(points, faces[members[m]], tops[i], clipped)
                while taken < each[i] and wanted < passed + of_face[m]:
                    p = _point_on(clipped, count, wanted - passed, i + taken, random[s])
                    origin = p[0] * rotation[0] + p[1] * rotation[1] + p[2] * rotation[2]
                    distance, place = nearest_hit(tree, origin + _OFF_MM * down, down, reach)
                    if place >= 0:
                        ground[i, s] += max(p[2] - _OFF_MM - distance - platform, 0.0) / each[i]
                    taken += 1
                    wanted += step
                passed += of_face[m]
    return ground


@compiled
def _point_on(clipped, count, area, n, random):
    """A point on a face cut off at the top: in the triangle in which `area` is used up."""
    k = 1
    while k < count - 2 and area >= _underside(clipped[0], clipped[k], clipped[k + 1]):
        area -= _underside(clipped[0], clipped[k], clipped[k + 1])
        k += 1
    u = (random[1] + 0.7548776662466927 * n) % 1.0
    v = (random[2] + 0.5698402909980532 * n) % 1.0
    if u + v > 1.0:
        u, v = 1.0 - u, 1.0 - v
    a, b, c = clipped[0], clipped[k], clipped[k + 1]
    return a + u * (b - a) + v * (c - a)
