"""Whatever bytes a file holds: a part comes out, or one of our own sentences."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.few import few
from tests.files.made_files import binary_stl, box_mesh, box_xml, package_3mf, text_stl
from tests.files.test_polygon_formats import SPELLINGS
from viewer.errors import FileProblem
from viewer.files.mesh_files import read_part

_CORNERS = box_mesh(10.0, 20.0, 30.0).corners_mm
GOOD = {
    "binary.stl": binary_stl(_CORNERS),
    "text.stl": text_stl(_CORNERS),
    "box.3mf": package_3mf(box_xml(1), '<item objectid="1"/>'),
    **SPELLINGS,
}
_TOKENS = [b"", b"-1", b"1e999", b"99999999999", b"nan", b"\0", b"\n", b" ", b"f", b"v", b"\xff"]


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return tmp_path_factory.mktemp("damaged")


@settings(max_examples=few(20, 60))
@given(
    edits=st.lists(
        st.tuples(st.floats(0, 1), st.integers(0, 40), st.sampled_from(_TOKENS)),
        min_size=1,
        max_size=4,
    )
)
@pytest.mark.parametrize("name", GOOD)
def test_damage_brings_a_part_or_a_sentence(folder, name, edits):
    content = bytearray(GOOD[name])
    for place, length, token in edits:
        at = int(place * len(content))
        content[at : at + length] = token
    (folder / name).write_bytes(bytes(content))
    try:
        mesh = read_part(folder / name).part.mesh
    except FileProblem as problem:
        sentence = str(problem)
        mesh = None
    if mesh is None:
        assert name in sentence
        assert "\n" not in sentence
    else:
        assert np.isfinite(mesh.vertices_mm).all()
        assert mesh.faces.min() >= 0
        assert mesh.faces.max() < len(mesh.vertices_mm)


@settings(max_examples=few(20, 60))
@given(content=st.binary(max_size=300), suffix=st.sampled_from(["stl", "obj", "ply", "off", "3mf"]))
def test_any_bytes_at_all(folder, content, suffix):
    path = folder / f"any.{suffix}"
    path.write_bytes(content)
    try:
        part = read_part(path).part
    except FileProblem as problem:
        part, sentence = None, str(problem)
    if part is None:
        assert path.name in sentence
    else:
        assert part.mesh.face_count > 0
