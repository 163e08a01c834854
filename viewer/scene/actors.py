"""Small helpers that make the actors of the scene all alike."""

import numpy as np
from vtkmodules.vtkCommonDataModel import vtkPolyData
from vtkmodules.vtkCommonMath import vtkMatrix4x4
from vtkmodules.vtkRenderingCore import vtkActor, vtkPolyDataMapper

from viewer.scene.palettes import Colour


def actor_of(data: vtkPolyData | None = None, *, lit: bool = False) -> vtkActor:
    """An actor that cannot be picked by VTK itself; `data` may be set later with `set_shape`."""
    mapper = vtkPolyDataMapper()
    mapper.SetInputData(data if data is not None else vtkPolyData())
    mapper.ScalarVisibilityOff()
    mapper.SetVBOShiftScaleMethod(0)
    actor = vtkActor()
    actor.SetMapper(mapper)
    actor.PickableOff()
    actor.GetProperty().SetLighting(lit)
    return actor


def set_shape(actor: vtkActor, data: vtkPolyData | None) -> None:
    """Give an actor another shape; None hides it."""
    actor.SetVisibility(data is not None)
    actor.GetMapper().SetInputData(data if data is not None else vtkPolyData())


def draw_before_surfaces(actor: vtkActor, steps: float) -> None:
    """Win over a surface in the same place, without being seen through surfaces in front of it."""
    mapper = actor.GetMapper()
    mapper.SetResolveCoincidentTopologyToPolygonOffset()
    mapper.SetRelativeCoincidentTopologyLineOffsetParameters(-steps, -steps)
    mapper.SetRelativeCoincidentTopologyPolygonOffsetParameters(-steps, -steps)


def paint(actor: vtkActor, colour: Colour, opacity: float = 1.0, width_px: float = 1.0) -> None:
    """Colour, opacity and line width."""
    look = actor.GetProperty()
    look.SetColor(*colour)
    look.SetOpacity(opacity)
    look.SetLineWidth(width_px)


def vtk_matrix(matrix: np.ndarray) -> vtkMatrix4x4:
    """VTK's copy of a (4, 4) matrix that acts on column vectors."""
    copy = vtkMatrix4x4()
    copy.DeepCopy([float(x) for x in np.asarray(matrix, float).reshape(-1)])
    return copy
