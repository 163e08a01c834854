"""Jobs: everything comes back to the bit, any reader gets the posed part, nobody is trusted."""

import dataclasses
import io
import json
import zipfile

import lib3mf
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.few import few
from tests.files.made_files import box_mesh, box_state
from tests.shop.made_trials import trial
from viewer.document.state import KeptPose, Part, State
from viewer.errors import CannotWrite, UnreadableFile
from viewer.files import job_trials
from viewer.files.job_file import read_job_camera, write_job
from viewer.files.mesh_files import read_part, write_posed
from viewer.geometry.aims import AIM_KEYS
from viewer.geometry.deviation import find_deviation
from viewer.geometry.hard_limits import LIMIT_KEYS
from viewer.geometry.mend.fill_holes import fill_holes
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose, posed_vertices_mm
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.spin_wish import SpinRule, SpinWish
from viewer.geometry.what_matters import WhatMatters
from viewer.shop.shop_choice import ShopChoice
from viewer.shop.taken_limits import TakenLimit
from viewer.shop.trials import packed_trials, read_trials

JOB_PART, VERTEX_PART = "Metadata/showside-job.json", "Metadata/showside-vertices.bin"
RECEIVED_PART = "Metadata/showside-received.bin"
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
        kept_poses=tuple(
            KeptPose(
                f"pose “{k}” ×", Pose(tuple(rng.normal(size=3)), rng.uniform(0, 360)), "näher" * k
            )
            for k in range(seed % 4)
        ),
        settings=PrintSettings(layer_mm=float(rng.uniform(0.05, 0.4)), bridge_mm=5.0),
        shop_choice=ShopChoice("Größe 2", "PLA alone", copies=1 + seed % 3),
        what_matters=WhatMatters.of(
            dict(zip(AIM_KEYS, rng.uniform(0, 100, len(AIM_KEYS)), strict=True)),
            [key for key in LIMIT_KEYS if rng.integers(2)],
        ),
        spin_wish=SpinWish(tuple(SpinRule)[seed % 5], tuple(rng.normal(size=3))),
        trials=tuple(trial(f"key {k}", photo=rng.bytes(50 * k)) for k in range(seed % 3)),
        taken=(TakenLimit("bridge_mm", 7.5, 5.0, "Größe 2", "PLA", 3),) * (seed % 2),
    )


def assert_same(first: State, second: State) -> None:
    assert np.array_equal(first.part.mesh.vertices_mm, second.part.mesh.vertices_mm)
    assert np.array_equal(first.part.mesh.faces, second.part.mesh.faces)
    assert np.array_equal(first.face_classes, second.face_classes)
    assert first.pose == second.pose
    assert first.pinned_pose == second.pinned_pose
    assert first.kept_poses == second.kept_poses
    assert first.settings == second.settings
    assert first.shop_choice == second.shop_choice
    assert first.what_matters == second.what_matters
    assert first.spin_wish == second.spin_wish
    assert first.trials == second.trials
    assert first.taken == second.taken
    for name in ("name", "file_name", "unit"):
        assert getattr(first.part, name) == getattr(second.part, name)


@settings(max_examples=few(10, 30))
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


def test_a_job_from_before_poses_were_kept_opens_without_any(job):
    def without(content):
        values = json.loads(content)
        assert values.pop("kept_poses") == []
        return json.dumps(values).encode()

    altered(job, showside_job=without)
    state = read_part(job)
    assert state.kept_poses == ()
    assert (state.pose, state.part.notes) == (Pose((0, 1, 0)), ())


def test_a_job_from_before_there_was_a_shop_leaves_the_choice_to_it(job):
    def without(content):
        values = json.loads(content)
        del values["shop"]
        return json.dumps(values).encode()

    altered(job, showside_job=without)
    assert read_part(job).shop_choice == ShopChoice()
    assert read_part(job).part.notes == ()


def test_a_job_from_before_there_were_sliders_has_the_usual_ones(job):
    def without(content):
        values = json.loads(content)
        del values["what_matters"], values["spin"]
        return json.dumps(values).encode()

    altered(job, showside_job=without)
    assert read_part(job).what_matters == WhatMatters()
    assert read_part(job).spin_wish == SpinWish()
    assert read_part(job).part.notes == ()


def test_sliders_and_limits_of_a_later_version_are_passed_over(job):
    later = {"weights": {"low": 40, "shiny": 3}, "limits": ["stands", "floats"], "new": 1}
    altered(job, showside_job=with_values(what_matters=later, spin={"rule": "by-the-moon"}))
    assert read_part(job).spin_wish == SpinWish()
    read = read_part(job).what_matters
    assert read == WhatMatters.of({"low": 40.0}, ["stands"])
    assert read.weights["low"] == 40.0
    assert sum(read.weights.values()) == 40.0
    assert read.limits == ("stands",)


def test_a_kept_pose_without_a_name_gets_its_number(job):
    poses = [{"pose": {"up": [1, 0, 0]}}, {"pose": {"up": [0, 0, 1], "spin_deg": 5}, "new": 1}]
    altered(job, showside_job=with_values(kept_poses=poses))
    assert read_part(job).kept_poses == (
        KeptPose("Pose 1", Pose((1, 0, 0))),
        KeptPose("Pose 2", Pose((0, 0, 1), 5.0)),
    )


@pytest.mark.parametrize(
    "damage",
    [
        {"pose": {"up": [0, 0, 0], "spin_deg": 0}},
        {"what_matters": {"weights": {"low": 101}, "limits": []}},
        {"what_matters": {"weights": {"low": "much"}, "limits": []}},
        {"spin": {"rule": "seam-on-a-side"}},
        {"spin": {"rule": "seam-on-a-side", "side": [0, 0, 0]}},
        {"shop": {"machine": "x" * 90}},
        {"shop": {"copies": 0}},
        {"pose": {"up": [0, 0], "spin_deg": 0}},
        {"pose": "up"},
        {"settings": {"layer_mm": -1}},
        {"settings": {"layer_mm": "thin"}},
        {"settings": {"layer_mm": True}},
        {"kept_poses": {"name": "flat"}},
        {"kept_poses": [{"name": "flat"}]},
        {"kept_poses": [{"pose": {"up": [0, 0, 0]}}]},
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


@pytest.mark.parametrize("damage", [b"", b"\x93\x01\x02\x03", b"\xff" * 40, "twice", "wrong"])
def test_damaged_trials_are_left_aside_and_told_but_the_job_is_there(tmp_path, damage):
    path = tmp_path / "job.3mf"
    write_job(box_state().with_(trials=(trial("a"), trial("b"))), path)
    content = packed_trials((trial("a"), trial("a")))
    if damage == "wrong":
        content = packed_trials((trial("a"),)).replace(b"2026-11-26", b"yesterday!")
    elif damage != "twice":
        content = damage
    altered(path, showside_trials=lambda _: content)
    state = read_part(path)
    assert state.trials == ()
    assert any("trials that this job keeps are damaged" in note for note in state.part.notes)


def test_photos_that_are_too_many_stay_in_the_shop_and_the_newest_in_the_job(monkeypatch):
    trials = tuple(trial(f"{k}", photo=bytes(1000)) for k in range(5))
    monkeypatch.setattr(job_trials, "MOST_TRIAL_BYTES", 6_100)
    kept = read_trials(job_trials.trials_content(trials))
    assert [len(each.photo) for each in kept] == [0, 0, 1000, 1000, 1000]
    assert [each.key for each in kept] == [each.key for each in trials]


def test_a_folder_in_the_file_name_is_dropped(job):
    altered(job, showside_job=with_values(file_name="..\\..\\secret/part.stl"))
    assert read_part(job).part.file_name == "part.stl"


# --- mended parts
def mended_state(**more) -> State:
    """A box without its last face, which mending gave back; 0.1 mm a side to be in doubt."""
    size = more.pop("size", (10, 20, 30))
    whole, part = box_mesh(*size), Part("box", box_mesh(*size), **more)
    open_box = dataclasses.replace(part, mesh=Mesh(whole.vertices_mm, whole.faces[:-1]))
    state = State.of_part(open_box, CLASSES[:-1])
    made = fill_holes(open_box.mesh)
    assert made.mesh.face_count == 12
    return state.mended(made)


def test_a_mended_part_knows_what_it_was_received_as(tmp_path):
    state = mended_state()
    write_job(state, tmp_path / "a.3mf")
    once = read_part(tmp_path / "a.3mf")
    assert_same(once, state)
    assert once.part.notes == ()
    write_job(once, tmp_path / "b.3mf")
    twice = read_part(tmp_path / "b.3mf")
    for read in (once, twice):
        assert np.array_equal(read.part.received.vertices_mm, state.part.received.vertices_mm)
        assert np.array_equal(read.part.received.faces, state.part.received.faces)
    # The lid covers the missing face, which is half of 10 × 20 … × 30: middle to rim (CALC).
    was, now = (find_deviation(s.part.received, s.part.mesh) for s in (state, once))
    assert now.max_mm == was.max_mm > 1.0
    assert np.array_equal(now.new.face_mm, was.new.face_mm)


def test_a_part_that_nobody_mended_costs_no_byte_and_opens_as_before(tmp_path):
    write_job(box_state(), tmp_path / "plain.3mf")
    with zipfile.ZipFile(tmp_path / "plain.3mf") as package:
        assert RECEIVED_PART not in package.namelist()
    altered(tmp_path / "plain.3mf", showside_job=without_key("mended"))  # as it was once written
    state = read_part(tmp_path / "plain.3mf")
    assert state.part.received is None
    assert state.part.notes == ()


def without_key(key):
    def change(content):
        values = json.loads(content)
        del values[key]
        return json.dumps(values).encode()

    return change


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (None, "too large to keep"),
        (lambda b: b[:-9], "damaged"),
        (lambda b: bytes(len(b)), "damaged"),
        (lambda b: b"", "damaged"),
    ],
)
def test_without_what_was_received_the_job_opens_and_says_so(tmp_path, change, told):
    path = tmp_path / "job.3mf"
    write_job(mended_state(), path)
    altered(path, showside_received=change)
    state = read_part(path)
    assert state.part.received is None
    assert told in state.part.notes[0]
    assert state.part.mesh.face_count == 12
    assert np.array_equal(state.face_classes, mended_state().face_classes)


def test_what_was_received_is_left_out_where_it_is_too_large(tmp_path, monkeypatch):
    monkeypatch.setattr("viewer.files.received_mesh.MOST_PACKED_BYTES", 100)
    write_job(mended_state(), tmp_path / "job.3mf")
    with zipfile.ZipFile(tmp_path / "job.3mf") as package:
        assert RECEIVED_PART not in package.namelist()
    assert "too large to keep" in read_part(tmp_path / "job.3mf").part.notes[0]


def test_a_unit_that_is_answered_later_scales_what_was_received_too(tmp_path):
    state = mended_state(size=(0.1, 0.2, 0.3), unit_doubt="metres?", suggested_unit="m")
    write_job(state, tmp_path / "job.3mf")
    answered = read_part(tmp_path / "job.3mf", unit="m")
    assert np.allclose(answered.part.mesh.box_mm[1], [100, 200, 300])
    assert np.allclose(answered.part.received.box_mm[1], [100, 200, 300])


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
