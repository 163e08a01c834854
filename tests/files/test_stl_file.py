"""STL: sizes by the rule of the format, round trips, and what liars get."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra import numpy as hnp

from tests.files.made_files import binary_stl, box_mesh, box_state, text_stl
from viewer.document.state import Part, State
from viewer.errors import Cancelled, RequestProblem, UnreadableFile
from viewer.files.mesh_files import read_part, write_posed
from viewer.geometry.mesh import Mesh
from viewer.progress import Progress

# Multiples of 1/64 up to 512: exact in float32, and so is every corner the noise grid rounds.
_facets = hnp.arrays(
    np.float64,
    st.tuples(st.integers(1, 12), st.just(3), st.just(3)),
    elements=st.integers(-(2**15), 2**15).map(lambda k: k / 64),
)


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return tmp_path_factory.mktemp("stl")


@given(facets=_facets)
def test_binary_and_text_come_back_facet_by_facet(folder, facets):
    for name, content in (("b.stl", binary_stl(facets)), ("t.stl", text_stl(facets))):
        (folder / name).write_bytes(content)
        mesh = read_part(folder / name).part.mesh
        assert np.array_equal(mesh.corners_mm, facets)
        assert len(mesh.vertices_mm) == len(np.unique(facets.reshape(-1, 3) + 0.0, axis=0))


def test_a_cube_has_684_bytes(tmp_path):
    """Row 30: 84 + 50 · 12 (Burns, Automated Fabrication §6.5; READ)."""
    write_posed(box_state(20, 20, 20), tmp_path / "cube.stl")
    assert (tmp_path / "cube.stl").stat().st_size == 684


def test_a_million_facets_have_50_000_084_bytes(tmp_path):
    """Row 30, rule READ."""
    mesh = box_mesh(20, 20, 20)
    many = Mesh(mesh.vertices_mm, np.resize(mesh.faces, (1_000_000, 3)))
    write_posed(State.of_part(Part("many", many)), tmp_path / "many.stl")
    assert (tmp_path / "many.stl").stat().st_size == 50_000_084
    assert read_part(tmp_path / "many.stl").part.mesh.face_count == 1_000_000


def test_an_inch_cube_answers_the_unit_doubt(tmp_path):
    path = tmp_path / "inch.stl"
    path.write_bytes(binary_stl(box_mesh(2, 2, 2).corners_mm))
    as_written = read_part(path).part
    assert as_written.unit_doubt
    assert as_written.suggested_unit == "inch"
    assert as_written.mesh.signed_volume_mm3 == pytest.approx(8.0)
    for unit, mm in (("mm", 1), ("cm", 10), ("m", 1000), ("inch", 25.4), ("ft", 304.8)):
        part = read_part(path, unit=unit).part
        assert part.mesh.signed_volume_mm3 == pytest.approx(8.0 * mm**3)
        assert (part.unit, part.unit_doubt) == (unit, "")


def test_numbers_that_are_none_are_counted(tmp_path):
    facets = box_mesh(10, 10, 10).corners_mm.copy()
    facets[[2, 5, 7], 1, 1] = np.nan, np.inf, -np.inf
    (tmp_path / "x.stl").write_bytes(binary_stl(facets))
    with pytest.raises(UnreadableFile, match="3 of its 12 triangles have"):
        read_part(tmp_path / "x.stl")


@pytest.mark.parametrize("cut", [1, 49, 50, 333, 599])
def test_a_cut_off_file_says_how_much_is_there(tmp_path, cut):
    content = binary_stl(box_mesh(10, 10, 10).corners_mm)[:-cut]
    (tmp_path / "x.stl").write_bytes(content)
    with pytest.raises(UnreadableFile, match=f"cut off: {(600 - cut) // 50} of 12 triangles"):
        read_part(tmp_path / "x.stl")


def test_two_solids_of_a_text_file_are_one_part(tmp_path):
    facets = box_mesh(10, 10, 10).corners_mm
    (tmp_path / "x.stl").write_bytes(text_stl(facets) + text_stl(facets + 20))
    part = read_part(tmp_path / "x.stl").part
    assert part.mesh.face_count == 24
    assert part.notes == ()


def test_a_stopped_read_raises_cancelled_and_says_how_far_it_came(tmp_path):
    (tmp_path / "x.stl").write_bytes(text_stl(np.tile(box_mesh(9, 9, 9).corners_mm, (50, 1, 1))))
    seen = []

    def listener(fraction, doing):
        seen.append(fraction)
        if len(seen) == 3:
            progress.cancel()

    progress = Progress(listener)
    with pytest.raises(Cancelled):
        read_part(tmp_path / "x.stl", progress)
    assert len(seen) == 3
    finished = []
    read_part(tmp_path / "x.stl", Progress(lambda fraction, doing: finished.append(fraction)))
    assert finished == sorted(finished)
    assert finished[-1] > 0.9


def test_a_text_file_of_corners_without_numbers_is_refused(tmp_path):
    text = "solid x\nfacet\n" + "vertex\n" * 5000 + "endfacet\nendsolid x\n"
    (tmp_path / "x.stl").write_text(text)
    with pytest.raises(UnreadableFile, match="facet 1 does not have three corners"):
        read_part(tmp_path / "x.stl")


def test_a_lost_end_of_facet_is_no_matter_and_a_lost_corner_is(tmp_path):
    text = text_stl(box_mesh(10, 10, 10).corners_mm).decode()
    (tmp_path / "x.stl").write_text(text.replace("endfacet", "", 5))
    assert read_part(tmp_path / "x.stl").part.mesh.face_count == 12
    lines = text.splitlines()
    del lines[10]
    (tmp_path / "x.stl").write_text("\n".join(lines))
    with pytest.raises(UnreadableFile, match="facet 2 does not have three corners"):
        read_part(tmp_path / "x.stl")


def test_corners_of_a_read_cube_are_joined(tmp_path):
    """Row 31: V 8, E 18, χ 2; with one triangle deleted 3 open edges (CALC)."""
    facets = box_mesh(20, 20, 20).corners_mm
    (tmp_path / "x.stl").write_bytes(binary_stl(facets))
    mesh = read_part(tmp_path / "x.stl").part.mesh
    edges = np.sort(mesh.faces[:, [[0, 1], [1, 2], [2, 0]]].reshape(-1, 2), axis=1)
    count = len(np.unique(edges, axis=0))
    assert (len(mesh.vertices_mm), count) == (8, 18)
    assert len(mesh.vertices_mm) - count + mesh.face_count == 2
    (tmp_path / "x.stl").write_bytes(binary_stl(facets[:-1]))
    faces = read_part(tmp_path / "x.stl").part.mesh.faces
    edges = np.sort(faces[:, [[0, 1], [1, 2], [2, 0]]].reshape(-1, 2), axis=1)
    assert np.count_nonzero(np.unique(edges, axis=0, return_counts=True)[1] == 1) == 3


def test_an_item_number_makes_no_sense_for_a_mesh_without_items(tmp_path):
    (tmp_path / "x.stl").write_bytes(binary_stl(box_mesh(20, 20, 20).corners_mm))
    assert read_part(tmp_path / "x.stl", item=1).part.mesh.face_count == 12
    with pytest.raises(RequestProblem, match="one item only"):
        read_part(tmp_path / "x.stl", item=2)


def test_a_file_that_is_not_there_or_is_a_folder(tmp_path):
    with pytest.raises(UnreadableFile, match="There is no file"):
        read_part(tmp_path / "none.stl")
    (tmp_path / "folder.stl").mkdir()
    with pytest.raises(UnreadableFile, match="is a folder"):
        read_part(tmp_path / "folder.stl")
