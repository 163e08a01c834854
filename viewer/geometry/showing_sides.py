"""From which sides the faces that show are seen best."""

import numpy as np

from viewer.geometry.face_classes import CLASS_A, CLASS_B

_AZIMUTHS_DEG = np.arange(-60.0, 300.0, 30.0)  # the first is the usual view from the corner
_ELEVATIONS_DEG = (24.0, 58.0, -24.0)
_LEAST_COSINE = 0.15  # what is seen at a flatter angle is hardly seen
_FROM_BELOW = 0.7  # worth of a view from below, which nobody has of a part in the machine
_SEEN_AGAIN = 0.15  # worth of a face that an earlier side shows already


def showing_sides(
    areas_mm2: np.ndarray, normals: np.ndarray, face_classes: np.ndarray, count: int
) -> np.ndarray:
    """(count, 3) unit directions towards the eye, the best first, each for what others leave.

    areas_mm2 (m,), normals (m, 3) in the posed frame, face_classes (m,) uint8. Class A counts
    most, class B less, the rest only where nothing is marked. What other faces hide is not asked.
    """
    worth = areas_mm2 * np.where(face_classes == CLASS_A, 1.0, 0.0)
    worth += areas_mm2 * np.where(face_classes == CLASS_B, 0.2, 0.0)
    if not worth.any():
        worth = areas_mm2.astype(np.float64)
    sides = _candidates()
    chosen = []
    for _ in range(count):
        seen = [np.maximum(normals @ side - _LEAST_COSINE, 0.0) for side in sides]
        gains = [float(worth @ each) for each in seen] * np.where(sides[:, 2] < 0, _FROM_BELOW, 1.0)
        best = int(np.argmax(gains))
        chosen.append(sides[best])
        worth = np.where(normals @ sides[best] > _LEAST_COSINE, _SEEN_AGAIN * worth, worth)
        sides = np.delete(sides, best, axis=0)
    return np.array(chosen)


def _candidates() -> np.ndarray:
    rows = []
    for elevation in np.radians(_ELEVATIONS_DEG):
        for azimuth in np.radians(_AZIMUTHS_DEG):
            flat = np.cos(elevation)
            rows.append((flat * np.cos(azimuth), flat * np.sin(azimuth), np.sin(elevation)))
    return np.array(rows)
