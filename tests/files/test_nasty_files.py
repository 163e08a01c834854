"""Every file of the shared nasty set ends as its table says: read right, or refused in a sentence.

The base part of the set is a box 10 × 20 × 30 of 12 triangles, volume 6000.
"""

import numpy as np
import pytest

from tests.shared_meshes import folder
from viewer.errors import NothingToPrint, UnreadableFile
from viewer.files.mesh_files import read_part

# Read: number of triangles, size in mm, words of a note (or "" for no note at all).
BOX = (12, (10, 20, 30), "")
READ = {
    "ascii_bom.stl": BOX,
    "ascii_comment.stl": BOX,
    "ascii_cr.stl": BOX,
    "ascii_crlf.stl": BOX,
    "ascii_latin1_name.stl": BOX,
    "ascii_leading_blank.stl": BOX,
    "ascii_name_facet.stl": BOX,
    "ascii_no_endsolid.stl": (12, (10, 20, 30), "lacks its closing line"),
    "ascii_ok.stl": BOX,
    "ascii_upper.stl": BOX,
    "backslash.obj": BOX,
    "binary_solid_facet_header.stl": BOX,
    "bomb_9MB_spaces.3mf": BOX,
    "concave_ngon.obj": (3, (4, 4, 0), ""),
    "degenerate_index.3mf": (13, (10, 20, 30), ""),
    "far_1e6.stl": BOX,
    "inch.3mf": (12, (254, 508, 762), ""),
    "micron_1e-4.stl": (12, (0.001, 0.002, 0.003), ""),
    "mirror_transform.3mf": BOX,
    "model_elsewhere.3mf": BOX,
    "mtl_traversal.obj": BOX,
    "negative.obj": BOX,
    "nested3.3mf": (96, (55, 135, 80), ""),
    "ok.3mf": BOX,
    "path_traversal.3mf": BOX,
    "ply_count_too_big.ply": (12, (10, 20, 30), "announces 999 faces, but 12 are there"),
    "ply_double_quads.ply": (2, (0, 20, 30), ""),
    "printable_0.3mf": BOX,
    "quads.obj": BOX,
    "scientific.obj": BOX,
    "shear_scale.3mf": (12, (30, 20, 90), ""),
    "singular_transform.3mf": (12, (0, 0, 0), "flattened to nothing"),
    "trailing_bytes.stl": (12, (10, 20, 30), "40 bytes follow the last triangle"),
    "unit_bad.3mf": (12, (10, 20, 30), "unit that does not exist"),
    "unit_missing.3mf": BOX,
    "vt_vn.obj": BOX,
}

# Refused: which error, and words of its sentence.
REFUSED = {
    "ascii_comma_decimal.stl": (UnreadableFile, "decimal commas"),
    "ascii_nan.stl": (UnreadableFile, "1 of its 12 triangles has a corner whose coordinates"),
    "ascii_truncated.stl": (UnreadableFile, "cut off: it ends within triangle 6"),
    "build_missing_object.3mf": (UnreadableFile, "names an object that is not in the file"),
    "comma_decimal.3mf": (UnreadableFile, "perhaps with a decimal comma"),
    "component_blowup_2pow24.3mf": (UnreadableFile, "16,777,216 times"),
    "component_cycle.3mf": (UnreadableFile, "contains itself"),
    "component_forward_ref.3mf": (UnreadableFile, "comes later"),
    "component_self.3mf": (UnreadableFile, "contains itself"),
    "count_ffffffff.stl": (UnreadableFile, "12 of 4,294,967,295 triangles are there"),
    "count_too_big.stl": (UnreadableFile, "12 of 1,000 triangles are there"),
    "empty_build.3mf": (NothingToPrint, "nothing to print in this file"),
    "empty_mesh.3mf": (NothingToPrint, "no triangles"),
    "header_only_80.stl": (NothingToPrint, "without triangles"),
    "html.3mf": (UnreadableFile, "not a 3MF package"),
    "huge_1e30.stl": (UnreadableFile, "no part does"),
    "index_out_of_range.3mf": (UnreadableFile, "names a corner that the file does not have"),
    "inf_vertex.stl": (UnreadableFile, "1 of its 12 triangles has a corner whose coordinates"),
    "lines_only.obj": (NothingToPrint, "no triangles"),
    "nan_vertex.3mf": (UnreadableFile, "coordinates that are not numbers"),
    "nan_vertex.stl": (UnreadableFile, "1 of its 12 triangles has a corner whose coordinates"),
    "no_faces.obj": (NothingToPrint, "no triangles"),
    "no_model.3mf": (UnreadableFile, "no 3D model inside"),
    "not_zip.3mf": (UnreadableFile, "not a 3MF package"),
    "out_of_range.obj": (UnreadableFile, "face 1 names a corner that the file does not have"),
    "ply_negative_index.ply": (UnreadableFile, "face 1 names a corner"),
    "ply_vertex_4e9.ply": (UnreadableFile, "0 of its 4,000,000,000 vertex rows"),
    "truncated.3mf": (UnreadableFile, "cut off"),
    "truncated_half.stl": (UnreadableFile, "cut off: 6 of 12 triangles are there"),
    "type_support.3mf": (NothingToPrint, "support objects only"),
    "xml_entity_bomb.3mf": (UnreadableFile, "DOCTYPE"),
    "xml_external_entity.3mf": (UnreadableFile, "DOCTYPE"),
    "zero.3mf": (NothingToPrint, "empty file"),
    "zero.obj": (NothingToPrint, "empty file"),
    "zero.ply": (NothingToPrint, "empty file"),
    "zero.stl": (NothingToPrint, "empty file"),
    "zero_index.obj": (UnreadableFile, "face 1 names a corner"),
}


@pytest.mark.parametrize("name", READ)
def test_it_is_read(name):
    faces, size_mm, note = READ[name]
    part = read_part(folder("nasty") / name).part
    assert part.mesh.face_count == faces
    assert np.allclose(np.ptp(part.mesh.box_mm, axis=0), size_mm, rtol=2e-6, atol=1e-9)
    if faces >= 12 and min(size_mm) > 0:
        copies = 8 if name == "nested3.3mf" else 1
        box = np.prod(size_mm) if copies == 1 and name != "shear_scale.3mf" else 6000 * copies
        volume = 36000 if name == "shear_scale.3mf" else box
        assert part.mesh.signed_volume_mm3 == pytest.approx(volume, rel=1e-5)
        assert len(part.mesh.vertices_mm) == 8 * copies
    if note:
        assert any(note in text for text in part.notes)
    else:
        assert part.notes == ()


@pytest.mark.parametrize("name", REFUSED)
def test_it_is_refused_in_one_sentence(name):
    error, words = REFUSED[name]
    with pytest.raises(error) as caught:
        read_part(folder("nasty") / name)
    assert words in str(caught.value)
    assert str(caught.value).startswith(name)
    assert "\n" not in str(caught.value)


def test_every_file_of_the_set_is_in_one_of_the_tables():
    names = {path.name for path in folder("nasty").iterdir() if path.suffix != ".md"}
    assert names == READ.keys() | REFUSED.keys()
    assert not READ.keys() & REFUSED.keys()


def test_unit_doubt_is_raised_where_a_part_is_a_thousandth_of_a_grain():
    assert read_part(folder("nasty") / "micron_1e-4.stl").part.unit_doubt
    assert not read_part(folder("nasty") / "ascii_ok.stl").part.unit_doubt
    assert not read_part(folder("nasty") / "inch.3mf").part.unit_doubt


def test_a_polygon_with_a_dent_is_covered_and_nothing_outside_it():
    """The outline is an square with a notch: 16 − 6 = 10 mm² by the shoelace formula (CALC)."""
    mesh = read_part(folder("nasty") / "concave_ngon.obj").part.mesh
    assert mesh.face_areas_mm2.sum() == pytest.approx(10.0)
    assert np.allclose(mesh.face_normals, [0, 0, 1])
