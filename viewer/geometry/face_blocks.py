"""Balls around blocks of neighbouring faces, to skip most of a part in searches by place.

Faces follow one another in a file much as they lie on the part, so a block of 16 in file order is
small; where it is not, a search is slower but as right. A ball stays a ball however the part turns.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled

BLOCK = 16


class FaceBlocks(NamedTuple):
    """Block i holds faces BLOCK · i up to BLOCK · (i + 1).

    centres_mm : (b, 3) float64
    radii_mm : (b,) float64
    largest_mm2 : (b,) float32, largest of the areas given
    """

    centres_mm: np.ndarray
    radii_mm: np.ndarray
    largest_mm2: np.ndarray


def block_faces(
    points_mm: np.ndarray, faces: np.ndarray, areas_mm2: np.ndarray | None = None
) -> FaceBlocks:
    """Blocks of (m, 3) int32 faces over (n, 3) float64 points, with (m,) areas if wanted."""
    largest = np.zeros(0, np.float32)
    if areas_mm2 is not None:
        padded = np.zeros(-(-len(faces) // BLOCK) * BLOCK, np.float32)
        padded[: len(faces)] = areas_mm2
        largest = padded.reshape(-1, BLOCK).max(axis=1)
    return FaceBlocks(*_blocks(points_mm, faces), largest)


@compiled
def _blocks(points, faces):
    count = (len(faces) + BLOCK - 1) // BLOCK
    centres, radii = np.zeros((count, 3)), np.zeros(count)
    low, high = np.empty(3), np.empty(3)
    for i in range(count):
        low[:] = np.inf
        high[:] = -np.inf
        for f in range(BLOCK * i, min(BLOCK * (i + 1), len(faces))):
            for k in range(3):
                for axis in range(3):
                    x = points[faces[f, k], axis]
                    low[axis] = min(low[axis], x)
                    high[axis] = max(high[axis], x)
        for axis in range(3):
            centres[i, axis] = 0.5 * (low[axis] + high[axis])
        square = 0.0
        for f in range(BLOCK * i, min(BLOCK * (i + 1), len(faces))):
            for k in range(3):
                p = points[faces[f, k]]
                x, y, z = p[0] - centres[i, 0], p[1] - centres[i, 1], p[2] - centres[i, 2]
                square = max(square, x * x + y * y + z * z)
        radii[i] = np.sqrt(square)
    return centres, radii


@compiled
def faces_across(blocks: FaceBlocks, faces, z_row, z_mm):
    """Faces in blocks that may meet the plane z_row · p = z: (k,) int64, a few too many.

    z_row : (3,) float64, the third row of the rotation that was applied to the part
    """
    found = np.empty(len(faces), np.int64)
    count = 0
    for i in range(len(blocks.radii_mm)):
        c = blocks.centres_mm[i]
        height = z_row[0] * c[0] + z_row[1] * c[1] + z_row[2] * c[2]
        if abs(height - z_mm) > blocks.radii_mm[i] * (1 + 1e-9) + 1e-9:
            continue
        for f in range(BLOCK * i, min(BLOCK * (i + 1), len(faces))):
            found[count] = f
            count += 1
    return found[:count]
