"""`measure --cusp` plans layers of different heights, in JSON by schema and in words."""

import json

import pytest

from tests import shapes
from tests.command.test_line import answers, assert_valid
from tests.command.test_rank import write
from viewer.app import main


def test_a_cone_gets_layers_of_one_other_height(capsys, tmp_path):
    """CALC: r 10, h 20 has n_z 0.447; a cusp of 0.1 mm allows 0.22 mm on the grid: 91 layers."""
    mesh = shapes.cone(10, 20)
    path, marks = write(mesh, tmp_path / "cone.stl"), tmp_path / "marks.json"
    marks.write_text(json.dumps({"A": list(range(mesh.face_count))}))
    words = ["measure", path, "--marks", marks, "--cusp", "0.1"]
    (answer,), _ = answers(capsys, [*words, "--json"])
    assert_valid(answer, "measure")
    found = answer["adaptive_layers"]
    assert found["optimal"]["layers"] == 91
    assert found["even"]["layers"] == 100
    assert found["more_layers"] == -9
    # 91 · 0.22 is 0.02 too much, which the optimum takes where it leaves the least error.
    assert sum(run["layers"] for run in found["table"]) == 91
    assert max(run["layer_mm"] for run in found["table"]) == pytest.approx(0.22)
    assert found["table"][-1]["to_mm"] == pytest.approx(20)
    assert found["optimal"]["largest_cusp_mm"] <= 0.1
    assert main([str(word) for word in words]) == 0
    assert "91 instead of 100 layers" in capsys.readouterr().out
    _, err = answers(capsys, [*words[:-1], "0", "--json"], expected_exit=1)
    assert "cusp limit" in err
