"""The command line keeps its contract: JSON by schema, exit codes, one sentence on stderr."""

import json

import jsonschema
import numpy as np
import pytest
import trimesh

from tests.files.made_cad import sphere, write_step
from viewer.app import main
from viewer.resource_files import resource_file


@pytest.fixture
def cube(tmp_path):
    path = tmp_path / "cube.stl"
    trimesh.creation.box(extents=[20, 20, 20]).export(path)
    return path


def answers(capsys, words, expected_exit=0):
    """Run a command; its answers on stdout and the text on stderr."""
    exit_code = main([str(word) for word in words])
    out, err = capsys.readouterr()
    assert exit_code == expected_exit, err
    return [json.loads(line) for line in out.splitlines()], err


def assert_valid(answer, name):
    schema = json.loads(resource_file(f"schema/{name}.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(answer, schema)


def test_measure_gives_the_closed_form_of_post_and_cap(capsys, post_and_cap):
    """Row 22 of the check values (CALC): volume 16000, touch 800, all on the platform."""
    (answer,), err = answers(capsys, ["measure", post_and_cap, "--json"])
    assert err == ""
    assert_valid(answer, "measure")
    assert answer["support_volume_mm3"] == pytest.approx(16000, rel=0.01)
    assert answer["touch_area_mm2"]["total"] == pytest.approx(800, rel=0.01)
    assert answer["landing_area_mm2"]["platform"] == pytest.approx(800, rel=0.01)
    assert answer["landing_area_mm2"]["unmarked"] == pytest.approx(0, abs=8)
    assert answer["platform_contact_mm2"]["total"] == pytest.approx(100)
    assert answer["height_mm"] == pytest.approx(25)
    assert answer["layers"] == 125
    assert answer["part"]["volume_mm3"] == pytest.approx(10 * 10 * 20 + 30 * 30 * 5)
    assert answer["part"]["closed"] is True


def test_turned_upside_down_it_needs_no_support(capsys, post_and_cap):
    (answer,), _ = answers(capsys, ["measure", post_and_cap, "--up", "0,0,-1", "--json"])
    assert answer["support_volume_mm3"] == 0
    assert answer["touch_area_mm2"]["total"] == 0
    np.testing.assert_allclose(np.diag(answer["pose"]["matrix"])[:3], [1, -1, -1], atol=1e-12)


def test_directions_that_begin_with_a_minus_sign_are_understood(capsys, cube):
    (answer,), _ = answers(capsys, ["measure", cube, "--up", "-1,0,0", "--spin", "-30", "--json"])
    assert answer["pose"]["up"] == [-1, 0, 0]
    assert answer["pose"]["spin_deg"] == pytest.approx(330)
    matrix = np.array(answer["pose"]["matrix"])
    np.testing.assert_allclose(matrix[:3, :3] @ [-1, 0, 0], [0, 0, 1], atol=1e-12)


def test_marks_move_area_between_the_classes(capsys, cube, tmp_path):
    marks = tmp_path / "marks.json"
    marks.write_text('{"A": [0, 1, 2, 3], "B": [4]}')
    words = ["measure", cube, "--up", "1,1,0", "--limit", "45.1", "--json"]
    (plain,), _ = answers(capsys, words)
    (marked,), _ = answers(capsys, [*words, "--marks", marks, "--visible", "0.1"])
    # Four sides at 45° have terraces of 0.2 mm (CALC): no wider than a road, but wider than 0.1.
    visible = [each["terrace_visible_area_mm2"]["total"] for each in (plain, marked)]
    assert visible == pytest.approx([0, 1600])
    told = [each["process"]["visible_terrace_mm"] for each in (plain, marked)]
    assert told == [plain["process"]["road_mm"], 0.1]
    assert plain["touch_area_mm2"]["total"] == pytest.approx(800)  # row 18, CALC
    assert marked["touch_area_mm2"]["total"] == pytest.approx(800)
    assert plain["touch_area_mm2"]["A"] == 0 == plain["touch_area_mm2"]["B"]
    assert marked["process"]["limit_deg"] == 45.1


@pytest.mark.parametrize(
    "text", ['{"A": [12]}', '{"A": [0], "B": [0]}', '{"A": [-1]}', '{"A": "all"}', "nonsense"]
)
def test_marks_at_fault_end_with_one_sentence_and_exit_1(capsys, cube, tmp_path, text):
    marks = tmp_path / "marks.json"
    marks.write_text(text)
    found, err = answers(capsys, ["measure", cube, "--marks", marks, "--json"], expected_exit=1)
    assert found == []
    assert len(err.strip().splitlines()) == 1
    assert "Traceback" not in err


def test_check_of_a_sound_cube(capsys, cube):
    """Row 31 (CALC): closed cube, 12 triangles; nothing is wrong."""
    (answer,), _ = answers(capsys, ["check", cube, "--json"])
    assert_valid(answer, "check")
    assert answer["verdict"] == "sound"
    assert answer["faces"] == 12
    assert answer["open_edges"] == 0
    assert answer["faults"] == []
    assert answer["units"] == {"unit": "mm", "doubt": "", "suggested": ""}


def test_check_finds_the_hole_where_it_is(capsys, tmp_path):
    """Row 31 (CALC): one triangle deleted leaves 3 open edges."""
    box = trimesh.creation.box(bounds=[[0, 0, 0], [20, 20, 20]])
    wall = int(np.argmin(np.abs(box.triangles_center[:, 2] - 20 / 3) + box.triangles_center[:, 0]))
    path = tmp_path / "open.stl"
    trimesh.Trimesh(box.vertices, np.delete(box.faces, wall, axis=0)).export(path)
    (answer,), _ = answers(capsys, ["check", path, "--json"])
    assert answer["open_edges"] == 3
    assert answer["verdict"] == "will fail"
    (fault,) = [fault for fault in answer["faults"] if fault["kind"] == "open_edges"]
    assert (fault["from_mm"], fault["to_mm"]) == pytest.approx((0, 20))
    assert fault["layers"] == [0, 99] or len(fault["layers"]) == 100


def test_several_files_one_object_a_line_in_order(capsys, cube, post_and_cap):
    found, _ = answers(capsys, ["measure", cube, post_and_cap, "--json"])
    assert [answer["part"]["file"] for answer in found] == ["cube.stl", "post-and-cap.stl"]


def test_a_bad_file_among_good_ones_costs_only_its_own_answer(capsys, cube, tmp_path):
    bad = tmp_path / "bad.stl"
    bad.write_bytes(b"")
    found, err = answers(capsys, ["check", bad, cube, "--json"], expected_exit=1)
    assert [answer["file"] for answer in found] == ["cube.stl"]
    assert err.startswith("bad.stl: ")
    assert len(err.strip().splitlines()) == 1


def test_unit_doubt_is_raised_and_answered(capsys, tmp_path):
    path = tmp_path / "metres.stl"
    trimesh.creation.box(extents=[0.11, 0.05, 0.02]).export(path)
    (doubtful,), _ = answers(capsys, ["check", path, "--json"])
    assert doubtful["size_mm"] == pytest.approx([0.11, 0.05, 0.02])
    assert doubtful["units"]["doubt"] != ""
    assert doubtful["units"]["suggested"] == "m"
    (answered,), _ = answers(capsys, ["check", path, "--unit", "m", "--json"])
    assert answered["size_mm"] == pytest.approx([110, 50, 20])
    assert answered["units"]["doubt"] == ""


@pytest.mark.parametrize("suffix", [".3mf", ".stl", ".obj", ".ply"])
def test_pose_writes_the_part_standing_centred_on_the_platform(
    capsys, post_and_cap, tmp_path, suffix
):
    out = tmp_path / f"posed{suffix}"
    words = ["pose", str(post_and_cap), "--up", "1,2,3", "--spin", "20", "--out", str(out)]
    assert main(words) == 0
    posed = trimesh.load(out, force="mesh")
    assert posed.volume == pytest.approx(6500, rel=1e-4)
    low, high = posed.bounds
    assert low[2] == pytest.approx(0, abs=1e-4)
    np.testing.assert_allclose(low[:2] + high[:2], 0, atol=1e-3)


@pytest.mark.parametrize(
    ("words", "exit_code"),
    [
        (["measure"], 2),
        (["measure", "x.stl", "--layer", "thick"], 2),
        (["measure", "x.stl", "--up", "1,2"], 2),
        (["frobnicate", "x.stl"], 2),
        (["pose", "x.stl"], 2),
        (["measure", "is-not-there.stl", "--json"], 1),
        (["measure", "x.stl", "--limit", "95"], 1),
        (["measure", "x.stl", "--up", "0,0,0"], 1),
    ],
)
def test_wrong_usage_is_2_and_a_fault_of_the_request_is_1(
    capsys, tmp_path, monkeypatch, words, exit_code
):
    monkeypatch.chdir(tmp_path)
    trimesh.creation.box().export("x.stl")
    try:
        found = main(words)
    except SystemExit as ended:
        found = ended.code
    out, err = capsys.readouterr()
    assert found == exit_code
    assert out == ""
    assert len(err.strip().splitlines()) == 1


def test_without_json_the_same_numbers_are_words(capsys, post_and_cap):
    assert main(["measure", str(post_and_cap)]) == 0
    out, _ = capsys.readouterr()
    assert "mm²" in out
    assert "125 layers" in out
    assert main(["check", str(post_and_cap)]) == 0
    out, _ = capsys.readouterr()
    assert "post-and-cap.stl: sound" in out


def test_the_profile_lists_every_layer(capsys, post_and_cap):
    """Row 22, layer by layer (CALC): 100 layers of post and support, 25 of the cap."""
    (answer,), _ = answers(capsys, ["measure", post_and_cap, "--json", "--profile"])
    assert_valid(answer, "measure")
    profile = answer["profile"]
    assert profile["area_mm2"] == pytest.approx([100.0] * 100 + [900.0] * 25)
    assert profile["support_area_mm2"] == pytest.approx([800.0] * 100 + [0.0] * 25, rel=0.01)
    assert profile["mixed"] == [True] * 100 + [False] * 25
    assert profile["touch_mm2"]["unmarked"][100] == pytest.approx(800, rel=0.01)
    assert not any(profile["islands"])
    assert answer["tip_angle_supported_deg"] > answer["tip_angle_deg"]


def test_islands_and_shut_in_support_are_told_in_words_and_numbers(capsys, tmp_path):
    """A block with a sealed hollow (row 27) and a stalactite that hangs in the hollow (CALC)."""
    block = trimesh.creation.box(bounds=[[0, 0, 0], [20, 20, 20]])
    hollow = trimesh.creation.box(bounds=[[5, 5, 5], [15, 15, 15]])
    hanging = trimesh.creation.box(bounds=[[9, 9, 10], [11, 11, 16]])
    made = trimesh.boolean.difference([block, hollow], engine="manifold")
    path = tmp_path / "hollow.stl"
    trimesh.boolean.union([made, hanging], engine="manifold").export(path)
    (answer,), _ = answers(capsys, ["measure", path, "--json"])
    assert_valid(answer, "measure")
    assert answer["islands"] == 1
    assert answer["island_places"][0]["height_mm"] == pytest.approx(10)
    assert answer["island_places"][0]["place_mm"][2] == pytest.approx(10)
    assert answer["island_support_mm3"] == pytest.approx(4 * 5)
    assert answer["sealed_support_mm3"] == pytest.approx(96 * 10 + 4 * 5, rel=0.01)
    assert answer["unreachable_support_mm3"] == pytest.approx(980, rel=0.01)
    assert main(["measure", str(path)]) == 0
    text = capsys.readouterr().out
    assert "1 island, the lowest at 10.00 mm" in text
    assert "980 mm³ is sealed in" in text


def test_step_files_are_split_as_finely_as_asked(capsys, tmp_path):
    path = write_step(tmp_path / "ball.step", sphere(10.0))
    (coarse,), _ = answers(capsys, ["check", path, "--json", "--chord", "0.5"])
    (fine,), _ = answers(capsys, ["check", path, "--json", "--chord", "0.02"])
    assert fine["faces"] > 4 * coarse["faces"]
    assert fine["verdict"] == "sound"
    _, err = answers(capsys, ["check", path, "--json", "--chord", "0"], 1)
    assert "chord error has to lie between" in err
