"""The union in a process of its own is the union in ours, and can be given up at any moment."""

import threading
import time

import numpy as np
import pytest

from tests import shapes
from viewer.errors import Cancelled
from viewer.geometry import unite_solids as module
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.unite_solids import FEW_FACES, Solid, unite_here, unite_solids
from viewer.progress import Progress


def ball(subdivisions: int, by: list[float], first_id: int) -> Solid:
    mesh = shapes.moved(shapes.sphere(10, subdivisions), by)
    ids = np.arange(mesh.face_count, dtype=np.uint64) + np.uint64(first_id)
    return Solid(np.array(mesh.vertices_mm), mesh.faces.astype(np.uint64), ids)


def balls(subdivisions: int) -> list[Solid]:
    one = ball(subdivisions, [0, 0, 0], 0)
    return [one, ball(subdivisions, [8, 3, 1], len(one.faces))]


def test_large_bodies_are_united_elsewhere_with_the_same_result(monkeypatch):
    called = []
    run = module.run_in_own_process
    monkeypatch.setattr(
        module, "run_in_own_process", lambda *a, **k: called.append(1) or run(*a, **k)
    )
    solids = balls(5)
    assert sum(len(solid.faces) for solid in solids) > FEW_FACES
    apart, here = unite_solids(solids), unite_here(solids)
    assert called
    for one, other in zip(apart, here, strict=True):
        assert np.array_equal(one, other)
    assert 0 < len(here.faces) < sum(len(solid.faces) for solid in solids)


def test_small_bodies_start_no_process(monkeypatch):
    monkeypatch.setattr(module, "run_in_own_process", None)
    assert len(unite_solids(balls(2)).faces)


@pytest.mark.parametrize("subdivisions", [2, 5])
def test_what_is_not_solid_is_said(subdivisions):
    opened = balls(subdivisions)
    opened[1] = Solid(opened[1].points_mm, opened[1].faces[1:], opened[1].face_ids[1:])
    assert unite_solids(opened) is None


def test_preparing_a_part_of_meeting_shells_can_be_given_up_in_the_union():
    pair = shapes.joined(shapes.sphere(10, 7), shapes.moved(shapes.sphere(10, 7), [8, 3, 1]))
    begun_s = time.monotonic()
    prepare_part(pair)
    whole_s = time.monotonic() - begun_s
    cancelled_s = []

    def cancel_in_the_union(fraction, doing):
        if doing == "Uniting shells" and not cancelled_s:

            def cancel():
                cancelled_s.append(time.monotonic())
                progress.cancel()

            threading.Timer(0.05, cancel).start()

    progress = Progress(cancel_in_the_union)
    with pytest.raises(Cancelled):
        prepare_part(shapes.moved(pair, [0, 0, 0]), progress)
    assert time.monotonic() - cancelled_s[0] < 0.5 * whole_s
