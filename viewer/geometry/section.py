"""One layer's outline as it comes from the faces, and where it does not close."""

from dataclasses import dataclass

import numpy as np

from viewer.geometry.face_blocks import FaceBlocks, block_faces, faces_across
from viewer.geometry.first_layer import section_segments
from viewer.geometry.mesh import frozen
from viewer.geometry.prepared_part import PreparedPart

JOIN_MM = 1e-3  # ends of an outline closer than this meet: no machine places a road so finely


@dataclass(frozen=True, eq=False)
class Section:
    """Where the surface meets a level plane.

    height_mm : of the plane over the platform
    segments_mm : (s, 2, 2) float64, x and y of both ends in the posed frame, material on the left
    open_ends_mm : (k, 2) float64, where the outline stops
    """

    height_mm: float
    segments_mm: np.ndarray
    open_ends_mm: np.ndarray


@dataclass(frozen=True, eq=False)
class CutPart:
    """A part made ready to be cut at any height in any pose: its faces, and blocks of them."""

    part: PreparedPart
    blocks: FaceBlocks

    @classmethod
    def of(cls, part: PreparedPart) -> "CutPart":
        """`part` with blocks over all its faces, also those inside other shells."""
        shared = part.solid_faces is part.faces
        blocks = part.solid_blocks if shared else block_faces(part.points_mm, part.faces)
        return cls(part, blocks)

    def section(self, matrix: np.ndarray, height_mm: float) -> Section:
        """The outline at a height over the platform; `matrix` (4, 4) lays the part."""
        part, turn = self.part, np.ascontiguousarray(matrix[:3, :3], np.float64)
        shift = matrix[:3, :3] @ part.centre_mm + matrix[:3, 3]
        z_mm = float(height_mm - shift[2])
        near = faces_across(self.blocks, part.faces, turn[2], z_mm)
        segments = section_segments(part.points_mm, part.faces[near], turn, z_mm)
        ends = open_ends(segments)
        return Section(float(height_mm), frozen(segments + shift[:2]), frozen(ends + shift[:2]))


def open_ends(segments_mm: np.ndarray) -> np.ndarray:
    """(k, 2) float64: ends of segments (s, 2, 2) that no other segment carries on from.

    Faces that share an edge put the same point there to the last bit, so an end that is there an
    odd number of times is one where the outline stops; two of those within JOIN_MM meet all the
    same.
    """
    ends = np.ascontiguousarray(segments_mm, np.float64).reshape(-1, 2) + 0.0  # no −0
    long = np.repeat(np.any(ends[0::2] != ends[1::2], axis=1), 2)
    # As complex numbers places are sorted by x, then by y, several times quicker than as rows.
    places, uses = np.unique(ends[long].view(np.complex128), return_counts=True)
    return _without_pairs(places[uses % 2 == 1].view(np.float64).reshape(-1, 2))


def _without_pairs(ends: np.ndarray) -> np.ndarray:
    """The ends (k, 2), sorted by x, that have no partner nearby; each serves as partner once."""
    alone = np.ones(len(ends), bool)
    last = np.searchsorted(ends[:, 0], ends[:, 0] + JOIN_MM, side="right")
    for i in range(len(ends)):
        if not alone[i]:
            continue
        near = np.arange(i + 1, last[i])
        away_mm = np.hypot(*(ends[near] - ends[i]).T)
        free = near[alone[near] & (away_mm <= JOIN_MM)]
        if len(free):
            alone[[i, free[0]]] = False
    return ends[alone]
