"""STEP and IGES: bodies, units, names, triangles, patches, and a kernel that may die alone."""

import json
import math
import multiprocessing
import pickle
import subprocess
import sys
import threading
import time
from pathlib import Path
from unittest.mock import Mock

import numpy as np
import pytest
import trimesh

from tests.files import ending_children
from tests.shared_meshes import FOLDER, open_facts, open_mesh
from viewer.errors import Cancelled, NothingToPrint, RequestProblem, UnreadableFile
from viewer.files import step_file
from viewer.files.mesh_files import read_part
from viewer.files.step_bodies import CLOSED_SURFACE, OPEN_SOLID, SOLID, Body, bodies_sentence
from viewer.files.step_file import tessellate_part
from viewer.files.step_process import run_task
from viewer.files.step_worker import Task, _do, work
from viewer.progress import Progress

made_cad = pytest.importorskip("tests.files.made_cad", exc_type=ImportError)
ROOT = Path(__file__).resolve().parents[2]


def judged(part) -> trimesh.Trimesh:
    """The mesh as an independent library sees it, its vertices as they are."""
    return trimesh.Trimesh(part.mesh.vertices_mm, part.mesh.faces, process=False)


def assert_closed(part) -> None:
    mesh = judged(part)
    assert mesh.is_watertight
    assert mesh.is_winding_consistent


@pytest.fixture(autouse=True)
def _no_child_is_left():
    yield
    assert multiprocessing.active_children() == []


@pytest.fixture
def in_this_process(monkeypatch):
    """The work of the child is done here, which has the kernel already: it takes 2 s to load.

    That the same comes through a child is seen with the box and the files made by others.
    """

    def do(name, task, progress):
        task = pickle.loads(pickle.dumps(task))
        return pickle.loads(pickle.dumps(_do(Mock(), task)))

    monkeypatch.setattr(step_file, "run_task", do)


# --- shapes known in closed form
def test_box_has_its_size_its_patches_and_shared_corners(tmp_path):
    part = read_part(made_cad.write_step(tmp_path / "box.step", made_cad.box(10, 20, 30))).part
    assert part.notes == ("1 solid.",)
    assert (part.unit, part.unit_doubt, part.name) == ("mm", "", "box")
    assert len(part.mesh.vertices_mm) == 8
    assert part.mesh.face_count == 12
    assert np.ptp(part.mesh.box_mm, axis=0) == pytest.approx([10, 20, 30], abs=1e-9)
    assert judged(part).volume == pytest.approx(6000, rel=1e-12)
    assert_closed(part)
    assert part.patch_of_face.tolist() == [0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 5, 5]
    normals = judged(part).face_normals
    assert np.allclose(normals[0::2], normals[1::2])
    assert len(np.unique(normals[0::2].round(6), axis=0)) == 6


@pytest.mark.usefixtures("in_this_process")
@pytest.mark.parametrize(
    ("word", "unit", "mm"), [("MM", "mm", 1.0), ("INCH", "inch", 25.4), ("M", "m", 1000.0)]
)
def test_unit_of_the_file_is_known_and_can_be_overruled(tmp_path, word, unit, mm):
    path = made_cad.write_step(tmp_path / "box.STP", made_cad.box(10, 20, 30), word)
    part = read_part(path).part
    assert part.unit == unit
    assert np.ptp(part.mesh.box_mm, axis=0) == pytest.approx([10, 20, 30], rel=1e-6)
    overruled = read_part(path, unit="cm").part
    assert (overruled.unit, overruled.unit_doubt) == ("cm", "")
    expected = np.array([10, 20, 30]) / mm * 10.0
    assert np.ptp(overruled.mesh.box_mm, axis=0) == pytest.approx(expected, rel=1e-6)


@pytest.mark.usefixtures("in_this_process")
def test_chord_error_is_meant_after_the_unit_was_overruled(tmp_path):
    path = made_cad.write_step(tmp_path / "ball.step", made_cad.sphere(10))
    as_written = read_part(path, chord_mm=0.02).part
    ten_times = read_part(path, unit="cm", chord_mm=0.2).part
    assert np.array_equal(as_written.mesh.faces, ten_times.mesh.faces)
    again = tessellate_part(ten_times, 0.4)
    assert np.ptp(again.mesh.box_mm, axis=0).max() == pytest.approx(200, abs=1.0)
    assert again.mesh.face_count < ten_times.mesh.face_count


@pytest.mark.usefixtures("in_this_process")
def test_sphere_converges_to_the_true_volume_within_the_chord_error(tmp_path):
    path = made_cad.write_step(tmp_path / "ball.step", made_cad.sphere(10))
    part = read_part(path, chord_mm=0.4).part
    true_mm3, area_mm2 = 4.0 / 3.0 * math.pi * 1000.0, 4.0 * math.pi * 100.0  # CALC
    path.unlink()  # what follows needs the file no more
    lost = []
    for chord_mm in (0.4, 0.1, 0.025, 0.005):
        part = tessellate_part(part, chord_mm)
        assert_closed(part)
        mesh = judged(part)
        # Vertices lie on the sphere, so all of the mesh lies inside it.
        assert np.linalg.norm(part.mesh.vertices_mm, axis=1) == pytest.approx(10, abs=1e-6)
        depths = 10.0 - np.linalg.norm(mesh.triangles_center, axis=1)
        # The kernel looks at samples only; 1.21 times the chord error was measured at 0.1 mm.
        assert depths.max() <= 1.25 * chord_mm
        lost.append(true_mm3 - mesh.volume)
        assert 0.0 < lost[-1] < area_mm2 * chord_mm
    # The lost volume goes with the chord error; at 0.4 mm the angular limit rules already.
    assert lost[1] < lost[0]
    assert lost[2] < 0.3 * lost[1]
    assert lost[3] < 0.25 * lost[2]
    assert lost[-1] < 1e-3 * true_mm3


@pytest.mark.usefixtures("in_this_process")
def test_default_chord_error_is_a_quarter_of_a_layer(tmp_path):
    path = made_cad.write_step(tmp_path / "ball.step", made_cad.sphere(100))
    part = read_part(path).part
    assert part.cad.chord_mm == 0.05
    assert np.array_equal(part.mesh.faces, tessellate_part(part, 0.05).mesh.faces)


# --- assemblies and loose surfaces
@pytest.mark.usefixtures("in_this_process")
def test_assembly_is_placed_and_named(tmp_path):
    part = read_part(made_cad.write_assembly(tmp_path / "frame.step")).part
    assert [body.names for body in part.cad.bodies] == [
        ("frame", "post"),
        ("frame", "post"),
        ("frame", "plate"),
    ]
    assert part.notes == (
        "3 solids.",
        "Bodies: frame / post, frame / post, frame / plate.",
    )
    posts, plate = part.patch_of_face < 12, part.patch_of_face >= 12
    corners = part.mesh.vertices_mm[part.mesh.faces]
    assert corners[posts].max(axis=(0, 1)) == pytest.approx([22, 2, 10], abs=1e-9)
    assert corners[plate].min(axis=(0, 1)) == pytest.approx([0, 0, 10], abs=1e-9)
    assert judged(part).volume == pytest.approx(2 * 40 + 300, rel=1e-9)  # CALC


@pytest.mark.usefixtures("in_this_process")
def test_the_decisive_sentence(tmp_path):
    boxes = [made_cad.box(5, 5, 5, (10 * k, 0, 0)) for k in range(3)]
    sheets = made_cad.faces(made_cad.box(5, 5, 5, (0, 40, 0)))[:2]
    path = made_cad.write_step(tmp_path / "mixed.step", made_cad.together([*boxes, *sheets]))
    notes = read_part(path).part.notes
    assert notes[0] == "3 solids, 2 loose surfaces that enclose nothing."
    assert "sew them at a tolerance" in notes[1]


def test_the_sentence_names_each_kind_of_body():
    kinds = (SOLID, OPEN_SOLID, CLOSED_SURFACE, CLOSED_SURFACE)
    assert bodies_sentence(tuple(Body(("",), kind, 1) for kind in kinds)) == (
        "1 solid, 2 closed surfaces that are not called solids, 1 solid whose surface has a gap."
    )


@pytest.mark.usefixtures("in_this_process")
def test_loose_faces_become_a_solid_when_sewn_at_a_tolerance_above_the_gap(tmp_path):
    path = made_cad.write_step(tmp_path / "loose.step", made_cad.opened_box(gap=0.05))
    loose = read_part(path).part
    assert "enclose nothing" in loose.notes[0]
    assert not judged(loose).is_watertight
    too_tight = tessellate_part(loose, 0.05, sew_mm=0.01)
    assert not judged(too_tight).is_watertight
    assert "sew at a larger tolerance" in too_tight.notes[1]
    sewn = tessellate_part(loose, 0.05, sew_mm=0.2)
    assert sewn.notes == ("1 solid.",)
    assert_closed(sewn)
    assert judged(sewn).volume == pytest.approx(6000, rel=0.003)  # the lid is 0.05 of 30 off
    at_once = read_part(path, sew_mm=0.2).part
    assert np.array_equal(at_once.mesh.faces, sewn.mesh.faces)
    unsewn = tessellate_part(sewn, 0.05)
    assert unsewn.notes == loose.notes


@pytest.mark.usefixtures("in_this_process")
@pytest.mark.parametrize(("word", "unit"), [("MM", "mm"), ("INCH", "inch")])
def test_iges_is_loose_faces_until_sewn(tmp_path, word, unit):
    path = made_cad.write_iges(tmp_path / "box.igs", made_cad.box(10, 20, 30), word)
    part = read_part(path).part
    assert part.unit == unit
    assert part.notes[0] == "6 loose surfaces that enclose nothing."
    assert np.ptp(part.mesh.box_mm, axis=0) == pytest.approx([10, 20, 30], rel=1e-6)
    sewn = tessellate_part(part, 0.05, sew_mm=0.001)
    assert sewn.notes == ("1 solid.",)
    assert_closed(sewn)
    assert judged(sewn).volume == pytest.approx(6000, rel=1e-6)


# --- files made by others
CAD_NAMES = {
    "trimesh-models/featuretype.STEP": (1, "inch"),
    "trimesh-models/box_sides.STEP": (10, "inch"),
    "occt-data/screw.step": (1, "mm"),
    "so-arm100/Moving_Jaw_SO101.step": (1, "mm"),  # one solid with a cavity: two shells
    "so-arm100/Motor_holder_SO101_Base.step": (1, "mm"),
    "rapax-3dthings/alby_case_part_top.step": (1, "mm"),
}
# A sliver of 0.016 mm² is lost by the kernel, in facts.json too; the user is told.
LOSES_A_SLIVER = "so-arm100/Motor_holder_SO101_Base.step"


@pytest.mark.parametrize("name", CAD_NAMES if FOLDER.is_dir() else [])
def test_open_models(name):
    solids, unit = CAD_NAMES[name]
    facts = open_facts()[name]["facts"]
    part = read_part(open_mesh(name)).part
    assert part.unit == unit
    assert part.notes[0] == bodies_sentence((Body(("",), SOLID, 1),) * solids)
    assert solids == facts["scene_instances"]
    extents = np.ptp(part.mesh.box_mm, axis=0)
    assert np.abs(extents - facts["extents_mm"]).max() <= 2 * part.cad.chord_mm
    # facts.json was made by another reader of the same kernel, with triangles of its own.
    assert judged(part).volume == pytest.approx(facts["volume_signed"] * 1e9, rel=5e-3)
    if name == LOSES_A_SLIVER:
        assert facts["open_edges"] == 5
        assert not judged(part).is_watertight
        assert "leaves holes in one closed body" in part.notes[1]
        return
    assert len(part.notes) == (1 if solids == 1 else 2)
    assert_closed(part)
    assert len(judged(part).split(only_watertight=True)) == facts["shells_edge_connected"]
    patches = sum(body.patch_count for body in part.cad.bodies)
    assert np.array_equal(np.unique(part.patch_of_face), np.arange(patches))
    assert np.all(np.diff(part.patch_of_face) >= 0)


# --- refusals, each one sentence
HEAD = b"ISO-10303-21;\nHEADER;\n"
END = b"END-ISO-10303-21;\n"


@pytest.mark.parametrize(
    ("name", "content", "error", "words"),
    [
        ("a.step", b"", NothingToPrint, "empty file"),
        ("a.step", b"\x00\x01\xfe" * 3000, UnreadableFile, "not a text STEP file"),
        ("a.step", b"solid x\nendsolid x\n", UnreadableFile, "not a text STEP file"),
        ("a.step", HEAD + b"ENDSEC;\nDATA;\n#1=CART", UnreadableFile, "cut off"),
        ("a.stp", HEAD + b"rubbish ((;;\n" + END, UnreadableFile, "CAD kernel refuses"),
        ("a.igs", b"\n", UnreadableFile, "not a text IGES file"),
        (
            "a.iges",
            b"x" * 72 + b"S      1\n" + b"y" * 72 + b"G      1\n",
            UnreadableFile,
            "cut off",
        ),
        ("a.igs", b"x" * 72 + b"S      1\n" + b"y" * 72 + b"T      1\n", Exception, "a.igs"),
    ],
)
def test_what_is_no_model_gets_one_sentence(tmp_path, name, content, error, words):
    path = tmp_path / name
    path.write_bytes(content)
    with pytest.raises(error, match=words) as caught:
        read_part(path)
    assert isinstance(caught.value, (UnreadableFile, NothingToPrint))
    assert "\n" not in str(caught.value)


def test_a_step_file_cut_anywhere_is_refused(tmp_path):
    whole = made_cad.write_step(tmp_path / "box.step", made_cad.box(1, 2, 3)).read_bytes()
    for part in (0.02, 0.3, 0.9, 0.995):
        path = tmp_path / "cut.step"
        path.write_bytes(whole[: int(len(whole) * part)])
        with pytest.raises(UnreadableFile, match=r"cut off|not a text"):
            read_part(path)


@pytest.mark.usefixtures("in_this_process")
def test_curves_alone_are_nothing_to_print(tmp_path):
    curves = made_cad.together(made_cad.edges(made_cad.box(1, 2, 3)))
    path = made_cad.write_step(tmp_path / "wire.step", curves)
    with pytest.raises(NothingToPrint, match="only curves"):
        read_part(path)


def test_requests_out_of_range(tmp_path):
    path = made_cad.write_step(tmp_path / "box.step", made_cad.box(1, 2, 3))
    for wrong in ({"chord_mm": 0.0}, {"chord_mm": math.nan}, {"sew_mm": -1.0}, {"unit": "mile"}):
        with pytest.raises(RequestProblem):
            read_part(path, **wrong)
    stl = tmp_path / "plain.stl"
    trimesh.creation.box().export(stl)
    with pytest.raises(RequestProblem, match="triangles only"):
        tessellate_part(read_part(stl).part, 0.05)


def test_without_the_kernel_one_sentence_says_what_to_do(tmp_path, monkeypatch):
    path = made_cad.write_step(tmp_path / "box.step", made_cad.box(1, 2, 3))
    monkeypatch.setattr(step_file.importlib.util, "find_spec", lambda name: None)
    with pytest.raises(UnreadableFile, match="This installation cannot read STEP files"):
        read_part(path)


# --- the child process
def test_crash_of_the_kernel_is_one_sentence():
    with pytest.raises(UnreadableFile, match=r"The CAD kernel crashed on x\.step"):
        run_task("x.step", Task(0.05, 0.0), Progress(), entry=ending_children.crash)


def test_time_limit():
    with pytest.raises(UnreadableFile, match="given up after 1 s"):
        run_task("x.step", Task(0.05, 0.0), Progress(), 1.0, ending_children.hang)


@pytest.mark.skipif(sys.platform != "linux", reason="only Linux keeps to the limit")
def test_memory_limit(tmp_path):
    path = made_cad.write_step(tmp_path / "ball.step", made_cad.sphere(1000))
    task = Task(0.001, 0.0, path, memory_bytes=1_200_000_000)
    with pytest.raises(UnreadableFile, match=r"memory|crashed|refuses"):
        run_task("ball.step", task, Progress())


@pytest.mark.parametrize("entry", [work, ending_children.hang])
def test_cancel_ends_the_child_long_before_its_work(tmp_path, entry):
    """The kernel has a million triangles to make, and the other child sleeps for ten minutes."""
    path = made_cad.write_step(tmp_path / "ball.step", made_cad.sphere(1000))
    asked_at, progress = [], None

    def listen(fraction: float, doing: str) -> None:
        if not asked_at and doing.startswith(("Splitting", "Hanging")):
            asked_at.append(0.0)
            threading.Timer(
                0.2, lambda: (asked_at.append(time.monotonic()), progress.cancel())
            ).start()

    progress = Progress(listen)
    with pytest.raises(Cancelled):
        run_task("ball.step", Task(0.001, 0.0, path), progress, entry=entry)
    assert time.monotonic() - asked_at[-1] < 5.0
    assert multiprocessing.active_children() == []


def test_cancelled_before_it_starts():
    progress = Progress()
    progress.cancel()
    with pytest.raises(Cancelled):
        run_task("x.step", Task(0.05, 0.0), progress, entry=ending_children.crash)


def test_progress_grows_and_says_what_is_done(tmp_path):
    path = made_cad.write_assembly(tmp_path / "frame.step")
    heard = []
    read_part(path, Progress(lambda fraction, doing: heard.append((fraction, doing))))
    fractions = [fraction for fraction, _ in heard]
    assert fractions == sorted(fractions)
    words = {doing.partition(" (")[0] for _, doing in heard}  # without how long it took so far
    assert {"Reading the CAD file", "Splitting the surfaces into triangles"} <= words


# --- the command line
@pytest.mark.parametrize("command", ["check", "measure"])
def test_command_line_reads_step(tmp_path, command):
    path = made_cad.write_step(tmp_path / "box.step", made_cad.box(10, 20, 30))
    run = subprocess.run(
        [sys.executable, "-m", "viewer", command, str(path), "--json"],
        cwd=ROOT, capture_output=True, text=True, timeout=240,
    )  # fmt: skip
    assert run.returncode == 0, run.stderr
    answer = json.loads(run.stdout)
    assert "box.step" in json.dumps(answer)
