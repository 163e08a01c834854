"""Turns of the pose about the axes of the platform, and the three angles the user can type.

The typed angles are (tilt about X, tilt about Y, spin): R = Rz(spin) · R0(up) with
up = Rx(−a) · Ry(−b) · z. For a tilt about one axis only, R0 is exactly that tilt, and the spin is
the spin of the pose everywhere else in the program.
"""

import numpy as np

from viewer.geometry.pose import Pose, rotation, shortest_turn_to_z


def turn_about_axis(axis: int, angle_deg: float) -> np.ndarray:
    """(3, 3) right-handed turn about x, y or z (0, 1, 2); exact at quarter turns."""
    quarters = angle_deg / 90.0
    if quarters == round(quarters):
        cosine, sine = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[round(quarters) % 4]
    else:
        cosine, sine = np.cos(np.radians(angle_deg)), np.sin(np.radians(angle_deg))
    matrix = np.eye(3)
    i, j = (axis + 1) % 3, (axis + 2) % 3
    matrix[i, i] = matrix[j, j] = cosine
    matrix[j, i], matrix[i, j] = sine, -sine
    return matrix


def turned(pose: Pose, axis: int, angle_deg: float) -> Pose:
    """The pose after a turn about an axis of the platform."""
    return _pose_of(turn_about_axis(axis, angle_deg) @ rotation(pose))


def _pose_of(matrix: np.ndarray) -> Pose:
    """The pose of a rotation, without the dust of rounding.

    Upside down, dust in the build direction would turn the axis of the half turn: the direction is
    rounded first, and the spin is what then remains.
    """
    up = np.asarray(tidy(Pose(tuple(matrix[2]))).up)
    rest = matrix @ shortest_turn_to_z(up).T
    return tidy(Pose(tuple(up), float(np.degrees(np.arctan2(rest[1, 0], rest[0, 0])))))


def tidy(pose: Pose) -> Pose:
    """The same pose without the dust of rounding, so that quarter turns come back exactly."""
    up = np.asarray(pose.up)
    near = np.round(up)
    if np.abs(up - near).max() < 1e-9:
        up = near
    spin_deg = pose.spin_deg
    if abs(spin_deg - round(spin_deg)) < 1e-7:
        spin_deg = float(round(spin_deg))
    return Pose(tuple(up), spin_deg)


def typed_angles_deg(pose: Pose) -> tuple[float, float, float]:
    """(tilt about X, tilt about Y, spin) in degrees; tilt X in −180..180, tilt Y in −90..90."""
    x, y, z = pose.up
    tilt_y = -np.degrees(np.arcsin(np.clip(x, -1.0, 1.0)))
    flat = np.hypot(y, z)
    tilt_x = float(np.degrees(np.arctan2(y, z))) if flat > 1e-9 else 0.0
    spin = pose.spin_deg if pose.spin_deg <= 180.0 else pose.spin_deg - 360.0
    return tilt_x, float(tilt_y), spin


def pose_of_angles(tilt_x_deg: float, tilt_y_deg: float, spin_deg: float) -> Pose:
    """The pose with these typed angles."""
    up = turn_about_axis(0, -tilt_x_deg) @ turn_about_axis(1, -tilt_y_deg) @ [0.0, 0.0, 1.0]
    return tidy(Pose(tuple(up), spin_deg))


def standing_on(pose: Pose, outward_normal: np.ndarray) -> Pose:
    """The pose with a face of the hull on the platform, turned the shortest way from `pose`.

    outward_normal : (3,) unit normal of the face, in part coordinates
    """
    now = rotation(pose)
    before = now @ np.asarray(outward_normal, float)
    down = np.array([0.0, 0.0, -1.0])
    axis, cosine = np.cross(before, down), float(before @ down)
    sine = float(np.linalg.norm(axis))
    if sine < 1e-12:
        turn = np.eye(3) if cosine > 0 else turn_about_axis(0, 180.0)
    else:
        axis = axis / sine
        k = np.array([[0, -axis[2], axis[1]], [axis[2], 0, -axis[0]], [-axis[1], axis[0], 0]])
        turn = np.eye(3) + sine * k + (1.0 - cosine) * (k @ k)
    return _pose_of(turn @ now)
