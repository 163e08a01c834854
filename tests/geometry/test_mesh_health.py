"""The health report: counts, heights in the posed part, layers, verdicts, real files."""

import gc

import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from tests import shared_meshes
from tests.few import few
from viewer.errors import Cancelled
from viewer.files.mesh_files import read_part
from viewer.geometry import mesh_health
from viewer.geometry.fault_words import counted
from viewer.geometry.merge_vertices import merge_vertices
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_faults import find_mesh_faults
from viewer.geometry.mesh_health import check_mesh, layers_between
from viewer.geometry.pose import Pose
from viewer.geometry.trowel_grip import trowel_grip
from viewer.geometry.trowel_grip_faults import as_received_from_designer
from viewer.progress import Progress

COUNTS = (
    "open_edges", "open_loops", "nonmanifold_edges", "nonmanifold_vertices", "flipped_edges",
    "degenerate_faces", "duplicate_faces", "self_intersecting_faces", "inward_shells",
)  # fmt: skip


def cube(side=20.0, at=(0, 0, 0)):
    return trimesh.creation.box(bounds=[np.array(at), np.array(at) + side])


def as_mesh(*parts):
    whole = trimesh.util.concatenate(parts)
    return Mesh(whole.vertices, whole.faces)


def fault(report, kind):
    (found,) = [fault for fault in report.faults if fault.kind == kind]
    return found


def test_a_sound_cube():
    report = check_mesh(as_mesh(cube()))
    assert report.verdict == "sound"
    assert report.shells == 1
    assert report.faults == ()
    assert [getattr(report, key) for key in COUNTS] == [0] * len(COUNTS)
    assert report.size_mm == pytest.approx([20, 20, 20])


def test_row_31_one_face_deleted_leaves_three_open_edges():
    """Row 31 (CALC)."""
    box = cube()
    top = int(np.argmax(box.triangles_center[:, 2]))
    report = check_mesh(Mesh(box.vertices, np.delete(box.faces, top, axis=0)))
    assert report.open_edges == 3
    assert report.verdict == "will fail"
    found = fault(report, "open_edges")
    assert (found.from_mm, found.to_mm) == (20, 20)
    assert found.words == "3 open edges"
    # A right angle of two sides 20: 2·200 / (40 + 20√2) (CALC).
    assert f"{400 / (40 + 20 * 2**0.5):.2g} mm" in found.advice


def test_heights_turn_with_the_part():
    """A hole in the top lies at the platform once the part is turned over (CALC)."""
    box = cube(20, at=(100, -7, 33))
    top = int(np.argmax(box.triangles_center[:, 2]))
    mesh = Mesh(box.vertices, np.delete(box.faces, top, axis=0))
    turned_over = fault(check_mesh(mesh, Pose((0, 0, -1))), "open_edges")
    assert (turned_over.from_mm, turned_over.to_mm) == pytest.approx((0, 0))
    assert turned_over.layers == (0,)
    on_its_side = fault(check_mesh(mesh, Pose((1, 0, 0)), layer_mm=0.5), "open_edges")
    assert (on_its_side.from_mm, on_its_side.to_mm) == pytest.approx((0, 20))
    assert on_its_side.layers == tuple(range(40))


def test_cube_in_cube_is_a_cavity_whatever_its_winding():
    outer, inner = cube(20), cube(10, at=(5, 5, 5))
    inner.invert()
    report = check_mesh(as_mesh(outer, inner))
    assert (report.shells, report.cavities, report.inward_shells) == (2, 1, 0)
    assert report.verdict == "sound"
    inner.invert()
    report = check_mesh(as_mesh(outer, inner))
    assert (report.shells, report.cavities, report.inward_shells) == (2, 1, 1)
    found = fault(report, "inward_shells")
    assert (found.from_mm, found.to_mm) == (5, 15)
    assert len(found.faces) == 12


def test_an_inside_out_cube():
    box = cube()
    box.invert()
    report = check_mesh(as_mesh(box))
    assert report.inward_shells == 1
    assert report.verdict == "printable with care"


def test_crossing_shells_and_touching_shells():
    crossing = check_mesh(as_mesh(cube(), cube(at=(10, 9, 8))))
    assert crossing.self_intersecting_faces > 0
    assert crossing.verdict == "printable with care"
    found = fault(crossing, "overlapping_shells")
    assert (found.count, found.words) == (1, "1 pair of shells that overlap")
    assert (found.from_mm, found.to_mm) == pytest.approx((0, 28))
    touching = check_mesh(as_mesh(cube(), cube(at=(20, 5, 5))))
    assert touching.self_intersecting_faces == 0
    assert touching.verdict == "sound"
    assert [found.kind for found in touching.faults] == ["touching_shells"]
    assert "touch" in touching.reason


def test_a_speck_is_told_from_a_small_body():
    body = cube(20)
    assert [f.kind for f in check_mesh(as_mesh(body, cube(1, (40, 0, 7)))).faults] == [
        "floating_bits"
    ]
    assert check_mesh(as_mesh(body, cube(4, at=(40, 0, 7)))).faults == ()
    resting = check_mesh(as_mesh(body, cube(1, at=(5, 5, 20))))
    assert {f.kind for f in resting.faults} == {"touching_shells", "section_jumps"}
    found = fault(check_mesh(as_mesh(body, cube(1, (40, 0, 7)))), "floating_bits")
    assert (found.count, found.from_mm, found.to_mm) == (1, 7, 8)
    assert found.faces.tolist() == list(range(12, 24))


def test_narrow_seam_and_wide_hole_have_different_verdicts():
    def split(gap):
        """A cube whose lid stands on vertices of its own, a gap aside along one edge."""
        box = cube().subdivide()
        lid = np.flatnonzero((box.triangles[:, :, 2] == 20).all(axis=1))
        vertices, faces = box.vertices, box.faces.copy()
        rim = [v for v in np.unique(faces[lid]) if vertices[v, 0] == 20]
        copies = vertices[rim] - [gap, 0, 0]
        swap = np.arange(len(vertices))
        swap[rim] = len(vertices) + np.arange(len(rim))
        faces[lid] = swap[faces[lid]]
        return Mesh(np.concatenate([vertices, copies]), faces)

    assert check_mesh(split(0.02)).verdict == "printable with care"
    assert "Sew" in fault(check_mesh(split(0.02)), "open_edges").advice
    assert check_mesh(split(0.5)).verdict == "will fail"
    assert check_mesh(split(1e-6)).verdict == "sound"  # less than one step of float32 at 20 mm


def test_a_sheet_encloses_nothing():
    report = check_mesh(Mesh([(0, 0, 0), (9, 0, 0), (9, 9, 0), (0, 9, 0)], [[0, 1, 2], [0, 2, 3]]))
    assert report.verdict == "will fail"
    assert "no volume" in report.reason


def test_vertices_that_no_face_uses_do_not_count():
    box = cube()
    vertices = np.concatenate([box.vertices, [(0, 0, -500), (900, 0, 0)]])
    report = check_mesh(Mesh(vertices, box.faces[1:]))
    assert report.size_mm == pytest.approx([20, 20, 20])
    assert fault(report, "open_edges").from_mm >= 0
    assert fault(report, "open_edges").to_mm <= 20


def test_an_empty_mesh_is_told_as_such():
    report = check_mesh(Mesh(np.zeros((0, 3)), np.zeros((0, 3))))
    assert report.verdict == "will fail"
    assert report.faults == ()


@pytest.mark.parametrize("resolution", [0.15, 1.0])
def test_the_grip_is_sound(resolution):
    report = check_mesh(trowel_grip(resolution)[0])
    assert report.verdict == "sound"
    # Coarse on purpose at a low resolution, which the check says.
    assert [found.kind for found in report.faults] == ["coarse_facets"] * (resolution < 1)


@pytest.mark.parametrize("resolution", [0.3, 1.0])
@pytest.mark.parametrize("up", [(0, 0, 1), (0, 0, -1)])
def test_every_fault_of_the_twin_is_found_where_it_was_put(resolution, up):
    mesh, _, known = as_received_from_designer(resolution)
    report = check_mesh(mesh, Pose(up))
    low, high = mesh.box_mm[:, 2]
    for kind in {one.kind for one in known}:
        ranges = [(one.from_mm, one.to_mm) for one in known if one.kind == kind]
        if up[2] > 0:
            ranges = [(a - low, b - low) for a, b in ranges]
        else:
            ranges = [(high - b, high - a) for a, b in ranges]
        found = fault(report, kind)
        exact = kind not in (
            "self_intersecting_faces",
            "overlapping_shells",
        )  # a crossing face reaches beyond the crossing
        leeway = 1e-9 if exact else 0.6 / resolution
        assert found.from_mm == pytest.approx(min(r[0] for r in ranges), abs=leeway)
        assert found.to_mm == pytest.approx(max(r[1] for r in ranges), abs=leeway)
    grave = {found.kind for found in report.faults if found.gravity != "harmless"}
    assert {one.kind for one in known} == grave
    assert report.inward_shells == 1
    assert report.verdict == "printable with care"
    heights = [found.from_mm for found in report.faults]
    assert heights == sorted(heights)


def test_answer_holds_plain_values_under_the_contract_keys():
    mesh, _, _ = as_received_from_designer(0.15)
    answer = check_mesh(mesh).answer()
    assert set(answer) == {"shells", "cavities", *COUNTS, "faults", "verdict", "reason"}
    for one in answer["faults"]:
        assert set(one) - {"area_mm2", "length_mm"} == {
            "kind", "count", "from_mm", "to_mm", "layers", "effect", "advice", "gravity", "places",
        }  # fmt: skip
        assert one["advice"].endswith(".")
        assert one["effect"].endswith(".")
        for place in one["places"]:
            assert one["from_mm"] - 1e-9 <= place["height_mm"] <= one["to_mm"] + 1e-9
        assert all(isinstance(layer, int) for layer in one["layers"])
        assert one["layers"] == sorted(set(one["layers"]))


def test_faults_are_looked_for_once_for_each_mesh(monkeypatch):
    mesh = as_mesh(cube(), cube(at=(10, 9, 8)))
    first = check_mesh(mesh)
    monkeypatch.setattr(mesh_health, "find_faults_and_sort", lambda *_: pytest.fail("looked again"))
    again = check_mesh(mesh, Pose((0, 1, 0)))
    assert again.self_intersecting_faces == first.self_intersecting_faces
    known = len(mesh_health._known_faults)
    del mesh, first, again
    gc.collect()
    assert len(mesh_health._known_faults) < known  # nothing is kept for a part that is gone


def test_cancel_is_heard_and_leaves_nothing():
    progress = Progress()
    progress.cancel()
    mesh = as_mesh(cube())
    with pytest.raises(Cancelled):
        check_mesh(mesh, progress=progress)
    assert check_mesh(mesh).verdict == "sound"


@pytest.mark.parametrize(
    ("low", "high", "layers"),
    [
        ([0.0], [0.2], (0,)),
        ([0.0], [0.0], (0,)),
        ([0.2], [0.2], (1,)),
        ([0.6], [1.0], (3, 4)),  # 0.6 / 0.2 is a little less than 3 in floating point
        ([0.1, 0.9], [0.3, 0.9], (0, 1, 4)),
        ([-1e-12], [0.1], (0,)),
        ([], [], ()),
    ],
)
def test_layers(low, high, layers):
    assert layers_between(np.array(low), np.array(high), 0.2) == layers


@given(
    st.lists(st.tuples(st.floats(0, 50), st.floats(0, 5)), min_size=1, max_size=8),
    st.sampled_from([0.1, 0.25, 0.3]),
)
@settings(max_examples=few(26, 80), deadline=None)
def test_layers_are_those_with_a_common_height(stretches, layer):
    low = np.array([start for start, _ in stretches])
    high = low + [length for _, length in stretches]
    found = set(layers_between(low, high, layer))
    for n in range(int(60 / layer)):
        inside = ((high > n * layer + 1e-3 * layer) & (low < (n + 1) * layer - 1e-3 * layer)).any()
        near = ((high >= n * layer - 1e-3 * layer) & (low <= (n + 1) * layer + 1e-3 * layer)).any()
        assert inside <= (n in found) <= near


def test_words():
    assert counted("open_edges", 1) == "1 open edge"
    assert counted("degenerate_faces", 1200) == "1,200 faces without area"
    mesh, _, _ = as_received_from_designer(0.5)
    faults = find_mesh_faults(mesh)
    assert 0.015 < faults.loops.width_mm[0] <= 0.02  # the gap of 0.02 mm closes at both ends
    advice = fault(check_mesh(mesh), "open_edges").advice
    assert advice.startswith("Sew the surface together in 1 place")


# Counts of the facts (trimesh) that mean the same as ours.
ALIKE = {
    "open_edges": "open_edges",
    "nonmanifold_edges": "nonmanifold_edges",
    "flipped_edges": "flipped_edges",
    "duplicate_faces": "duplicate_faces",
    "nonmanifold_vertices": "nonmanifold_vertices",
}
# Corners a hundred-millionth apart were merged for the facts, which changes this file's twins.
OTHER_MERGE = {"dm-control-dog/BONERibcage.stl"}


def compare(report, facts):
    """A report against the facts of one file, which other libraries found."""
    ours = {key: getattr(report, key) for key in ALIKE}
    assert ours == {key: facts[theirs] for key, theirs in ALIKE.items()}
    assert report.degenerate_faces >= facts["degenerate_faces"]
    # Where open edges meet in a point, facts follow one rim and then the other; we count them as
    # one place.
    assert report.open_loops <= facts["open_loops"]
    if not facts["nonmanifold_vertices"] and not facts["nonmanifold_edges"]:
        assert report.open_loops == facts["open_loops"]
    if not facts["nonmanifold_edges"]:  # else what one shell is, is a matter of definition
        assert report.shells == facts["shells_edge_connected"]
    if facts["watertight"] and facts["winding_consistent"]:
        assert report.verdict != "will fail"
    if facts["selfint_faces_meshfix"] is not None:  # meshfix counts faces that only touch as well
        assert report.self_intersecting_faces <= facts["selfint_faces_meshfix"]


@pytest.mark.parametrize("name", shared_meshes.names(".stl", ".ply", ".off", ".obj") or ["none"])
def test_real_meshes_against_independent_counts(name):
    facts = shared_meshes.open_facts()[name]["facts"]
    if name in OTHER_MERGE:
        pytest.skip("its corners were merged otherwise for the facts")
    read = trimesh.load(shared_meshes.open_mesh(name), process=False, force="mesh")
    vertices, index = merge_vertices(np.asarray(read.vertices), Progress())
    compare(check_mesh(Mesh(vertices, index[read.faces])), facts)


@pytest.mark.parametrize(
    "name",
    [
        "3mf-samples/cube_gears.3mf",
        "3mf-samples/dodeca_chain_loop.3mf",
        "3mf-samples/heartgears.3mf",
        "3mf-samples/multiple_cylinders.3mf",
        "3mf-samples/spinal implant.3mf",
        "trimesh-models/featuretype.3MF",
        "trimesh-models/counterXP.3MF",
    ],
)
def test_real_3mf_files_against_independent_counts(name):
    facts = shared_meshes.open_facts()[name]["facts"]
    report = check_mesh(read_part(shared_meshes.open_mesh(name)).part.mesh)
    compare(report, facts)
    if name.endswith("counterXP.3MF"):  # bodies that cross: meshfix counts the very same faces
        assert report.self_intersecting_faces == facts["selfint_faces_meshfix"] == 1539
