"""The part as received inside a job: to the bit, small, and nothing that is damaged is believed."""

import struct
import zlib

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.shapes import sphere
from viewer.errors import Cancelled
from viewer.files.received_mesh import packed_mesh, unpacked_mesh
from viewer.geometry.mesh import Mesh
from viewer.progress import Progress


def random_mesh(seed: int) -> Mesh:
    """Triangles of vertices anywhere, with all digits, some of them not used."""
    rng = np.random.default_rng(seed)
    vertices = rng.normal(size=(rng.integers(1, 60), 3)) * 10.0 ** rng.integers(-9, 8)
    return Mesh(vertices, rng.integers(0, len(vertices), (rng.integers(1, 90), 3)))


def same(first: Mesh, second: Mesh) -> bool:
    return (
        first.vertices_mm.tobytes() == second.vertices_mm.tobytes()
        and first.faces.tobytes() == second.faces.tobytes()
    )


@given(st.integers(0, 10**6))
@settings(deadline=None)
def test_a_mesh_comes_back_to_the_bit(seed):
    mesh = random_mesh(seed)
    assert same(unpacked_mesh(packed_mesh(mesh)), mesh)


def test_it_takes_a_third_of_the_bytes_that_it_holds():
    """float32 positions and 12 bytes of corners: 6 + 12 bytes a triangle of an STL that is merged
    (half as many vertices as triangles; Euler), and 12 + 12 as float64 (CALC).
    """
    ball = sphere(20.0, 5)
    ball = Mesh(ball.vertices_mm.astype(np.float32), ball.faces)
    assert ball.face_count > 15_000
    assert len(packed_mesh(ball)) < 24 * ball.face_count / 3


def test_what_packs_to_more_than_is_allowed_is_not_kept():
    mesh = random_mesh(1)
    size = len(packed_mesh(mesh))
    assert packed_mesh(mesh, most_bytes=size) is not None
    assert packed_mesh(mesh, most_bytes=size - 1) is None


@given(st.integers(0, 10**4), st.data())
@settings(deadline=None)
def test_damaged_bytes_give_a_true_mesh_or_none(seed, data):
    content = bytearray(packed_mesh(random_mesh(seed)))
    place = data.draw(st.integers(0, len(content) - 1))
    content[place] ^= data.draw(st.integers(1, 255))
    found = unpacked_mesh(bytes(content))
    if found is not None:  # zlib's checksum leaves next to nothing
        assert np.isfinite(found.vertices_mm).all()
        assert found.faces.min() >= 0
        assert found.faces.max() < len(found.vertices_mm)


def head(vertices: int, faces: int) -> bytes:
    return struct.pack("<8s2Q", b"receiv01", vertices, faces)


def of(vertices: np.ndarray, steps: np.ndarray) -> bytes:
    """Packed by the description in the module, written anew."""
    columns = b"".join(
        np.ascontiguousarray(column, "<f8").view(np.uint8).reshape(-1, 8).T.tobytes()
        for column in vertices.T
    )
    indices = np.asarray(steps, "<u4").view(np.uint8).reshape(-1, 4).T.tobytes()
    return head(len(vertices), len(steps) // 3) + zlib.compress(columns + indices)


TRIANGLE = np.array([[0.0, 0, 0], [1, 0, 0], [0, 1, 0]])


def test_the_format_is_the_one_described():
    found = unpacked_mesh(of(TRIANGLE, np.array([2, -1, -1]).astype(np.uint32)))
    assert np.array_equal(found.vertices_mm, TRIANGLE)
    assert found.faces.tolist() == [[2, 1, 0]]


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"x" * 200,
        head(3, 1),
        head(2**60, 2**60) + zlib.compress(b"1"),
        head(3, 0) + zlib.compress(bytes(72)),
        head(3, 1) + zlib.compress(bytes(83)),
        head(3, 1) + zlib.compress(bytes(85)),
        head(3, 1) + zlib.compress(bytes(84))[:-5],
        head(3, 1) + zlib.compress(bytes(20_000_000)),
        of(TRIANGLE, np.array([0, 1, 2])),  # the last corner is the fourth vertex
        of(TRIANGLE * np.nan, np.array([0, 1, 1])),
        of(TRIANGLE * 1e300, np.array([0, 1, 1])),
    ],
)
def test_what_is_no_mesh_is_none(content):
    assert unpacked_mesh(content) is None


def test_packing_and_unpacking_can_be_cancelled():
    content = packed_mesh(sphere(20.0, 5))
    stopped = Progress()
    stopped.cancel()
    with pytest.raises(Cancelled):
        packed_mesh(sphere(20.0, 5), stopped)
    with pytest.raises(Cancelled):
        unpacked_mesh(content, stopped)
