"""Pictures without a window: the part through a lens, on its platform, legend beside it."""

from dataclasses import replace
from pathlib import Path

import numpy as np
from vtkmodules.util.numpy_support import numpy_to_vtk, vtk_to_numpy
from vtkmodules.vtkCommonDataModel import vtkImageData
from vtkmodules.vtkIOImage import vtkPNGWriter
from vtkmodules.vtkRenderingCore import vtkRenderer

from viewer.document.state import State
from viewer.errors import CannotWrite
from viewer.geometry.deviation import Deviation, find_deviation
from viewer.geometry.pose import pose_matrix
from viewer.geometry.pose_measures import PoseMeasures
from viewer.scene.arrays import used_vertices_mm
from viewer.scene.legend_drawing import LegendDrawing
from viewer.scene.legends import Legend, deviation_note, legend
from viewer.scene.lenses import Lens
from viewer.scene.off_screen import drawn, off_screen_window
from viewer.scene.part_scene import PartScene
from viewer.scene.themes import LIGHT, Theme
from viewer.words import say

SIZE_PX = (1280, 800)
PLATFORM_MM = (220.0, 220.0)
LEGEND_SHARE = 0.24  # of the picture's width
_LEGEND_PX = 300  # width it is laid out for
FINE = 2  # drawn this many times finer, then averaged: smooth edges without multisampling


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
    fine_px = (size_px[0] * FINE, size_px[1] * FINE)
    deviation = _deviation(state) if lens is Lens.DEVIATION else None
    key = _legend(state, lens, deviation)
    with off_screen_window(fine_px) as window:
        split = 1.0 - LEGEND_SHARE
        stage, margin = vtkRenderer(), vtkRenderer()
        stage.SetViewport(0.0, 0.0, split, 1.0)
        margin.SetViewport(split, 0.0, 1.0, 1.0)
        window.AddRenderer(stage)
        window.AddRenderer(margin)
        scene = PartScene(stage, theme)
        drawing = LegendDrawing(margin, theme, key, legend_scale(size_px))
        scene.set_pixel_scale(FINE)
        scene.set_settings(state.settings)
        scene.set_lens(lens)
        scene.set_platform(*platform_mm)
        if state.part is not None:
            mesh = state.part.file_mesh
            scene.show_part(mesh)
            if state.part.base is not None:
                scene.show_pieces(state.part.mesh, state.part.base_face)
            scene.set_classes(state.face_classes)
            scene.set_pose(pose_matrix(used_vertices_mm(mesh), state.pose))
            scene.show_measures(measures)
            scene.show_deviation(None if deviation is None else deviation.new.face_mm)
        below = lens in (Lens.OVERHANG, Lens.TOUCH)
        scene.set_view_direction(view or ("below" if below else "corner"))
        image = averaged(drawn(window))
        drawing.close()
        scene.close()
    if path is not None:
        _write_png(image, Path(path))
    return image


def _deviation(state: State) -> Deviation | None:
    part = state.part
    mended = part is not None and part.received is not None
    return find_deviation(part.received, part.file_mesh) if mended else None


def _legend(state: State, lens: Lens, deviation: Deviation | None) -> Legend:
    key = legend(lens, state.settings)
    if lens is Lens.DEVIATION:
        key = replace(key, note=deviation_note(deviation, deviation is not None))
    return key


def legend_scale(size_px: tuple[int, int]) -> float:
    """Fine pixels to a pixel of the legend: it grows with the picture, but stays legible."""
    return FINE * min(max(LEGEND_SHARE * size_px[0] / _LEGEND_PX, 0.6), 3.0)


def averaged(fine: np.ndarray) -> np.ndarray:
    """Each block of fine pixels as one."""
    height, width = fine.shape[0] // FINE, fine.shape[1] // FINE
    blocks = fine.reshape(height, FINE, width, FINE, 3).astype(np.float32)
    return blocks.mean(axis=(1, 3)).round().astype(np.uint8)


def _write_png(image: np.ndarray, path: Path) -> None:
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
            say(
                "The picture cannot be written to {path}: {strerror}; choose another folder.",
                path=path,
                strerror=problem.strerror,
            )
        ) from problem
