"""Split for real: planes that part the final piece without crossing a face of class A.

Along each direction that is tried the faces of class A cover some heights; a plane may lie wherever
they do not. Of those places the ones are proposed that leave a small cut face and two halves of
like size, and, where a build volume is given, halves that fit into it.
"""

from dataclasses import dataclass
from itertools import product

import numpy as np

from viewer.geometry.cut_pieces import CutPlane
from viewer.geometry.face_classes import CLASS_A
from viewer.geometry.first_layer import section_area_mm2, section_segments
from viewer.geometry.pose import Pose, shortest_turn_to_z
from viewer.geometry.prepared_part import PreparedPart
from viewer.progress import Progress

_LEAST = 0.1  # share of the extent that either half must have
_OFF_MM = 0.2  # from the nearest face of class A
_TRIES = 15  # places tried along each direction
_BALANCE = 0.5  # weight of unlike halves against the size of the cut face
_APART = 0.15  # of the extent: a plane nearer than this to a better one, the same way, adds nothing


@dataclass(frozen=True)
class SplitPlane:
    """A plane that crosses no face of class A.

    cut_area_mm2 : of the cut face; share : of the extent along its normal that lies below it
    fits : whether both halves fit the build volume as the whole is laid, None if none was given
    why : one sentence
    """

    plane: CutPlane
    cut_area_mm2: float
    share: float
    fits: bool | None
    why: str


def propose_splits(
    part: PreparedPart,
    face_classes: np.ndarray,
    pose: Pose,
    build_mm: tuple[float, float, float] | None = None,
    most: int = 5,
    progress: Progress | None = None,
) -> tuple[SplitPlane, ...]:
    """The best planes to split a part along, best first; () where class A leaves no room for one.

    face_classes : (m,) uint8; build_mm : width, depth and height that each half has to fit
    Raises Cancelled.
    """
    progress = progress or Progress()
    marked = part.mesh.faces[face_classes == CLASS_A]
    directions = _directions(part, pose)
    found = []
    for k, way in enumerate(directions):
        progress.report(k / len(directions), "Looking for a place to split")
        found += _along(part, marked, way, build_mm)
        progress.check()
    found.sort(key=lambda each: each[0])
    kept: list[SplitPlane] = []
    for _, plane in found:
        if len(kept) < most and not any(_alike(part, plane, other) for other in kept):
            kept.append(plane)
    return tuple(kept)


def _directions(part: PreparedPart, pose: Pose) -> list[np.ndarray]:
    """The 13 axes of a cube, the build direction, and the part's own axes (principal moments)."""
    ways = [np.array(way, float) for way in product((-1, 0, 1), repeat=3) if way > (0, 0, 0)]
    ways.append(np.array(pose.up))
    spread = np.cov(part.mesh.corners_mm.mean(axis=1).T, aweights=part.mesh.face_areas_mm2 + 1e-12)
    ways += list(np.linalg.eigh(spread)[1].T)
    units: list[np.ndarray] = []
    for way in ways:
        unit = way / np.linalg.norm(way)
        if not any(abs(unit @ other) > 0.9999 for other in units):
            units.append(unit)
    return units


def _along(part, marked, way, build_mm) -> list[tuple[float, SplitPlane]]:
    """Planes across one direction with what each costs."""
    heights = part.mesh.vertices_mm @ way
    low, high = float(heights.min()), float(heights.max())
    runs = _covered(heights, marked)
    turn = shortest_turn_to_z(way)
    usual_mm2 = max(part.volume_mm3, 1e-9) ** (2 / 3)  # a side of a cube as large
    found, tried = [], set()
    for share in np.linspace(_LEAST, 1.0 - _LEAST, _TRIES):
        at = _nearest_free(low + share * (high - low), runs)
        share = (at - low) / (high - low)
        if at in tried or not _LEAST <= share <= 1.0 - _LEAST:
            continue
        tried.add(at)
        level = at - float(way @ part.centre_mm)
        segments = section_segments(part.solid_points_mm, part.solid_faces, turn, level)
        area = section_area_mm2(segments)
        if area <= 0:
            continue
        fits = None
        if build_mm is not None:
            flat = segments.reshape(-1, 2)
            rim = np.column_stack([flat, np.full(len(flat), level)]) @ turn + part.centre_mm
            fits = _halves_fit(part, heights > at, rim, build_mm)
        cost = area / usual_mm2 + _BALANCE * abs(2 * share - 1) + 10.0 * (fits is False)
        plane = CutPlane(tuple((at * way).tolist()), tuple(way.tolist()))
        found.append((cost, SplitPlane(plane, area, float(share), fits, _why(area, share, fits))))
    return found


def _covered(heights_mm: np.ndarray, faces: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Runs of heights that marked faces (k, 3), or what is near them, cover without a gap.

    heights_mm : (n,) of the vertices; returns (r,) where each run starts and ends, rising
    """
    if not len(faces):
        return np.empty(0), np.empty(0)
    a, b, c = (heights_mm[faces[:, k]] for k in range(3))
    low = np.minimum(np.minimum(a, b), c) - _OFF_MM
    high = np.maximum(np.maximum(a, b), c) + _OFF_MM
    order = np.argsort(low)
    low, high = low[order], np.maximum.accumulate(high[order])
    new = np.append(True, low[1:] > high[:-1])
    return low[new], np.append(high[:-1][new[1:]], high[-1])


def _nearest_free(at_mm: float, runs: tuple[np.ndarray, np.ndarray]) -> float:
    """The height next to `at_mm` that no run covers."""
    starts, ends = runs
    inside = np.flatnonzero((starts < at_mm) & (ends > at_mm))
    if not len(inside):
        return at_mm
    start, end = float(starts[inside[0]]), float(ends[inside[0]])
    return start if at_mm - start < end - at_mm else end


def _halves_fit(part, above, rim, build_mm) -> bool:
    """Whether either half with its rim (k, 3) fits the build volume, laid along any of its axes."""
    room = np.sort(build_mm)
    vertices = part.mesh.vertices_mm
    halves = (np.vstack([vertices[side], rim]) for side in (above, ~above))
    sizes = [np.sort(np.ptp(half, axis=0)) for half in halves]
    return all((size <= room + 1e-6).all() for size in sizes)


def _why(area: float, share: float, fits: bool | None) -> str:
    halves = f"{100 * share:.0f} and {100 * (1 - share):.0f} % of its length"
    words = f"No face of class A is crossed; the cut face has {area:,.0f} mm², the halves {halves}"
    if fits is None:
        return f"{words}."
    return f"{words}; both {'fit' if fits else 'do not fit'} the build volume."


def _alike(part, plane: SplitPlane, other: SplitPlane) -> bool:
    normal = np.array(plane.plane.normal)
    if abs(normal @ np.array(other.plane.normal)) < 0.98:
        return False
    extent = float(np.ptp(part.mesh.vertices_mm @ normal))
    apart = abs(normal @ (np.array(plane.plane.point_mm) - np.array(other.plane.point_mm)))
    return apart < _APART * extent
