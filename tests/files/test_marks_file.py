"""MARKS.json: triangles, polygons, and marks that do not fit."""

import json

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.files.made_files import box_state
from viewer.document.state import Part
from viewer.errors import RequestProblem, UnreadableFile
from viewer.files.marks_file import read_marks
from viewer.files.mesh_files import read_part

BOX = box_state().part


def marks(folder, content):
    path = folder / "marks.json"
    path.write_text(content if isinstance(content, str) else json.dumps(content))
    return path


@given(st.lists(st.sampled_from([0, 1, 2]), min_size=12, max_size=12))
def test_classes_come_back(tmp_path_factory, classes):
    classes = np.array(classes)
    lists = {name: np.flatnonzero(classes == k).tolist() for k, name in ((1, "A"), (2, "B"))}
    path = marks(tmp_path_factory.mktemp("marks"), lists)
    assert np.array_equal(read_marks(path, BOX), classes)


def test_polygons_share_the_class_among_their_triangles(tmp_path):
    obj = "v 0 0 0\nv 30 0 0\nv 30 30 0\nv 0 30 0\nv 15 15 40\nf 1 2 3 4\nf 1 2 5\nf 4 3 5\n"
    (tmp_path / "x.obj").write_text(obj)
    part = read_part(tmp_path / "x.obj").part
    assert part.mesh.face_count == 4
    assert read_marks(marks(tmp_path, {"A": [0], "B": [2]}), part).tolist() == [1, 1, 0, 2]
    with pytest.raises(RequestProblem, match="face 3 as class A"):
        read_marks(marks(tmp_path, {"A": [3]}), part)


@pytest.mark.parametrize(
    ("content", "words"),
    [
        ({"A": [12], "B": []}, "face 12 as class A, but the part has the faces 0 to 11"),
        ({"B": [-1]}, "face -1 as class B"),
        ({"A": [3, 4], "B": [4]}, "face 4 in both A and B"),
    ],
)
def test_marks_that_do_not_fit(tmp_path, content, words):
    with pytest.raises(RequestProblem, match=words):
        read_marks(marks(tmp_path, content), BOX)


@pytest.mark.parametrize(
    "content", ["", "[]", '{"A": 3}', '{"A": [1.5]}', '{"C": []}', "{", "\udcff"]
)
def test_what_is_no_list_of_marks(tmp_path, content):
    path = tmp_path / "marks.json"
    path.write_bytes(content.encode("utf-8", "surrogateescape"))
    with pytest.raises(UnreadableFile, match=r"has to look like"):
        read_marks(path, BOX)


def test_no_file(tmp_path):
    with pytest.raises(UnreadableFile, match="cannot be read"):
        read_marks(tmp_path / "none.json", Part("box", BOX.mesh))
