"""Pins and holes: closed, as large as they are said to be, with the glue gap between them."""

import manifold3d
import numpy as np
import pytest
import trimesh

from tests import shapes
from tests.solids import halves, solid_of
from viewer.errors import RequestProblem
from viewer.geometry.closed_part import closed_part
from viewer.geometry.cut_pieces import CutPlane, cut_pieces
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.registration_pins import SIDES, PinSizes, add_pins, pin_pieces

SIZES = PinSizes(diameter_mm=3.0, length_mm=4.0, chamfer_mm=0.4, glue_gap_mm=0.2, wall_mm=1.0)


def pin_mm3(radius, length, chamfer):
    """CALC: a prism and a frustum over a regular polygon of SIDES sides."""
    share = 0.5 * SIDES * np.sin(2 * np.pi / SIDES)
    top = radius - chamfer
    frustum = chamfer / 3 * (radius**2 + radius * top + top**2)
    return share * (radius**2 * (length - chamfer) + frustum)


CUTS = [
    (shapes.cube(), ((0, 0, 0), (0, 0, 1))),
    (shapes.cube(), ((1, 2, 0), (1, 2, 3))),
    (shapes.box([0, 0, 0], [8, 8, 30]), ((0, 0, 15), (0, 0, 1))),  # room for one
    (shapes.post_and_cap(), ((0, 0, 10), (0, 0, 1))),
    (shapes.torus(30.0, 8.0, 96, 72), ((0, 0, 0), (1, 0.3, 0))),
]


@pytest.mark.parametrize(("mesh", "plane"), CUTS)
def test_pins_and_holes_have_the_volume_of_their_closed_form(mesh, plane):
    cut, below, above = halves(mesh, *plane)
    made = add_pins(below, above, 0, cut, SIZES)
    count = len(made.places_mm)
    assert count == (1 if mesh is CUTS[2][0] else 2)
    radii = SIZES.radii_mm[:count]
    pins = sum(pin_mm3(r, 4.0, 0.4) for r in radii)
    holes = sum(pin_mm3(r + 0.2, 4.2, 0.4) for r in radii)
    assert made.below.volume_mm3 - below.volume_mm3 == pytest.approx(pins, rel=1e-6)
    assert above.volume_mm3 - made.above.volume_mm3 == pytest.approx(holes, rel=1e-6)
    for piece in (made.below, made.above):
        body = trimesh.Trimesh(piece.mesh.vertices_mm, piece.mesh.faces, process=False)
        assert body.is_watertight
        assert body.is_winding_consistent
        assert solid_of(piece.mesh).status() == manifold3d.Error.NoError
        assert (piece.classes(np.ones(mesh.face_count, np.uint8))[piece.origin_face < 0] == 0).all()


@pytest.mark.parametrize(("mesh", "plane"), CUTS)
def test_the_pieces_go_together_without_touching_and_holes_stay_inside(mesh, plane):
    """The modeller finds nothing common to both, and a wall of 1 mm around each hole."""
    cut, below, above = halves(mesh, *plane)
    made = add_pins(below, above, 0, cut, SIZES)
    common = solid_of(made.below.mesh) ^ solid_of(made.above.mesh)
    assert common.volume() == pytest.approx(0, abs=1e-6)
    uncut = above.mesh.faces[above.origin_face >= 0]
    surface = trimesh.Trimesh(above.mesh.vertices_mm, uncut, process=False)
    corners = made.above.mesh.vertices_mm[len(above.mesh.vertices_mm) :]
    _, away, _ = trimesh.proximity.closest_point_naive(surface, corners)
    assert away.min() > 0.95


def test_both_ways_round_only_one_fits():
    """Turned by half a turn about the middle of the cut the thick pin meets the thin hole."""
    cut, below, above = halves(shapes.cube(), (0, 0, 0), (0, 0, 1))
    made = add_pins(below, above, 0, cut, SIZES)
    turned = solid_of(made.below.mesh).rotate([0, 0, 180])
    assert (turned ^ solid_of(made.above.mesh)).volume() > 1.0


def test_quarters_are_pinned_across_every_cut():
    planes = [CutPlane((0, 0, 0), (1, 0, 0)), CutPlane((0, 0, 0), (0, 1, 0))]
    quarters = cut_pieces(closed_part(prepare_part(shapes.cube())), planes).pieces
    pinned, sentences = pin_pieces(quarters, planes, PinSizes(2.0, 2.0, 0.2, 0.1, 0.6))
    assert sentences == ()
    solids = [solid_of(piece.mesh) for piece in pinned]
    for i, one in enumerate(solids):
        assert one.status() == manifold3d.Error.NoError
        for other in solids[i + 1 :]:
            assert (one ^ other).volume() == pytest.approx(0, abs=1e-6)


def test_where_there_is_no_room_the_face_stays_flat():
    cut, below, above = halves(shapes.cone(10.0, 40.0), (0, 0, 38), (0, 0, 1))
    made = add_pins(below, above, 0, cut, SIZES)
    assert len(made.places_mm) == 0
    assert "no room" in made.sentence
    assert made.below is below
    with pytest.raises(RequestProblem, match="Pins are"):
        PinSizes(0.0)
