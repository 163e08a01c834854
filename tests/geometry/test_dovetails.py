"""Dovetails: closed by two libraries, as large as their closed form, slide in, spare class A."""

import numpy as np
import pytest

from tests import shapes
from tests.solids import assert_closed_by_two_libraries, halves, solid_of
from viewer.errors import RequestProblem
from viewer.geometry.closed_part import closed_part
from viewer.geometry.cut_pieces import CutPlane, cut_pieces
from viewer.geometry.dovetails import (
    FLARE_DEG,
    DovetailSizes,
    add_dovetail,
    dovetail_pieces,
)
from viewer.geometry.face_classes import CLASS_A
from viewer.geometry.prepared_part import prepare_part

SIZES = DovetailSizes(width_mm=4.0, gap_mm=0.2, wall_mm=1.0)
SLOPE = np.tan(np.radians(FLARE_DEG))


CUTS = [
    (shapes.cube(), ((0, 0, 0), (0, 0, 1))),
    (shapes.cube(), ((1, 2, 0), (1, 2, 3))),
    (shapes.box([0, 0, 0], [60, 16, 20]), ((30, 0, 0), (1, 0.2, 0.1))),
    (shapes.sphere(subdivisions=3), ((0, 0, 0.5), (0, 0, 1))),
]


@pytest.mark.parametrize(("mesh", "plane"), CUTS)
def test_tail_and_slot_are_closed_fit_and_slide(mesh, plane):
    none = np.zeros(mesh.face_count, np.uint8)
    cut, below, above = halves(mesh, *plane)
    made = add_dovetail(below, above, 0, cut, none, SIZES)
    assert made.sentence == ""
    assert made.length_mm >= 1.5 * SIZES.width_mm
    for piece in (made.below, made.above):
        assert_closed_by_two_libraries(piece.mesh)
        assert piece.volume_mm3 == pytest.approx(piece.mesh.signed_volume_mm3)
    lower, upper = solid_of(made.below.mesh), solid_of(made.above.mesh)
    # Together they fill the whole but for the glue gap, and nothing overlaps.
    whole = mesh.signed_volume_mm3
    assert (lower ^ upper).volume() == pytest.approx(0, abs=1e-6 * whole)
    gap = whole - made.below.volume_mm3 - made.above.volume_mm3
    about = 2 * (SIZES.height_mm / np.cos(np.radians(FLARE_DEG))) + SIZES.width_mm
    assert 0 < gap < 2.0 * SIZES.gap_mm * about * (made.length_mm + SIZES.width_mm)
    # The slot is what the tail fills, and some more.
    assert above.volume_mm3 - made.above.volume_mm3 - gap == pytest.approx(
        made.below.volume_mm3 - below.volume_mm3
    )
    # It slides out along one direction and never straight off.
    normal = np.array(cut.normal)
    assert (lower.translate((-1.0 * normal).tolist()) ^ upper).volume() > 0.1


def test_closed_form_in_a_cube():
    """CALC: a trapezoid drawn out; the slot is grown by the gap on flanks, top and blind end."""
    mesh = shapes.cube()
    cut, below, above = halves(mesh, (0, 0, 0), (0, 0, 1))
    made = add_dovetail(below, above, 0, cut, np.zeros(12, np.uint8), SIZES)
    w, h, gap = SIZES.width_mm, SIZES.height_mm, SIZES.gap_mm
    tail = (made.below.volume_mm3 - below.volume_mm3) / (w * h + h * h * SLOPE)
    foot = w + 2 * gap / np.cos(np.radians(FLARE_DEG))
    deep = h + gap
    slot = (above.volume_mm3 - made.above.volume_mm3) / (foot * deep + deep * deep * SLOPE)
    assert slot - tail == pytest.approx(gap, abs=1e-6)
    assert tail == pytest.approx(made.length_mm, rel=0.1)
    # The tail slides out along x or y: no volume in common on the whole way, exactly one way.
    lower, upper = solid_of(made.below.mesh), solid_of(made.above.mesh)
    ways = [np.array(way, float) for way in ((1, 0, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0))]
    free = [
        all((lower.translate((s * way).tolist()) ^ upper).volume() < 1e-6 for s in (1, 5, 15))
        for way in ways
    ]
    assert sum(free) == 1


def test_classes_are_carried_over_and_class_a_is_never_opened():
    mesh = shapes.cube()
    front = np.abs(mesh.face_normals[:, 0]) > 0.9
    classes = np.where(front, CLASS_A, 0).astype(np.uint8)
    cut, below, above = halves(mesh, (0, 0, 0), (0, 0, 1))
    made = add_dovetail(below, above, 0, cut, classes, SIZES)
    assert made.sentence == ""
    for piece, before in ((made.below, below), (made.above, above)):
        area = piece.mesh.face_areas_mm2[piece.classes(classes) == CLASS_A].sum()
        assert area == pytest.approx(400.0)
        kept = piece.origin_face >= 0
        own = piece.mesh.face_normals[kept & (piece.mesh.face_areas_mm2 > 1e-9)]
        of = piece.origin_face[kept & (piece.mesh.face_areas_mm2 > 1e-9)]
        np.testing.assert_allclose(own, mesh.face_normals[of], atol=1e-9)
        assert piece.sides == before.sides
    every = np.full(12, CLASS_A, np.uint8)
    refused = add_dovetail(below, above, 0, cut, every, SIZES)
    assert refused.length_mm == 0
    assert refused.below is below
    assert "class A" in refused.sentence


def test_quarters_and_where_there_is_no_room():
    planes = [CutPlane((0, 0, 0), (1, 0, 0)), CutPlane((0, 0, 0), (0, 1, 0))]
    whole = cut_pieces(closed_part(prepare_part(shapes.box([-20] * 3, [20] * 3))), planes)
    none = np.zeros(12, np.uint8)
    made, sentences = dovetail_pieces(whole.pieces, planes, none, DovetailSizes(3.0, 0.1, 0.8))
    assert sentences == ()
    for piece in made:
        assert_closed_by_two_libraries(piece.mesh)
        assert piece.volume_mm3 == pytest.approx(piece.mesh.signed_volume_mm3)
    solids = [solid_of(piece.mesh) for piece in made]
    for i, one in enumerate(solids):
        for other in solids[i + 1 :]:
            assert (one ^ other).volume() == pytest.approx(0, abs=1e-6)
    cut, below, above = halves(shapes.cone(10.0, 40.0), (0, 0, 36), (0, 0, 1))
    flat = add_dovetail(below, above, 0, cut, np.zeros(200, np.uint8), SIZES)
    assert flat.above is above
    assert "no room for a dovetail" in flat.sentence
    with pytest.raises(RequestProblem, match="Dovetails are"):
        DovetailSizes(0.1)
