"""An off-screen stage for scene tests; every test proves that it leaves no VTK object behind."""

import gc
from collections.abc import Iterator

import numpy as np
import pytest
from vtkmodules.vtkCommonCore import vtkObjectBase
from vtkmodules.vtkRenderingCore import vtkRenderer

from viewer.scene.off_screen import drawn, off_screen_window
from viewer.scene.part_scene import PartScene
from viewer.scene.themes import LIGHT

SIDE_PX = 240


class Stage:
    """A scene in a square window, drawn pixel for pixel."""

    def __init__(self, window) -> None:
        self.window, self.renderer = window, vtkRenderer()
        window.AddRenderer(self.renderer)
        self.scene = PartScene(self.renderer, LIGHT)

    def draw(self) -> np.ndarray:
        """(SIDE_PX, SIDE_PX, 3) float64 colours from 0 to 1, top row first."""
        return drawn(self.window) / 255.0

    def step_back(self, share: float) -> None:
        """See the part at this share of its size."""
        self.renderer.GetActiveCamera().Dolly(share)
        self.renderer.ResetCameraClippingRange()

    def middle(self) -> np.ndarray:
        """Colour in the middle of the picture."""
        return self.draw()[SIDE_PX // 2, SIDE_PX // 2]

    def display(self, point_mm) -> np.ndarray:
        """(2,) display position of a point in the posed frame, pixels from the lower left."""
        self.renderer.SetWorldPoint(*point_mm, 1.0)
        self.renderer.WorldToDisplay()
        return np.array(self.renderer.GetDisplayPoint()[:2])


def vtk_objects() -> list[str]:
    """Classes of the VTK objects that Python holds and that were not set aside."""
    gc.collect()
    return [type(o).__name__ for o in gc.get_objects() if isinstance(o, vtkObjectBase)]


@pytest.fixture
def stage() -> Iterator[Stage]:
    """A fresh stage; closing it must release every VTK object made since.

    What lived before is set aside, so that all that can be seen afterwards came with the test.
    """
    gc.collect()
    gc.freeze()
    with off_screen_window((SIDE_PX, SIDE_PX)) as window:
        made = Stage(window)
        yield made
        made.scene.close()
        del made.scene, made.renderer, made.window, made, window
    left = vtk_objects()
    assert not left, f"left behind: {left}"
