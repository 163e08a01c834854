"""Jobs whose marks are finer than the triangles: both come back to the bit, damage is noticed."""

import io
import zipfile

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.shapes import cube, joined, torus
from viewer.document.state import Part, State
from viewer.files.job_file import write_job
from viewer.files.job_pieces import DAMAGED, PIECES_PART
from viewer.files.mesh_files import read_part, write_posed
from viewer.geometry.brush_stroke import BrushStroke
from viewer.geometry.face_classes import CLASS_A
from viewer.geometry.known_of_mesh import neighbours_of
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose
from viewer.geometry.refined_classes import paint_stroke


def painted(mesh: Mesh, seed: int, count: int = 2) -> State:
    """A job after some dabs anywhere on its part."""
    rng = np.random.default_rng(seed)
    state = State.of_part(Part("part", mesh, "part.stl"), pose=Pose((0.2, 0.3, 1.0), 20.0))
    for n in range(count):
        now = state.part.mesh
        stroke = BrushStroke(now, neighbours_of(now), rng.uniform(0.5, 3.0))
        face = int(rng.integers(now.face_count))
        stroke.add(face, rng.dirichlet(np.ones(3)) @ now.corners_mm[face])
        state = state.refined(*paint_stroke(stroke, state.face_classes, 1 + n % 2))
    return state


def assert_same(one: State, other: State) -> None:
    for first, second in ((one.part.mesh, other.part.mesh), (one.part.base, other.part.base)):
        assert np.array_equal(first.vertices_mm, second.vertices_mm)
        assert np.array_equal(first.faces, second.faces)
    assert np.array_equal(one.part.base_face, other.part.base_face)
    assert np.array_equal(one.face_classes, other.face_classes)
    assert one.pose == other.pose


def with_flat_face() -> Mesh:
    """A cube with a face without area, which names a vertex twice."""
    mesh = cube(20.0)
    return Mesh(mesh.vertices_mm, np.vstack([mesh.faces, [[0, 1, 1]]]))


@settings(max_examples=12)
@given(st.integers(0, 2**31))
def test_a_job_comes_back_to_the_bit_again_and_again(tmp_path_factory, seed):
    folder = tmp_path_factory.mktemp("job")
    shapes = (cube(20.0), torus(20.0, 5.0, 12, 16), with_flat_face(), joined(cube(9.0), cube(20.0)))
    state = painted(shapes[seed % len(shapes)], seed)
    write_job(state, folder / "a.3mf")
    once = read_part(folder / "a.3mf")
    assert not once.part.notes
    assert_same(once, state)
    write_job(once, folder / "b.3mf")
    assert_same(read_part(folder / "b.3mf"), state)


def test_a_unit_answered_on_opening_scales_both(tmp_path):
    state = painted(cube(2.0), 3)
    write_job(state, tmp_path / "a.3mf")
    inches = read_part(tmp_path / "a.3mf", unit="inch").part
    assert np.array_equal(inches.base.vertices_mm, state.part.base.vertices_mm * 25.4)
    assert np.array_equal(inches.mesh.vertices_mm, state.part.mesh.vertices_mm * 25.4)
    assert np.array_equal(inches.base_face, state.part.base_face)


def changed(content: bytes, number: int, value: int) -> bytes:
    rows = np.frombuffer(content, "<i4").copy()
    rows[number] = value
    return rows.tobytes()


@pytest.mark.parametrize(
    "damage",
    [
        lambda c: c[:-4],
        lambda c: c[:7],
        lambda c: c + b"\0" * 1_000_000,
        lambda c: changed(c, 0, 0),
        lambda c: changed(c, 1, 2**30),
        lambda c: changed(c, 4, 9999),
        lambda c: changed(c, 4 + 36, 1),
        lambda c: changed(c, -1, -1),
        lambda c: changed(c, -1, 12),
    ],
)
def test_damage_leaves_the_finer_triangles(tmp_path, damage):
    state = painted(cube(20.0), 5)
    write_job(state, tmp_path / "a.3mf")
    worse = io.BytesIO()
    with zipfile.ZipFile(tmp_path / "a.3mf") as old, zipfile.ZipFile(worse, "w") as new:
        for name in old.namelist():
            content = old.read(name)
            new.writestr(name, damage(content) if name == PIECES_PART else content)
    (tmp_path / "b.3mf").write_bytes(worse.getvalue())
    read = read_part(tmp_path / "b.3mf")
    assert read.part.base is None
    assert DAMAGED in read.part.notes
    assert read.part.mesh.face_count == state.part.mesh.face_count
    assert np.array_equal(read.face_classes, state.face_classes)


@pytest.mark.parametrize("suffix", [".3mf", ".stl", ".obj", ".ply"])
def test_the_files_triangles_or_their_pieces_are_written(tmp_path, suffix):
    state = painted(cube(20.0), 8)
    write_posed(state, tmp_path / f"own{suffix}")
    write_posed(state, tmp_path / f"fine{suffix}", finer=True)
    assert read_part(tmp_path / f"own{suffix}").part.mesh.face_count == 12
    fine = read_part(tmp_path / f"fine{suffix}")
    assert fine.part.mesh.face_count == state.part.mesh.face_count
    assert fine.part.mesh.signed_volume_mm3 == pytest.approx(8000.0, rel=1e-5)
    if suffix == ".3mf":
        assert np.array_equal(fine.face_classes, state.face_classes)
        assert (fine.face_classes == CLASS_A).any()
