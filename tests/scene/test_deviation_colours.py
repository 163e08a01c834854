"""The lens Deviation: colours over millimetres, a line at one layer, numbers in the legend."""

import numpy as np
import pytest

from tests.scene.scenery import NEAR, SETTINGS, pose_of
from tests.scene.test_legends import contrast
from tests.shapes import cube, sphere, without_faces
from viewer.document.state import Part, State
from viewer.geometry.deviation import find_deviation
from viewer.geometry.mend.re_skin import re_skin
from viewer.geometry.mend.steps import step_named, take
from viewer.geometry.mesh import Mesh
from viewer.geometry.print_settings import PrintSettings
from viewer.scene import palettes
from viewer.scene.legends import deviation_note, deviation_top_mm, legend
from viewer.scene.lenses import Lens
from viewer.scene.pictures import picture
from viewer.scene.themes import DARK, LIGHT


def show(stage, face_mm, lens=Lens.DEVIATION):
    mesh = cube()
    scene = stage.scene
    scene.set_settings(SETTINGS)
    scene.set_lens(lens)
    scene.show_part(mesh)
    scene.set_pose(pose_of(mesh, np.eye(3)))
    scene.show_deviation(face_mm)
    scene.set_view_direction(np.array([0.0, -1.0, 0.0]))


@pytest.mark.parametrize("off_mm", [0.0, 0.05, 0.2, 0.3, 0.42, 7.0])
def test_the_colour_tells_the_distance_up_to_a_road(stage, off_mm):
    show(stage, np.full(12, off_mm, np.float32))
    place = round(min(off_mm / 0.42, 1.0) * 255)
    expected = palettes.deviation_table()[place]
    np.testing.assert_allclose(stage.middle(), expected, atol=NEAR + 0.01)


def test_nothing_known_is_the_neutral_grey_and_another_part_forgets(stage):
    show(stage, None)
    np.testing.assert_allclose(stage.middle(), palettes.WARM_GREY, atol=NEAR)
    show(stage, np.full(12, 5.0, np.float32))
    stage.scene.show_part(cube())
    stage.scene.set_pose(pose_of(cube(), np.eye(3)))
    np.testing.assert_allclose(stage.middle(), palettes.WARM_GREY, atol=NEAR)


def test_other_lenses_do_not_see_it_and_touch_comes_back(stage):
    show(stage, np.full(12, 5.0, np.float32), Lens.CLASSES)
    np.testing.assert_allclose(stage.middle(), palettes.WARM_GREY, atol=NEAR)
    stage.scene.set_lens(Lens.DEVIATION)
    np.testing.assert_allclose(stage.middle(), palettes.deviation_table()[-1], atol=NEAR + 0.01)
    stage.scene.set_lens(Lens.TOUCH)
    walls = stage.draw()[100:140, 100:140].reshape(-1, 3)
    assert np.abs(walls - palettes.VERMILION).max(axis=1).min() > 0.1
    stage.scene.set_lens(Lens.DEVIATION)
    np.testing.assert_allclose(stage.middle(), palettes.deviation_table()[-1], atol=NEAR + 0.01)


def test_a_finer_layer_or_a_wider_road_moves_the_scale(stage):
    show(stage, np.full(12, 0.42, np.float32))
    stage.scene.set_settings(PrintSettings(layer_mm=0.2, road_mm=0.84))
    expected = palettes.deviation_table()[round(0.5 * 255)]
    np.testing.assert_allclose(stage.middle(), expected, atol=NEAR + 0.01)


def test_a_line_parts_what_is_off_by_more_than_a_layer(stage):
    """Half of the front is off by more than a layer: a line runs along its edge."""
    front = np.flatnonzero(cube().face_normals[:, 1] < -0.9)
    off_mm = np.zeros(12, np.float32)
    off_mm[front[0]] = 0.21
    show(stage, off_mm)
    with_line = (stage.draw()[60:180, 60:180] < 0.25).all(axis=2).sum()
    off_mm[front[0]] = 0.19
    stage.scene.show_deviation(off_mm)
    without = (stage.draw()[60:180, 60:180] < 0.25).all(axis=2).sum()
    assert without == 0
    assert with_line > 80


def test_the_legend_has_its_unit_its_line_and_its_top():
    shown = legend(Lens.DEVIATION, SETTINGS)
    assert (shown.unit, shown.scale.low, shown.scale.high) == ("mm", 0.0, 0.42)
    assert shown.scale.mark == 0.2
    assert shown.scale.above == "+"
    thick = PrintSettings(layer_mm=0.6, road_mm=0.5)
    assert deviation_top_mm(thick) == pytest.approx(0.9)  # the line stays within the scale


def test_the_scale_darkens_evenly_and_starts_at_the_neutral_grey():
    table = palettes.deviation_table()
    np.testing.assert_allclose(table[0], palettes.WARM_GREY, atol=1e-12)
    # Ordered by lightness from a tenth on, so that it reads without hue (Crameri et al. 2020).
    lightness = table @ [0.2126, 0.7152, 0.0722]
    assert (np.diff(lightness[25:]) < 0).all()
    assert contrast(table[-1], palettes.WARM_GREY) >= 4.5


def test_the_note_says_in_numbers_what_was_found():
    assert "Nothing was mended" in deviation_note(None, False)
    assert "Comparing" in deviation_note(None, True)
    big, small = cube(20.0), cube(19.0)
    note = deviation_note(find_deviation(big, small), True)
    # Faces 0.5 mm apart, corners 0.5 · √3 = 0.87 mm (CALC).
    assert note.startswith("At most 0.5 mm off, 95 % within 0.5 mm, mean 0.5 mm;")
    assert note.endswith("farther away than 0.87 mm.")


@pytest.mark.parametrize("theme", [LIGHT, DARK])
def test_a_picture_shows_a_lid_dark_and_the_rest_calm(theme):
    ball = sphere(20.0, 4)
    top = np.flatnonzero(ball.corners_mm[:, :, 2].mean(axis=1) > 15.0)
    state = State.of_part(Part("ball", without_faces(ball, top)))
    mended = state.mended(re_skin(state.part.mesh, 1.0))
    shown = (
        picture(mended, None, Lens.DEVIATION, size_px=(640, 400), view="top", theme=theme) / 255.0
    )
    stage = shown[:, : int(640 * 0.76)]
    middle = stage[195:206, stage.shape[1] // 2 - 5 : stage.shape[1] // 2 + 6].reshape(-1, 3)
    assert np.abs(middle - palettes.deviation_table()[-1]).max() < 0.1
    calm = np.abs(stage - np.array(palettes.WARM_GREY)).max(axis=2) < 0.08
    assert calm.mean() > 0.05
    before = picture(state, None, Lens.DEVIATION, size_px=(640, 400), view="top", theme=theme)
    assert (
        np.abs(before / 255.0 - palettes.deviation_table()[-1]).max(axis=2) < 0.05
    ).mean() < 0.02


def lid() -> Mesh:
    """The top of a cube."""
    whole = cube(20.0)
    return without_faces(whole, np.flatnonzero(whole.face_normals[:, 2] < 0.5))


def test_every_way_of_mending_can_be_looked_at():
    """Thickened, filled and re-skinned parts all know what they were received as."""
    sheet = State.of_part(Part("lid", lid()))
    wall = sheet.mended(take(step_named("thicken-sheet", sheet.part.mesh), sheet.part.mesh))
    assert wall.part.received is sheet.part.mesh
    found = find_deviation(wall.part.received, wall.part.mesh)
    assert found.max_mm == pytest.approx(0.42)  # half of a wall of 0.84 to either side
    again = wall.mended(take(step_named("merge-vertices", wall.part.mesh), wall.part.mesh))
    assert again.part.received is sheet.part.mesh
