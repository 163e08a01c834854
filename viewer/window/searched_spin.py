"""The pose with a build direction: its spin kept, or that of the least platform rectangle."""

import numpy as np

from viewer.geometry.mesh import Mesh
from viewer.geometry.platform_rectangle import best_spin, smallest_rectangle
from viewer.geometry.pose import Pose, pose_matrix, rotation_about_z, shortest_turn_to_z
from viewer.window.turn_angles import standing_on, tidy


class PosedCorners:
    """Points of a part of which at least all outermost are among, for rectangles and matrices."""

    def __init__(self, mesh: Mesh) -> None:
        self._mesh = mesh
        used = np.zeros(len(mesh.vertices_mm), bool)
        used[mesh.faces.ravel()] = True
        self._points_mm = mesh.vertices_mm if used.all() else mesh.vertices_mm[used]

    def belongs_to(self, mesh: Mesh) -> bool:
        """Whether these are the corners of that mesh."""
        return mesh is self._mesh

    def use_hull(self, corners_mm: np.ndarray) -> None:
        """Take the corners of the hull, (h, 3) in part coordinates: far fewer, and as good."""
        if len(corners_mm) < len(self._points_mm):
            self._points_mm = corners_mm

    def spin_deg(self, up: np.ndarray, platform_mm: tuple[float, float] | None = None) -> float:
        """Of the least rectangle round the part with this direction up.

        platform_mm : width and depth that it must not be larger than, if anything can be helped
        """
        plan = self._points_mm @ shortest_turn_to_z(np.asarray(up))[:2].T
        least = smallest_rectangle(plan)
        if platform_mm is None:
            return least.spin_deg
        width, depth = platform_mm
        if least.width_mm <= width and least.depth_mm <= depth:
            return least.spin_deg
        if least.width_mm <= depth and least.depth_mm <= width:
            return least.spin_deg + 90.0
        return best_spin(plan, width, depth).spin_deg

    def over_mm(
        self, up: np.ndarray, spin_deg: float, platform_mm: tuple[float, float] | None
    ) -> float:
        """By how much the part with that spin is too large for a platform, 0 if it fits."""
        if platform_mm is None:
            return 0.0
        turn = (rotation_about_z(spin_deg) @ shortest_turn_to_z(np.asarray(up)))[:2]
        return float(max(*(np.ptp(self._points_mm @ turn.T, axis=0) - platform_mm), 0.0))

    def matrix(self, pose: Pose) -> np.ndarray:
        """(4, 4) of a pose, the part on the platform."""
        return pose_matrix(self._points_mm, pose)


def pose_towards(
    up: np.ndarray,
    present: Pose,
    corners: PosedCorners,
    keep_spin: bool,
    platform_mm: tuple[float, float] | None = None,
) -> Pose:
    """The pose with `up` up: the spin as it is, or with its least rectangle along x and y."""
    up = np.asarray(up, np.float64)
    spin_deg = present.spin_deg if keep_spin else corners.spin_deg(up, platform_mm)
    return tidy(Pose(tuple(float(x) for x in up), spin_deg))


def pose_walked(up: np.ndarray, before: Pose, keep_spin: bool) -> Pose:
    """The next pose of a walk: the spin as it is, or turned the shortest way from the one before.

    The least rectangle jumps from one side of a part to the next, which nobody could follow.
    """
    up = np.asarray(up, np.float64)
    if keep_spin:
        return tidy(Pose(tuple(float(x) for x in up), before.spin_deg))
    return standing_on(before, -up)
