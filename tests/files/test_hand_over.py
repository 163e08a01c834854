"""A pack holds what it says, in files that others read, with checksums that others work out."""

import csv
import hashlib
import json
import shutil
import zipfile

import jsonschema
import lib3mf
import numpy as np
import pytest
import trimesh

from tests import shapes
from tests.made_sheets import table_state
from viewer.app import main
from viewer.command.pack import pack_text
from viewer.document.job_piece import JobPiece, PieceBody
from viewer.document.state import Part, State
from viewer.errors import Cancelled, CannotWrite
from viewer.files import pack_check
from viewer.files.hand_over import write_pack
from viewer.files.job_file import write_job
from viewer.files.mesh_files import read_part
from viewer.geometry.face_classes import CLASS_A
from viewer.geometry.pose import Pose
from viewer.geometry.support_solids import SupportShape
from viewer.progress import Progress
from viewer.resource_files import resource_file
from viewer.scene import sheet_pictures

NAMES = {
    "part.3mf", "part.stl", "supports.3mf", "support-body.stl", "contact-layers.stl",
    "keep-clear.3mf", "keep-clear.stl", "layers.csv", "job.3mf",
}  # fmt: skip
SHEETS = {"client-sheet.pdf", "client-sheet.html"}


def state():
    mesh = shapes.post_and_cap()
    classes = np.where(mesh.face_normals[:, 2] > 0.9, CLASS_A, 0).astype(np.uint8)
    return State.of_part(Part("table", mesh), classes, pose=Pose((0, 0, 1), 90.0))


@pytest.fixture(scope="module")
def watched(tmp_path_factory):
    """A German pack's folder, the pack, and the shares that were reported on the way."""
    folder, shares = tmp_path_factory.mktemp("pack"), []
    progress = Progress(lambda done, _: shares.append(done))
    pack = write_pack(state(), folder, SupportShape(0.2, 2), progress, language="de")
    return folder, pack, shares


@pytest.fixture
def packed(watched):
    return watched[:2]


def test_every_file_is_there_with_its_checksum_in_the_readme(packed):
    folder, pack = packed
    assert {path.name for path in folder.iterdir()} == NAMES | {"readme.txt"}
    readme = (folder / "readme.txt").read_text(encoding="utf-8")
    for each in pack.files:
        content = (folder / each.name).read_bytes()
        assert each.bytes == len(content)
        assert each.sha256 == hashlib.sha256(content).hexdigest()
        assert each.sha256 in readme
    assert pack.support_mm3 == pytest.approx(16000, rel=0.02)  # row 22, CALC
    # In the language of the sheet, numbers too: 125 layers of 0.2 mm make 25 mm.
    assert "Schichthöhe 0,2 mm, 125 Schichten, Höhe 25,00 mm." in readme
    assert "  layers.csv: was jede Schicht enthält, die unterste zuerst (" in readme
    assert " the " not in readme


def test_supports_are_objects_of_their_type_that_fit_the_part(packed):
    """CALC: under 800 mm² a gap of 0.2, two layers of 0.2, 19.4 mm of body."""
    folder, _ = packed
    model = lib3mf.get_wrapper().CreateModel()
    reader = model.QueryReader("3mf")
    reader.SetStrictModeActive(True)
    reader.ReadFromFile(str(folder / "supports.3mf"))
    assert reader.GetWarningCount() == 0
    found, meshes = {}, model.GetMeshObjects()
    while meshes.MoveNext():
        mesh = meshes.GetCurrentMeshObject()
        points = np.array([list(p.Coordinates) for p in mesh.GetVertices()])
        faces = np.array([list(t.Indices) for t in mesh.GetTriangleIndices()])
        found[mesh.GetName()] = int(mesh.GetType()), trimesh.Trimesh(points, faces, process=False)
        assert mesh.IsManifoldAndOriented()
    assert {name: kind for name, (kind, _) in found.items()} == {
        "table": 1, "Support body": 2, "Contact layers": 3,
    }  # fmt: skip
    part, body, contact = (found[name][1] for name in ("table", "Support body", "Contact layers"))
    assert part.volume == pytest.approx(6500, rel=1e-5)
    assert body.volume == pytest.approx(800 * 19.4, rel=0.02)
    assert contact.volume == pytest.approx(800 * 0.4, rel=0.02)
    assert contact.bounds[:, 2] == pytest.approx([19.4, 19.8], abs=1e-4)
    assert part.bounds[:, :2] == pytest.approx(np.array([[-15, -15], [15, 15]]), abs=1e-4)
    assert np.abs(body.bounds[:, :2]).max() == pytest.approx(15, abs=0.2)
    alone = trimesh.load(folder / "support-body.stl")
    assert alone.is_watertight
    assert alone.volume == pytest.approx(body.volume, rel=1e-4)


def test_the_layer_table_adds_up(packed):
    """CALC: sections of 100 and 900 mm², supports of 800 up to the cap, 125 layers."""
    folder, _ = packed
    with (folder / "layers.csv").open(newline="", encoding="utf-8") as stream:
        rows = list(csv.DictReader(stream))
    assert len(rows) == 125
    assert [int(row["layer"]) for row in rows] == list(range(1, 126))
    volume = sum(float(row["area_mm2"]) for row in rows) * 0.2
    assert volume == pytest.approx(6500, rel=1e-6)
    assert float(rows[10]["support_area_mm2"]) == pytest.approx(800, rel=0.02)
    assert float(rows[110]["support_area_mm2"]) == 0
    assert sum(float(row["touch_unmarked_mm2"]) for row in rows) == pytest.approx(800, rel=0.02)


def test_layers_of_different_heights_are_proposed_where_asked_for(tmp_path):
    mesh = shapes.cone(15.0, 30.0)
    cone = State.of_part(Part("cone", mesh), np.full(mesh.face_count, CLASS_A, np.uint8))
    pack = write_pack(cone, tmp_path / "cone", cusp_limit_mm=0.08)
    assert "adaptive-layers.csv" in {each.name for each in pack.files}
    with (tmp_path / "cone" / "adaptive-layers.csv").open(newline="") as stream:
        rows = list(csv.DictReader(stream))
    # Cusps of t·sin 26.57° = 0.447·t on the side: 0.16 is the thickest multiple of 0.02 allowed.
    assert max(float(row["layer_mm"]) for row in rows) == pytest.approx(0.16)
    assert float(rows[-1]["to_mm"]) >= 30.0 - 1e-6
    assert "adaptive-layers.csv" in (tmp_path / "cone" / "readme.txt").read_text("utf-8")


def test_the_job_opens_again_as_it_was(packed):
    folder, _ = packed
    again, before = read_part(folder / "job.3mf"), state()
    assert np.array_equal(again.part.mesh.vertices_mm, before.part.mesh.vertices_mm)
    assert np.array_equal(again.face_classes, before.face_classes)
    assert again.pose == before.pose


def test_a_part_that_needs_nothing_has_no_such_files(tmp_path):
    plain = State.of_part(Part("cube", shapes.cube()))
    pack = write_pack(plain, tmp_path / "new")
    assert {each.name for each in pack.files} == {"part.3mf", "part.stl", "layers.csv", "job.3mf"}


def test_a_file_that_is_read_back_otherwise_stops_the_pack(tmp_path, monkeypatch):
    def another(path, **more):
        return State.of_part(Part("other", shapes.cube(3.0)))

    monkeypatch.setattr(pack_check, "read_part", another)
    (tmp_path / "part.stl").write_text("mine")
    for path in (tmp_path, tmp_path / "new"):
        with pytest.raises(CannotWrite, match="was not read back as it was written"):
            write_pack(State.of_part(Part("cube", shapes.cube())), path)
    assert [each.name for each in tmp_path.iterdir()] == ["part.stl"]
    assert (tmp_path / "part.stl").read_text() == "mine"


def stopping_at(share: float) -> Progress:
    """A token that cancels itself once so much is done."""

    def listen(done: float, _: str) -> None:
        if done >= share:
            progress.cancel()

    progress = Progress(listen)
    return progress


@pytest.mark.parametrize(("name", "stops"), [("folder", (0.0, 0.3, 0.7)), ("pack.zip", (0.6,))])
def test_a_cancel_leaves_nothing_behind(watched, tmp_path, name, stops):
    """At whatever share of the work it comes."""
    shares = watched[2]
    assert shares[0] == 0.0
    assert max(shares) <= 1.0
    for stop_at in stops:
        progress = stopping_at(stop_at)
        with pytest.raises(Cancelled):
            write_pack(state(), tmp_path / name, progress=progress)
        assert list(tmp_path.iterdir()) == []


def test_what_an_older_pack_left_goes_and_what_is_the_users_own_stays(packed, tmp_path):
    shutil.copytree(packed[0], tmp_path, dirs_exist_ok=True)
    (tmp_path / "notes.txt").write_text("mine")
    changed = (tmp_path / "supports.3mf").read_bytes() + b" "
    (tmp_path / "supports.3mf").write_bytes(changed)
    write_pack(State.of_part(Part("cube", shapes.cube())), tmp_path)
    assert {each.name for each in tmp_path.iterdir()} == {
        "part.3mf", "part.stl", "layers.csv", "job.3mf", "readme.txt", "notes.txt", "supports.3mf",
    }  # fmt: skip
    assert (tmp_path / "supports.3mf").read_bytes() == changed


def test_the_part_carries_its_classes_as_sets_and_as_colours(packed):
    folder, _ = packed
    model = lib3mf.get_wrapper().CreateModel()
    reader = model.QueryReader("3mf")
    reader.SetStrictModeActive(True)
    reader.ReadFromFile(str(folder / "part.3mf"))
    assert reader.GetWarningCount() == 0
    meshes = model.GetMeshObjects()
    assert meshes.MoveNext()
    mesh = meshes.GetCurrentMeshObject()
    classes = state().face_classes
    marked = set(np.flatnonzero(classes == CLASS_A).tolist())
    assert mesh.GetTriangleSet(0).GetName() == "Class A"
    assert set(mesh.GetTriangleSet(0).GetTriangleList()) == marked
    group = model.GetBaseMaterialGroupByID(mesh.GetTriangleProperties(0).ResourceID)
    for face in range(mesh.GetTriangleCount()):
        number = mesh.GetTriangleProperties(face).PropertyIDs[0]
        colour = group.GetDisplayColor(number)
        purple = (colour.Red, colour.Green, colour.Blue) == (0xCC, 0x79, 0xA7)
        assert purple == (face in marked)


def test_the_pieces_of_the_job_go_along_as_they_stand(tmp_path):
    """CALC: a cube of 10 and, of two bodies, a cube of 10 on one of 20 beside it."""
    small, large = shapes.cube(10.0), shapes.moved(shapes.cube(20.0), (30, 0, 5))
    blank = {mesh: np.zeros(12, np.uint8) for mesh in (small, large)}
    bodies = [PieceBody(name, "model", mesh, blank[mesh]) for name, mesh in
              (("one", small), ("two", large))]  # fmt: skip
    job = table_state(
        pieces=(
            JobPiece("Corner", "cut", "box", (bodies[0],), Pose()),
            JobPiece("Both of them", "specimen", "pair-release", tuple(bodies), Pose()),
        )
    )
    pack = write_pack(job, tmp_path / "pack")
    names = {each.name for each in pack.files if "piece" in each.name}
    assert names == {"piece-1-corner.3mf", "piece-2-both-of-them.3mf"}
    one = trimesh.load(tmp_path / "pack" / "piece-1-corner.3mf", force="mesh")
    assert one.volume == pytest.approx(1000, rel=1e-6)
    assert one.bounds[0][2] == pytest.approx(0.0, abs=1e-6)
    both = trimesh.load(tmp_path / "pack" / "piece-2-both-of-them.3mf", force="mesh")
    assert both.volume == pytest.approx(9000, rel=1e-6)
    assert both.bounds[:, 2] == pytest.approx([0, 20], abs=1e-5)


def test_the_worst_touch_is_cut_out_as_it_lies(tmp_path):
    """CALC: 800 mm² under the cap, 3 mm around them: the whole cap and the top of the post."""
    pack = write_pack(table_state(), tmp_path / "pack", sheets={"client-sheet.pdf": b"%PDF"})
    assert "test-piece-touch.3mf" in {each.name for each in pack.files}
    piece = trimesh.load(tmp_path / "pack" / "test-piece-touch.3mf", force="mesh")
    assert piece.is_watertight
    # z from 17 to 23 of 25, centred and set down on the platform.
    assert piece.volume == pytest.approx(900 * 3 + 100 * 3, rel=1e-4)
    assert piece.bounds == pytest.approx(np.array([[-15, -15, 0], [15, 15, 6]]), abs=1e-4)
    again = read_part(tmp_path / "pack" / "test-piece-touch.3mf")
    under = again.face_classes == CLASS_A
    assert float(again.part.mesh.face_areas_mm2[under].sum()) == pytest.approx(800, rel=1e-4)
    assert (tmp_path / "pack" / "client-sheet.pdf").read_bytes() == b"%PDF"


def test_the_command_writes_a_zip(capsys, tmp_path, monkeypatch, qapp):
    monkeypatch.setenv("SHOWSIDE_SHOP", str(tmp_path / "shop"))
    monkeypatch.setattr(sheet_pictures, "WIDE_PX", (80, 60))
    job, out = tmp_path / "table.3mf", tmp_path / "table.zip"
    write_job(state(), job)
    assert main(["pack", str(job), "--out", str(out), "--gap", "0.1", "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    schema = json.loads(resource_file("schema/pack.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(answer, schema)
    with zipfile.ZipFile(out) as package:
        assert package.testzip() is None
        assert set(package.namelist()) == NAMES | SHEETS | {"readme.txt"}
        assert package.read("client-sheet.pdf").startswith(b"%PDF")
        assert b"<canvas" in package.read("client-sheet.html")
        for each in answer["files"]:
            assert hashlib.sha256(package.read(each["name"])).hexdigest() == each["sha256"]
    assert "12 files in" in pack_text(answer)
    assert "  layers.csv: what each layer holds" in pack_text(answer)
    assert main(["pack", str(job), "--out", str(job)]) == 1
    assert "name a folder" in capsys.readouterr().err
