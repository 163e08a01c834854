"""Graze by few points of each direction: closed forms, and the full tier's own numbers."""

import numpy as np
import pytest

from tests import shapes
from viewer.geometry.check_directions import values_of
from viewer.geometry.direction_measures import (
    empty_values,
    fill_supports,
    fill_terms,
    rayed_part,
    search_part,
)
from viewer.geometry.direction_table import COLUMN, ERROR_COLUMN
from viewer.geometry.face_classes import CLASS_A, CLASS_B
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.sphere_directions import spread_directions
from viewer.progress import Progress

UP = np.array([[0.0, 0.0, 1.0]])
KEYS = ("graze_mm2", "graze_a_mm2", "graze_b_mm2")


def grazed(mesh, directions=UP, face_classes=None, settings=None):
    """Columns and standard errors of KEYS, each (d, 3), and the part."""
    part, settings = prepare_part(mesh), settings or PrintSettings()
    if face_classes is None:
        face_classes = np.zeros(mesh.face_count, np.uint8)
    searched = search_part(part, face_classes, settings, None, Progress())
    values, plan = empty_values(len(directions)), np.zeros((len(directions), 3))
    fill_terms(searched, directions, values, plan)
    fill_supports(rayed_part(searched, Progress()), directions, plan, values, Progress())
    found = values[:, [COLUMN[key] for key in KEYS]]
    return found, values[:, [ERROR_COLUMN[key] for key in KEYS]], part


@pytest.mark.parametrize(
    ("mesh", "area_mm2"),
    [
        (shapes.post_and_cap(), 800.0),  # row 22, CALC: the four sides of the post
        (shapes.c_bracket(), 400.0),  # row 24, CALC
        (shapes.tunnel(), 400.0),  # row 25, CALC
        (shapes.sealed_cavity(), 400.0),  # row 27, CALC: the sides of the hollow
    ],
)
def test_walls_beside_supports(mesh, area_mm2):
    found, error, _ = grazed(mesh)
    assert found[0, 0] == pytest.approx(area_mm2, abs=4 * error[0, 0] + 0.02 * area_mm2)
    assert 0 < error[0, 0] < 0.2 * area_mm2
    assert found[0, 1:].tolist() == [0.0, 0.0]


def test_nothing_is_grazed_without_supports_or_without_a_clearance():
    free, error, _ = grazed(shapes.cube())
    assert free[0].tolist() == [0.0, 0.0, 0.0] == error[0].tolist()
    apart, _, _ = grazed(shapes.post_and_cap(), settings=PrintSettings(clearance_mm=0.0))
    assert apart[0].tolist() == [0.0, 0.0, 0.0]


def test_like_the_full_tier_within_its_error():
    """40 directions of a bracket with all classes: no bias, and errors as large as they are said
    to be (root mean square of differences in errors between a half and one and a half)."""
    mesh = shapes.post_and_cap()
    directions = spread_directions(40)
    rng = np.random.default_rng(4)
    face_classes = rng.permutation(np.arange(mesh.face_count) % 3).astype(np.uint8)
    found, error, part = grazed(mesh, directions, face_classes)
    full, full_error = np.empty_like(found), np.empty_like(error)
    for i, up in enumerate(directions):
        pose = Pose(tuple(float(x) for x in up))
        row = values_of(measure_pose(part, face_classes, pose, PrintSettings()), empty_values(1)[0])
        full[i] = row[[COLUMN[key] for key in KEYS]]
        full_error[i] = row[[ERROR_COLUMN[key] for key in KEYS]]
    known = np.hypot(error, full_error)
    sure = known > 0
    away = (found - full)[sure] / known[sure]
    assert 0.4 < np.sqrt(np.mean(away**2)) < 1.5
    assert np.abs(away).max() < 6
    assert found.sum() == pytest.approx(full.sum(), rel=0.1)
    assert {CLASS_A, CLASS_B} < set(face_classes.tolist())
