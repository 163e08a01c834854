"""Exports: the same triangles, laid, standing on z = 0, read back with other libraries."""

import lib3mf
import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.few import few
from tests.files.made_files import box_mesh, box_state
from viewer.document.state import Part, State
from viewer.errors import Cancelled, CannotWrite
from viewer.files.mesh_files import EXPORT_SUFFIXES, read_part, write_posed
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose, posed_vertices_mm
from viewer.progress import Progress

CLASSES = np.array([0, 1, 2, 0, 1, 2, 0, 1, 2, 0, 0, 0], np.uint8)
SUFFIXES = tuple(EXPORT_SUFFIXES.values())
POSE = Pose((0.3, -0.5, 0.2), 33.0)


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return tmp_path_factory.mktemp("posed")


def laid_corners(state):
    return posed_vertices_mm(state.part.mesh.vertices_mm, state.pose)[state.part.mesh.faces]


def knot_state():
    mesh = trimesh.creation.torus(30, 8, major_sections=40, minor_sections=16)
    part = Part("ring", Mesh(mesh.vertices + np.array([200, -50, 1000]), mesh.faces))
    classes = (np.arange(part.mesh.face_count) % 3).astype(np.uint8)
    return State.of_part(part, classes, pose=POSE)


@pytest.mark.parametrize("suffix", SUFFIXES)
def test_trimesh_reads_the_same_triangles_standing_on_zero(tmp_path, suffix):
    state = knot_state()
    write_posed(state, tmp_path / f"out{suffix}")
    loaded = trimesh.load(tmp_path / f"out{suffix}", force="mesh", process=False)
    corners = loaded.vertices[loaded.faces]
    assert np.allclose(corners, laid_corners(state), atol=1e-5)
    assert corners[..., 2].min() == 0.0
    assert loaded.volume == pytest.approx(state.part.mesh.signed_volume_mm3, rel=1e-5)
    assert np.allclose(
        corners.reshape(-1, 3).min(0)[:2], -corners.reshape(-1, 3).max(0)[:2], atol=1e-5
    )


def test_lib3mf_alone_reads_millimetres_triangles_and_classes(tmp_path):
    state = box_state(face_classes=CLASSES, pose=POSE)
    write_posed(state, tmp_path / "out.3mf")
    model = lib3mf.get_wrapper().CreateModel()
    reader = model.QueryReader("3mf")
    reader.SetStrictModeActive(True)
    reader.ReadFromFile(str(tmp_path / "out.3mf"))
    assert reader.GetWarningCount() == 0
    assert int(model.GetUnit()) == 1  # millimetre
    meshes = model.GetMeshObjects()
    assert meshes.Count() == 1
    meshes.MoveNext()
    mesh = meshes.GetCurrentMeshObject()
    assert mesh.IsManifoldAndOriented()
    points = np.array([list(p.Coordinates) for p in mesh.GetVertices()])
    faces = np.array([list(t.Indices) for t in mesh.GetTriangleIndices()])
    assert np.allclose(points[faces], laid_corners(state), atol=1e-5)
    assert points[:, 2].min() == 0.0
    assert mesh.FindTriangleSet("class-a").GetTriangleList() == [1, 4, 7]
    assert mesh.FindTriangleSet("class-b").GetTriangleList() == [2, 5, 8]


@settings(max_examples=few(10, 25))
@given(seed=st.integers(0, 10**6), suffix=st.sampled_from(SUFFIXES))
def test_random_meshes_come_back_in_order(folder, seed, suffix):
    """Faces without area and corners named twice are kept, whatever the format thinks of them."""
    rng = np.random.default_rng(seed)
    vertices = rng.uniform(-100, 100, (rng.integers(4, 30), 3))
    faces = rng.integers(0, len(vertices), (rng.integers(4, 40), 3))
    state = State.of_part(
        Part("random", Mesh(vertices, faces)),
        rng.integers(0, 3, len(faces)).astype(np.uint8),
        pose=Pose(tuple(rng.normal(size=3)), rng.uniform(0, 360)),
    )
    write_posed(state, folder / f"out{suffix}")
    again = read_part(folder / f"out{suffix}")
    used = np.unique(faces)
    expected = posed_vertices_mm(vertices[used], state.pose)[np.searchsorted(used, faces)]
    assert np.allclose(again.part.mesh.corners_mm, expected, atol=5e-5)
    assert again.part.mesh.vertices_mm[:, 2].min() == 0.0
    if suffix == ".3mf":
        assert np.array_equal(again.face_classes, state.face_classes)


def test_stl_normals_point_out(tmp_path):
    write_posed(box_state(pose=Pose((0, 0, -1))), tmp_path / "out.stl")
    data = np.frombuffer((tmp_path / "out.stl").read_bytes()[84:], np.uint8).reshape(12, 50)
    normals = np.ascontiguousarray(data[:, :12]).view("<f4")
    loaded = trimesh.load(tmp_path / "out.stl", process=False)
    assert np.allclose(normals, np.cross(*np.moveaxis(np.diff(loaded.triangles, axis=1), 1, 0))
                       / (2 * loaded.area_faces[:, None]), atol=1e-6)  # fmt: skip
    assert not (tmp_path / "out.stl").read_bytes().startswith(b"solid")


@pytest.mark.parametrize("name", ["out", "out.txt", "out.step", "out.off"])
def test_an_unknown_suffix_is_refused(tmp_path, name):
    with pytest.raises(CannotWrite, match=r"end its name in one of \.3mf, \.stl, \.obj, \.ply"):
        write_posed(box_state(), tmp_path / name)
    assert list(tmp_path.iterdir()) == []


def test_no_part_is_refused(tmp_path):
    with pytest.raises(CannotWrite, match="no part"):
        write_posed(State(), tmp_path / "out.stl")


@pytest.mark.parametrize("suffix", SUFFIXES)
def test_a_stopped_write_leaves_the_old_file_and_nothing_else(tmp_path, suffix):
    path = tmp_path / f"out{suffix}"
    path.write_bytes(b"old")
    mesh = box_mesh(10, 20, 30)
    many = Mesh(mesh.vertices_mm, np.resize(mesh.faces, (30_000, 3)))
    progress = Progress(lambda fraction, doing: progress.cancel())
    with pytest.raises(Cancelled):
        write_posed(State.of_part(Part("many", many)), path, progress)
    assert path.read_bytes() == b"old"
    assert [entry.name for entry in tmp_path.iterdir()] == [path.name]


@pytest.mark.parametrize("suffix", SUFFIXES)
def test_upper_case_suffixes_and_odd_names_are_fine(tmp_path, suffix):
    path = tmp_path / f"Griff für Ömer 50% (β){suffix.upper()}"
    write_posed(box_state(), path)
    assert read_part(path).part.mesh.face_count == 12
