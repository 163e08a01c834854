"""Boxes by eights against each box on its own, in double precision (CALC)."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from viewer.errors import Cancelled
from viewer.geometry.eight_boxes import build_eight_boxes
from viewer.geometry.eight_lanes import LANES, boxes_met
from viewer.progress import Progress


def entry(box, origin, direction, limit):
    """Where a ray enters a box [low, high], None if not within the limit (slabs; CALC)."""
    with np.errstate(divide="ignore", invalid="ignore"):
        ends = (box - origin) / direction
    start, end = np.nanmax([0.0, *ends.min(axis=0)]), np.nanmin([limit, *ends.max(axis=0)])
    return start if start <= end else None


def faces_about(rng, count, size_mm, away_mm=0.0):
    """(count, 3, 3) float64 small faces in a cube, its middle so far from the origin."""
    corners = rng.uniform(-0.5, 0.5, (count, 1, 3)) + rng.normal(0, 0.03, (count, 3, 3))
    return size_mm * corners + away_mm


@given(st.integers(0, 2**32 - 1), st.sampled_from([1, 7, 8, 9, 64, 65, 200]))
@settings(max_examples=12, deadline=None)
def test_no_box_that_a_ray_meets_is_missed(seed, count):
    rng = np.random.default_rng(seed)
    size_mm = 10.0 ** rng.uniform(-1, 4)
    corners = faces_about(rng, count, size_mm, rng.choice([0.0, 10 * size_mm]))
    tree = build_eight_boxes(corners)
    boxes = np.stack([corners.min(axis=1), corners.max(axis=1)], axis=1)
    entries = np.empty(LANES, np.float32)
    met, asked = 0, 0
    for _ in range(8):
        origin = corners.mean(axis=(0, 1)) + size_mm * rng.normal(size=3)
        direction = rng.normal(size=3)
        direction[rng.integers(3)] *= rng.choice([0.0, 1.0])
        direction /= np.linalg.norm(direction)
        per = np.where(direction == 0, 1e15, 1 / np.where(direction == 0, 1, direction))
        single = origin.astype(np.float32), per.astype(np.float32)
        limit = size_mm * rng.uniform(0.1, 5)
        for node in range(tree.lowest, len(tree.nodes)):
            bits = boxes_met(tree.nodes, node, *single, np.float32(limit), entries)
            for k in range(LANES):
                face = LANES * (node - tree.lowest) + k
                if face >= count:
                    assert not bits >> k & 1  # there is nothing in an empty box
                    continue
                found = entry(boxes[face], origin, direction, limit)
                asked += 1
                met += bits >> k & 1
                if found is not None:
                    assert bits >> k & 1
                    assert entries[k] <= found + 1e-4 * size_mm
    assert met < asked  # a tree that says yes to everything would pass all the rest


def test_every_face_hangs_under_the_uppermost_node_once():
    for count in (1, 8, 9, 600, 5000):
        tree = build_eight_boxes(faces_about(np.random.default_rng(count), count, 20.0))
        faces, waiting = [], [0]
        while waiting:
            node = waiting.pop()
            low, high = tree.nodes[node, :24], tree.nodes[node, 24:48]
            for k in range(LANES):
                if low[k] > high[k]:
                    continue
                if node >= tree.lowest:
                    faces.append(LANES * (node - tree.lowest) + k)
                else:
                    waiting.append(LANES * node + int(tree.shifts[tree.nodes[node, 63]]) + k)
        assert sorted(faces) == list(range(count))
    assert len(build_eight_boxes(np.empty((0, 3, 3))).nodes) == 1


def test_it_can_be_called_off():
    progress = Progress()
    progress.cancel()
    with pytest.raises(Cancelled):
        build_eight_boxes(np.zeros((20, 3, 3)), progress)
