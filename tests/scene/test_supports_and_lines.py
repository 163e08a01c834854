"""Supports, landing marks, contour lines, what the pointer shows: seen in the pixels drawn."""

import numpy as np
import pytest

from tests.scene.scenery import NEAR, SETTINGS, Shown, columns, pose_of, tilted
from tests.shapes import box, cube, joined, moved
from viewer.geometry.pose_measures import Island, ShutIn
from viewer.geometry.support_columns import SupportColumns
from viewer.scene import palettes
from viewer.scene.border_lines import region_labels
from viewer.scene.lenses import Lens
from viewer.scene.themes import LIGHT


def lifted_cube(stage, lens=Lens.TOUCH, classes=0):
    """A cube 10 mm above the platform on a block of support, seen from the front."""
    scene = stage.scene
    scene.set_lens(lens)
    scene.show_part(cube())
    scene.set_classes(np.full(12, classes, np.uint8))
    scene.set_pose(pose_of(cube(), np.eye(3), 10.0))
    scene.set_view_direction((0.0, -1.0, 0.0))
    stage.step_back(0.4)
    return Shown(np.zeros(12), np.zeros(12), columns(-1, 0.0, 10.0))


def at(stage, image, point_mm):
    """Colour of the picture at a point in the posed frame."""
    x, y = stage.display(point_mm)
    return image[image.shape[0] - 1 - round(y), round(x)]


def test_supports_darken_what_lies_behind_and_go_with_the_pose(stage):
    shown = lifted_cube(stage)
    before = at(stage, stage.draw(), (0, -10, 5))
    stage.scene.show_measures(shown)
    with_support = at(stage, stage.draw(), (0, -10, 5))
    share = (before - with_support) / (before - np.array(LIGHT.support))
    assert 0.2 < share.mean() < 0.5  # translucent
    stage.scene.set_supports_visible(False)
    np.testing.assert_allclose(at(stage, stage.draw(), (0, -10, 5)), before, atol=NEAR)
    stage.scene.set_supports_visible(True)
    np.testing.assert_allclose(at(stage, stage.draw(), (0, -10, 5)), with_support, atol=NEAR)
    stage.scene.set_pose(pose_of(cube(), tilted(5.0), 10.0))  # no longer theirs
    np.testing.assert_allclose(at(stage, stage.draw(), (0, -10, 5)), before, atol=NEAR)


@pytest.mark.parametrize("side", [-1.0, 1.0])
def test_a_support_body_is_one_layer_of_glass_however_many_walls_lie_behind(stage, side):
    """Ten stepped rows behind one another darken as much as one does, from either side."""
    shown = lifted_cube(stage)
    stage.scene.set_view_direction((0.0, side, 0.0))
    stage.step_back(0.4)
    shown.columns.top_mm[:] -= shown.columns.cell % 2  # every other row lower: inner walls show
    stage.scene.show_measures(shown)
    many = at(stage, stage.draw(), (0, -10, 5))
    one = shown.columns
    front = one.cell % 20 == (0 if side < 0 else 18)  # a row that ends as high
    shown.columns = SupportColumns(
        one.origin_mm, one.pitch_mm, one.shape, one.cell[front], one.bottom_mm[front],
        one.top_mm[front], one.bottom_face[front], one.top_face[front],
    )  # fmt: skip
    stage.scene.show_measures(shown)
    np.testing.assert_allclose(at(stage, stage.draw(), (0, -10, 5)), many, atol=NEAR)


@pytest.mark.parametrize("which", [0, 1, 2])
def test_landing_is_dotted_in_the_hue_of_its_class(stage, which):
    """Columns stand on the lower of two boxes, whose top shows the hue with dots."""
    both = joined(
        box((-10, -10, 0), (10, 10, 5)), moved(box((-10, -10, 0), (10, 10, 5)), (0, 0, 25))
    )
    top = int(np.flatnonzero((both.face_normals[:, 2] > 0.9) & (both.corners_mm[:, 0, 2] < 6))[0])
    classes = np.full(24, which, np.uint8)
    scene = stage.scene
    scene.set_lens(Lens.TOUCH)
    scene.show_part(both)
    scene.set_classes(classes)
    scene.set_supports_visible(False)
    scene.show_measures(Shown(np.zeros(24), np.zeros(24), columns(top, 5.0, 25.0)))
    scene.set_view_direction((0.0, -1.0, 0.5))
    stage.draw()
    image = stage.draw()
    patch = np.array(
        [
            at(stage, image, (x, y, 5.0))
            for x in np.arange(-8, 8, 0.4)
            for y in np.arange(-9, -2, 0.3)
        ]
    )
    hue = np.array(palettes.TOUCH_COLOURS[which])
    brightness = patch @ hue / (hue @ hue)
    np.testing.assert_allclose(patch, brightness[:, None] * hue, atol=0.02)
    assert brightness.max() == pytest.approx(1.0, abs=0.02)
    assert brightness.min() < 0.6
    assert 0.1 < (brightness < 0.8).mean() < 0.5
    scene.set_lens(Lens.OVERHANG)  # landing belongs to the lens of touch
    assert not np.allclose(at(stage, stage.draw(), (0, -8, 5.0)), at(stage, image, (0, -8, 5.0)))


def test_footprint_dots_the_platform(stage):
    shown = lifted_cube(stage)
    stage.scene.set_platform(100, 100)
    stage.scene.set_view_direction((0.0, -1.0, 1.5))
    stage.step_back(0.6)
    shown.columns = columns(-1, 0.0, 0.01)  # too low to hide its own footprint
    bare = stage.draw()
    stage.scene.show_measures(shown)
    image = stage.draw()
    places = [(x, y, 0.0) for x in np.arange(-9, 9, 0.5) for y in np.arange(-9.5, -6, 0.25)]
    change = [np.abs(at(stage, image, p) - at(stage, bare, p)).max() for p in places]
    dotted = np.array(change) > 0.35
    assert 0.05 < dotted.mean() < 0.6


def marked_plate(stage, thickness_mm: float):
    """A plate whose far side alone is half class A, seen from the other side."""
    plate = box((-10, -10, 0), (10, 10, thickness_mm))
    far_face = int(np.flatnonzero(plate.face_normals[:, 2] < -0.9)[0])
    classes = np.zeros(12, np.uint8)
    classes[far_face] = 1
    stage.scene.show_part(plate)
    stage.scene.set_classes(classes)
    return plate, far_face


@pytest.mark.parametrize("thickness_mm", [0.5, 2.0])
def test_border_lines_do_not_show_through_a_thin_wall(stage, thickness_mm):
    marked_plate(stage, thickness_mm)
    stage.scene.set_view_direction((0.0, 0.0, 1.0))
    inside = stage.draw()[60:180, 60:180]
    np.testing.assert_allclose(inside, np.broadcast_to(palettes.WARM_GREY, inside.shape), atol=0.03)
    stage.scene.set_view_direction((0.0, 0.0, -1.0))
    image = stage.draw()[60:180, 60:180]
    line = np.abs(image - LIGHT.contour).max(axis=2) < 0.05
    assert line.sum() > 80  # the diagonal of the far side, from corner to corner


def test_labels_change_where_each_lens_says():
    """A cube tilted by 30°: its lower side (30°) hangs, two more lie at 60°, two are walls."""
    mesh, matrix = cube(), pose_of(cube(), tilted(30.0), 5.0)
    shown = Shown(np.arange(12) % 2 / 2, np.ones(12))
    classes = np.arange(12).astype(np.uint8) % 3
    up_z = mesh.face_normals @ matrix[2, :3]

    def labels(lens, fields=shown.faces, settings=SETTINGS):
        return region_labels(lens, mesh, matrix, settings, classes, fields)

    np.testing.assert_array_equal(labels(Lens.CLASSES, None), classes)
    np.testing.assert_array_equal(labels(Lens.OVERHANG), up_z < -0.8)
    np.testing.assert_array_equal(labels(Lens.TOUCH), np.arange(12) % 2)
    # Terraces as wide as the road lie at atan(0.2 / 0.42) = 25.5°; nothing here is flatter.
    assert not labels(Lens.TERRACES).any()
    flatter = pose_of(mesh, tilted(20.0), 5.0)
    wide = region_labels(Lens.TERRACES, mesh, flatter, SETTINGS, classes, shown.faces)
    np.testing.assert_array_equal(wide, np.abs(mesh.face_normals @ flatter[2, :3]) > 0.9)


def test_brush_ring_follows_the_surface(stage):
    """On a flat side the ring is a circle of the brush's radius; it goes when hidden."""
    scene = stage.scene
    scene.show_part(cube())
    scene.set_view_direction((0.0, 0.0, 1.0))
    bare = stage.draw()
    scene.show_brush_ring(np.array([1.0, -2.0, 10.0]), np.array([0, 0, 1.0]), 5.0)
    image = stage.draw()
    changed = np.argwhere(np.abs(image - LIGHT.accent).max(axis=2) < 0.05)
    assert len(changed) > 100
    x, y = changed[:, 1], image.shape[0] - 1 - changed[:, 0]
    centre = stage.display((1.0, -2.0, 10.0))
    mm = np.linalg.norm(stage.display((6.0, -2.0, 10.0)) - centre) / 5.0
    radius = np.hypot(x - centre[0], y - centre[1]) / mm
    np.testing.assert_allclose(radius, 5.0, atol=2.0 / mm)
    scene.hide_brush_ring()
    np.testing.assert_array_equal(stage.draw(), bare)


def test_preview_tints_and_outlines_the_faces_of_a_click(stage):
    scene = stage.scene
    scene.show_part(cube())
    scene.set_view_direction((0.0, 0.0, 1.0))
    bare = stage.draw()
    faces = np.flatnonzero(cube().face_normals[:, 2] > 0.9)
    scene.preview_faces(faces)
    image = stage.draw()
    tint = 0.7 * np.array(palettes.WARM_GREY) + 0.3 * np.array(LIGHT.accent)
    np.testing.assert_allclose(image[120, 120], tint, atol=0.02)
    outline = np.abs(image - LIGHT.accent).max(axis=2) < 0.08
    assert outline.sum() > 4 * 100  # four sides, none across the diagonal
    assert not outline[110:130, 110:130].any()
    scene.preview_faces(None)
    np.testing.assert_array_equal(stage.draw(), bare)


def test_hull_face_is_outlined_and_goes_with_the_part(stage):
    scene = stage.scene
    scene.show_part(cube())
    scene.set_view_direction((0.0, 0.0, 1.0))
    bare = stage.draw()
    square = np.array([[-10, -10, 10], [10, -10, 10], [10, 10, 10], [-10, 10, 10.0]])
    scene.show_hull_face(square)
    assert np.abs(stage.draw() - bare)[120, 120].max() > 0.1
    scene.show_part(None)
    scene.show_part(cube())
    np.testing.assert_array_equal(stage.draw(), bare)


def test_islands_and_support_shut_in_are_marked_through_the_part(stage):
    mesh = cube()
    scene = stage.scene
    scene.set_settings(SETTINGS)
    scene.set_lens(Lens.TOUCH)
    scene.show_part(mesh)
    matrix = pose_of(mesh, np.eye(3), 10.0)
    scene.set_pose(matrix)
    scene.set_view_direction(np.array([0.0, -1.0, 0.0]))
    none = np.zeros(mesh.face_count)
    island = Island(10.0, 50, (-4.0, 9.0, -10.0), 1.0, 10.0)
    shut = ShutIn((4.0, 0.0, 3.0), 23.0, 100.0, True)
    scene.show_measures(Shown(none, none, columns(-1, 0, 10), (island,), (shut,)))
    image = stage.draw()
    for place, colour in ((island, palettes.ISLAND_COLOUR), (shut, palettes.SHUT_IN_COLOUR)):
        posed = matrix[:3, :3] @ place.place_mm + matrix[:3, 3]
        np.testing.assert_allclose(at(stage, image, posed), colour, atol=0.02)
    scene.set_lens(Lens.CLASSES)
    seen = at(stage, stage.draw(), matrix[:3, :3] @ shut.place_mm + matrix[:3, 3])
    assert not np.allclose(seen, palettes.SHUT_IN_COLOUR, atol=0.1)
