"""Kept poses and adaptive layers as tables: read back, every number is the measured one."""

import csv
import io

import numpy as np
import pytest

from tests import shapes
from viewer.document.state import KeptPose, Part, State
from viewer.errors import CannotWrite
from viewer.files.adaptive_table import adaptive_table, write_adaptive_table
from viewer.files.kept_table import write_kept_table
from viewer.geometry.adaptive_layers import LayerStack
from viewer.geometry.face_classes import ByClass
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part

POSES = (
    KeptPose("as drawn", Pose(), "quickest; no support"),
    KeptPose("=1+1", Pose((0, 0, -1), 30.0), "ümlaut, comma"),
)


def test_kept_poses_are_written_in_order_with_their_numbers(tmp_path):
    mesh = shapes.post_and_cap()
    state = State.of_part(Part("post", mesh), kept_poses=POSES)
    write_kept_table(state, tmp_path / "kept.csv")
    text = (tmp_path / "kept.csv").read_text("utf-8-sig")
    rows = list(csv.DictReader(io.StringIO(text)))
    assert [row["name"] for row in rows] == ["as drawn", "'=1+1"]  # never a formula
    assert rows[1]["note"] == "ümlaut, comma"
    assert [float(rows[1][f"up_{axis}"]) for axis in "xyz"] == [0, 0, -1]
    assert float(rows[1]["spin_deg"]) == 30
    part = prepare_part(mesh)
    for row, one in zip(rows, POSES, strict=True):
        measures = measure_pose(part, state.face_classes, one.pose, state.settings)
        assert float(row["height_mm"]) == pytest.approx(measures.height_mm, abs=1e-4)
        assert int(row["layers"]) == measures.layers
        assert float(row["touch_mm2"]) == pytest.approx(measures.touch_area_mm2.total, abs=1e-4)
        assert float(row["support_volume_mm3"]) == pytest.approx(
            measures.support_volume_mm3, abs=1e-4
        )


def test_nothing_kept_is_said_in_one_sentence(tmp_path):
    with pytest.raises(CannotWrite, match="No pose is kept"):
        write_kept_table(State.of_part(Part("cube", shapes.cube())), tmp_path / "kept.csv")
    assert not list(tmp_path.iterdir())


def test_layers_are_written_as_runs_that_reach_the_top(tmp_path):
    layers = np.array([0.2, 0.2, 0.3, 0.1, 0.1, 0.1])
    stack = LayerStack(layers, ByClass(0.0, 0.0, 0.0, 0.0), 0.0)
    write_adaptive_table(stack, tmp_path / "layers.csv")
    text = (tmp_path / "layers.csv").read_bytes().decode()
    assert text == adaptive_table(stack)
    rows = list(csv.DictReader(io.StringIO(text)))
    assert [(float(row["layer_mm"]), int(row["layers"])) for row in rows] == [
        (0.2, 2), (0.3, 1), (0.1, 3),
    ]  # fmt: skip
    assert [float(row["from_mm"]) for row in rows] == pytest.approx([0.0, 0.4, 0.7])
    assert float(rows[-1]["to_mm"]) == pytest.approx(layers.sum())
