"""Which face a ray meets, by a locator of its own that repainting never rebuilds."""

import numpy as np
from vtkmodules.vtkCommonCore import mutable
from vtkmodules.vtkCommonDataModel import vtkPolyData, vtkStaticCellLocator

from viewer.geometry.known_of_mesh import LARGE_FACES
from viewer.scene.arrays import loop
from viewer.scene.hover_marks import RING_POINTS


class PickLocator:
    """Rays against a shape without colours, in the shape's own coordinates."""

    def __init__(self, bare_shape: vtkPolyData) -> None:
        self._locator = vtkStaticCellLocator()
        self._locator.SetDataSet(bare_shape)
        if (
            bare_shape.GetNumberOfCells() < LARGE_FACES
        ):  # else with the first ray, not while opening
            self._locator.BuildLocator()
        self._middle = np.array(bare_shape.GetCenter())
        self._reach_mm = bare_shape.GetLength()
        # Without any width of their edges a ray slips through between two triangles.
        self._edge_mm = 1e-5 * self._reach_mm
        self._answers = (mutable(0.0), [0.0] * 3, [0.0] * 3, mutable(0), mutable(0))

    def first_hit(
        self, origin_mm: np.ndarray, direction: np.ndarray, length_mm: float = np.inf
    ) -> tuple[int, np.ndarray] | None:
        """Face and point (3,) where a ray first meets the shape, at most `length_mm` away."""
        direction = direction / np.linalg.norm(direction)
        # Only the piece of the ray that can meet the shape: a far end would cost precision.
        along = float((self._middle - origin_mm) @ direction)
        start, end = max(along - self._reach_mm, 0.0), min(along + self._reach_mm, length_mm)
        if end <= start:
            return None
        share, point, where, part, face = mutable(0.0), [0.0] * 3, [0.0] * 3, mutable(0), mutable(0)
        met = self._locator.IntersectWithLine(
            list(origin_mm + direction * start), list(origin_mm + direction * end),
            self._edge_mm, share, point, where, part, face,
        )  # fmt: skip
        return (int(face), np.array(point)) if met else None

    def between(self, start_mm: list[float], end_mm: list[float]) -> list[float] | None:
        """The point where a short line first meets the shape."""
        share, point, where, part, face = self._answers
        met = self._locator.IntersectWithLine(
            start_mm, end_mm, self._edge_mm, share, point, where, part, face
        )
        return point if met else None


def ring_on_surface(
    locator: PickLocator, centre_mm: np.ndarray, normal: np.ndarray, radius_mm: float
) -> vtkPolyData:
    """A round brush's rim laid on the surface: a circle, each point dropped along the normal."""
    normal = np.asarray(normal, float) / np.linalg.norm(normal)
    side = np.cross(normal, np.eye(3)[np.abs(normal).argmin()])
    side /= np.linalg.norm(side)
    angle = np.linspace(0.0, 2.0 * np.pi, RING_POINTS, endpoint=False)[:, None]
    circle = centre_mm + radius_mm * (np.cos(angle) * side + np.sin(angle) * np.cross(normal, side))
    over, under = (circle + normal * radius_mm).tolist(), (circle - normal * radius_mm).tolist()
    for k in range(RING_POINTS):
        point = locator.between(over[k], under[k])
        if point is not None:
            circle[k] = point
    return loop(circle + normal * min(0.02 * radius_mm, 0.05))
