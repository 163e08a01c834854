"""`showside specimen`: files that others read as closed, steps as they stand on the print."""

import json

import jsonschema
import lib3mf
import pytest
import trimesh

from viewer.app import main
from viewer.resource_files import resource_file


def answer_of(capsys, *words):
    assert main(["specimen", *map(str, words), "--json"]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    answer = json.loads(out)
    schema = json.loads(resource_file("schema/specimen.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(answer, schema)
    return answer


def test_both_materials_are_objects_of_their_own_where_they_belong(capsys, tmp_path):
    answer = answer_of(capsys, "pair-release", "--steps", "0,0.2", "--out", tmp_path / "out")
    assert [step["label"] for step in answer["steps"]] == ["0", "0.2"] * 2
    model = lib3mf.get_wrapper().CreateModel()
    reader = model.QueryReader("3mf")
    reader.SetStrictModeActive(True)
    reader.ReadFromFile(str(tmp_path / "out" / answer["file"]))
    assert reader.GetWarningCount() == 0
    assert model.GetMeshObjects().Count() == 4
    together = trimesh.load(tmp_path / "out" / answer["file"], force="mesh")
    assert together.bounds[0][2] == 0
    for body in answer["bodies"]:
        read = trimesh.load(tmp_path / "out" / body["file"])
        assert read.is_watertight
        assert read.volume == pytest.approx(body["volume_mm3"], rel=1e-5)


def test_words_name_the_question_and_the_steps(capsys, tmp_path):
    assert main(["specimen", "inclination-fan", "--steps", "30,50", "--out", str(tmp_path)]) == 0
    out, _ = capsys.readouterr()
    assert out.startswith("From which inclination")
    assert "30°, 50°" in out


def test_faults_of_the_request(capsys, tmp_path):
    assert main(["specimen", "bridge-ladder", "--steps", "1", "--out", str(tmp_path)]) == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert err == "Give 1 to 40 spans in mm, each from 2 to 200.\n"
    with pytest.raises(SystemExit) as ended:
        main(["specimen", "pyramid", "--out", str(tmp_path)])
    assert ended.value.code == 2


def test_it_says_what_it_takes_and_suits_machine_and_pair(capsys, tmp_path):
    words = ["slender-fins", "--out", tmp_path / "out"]
    usual = answer_of(capsys, *words)
    assert usual["time_s"]["likely"] > 0
    assert usual["cost"]["likely"] > 0
    suited = answer_of(capsys, *words, "--machine", "One nozzle, medium", "--road", "0.6")
    assert [step["value"] for step in suited["steps"]] == pytest.approx([1.2, 1.8, 2.4, 3.6])
    assert sum(suited["material_g"].values()) > sum(usual["material_g"].values())
    release = ["pair-release", "--steps", "0", "--out", tmp_path / "out"]
    one = answer_of(capsys, *release, "--machine", "One nozzle, medium", "--pair", "PLA with PVA")
    assert "loaded with" in one["problem"]
    assert "time_s" not in one
