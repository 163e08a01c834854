"""The box around overhangs holds them all, and large and small ones add up to the whole plan."""

import numpy as np
import pytest

from tests.shapes import cube, joined, moved, sphere
from viewer.geometry import overhang_plan
from viewer.geometry.face_pass import pass_over_faces
from viewer.geometry.overhang import OVERHANG
from viewer.geometry.overhang_plan import box_of_overhangs, large_overhangs
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.turned_part import turn_part

UPS = [(0.0, 0.0, 1.0), (0.3, -0.5, 0.8), (-1.0, 0.2, -0.1)]


def turned(mesh, up):
    part = prepare_part(mesh)
    classes = np.random.default_rng(5).integers(0, 3, mesh.face_count).astype(np.uint8)
    pose = turn_part(part.points_mm, np.array(up) / np.linalg.norm(up))
    return part, pose, classes, pass_over_faces(part, pose, classes, PrintSettings())[0]


@pytest.mark.parametrize("up", UPS)
@pytest.mark.parametrize("many", [10, 10**9])
def test_the_box_holds_all_that_overhangs_and_little_more(up, many, monkeypatch):
    monkeypatch.setattr(overhang_plan, "_MANY_FACES", many)
    mesh = joined(sphere(10.0, 4), moved(sphere(4.0, 4), (20, 0, 0)))
    part, pose, _, under = turned(mesh, up)
    low, high = box_of_overhangs(part, pose, under)
    corners = pose.points_mm[part.faces[under.kinds == OVERHANG]][:, :, :2].reshape(-1, 2)
    exact = corners.min(axis=0), corners.max(axis=0)
    assert (low <= exact[0] + 1e-9).all()
    assert (high >= exact[1] - 1e-9).all()
    slack = 1e-9 if many > 10 else 2 * part.blocks.radii_mm.max() + 1e-9
    assert (low >= exact[0] - slack).all()
    assert (high <= exact[1] + slack).all()


@pytest.mark.parametrize("up", UPS)
@pytest.mark.parametrize("least", [0.0, 0.3, 30.0, 1e9])
def test_large_and_small_overhangs_add_up(up, least):
    mesh = joined(sphere(10.0, 4), moved(cube(12.0), (30, 0, 0)))
    part, _, classes, under = turned(mesh, up)
    plan = np.where(under.kinds == OVERHANG, part.exposed_mm2 * np.abs(under.n_z), 0.0)
    large, sizes, small = large_overhangs(under, classes, least)
    assert np.array_equal(large, np.flatnonzero((plan >= least) & (under.kinds == OVERHANG)))
    assert sizes == pytest.approx(plan[large], rel=1e-6)
    rest = np.bincount(np.delete(classes, large), np.delete(plan, large), 3)
    assert small == pytest.approx(rest, rel=1e-5, abs=2e-6 * max(plan.sum(), 1.0))
