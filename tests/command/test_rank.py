"""`rank` keeps its contract: JSON by schema, best first, what was cut, many files."""

import json

import numpy as np
import pytest

from tests import shapes
from tests.command.test_line import answers, assert_valid
from viewer.app import main
from viewer.document.state import Part, State
from viewer.files.job_file import write_job
from viewer.geometry.what_matters import WhatMatters


def write(mesh, path):
    """A mesh as binary STL, by hand."""
    facets = np.zeros(
        mesh.face_count, np.dtype([("n", "<f4", 3), ("c", "<f4", (3, 3)), ("a", "<u2")])
    )
    facets["c"] = mesh.corners_mm
    path.write_bytes(b"\0" * 80 + np.uint32(mesh.face_count).tobytes() + facets.tobytes())
    return path


@pytest.fixture
def bracket(tmp_path):
    return write(shapes.l_bracket(), tmp_path / "bracket.stl")


def test_the_bracket_lies_with_its_marked_side_up(capsys, bracket, tmp_path):
    """CALC: class A is the side y = 0; face up nothing touches it, lying 20 mm high."""
    mesh = shapes.l_bracket()
    side = [int(f) for f in np.flatnonzero(mesh.face_normals[:, 1] < -0.9)]
    marks = tmp_path / "marks.json"
    marks.write_text(json.dumps({"A": side}))
    words = ["rank", bracket, "--marks", marks, "--directions", "162", "--keep", "3", "--json"]
    (answer,), err = answers(capsys, words)
    assert err == ""
    assert_valid(answer, "rank")
    assert answer["file"] == "bracket.stl"
    assert answer["directions"] >= 162
    first = answer["poses"][0]
    assert first["up"] == pytest.approx([0, -1, 0], abs=1e-6)
    assert first["flat_standing"] is True
    assert first["why"].startswith("No support touches A; no terraces wider than a road on A; ")
    assert first["measures"]["checked"] is True
    assert first["measures"]["height_mm"] == pytest.approx(20)
    assert first["measures"]["support_volume_mm3"] == 0
    # Its hull has an edge at 45°, along which it would need 56.57 × 31.82. CALC.
    assert first["platform_rectangle_mm"] == pytest.approx([40, 40], rel=1e-5)
    assert len(answer["poses"]) <= 3
    scores = [pose["score"] for pose in answer["poses"]]
    assert scores == sorted(scores, reverse=True)
    cut = {each["limit"]: each["directions"] for each in answer["cut"]}
    assert cut["no-touch-on-a"] > 0
    assert set(cut) == {"fits", "stands", "no-touch-on-a", "no-unreachable"}
    assert answer["in_the_way"] == []
    assert answer["touch_on_a_mm2"] == {"least_possible": 0, "least_found": 0}


def test_a_machine_gives_its_build_volume_a_spin_that_fits_time_and_money(
    capsys, bracket, tmp_path
):
    words = ["rank", bracket, "--directions", "42", "--keep", "3", "--json"]
    (plain,), _ = answers(capsys, words)
    machine = plain["process"]["machine"]
    (answer,), _ = answers(capsys, [*words, "--machine", machine])
    assert_valid(answer, "rank")
    first = answer["poses"][0]
    assert first["fits"][machine]["fits"] is True
    assert first["spin_deg"] == first["fits"][machine]["spin_deg"]
    assert first["time_s"]["low"] <= first["time_s"]["likely"] <= first["time_s"]["high"]
    likely = [pose["time_s"]["likely"] for pose in answer["poses"]]
    quickest = answer["poses"][int(np.argmin(likely))]
    assert quickest["why"].endswith("; the quickest of these.")
    _, err = answers(capsys, [*words, "--machine", "Nowhere"], expected_exit=1)
    assert "Nowhere" in err


def test_several_files_and_a_bad_one_costs_only_its_own(capsys, bracket, tmp_path):
    cone = write(shapes.cone(10, 20), tmp_path / "cone.stl")
    bad = tmp_path / "bad.stl"
    bad.write_bytes(b"")
    words = ["rank", cone, bad, bracket, "--directions", "42", "--keep", "1", "--json"]
    found, err = answers(capsys, [*words, "--aim", "least-support"], expected_exit=1)
    assert [answer["file"] for answer in found] == ["cone.stl", "bracket.stl"]
    assert err.startswith("bad.stl: ")
    assert found[0]["poses"][0]["up"] == pytest.approx([0, 0, 1], abs=1e-3)


def test_when_nothing_is_left_it_says_what_is_in_the_way(capsys, tmp_path):
    """CALC: a ball all of class A; supports touch it in every direction, 184.03 mm² (row 13)."""
    ball = shapes.sphere(10.0, 3)
    path = write(ball, tmp_path / "ball.stl")
    marks = tmp_path / "marks.json"
    marks.write_text(json.dumps({"A": list(range(ball.face_count))}))
    words = ["rank", path, "--marks", marks, "--directions", "42", "--keep", "2"]
    (answer,), _ = answers(capsys, [*words, "--json"])
    assert_valid(answer, "rank")
    (blocked,) = answer["in_the_way"]
    assert blocked["limit"] == "no-touch-on-a"
    assert blocked["by"] == pytest.approx(184, rel=0.05)
    assert answer["let_go"] == ["no-touch-on-a"]
    assert answer["poses"]
    bound = answer["touch_on_a_mm2"]
    assert 0.6 * 184 < bound["least_possible"] <= bound["least_found"] == blocked["by"]
    words = ["rank", path, "--marks", marks, "--directions", "12", "--keep", "1"]
    (free,), _ = answers(capsys, [*words, "--must", "none", "--json"])
    assert free["cut"] == [] == free["in_the_way"]
    assert main([str(word) for word in words]) == 0
    text = capsys.readouterr().out
    assert "Supports touch class A in every direction" in text
    assert "no direction has less than" in text


def test_a_job_brings_what_matters_to_it_unless_the_line_says_otherwise(capsys, tmp_path):
    """CALC: a cone 20 mm high on a base 20 mm wide; what is low lies on its side."""
    part = Part("cone", shapes.cone(10, 20))
    matters = WhatMatters.of({"low": 80.0}, ["fits"])
    write_job(State.of_part(part, what_matters=matters), tmp_path / "cone.3mf")
    words = ["rank", tmp_path / "cone.3mf", "--directions", "42", "--keep", "1"]
    (answer,), _ = answers(capsys, [*words, "--json"])
    assert_valid(answer, "rank")
    assert answer["aim"] == "own"
    assert {key: value for key, value in answer["sliders"].items() if value} == {"low": 80.0}
    assert answer["sliders_from"] == answer["limits_from"] == "job"
    assert answer["limits"] == ["fits"]
    assert [each["limit"] for each in answer["cut"]] == ["fits"]
    assert abs(answer["poses"][0]["up"][2]) < 0.9
    (other,), _ = answers(capsys, [*words, "--aim", "least-support", "--json"])
    assert (other["aim"], other["sliders_from"]) == ("least-support", "command line")
    assert (other["limits"], other["limits_from"]) == (["fits"], "job")
    assert other["poses"][0]["up"] == pytest.approx([0, 0, 1], abs=1e-3)
    assert main([str(word) for word in [*words, "--must", "none"]]) == 0
    text = capsys.readouterr().out
    assert "best for own" not in text
    assert "Sliders as in the job (low 80); --aim takes others." in text
    assert "Limits as in the job" not in text


@pytest.mark.parametrize(
    "words",
    [
        ["--directions", "0"],
        ["--keep", "0"],
        ["--must", "float"],
        ["--platform", "100,0,100"],
        ["--limit", "95"],
    ],
)
def test_a_request_at_fault_is_one_sentence(capsys, bracket, words):
    _, err = answers(capsys, ["rank", bracket, *words, "--json"], expected_exit=1)
    assert len(err.strip().splitlines()) == 1
    assert "Traceback" not in err


def test_a_platform_that_is_too_small(capsys, bracket):
    words = ["rank", bracket, "--directions", "42", "--platform", "30,30,30", "--json"]
    (answer,), _ = answers(capsys, words)
    assert "fits" in answer["let_go"]
    assert any(each["limit"] == "fits" and each["by"] > 0 for each in answer["in_the_way"])
