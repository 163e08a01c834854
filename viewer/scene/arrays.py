"""Numpy arrays as VTK data, without a copy where VTK allows it."""

import numpy as np
from vtkmodules.util.numpy_support import numpy_to_vtk
from vtkmodules.vtkCommonCore import vtkPoints
from vtkmodules.vtkCommonDataModel import vtkCellArray, vtkPolyData

from viewer.geometry.mesh import Mesh
from viewer.geometry.support_bodies import Quads


def used_vertices_mm(mesh: Mesh) -> np.ndarray:
    """(k, 3) the vertices that faces use; marking them is much quicker than sorting indices."""
    used = np.zeros(len(mesh.vertices_mm), bool)
    used[mesh.faces.ravel()] = True
    return mesh.vertices_mm[used]


FITTED = 20_000  # about so many vertices decide how the part fits the view


def vertices_to_fit_mm(mesh: Mesh) -> np.ndarray:
    """(k, 3) some vertices of a part that fill the view as all of them do.

    What lies between those of a dense part is less than the margin of a fit.
    """
    used = used_vertices_mm(mesh)
    ends = used[np.concatenate([used.argmin(axis=0), used.argmax(axis=0)])]
    return np.concatenate([used[:: 1 + len(used) // FITTED], ends])


def points_of(positions_mm: np.ndarray) -> vtkPoints:
    """VTK points over an (n, 3) float32 array (kept alive by VTK)."""
    points = vtkPoints()
    points.SetData(numpy_to_vtk(np.ascontiguousarray(positions_mm, np.float32)))
    return points


def cells_of(corners: np.ndarray) -> vtkCellArray:
    """VTK cells from (m, k) integers, k corners each."""
    corners = np.ascontiguousarray(corners, np.int32)
    cells = vtkCellArray()
    cells.SetData(corners.shape[1], numpy_to_vtk(corners.reshape(-1)))
    return cells


def surface(positions_mm: np.ndarray, corners: np.ndarray) -> vtkPolyData:
    """Polygons (m, k) over points (n, 3), mm."""
    data = vtkPolyData()
    data.SetPoints(points_of(positions_mm))
    data.SetPolys(cells_of(corners))
    return data


def quads_surface(quads: Quads) -> vtkPolyData:
    """Rectangles that share no corner."""
    points = quads.corners_mm.reshape(-1, 3)
    return surface(points, np.arange(len(points), dtype=np.int32).reshape(-1, 4))


def lines(positions_mm: np.ndarray, ends: np.ndarray) -> vtkPolyData:
    """Polylines (m, k) over points (n, 3), mm."""
    data = vtkPolyData()
    data.SetPoints(points_of(positions_mm))
    data.SetLines(cells_of(ends))
    return data


def loop(positions_mm: np.ndarray) -> vtkPolyData:
    """One closed polyline through the points (n, 3), mm."""
    ring = np.append(np.arange(len(positions_mm)), 0)
    return lines(positions_mm, ring[None, :])
