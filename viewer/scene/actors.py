"""Small helpers that make the actors of the scene all alike."""

from collections.abc import Iterable

import numpy as np
from vtkmodules.vtkCommonDataModel import vtkPlane, vtkPolyData
from vtkmodules.vtkCommonMath import vtkMatrix4x4
from vtkmodules.vtkRenderingCore import vtkActor, vtkMapper, vtkPolyDataMapper

from viewer.scene.palettes import Colour


def actor_of(data: vtkPolyData | None = None) -> vtkActor:
    """An actor that cannot be picked by VTK itself; `data` may be set later with `set_shape`."""
    mapper = vtkPolyDataMapper()
    mapper.SetInputData(data if data is not None else vtkPolyData())
    mapper.ScalarVisibilityOff()
    mapper.SetVBOShiftScaleMethod(0)
    actor = vtkActor()
    actor.SetMapper(mapper)
    actor.PickableOff()
    actor.GetProperty().LightingOff()
    return actor


def set_shape(actor: vtkActor, data: vtkPolyData | None) -> None:
    """Give an actor another shape; None hides it."""
    actor.SetVisibility(data is not None)
    actor.GetMapper().SetInputData(data if data is not None else vtkPolyData())


def use_point_colours(actor: vtkActor) -> None:
    """Take colours (uint8) from the points; points of one polygon must not be shared."""
    mapper = actor.GetMapper()
    mapper.ScalarVisibilityOn()
    mapper.SetScalarModeToUsePointData()
    mapper.SetColorModeToDirectScalars()


def draw_before_surfaces(actor: vtkActor, nearer: float) -> None:
    """Win over a surface in the same place, without shining through a wall in front of it.

    nearer : how far the depth is drawn towards the eye, in thousandths of the distance to the eye
    (a screen pixel is about one thousandth). VTK's own polygon offset is not used: it grows with
    the clipping range, and lines then show through walls several millimetres thick.
    """
    actor.GetShaderProperty().AddVertexShaderReplacement(
        "//VTK::Light::Impl",
        True,
        "//VTK::Light::Impl\n"
        # The last row of the matrix is the direction away from the eye, in the actor's positions.
        "  vec3 away = vec3(MCDCMatrix[0][3], MCDCMatrix[1][3], MCDCMatrix[2][3]);\n"
        f"  vec3 shift = away * gl_Position.w * {nearer / 1000.0};\n"
        "  vec4 nearer = MCDCMatrix * vec4(vertexMC.xyz - shift, 1.0);\n"
        "  gl_Position.z = nearer.z / nearer.w * gl_Position.w;\n",
        False,
    )


def hide_from_below(actor: vtkActor) -> None:
    """Leave the actor out while the eye is below z = 0 of its own positions."""
    actor.GetShaderProperty().AddVertexShaderReplacement(
        "//VTK::Light::Impl",
        True,
        "//VTK::Light::Impl\n"
        # The eye is the one point that the camera matrix takes to (0, 0, 1, 0).
        "  vec4 eye = inverse(MCDCMatrix) * vec4(0.0, 0.0, 1.0, 0.0);\n"
        "  if (eye.z * eye.w < 0.0) gl_Position = vec4(2.0, 2.0, 2.0, 1.0);\n",
        False,
    )


def cut_actors(actors: Iterable[vtkActor], plane: vtkPlane | None) -> None:
    """Draw only what lies on the side of `plane` that its normal points to; None: everything."""
    for actor in actors:
        cut_mapper(actor.GetMapper(), plane)


def cut_mapper(mapper: vtkMapper, plane: vtkPlane | None) -> None:
    """The same for what one mapper draws."""
    mapper.RemoveAllClippingPlanes()
    if plane is not None:
        mapper.AddClippingPlane(plane)


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
