"""What taking faces away does to the edges around them, patch by patch."""

from typing import NamedTuple

import numpy as np

from viewer.geometry.face_groups import group_by_vertices
from viewer.geometry.mend.edge_keys import edge_keys, faces_with_edge_at


class EdgeSums(NamedTuple):
    """Some faces of a mesh, in patches that hang together along edges, and the edges they have.

    patch : (k,) int64, of each face; patch_of_edge : (e,) int64, no edge has two
    uses, sums : (e,) int64, faces of the whole mesh at each edge, and how many more of them run
        along it upwards (from the lower vertex) than down
    own_uses, own_sums : (e,) int64, the same of these faces only
    """

    patch: np.ndarray
    patch_of_edge: np.ndarray
    uses: np.ndarray
    sums: np.ndarray
    own_uses: np.ndarray
    own_sums: np.ndarray

    def odd_edges_fewer(self) -> np.ndarray:
        """(patches,) how many fewer edges have an odd number of faces once a patch is gone."""
        fewer = self.uses % 2 - (self.uses - self.own_uses) % 2
        return self._of_patches(fewer)

    def nearer_to_closed(self) -> np.ndarray:
        """(patches,) how much less the sums miss zero by once a patch is gone."""
        return self._of_patches(np.abs(self.sums) - np.abs(self.sums - self.own_sums))

    def _of_patches(self, of_edges: np.ndarray) -> np.ndarray:
        return np.bincount(self.patch_of_edge, of_edges, int(self.patch.max()) + 1)


def edge_sums(faces: np.ndarray, kept: np.ndarray, chosen: np.ndarray) -> EdgeSums:
    """Of the faces `chosen` ((k,) int, at least one), among those `kept` ((m,) bool).

    faces : (m, 3) int32
    """
    edges, which = np.unique(edge_keys(faces[chosen]), return_inverse=True)
    which = which.reshape(-1, 3)
    near = faces_with_edge_at(faces, faces[chosen], int(faces.max()) + 1)
    near = near[kept[near]]
    corners = faces[near]
    a, b, c = corners.T
    corners = corners[(a != b) & (b != c) & (c != a)]
    keys = edge_keys(corners).ravel()
    place = np.minimum(np.searchsorted(edges, keys), len(edges) - 1)
    at_them = edges[place] == keys
    patch = group_by_vertices(which)
    patch_of_edge = np.empty(len(edges), np.int64)
    patch_of_edge[which] = patch[:, None]

    def counted(places, weights=None):
        return np.bincount(places, weights, len(edges)).astype(np.int64)

    return EdgeSums(
        patch,
        patch_of_edge,
        counted(place[at_them]),
        counted(place[at_them], _upward(corners).ravel()[at_them]),
        counted(which.ravel()),
        counted(which.ravel(), _upward(faces[chosen]).ravel()),
    )


def _upward(corners: np.ndarray) -> np.ndarray:
    """(k, 3) int: 1 where an edge of a face runs from the lower vertex to the higher, else −1."""
    return np.where(corners < np.roll(corners, -1, axis=1), 1, -1)
