"""Closing a scene lets go of all it drew: the renderer is empty, memory does not grow."""

import gc
import sys
import weakref

import numpy as np
import pytest
from vtkmodules.vtkRenderingCore import vtkRenderer

from tests.scene.scenery import Shown, columns
from tests.shapes import cube
from viewer.scene.lenses import Lens
from viewer.scene.off_screen import drawn, off_screen_window
from viewer.scene.part_scene import PartScene
from viewer.scene.themes import DARK, LIGHT


def busy_scene(renderer) -> PartScene:
    """A scene in which everything that can be shown has been shown."""
    scene = PartScene(renderer, LIGHT)
    scene.set_platform(200, 200)
    scene.show_part(cube())
    scene.set_classes(np.arange(12).astype(np.uint8) % 3)
    for lens in Lens:
        scene.set_lens(lens)
        scene.show_measures(Shown(np.ones(12), np.ones(12), columns(1, 0.0, 10.0)))
    scene.show_brush_ring(np.array([0, 0, 10.0]), np.array([0, 0, 1.0]), 3.0)
    scene.preview_faces(np.array([0, 1]))
    scene.show_hull_face(np.array([[0, 0, 10], [5, 0, 10], [0, 5, 10.0]]))
    scene.show_rings(True)
    scene.highlight_ring(1)
    scene.set_theme(DARK)
    return scene


def test_close_empties_the_renderer_and_frees_the_scene(stage):
    renderer = vtkRenderer()
    stage.window.AddRenderer(renderer)
    scene = busy_scene(renderer)
    stage.draw()
    kept = [weakref.ref(piece) for piece in (scene, scene._rings, scene._part, scene._locator)]
    assert renderer.GetViewProps().GetNumberOfItems() > 10
    scene.close()
    assert renderer.GetViewProps().GetNumberOfItems() == 0
    del scene
    gc.collect()
    assert [ref() for ref in kept] == [None] * len(kept)
    stage.window.RemoveRenderer(renderer)


def test_a_part_replaced_is_freed(stage):
    """Ten parts one after another: the scene holds the actors of one."""
    stage.scene.show_part(cube())
    stage.draw()
    count = stage.renderer.GetViewProps().GetNumberOfItems()
    old = weakref.ref(stage.scene._part)
    for side in range(5, 15):
        stage.scene.show_part(cube(side))
        stage.draw()
    assert stage.renderer.GetViewProps().GetNumberOfItems() == count
    gc.collect()
    assert old() is None


def resident_mib() -> float:
    """Memory of this process that is in use, MiB (Linux)."""
    with open("/proc/self/statm") as file:
        return int(file.read().split()[1]) * 4096 / 2**20


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="reads /proc")
def test_thirty_scenes_do_not_grow():
    """Each scene alone takes some MiB; thirty opened and closed stay within the noise of one."""
    sizes = []
    for _ in range(30):
        with off_screen_window((200, 150)) as window:
            renderer = vtkRenderer()
            window.AddRenderer(renderer)
            scene = busy_scene(renderer)
            drawn(window)
            scene.close()
            del scene, renderer
        gc.collect()
        sizes.append(resident_mib())
    assert sizes[-1] - sizes[4] < 20.0
