"""Pictures without a window: the part through a lens, on its platform, legend beside it."""

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import numpy as np
import vtkmodules.vtkRenderingFreeType
import vtkmodules.vtkRenderingOpenGL2  # noqa: F401  (brings the drawing code itself)
from vtkmodules.util.numpy_support import vtk_to_numpy
from vtkmodules.vtkIOImage import vtkPNGWriter
from vtkmodules.vtkRenderingCore import vtkRenderer, vtkRenderWindow, vtkWindowToImageFilter

from viewer.document.state import State
from viewer.errors import CannotWrite
from viewer.geometry.pose import pose_matrix
from viewer.geometry.pose_measures import PoseMeasures
from viewer.scene.legend_drawing import LegendDrawing
from viewer.scene.legends import legend
from viewer.scene.lenses import Lens
from viewer.scene.part_scene import PartScene
from viewer.scene.themes import LIGHT, Theme

SIZE_PX = (1280, 800)
PLATFORM_MM = (220.0, 220.0)
LEGEND_SHARE = 0.24  # of the picture's width
_FINE = 2  # drawn this many times finer, then averaged: smooth edges without multisampling


def picture(
    state: State,
    measures: PoseMeasures | None,
    lens: Lens,
    *,
    size_px: tuple[int, int] = SIZE_PX,
    view: str | tuple[float, float, float] | None = None,
    theme: Theme = LIGHT,
    platform_mm: tuple[float, float] = PLATFORM_MM,
    path: Path | None = None,
) -> np.ndarray:
    """Draw a job off screen; returns (height, width, 3) uint8, top row first, and writes a PNG.

    measures : of the state's pose, or None for what the inclination alone tells
    view : a name of `camera.VIEWS` or (3,) towards the eye; by default from the corner, for the
        lenses that colour undersides from below
    path : where to write, or None. Raises CannotWrite.
    """
    with _off_screen_window(size_px) as window:
        split = 1.0 - LEGEND_SHARE
        stage, margin = vtkRenderer(), vtkRenderer()
        stage.SetViewport(0.0, 0.0, split, 1.0)
        margin.SetViewport(split, 0.0, 1.0, 1.0)
        window.AddRenderer(stage)
        window.AddRenderer(margin)
        scene = PartScene(stage, theme)
        drawing = LegendDrawing(margin, theme, legend(lens, state.settings), _FINE)
        scene.set_pixel_scale(_FINE)
        scene.set_settings(state.settings)
        scene.set_lens(lens)
        scene.set_platform(*platform_mm)
        if state.part is not None:
            mesh = state.part.mesh
            scene.show_part(mesh)
            scene.set_classes(state.face_classes)
            scene.set_pose(pose_matrix(mesh.vertices_mm[np.unique(mesh.faces)], state.pose))
            scene.show_measures(measures)
        below = lens in (Lens.OVERHANG, Lens.TOUCH)
        scene.set_view_direction(view or ("below" if below else "corner"))
        image = _drawn(window)
        drawing.close()
        scene.close()
    if path is not None:
        _write_png(image, Path(path))
    return image


@contextmanager
def _off_screen_window(size_px: tuple[int, int]) -> Iterator[vtkRenderWindow]:
    """A window that is never shown, with or without a display."""
    name = "VTK_DEFAULT_OPENGL_WINDOW"
    without_display = sys.platform.startswith("linux") and not os.environ.get("DISPLAY")
    choose = without_display and name not in os.environ
    if choose:  # otherwise VTK first tries a display, and complains that there is none
        os.environ[name] = "vtkEGLRenderWindow"
    try:
        window = vtkRenderWindow()
    finally:
        if choose:
            del os.environ[name]
    window.SetOffScreenRendering(1)
    window.SetMultiSamples(0)
    window.SetSize(size_px[0] * _FINE, size_px[1] * _FINE)
    try:
        yield window
    finally:
        window.Finalize()


def _drawn(window: vtkRenderWindow) -> np.ndarray:
    """Draw the window once and average its fine pixels."""
    window.Render()
    grab = vtkWindowToImageFilter()
    grab.SetInput(window)
    grab.ReadFrontBufferOff()
    grab.ShouldRerenderOff()
    grab.Update()
    data = grab.GetOutput()
    width, height, _ = data.GetDimensions()
    fine = vtk_to_numpy(data.GetPointData().GetScalars()).reshape(height, width, 3)[::-1]
    blocks = fine.reshape(height // _FINE, _FINE, width // _FINE, _FINE, 3).astype(np.float32)
    return blocks.mean(axis=(1, 3)).round().astype(np.uint8)


def _write_png(image: np.ndarray, path: Path) -> None:
    from vtkmodules.util.numpy_support import numpy_to_vtk
    from vtkmodules.vtkCommonDataModel import vtkImageData

    data = vtkImageData()
    data.SetDimensions(image.shape[1], image.shape[0], 1)
    data.GetPointData().SetScalars(numpy_to_vtk(image[::-1].reshape(-1, 3).copy()))
    writer = vtkPNGWriter()
    writer.SetInputData(data)
    writer.WriteToMemoryOn()
    writer.Write()
    try:
        path.write_bytes(vtk_to_numpy(writer.GetResult()).tobytes())
    except OSError as problem:
        raise CannotWrite(
            f"The picture cannot be written to {path}: {problem.strerror}; choose another folder."
        ) from problem
