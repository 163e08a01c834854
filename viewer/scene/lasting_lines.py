"""Which lines are worth drawing on a rough surface, such as that of a scan.

The noise of a scan makes creases of one edge here and there, and borders round single faces: specks
of ink that tell nothing. A real edge goes on.
"""

import numpy as np
from vtkmodules.util.numpy_support import vtk_to_numpy
from vtkmodules.vtkCommonDataModel import vtkPolyData
from vtkmodules.vtkFiltersCore import vtkPolyDataConnectivityFilter

from viewer.scene.arrays import cells_of, points_of

# Common practice, no source: chosen on scans by eye.
FEW_PIECES, SHORT_SHARE = 8, 0.05  # of a chain; of the part's diagonal
MOST_PIECES = 200_000  # of more, sorting out would take longer than it is worth
DENSE_FROM, DENSE_SHARE = 2_000, 0.4  # pieces; pieces to a face inside


def without_specks(ends: np.ndarray, points_mm: np.ndarray) -> np.ndarray:
    """The pieces of line (e, 2) that belong to a chain which is long, or has many pieces.

    points_mm : (n, 3), what `ends` index
    """
    if not 0 < len(ends) <= MOST_PIECES:
        return ends
    chain = _chains(ends, points_mm)
    lengths = np.linalg.norm(points_mm[ends[:, 0]] - points_mm[ends[:, 1]], axis=1)
    long_mm = np.bincount(chain, lengths)
    many = np.bincount(chain)
    diagonal_mm = float(np.linalg.norm(np.ptp(points_mm, axis=0)))
    lasting = (many > FEW_PIECES) | (long_mm > SHORT_SHARE * diagonal_mm)
    return ends[lasting[chain]]


def _chains(ends: np.ndarray, points_mm: np.ndarray) -> np.ndarray:
    """(e,) the number of the chain that each piece hangs together with."""
    used, renumbered = np.unique(ends, return_inverse=True)
    shape = vtkPolyData()
    shape.SetPoints(points_of(points_mm[used]))
    shape.SetLines(cells_of(renumbered.reshape(-1, 2)))
    told_apart = vtkPolyDataConnectivityFilter()
    told_apart.SetInputData(shape)
    told_apart.SetExtractionModeToAllRegions()
    told_apart.ColorRegionsOn()
    told_apart.Update()
    found = told_apart.GetOutput()
    region = vtk_to_numpy(found.GetPointData().GetArray("RegionId"))
    # The filter keeps every point, in its order, as each of them is used.
    return region[renumbered.reshape(-1, 2)[:, 0]].astype(np.int64)


def all_noise(ends: np.ndarray, labels: np.ndarray) -> bool:
    """Whether borders run through a region instead of round it: the colours say more then."""
    inside = int(np.count_nonzero(labels))
    return len(ends) > max(DENSE_FROM, DENSE_SHARE * min(inside, len(labels) - inside))
