"""Text as flat shapes that lie in the scene: no text is drawn anew when the camera moves."""

import numpy as np
from vtkmodules.util.numpy_support import vtk_to_numpy
from vtkmodules.vtkCommonDataModel import vtkPolyData
from vtkmodules.vtkFiltersCore import vtkAppendPolyData
from vtkmodules.vtkRenderingFreeType import vtkVectorText

from viewer.scene.arrays import surface


def flat_text(
    text: str, height_mm: float, at_mm: tuple[float, float, float], align: tuple[float, float]
) -> vtkPolyData:
    """`text` lying in a level plane, to be read from the front (−y) and above.

    height_mm : of a capital letter; at_mm : the anchor; align : where in the text's box the anchor
    is, (0, 0) lower left to (1, 1) upper right
    """
    source = vtkVectorText()
    source.SetText(text)
    source.Update()
    shape = source.GetOutput()
    points = vtk_to_numpy(shape.GetPoints().GetData()).astype(np.float64)
    points *= height_mm  # VTK's letters are about one unit high
    low, high = points.min(axis=0), points.max(axis=0)
    points += np.asarray(at_mm) - (low + (high - low) * np.array([*align, 0.0]))
    triangles = vtk_to_numpy(shape.GetPolys().GetConnectivityArray()).reshape(-1, 3)
    return surface(points, triangles)


def together(shapes: list[vtkPolyData]) -> vtkPolyData:
    """Several shapes as one."""
    append = vtkAppendPolyData()
    for shape in shapes:
        append.AddInputData(shape)
    append.Update()
    result = vtkPolyData()
    result.ShallowCopy(append.GetOutput())
    return result
