"""Support that no straight way leads to, and support that no way at all leads to.

A point of a support is unreachable if from none of 26 directions (from the middle of a cube to its
corners, the middles of its edges and of its faces) a straight line leads past the part; only the
part is in the way. Support is sealed if the face that bears on it bounds a sealed hollow (see
`sealed_faces`), which is exact. All sealed support is unreachable.

Which points are asked about, and how sure the volume is for that: see `volume_cells`. Added to it
is what the sample lines leave unsure, from how much neighbouring rows of them differ, which are
independent of one another (see `weighing`).
"""

from itertools import product
from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.near_cells import near_groups
from viewer.geometry.pose import Pose, pose_matrix, shortest_turn_to_z
from viewer.geometry.pose_measures import ShutIn
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.ray_tree import meets_anything, nearest_hit
from viewer.geometry.support_samples import SupportSamples
from viewer.geometry.turned_part import TurnedPart
from viewer.geometry.volume_cells import volume_share
from viewer.progress import Progress

CELLS = 24  # along the diagonal of the part's box: points in neighbouring cells are one place
MOST_PLACES = 40
ENOUGH = 2.5e-4  # of the volume of the part's box: a standard error there is no use in going below
_FEW_FACES, _MOST_EFFORT = 200_000, 4.0  # of parts of fewer faces more points may be asked about
_AT_ONCE = 500  # points between two looks at the progress token
_SEED = 20240513
# A ray to the face above starts so far below its support's top: shells that were united have been
# grown by half a thousandth of a millimetre.
_OFF_MM = 0.005
_DIRECTIONS = np.array(
    [np.divide(d, np.linalg.norm(d)) for d in product((0, 1, -1), repeat=3) if any(d)]
)


class Unreachable(NamedTuple):
    """unreachable_mm3 : support volume without a straight way out, the sealed volume included
    sealed_mm3 : its part without any way out
    unreachable_error_mm3, sealed_error_mm3 : one standard error
    places : where it is, largest first, at most MOST_PLACES
    """

    unreachable_mm3: float
    sealed_mm3: float
    unreachable_error_mm3: float
    sealed_error_mm3: float
    places: tuple[ShutIn, ...]


def measure_unreachable(
    part: PreparedPart, turned: TurnedPart, samples: SupportSamples, progress: Progress
) -> Unreachable:
    """Unreachable and sealed support volume of a pose.

    samples : in the frame of `turned`
    raises Cancelled if `progress` says so
    """
    volume = samples.plan_mm2 * (samples.top_mm - samples.bottom_mm)
    total = float(volume.sum())
    if not total > 0:
        return Unreachable(0.0, 0.0, 0.0, 0.0, ())
    progress.check()
    sealed = _is_sealed(part, turned, samples, progress)
    progress.check()
    of_row = np.bincount(samples.row, volume, samples.rows)
    sealed_of_row = np.bincount(samples.row, volume * sealed, samples.rows)
    sealed_mm3 = float(sealed_of_row.sum())
    found_mm3, found_of_row, points_error = sealed_mm3, sealed_of_row, 0.0
    middles = np.column_stack([samples.places_mm, 0.5 * (samples.bottom_mm + samples.top_mm)])
    places = _places(part, turned, middles[sealed], volume[sealed], True, progress)
    if sealed_mm3 < total:
        above = np.array([0.0, 0.0, turned.platform_mm])
        effort = float(np.clip(_FEW_FACES / len(part.solid_faces), 1.0, _MOST_EFFORT))
        # What the sample lines leave unsure is added to what the points do.
        enough = ENOUGH / np.sqrt(effort) * float(np.prod(np.ptp(part.mesh.box_mm, axis=0)))

        def is_stuck(points: np.ndarray) -> np.ndarray:
            return unreachable_points(part, turned.up, (points + above) @ turned.rotation, progress)

        stuck = volume_share(samples, ~sealed, is_stuck, enough, _SEED, progress, effort)
        found_mm3 += stuck.volume_mm3
        found_of_row, points_error = sealed_of_row + stuck.of_row_mm3, stuck.error_mm3
        places += _places(part, turned, stuck.points_mm, stuck.weights_mm3, False, progress)
    return Unreachable(
        found_mm3,
        sealed_mm3,
        float(np.hypot(points_error, _error_of_rows(found_of_row, of_row))),
        _error_of_rows(sealed_of_row, of_row),
        tuple(sorted(places, key=lambda place: -place.volume_mm3)[:MOST_PLACES]),
    )


def _places(part, turned, points, volume, sealed: bool, progress: Progress) -> list[ShutIn]:
    """Where points (k, 3) above the platform lie close together: the one in each middle."""
    if not len(points):
        return []
    size_mm = float(np.linalg.norm(np.ptp(part.mesh.box_mm, axis=0)))
    group = near_groups(points, size_mm / CELLS)
    progress.check()
    above = np.array([0.0, 0.0, turned.platform_mm])
    found = []
    for g in range(int(group.max()) + 1):
        own, weight = points[group == g], volume[group == g]
        middle = np.average(own, axis=0, weights=weight)
        place = own[np.argmin(np.linalg.norm(own - middle, axis=1))]
        in_part = (place + above) @ turned.rotation + part.centre_mm
        progress.check()
        found.append(ShutIn(tuple(in_part.tolist()), float(place[2]), float(weight.sum()), sealed))
    return found


def _error_of_rows(found: np.ndarray, whole: np.ndarray) -> float:
    """Standard error of Σ found over rows, each taken as a share of its whole (ratio estimator).

    Second differences between neighbouring rows, as in `weighing`.
    """
    rest = found - whole * (found.sum() / whole.sum())
    if len(rest) < 3:
        return float(np.sqrt(np.sum(rest**2)))
    second = rest[:-2] - 2 * rest[1:-1] + rest[2:]
    return float(np.sqrt(np.sum(second**2) / 6.0 * len(rest) / (len(rest) - 2)))


def _is_sealed(part, turned, samples, progress) -> np.ndarray:
    """(s,) bool: the face that bears on the sample bounds a sealed hollow."""
    faces = part.sealed_faces
    sealed = faces.of_face[samples.top_face]
    asked = np.flatnonzero(faces.in_part[samples.top_face])
    if len(asked):
        # The face is cut by other shells: look which of its pieces lies here.
        points = np.column_stack([samples.places_mm, samples.top_mm + turned.platform_mm])[asked]
        tree = part.ray_tree
        origins = (points - [0, 0, _OFF_MM]) @ turned.rotation
        place = _faces_above(tree, origins, turned.up, progress.stop_flag)
        progress.check()
        sealed[asked] = (place >= 0) & faces.of_solid_face[tree.order[place]]
    return sealed


@compiled
def _faces_above(tree, points, up, stop):
    places = np.empty(len(points), np.int64)
    for i in range(len(points)):
        if i % 256 == 0 and stop[0]:
            break
        places[i] = nearest_hit(tree, points[i], up, np.inf)[1]
    return places


def unreachable_points(
    part: PreparedPart, up: np.ndarray, points_mm: np.ndarray, progress: Progress
) -> np.ndarray:
    """(k,) bool: no straight way leads from the point past the part.

    up : (3,) float64, build direction in part coordinates
    points_mm : (k, 3) float64, in the frame of `part.points_mm`: points p of a turned frame are
        `p @ rotation` there; quickest where points that follow one another are near each other
    raises Cancelled if `progress` says so
    """
    # The directions belong to the pose without its spin.
    directions = _DIRECTIONS @ shortest_turn_to_z(np.asarray(up, np.float64))
    stuck = np.empty(len(points_mm), bool)
    reach = 2.0 * float(np.linalg.norm(np.ptp(part.mesh.box_mm, axis=0))) + 1.0
    for first in range(0, len(points_mm), _AT_ONCE):
        progress.check()
        last = first + _AT_ONCE
        stuck[first:last] = _without_way_out(
            part.ray_tree, np.ascontiguousarray(points_mm[first:last]), directions, reach,
            progress.stop_flag,
        )  # fmt: skip
    progress.check()
    return stuck


def unreachable_in_pose(
    part: PreparedPart, pose: Pose, points_mm: np.ndarray, progress: Progress
) -> np.ndarray:
    """(k,) bool: the same for (k, 3) float64 points of the posed part, its spin included.

    There the part's box is centred at x = y = 0 and the platform is z = 0, as for drawn columns.
    """
    matrix = pose_matrix(part.points_mm, pose)
    points = (points_mm - matrix[:3, 3]) @ matrix[:3, :3]
    return unreachable_points(part, np.array(pose.up), points, progress)


@compiled
def _without_way_out(tree, points, directions, reach, stop):
    stuck = np.ones(len(points), np.bool_)
    order = np.arange(len(directions))
    for i in range(len(points)):
        if stop[0]:
            break
        for j in range(len(order)):
            if meets_anything(tree, points[i], directions[order[j]], reach):
                continue
            stuck[i] = False
            # What led out comes first the next time.
            led_out = order[j]
            for k in range(j, 0, -1):
                order[k] = order[k - 1]
            order[0] = led_out
            break
    return stuck
