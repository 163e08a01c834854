"""Faults are seen on and through the part; a cut shows the inside and where the outline stops."""

import numpy as np
import pytest

from tests.scene.conftest import SIDE_PX
from tests.scene.scenery import NEAR, SETTINGS, pose_of
from tests.shapes import box, cube, joined, without_faces
from viewer.geometry.fault_words import CARE, HARMLESS
from viewer.geometry.known_of_mesh import neighbours_of
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_health import Fault, Place, check_mesh
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.section import CutPart
from viewer.scene import palettes
from viewer.scene.fault_looks import FAULT_LOOKS, family, look_of
from viewer.scene.fault_view import EDGE_KINDS, HARMLESS_MARKERS, faulty_edges
from viewer.scene.lenses import Lens


class Report:
    """What the scene reads of a HealthReport; each fault has one place, on its first face."""

    def __init__(self, mesh, **faces_of_kind):
        self.faults = tuple(
            Fault(
                kind, len(faces), 0.0, 1.0, (), "", np.asarray(faces, np.int32),
                places=tuple(Place(mesh.corners_mm[f].mean(axis=0), 0.0, 1.0) for f in faces[:1]),
            )
            for kind, faces in faces_of_kind.items()
        )  # fmt: skip


def show(stage, mesh: Mesh, report=None, side=(0.0, -1.0, 0.0), lens=Lens.FAULTS):
    scene = stage.scene
    scene.set_settings(SETTINGS)
    scene.set_lens(lens)
    scene.show_part(mesh)
    matrix = pose_of(mesh, np.eye(3))
    scene.set_pose(matrix)
    scene.show_faults(report)
    scene.set_view_direction(np.array(side))
    return matrix


def near(image: np.ndarray, colour, tolerance=NEAR) -> np.ndarray:
    return np.all(np.abs(image - np.array(colour)) <= tolerance, axis=2)


def pixel(stage, image, point_mm):
    x, y = stage.display(point_mm).round().astype(int)
    return image[SIDE_PX - 1 - y, x]


def facing(mesh: Mesh, side) -> np.ndarray:
    return np.flatnonzero(mesh.face_normals @ np.array(side) > 0.9)


KIND_OF_FAMILY = ("open_edges", "self_intersecting_faces", "inward_shells", "duplicate_faces",
                  "degenerate_faces")  # fmt: skip


@pytest.mark.parametrize("kind", KIND_OF_FAMILY)
def test_faces_at_fault_have_the_colour_and_hatch_of_their_family(stage, kind):
    mesh = cube()
    front = facing(mesh, (0, -1, 0))
    show(stage, mesh, Report(mesh, **{kind: front}))
    image = stage.draw()
    square = image[60:105, 60:180].reshape(-1, 1, 3)  # above the marker in the middle
    look = look_of(kind)
    pure = near(square, look.colour).mean()
    assert 0.2 < pure <= 1.0
    darker = near(square, np.array(palettes.ink_on(look.colour)), 0.02).mean()
    assert (darker > 0.03) == (look.hatch.value != "none")


def test_no_family_shares_colour_hatch_or_shape_with_another():
    for part in ("colour", "hatch", "shape", "label"):
        assert len({getattr(look, part) for look in FAULT_LOOKS}) == len(FAULT_LOOKS)
    assert {family(kind) for kind in KIND_OF_FAMILY} == set(range(1, len(FAULT_LOOKS) + 1))


def test_a_part_without_faults_is_pale_and_other_lenses_mark_nothing(stage):
    mesh = cube()
    show(stage, mesh, Report(mesh))
    np.testing.assert_allclose(stage.middle(), palettes.WARM_GREY, atol=NEAR)
    show(stage, mesh, Report(mesh, inward_shells=facing(mesh, (0, 1, 0))), lens=Lens.CLASSES)
    assert not near(stage.draw(), palettes.ORANGE).any()


def test_a_marker_shows_through_a_cube(stage):
    mesh = cube()
    back = facing(mesh, (0, 1, 0))
    show(stage, mesh, Report(mesh, self_intersecting_faces=back))  # a diamond: its middle is filled
    image = stage.draw()
    blue = near(image, palettes.BLUE, 0.01)
    assert 40 < blue.sum() < 17**2  # the marker, and nothing of the faces behind the part
    rows, columns = np.nonzero(blue)
    seen = np.array([columns.mean(), SIDE_PX - 1 - rows.mean()])
    middles = mesh.vertices_mm[mesh.faces[back]].mean(axis=1) + np.array([0, 0, 10])
    assert np.linalg.norm(stage.display(middles[0]) - seen) < 1.5  # where the fault's place is


@pytest.mark.parametrize(("gravity", "count"), [(HARMLESS, HARMLESS_MARKERS), (CARE, 60)])
def test_every_place_has_a_marker_unless_it_is_one_of_many_harmless_ones(stage, gravity, count):
    mesh = cube()
    places = tuple(Place(np.array([0.3 * k - 9, 9.0, 0.0]), 0.0, 1.0) for k in range(60))
    report = Report(mesh)
    report.faults = (
        Fault("sliver_faces", 60, 0.0, 1.0, (), "", np.zeros(1, np.int32), "", gravity, places),
    )
    show(stage, mesh, report)
    view = stage.scene._faults
    shown = sum(marker.actor.GetMapper().GetInput().GetNumberOfPoints() for marker in view._markers)
    assert shown == count


def test_open_edges_show_through_the_part_as_lines(stage):
    mesh = without_faces(cube(), facing(cube(), (0, 1, 0)))
    show(stage, mesh, check_mesh(mesh))
    image = stage.draw()
    for x in (-10.0, 10.0):  # the rim of the hole at the back, halfway up
        assert np.allclose(pixel(stage, image, (x, 10.0, 5.0)), palettes.VERMILION, atol=NEAR)


def test_each_kind_of_faulty_edge_is_found_again():
    one, other = box((0, 0, 0), (10, 10, 10)), box((10, 10, 0), (20, 20, 10))
    both = joined(one, other)
    places, index = np.unique(both.vertices_mm, axis=0, return_inverse=True)
    kissing = Mesh(places, index.reshape(-1)[both.faces].astype(np.int32))
    turned = kissing.faces.copy()
    turned[0] = turned[0][::-1]
    gone = np.flatnonzero((kissing.face_normals[:, 2] > 0.9) & (np.arange(24) >= 12))
    mesh = without_faces(Mesh(places, turned), gone)
    report = check_mesh(mesh)
    edges = faulty_edges(mesh, neighbours_of(mesh), report)
    for kind, counted in (("open_edges", report.open_edges),
                          ("nonmanifold_edges", report.nonmanifold_edges),
                          ("flipped_edges", report.flipped_edges)):  # fmt: skip
        assert counted > 0
        assert kind in EDGE_KINDS
        assert len(edges[family(kind)]) == counted


def test_a_cut_shows_the_inside_flat_and_hides_all_above(stage):
    mesh = cube()
    show(stage, mesh, Report(mesh), side=(0.0, -0.6, 0.8))
    whole = stage.draw()
    stage.scene.cut_at(8.0)
    image = stage.draw()
    colour = pixel(stage, image, (0.0, 0.0, 8.0))
    assert np.allclose(colour / colour.max(), np.array(palettes.CUT_GREY) / 0.8157, atol=0.03)
    top_before = pixel(stage, whole, (0.0, 8.0, 20.0))
    top_after = pixel(stage, image, (0.0, 8.0, 20.0))
    assert not np.allclose(top_before, top_after, atol=0.02)
    stage.scene.cut_at(None)
    np.testing.assert_array_equal(stage.draw(), whole)


def test_the_cut_shows_the_hollow_of_a_tube(stage):
    """Material reads as cut surface, the bore does not."""
    outer, inner = box((-10, -10, 0), (10, 10, 20)), box((-5, -5, 2), (5, 5, 18))
    mesh = joined(outer, Mesh(inner.vertices_mm, inner.faces[:, ::-1]))
    show(stage, mesh, Report(mesh), side=(0.0, 0.0, 1.0))
    stage.scene.cut_at(10.0)
    image = stage.draw()
    is_cut = [
        np.ptp(pixel(stage, image, (x, 0.3, 10.0))) > 0.08
        and np.argmax(pixel(stage, image, (x, 0.3, 10.0))) == 2  # cool, not the warm grey
        for x in (-8.0, 0.0, 8.0)
    ]
    assert is_cut == [True, False, True]


def test_the_cut_stays_level_while_the_part_turns(stage):
    mesh = box((0, 0, 0), (10, 10, 30))
    show(stage, mesh, Report(mesh), side=(0.0, -1.0, 0.0))
    stage.scene.cut_at(5.0)
    stage.scene.set_pose(pose_of(mesh, np.array([[0, 0, 1.0], [0, 1, 0], [-1, 0, 0]])))
    image = stage.draw()
    ground = pixel(stage, image, (15.0, 0.0, 9.5))
    below = pixel(stage, image, (15.0, 0.0, 2.5))
    assert np.allclose(below, palettes.WARM_GREY, atol=NEAR)
    assert not np.allclose(ground, palettes.WARM_GREY, atol=NEAR)


def test_crosses_mark_where_the_outline_stops(stage):
    """A cube without its right-hand side: the outline stops at both corners there."""
    mesh = without_faces(cube(), facing(cube(), (1, 0, 0)))
    matrix = show(stage, mesh, None, side=(0.0, -0.5, 0.9), lens=Lens.CLASSES)
    section = CutPart.of(prepare_part(mesh)).section(matrix, 7.0)
    stage.scene.cut_at(7.0)
    stage.scene.show_section(section)
    image = stage.draw()
    for y in (-10.0, 10.0):
        at_end = pixel(stage, image, (10.0, y, 7.0))
        assert np.allclose(at_end, palettes.VERMILION, atol=0.02)
    at_corner = pixel(stage, image, (-10.0, -10.0, 7.0))
    assert not np.allclose(at_corner, palettes.VERMILION, atol=0.1)
    stage.scene.cut_at(None)
    assert not near(stage.draw(), palettes.VERMILION, 0.02).any()
