"""Sums over rows of single precision are what numpy adds up in double precision."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from viewer.geometry.face_rows import BLOCK, areas_by_class, face_rows, n_z_of_all


def random_faces(count: int, seed: int):
    rng = np.random.default_rng(seed)
    normals = rng.normal(size=(count, 3))
    normals /= np.linalg.norm(normals, axis=1)[:, None]
    return normals.astype(np.float32), rng.uniform(0, 5, count), rng.integers(0, 3, count)


@given(st.integers(0, 3 * BLOCK + 5), st.integers(0, 1000))
def test_n_z_is_the_scalar_product(count, seed):
    normals, areas, _ = random_faces(count, seed)
    up = np.array([0.36, -0.48, 0.8])
    n_z = n_z_of_all(face_rows(normals, areas), up)
    assert n_z.dtype == np.float32
    assert np.abs(n_z - normals.astype(float) @ up).max(initial=0.0) < 3e-7


@given(st.integers(0, BLOCK), st.integers(0, 1000))
def test_sums_of_a_block_are_those_of_its_classes(count, seed):
    normals, areas, classes = random_faces(count, seed)
    n_z = np.ascontiguousarray(normals[:, 2])
    found = areas_by_class(areas.astype(np.float32), n_z, classes.astype(np.uint8))
    for sums, each in zip(found, (areas, areas * np.abs(n_z)), strict=True):
        true = np.bincount(classes, each, 3) if count else np.zeros(3)
        assert np.allclose(sums, true, rtol=2e-6, atol=1e-6)
