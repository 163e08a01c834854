"""The colour of a pixel for each lens, seen square on, where the soft light is exactly 1."""

import numpy as np
import pytest

from tests.scene.scenery import NEAR, SETTINGS, Shown, pose_of, show_side, tilted
from tests.shapes import box, cube, moved, without_faces
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose, pose_matrix, rotation
from viewer.geometry.print_settings import PrintSettings
from viewer.scene import palettes, part_shader
from viewer.scene.legends import terrace_top_mm
from viewer.scene.lenses import Lens


@pytest.mark.parametrize("which", [0, 1, 2])
def test_classes(stage, which):
    colour = show_side(
        stage, cube(), np.eye(3), (1, 0, 0), Lens.CLASSES, classes=np.full(12, which, np.uint8)
    )
    np.testing.assert_allclose(colour, palettes.CLASS_COLOURS[which], atol=NEAR)


def test_classes_change_without_a_new_part(stage):
    show_side(stage, cube(), np.eye(3), (1, 0, 0), Lens.CLASSES)
    stage.scene.set_classes(np.full(12, 2, np.uint8))
    np.testing.assert_allclose(stage.middle(), palettes.SKY_BLUE, atol=NEAR)
    stage.scene.set_classes(np.full(12, 1, np.uint8))
    np.testing.assert_allclose(stage.middle(), palettes.REDDISH_PURPLE, atol=NEAR)


@pytest.mark.parametrize("inclination_deg", [0.0, 5.0, 20.0, 30.0, 44.0])
def test_overhang_below_the_limit_is_lajolla(stage, inclination_deg):
    """The underside of a tilted cube; lajolla from a ceiling (0°) to the limit (45°)."""
    turn = tilted(inclination_deg)
    colour = show_side(stage, cube(), turn, (0, 0, -1), Lens.OVERHANG, height_mm=5.0)
    table = palettes.overhang_table()
    expected = table[round(inclination_deg / 45.0 * 255)]
    np.testing.assert_allclose(colour, expected, atol=NEAR + 0.01)


@pytest.mark.parametrize(
    ("inclination_deg", "side"),
    [
        (45.0, (0, 0, -1)),  # equality is self-supporting
        (60.0, (0, 0, -1)),
        (90.0, (0, 0, -1)),  # a wall
        (20.0, (0, 0, 1)),  # faces upward
        (0.0, (0, 0, 1)),
    ],
)
def test_what_holds_itself_up_is_neutral(stage, inclination_deg, side):
    turn = tilted(inclination_deg)
    colour = show_side(stage, cube(), turn, side, Lens.OVERHANG, height_mm=5.0)
    np.testing.assert_allclose(colour, palettes.WARM_GREY, atol=NEAR)


def test_what_stands_on_the_platform_is_neutral(stage):
    colour = show_side(stage, cube(), np.eye(3), (0, 0, -1), Lens.OVERHANG)
    np.testing.assert_allclose(colour, palettes.WARM_GREY, atol=NEAR)
    stage.scene.set_pose(pose_of(cube(), np.eye(3), height_mm=0.01))
    np.testing.assert_allclose(stage.middle(), palettes.overhang_table()[0], atol=NEAR)


@pytest.mark.parametrize("far_mm", [0.0, 10_000.0])
@pytest.mark.parametrize("up", [(0, 0, 1), (1, 2, 3), (0, 0, -1), (-3, 1, 0.5)])
def test_overhang_colours_do_not_depend_on_how_the_part_came_to_lie(stage, up, far_mm):
    """The same wedge of 30° laid by a pose, also 10 m from the origin of its file."""
    pose = Pose(up, 40.0)
    turn = rotation(pose)
    upright = box((0, 0, 0), (20, 20, 20))
    wanted = tilted(30.0)  # posed = wanted · upright; so the file holds turnᵀ · wanted · upright
    mesh = Mesh(upright.vertices_mm @ (turn.T @ wanted).T + far_mm, upright.faces)
    scene = stage.scene
    scene.set_lens(Lens.OVERHANG)
    scene.show_part(mesh)
    matrix = pose_matrix(mesh.vertices_mm, pose)
    matrix[2, 3] += 7.0
    scene.set_pose(matrix)
    scene.set_view_direction(wanted @ [0, 0, -1.0])
    table = palettes.overhang_table()
    np.testing.assert_allclose(stage.middle(), table[170], atol=NEAR + 0.01)


@pytest.mark.parametrize("inclination_deg", [10.0, 15.0, 30.0, 60.0, 90.0])
@pytest.mark.parametrize("side", [(0, 0, 1), (0, 0, -1)])
def test_terraces_are_lapaz_over_the_width_of_a_step(stage, inclination_deg, side):
    """Width t / tan α (check-values rows 1 to 6), up to three roads."""
    shown = Shown(np.zeros(12), np.ones(12))
    turn = tilted(inclination_deg)
    colour = show_side(stage, cube(), turn, side, Lens.TERRACES, height_mm=5.0, measures=shown)
    width = 0.2 / np.tan(np.radians(inclination_deg))
    share = min(width / terrace_top_mm(SETTINGS), 1.0)
    expected = palettes.terrace_table()[round(share * 255)]
    np.testing.assert_allclose(colour, expected, atol=NEAR + 0.01)


@pytest.mark.parametrize(("inclination_deg", "counts"), [(0.0, True), (0.4, True), (30.0, False)])
def test_no_terraces_on_level_faces_and_where_they_do_not_count(stage, inclination_deg, counts):
    shown = Shown(np.zeros(12), np.full(12, counts))
    turn = tilted(inclination_deg)
    colour = show_side(stage, cube(), turn, (0, 0, 1), Lens.TERRACES, measures=shown)
    np.testing.assert_allclose(colour, palettes.WARM_GREY, atol=NEAR)


def hatch_patch(stage) -> np.ndarray:
    """A square of 48 pixels in the middle: eight periods of the hatch."""
    half = stage.draw().shape[0] // 2
    return stage.draw()[half - 24 : half + 24, half - 24 : half + 24]


@pytest.mark.parametrize("which", [0, 1, 2])
def test_touch_has_its_hue_and_a_hatch_of_its_own(stage, which):
    shown = Shown(np.ones(12), np.zeros(12))
    classes = np.full(12, which, np.uint8)
    show_side(stage, cube(), np.eye(3), (1, 0, 0), Lens.TOUCH, measures=shown, classes=classes)
    patch = hatch_patch(stage)
    hue = np.array(palettes.TOUCH_COLOURS[which])
    brightness = (patch @ hue) / (hue @ hue)
    assert brightness.max() == pytest.approx(1.0, abs=0.02)
    assert brightness.min() == pytest.approx(palettes.DARK_INK, abs=0.03)
    np.testing.assert_allclose(patch, brightness[..., None] * hue, atol=0.02)  # one hue throughout
    assert 0.25 < (brightness < 0.8).mean() < 0.55  # stripes and gaps
    # Direction of the stripes: along them brightness stays, across them it changes.
    level = np.abs(np.diff(brightness, axis=1)).mean()
    upright = np.abs(np.diff(brightness, axis=0)).mean()
    rising = np.abs(brightness[:-1, 1:] - brightness[1:, :-1]).mean()  # up and to the right
    falling = np.abs(brightness[1:, 1:] - brightness[:-1, :-1]).mean()
    along = {0: level, 1: rising, 2: falling}[which]
    assert along < 0.005
    assert min({level, upright, rising, falling} - {along}) > 0.05


def test_untouched_faces_keep_a_faint_tint_of_their_class(stage):
    shown = Shown(np.zeros(12), np.zeros(12))
    colours = [
        show_side(
            stage, cube(), np.eye(3), (1, 0, 0), Lens.TOUCH,
            measures=shown, classes=np.full(12, which, np.uint8),
        )
        for which in (0, 1, 2)
    ]  # fmt: skip
    np.testing.assert_allclose(colours[0], palettes.WARM_GREY, atol=NEAR)
    for which in (1, 2):
        mixed = 0.62 * np.array(palettes.WARM_GREY) + 0.38 * np.array(palettes.CLASS_COLOURS[which])
        np.testing.assert_allclose(colours[which], mixed, atol=NEAR)


def test_a_trace_of_touch_is_still_seen(stage):
    """A share of a thousandth is not rounded away: the hatch of touch shows."""
    shown = Shown(np.full(12, 0.001), np.zeros(12))
    show_side(stage, cube(), np.eye(3), (1, 0, 0), Lens.TOUCH, measures=shown)
    assert np.ptp(hatch_patch(stage)[..., 0]) > 0.05


def test_while_the_part_turns_touch_follows_the_inclination(stage):
    """Measures of the last pose are not shown in the next; the overhang stands in for touch."""
    shown = Shown(np.ones(12), np.zeros(12))
    turn = tilted(20.0)
    show_side(stage, cube(), turn, (0, 0, 1), Lens.TOUCH, height_mm=5.0, measures=shown)
    assert np.ptp(hatch_patch(stage)[..., 0]) > 0.2  # as measured: touched everywhere
    stage.scene.set_pose(pose_of(cube(), turn, 6.0))
    assert np.ptp(hatch_patch(stage)[..., 0]) < 0.02  # faces upward
    stage.scene.set_view_direction(turn @ [0, 0, -1.0])
    assert np.ptp(hatch_patch(stage)[..., 0]) > 0.2  # hangs over


def test_the_inside_of_an_open_part_is_drawn_dull(stage):
    opened = without_faces(cube(), np.flatnonzero(cube().face_normals[:, 0] > 0.5))
    colour = show_side(
        stage, opened, np.eye(3), (1, 0, 0), Lens.CLASSES, classes=np.ones(10, np.uint8)
    )
    dull = 0.4 * np.array(palettes.REDDISH_PURPLE) + 0.6 * 0.35
    np.testing.assert_allclose(colour, dull, atol=NEAR)


@pytest.mark.parametrize("turned", [range(12), [4, 5, 7]])
def test_faces_wound_the_wrong_way_are_drawn_as_they_are_measured(stage, turned):
    """Inside out as a whole or in part: from every side the same colours as the sound cube."""
    sound = cube()
    faces = sound.faces.copy()
    faces[list(turned)] = faces[list(turned)][:, ::-1]
    for side in (*np.eye(3), *-np.eye(3)):
        colours = [
            show_side(stage, mesh, tilted(20.0), side, Lens.OVERHANG, height_mm=5.0)
            for mesh in (sound, Mesh(sound.vertices_mm, faces))
        ]
        np.testing.assert_array_equal(colours[1], colours[0])


def test_lines_lie_on_the_right_edges_of_turned_faces(stage):
    """Borders and creases of a part wound the wrong way are those of the sound one."""
    sound = cube()
    classes = np.arange(12).astype(np.uint8) % 3
    pictures = []
    for mesh in (sound, Mesh(sound.vertices_mm, sound.faces[:, [0, 2, 1]])):
        show_side(stage, mesh, np.eye(3), (1, 1, 1), Lens.CLASSES, classes=classes)
        pictures.append(stage.draw())
    np.testing.assert_allclose(pictures[1], pictures[0], atol=0.02)


def test_new_settings_repaint(stage):
    turn = tilted(50.0)
    show_side(stage, cube(), turn, (0, 0, -1), Lens.OVERHANG, height_mm=5.0)
    np.testing.assert_allclose(stage.middle(), palettes.WARM_GREY, atol=NEAR)
    stage.scene.set_settings(PrintSettings(support_limit_deg=60.0))
    expected = palettes.overhang_table()[round(50 / 60 * 255)]
    np.testing.assert_allclose(stage.middle(), expected, atol=NEAR + 0.01)


def test_the_pose_uploads_nothing(stage):
    """Turning rewrites neither the vertices on the graphics side nor the bytes per face."""
    scene = stage.scene
    scene.show_part(cube())
    scene.set_lens(Lens.OVERHANG)
    stage.draw()
    mapper = scene._part.mapper

    def times() -> tuple[int, int]:
        buffer = mapper.GetVBOs().GetVBO("vertexMC")
        return buffer.GetUploadTime().GetMTime(), mapper.GetInput().GetMTime()

    before = times()
    assert min(before) > 0
    for angle in (10.0, 20.0, 30.0):
        scene.set_pose(pose_of(cube(), tilted(angle), 5.0))
        scene.set_view_direction(tilted(angle) @ [0, 0, -1.0])
        stage.draw()
    expected = palettes.overhang_table()[170]
    np.testing.assert_allclose(stage.middle(), expected, atol=NEAR + 0.01)  # the pose did arrive
    assert times() == before


@pytest.mark.parametrize(
    ("table", "degree"),
    [
        (palettes.overhang_table(), part_shader.MAP_DEGREE),
        (palettes.terrace_table(), part_shader.MAP_DEGREE),
        (palettes.deviation_table(), part_shader.MAP_DEGREE),
        (palettes.difference_table(), part_shader.DIVERGING_DEGREE),
    ],
)
def test_the_shader_s_polynomials_follow_the_published_maps(table, degree):
    coefficients = part_shader.map_polynomial(table, degree).astype(np.float32)
    x = np.linspace(-1, 1, 256, dtype=np.float32)
    curve = np.stack([np.polyval(coefficients[:, k], x) for k in range(3)], axis=1)
    assert np.abs(curve - table).max() * 255 < 2.0


def test_a_distant_part_is_drawn_without_tremor(stage):
    """10 km from the origin float32 is good to 1 mm only; positions are kept about the middle."""
    colour = show_side(stage, moved(cube(), (1e7, -1e7, 1e7)), np.eye(3), (1, 0, 0), Lens.CLASSES)
    np.testing.assert_allclose(colour, palettes.WARM_GREY, atol=NEAR)
