"""Shells that overlap or touch, surfaces that touch themselves, sheets."""

import numpy as np
import pytest

from tests.shapes import box, extruded, joined, sphere, turned_inside_out
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_health import check_mesh
from viewer.geometry.pose import Pose


def kinds(report):
    return {fault.kind: fault for fault in report.faults if fault.kind != "section_jumps"}


def test_overlapping_and_touching_pairs_are_counted_by_shells():
    """Three boxes in a row that overlap, a fourth against the last: 2 and 1 pairs (CALC)."""
    row = [box([15 * k, 0, 0], [15 * k + 20, 20, 20 + k]) for k in range(3)]
    report = check_mesh(joined(*row, box([50, 1, 1], [60, 19, 19])))
    found = kinds(report)
    assert set(found) == {"overlapping_shells", "touching_shells"}
    assert (found["overlapping_shells"].count, found["touching_shells"].count) == (2, 1)
    assert found["touching_shells"].gravity == "harmless"
    touching = found["touching_shells"]
    assert (touching.from_mm, touching.to_mm) == pytest.approx((0, 22))
    assert report.verdict == "printable with care"


def test_a_cavity_is_no_fault():
    hollow = joined(box([0] * 3, [20] * 3), turned_inside_out(box([5] * 3, [15] * 3)))
    assert kinds(check_mesh(hollow)) == {}


def test_a_loose_surface_beside_a_solid_is_named():
    """A flat square and half of a ball enclose nothing; a tub with an open top does (CALC)."""
    solid = box([0] * 3, [20] * 3)
    square = Mesh([(0, 0, 30), (9, 0, 30), (9, 9, 30), (0, 9, 30)], [[0, 1, 2], [0, 2, 3]])
    ball = sphere(10, 4)
    half = Mesh(
        ball.vertices_mm + np.array([50, 0, 20]),
        ball.faces[ball.corners_mm[..., 2].mean(axis=1) > 0],
    )
    found = kinds(check_mesh(joined(solid, square, half)))["loose_surfaces"]
    assert found.count == 2
    assert found.words == "2 loose surfaces that enclose nothing"
    top = solid.corners_mm[..., 2].min(axis=1) == 20
    deep = Mesh(solid.vertices_mm * [1, 1, 4], solid.faces[~top])
    assert "loose_surfaces" not in kinds(check_mesh(deep))


def test_a_small_leftover_leaves_a_closed_part_closed():
    """A square of 3 mm in a cube of 20 (2,400 mm²): its rim is no hole of the cube (CALC)."""
    solid = box([0] * 3, [20] * 3)

    def square(side):
        corners = [(5, 5, 10), (5 + side, 5, 10), (5 + side, 5 + side, 10), (5, 5 + side, 10)]
        return Mesh(corners, [[0, 1, 2], [0, 2, 3]])

    report = check_mesh(joined(solid, square(3)))
    found = kinds(report)
    assert set(found) == {"open_edges", "loose_surfaces"}
    assert report.open_edges == 4
    assert found["open_edges"].gravity == "with care"
    assert "loose surfaces: take those away" in found["open_edges"].advice
    assert report.verdict == "printable with care"
    # A larger one may be meant as part of the part: 6² of 2,436 mm² is more than a hundredth.
    assert check_mesh(joined(solid, square(6))).verdict == "will fail"
    holed = Mesh(solid.vertices_mm, solid.faces[1:])
    report = check_mesh(joined(holed, square(3)))
    assert report.verdict == "will fail"
    assert "has a hole up to" in report.reason  # one, not two
    assert "in 1 place" in kinds(report)["open_edges"].advice


def test_a_closed_sheet_without_thickness_is_named():
    vertices = [(0, 0, 30), (9, 0, 30), (9, 9, 30), (0, 9, 30)]
    faces = [[0, 1, 2], [0, 2, 3], [0, 2, 1], [0, 3, 2]]
    report = check_mesh(joined(box([0] * 3, [20] * 3), Mesh(vertices, faces)))
    found = kinds(report)
    assert found["zero_thickness_sheets"].count == 1
    assert found["opposite_faces"].count == 2
    assert "duplicate_faces" not in found  # those face the same way
    assert report.duplicate_faces == 2  # the count of the contract holds both
    assert report.verdict == "printable with care"


def test_a_patch_laid_on_the_surface_with_other_facets_is_a_doubled_patch():
    """A square on top of a cube, cut along the other diagonal, facing up as the cube does."""
    solid = box([0] * 3, [20] * 3)
    patch = Mesh([(5, 5, 20), (15, 5, 20), (15, 15, 20), (5, 15, 20)], [[0, 1, 2], [0, 2, 3]])
    found = kinds(check_mesh(joined(solid, patch)))
    assert {"doubled_faces", "open_edges", "loose_surfaces"} <= set(found)
    doubled = found["doubled_faces"]
    assert (doubled.from_mm, doubled.to_mm) == (20, 20)
    assert {12, 13} <= set(doubled.faces.tolist())
    upside_down = Mesh(patch.vertices_mm, patch.faces[:, ::-1])
    assert "doubled_faces" not in kinds(check_mesh(joined(solid, upside_down)))


def test_one_shell_that_touches_itself_along_an_edge_is_with_care():
    """A strip bent round until an edge of one end lies on the side of the other (CALC)."""
    outline = [
        (0, 0), (30, 0), (30, 20), (10, 10), (10, 9), (25, 15), (25, 5), (5, 5), (5, 25), (0, 25),
    ]  # fmt: skip
    apart = extruded(outline, 10)
    assert "edge_contacts" not in kinds(check_mesh(apart))
    outline[3] = (5, 10)
    report = check_mesh(extruded(outline, 10))
    contact = kinds(report)["edge_contacts"]
    assert contact.gravity == "with care"
    assert report.verdict == "printable with care"


@pytest.mark.parametrize("up", [(0, 0, 1), (0, 0, -1), (1, 0, 0)])
def test_a_speck_in_mid_air_is_told_from_one_on_the_platform(up):
    """The speck lies on z = 0, 20 mm below the top, and beside the part in x (CALC)."""
    part = joined(box([0] * 3, [20] * 3), box([40, 5, 0], [41, 6, 1]))
    (speck,) = [f for f in check_mesh(part, Pose(up)).faults if f.kind == "floating_bits"]
    on_platform = up == (0, 0, 1)
    assert ("stands on the platform" in speck.effect) == on_platform
    assert ("mid-air" in speck.effect) == (not on_platform)
    lowest = {(0, 0, 1): 0, (0, 0, -1): 19, (1, 0, 0): 40}[up]
    assert (speck.from_mm, speck.to_mm) == pytest.approx((lowest, lowest + 1))
    assert speck.places[0].height_mm == pytest.approx(lowest + 0.5, abs=0.51)
