"""How a part is laid: which part direction points up, and the spin about it.

R = Rz(spin) · R0, with R0 the shortest turn of `up` onto +z (for up = −z: half a turn about +x).
Spin is anticlockwise seen from above. `pose_matrix` then centres the part's box at x = y = 0 and
drops it onto z = 0.
"""

from dataclasses import dataclass

import numpy as np

from viewer.errors import RequestProblem
from viewer.words import say


@dataclass(frozen=True)
class Pose:
    """`up`: unit vector in part coordinates that will point up; `spin_deg`: turn about it."""

    up: tuple[float, float, float] = (0.0, 0.0, 1.0)
    spin_deg: float = 0.0

    def __post_init__(self) -> None:
        up = np.asarray(self.up, np.float64)
        length = float(np.linalg.norm(up)) if up.shape == (3,) else 0.0
        if not np.isfinite(length) or length < 1e-12 or not np.isfinite(self.spin_deg):
            raise RequestProblem(
                say("The build direction needs three numbers that are not all zero, such as 0,0,1.")
            )
        if abs(length - 1.0) > 1e-15:  # a pose made from a pose is the same to the bit
            up = up / length
        object.__setattr__(self, "up", tuple(float(x) for x in up))
        object.__setattr__(self, "spin_deg", float(self.spin_deg) % 360.0)


def rotation_about_z(spin_deg: float) -> np.ndarray:
    """(3, 3) turn about +z, anticlockwise seen from above; exact at quarter turns."""
    quarter = spin_deg / 90.0
    if quarter == round(quarter):
        c, s = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[round(quarter) % 4]
    else:
        c, s = np.cos(np.radians(spin_deg)), np.sin(np.radians(spin_deg))
    return np.array([[c, -s, 0.0], [s, c, 0.0], [0.0, 0.0, 1.0]])


def shortest_turn_to_z(up: np.ndarray) -> np.ndarray:
    """(3, 3) shortest rotation that carries the unit vector `up` onto +z (Rodrigues' formula)."""
    x, y, z = (float(v) for v in up)
    across = float(np.hypot(x, y))
    if across == 0.0:
        return np.eye(3) if z > 0 else np.diag([1.0, -1.0, -1.0])
    # With the unit vector (c, s) across, (1 − z)·c² loses no digits next to straight down.
    c, s, rest = x / across, y / across, 1.0 - z
    return np.array(
        [
            [1.0 - rest * c * c, -rest * c * s, -x],
            [-rest * c * s, 1.0 - rest * s * s, -y],
            [x, y, z],
        ]
    )


def rotation(pose: Pose) -> np.ndarray:
    """(3, 3) rotation R = Rz(spin) · R0 of a pose."""
    return rotation_about_z(pose.spin_deg) @ shortest_turn_to_z(np.asarray(pose.up))


def pose_of_rotation(matrix: np.ndarray) -> Pose:
    """The pose whose `rotation` is the given (3, 3) rotation matrix."""
    up = matrix[2] / np.linalg.norm(matrix[2])
    spin = matrix @ shortest_turn_to_z(up).T
    return Pose(tuple(up), float(np.degrees(np.arctan2(spin[1, 0], spin[0, 0]))))


def posed_vertices_mm(vertices_mm: np.ndarray, pose: Pose) -> np.ndarray:
    """(n, 3) float64: `vertices_mm` turned and dropped: box centred at x = y = 0, lowest z = 0."""
    matrix = pose_matrix(vertices_mm, pose)
    turned = vertices_mm @ matrix[:3, :3].T + matrix[:3, 3]
    return turned


def pose_matrix(vertices_mm: np.ndarray, pose: Pose) -> np.ndarray:
    """(4, 4) float64 with p_posed = M · (x, y, z, 1)ᵀ for the vertices of one part.

    vertices_mm : (n, 3) float64, the vertices that faces use
    """
    matrix = np.eye(4)
    matrix[:3, :3] = rotation(pose)
    if len(vertices_mm):
        turned = matrix[:3, :3] @ vertices_mm.T  # one row a coordinate: far quicker to search
        low, high = turned.min(axis=1), turned.max(axis=1)
        matrix[:3, 3] = [-(low[0] + high[0]) / 2, -(low[1] + high[1]) / 2, -low[2]]
    return matrix
