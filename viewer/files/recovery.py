"""Work that is not saved yet, kept aside in the user's data folder for the case of a sudden end.

    recovery/<mark>/          one folder for each window that has unsaved work
        held                  held by the process of that window as long as it lives
        mesh-<n>.npz          the triangles of the file, test pieces and trials, which seldom change
        work.npz              marks, finer triangles, all else of the job, which n, where it is from

Each file is written whole and then put in place. So whenever the process ends, `work.npz` and the
mesh that it names are both there. Arrays are written as they are: a stroke on a million faces takes
a megabyte and some milliseconds, where a job file takes seconds.
"""

import contextlib
import os
import secrets
import shutil
import time
from dataclasses import dataclass
from pathlib import Path

import msgspec
import numpy as np

from viewer.document.state import Part, State
from viewer.errors import RequestProblem, UnreadableFile
from viewer.files.array_pack import read_arrays, write_arrays
from viewer.files.atomic_write import cannot_write, make_folder, replacing
from viewer.files.data_folder import data_folder
from viewer.files.held_file import Hold, hold_opened, let_go
from viewer.files.job_test_pieces import pieces_of_job, unpacked_pieces
from viewer.files.job_words import job_words, with_job_words
from viewer.geometry.face_classes import CLASS_B
from viewer.geometry.mesh import Mesh, frozen
from viewer.progress import Progress
from viewer.shop.trials import packed_trials, read_trials
from viewer.words import say

_HELD, _WORK = "held", "work.npz"
_MOST_NOTE_BYTES = 20_000
_EMPTY_FOR_S = 60.0


class _Note(msgspec.Struct):
    """What of the work is neither mesh nor mark."""

    mesh: int
    part_name: str = ""
    source: str = ""
    is_job: bool = False


@dataclass(frozen=True)
class Lost:
    """Work that a window which came to a sudden end had not saved.

    source : the file it came from, None for what came from none; job_path : the job it belongs to
    kept_s : when it was kept aside last, in seconds since 1970
    """

    folder: Path
    part_name: str
    source: Path | None
    job_path: Path | None
    kept_s: float


def recovery_folder() -> Path:
    """Where unsaved work is kept aside."""
    return data_folder() / "recovery"


class Aside:
    """The place for the unsaved work of one window; one thread at a time."""

    def __init__(self, folder: Path | None = None) -> None:
        self._above = folder or recovery_folder()
        self.folder = self._above / secrets.token_hex(8)
        self._handle: int | None = None
        self._seldom: tuple[object, ...] | None = None
        self._number = 0

    def keep(
        self,
        state: State,
        source: Path | None = None,
        job_path: Path | None = None,
        progress: Progress | None = None,
    ) -> None:
        """Keep the work aside in place of what was kept before. Raises CannotWrite, Cancelled.

        source : the file that it came from; job_path : the job that Save would write
        """
        progress = progress or Progress()
        self._hold()
        seldom = (state.part.file_mesh, state.part.received, state.pieces, state.trials)
        if self._seldom is None or any(
            now is not kept for now, kept in zip(seldom, self._seldom, strict=True)
        ):
            self._write(f"mesh-{self._number + 1}.npz", _seldom_arrays(state, progress), progress)
            self._number, self._seldom = self._number + 1, seldom
        origin = job_path or source
        note = _Note(self._number, state.part.name, str(origin or ""), job_path is not None)
        self._write(_WORK, _work_arrays(state, note), progress)
        for other in self.folder.glob("mesh-*.npz"):
            if other.name != f"mesh-{self._number}.npz":
                other.unlink(missing_ok=True)

    def forget(self) -> None:
        """Nothing is unsaved any more: remove it all."""
        self._seldom = None
        with contextlib.suppress(OSError):
            (self.folder / _WORK).unlink(missing_ok=True)
        if self._handle is not None:
            let_go(self._handle, self.folder / _HELD)
            self._handle = None
        shutil.rmtree(self.folder, ignore_errors=True)

    def _hold(self) -> None:
        if self._handle is not None and (self.folder / _HELD).exists():
            return
        self._seldom = None  # cleared away by someone: all is written anew
        make_folder(self.folder)
        try:
            handle = os.open(self.folder / _HELD, os.O_RDWR | os.O_CREAT, 0o600)
        except OSError as error:
            raise cannot_write(self.folder, error) from error
        hold_opened(handle)
        if self._handle is not None:
            os.close(self._handle)
        self._handle = handle

    def _write(self, name: str, arrays: dict[str, np.ndarray], progress: Progress) -> None:
        with replacing(self.folder / name, progress) as temporary:
            write_arrays(temporary, arrays, progress)


def _seldom_arrays(state: State, progress: Progress) -> dict[str, np.ndarray]:
    mesh, received = state.part.file_mesh, state.part.received
    arrays = {"vertices": mesh.vertices_mm, "faces": mesh.faces}
    if received is not None:
        arrays |= {"received_vertices": received.vertices_mm, "received_faces": received.faces}
    if state.pieces:
        arrays["test_pieces"] = np.frombuffer(pieces_of_job(state.pieces, progress), np.uint8)
    if state.trials:
        arrays["trials"] = np.frombuffer(packed_trials(state.trials), np.uint8)
    return arrays


def _work_arrays(state: State, note: _Note) -> dict[str, np.ndarray]:
    part = state.part
    words = {"note": msgspec.json.encode(note), "job": job_words(state)}
    arrays = {name: np.frombuffer(content, np.uint8) for name, content in words.items()}
    arrays["classes"] = state.face_classes
    for name in ("polygon_of_face", "patch_of_face"):
        if getattr(part, name) is not None:
            arrays[name] = getattr(part, name)[: part.file_mesh.face_count]
    if part.base is not None:
        arrays["new_vertices"] = part.mesh.vertices_mm[len(part.base.vertices_mm) :]
        arrays |= {"pieces": part.mesh.faces, "base_face": part.base_face}
    return arrays


# --- what windows left that came to a sudden end
def lost_work(folder: Path | None = None) -> list[Lost]:
    """What can be recovered, the latest first; work of windows that are still open is not lost."""
    found = []
    for place in _folders(folder or recovery_folder()):
        if _is_held(place):
            continue
        if (place / _WORK).exists():
            found.append(_look_at(place))
        elif _age_s(place) > _EMPTY_FOR_S:  # a window that ended before it had kept anything
            shutil.rmtree(place, ignore_errors=True)
    return sorted(found, key=lambda lost: lost.kept_s, reverse=True)


def recover(lost: Lost) -> State:
    """The work as it was kept aside last. Raises UnreadableFile where it is damaged."""
    work = read_arrays(lost.folder / _WORK)
    note = None if work is None else _note(work)
    meshes = None if note is None else read_arrays(lost.folder / f"mesh-{note.mesh}.npz")
    try:
        if meshes is not None:
            state = _state(meshes, work, lost)
            if state is not None:
                return state
    except (KeyError, IndexError, ValueError, TypeError, RequestProblem) as error:
        raise UnreadableFile(_damaged(lost)) from error
    raise UnreadableFile(_damaged(lost))


def throw_away(lost: Lost) -> None:
    """Remove work that nobody wants back."""
    shutil.rmtree(lost.folder, ignore_errors=True)


def _folders(above: Path) -> list[Path]:
    try:
        return [place for place in above.iterdir() if place.is_dir() and not place.is_symlink()]
    except OSError:
        return []


def _is_held(place: Path) -> bool:
    try:
        handle = os.open(place / _HELD, os.O_RDWR)
    except FileNotFoundError:
        return False
    except OSError:
        return True
    hold = hold_opened(handle)
    os.close(handle)
    return hold is Hold.ANOTHERS


def _age_s(place: Path) -> float:
    try:
        return time.time() - place.stat().st_mtime
    except OSError:
        return 0.0


def _look_at(place: Path) -> Lost:
    work = read_arrays(place / _WORK, "note")
    note = (None if work is None else _note(work)) or _Note(0)
    origin = Path(note.source) if note.source else None
    try:
        kept_s = (place / _WORK).stat().st_mtime
    except OSError:
        kept_s = 0.0
    return Lost(place, note.part_name, origin, origin if note.is_job else None, kept_s)


def _note(work: dict[str, np.ndarray]) -> _Note | None:
    content = work.get("note")
    if content is None or content.nbytes > _MOST_NOTE_BYTES:
        return None
    try:
        return msgspec.json.decode(content.tobytes(), type=_Note)
    except (msgspec.MsgspecError, UnicodeDecodeError):
        return None


def _state(meshes: dict[str, np.ndarray], work: dict[str, np.ndarray], lost: Lost) -> State | None:
    mesh = _mesh(meshes["vertices"], meshes["faces"])
    received = None
    if "received_faces" in meshes:
        received = _mesh(meshes["received_vertices"], meshes["received_faces"])
    kinds = ("polygon_of_face", "patch_of_face")
    of_face = {name: _of_faces(work.get(name), mesh.face_count) for name in kinds}
    part = Part(lost.part_name, mesh, received=received, **of_face)
    if "pieces" in work:
        vertices = np.concatenate([mesh.vertices_mm, work["new_vertices"]])
        pieces = _mesh(vertices, work["pieces"])
        base_face = _of_faces(work["base_face"], pieces.face_count)
        if base_face.min() < 0 or base_face.max() >= mesh.face_count:
            return None
        if not np.array_equal(base_face[: mesh.face_count], np.arange(mesh.face_count)):
            return None
        part = part.refined(pieces.vertices_mm, pieces.faces, base_face)
    classes = np.asarray(work["classes"], np.uint8)
    if classes.shape != (part.mesh.face_count,) or classes.max(initial=0) > CLASS_B:
        return None
    more = {}
    if "test_pieces" in meshes:
        more["pieces"] = unpacked_pieces(meshes["test_pieces"].tobytes(), Progress()) or ()
    if "trials" in meshes:
        more["trials"] = read_trials(meshes["trials"].tobytes())
    return with_job_words(part, classes, work["job"].tobytes(), **more)


def _mesh(vertices: np.ndarray, faces: np.ndarray) -> Mesh:
    if vertices.ndim != 2 or faces.ndim != 2 or vertices.shape[1] != 3 or faces.shape[1] != 3:
        raise ValueError("neither corners nor triangles")
    if not len(faces) or faces.min() < 0 or faces.max() >= len(vertices):
        raise ValueError("a triangle names a corner that is not there")
    if not np.isfinite(vertices).all():
        raise ValueError("a corner is no place")
    return Mesh(vertices, faces)


def _of_faces(numbers: np.ndarray | None, count: int) -> np.ndarray | None:
    if numbers is None:
        return None
    if numbers.shape != (count,):
        raise ValueError("not one number for each face")
    return frozen(np.asarray(numbers, np.int32))


def _damaged(lost: Lost) -> str:
    return say(
        "The unsaved work on {name} is damaged and cannot be opened; open the file it came from.",
        name=lost.part_name or "?",
    )
