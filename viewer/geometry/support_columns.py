"""The supports of a pose as upright columns: what is drawn, and what the sums are taken over."""

from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True, eq=False)
class SupportColumns:
    """Upright support columns of one pose on a square grid, in the posed frame (z up, platform 0).

    origin_mm : (2,) float64, x and y of the centre of grid cell (0, 0)
    pitch_mm : side of a grid cell
    shape : (nx, ny) number of cells in x and y
    cell : (k,) int32, cell of each column, ix * ny + iy
    bottom_mm, top_mm : (k,) float32, heights between which the support stands at the cell centre
    bottom_face : (k,) int32, part face the support lands on, −1 for the platform
    top_face : (k,) int32, part face the support touches
    """

    origin_mm: np.ndarray
    pitch_mm: float
    shape: tuple[int, int]
    cell: np.ndarray
    bottom_mm: np.ndarray
    top_mm: np.ndarray
    bottom_face: np.ndarray
    top_face: np.ndarray
