"""How much of touching and overlapping shells lies on the surface of their union (CALC)."""

import numpy as np
import pytest

from tests import shapes
from viewer.geometry.prepared_part import prepare_part


def lens_area(radius: float, distance: float) -> float:
    """Surface of two equal balls outside each other: 2 · 2πr(r + d/2)."""
    return 4 * np.pi * radius * (radius + distance / 2)


@pytest.mark.parametrize("gap", [0.0, 0.0009, -0.0009, -3.0])
def test_post_against_cap(gap):
    """Union: 800 under the cap, 900 on it, 600 around it, 800 around the post, 100 below."""
    pair = shapes.joined(
        shapes.box([10, 10, 0], [20, 20, 20 - gap]), shapes.box([0, 0, 20], [30, 30, 25])
    )
    part = prepare_part(pair)
    assert part.overlapping
    assert part.exposed_mm2.sum() == pytest.approx(3200, rel=1e-4)
    assert part.volume_mm3 == pytest.approx(6500, rel=1e-4)
    assert part.centroid_mm + part.centre_mm == pytest.approx(
        [15, 15, (2000 * 10 + 4500 * 22.5) / 6500], abs=1e-3
    )


def test_bodies_that_stand_apart_are_left_alone():
    pair = shapes.joined(
        shapes.box([10, 10, 0], [20, 20, 19.99]), shapes.box([0, 0, 20], [30, 30, 25])
    )
    part = prepare_part(pair)
    assert not part.overlapping
    assert part.exposed_share.min() == 1


def test_two_balls_in_one_another():
    pair = shapes.joined(shapes.sphere(10, 5), shapes.moved(shapes.sphere(10, 5), [8, 3, 1]))
    expected = lens_area(10, float(np.linalg.norm([8, 3, 1])))
    assert prepare_part(pair).exposed_mm2.sum() == pytest.approx(expected, rel=2e-3)


def test_repeated_shells_count_once():
    cube = shapes.cube()
    part = prepare_part(shapes.joined(cube, cube))
    assert part.exposed_mm2.sum() == pytest.approx(2400, rel=1e-4)
    assert part.volume_mm3 == pytest.approx(8000, rel=1e-4)


def test_a_cavity_is_surface():
    part = prepare_part(shapes.sealed_cavity())
    assert not part.overlapping
    assert part.exposed_mm2.sum() == pytest.approx(2400 + 600)
    assert part.volume_mm3 == pytest.approx(7000)


def test_a_body_that_stands_in_a_cavity():
    """Its foot and the spot it stands on are inside the material."""
    solids = shapes.joined(
        shapes.box([0] * 3, [20] * 3),
        shapes.box([5] * 3, [15] * 3),
        shapes.box([7, 7, 5], [8, 8, 9]),
    )
    part = prepare_part(solids)
    assert part.exposed_mm2.sum() == pytest.approx(2400 + 600 + 4 * 4, rel=1e-4)
    assert part.volume_mm3 == pytest.approx(7000 + 4, rel=1e-4)


def test_open_shells_are_asked_point_by_point():
    """The cap lacks a triangle of its upper side, far from the post: no exact union, same share."""
    cap = shapes.box([0, 0, 20], [30, 30, 25])
    top = np.flatnonzero(cap.face_normals[:, 2] > 0.9)[:1]
    pair = shapes.joined(shapes.post_inside_cap(), shapes.box([50, 0, 0], [60, 10, 10]))
    opened = shapes.joined(shapes.box([10, 10, 0], [20, 20, 20]), shapes.without_faces(cap, top))
    part = prepare_part(opened)
    under = (part.normals[:, 2] < -0.9) & (part.points_mm[part.faces[:, 0], 2] > 0)
    assert part.exposed_mm2[under].sum() == pytest.approx(800, rel=0.01)
    assert any("estimate" in note for note in part.notes)
    assert prepare_part(pair).exposed_mm2.sum() == pytest.approx(3200 + 600, rel=1e-4)
