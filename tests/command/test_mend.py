"""`showside mend` keeps its contract and asks before it changes more than what is harmless."""

import json

import jsonschema
import numpy as np
import pytest
import trimesh

from tests.shapes import box, joined, without_faces
from viewer.app import main
from viewer.document.demo_job import faulty_demo_job
from viewer.files.mesh_files import read_part, write_posed
from viewer.geometry.face_classes import CLASS_A, CLASS_B
from viewer.geometry.mesh_health import check_mesh
from viewer.geometry.pose import Pose
from viewer.resource_files import resource_file


def answer_of(capsys, words, expected_exit=0):
    exit_code = main([str(word) for word in words])
    out, err = capsys.readouterr()
    assert exit_code == expected_exit, err
    return (json.loads(out) if out else None), err


def stl_of(mesh, path):
    trimesh.Trimesh(mesh.vertices_mm, mesh.faces, process=False).export(path)
    return path


def assert_valid(answer):
    schema = json.loads(resource_file("schema/mend.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(answer, schema)


def test_the_demo_as_received_is_mended_and_keeps_its_classes(capsys, tmp_path):
    state = faulty_demo_job(0.08)
    received, fixed = tmp_path / "received.3mf", tmp_path / "fixed.3mf"
    write_posed(state, received)
    answer, _ = answer_of(capsys, ["mend", received, "--out", fixed, "--steps", "all", "--json"])
    assert_valid(answer)
    assert sum(not step["safe"] for step in answer["steps"]) <= 2
    assert answer["planned"] == []
    # In so coarse a grip the smoothed fold leaves slivers that touch each other and no more.
    left = check_mesh(read_part(fixed).part.mesh, Pose(), 0.2, 0.42)
    assert {f.kind for f in left.faults if f.gravity != "harmless"} <= {"edge_contacts"}
    assert sum(f.count for f in left.faults if f.kind == "edge_contacts") < 10
    assert answer["verdict_after"] == left.verdict != "will fail"
    body = trimesh.load(fixed, force="mesh")
    assert body.is_watertight
    assert body.is_winding_consistent
    mended = read_part(fixed)
    for face_class in (CLASS_A, CLASS_B):
        before, after = (
            s.part.mesh.face_areas_mm2[s.face_classes == face_class].sum() for s in (state, mended)
        )
        # The doubled patch and the buried half of the blister, all of class A, are gone.
        assert after == pytest.approx(before, rel=0.02)


def test_without_steps_only_harmless_ones_are_taken(capsys, tmp_path):
    """A cube without its lid stays open until its owner asks for the lid."""
    cube = box([0, 0, 0], [20, 20, 20])
    lid = np.flatnonzero((cube.corners_mm[:, :, 2] == 20).all(axis=1))
    path, fixed = stl_of(without_faces(cube, lid), tmp_path / "open.stl"), tmp_path / "fixed.3mf"
    answer, _ = answer_of(capsys, ["mend", path, "--out", fixed, "--json"])
    assert_valid(answer)
    assert answer["steps"] == []
    assert [step["name"] for step in answer["planned"]] == ["fill-holes"]
    answer, _ = answer_of(
        capsys, ["mend", path, "--out", fixed, "--steps", "fill-holes", "--unit", "cm", "--json"]
    )
    assert answer["verdict_after"] == "sound"
    # 20 cm cubed (CALC).
    assert trimesh.load(fixed, force="mesh").volume == pytest.approx(200.0**3)


def test_a_dry_run_writes_nothing(capsys, tmp_path):
    two = joined(box([0, 0, 0], [10, 10, 10]), box([5, 5, 5], [15, 15, 15]))
    path = stl_of(two, tmp_path / "two.stl")
    answer, _ = answer_of(capsys, ["mend", path, "--steps", "all", "--dry-run", "--json"])
    assert_valid(answer)
    # Inclusion and exclusion: 1000 + 1000 − 125 (CALC).
    assert answer["steps"][-1]["volume_after_mm3"] == pytest.approx(1875, rel=1e-3)
    assert [each.name for each in tmp_path.iterdir()] == ["two.stl"]


def test_wrong_requests_end_in_one_sentence(capsys, tmp_path):
    path = stl_of(box([0, 0, 0], [9, 9, 9]), tmp_path / "box.stl")
    _, err = answer_of(capsys, ["mend", path], expected_exit=1)
    assert "--out FIXED.3mf" in err
    _, err = answer_of(capsys, ["mend", path, "--dry-run", "--steps", "polish"], expected_exit=1)
    assert "polish" in err
    assert len(err.splitlines()) == 1


@pytest.mark.parametrize("name", ["fixed.stl", "fixed"])
def test_another_format_is_refused_with_what_to_write(capsys, tmp_path, name):
    path = stl_of(box([0, 0, 0], [9, 9, 9]), tmp_path / "box.stl")
    with pytest.raises(SystemExit) as ended:
        main(["mend", str(path), "--out", str(tmp_path / name), "--json"])
    out, err = capsys.readouterr()
    assert ended.value.code == 2
    assert out == ""
    assert "written as 3MF" in err
    assert "such as fixed.3mf" in err
    assert not (tmp_path / name).exists()


def test_a_new_skin_at_a_chosen_resolution(capsys, tmp_path):
    """An open cube in a cube: what it encloses, closed, and how far that lies from the file."""
    cube = box([0, 0, 0], [20, 20, 20])
    path = stl_of(
        joined(without_faces(cube, [0]), box([15, 5, 5], [30, 15, 15])), tmp_path / "a.stl"
    )
    fixed = tmp_path / "fixed.3mf"
    words = ["mend", path, "--out", fixed, "--steps", "re-skin:0.8", "--json"]
    answer, _ = answer_of(capsys, words)
    assert_valid(answer)
    assert [step["name"] for step in answer["steps"]] == ["re-skin"]
    assert answer["verdict_after"] == "sound"
    # 8000 and the ten of fifteen millimetres of the second that stand out (CALC).
    body = trimesh.load(fixed, force="mesh")
    assert body.is_watertight
    assert body.volume == pytest.approx(8000 + 1000, rel=0.005)
    assert 0 < answer["deviation_mean_mm"] < answer["deviation_max_mm"]
    # Only the half of a face that was missing lies far off: its middle, at most 10 mm (CALC).
    assert answer["deviation_max_mm"] < 10.0
    text, _ = answer_text(capsys, ["mend", path, "--dry-run", "--steps", "re-skin:1.6"])
    assert "Off the part as received by" in text


def answer_text(capsys, words):
    assert main([str(word) for word in words]) == 0
    return capsys.readouterr()


@pytest.mark.parametrize(
    ("asked", "sentence"),
    [
        ("re-skin:abc", "is no length for the step re-skin"),
        ("re-skin:-1", "is no length for the step re-skin"),
        ("re-skin:nan", "is no length for the step re-skin"),
        ("re-skin:", "is no length for the step re-skin"),
        ("drop-doubled:0.3", "takes no number"),
        ("re-skin:0.0001", "choose a resolution"),
        ("shrink:1", "There is no step shrink"),
    ],
)
def test_lengths_that_make_no_sense_are_refused(capsys, tmp_path, asked, sentence):
    path = stl_of(box([0, 0, 0], [20, 20, 20]), tmp_path / "cube.stl")
    answer, err = answer_of(
        capsys, ["mend", path, "--dry-run", "--steps", asked, "--json"], expected_exit=1
    )
    assert answer is None
    assert sentence in err
    assert err.count("\n") == 1


def test_a_length_reaches_the_step_it_is_meant_for(capsys, tmp_path):
    cube = box([0, 0, 0], [20, 20, 20])
    sheet = without_faces(cube, np.flatnonzero(cube.face_normals[:, 2] < 0.5))
    path = stl_of(sheet, tmp_path / "sheet.stl")
    words = ["mend", path, "--dry-run", "--steps", "thicken-sheet:2.0", "--json"]
    answer, _ = answer_of(capsys, words)
    assert answer["steps"][0]["volume_after_mm3"] == pytest.approx(400 * 2.0)  # CALC
    assert answer["deviation_max_mm"] == pytest.approx(1.0)
    words[4] = "re-skin:0.5"
    _, err = answer_of(capsys, words, expected_exit=1)
    assert "thicken-sheet" in err
