"""Which faces come near some others or some points, told by coarse cells: never too few faces."""

import numpy as np

from viewer.geometry.compiled import compiled

MOST_CELLS = 96  # along the longest side of the box


class TouchedCells:
    """Cells of a box, some of them touched; what is less than `within_mm` away touches, too."""

    def __init__(self, box_mm: np.ndarray, within_mm: float) -> None:
        """box_mm : (2, 3); what lies outside it counts as lying at its rim."""
        low, high = np.asarray(box_mm, float)
        self._size_mm = max(float((high - low).max()) / MOST_CELLS, within_mm, 1e-9)
        # Two more all round, so that touching may spread by one.
        self._low_mm = low - 2.0 * self._size_mm
        shape = np.ceil((high - self._low_mm) / self._size_mm).astype(int) + 2
        self._touched = np.zeros(shape, np.bool_)

    def touch_points(self, points_mm: np.ndarray) -> None:
        """Touch the cells of (k, 3) points and those beside them."""
        cells = ((points_mm - self._low_mm) / self._size_mm).astype(int)
        cells = np.clip(cells, 1, np.array(self._touched.shape) - 2)
        self._touched[tuple(cells.T)] = True
        self._spread()

    def touch_faces(self, vertices_mm: np.ndarray, faces: np.ndarray) -> None:
        """Touch the cells of the boxes of (k, 3) faces and those beside them."""
        _touch(vertices_mm, faces, self._low_mm, 1.0 / self._size_mm, self._touched)
        self._spread()

    def meeting(self, vertices_mm: np.ndarray, faces: np.ndarray) -> np.ndarray:
        """(m,) bool: faces whose box holds a touched cell."""
        return _meeting(vertices_mm, faces, self._low_mm, 1.0 / self._size_mm, self._touched)

    def _spread(self) -> None:
        cells = self._touched
        for axis in range(3):
            along = np.moveaxis(cells, axis, 0)
            beside = along[1:-1] | along[:-2] | along[2:]
            along[1:-1] = beside


@compiled
def _cells_of(first, second, third, low, per_mm, count):
    """First and last cell that a face meets along an axis, from where its corners lie on it."""
    least = int((min(first, second, third) - low) * per_mm)
    most = int((max(first, second, third) - low) * per_mm)
    return min(max(least, 1), count - 2), min(max(most, 1), count - 2)


@compiled
def _touch(vertices, faces, low, per_mm, touched):
    x, y, z = low
    across, along, up = touched.shape
    for f in range(len(faces)):
        a, b, c = faces[f, 0], faces[f, 1], faces[f, 2]
        i, i_last = _cells_of(vertices[a, 0], vertices[b, 0], vertices[c, 0], x, per_mm, across)
        j, j_last = _cells_of(vertices[a, 1], vertices[b, 1], vertices[c, 1], y, per_mm, along)
        k, k_last = _cells_of(vertices[a, 2], vertices[b, 2], vertices[c, 2], z, per_mm, up)
        touched[i : i_last + 1, j : j_last + 1, k : k_last + 1] = True


@compiled
def _meeting(vertices, faces, low, per_mm, touched):
    met = np.zeros(len(faces), np.bool_)
    x, y, z = low
    across, along, up = touched.shape
    for f in range(len(faces)):
        a, b, c = faces[f, 0], faces[f, 1], faces[f, 2]
        i, i_last = _cells_of(vertices[a, 0], vertices[b, 0], vertices[c, 0], x, per_mm, across)
        j, j_last = _cells_of(vertices[a, 1], vertices[b, 1], vertices[c, 1], y, per_mm, along)
        k_first, k_last = _cells_of(
            vertices[a, 2], vertices[b, 2], vertices[c, 2], z, per_mm, up
        )  # fmt: skip
        while i <= i_last and not met[f]:
            for j_now in range(j, j_last + 1):
                for k in range(k_first, k_last + 1):
                    met[f] = met[f] or touched[i, j_now, k]
            i += 1
    return met
