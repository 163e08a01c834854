"""Pictures without a window: size, legend, files, silence, and nothing left behind."""

import gc
import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from vtkmodules.vtkCommonCore import vtkObjectBase

from tests.shapes import cube
from viewer.document.state import Part, State
from viewer.errors import CannotWrite
from viewer.geometry.pose import Pose
from viewer.scene import palettes
from viewer.scene.lenses import Lens
from viewer.scene.pictures import LEGEND_SHARE, picture
from viewer.scene.themes import DARK, LIGHT

SIZE = (640, 400)


@pytest.fixture
def state() -> State:
    classes = np.zeros(12, np.uint8)
    classes[cube().face_normals[:, 1] < -0.5] = 1
    return State.of_part(Part("cube", cube()), classes, pose=Pose())


def test_a_picture_has_its_size_and_shows_part_and_legend(state):
    image = picture(state, None, Lens.CLASSES, size_px=SIZE, view="front")
    assert image.shape == (400, 640, 3)
    assert image.dtype == np.uint8
    split = round(640 * (1 - LEGEND_SHARE))
    front = np.round(np.array(palettes.REDDISH_PURPLE) * 255)
    np.testing.assert_allclose(image[200, split // 2], front, atol=2)
    legend = image[:, split + 4 :].reshape(-1, 3)
    for colour in palettes.CLASS_COLOURS:  # each class has its patch in the legend
        same = np.abs(legend - np.array(colour) * 255).max(axis=1) <= 2
        assert same.sum() > 100


@pytest.mark.parametrize("lens", list(Lens))
@pytest.mark.parametrize("theme", [LIGHT, DARK])
def test_every_lens_has_a_legend_in_both_themes(state, lens, theme):
    image = picture(state, None, lens, size_px=SIZE, theme=theme)
    legend = image[:, round(640 * (1 - LEGEND_SHARE)) + 4 :] / 255.0
    card = np.abs(legend - theme.card).max(axis=2) < 0.01
    text = np.abs(legend - theme.text).max(axis=2) < 0.15
    assert 0.4 < card.mean() < 0.97
    assert text.sum() > 60


def test_the_same_job_gives_the_same_picture(state):
    one = picture(state, None, Lens.OVERHANG, size_px=SIZE)
    np.testing.assert_array_equal(one, picture(state, None, Lens.OVERHANG, size_px=SIZE))


def test_the_file_holds_the_picture(state, tmp_path):
    path = tmp_path / "größe und fläche.png"
    image = picture(state, None, Lens.CLASSES, size_px=SIZE, path=path)
    np.testing.assert_array_equal(np.asarray(Image.open(path).convert("RGB")), image)


def test_a_folder_that_is_not_there_is_said_in_one_sentence(state, tmp_path):
    with pytest.raises(CannotWrite, match="choose another folder") as caught:
        picture(state, None, Lens.CLASSES, size_px=SIZE, path=tmp_path / "none" / "a.png")
    assert "\n" not in str(caught.value)


def test_an_empty_job_shows_the_platform():
    image = picture(State(), None, Lens.CLASSES, size_px=SIZE)
    assert len(np.unique(image.reshape(-1, 3), axis=0)) > 20


def test_pictures_leave_no_vtk_object_behind(state):
    def count() -> int:
        gc.collect()
        return sum(isinstance(o, vtkObjectBase) for o in gc.get_objects())

    picture(state, None, Lens.TOUCH, size_px=SIZE)
    before = count()
    picture(state, None, Lens.TOUCH, size_px=SIZE)
    assert count() == before


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="a display is always there")
def test_without_a_display_nothing_is_said(tmp_path):
    """VTK would warn of a bad X server first; `--json` promises clean streams."""
    program = (
        "from viewer.scene.pictures import picture\n"
        "from viewer.scene.lenses import Lens\n"
        "from viewer.document.state import State\n"
        f"picture(State(), None, Lens.CLASSES, size_px=(80, 60), "
        f"path={str(tmp_path / 'a.png')!r})\n"
    )
    environment = {k: v for k, v in os.environ.items() if k != "DISPLAY"}
    house = Path(__file__).resolve().parents[2]
    done = subprocess.run(
        [sys.executable, "-c", program], env=environment, cwd=house, capture_output=True, text=True
    )
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")
    assert (tmp_path / "a.png").stat().st_size > 100
