"""A render window that is never shown, with or without a display, and its pixels."""

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager

import numpy as np
import vtkmodules.vtkRenderingFreeType
import vtkmodules.vtkRenderingOpenGL2  # noqa: F401  (brings the drawing code itself)
from vtkmodules.util.numpy_support import vtk_to_numpy
from vtkmodules.vtkRenderingCore import vtkRenderWindow, vtkWindowToImageFilter

_CHOICE = "VTK_DEFAULT_OPENGL_WINDOW"


@contextmanager
def off_screen_window(size_px: tuple[int, int]) -> Iterator[vtkRenderWindow]:
    """A window of (width, height) pixels without multisampling, released at the end."""
    without_display = sys.platform.startswith("linux") and not os.environ.get("DISPLAY")
    choose = without_display and _CHOICE not in os.environ
    if choose:  # otherwise VTK first tries a display, and complains that there is none
        os.environ[_CHOICE] = "vtkEGLRenderWindow"
    try:
        window = vtkRenderWindow()
    finally:
        if choose:
            del os.environ[_CHOICE]
    window.SetOffScreenRendering(1)
    window.SetMultiSamples(0)
    window.SetSize(*size_px)
    try:
        yield window
    finally:
        window.Finalize()


def drawn(window: vtkRenderWindow) -> np.ndarray:
    """Draw the window once; returns (height, width, 3) uint8, top row first."""
    window.Render()
    grab = vtkWindowToImageFilter()
    grab.SetInput(window)
    grab.ReadFrontBufferOff()
    grab.ShouldRerenderOff()
    grab.Update()
    data = grab.GetOutput()
    width, height, _ = data.GetDimensions()
    pixels = vtk_to_numpy(data.GetPointData().GetScalars()).reshape(height, width, 3)
    return pixels[::-1].copy()
