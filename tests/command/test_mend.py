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
    assert answer["verdict_after"] == "sound"
    assert answer["planned"] == []
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
