"""3MF: transforms, components, items, classes, units and limits (3MF Core 1.4.0, READ)."""

import numpy as np
import pytest

from tests.files.made_files import box_mesh, box_xml, mesh_xml, package_3mf
from viewer.errors import Cancelled, NothingToPrint, RequestProblem, UnreadableFile
from viewer.files.mesh_files import read_part
from viewer.geometry.mesh import Mesh
from viewer.progress import Progress

CUBE = box_mesh(20.0, 20.0, 20.0)


def read(tmp_path, resources, build, item=None, **more):
    path = tmp_path / "made.3mf"
    path.write_bytes(package_3mf(resources, build, **more))
    return read_part(path, item=item)


def item_xml(object_id, transform=""):
    return (
        f'<item objectid="{object_id}"' + (f' transform="{transform}"' if transform else "") + "/>"
    )


def components_xml(object_id, *components):
    inside = "".join(item_xml(*c).replace("<item", "<component") for c in components)
    return f'<object id="{object_id}" type="model"><components>{inside}</components></object>'


def test_a_quarter_turn_about_x_takes_y_to_z(tmp_path):
    """Row 29: 3MF Core §3.3, READ: row vectors, "1 0 0 0 0 1 0 -1 0 tx ty tz"."""
    build = item_xml(1, "1 0 0 0 0 1 0 -1 0 5 6 7")
    mesh = read(tmp_path, box_xml(1), build).part.mesh
    x, y, z = box_mesh(10.0, 20.0, 30.0).vertices_mm.T
    assert np.allclose(mesh.vertices_mm, np.stack([x + 5, -z + 6, y + 7], axis=1))


def test_a_mirrored_cube_keeps_its_volume(tmp_path):
    """Row 32: 3MF Core §3.3 and §4.1: +8000 mm³, winding mended."""
    build = item_xml(1, "-1 0 0 0 1 0 0 0 1 0 0 0")
    mesh = read(tmp_path, box_xml(1, mesh=CUBE), build).part.mesh
    assert mesh.signed_volume_mm3 == pytest.approx(8000.0)
    assert np.allclose(mesh.box_mm, [[-20, 0, 0], [0, 20, 20]])


def test_twice_mirrored_is_not_mirrored(tmp_path):
    mirror = "-1 0 0 0 1 0 0 0 1 0 0 0"
    resources = box_xml(1, mesh=CUBE) + components_xml(2, (1, mirror))
    mesh = read(tmp_path, resources, item_xml(2, mirror)).part.mesh
    assert mesh.signed_volume_mm3 == pytest.approx(8000.0)
    assert np.array_equal(mesh.faces, CUBE.faces)


def test_faces_follow_the_build_items_and_components_depth_first(tmp_path):
    def at(x):
        return f"1 0 0 0 1 0 0 0 1 {x} 0 0"

    resources = (
        box_xml(1)
        + components_xml(2, (1, at(100)), (1, at(200)))
        + components_xml(3, (2, at(1000)), (1, at(0)))
    )
    mesh = read(tmp_path, resources, item_xml(3) + item_xml(1, at(-500))).part.mesh
    lefts = mesh.corners_mm[:, :, 0].reshape(4, -1).min(axis=1)
    assert lefts.tolist() == [1100, 1200, 0, -500]


def test_one_item_can_be_chosen(tmp_path):
    resources = box_xml(1) + box_xml(2, mesh=CUBE)
    build = item_xml(1) + item_xml(2)
    assert read(tmp_path, resources, build).part.mesh.face_count == 24
    assert read(tmp_path, resources, build, item=2).part.mesh.signed_volume_mm3 == 8000
    for wrong in (0, 3, -1):
        with pytest.raises(RequestProblem, match="has 2 item"):
            read(tmp_path, resources, build, item=wrong)


def test_support_objects_are_skipped_and_told(tmp_path):
    resources = box_xml(1, "support") + box_xml(2, "solidsupport") + box_xml(3, mesh=CUBE)
    part = read(tmp_path, resources, "".join(map(item_xml, (1, 3, 2)))).part
    assert part.mesh.face_count == 12
    assert part.mesh.signed_volume_mm3 == pytest.approx(8000.0)
    assert any(note.startswith("2 support object(s)") for note in part.notes)


@pytest.mark.parametrize(
    ("unit", "name", "mm"),
    [
        ("micron", "micron", 0.001),
        ("millimeter", "mm", 1),
        ("centimeter", "cm", 10),
        ("inch", "inch", 25.4),
        ("foot", "ft", 304.8),
        ("meter", "m", 1000),
    ],
)
def test_units(tmp_path, unit, name, mm):
    part = read(tmp_path, box_xml(1), item_xml(1), unit=unit).part
    assert part.unit == name
    assert np.allclose(part.mesh.box_mm[1], np.array([10, 20, 30]) * mm)


def sets_xml(**sets):
    inside = "".join(
        f'<t:triangleset name="{name.replace("_", " ")}" identifier="{name}">'
        + "".join(f'<t:ref index="{k}"/>' for k in triangles)
        + "</t:triangleset>"
        for name, triangles in sets.items()
    )
    return f"<t:trianglesets>{inside}</t:trianglesets>"


def test_triangle_sets_are_classes_of_every_copy(tmp_path):
    body = mesh_xml(CUBE, sets_xml(Class_A=[0, 5], Class_B=[1], Other=[2]))
    resources = f'<object id="1" type="model">{body}</object>'
    build = item_xml(1) + item_xml(1, "1 0 0 0 1 0 0 0 1 50 0 0")
    classes = read(tmp_path, resources, build).face_classes
    assert classes.tolist() == [1, 2, 0, 0, 0, 1, 0, 0, 0, 0, 0, 0] * 2


def test_a_triangle_in_both_sets_is_refused(tmp_path):
    body = mesh_xml(CUBE, sets_xml(Class_A=[0, 5], Class_B=[5]))
    with pytest.raises(UnreadableFile, match="both Class A and Class B"):
        read(tmp_path, f'<object id="1" type="model">{body}</object>', item_xml(1))


def test_triangles_that_name_a_corner_twice_keep_their_place(tmp_path):
    """3MF forbids them (§4.1.4) and lib3mf refuses the file; marks count them all the same."""
    faces = np.insert(CUBE.faces, [0, 4, 12], [[1, 1, 2], [3, 5, 3], [7, 7, 7]], axis=0)
    mesh = read(tmp_path, box_xml(1, mesh=Mesh(CUBE.vertices_mm, faces)), item_xml(1)).part.mesh
    assert mesh.face_count == 15
    assert np.array_equal(mesh.corners_mm, CUBE.vertices_mm[faces])


def test_a_degenerate_triangle_out_of_range_is_still_refused(tmp_path):
    faces = np.append(CUBE.faces, [[1, 99, 99]], axis=0)
    body = mesh_xml(CUBE).replace("</triangles>", '<triangle v1="1" v2="99" v3="99"/></triangles>')
    assert len(faces) == 13
    with pytest.raises(UnreadableFile, match="names a corner that the file does not have"):
        read(tmp_path, f'<object id="1" type="model">{body}</object>', item_xml(1))


def test_a_long_chain_of_components_is_no_trouble(tmp_path):
    resources = box_xml(1) + "".join(components_xml(k, (k - 1,)) for k in range(2, 3000))
    assert read(tmp_path, resources, item_xml(2999)).part.mesh.face_count == 12


def test_doubling_components_are_refused_before_they_are_expanded(tmp_path):
    resources = box_xml(1) + "".join(components_xml(k, (k - 1,), (k - 1,)) for k in range(2, 40))
    with pytest.raises(UnreadableFile, match=f"{2**38:,} times"):
        read(tmp_path, resources, item_xml(39))


def test_only_what_the_build_places_is_read(tmp_path):
    assert read(tmp_path, box_xml(1) + box_xml(2), item_xml(2)).part.mesh.face_count == 12
    with pytest.raises(NothingToPrint, match="empty build list"):
        read(tmp_path, box_xml(1), "")


def test_a_stopped_read_raises_cancelled(tmp_path):
    progress = Progress(lambda fraction, doing: doing == "Reading the model" and progress.cancel())
    (tmp_path / "x.3mf").write_bytes(package_3mf(box_xml(1), item_xml(1)))
    with pytest.raises(Cancelled):
        read_part(tmp_path / "x.3mf", progress)


def test_a_unit_given_by_the_user_overrules_the_file(tmp_path):
    (tmp_path / "x.3mf").write_bytes(package_3mf(box_xml(1), item_xml(1), unit="inch"))
    part = read_part(tmp_path / "x.3mf", unit="cm").part
    assert np.allclose(part.mesh.box_mm[1], [100, 200, 300])
    assert (part.unit, part.unit_doubt) == ("cm", "")
    with pytest.raises(RequestProblem, match="mm, cm, m, inch, ft, not yard"):
        read_part(tmp_path / "x.3mf", unit="yard")
