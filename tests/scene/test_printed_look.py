"""The Printed look: bands as wide as geometry says, even where they are finer than a pixel."""

from dataclasses import dataclass

import numpy as np
import pytest
from vtkmodules.vtkRenderingCore import vtkRenderer

from tests.scene.conftest import SIDE_PX
from tests.scene.scenery import SETTINGS, Shown, columns, pose_of, tilted
from tests.shapes import box, cube, wedge
from viewer.document.state import Part, State
from viewer.geometry.pose import Pose
from viewer.geometry.print_settings import PrintSettings
from viewer.scene import palettes, printed_look
from viewer.scene.legends import legend, printed_in
from viewer.scene.lenses import Lens
from viewer.scene.off_screen import drawn, off_screen_window
from viewer.scene.part_scene import PartScene
from viewer.scene.pictures import LEGEND_SHARE, picture
from viewer.scene.themes import DARK, LIGHT


def lay(stage, mesh, turn=None, *, height_mm=0.0, layer_mm=0.2, measures=None):
    """Show a part in the Printed look, without the lines along its edges."""
    scene = stage.scene
    scene.set_settings(PrintSettings(layer_mm=layer_mm))
    scene.set_lens(Lens.PRINTED)
    scene.show_part(mesh)
    scene._creases.clear()
    scene.set_pose(pose_of(mesh, np.eye(3) if turn is None else turn, height_mm))
    scene.show_measures(measures)


def look(stage, towards, height_of_view_mm, at=(0.0, 0.0, 0.0)) -> None:
    """Look along a direction in parallel lines; the picture is so many mm high."""
    stage.scene.set_view_direction(np.asarray(towards, float))
    eye = stage.renderer.GetActiveCamera()
    back = np.array(eye.GetPosition()) - np.array(eye.GetFocalPoint())
    eye.SetFocalPoint(*at)
    eye.SetPosition(*(np.asarray(at) + back))
    eye.ParallelProjectionOn()
    eye.SetParallelScale(height_of_view_mm / 2)
    stage.renderer.ResetCameraClippingRange()


def period(line: np.ndarray) -> float:
    """Spacing of the bands along a row of brightness, in pixels, by autocorrelation.

    The first peak tells one period roughly; the last peak within half the row, divided by its
    number, tells it finely.
    """
    line = line - line.mean()
    count = len(line)
    full = np.correlate(line, line, "full")[count - 1 :]
    alike = (full / np.arange(count, 0, -1) / line.var())[: count // 2]
    peaks = [
        k
        for k in range(2, len(alike) - 1)
        if alike[k] > 0.4 and alike[k - 1] < alike[k] >= alike[k + 1]
    ]
    one = peaks[0]
    best = float(one)
    for k in peaks:  # each further peak is a whole number of periods: refine step by step
        number = round(k / best)
        if abs(k / best - number) < 0.2:
            below, here, above = alike[k - 1 : k + 2]
            shift = 0.5 * (below - above) / (below - 2 * here + above)
            best = (k + shift) / number
    return best


@pytest.mark.parametrize("layer_mm", [0.1, 0.2])
@pytest.mark.parametrize("inclination_deg", [5.0, 10.0, 30.0])
def test_a_terrace_is_as_wide_as_a_layer_divided_by_the_tangent(stage, inclination_deg, layer_mm):
    """t / tan α (check-values rows 1 to 3), seen from above; within 5 %."""
    lay(stage, wedge(inclination_deg), layer_mm=layer_mm)
    width_mm = layer_mm / np.tan(np.radians(inclination_deg))
    view_mm = min(18.0, 14.0 * width_mm)
    x_mm, y_mm, z_mm = middle_of_slope(stage)
    look(stage, (0, 0, 1), view_mm, (x_mm, y_mm, z_mm))
    row = stage.draw()[SIDE_PX // 2, 10:-10].mean(axis=1)
    measured_mm = period(row) * view_mm / SIDE_PX
    assert measured_mm == pytest.approx(width_mm, rel=0.05)


def middle_of_slope(stage) -> np.ndarray:
    """Above the middle of the part."""
    low, high = stage.scene._mesh.box_mm
    return (low + high) / 2 @ stage.scene.matrix[:3, :3].T + stage.scene.matrix[:3, 3]


@pytest.mark.parametrize("inclination_deg", [5.0, 10.0, 30.0])
@pytest.mark.parametrize("side", [(0, 0, 1), (0, 0, -1)])
def test_a_slope_made_by_turning_has_the_same_terraces(stage, inclination_deg, side):
    """The top and the underside of a cube that the pose tilts: height is that in the pose."""
    turn = tilted(inclination_deg)
    lay(stage, cube(), turn, height_mm=3.0)
    width_mm = 0.2 / np.tan(np.radians(inclination_deg))
    along_mm = width_mm / np.cos(np.radians(inclination_deg))  # seen square on: t / sin α
    view_mm = min(18.0, 14.0 * width_mm)
    look(stage, turn @ np.array(side, float), view_mm, middle_of_slope(stage))
    picture = stage.draw()[10:-10, 10:-10].mean(axis=2)
    across = 1 if np.ptp(picture.mean(axis=0)) > np.ptp(picture.mean(axis=1)) else 0
    measured_mm = period(picture.mean(axis=1 - across)) * view_mm / SIDE_PX
    assert measured_mm == pytest.approx(along_mm, rel=0.05)


def test_a_wall_has_one_line_per_layer_and_an_oblique_look_foreshortens_it(stage):
    lay(stage, cube())
    for elevation_deg in (0.0, 40.0):
        e = np.radians(elevation_deg)
        look(stage, (0, -np.cos(e), np.sin(e)), 4.0, (0, -10, 10))
        column = stage.draw()[10:-10, SIDE_PX // 2].mean(axis=1)
        assert period(column) * 4.0 / SIDE_PX == pytest.approx(0.2 * np.cos(e), rel=0.02)


def test_lines_stay_with_the_platform_not_with_the_part(stage):
    """Half a layer higher the lines of the same wall lie in between; a whole layer: as before."""
    lines = []
    for height_mm in (0.0, 0.1, 0.2):
        lay(stage, cube(), height_mm=height_mm)
        look(stage, (0, -1, 0), 2.0, (0, -10, 10 + height_mm))
        lines.append(stage.draw()[10:-10, SIDE_PX // 2].mean(axis=1))
    start, half, whole = (line - line.mean() for line in lines)
    np.testing.assert_allclose(whole, start, atol=0.02)
    assert (half @ start) / (start @ start) < -0.2


def test_finer_than_a_pixel_a_wall_is_even_and_as_light_as_from_near(stage):
    """1.25 layers a pixel and more: no lines, no shimmer, the same mean as seen from near."""
    lay(stage, cube())
    near = []
    for view_mm in (2.0, 4.0):
        look(stage, (0, -1, 0), view_mm, (0, -10, 10))
        near.append(stage.draw()[20:-20, 20:-20].mean())
    lay(stage, box((0, 0, 0), (300, 300, 300)))
    for view_mm in (90.0, 200.0):
        for shift_mm in (0.0, 0.07):
            look(stage, (0, -1, 0), view_mm, (150, 0, 150 + shift_mm))
            far = stage.draw()[20:-20, 20:-20].mean(axis=2)
            assert np.ptp(far) < 0.02
            assert far.mean() == pytest.approx(np.mean(near), rel=0.03)


def test_between_near_and_far_lines_fade_and_never_beat(stage):
    """At any distance contrast within a coarse block is at most what it was closer by."""
    lay(stage, box((0, 0, 0), (300, 300, 300)))
    contrast = []
    for pixels_a_layer in (4.0, 2.0, 1.0, 0.6):
        look(stage, (0, -1, 0), 0.2 / pixels_a_layer * SIDE_PX, (150, 0, 150))
        wall = stage.draw()[20:-20, 20:-20].mean(axis=2)
        contrast.append(wall.std())
        slow = wall.reshape(10, 20, -1).mean(axis=(1, 2))  # beats would be slow waves
        assert np.ptp(slow) < 0.02
    assert contrast[0] > contrast[1] > contrast[2] >= contrast[3]
    assert contrast[1] > 0.02
    assert contrast[3] < 0.003


def test_a_level_face_has_no_terraces_and_shows_roads(stage):
    """Roads at 45°: their lines cross both axes every road · √2 (CALC), on any layer height."""
    lay(stage, cube())
    look(stage, (0, 0, 1), 8.0, (0, 0, 20))
    top = stage.draw().mean(axis=2)
    for line in (top[SIDE_PX // 2, 10:-10], top[10:-10, SIDE_PX // 2]):
        assert period(line) * 8.0 / SIDE_PX == pytest.approx(0.42 * np.sqrt(2), rel=0.02)


def test_roads_change_direction_with_the_layer(stage):
    """The top of the next layer runs the other way."""
    directions = []
    for height_mm in (20.0, 20.2):
        lay(stage, box((-10, -10, 0), (10, 10, height_mm)))
        look(stage, (0, 0, 1), 6.0, (0, 0, 20))
        top = stage.draw()[20:-20, 20:-20].mean(axis=2)
        rising = np.abs(top[:-1, 1:] - top[1:, :-1]).mean()
        falling = np.abs(top[1:, 1:] - top[:-1, :-1]).mean()
        assert max(rising, falling) > 5 * min(rising, falling)
        directions.append(rising > falling)
    assert directions[0] is not directions[1]


def test_the_side_on_the_platform_is_smooth_and_off_it_shows_roads(stage):
    lay(stage, cube())
    look(stage, (0, 0, -1), 6.0)
    assert np.ptp(stage.draw()[20:-20, 20:-20].mean(axis=2)) < 0.01
    lay(stage, cube(), height_mm=0.2)
    look(stage, (0, 0, -1), 6.0)
    assert np.ptp(stage.draw()[20:-20, 20:-20].mean(axis=2)) > 0.08


@dataclass
class Patch:
    """What a piece of a wall looks like."""

    mean: float
    ripple: float  # changes along a layer, where an untouched wall has none


def wall_patch(stage, measures, view_mm=6.0) -> Patch:
    lay(stage, cube(), measures=measures)
    look(stage, (0, -1, 0), view_mm, (0, -10, 10))
    wall = stage.draw()[20:-20, 20:-20].mean(axis=2)
    return Patch(wall.mean(), np.abs(wall - wall.mean(axis=1)[:, None]).mean())


@pytest.mark.parametrize("view_mm", [3.0, 6.0, 18.0])
def test_touch_is_rough_and_duller_at_every_distance(stage, view_mm):
    plain = wall_patch(stage, None, view_mm)
    clean = wall_patch(stage, Shown(np.zeros(12), np.zeros(12)), view_mm)
    touched = wall_patch(stage, Shown(np.ones(12), np.zeros(12)), view_mm)
    a_trace = wall_patch(stage, Shown(np.full(12, 0.001), np.zeros(12)), view_mm)
    assert plain == clean  # before the first measures: layers only
    assert clean.ripple < 0.002
    assert touched.ripple > 0.025
    assert 0.005 < a_trace.ripple < touched.ripple
    assert 0.75 < touched.mean / clean.mean < 0.95


def test_before_the_first_measures_what_hangs_is_not_rough_afterwards_it_is(stage):
    turn = tilted(20.0)
    under = turn @ np.array([0, 0, -1.0])

    def ripple() -> float:
        patch = stage.draw()[80:160, 80:160].mean(axis=2)
        return float(np.abs(patch - patch.mean(axis=0)).mean())

    lay(stage, cube(), turn, height_mm=5.0)
    look(stage, under, 6.0, middle_of_slope(stage))
    before = ripple()
    stage.scene.show_measures(Shown(np.zeros(12), np.zeros(12)))
    assert ripple() == before
    stage.scene.set_pose(pose_of(cube(), turn, 5.2))  # being turned: the inclination stands in
    look(stage, under, 6.0, middle_of_slope(stage))
    assert ripple() > before + 0.02
    stage.scene.show_part(cube())
    stage.scene._creases.clear()
    stage.scene.set_pose(pose_of(cube(), turn, 5.0))
    look(stage, under, 6.0, middle_of_slope(stage))
    assert ripple() == pytest.approx(before, abs=1e-6)  # another part: nothing known again


def test_where_supports_stood_is_rough_and_the_supports_are_gone(stage):
    """Columns on the middle of a cube's top; with supports wanted, none is drawn."""
    top = int(np.flatnonzero(cube().face_normals[:, 2] > 0.5)[0])
    standing = columns(top, 20.0, 30.0, cells=6)
    lay(stage, cube(), measures=Shown(np.zeros(12), np.zeros(12), standing))
    stage.scene.set_supports_visible(True)
    look(stage, (0, 0, 1), 14.0, (0, 0, 20))
    shown = stage.draw().mean(axis=2)
    stage.scene.show_measures(Shown(np.zeros(12), np.zeros(12)))
    bare = stage.draw().mean(axis=2)
    changed = np.abs(shown - bare) > 0.01
    mm = SIDE_PX / 14.0
    inside = slice(int(SIDE_PX / 2 - 2.9 * mm), int(SIDE_PX / 2 + 2.9 * mm))
    assert changed[inside, inside].mean() > 0.8
    changed[
        int(SIDE_PX / 2 - 3.1 * mm) : int(SIDE_PX / 2 + 3.1 * mm) + 1,
        int(SIDE_PX / 2 - 3.1 * mm) : int(SIDE_PX / 2 + 3.1 * mm) + 1,
    ] = False
    assert not changed.any()
    # A mark 0.03 mm above its face: the lens Touch has its dots back, and the bodies.
    stage.scene.set_lens(Lens.TOUCH)
    stage.scene.show_measures(Shown(np.zeros(12), np.zeros(12), standing))
    assert np.abs(stage.draw().mean(axis=2) - bare)[inside, inside].mean() > 0.05


def test_the_material_is_neutral_and_hides_the_classes(stage):
    assert np.ptp(palettes.PRINT_MATERIAL) < 0.03  # told apart by light alone: no hue to confuse
    lay(stage, cube())
    look(stage, (0, -1, 0), 4.0, (0, -10, 10))
    plain = stage.draw()
    stage.scene.set_classes(np.arange(12).astype(np.uint8) % 3)
    np.testing.assert_array_equal(stage.draw(), plain)
    assert np.abs(np.diff(plain, axis=2)).max() < 0.04


def test_turning_uploads_nothing(stage):
    lay(stage, cube())
    stage.scene.set_view_direction("corner")
    stage.draw()
    mapper = stage.scene._part.mapper

    def times() -> tuple[int, int]:
        buffer = mapper.GetVBOs().GetVBO("vertexMC")
        return buffer.GetUploadTime().GetMTime(), mapper.GetInput().GetMTime()

    before, shown = times(), stage.draw()
    stage.scene.set_pose(pose_of(cube(), tilted(10.0)))
    assert np.abs(stage.draw() - shown).max() > 0.05
    assert times() == before


def test_the_legend_says_what_is_seen():
    shown = legend(Lens.PRINTED, SETTINGS)
    assert shown.title == "Printed look" == Lens.PRINTED.title
    assert "layers of 0.2 mm" in shown.explanation
    assert "supports taken off" in shown.explanation
    labels = " ".join(entry.label for entry in shown.entries)
    for word in ("0.2 mm", "terraces", "roads", "platform", "support"):
        assert word in labels
    assert "0.35 mm" in legend(Lens.PRINTED, PrintSettings(layer_mm=0.35)).explanation


@pytest.mark.parametrize("theme", [LIGHT, DARK])
def test_a_picture_shows_the_terraces_of_a_wedge_in_both_themes(theme):
    """The whole way, in perspective, drawn finer and averaged: 10° at 0.4 mm is 2.27 mm wide."""
    size = (800, 500)
    state = State.of_part(Part("wedge", wedge(10.0)), pose=Pose())
    state = state.with_(settings=PrintSettings(layer_mm=0.4))
    image = picture(state, None, Lens.PRINTED, size_px=size, view="top", theme=theme) / 255.0
    stage = image[:, : int(size[0] * (1 - LEGEND_SHARE))].mean(axis=2)
    run_px, expected = _whole_view_period(state, size, theme)
    middle = stage.shape[1] // 2
    row = stage[stage.shape[0] // 2, middle - run_px // 3 : middle + run_px // 3]
    assert period(row) == pytest.approx(expected, rel=0.05)


def _whole_view_period(state, size, theme) -> tuple[int, float]:
    """How long the slope is in such a picture, and how wide one terrace in its middle."""
    width = round(size[0] * (1 - LEGEND_SHARE))
    with off_screen_window((width, size[1])) as window:
        renderer = vtkRenderer()
        window.AddRenderer(renderer)
        scene = PartScene(renderer, theme)
        scene.show_part(state.part.mesh)
        scene.set_pose(pose_of(state.part.mesh, np.eye(3)))
        scene.set_view_direction("top")
        drawn(window)
        low, high = state.part.mesh.box_mm
        step_mm = 0.4 / np.tan(np.radians(10.0))
        middle = (low + high) / 2 - [0, 0, low[2]]
        ends = []
        for x in (middle[0] - step_mm / 2, middle[0] + step_mm / 2):
            z = middle[2] + (x - middle[0]) * np.tan(np.radians(10.0))
            renderer.SetWorldPoint(x, middle[1], z, 1.0)
            renderer.WorldToDisplay()
            ends.append(renderer.GetDisplayPoint()[0])
        scene.close()
        del scene, renderer
    expected = abs(ends[1] - ends[0])
    return int(expected / step_mm * (high[0] - low[0])), expected


ORANGE_PRINT, BLACK_PRINT = (0.9, 0.35, 0.05), (0.0, 0.0, 0.0)


@pytest.mark.parametrize("when", ["before the part", "after it"])
def test_the_print_has_the_colour_that_was_chosen(stage, when):
    """On a wall of one shade the picture is the colour times that shade, in every channel."""
    if when == "before the part":
        stage.scene.set_print_colour(ORANGE_PRINT)
    lay(stage, cube())
    stage.scene.set_print_colour(ORANGE_PRINT)
    look(stage, (0, -1, 0), 4.0, (0, -10, 10))
    orange = stage.draw()
    stage.scene.set_print_colour(palettes.PRINT_MATERIAL)
    neutral = stage.draw()
    shade = neutral / np.array(palettes.PRINT_MATERIAL)
    np.testing.assert_allclose(orange, shade * np.array(ORANGE_PRINT), atol=0.012)


def test_in_black_layers_can_still_be_told_apart(stage):
    assert printed_look.shown_colour(ORANGE_PRINT) == ORANGE_PRINT
    lay(stage, cube())
    stage.scene.set_print_colour(BLACK_PRINT)
    look(stage, (0, -1, 0), 4.0, (0, -10, 10))
    drawn = stage.draw()
    assert np.ptp(drawn.mean(axis=(1, 2))) > 0.05


def test_the_legend_takes_the_colour_of_the_print():
    shown = printed_in(legend(Lens.PRINTED, SETTINGS), ORANGE_PRINT)
    clean, rough = shown.entries[0].colour, shown.entries[-1].colour
    assert clean == ORANGE_PRINT
    np.testing.assert_allclose(np.array(rough) / clean, 1.0 - printed_look.DULLNESS)
