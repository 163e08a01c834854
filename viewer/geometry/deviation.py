"""How far two surfaces lie apart, both ways: a mended part and the part as it was received.

The distance from each place of one surface to the nearest place of the other (Cignoni, Rocchini &
Scopigno 1998, "Metro: measuring error on simplified surfaces"), taken at all vertices and at places
spread evenly over the area. The two ways differ: what was dropped lies far from the new surface,
but no place of the new surface lies far from it.
"""

from dataclasses import dataclass

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.mesh import Mesh
from viewer.geometry.nearest_face import nearest_faces
from viewer.progress import Progress

POINTS = 100_000  # spread over a surface, besides a point on each face
_MOST_ON_A_FACE = 20_000


@dataclass(frozen=True, eq=False)
class OneWay:
    """Distances from one surface to another.

    max_mm : the farthest that a vertex or a spread place lies off
    share_95_mm : 95 % of the area lie within it; mean_mm : over the area
    face_mm : (m,) float32, the farthest that a vertex or a spread place of each face lies off
    """

    max_mm: float
    share_95_mm: float
    mean_mm: float
    face_mm: np.ndarray


@dataclass(frozen=True, eq=False)
class Deviation:
    """new : from the new surface to the old one; old : from the old surface to the new one."""

    new: OneWay
    old: OneWay

    @property
    def max_mm(self) -> float:
        """The farthest either way (Hausdorff distance)."""
        return max(self.new.max_mm, self.old.max_mm)

    @property
    def share_95_mm(self) -> float:
        """The larger of the two."""
        return max(self.new.share_95_mm, self.old.share_95_mm)

    @property
    def mean_mm(self) -> float:
        """The larger of the two."""
        return max(self.new.mean_mm, self.old.mean_mm)


def find_deviation(old: Mesh, new: Mesh, progress: Progress | None = None) -> Deviation:
    """Both ways between two meshes that have faces. Raises Cancelled."""
    progress = progress or Progress()
    return Deviation(
        one_way(new, old, progress.part(0.0, 0.5)), one_way(old, new, progress.part(0.5, 1.0))
    )


def one_way(mesh: Mesh, to: Mesh, progress: Progress | None = None) -> OneWay:
    """From the surface of `mesh` to that of `to`; all zero where either has no faces."""
    progress = progress or Progress()
    if not mesh.face_count or not to.face_count:
        return OneWay(0.0, 0.0, 0.0, np.zeros(mesh.face_count, np.float32))
    areas = mesh.face_areas_mm2
    each = np.ceil(areas * POINTS / max(float(areas.sum()), 1e-300))
    each = np.clip(each, 1, _MOST_ON_A_FACE).astype(np.int64)
    starts = np.concatenate([[0], np.cumsum(each)])
    places = _spread_places(mesh.corners_mm, starts)
    used = np.unique(mesh.faces)
    asked = np.concatenate([mesh.vertices_mm[used], places])
    distances = nearest_faces(to.vertices_mm, to.faces, asked, progress).distances_mm
    at_vertex = np.zeros(len(mesh.vertices_mm))
    at_vertex[used] = distances[: len(used)]
    spread = distances[len(used) :]
    on_face = np.maximum(
        at_vertex[mesh.faces].max(axis=1), np.maximum.reduceat(spread, starts[:-1])
    )
    weights = np.repeat(areas / each, each)
    return OneWay(
        float(distances.max()), _share(spread, weights, 0.95), _mean(spread, weights),
        on_face.astype(np.float32),
    )  # fmt: skip


def _mean(values: np.ndarray, weights: np.ndarray) -> float:
    whole = float(weights.sum())
    return float(values @ weights) / whole if whole > 0.0 else float(values.mean())


def _share(values: np.ndarray, weights: np.ndarray, share: float) -> float:
    """The value that so large a share of all weight does not exceed."""
    order = np.argsort(values)
    filled = np.cumsum(weights[order])
    return float(values[order[np.searchsorted(filled, share * filled[-1])]])


@compiled
def _spread_places(corners, starts):
    """Places on faces, those of face f from starts[f] to starts[f + 1]; a single one in its middle.

    An even, never repeating sequence over the unit square (Roberts 2018, "The unreasonable
    effectiveness of quasirandom sequences"; MEM), folded onto the triangle.
    """
    places = np.empty((starts[-1], 3))
    for f in range(len(corners)):
        alone = starts[f + 1] - starts[f] == 1
        for i in range(starts[f], starts[f + 1]):
            n = i - starts[f]
            s, t = (0.5 + 0.7548776662466927 * n) % 1.0, (0.5 + 0.5698402909980532 * n) % 1.0
            if s + t > 1.0:
                s, t = 1.0 - s, 1.0 - t
            if alone:
                s, t = 1.0 / 3.0, 1.0 / 3.0
            for k in range(3):
                a = corners[f, 0, k]
                places[i, k] = a + s * (corners[f, 1, k] - a) + t * (corners[f, 2, k] - a)
    return places
