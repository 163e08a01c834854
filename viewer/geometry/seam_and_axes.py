"""Where seams and the machine's axes fall on a side that shows, for a build direction and a spin.

The layers draw outlines on a face: a face of area A at an inclination α from horizontal gets
A·sin α / t of them, all level and at right angles to the horizontal part of its normal. So
A·sin α, the length of that part of its area vector, says how much of what is drawn a face carries.

Seam. Each layer's outline begins and ends somewhere. Where that place is laid at the back of the
machine, towards +y (common practice, no source), the faces that look that way carry the seam:

    facing(spin) = Σ A·sin α · max(0, cos of the angle between +y and the face's level normal)

which is the area of the side as seen from the back, what hides nothing else counted too. The seam
is farthest from the side where this is least.

Axes. A wall along x or y is drawn by one axis alone, so that the steps of two axes do not beat
against each other on it as a pattern (common practice, no source):

    along(spin) = Σ A·sin α of faces whose level normal lies within 0.5° of an axis / Σ A·sin α
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import shortest_turn_to_z

BACK_DEG = 90.0  # of +y from +x
STEP_DEG = 0.5  # of the spins looked at
AXIS_DEG = 0.5  # as near to an axis counts as along it
ALIKE = 0.01  # of the most: spins that differ by less are alike
LEAST_SHARE = 0.05  # less than this along an axis is no wall to go by; a cylinder has 0.011
_NORMAL_STEP = 1.0 / 64.0


class SeamSpin(NamedTuple):
    """spin_deg : with which the least of a side faces the back
    facing_mm2, most_mm2 : of the side then, and with the worst spin
    """

    spin_deg: float
    facing_mm2: float
    most_mm2: float


class WallSpin(NamedTuple):
    """spin_deg : 0 to 90, with which the most lies along x or y; share : of all outlines, to 1."""

    spin_deg: float
    share: float


def gather_area_vectors(mesh: Mesh, chosen: np.ndarray) -> np.ndarray:
    """(k, 3) float64 mm²: area vectors of the chosen faces, those of nearly one direction added.

    chosen : (m,) bool. Faces of one plane keep its direction to the digit.
    """
    normals = mesh.face_normals[chosen]
    vectors = normals * mesh.face_areas_mm2[chosen][:, None]
    cells = np.rint(normals / _NORMAL_STEP).astype(np.int64) + 128
    keys = (cells[:, 0] * 512 + cells[:, 1]) * 512 + cells[:, 2]
    _, place = np.unique(keys, return_inverse=True)
    count = int(place.max()) + 1 if len(place) else 0
    return np.stack([np.bincount(place, vectors[:, k], count) for k in range(3)], axis=1)


def outlines_mm2(area_vectors_mm2: np.ndarray, up: np.ndarray) -> np.ndarray:
    """(k, 2) float64: level parts of (k, 3) area vectors with `up` up, before any spin."""
    return area_vectors_mm2 @ shortest_turn_to_z(np.asarray(up, np.float64))[:2].T


def facing_mm2(outlines: np.ndarray, spins_deg: np.ndarray) -> np.ndarray:
    """(s,) float64: area of (k, 2) outlines seen from the back with each of the (s,) spins."""
    angles = np.radians(BACK_DEG - np.asarray(spins_deg, np.float64))
    back = np.stack([np.cos(angles), np.sin(angles)])
    return np.maximum(outlines @ back, 0.0).sum(axis=0)


def share_along(outlines: np.ndarray, spin_deg: float) -> float:
    """Share of the outlines that lie along x or y with a spin, 0 to 1."""
    weights, angles = _weights_and_angles(outlines)
    whole = weights.sum()
    return float(weights[_near(angles, -spin_deg)].sum() / whole) if whole > 0 else 0.0


def seam_away(first: np.ndarray, second: np.ndarray | None = None) -> SeamSpin | None:
    """The spin that keeps the seam away from a side, given by its (k, 2) outlines.

    second : outlines of what should be spared too where the first leaves a choice. None where
    every spin is alike. Where many are, the one in the middle of the longest run of them.
    """
    spins = np.arange(0.0, 360.0, STEP_DEG)
    facing = facing_mm2(first, spins)
    most = float(facing.max())
    if most - facing.min() <= ALIKE * most:
        return None
    good = facing <= facing.min() + ALIKE * most
    if second is not None and len(second):
        other = facing_mm2(second, spins)
        good &= other <= other[good].min() + ALIKE * other.max()
    best = _middle_of_longest_run(good)
    spin_deg = float(best * STEP_DEG) % 360.0
    return SeamSpin(spin_deg, float(facing_mm2(first, np.array([spin_deg]))[0]), most)


def spin_of_side(up: np.ndarray, side: np.ndarray) -> float | None:
    """The spin in degrees that turns a side, (3,) in part coordinates, to the back.

    None where the side lies too near the build direction to be at the back.
    """
    level = outlines_mm2(np.asarray(side, np.float64)[None], up)[0]
    if np.hypot(*level) < 0.1 * np.linalg.norm(side):
        return None
    return float(BACK_DEG - np.degrees(np.arctan2(level[1], level[0]))) % 360.0


def walls_along(outlines: np.ndarray) -> WallSpin | None:
    """The spin that lays the most of (k, 2) outlines along x or y; None if no wall stands out."""
    weights, angles = _weights_and_angles(outlines)
    whole = weights.sum()
    if whole <= 0:
        return None
    order = np.argsort(-weights, kind="stable")[:360]  # a wall that stands out is among the largest
    sums = [weights[_near(angles, angles[k])].sum() for k in order]
    best = int(np.argmax(np.round(np.array(sums) / whole, 9)))
    if sums[best] < LEAST_SHARE * whole:
        return None
    centre = angles[order[best]]
    near = _near(angles, centre)
    off = (angles[near] - centre + 45.0) % 90.0 - 45.0
    mean = centre + float(np.average(off, weights=weights[near]))
    spin_deg = -mean % 90.0
    return WallSpin(0.0 if 90.0 - spin_deg < 1e-9 else spin_deg, share_along(outlines, spin_deg))


def _weights_and_angles(outlines: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """(k,) lengths and (k,) angles in 0..90° of level normals, a quarter turn being no other."""
    weights = np.hypot(outlines[:, 0], outlines[:, 1])
    return weights, np.degrees(np.arctan2(outlines[:, 1], outlines[:, 0])) % 90.0


def _near(angles: np.ndarray, angle_deg: float) -> np.ndarray:
    return np.abs((angles - angle_deg + 45.0) % 90.0 - 45.0) <= AXIS_DEG + 1e-9


def _middle_of_longest_run(good: np.ndarray) -> float:
    """Place of the middle of the longest run of a round (n,) bool; some of it is, not all."""
    start = int(np.flatnonzero(~good)[0])
    turned = np.concatenate([np.roll(good, -start), [False]])
    edges = np.flatnonzero(np.diff(np.concatenate([[False], turned]).astype(np.int8)))
    starts, ends = edges[::2], edges[1::2]
    longest = int(np.argmax(ends - starts))
    return start + (starts[longest] + ends[longest] - 1) / 2
