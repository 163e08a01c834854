"""OBJ, PLY and OFF: the same box in every spelling, random meshes, and files that lie."""

import struct

import numpy as np
import pytest
import trimesh
from hypothesis import given
from hypothesis import strategies as st

from tests.files.made_files import box_mesh
from viewer.errors import NothingToPrint, UnreadableFile
from viewer.files.mesh_files import read_part

CORNERS = box_mesh(10.0, 20.0, 30.0).vertices_mm
QUADS = [[0, 2, 3, 1], [4, 5, 7, 6], [0, 1, 5, 4], [2, 6, 7, 3], [0, 4, 6, 2], [1, 3, 7, 5]]


def obj_text(newline="\n", corner="{0}", start=1):
    lines = ["# a box", "mtllib /etc/nothing.mtl", "vn 0 0 1", "vt 0 0"]
    lines += [f"v {x!r} {y!r} {z!r}" for x, y, z in CORNERS.tolist()]
    for quad in QUADS:
        indices = [index + 1 if start == 1 else index - 8 for index in quad]
        lines.append("f " + " ".join(corner.format(index) for index in indices) + " # face")
    return newline.join(lines)


def off_text(head="OFF", colours=""):
    lines = [head, "# counts follow", "8 6 0", ""]
    lines += [f"{x!r} {y!r} {z!r}" for x, y, z in CORNERS.tolist()]
    lines += ["4 " + " ".join(map(str, quad)) + colours for quad in QUADS]
    return "\n".join(lines)


def ply_bytes(order, corner_kind="f", count_kind="B", index_kind="i", extra=True, faces=QUADS):
    """A PLY in one of its three encodings; `extra` adds properties that nobody needs."""
    names = {"f": "float", "d": "double", "B": "uchar", "i": "int", "I": "uint", "H": "ushort"}
    fmt = {"": "ascii", "<": "binary_little_endian", ">": "binary_big_endian"}[order]
    head = f"ply\nformat {fmt} 1.0\ncomment box\nelement vertex 8\n"
    head += "property uchar red\n" if extra else ""
    head += "".join(f"property {names[corner_kind]} {axis}\n" for axis in "xyz")
    head += f"element face {len(faces)}\n"
    head += f"property list {names[count_kind]} {names[index_kind]} vertex_indices\n"
    head += "property uchar green\n" if extra else ""
    body = b""
    for x, y, z in CORNERS.tolist():
        row = ([7] if extra else []) + [x, y, z]
        kinds = ("B" if extra else "") + corner_kind * 3
        body += (
            struct.pack(order + kinds, *row) if order else f"{' '.join(map(str, row))}\n".encode()
        )
    for face in faces:
        row = [len(face), *face] + ([9] if extra else [])
        kinds = count_kind + index_kind * len(face) + ("B" if extra else "")
        body += (
            struct.pack(order + kinds, *row) if order else f"{' '.join(map(str, row))}\n".encode()
        )
    return (head + "end_header\n").encode() + body


SPELLINGS = {
    "plain.obj": obj_text().encode(),
    "cr.obj": obj_text("\r").encode(),
    "crlf.obj": obj_text("\r\n").encode(),
    "normals.obj": obj_text(corner="{0}//1").encode(),
    "textured.obj": obj_text(corner="{0}/1/1").encode(),
    "negative.obj": obj_text(start=-1).encode(),
    "utf16.obj": obj_text().encode("utf-16"),
    "bom.obj": b"\xef\xbb\xbf" + obj_text().encode(),
    "joined.obj": obj_text(corner="\\\n{0}").encode(),
    "plain.off": off_text().encode(),
    "colours.off": off_text("COFF", " 255 0 0").encode(),
    "lower.off": off_text("off").encode(),
    "text.ply": ply_bytes(""),
    "little.ply": ply_bytes("<"),
    "big.ply": ply_bytes(">", "d", "i", "I"),
    "doubles.ply": ply_bytes("<", "d", "B", "H", extra=False),
}


@pytest.mark.parametrize("name", SPELLINGS)
def test_the_box_is_the_box_in_every_spelling(tmp_path, name):
    (tmp_path / name).write_bytes(SPELLINGS[name])
    part = read_part(tmp_path / name).part
    assert part.mesh.signed_volume_mm3 == pytest.approx(6000.0)
    assert len(part.mesh.vertices_mm) == 8
    assert part.polygon_of_face.tolist() == [0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 5, 5]
    assert part.notes == ()


@given(st.data())
def test_random_triangles_come_back_as_they_are(tmp_path_factory, data):
    count = data.draw(st.integers(3, 12))
    number = st.floats(-1e4, 1e4, allow_nan=False)
    points = data.draw(st.lists(st.tuples(number, number, number), min_size=count, max_size=count))
    index = st.integers(0, count - 1)
    faces = data.draw(st.lists(st.tuples(index, index, index), min_size=1, max_size=12))
    folder = tmp_path_factory.mktemp("random")
    text = "".join(f"v {x!r} {y!r} {z!r}\n" for x, y, z in points)
    text += "".join(f"f {a + 1} {b + 1} {c + 1}\n" for a, b, c in faces)
    (folder / "x.obj").write_text(text)
    off = f"OFF {count} {len(faces)} 0\n" + "".join(f"{x!r} {y!r} {z!r}\n" for x, y, z in points)
    (folder / "x.off").write_text(off + "".join(f"3 {a} {b} {c}\n" for a, b, c in faces))
    expected = np.array(points)[np.array(faces)]
    for name in ("x.obj", "x.off"):
        mesh = read_part(folder / name).part.mesh
        assert np.array_equal(mesh.corners_mm, expected)
        used = np.unique(np.array(faces))
        assert len(mesh.vertices_mm) == len(np.unique(np.array(points)[used] + 0.0, axis=0))


def test_ply_agrees_with_trimesh(tmp_path):
    sphere = trimesh.creation.icosphere(subdivisions=3, radius=20)
    for encoding in ("ascii", "binary_little_endian"):
        path = tmp_path / f"{encoding}.ply"
        path.write_bytes(trimesh.exchange.ply.export_ply(sphere, encoding=encoding.split("_")[0]))
        mesh = read_part(path).part.mesh
        assert np.array_equal(mesh.faces, sphere.faces)
        assert np.allclose(mesh.vertices_mm, sphere.vertices, atol=1e-5)


@pytest.mark.parametrize(
    ("name", "content", "words"),
    [
        ("cut.ply", ply_bytes("<")[:-3], "cut off: 5 of 6 faces"),
        ("cut.off", off_text()[:-3].encode(), "cut off: 5 of 6 faces"),
        ("no.ply", b"plyers\n", "header"),
        ("no.off", b"nothing", "not an OFF file"),
        ("bad.ply", ply_bytes("<", faces=[[0, 1, 99]]), "face 1 names a corner"),
        ("bad.off", off_text().replace("4 1 3 7 5", "4 1 3 7 8").encode(), "face 6 names a corner"),
        ("bad.obj", b"v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\nf 1 2 x\n", "face 2 names a corner"),
        ("comma.obj", b"v 0,5 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n", "decimal commas"),
        ("much.off", b"OFF\n3 99999999999 0\n0 0 0\n", "more than it can hold"),
        ("binary.off", b"OFF BINARY\n\0\0\0", "binary OFF"),
        ("kind.dwg", b"ISO-10303-21;", "kind that is not known"),
    ],
)
def test_liars_are_refused(tmp_path, name, content, words):
    (tmp_path / name).write_bytes(content)
    with pytest.raises(UnreadableFile, match=words):
        read_part(tmp_path / name)


def test_points_alone_are_nothing_to_print(tmp_path):
    (tmp_path / "x.ply").write_bytes(ply_bytes("<", faces=[]))
    with pytest.raises(NothingToPrint):
        read_part(tmp_path / "x.ply")


def test_a_face_of_two_corners_keeps_its_number_and_is_told(tmp_path):
    text = "v 0 0 0\nv 30 0 0\nv 0 30 0\nf 1 2\nf 1 2 3\n"
    (tmp_path / "x.obj").write_text(text)
    part = read_part(tmp_path / "x.obj").part
    assert part.polygon_of_face.tolist() == [1]
    assert part.notes == ("1 face has fewer than three corners and no surface.",)
