"""`showside piece` keeps its contract: closed pieces that add up, each in a file as it stands."""

import json

import jsonschema
import numpy as np
import pytest
import trimesh

from viewer.app import main
from viewer.files.mesh_files import read_part
from viewer.resource_files import resource_file


@pytest.fixture
def cube(tmp_path):
    path = tmp_path / "cube.stl"
    trimesh.creation.box(extents=[20, 20, 20]).export(path)
    return path


def run(capsys, *words, exit_code=0):
    assert main([str(word) for word in words]) == exit_code
    return capsys.readouterr()


def answer_of(capsys, *words):
    out, err = run(capsys, "piece", *words, "--json")
    assert err == ""
    answer = json.loads(out)
    schema = json.loads(resource_file("schema/piece.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(answer, schema)
    return answer


def test_two_planes_make_quarters_that_other_programs_read_as_closed(capsys, cube, tmp_path):
    out = tmp_path / "quarters"
    planes = ["--plane", "0,0,0,1,0,0", "--plane", "0,0,0,0,-1,0"]
    answer = answer_of(capsys, cube, *planes, "--out", out)
    assert len(answer["pieces"]) == 4
    assert sorted(path.name for path in out.iterdir()) == [f"piece-{k}.3mf" for k in (1, 2, 3, 4)]
    assert answer["whole"]["volume_mm3"] == pytest.approx(8000)
    for piece in answer["pieces"]:
        body = trimesh.load(out / piece["file"], force="mesh")
        assert body.is_watertight
        assert body.volume == pytest.approx(2000, rel=1e-6)
        assert piece["volume_mm3"] == pytest.approx(2000, rel=1e-9)
        assert piece["closed"]
        assert piece["cut_area_mm2"] == pytest.approx(400)
        assert body.bounds[0][2] == pytest.approx(0, abs=1e-6)
    assert sum(p["volume_mm3"] for p in answer["pieces"]) == pytest.approx(8000, rel=1e-6)


def test_planes_are_in_part_coordinates_and_pieces_stand_in_the_pose_of_the_whole(
    capsys, post_and_cap, tmp_path
):
    """The plane z = 20 of the part parts post and cap in whatever pose (CALC: 2000 and 4500)."""
    out = tmp_path / "out"
    words = [post_and_cap, "--plane", "0,0,20,0,0,1", "--up", "1,0,0", "--spin", "90"]
    answer = answer_of(capsys, *words, "--out", out)
    assert [piece["volume_mm3"] for piece in answer["pieces"]] == pytest.approx([2000, 4500])
    assert answer["pieces"][0]["size_mm"] == pytest.approx([10, 20, 10])
    assert answer["pieces"][1]["size_mm"] == pytest.approx([30, 5, 30])
    for piece in answer["pieces"]:
        np.testing.assert_allclose(
            np.array(piece["pose"]["matrix"])[:3, :3],
            np.array(answer["pose"]["matrix"])[:3, :3],
            atol=1e-12,
        )


def test_laid_anew_each_piece_stands_on_its_cut_face(capsys, post_and_cap, tmp_path):
    words = [post_and_cap, "--plane", "0,0,10,0,0,1", "--lay", "cut-face"]
    answer = answer_of(capsys, *words, "--out", tmp_path / "out")
    assert [piece["pose"]["up"] for piece in answer["pieces"]] == [
        pytest.approx([0, 0, -1]),
        pytest.approx([0, 0, 1]),
    ]


def test_classes_travel_into_the_files(capsys, cube, tmp_path):
    marks = tmp_path / "marks.json"
    marks.write_text(json.dumps({"A": list(range(12))}))
    words = [cube, "--plane", "0,0,0,1,1,0", "--marks", marks, "--out", tmp_path / "out"]
    answer = answer_of(capsys, *words)
    for piece in answer["pieces"]:
        assert piece["class_area_mm2"]["A"] == pytest.approx(1200)
        again = read_part(tmp_path / "out" / piece["file"])
        marked = again.part.mesh.face_areas_mm2[again.face_classes == 1].sum()
        assert marked == pytest.approx(1200, rel=1e-6)
        rest = again.part.mesh.face_areas_mm2[again.face_classes == 0].sum()
        assert rest == pytest.approx(piece["cut_area_mm2"], rel=1e-6)


def test_pins_join_the_halves_and_holes_are_wider_by_the_glue_gap(capsys, cube, tmp_path):
    words = [cube, "--plane", "0,0,0,0,0,1", "--pins", "4", "--glue-gap", "0.2"]
    answer = answer_of(capsys, *words, "--out", tmp_path / "out")
    below, above = (
        trimesh.load(tmp_path / "out" / p["file"], force="mesh") for p in answer["pieces"]
    )
    assert below.is_watertight
    assert above.is_watertight
    assert below.volume > 4000 > above.volume
    assert below.volume + above.volume < 8000
    assert below.extents[2] == pytest.approx(10 + 5)
    assert answer["notes"] == []
    words = [cube, "--plane", "0,0,0,0,0,1", "--pins", "18", "--out", tmp_path / "out"]
    assert "no room for a pin" in answer_of(capsys, *words)["notes"][0]


def test_a_split_is_proposed_and_cut(capsys, tmp_path):
    bar = tmp_path / "bar.stl"
    trimesh.creation.box(extents=[100, 10, 20]).export(bar)
    answer = answer_of(capsys, bar, "--split", "--pins", "4", "--out", tmp_path / "out")
    np.testing.assert_allclose(np.abs(answer["splits"][0]["normal"]), [1, 0, 0], atol=1e-9)
    assert answer["splits"][0]["cut_area_mm2"] == pytest.approx(200)
    assert len(answer["pieces"]) == 2
    out, _ = run(capsys, "piece", bar, "--split", "2", "--out", tmp_path / "out")
    assert "No face of class A is crossed" in out
    _, err = run(capsys, "piece", bar, "--split", "99", "--out", tmp_path / "o", exit_code=1)
    assert "counted from 1" in err


def test_the_worst_patch_is_cut_out(capsys, post_and_cap, tmp_path):
    """Row 22: the touch of 800 mm² under the cap, 30 × 30, margin 2 (CALC)."""
    part = read_part(post_and_cap).part
    marks = tmp_path / "marks.json"
    marks.write_text(json.dumps({"A": list(range(part.mesh.face_count))}))
    words = [post_and_cap, "--worst", "touch", "--margin", "2", "--marks", marks]
    answer = answer_of(capsys, *words, "--out", tmp_path / "out")
    assert answer["worst"]["area_mm2"] == pytest.approx(800)
    assert answer["worst"]["size_mm"] == pytest.approx([34, 34, 4])
    (piece,) = answer["pieces"]
    assert piece["file"] == "worst-touch.3mf"
    assert piece["volume_mm3"] == pytest.approx(30 * 30 * 2 + 10 * 10 * 2)


def test_a_box_is_cut_out_and_told_in_words(capsys, cube, tmp_path):
    words = ["piece", cube, "--box", "0,0,0,-20,5,5", "--out", tmp_path / "out"]
    out, _ = run(capsys, *words)
    assert "250.0 mm³" in out  # CALC: 10 × 5 × 5
    assert "box.3mf" in out
    assert out.startswith("cube.stl: 1 piece in ")


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        ([], "Say where to cut"),
        (["--plane", "0,0,99,0,0,1"], "Plane 1 does not meet the part"),
        (["--plane", "0,0,0,0,0,0"], "direction that is not zero"),
        (["--box", "50,50,50,60,60,60"], "Nothing of the part lies there"),
        (["--worst", "touch"], "no touch on class A"),
        (["--plane", "0,0,0,0,0,1", "--worst", "touch"], "Say where to cut"),
    ],
)
def test_a_request_at_fault_ends_with_one_sentence_and_no_file(
    capsys, cube, tmp_path, words, sentence
):
    out, err = run(capsys, "piece", cube, *words, "--out", tmp_path / "out", exit_code=1)
    assert out == ""
    assert sentence in err
    assert len(err.strip().splitlines()) == 1
    assert not (tmp_path / "out").exists()


def test_quarters_and_slabs_are_told_as_the_part_is_laid(capsys, cube, tmp_path):
    turned = [cube, "--up", "1,1,0", "--spin", "12"]
    answer = answer_of(capsys, *turned, "--quarters", "--out", tmp_path / "out")
    assert len(answer["pieces"]) == 4
    answer = answer_of(capsys, cube, "--slab", "3,7.5", "--out", tmp_path / "out")
    assert answer["pieces"][0]["file"] == "slab.3mf"
    assert answer["pieces"][0]["volume_mm3"] == pytest.approx(400 * 4.5)


def test_the_folder_must_be_one(capsys, cube, tmp_path):
    (tmp_path / "taken").write_text("")
    words = ["piece", cube, "--plane", "0,0,0,0,0,1", "--out", tmp_path / "taken"]
    _, err = run(capsys, *words, exit_code=1)
    assert "name a folder" in err


@pytest.mark.parametrize("words", [["--plane", "1,2,3"], ["--plane", "a,b,c,d,e,f"]])
def test_wrong_usage_is_2(cube, tmp_path, words):
    with pytest.raises(SystemExit) as ended:
        main(["piece", str(cube), *words, "--out", str(tmp_path)])
    assert ended.value.code == 2


def test_each_piece_says_what_it_takes_on_the_machine_that_is_asked(capsys, cube, tmp_path):
    """Two like halves take the same; finer layers take longer, the mass stays (CALC)."""
    words = [cube, "--plane", "0,0,0,1,0,0", "--out", tmp_path / "out"]
    machine = ["--machine", "One nozzle, medium", "--pair", "PLA alone"]
    one, other = answer_of(capsys, *words, *machine)["pieces"]
    assert one["time_s"] == pytest.approx(other["time_s"], rel=1e-6)
    assert one["time_s"]["low"] < one["time_s"]["likely"] < one["time_s"]["high"]
    assert list(one["material_g"]) == ["PLA"]
    # CALC: 4000 mm³ of PLA of 1.24 g/cm³, no more than full.
    assert 0 < one["material_g"]["PLA"] < 4 * 1.24 * 1.05
    assert one["cost"]["currency"] == "EUR"
    fine, _ = answer_of(capsys, *words, *machine, "--layer", "0.1")["pieces"]
    assert fine["time_s"]["likely"] > one["time_s"]["likely"]
    out, _ = run(capsys, "piece", *words)
    assert "by itself" in out


def test_dovetails_join_the_halves_or_say_why_not(capsys, cube, tmp_path):
    words = [cube, "--plane", "0,0,0,0,0,1", "--dovetails", "5", "--out", tmp_path / "out"]
    answer = answer_of(capsys, *words)
    below, above = (
        trimesh.load(tmp_path / "out" / p["file"], force="mesh") for p in answer["pieces"]
    )
    assert below.is_watertight
    assert above.is_watertight
    assert below.volume > 4000 > above.volume
    assert 7900 < below.volume + above.volume < 8000
    marks = tmp_path / "marks.json"
    marks.write_text(json.dumps({"A": list(range(12))}))
    answer = answer_of(capsys, *words, "--marks", marks)
    assert "open into class A" in answer["notes"][0]
    assert [p["volume_mm3"] for p in answer["pieces"]] == pytest.approx([4000, 4000])
    _, err = run(capsys, "piece", *words, "--pins", "4", exit_code=1)
    assert "not with both" in err
