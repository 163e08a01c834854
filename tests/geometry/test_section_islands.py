"""Islands of sections against closed forms and against polygons by trimesh and shapely."""

from functools import reduce

import numpy as np
import pytest
import shapely
import trimesh

from tests import shapes
from viewer.geometry.mesh import Mesh
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.section_islands import section_islands
from viewer.geometry.turned_part import turn_part


def cut(mesh, up=(0, 0, 1), planes=10):
    part = prepare_part(mesh)
    return section_islands(part, turn_part(part.points_mm, up, part.point_blocks), planes)


def test_a_finger_beside_a_block_is_told_apart():
    """CALC: 20 × 20 and 0.8 × 5; sides from area and perimeter."""
    block, finger = shapes.box((0, 0, 0), (20, 20, 40)), shapes.box((30, 0, 0), (30.8, 5, 60))
    plate = shapes.box((0, 0, -2), (31, 20, 0))
    found = cut(shapes.joined(plate, block, finger), planes=31)
    assert np.bincount(found.plane).tolist() == [1] + [2] * 20 + [1] * 10
    beside = found.plane == 10
    assert sorted(found.thickness_mm()[beside]) == pytest.approx([0.8, 20.0], abs=2e-3)
    assert sorted(found.area_mm2[beside]) == pytest.approx([4.0, 400.0], rel=2e-3)
    assert np.ptp(np.stack([found.low_mm, found.high_mm]), axis=0)[found.plane == 25].min() > 0.8


def test_a_hole_belongs_to_what_is_round_it_and_what_stands_in_it_does_not():
    """Two tubes one in the other, a rod in the middle; the polygons of trimesh and shapely."""
    tubes = [trimesh.creation.annulus(r, r + 1.5, 30, sections=40) for r in (5, 10)]
    rod = trimesh.creation.cylinder(2, 30, sections=24)
    bores = trimesh.creation.box((20, 6, 30)).difference(
        [trimesh.creation.cylinder(2, 40, sections=16).apply_translation((x, 0, 0))
         for x in (-6, 0, 6)]
    )  # fmt: skip
    bores.apply_translation((40, 0, 0))
    whole = trimesh.util.concatenate([*tubes, rod, bores])
    up = np.array((0.2, 0.1, 1.0)) / np.linalg.norm((0.2, 0.1, 1.0))
    found = cut(Mesh(whole.vertices, whole.faces), up, planes=8)
    heights = whole.vertices @ up
    low, step = heights.min(), found.step_mm
    for plane in range(8):
        section = whole.section(plane_origin=up * (low + (plane + 0.5) * step), plane_normal=up)
        loops = [shapely.Polygon(loop) for loop in section.to_2D()[0].discrete]
        both = reduce(lambda one, other: one.symmetric_difference(other), loops)
        polygons = shapely.get_parts(both)
        here = found.plane == plane
        assert sorted(found.area_mm2[here]) == pytest.approx(
            sorted(p.area for p in polygons),
            rel=3e-3,
            abs=0.05,  # several shells are united half a µm larger than they are
        )
        assert sorted(found.perimeter_mm[here]) == pytest.approx(
            sorted(p.length for p in polygons),
            rel=3e-3,
            abs=0.05,  # several shells are united half a µm larger than they are
        )


def test_shells_that_overlap_are_one_island_and_open_outlines_are_none():
    found = cut(
        shapes.joined(shapes.box((0, 0, 0), (10, 10, 10)), shapes.box((5, 5, 0), (15, 15, 10))),
        planes=4,
    )
    assert found.area_mm2 == pytest.approx([175.0] * 4, rel=1e-3)  # CALC: 2·100 − 25
    cube = shapes.cube(10)
    assert not len(cut(Mesh(cube.vertices_mm, cube.faces[1:]), (1, 2, 3), planes=4).plane) > 3
