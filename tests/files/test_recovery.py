"""Unsaved work is kept aside whole, comes back to the bit, and only where its window is gone."""

import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from tests.shapes import box, c_bracket, cube
from viewer.document.state import KeptPose, Part, State
from viewer.errors import CannotWrite, UnreadableFile
from viewer.files import recovery
from viewer.files.recovery import Aside, lost_work, recover, throw_away
from viewer.geometry.pose import Pose
from viewer.geometry.print_settings import PrintSettings
from viewer.shop.shop_choice import ShopChoice


def some_state() -> State:
    mesh = c_bracket()
    classes = np.arange(mesh.face_count) % 3
    patches = np.arange(mesh.face_count, dtype=np.int32) // 2
    part = Part("Bügel", mesh, "bügel.step", "inch", patch_of_face=patches, received=cube())
    return State.of_part(
        part,
        classes.astype(np.uint8),
        pose=Pose((0.6, 0.0, 0.8), 30.0),
        pinned_pose=Pose((1.0, 0.0, 0.0)),
        kept_poses=(KeptPose("on its back", Pose((0.0, 1.0, 0.0)), "a note"),),
        settings=PrintSettings(layer_mm=0.3),
        shop_choice=ShopChoice(copies=7),
    )


def end_suddenly(aside: Aside) -> None:
    """What the system does when a process ends: its files are closed, no more."""
    recovery.os.close(aside._handle)


def assert_same(now: State, then: State) -> None:
    for name in ("mesh", "base", "received"):
        mine, theirs = getattr(now.part, name), getattr(then.part, name)
        assert (mine is None) == (theirs is None), name
        if mine is not None:
            assert np.array_equal(mine.vertices_mm, theirs.vertices_mm)
            assert np.array_equal(mine.faces, theirs.faces)
    for name in ("base_face", "polygon_of_face", "patch_of_face"):
        mine, theirs = getattr(now.part, name), getattr(then.part, name)
        assert (mine is None) == (theirs is None), name
        assert mine is None or np.array_equal(mine, theirs), name
    assert np.array_equal(now.face_classes, then.face_classes)
    assert (now.part.name, now.part.unit) == (then.part.name, then.part.unit)
    assert now.part.file_name == then.part.file_name
    for name in ("pose", "pinned_pose", "kept_poses", "settings", "shop_choice"):
        assert getattr(now, name) == getattr(then, name), name


def finely_marked(state: State) -> State:
    """Its first face cut in three about its middle, each with a class of its own."""
    mesh, (a, b, c) = state.part.mesh, state.part.mesh.faces[0]
    middle = len(mesh.vertices_mm)
    vertices = np.vstack([mesh.vertices_mm, mesh.vertices_mm[[a, b, c]].mean(axis=0)])
    faces = np.vstack([mesh.faces, [[b, c, middle], [c, a, middle]]]).astype(np.int32)
    faces[0] = a, b, middle
    base_face = np.concatenate([np.arange(mesh.face_count), [0, 0]])
    classes = np.concatenate([state.face_classes, [1, 2]]).astype(np.uint8)
    part = state.part.refined(vertices, faces, base_face)
    return state.with_(part=part, face_classes=classes)


@pytest.mark.parametrize("make", [some_state, lambda: State.of_part(Part("box", cube()))])
def test_the_work_of_a_window_that_ended_suddenly_comes_back(tmp_path, make):
    state, source = make(), tmp_path / "bügel.step"
    aside = Aside(tmp_path / "recovery")
    aside.keep(state, source)
    assert lost_work(tmp_path / "recovery") == []  # its window is still there
    end_suddenly(aside)
    (lost,) = lost_work(tmp_path / "recovery")
    assert (lost.part_name, lost.source, lost.job_path) == (state.part.name, source, None)
    assert_same(recover(lost), state)
    throw_away(lost)
    assert lost_work(tmp_path / "recovery") == []
    assert list((tmp_path / "recovery").iterdir()) == []


def test_marks_finer_than_triangles_come_back_as_they_were(tmp_path):
    state = finely_marked(some_state())
    assert state.part.base is not None
    aside = Aside(tmp_path)
    aside.keep(state)
    end_suddenly(aside)
    assert_same(recover(lost_work(tmp_path)[0]), state)


def test_the_mesh_is_written_once_and_each_stroke_is_small(tmp_path):
    state = State.of_part(Part("box", cube()))
    aside = Aside(tmp_path)
    aside.keep(state)
    (mesh,) = aside.folder.glob("mesh-*")
    written = mesh.stat().st_mtime_ns
    marked = state.with_(face_classes=np.ones(12, np.uint8))
    aside.keep(marked, tmp_path / "x.stl", tmp_path / "job.3mf")
    assert mesh.stat().st_mtime_ns == written
    other = marked.with_(part=Part("box", box((0, 0, 0), (1, 2, 3))))
    aside.keep(other, job_path=tmp_path / "job.3mf")
    assert [path.name for path in aside.folder.glob("mesh-*")] == ["mesh-2.npz"]
    end_suddenly(aside)
    (lost,) = lost_work(tmp_path)
    assert lost.job_path == lost.source == tmp_path / "job.3mf"
    assert_same(recover(lost), other)


def test_what_was_saved_is_forgotten(tmp_path):
    aside = Aside(tmp_path)
    aside.keep(some_state())
    aside.forget()
    assert list(tmp_path.iterdir()) == []
    aside.keep(some_state())  # and work that follows is kept again
    end_suddenly(aside)
    assert len(lost_work(tmp_path)) == 1


def test_a_folder_cleared_away_meanwhile_is_made_again(tmp_path):
    aside = Aside(tmp_path)
    aside.keep(some_state())
    recovery.shutil.rmtree(aside.folder)
    aside.keep(some_state())
    end_suddenly(aside)
    assert_same(recover(lost_work(tmp_path)[0]), some_state())


def test_the_latest_comes_first(tmp_path):
    for seconds, name in ((100, "old"), (300, "newest"), (200, "middle")):
        aside = Aside(tmp_path)
        aside.keep(State.of_part(Part(name, cube())))
        recovery.os.utime(aside.folder / "work.npz", (seconds, seconds))
        end_suddenly(aside)
    found = lost_work(tmp_path)
    assert [lost.part_name for lost in found] == ["newest", "middle", "old"]
    assert [lost.kept_s for lost in found] == [300, 200, 100]


def _damage(path: Path, kind: str) -> None:
    content = bytearray(path.read_bytes())
    if kind == "cut off":
        del content[len(content) // 2 :]
    else:
        place = content.index(b"NUMPY") + 150  # within the first array
        content[place] ^= 0xFF
    path.write_bytes(content)


@pytest.mark.parametrize("kind", ["cut off", "one byte"])
@pytest.mark.parametrize("name", ["work.npz", "mesh-1.npz"])
def test_damage_is_told_and_never_shown_as_work(tmp_path, kind, name):
    aside = Aside(tmp_path)
    aside.keep(some_state())
    end_suddenly(aside)
    _damage(aside.folder / name, kind)
    (lost,) = lost_work(tmp_path)
    with pytest.raises(UnreadableFile, match="damaged and cannot be opened"):
        recover(lost)


@pytest.mark.parametrize(
    ("name", "array"),
    [
        ("faces", np.array([[0, 1, 99]], np.int32)),
        ("vertices", np.full((8, 3), np.nan)),
        ("classes", np.full(12, 9, np.uint8)),
        ("classes", np.zeros(3, np.uint8)),
        ("job", np.frombuffer(b'{"version": 1, "pose": {"up": [0, 0, 0]}}', np.uint8)),
        ("job", np.frombuffer(b'{"version": 99}', np.uint8)),
    ],
)
def test_values_from_elsewhere_are_checked(tmp_path, name, array):
    aside = Aside(tmp_path)
    aside.keep(State.of_part(Part("box", cube())))
    end_suddenly(aside)
    for path in aside.folder.glob("*.npz"):
        with np.load(path) as found:
            arrays = dict(found)
        if name in arrays:
            np.savez(path, **(arrays | {name: array}))
    with pytest.raises(UnreadableFile):
        recover(lost_work(tmp_path)[0])


def test_nothing_that_could_be_code_is_read(tmp_path):
    aside = Aside(tmp_path)
    aside.keep(some_state())
    end_suddenly(aside)
    np.savez(aside.folder / "work.npz", note=np.array([print], dtype=object))
    with pytest.raises(UnreadableFile):
        recover(lost_work(tmp_path)[0])


def test_a_place_that_takes_nothing_is_told(tmp_path):
    (tmp_path / "recovery").write_text("a file in the place of the folder")
    with pytest.raises(CannotWrite):
        Aside(tmp_path / "recovery").keep(some_state())


def test_work_of_another_process_is_lost_only_once_that_is_dead(tmp_path):
    script = (
        "import sys; from pathlib import Path; from tests.shapes import cube\n"
        "from viewer.document.state import Part, State; from viewer.files.recovery import Aside\n"
        "Aside(Path(sys.argv[1])).keep(State.of_part(Part('box', cube())))\n"
        "print('kept', flush=True); sys.stdin.read()"
    )
    child = subprocess.Popen(
        [sys.executable, "-c", script, str(tmp_path)],
        stdin=subprocess.PIPE, stdout=subprocess.PIPE, cwd=Path(__file__).parents[2],
    )  # fmt: skip
    with child:
        assert child.stdout.readline() == b"kept\n"
        assert lost_work(tmp_path) == []
        child.kill()
    assert [lost.part_name for lost in lost_work(tmp_path)] == ["box"]
