"""Jobs: everything comes back to the bit, any reader gets the posed part, nobody is trusted."""

import io
import json
import zipfile

import lib3mf
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.files.made_files import box_mesh, box_state
from viewer.document.state import Part, State
from viewer.errors import CannotWrite, UnreadableFile
from viewer.files.job_file import read_job_camera, write_job
from viewer.files.mesh_files import read_part, write_posed
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose, posed_vertices_mm
from viewer.geometry.print_settings import PrintSettings

JOB_PART, VERTEX_PART = "Metadata/showside-job.json", "Metadata/showside-vertices.bin"
CLASSES = np.array([0, 1, 2, 0, 1, 2, 0, 1, 2, 0, 0, 0], np.uint8)
CAMERA = {"position": [1.5, -2.0, 3.25], "zoom": 2, "style": "orthographic"}


def random_state(seed: int) -> State:
    """Random triangles with full float64 digits, some without area, random classes and pose."""
    rng = np.random.default_rng(seed)
    vertices = rng.normal(size=(rng.integers(4, 40), 3)) * 10.0 ** rng.integers(-1, 4)
    vertices = vertices + rng.normal(size=3) * 100
    faces = rng.integers(0, len(vertices), (rng.integers(4, 60), 3))
    used, faces = np.unique(faces, return_inverse=True)
    part = Part("random", Mesh(vertices[used], faces.reshape(-1, 3)), "random.stl", "inch")
    return State.of_part(
        part,
        rng.integers(0, 3, len(faces)).astype(np.uint8),
        pose=Pose(tuple(rng.normal(size=3)), rng.uniform(0, 360)),
        pinned_pose=Pose(tuple(rng.normal(size=3)), 12.5) if seed % 2 else None,
        settings=PrintSettings(layer_mm=float(rng.uniform(0.05, 0.4)), bridge_mm=5.0),
    )


def assert_same(first: State, second: State) -> None:
    assert np.array_equal(first.part.mesh.vertices_mm, second.part.mesh.vertices_mm)
    assert np.array_equal(first.part.mesh.faces, second.part.mesh.faces)
    assert np.array_equal(first.face_classes, second.face_classes)
    assert first.pose == second.pose
    assert first.pinned_pose == second.pinned_pose
    assert first.settings == second.settings
    for name in ("name", "file_name", "unit"):
        assert getattr(first.part, name) == getattr(second.part, name)


@settings(max_examples=30)
@given(st.integers(0, 10**6))
def test_a_job_comes_back_to_the_bit_again_and_again(tmp_path_factory, seed):
    folder = tmp_path_factory.mktemp("job")
    state = random_state(seed)
    write_job(state, folder / "a.3mf", CAMERA)
    once = read_part(folder / "a.3mf")
    assert_same(once, state)
    write_job(once, folder / "b.3mf", CAMERA)
    assert_same(read_part(folder / "b.3mf"), state)
    with zipfile.ZipFile(folder / "a.3mf") as a, zipfile.ZipFile(folder / "b.3mf") as b:
        for part in (JOB_PART, VERTEX_PART):
            assert a.read(part) == b.read(part)


def test_any_reader_gets_the_posed_part_with_its_classes(tmp_path):
    """Read with lib3mf alone: item transform by the rule of 3MF Core §3.3 (row vectors, READ)."""
    state = box_state(face_classes=CLASSES, pose=Pose((1, 2, 3), 40))
    write_job(state, tmp_path / "job.3mf")
    model = lib3mf.get_wrapper().CreateModel()
    reader = model.QueryReader("3mf")
    reader.SetStrictModeActive(True)
    reader.ReadFromFile(str(tmp_path / "job.3mf"))
    assert reader.GetWarningCount() == 0
    assert int(model.GetUnit()) == 1  # millimetre
    items = model.GetBuildItems()
    assert items.Count() == 1
    items.MoveNext()
    item = items.GetCurrent()
    mesh = model.GetMeshObjectByID(item.GetObjectResourceID())
    rows = np.array([list(row) for row in item.GetObjectTransform().Fields])
    points = np.array([list(p.Coordinates) for p in mesh.GetVertices()])
    laid = np.hstack([points, np.ones((len(points), 1))]) @ rows
    expected = posed_vertices_mm(state.part.mesh.vertices_mm, state.pose)
    # lib3mf writes transforms with six decimals: up to 1e-6 for each of 30 mm
    assert np.allclose(laid, expected, atol=1e-4)
    faces = np.array([list(t.Indices) for t in mesh.GetTriangleIndices()])
    assert np.array_equal(faces, state.part.mesh.faces)
    sets = {}
    for k in range(mesh.GetTriangleSetCount()):
        found = mesh.GetTriangleSet(k)
        sets[found.GetName()] = found.GetTriangleList()
    assert sets == {"Class A": [1, 4, 7], "Class B": [2, 5, 8]}


def test_the_transform_of_a_quarter_turn_is_written_for_row_vectors(tmp_path):
    """Row 29: the turn about +x that takes +y to +z is "1 0 0 0 0 1 0 -1 0 …" (READ)."""
    write_job(box_state(pose=Pose((0, 1, 0))), tmp_path / "job.3mf")
    with zipfile.ZipFile(tmp_path / "job.3mf") as package:
        text = package.read("3D/3dmodel.model").decode()
    numbers = [float(n) for n in text.partition('transform="')[2].partition('"')[0].split()]
    assert numbers[:9] == [1, 0, 0, 0, 0, 1, 0, -1, 0]
    assert numbers[9:] == [-5, 15, 0]  # box 10 × 20 × 30 centred and dropped


def test_the_camera_comes_back(tmp_path):
    write_job(box_state(), tmp_path / "job.3mf", CAMERA)
    assert read_job_camera(tmp_path / "job.3mf") == CAMERA
    write_job(box_state(), tmp_path / "job.3mf")
    assert read_job_camera(tmp_path / "job.3mf") is None
    write_posed(box_state(), tmp_path / "plain.3mf")
    (tmp_path / "broken.3mf").write_bytes((tmp_path / "job.3mf").read_bytes()[:-100])
    for name in ("plain.3mf", "broken.3mf", "none.3mf"):
        assert read_job_camera(tmp_path / name) is None


def test_an_open_unit_doubt_is_asked_again_and_can_be_answered(tmp_path):
    part = Part("tiny", box_mesh(0.1, 0.2, 0.3), unit_doubt="metres?", suggested_unit="m")
    write_job(State.of_part(part, pose=Pose((1, 0, 0))), tmp_path / "job.3mf")
    again = read_part(tmp_path / "job.3mf")
    assert again.part.unit_doubt
    assert again.part.suggested_unit == "m"
    answered = read_part(tmp_path / "job.3mf", unit="m")
    assert np.allclose(answered.part.mesh.box_mm[1], [100, 200, 300])
    assert answered.part.unit_doubt == ""
    assert answered.pose == Pose((1, 0, 0))
    settled = Part("tiny", box_mesh(0.1, 0.2, 0.3))
    write_job(State.of_part(settled), tmp_path / "job.3mf")
    assert read_part(tmp_path / "job.3mf").part.unit_doubt == ""


def altered(path, **parts):
    """Rewrite parts of a package (None drops one), as somebody else might."""
    stream = io.BytesIO()
    with zipfile.ZipFile(path) as old, zipfile.ZipFile(stream, "w") as new:
        for name in old.namelist():
            change = parts.get(name.rpartition("/")[2].partition(".")[0].replace("-", "_"), "keep")
            if change is not None:
                new.writestr(name, old.read(name) if change == "keep" else change(old.read(name)))
    path.write_bytes(stream.getvalue())


def with_values(**values):
    return lambda content: json.dumps(json.loads(content) | values).encode()


@pytest.fixture
def job(tmp_path):
    path = tmp_path / "job.3mf"
    write_job(box_state(face_classes=CLASSES, pose=Pose((0, 1, 0))), path, CAMERA)
    return path


def test_unknown_keys_are_passed_over(job):
    altered(job, showside_job=with_values(colour="blue", settings={"layer_mm": 0.1, "new": 3}))
    state = read_part(job)
    assert state.settings == PrintSettings(layer_mm=0.1)
    assert state.pose == Pose((0, 1, 0))
    assert state.part.notes == ()


@pytest.mark.parametrize(
    "damage",
    [
        {"pose": {"up": [0, 0, 0], "spin_deg": 0}},
        {"pose": {"up": [0, 0], "spin_deg": 0}},
        {"pose": "up"},
        {"settings": {"layer_mm": -1}},
        {"settings": {"layer_mm": "thin"}},
        {"settings": {"layer_mm": True}},
        {"name": 5},
        {"version": 0},
        {"version": None},
    ],
)
def test_damaged_settings_are_left_aside_and_told_but_the_part_is_there(job, damage):
    altered(job, showside_job=with_values(**damage))
    state = read_part(job)
    assert "settings are damaged" in state.part.notes[0]
    assert np.array_equal(state.face_classes, CLASSES)
    assert state.part.mesh.face_count == 12
    assert state.settings == PrintSettings()


def test_what_is_not_even_json_is_left_aside(job):
    altered(job, showside_job=lambda content: content[:-9])
    assert "settings are damaged" in read_part(job).part.notes[0]


def test_a_newer_version_says_so(job):
    altered(job, showside_job=with_values(version=2))
    state = read_part(job)
    assert "newer version" in state.part.notes[0]
    assert np.array_equal(state.face_classes, CLASSES)


def test_a_part_laid_anew_by_another_program_is_read_as_it_lies_there(job):
    altered(job, _3dmodel=None, **{"3dmodel": lambda xml: xml.replace(b'="1 0 0 0', b'="2 0 0 0')})
    state = read_part(job)
    assert "Another program changed this job" in state.part.notes[0]
    assert np.allclose(np.ptp(state.part.mesh.box_mm, axis=0), [20, 30, 20])
    assert state.pose == Pose()


@pytest.mark.parametrize(
    "change",
    [lambda b: b[:-24], lambda b: bytes(len(b)), lambda b: b"\xff" * len(b), lambda b: b + b, None],
)
def test_vertices_that_do_not_agree_with_the_model_are_not_believed(job, change):
    altered(job, showside_vertices=change)
    state = read_part(job)
    assert np.allclose(np.ptp(state.part.mesh.box_mm, axis=0), [10, 30, 20])
    assert "Another program" in state.part.notes[0]


@pytest.mark.parametrize("camera", [{"zoom": None}, {"a": {"b": 1}}, {"a": [[1]]}, [1], "x"])
def test_a_camera_of_another_make_is_not_handed_on(job, camera):
    altered(job, showside_job=with_values(camera=camera))
    assert read_job_camera(job) is None


def test_a_folder_in_the_file_name_is_dropped(job):
    altered(job, showside_job=with_values(file_name="..\\..\\secret/part.stl"))
    assert read_part(job).part.file_name == "part.stl"


def test_saving_refuses_what_it_cannot_do(tmp_path):
    with pytest.raises(CannotWrite, match="no part"):
        write_job(State(), tmp_path / "job.3mf")
    with pytest.raises(CannotWrite, match=r"end its name in \.3mf"):
        write_job(box_state(), tmp_path / "job.stl")
    assert list(tmp_path.iterdir()) == []


def test_a_job_cut_off_is_refused(job):
    job.write_bytes(job.read_bytes()[:-200])
    with pytest.raises(UnreadableFile, match="cut off"):
        read_part(job)
