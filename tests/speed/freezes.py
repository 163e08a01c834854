"""How long other threads stand still beside a job, and how long a job goes on after a cancel.

A heartbeat thread asks for the time every 2 ms while a worker thread does the job. Between two
beats something may hold the interpreter lock; what the system let either thread wait for a
processor is taken off where it says so (Linux). Then the job is done again and again and cancelled
at a random moment, and the time until `Cancelled` is taken.
"""

import threading
import time
import traceback
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np

from tests.speed.made_meshes import bumpy_ball
from viewer.document.state import Part, State
from viewer.errors import Cancelled
from viewer.files.mesh_files import read_part, write_posed
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_health import check_mesh
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import PreparedPart, prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.progress import Progress

BEAT_S = 0.002
GAP_LIMIT_S = 0.016  # a frame
CANCEL_LIMIT_S = 0.050
MOMENTS = 10  # of each job in which it is cancelled


class Wait(NamedTuple):
    """From a cancel to the moment in which the job gave up, and the line that it gave up in."""

    wait_s: float
    place: str


class Freezes(NamedTuple):
    """How long a job took, and the longest stretch of it in which no other thread ran."""

    gap_s: float
    took_s: float


class _Waited:
    """How long a thread was ready to run but had no processor."""

    def __init__(self, thread: int) -> None:
        self._path = f"/proc/self/task/{thread}/schedstat"
        self._last_s = 0.0
        self._last_s = self._now_s()

    def _now_s(self) -> float:
        try:
            with open(self._path, "rb", buffering=0) as file:
                return 1e-9 * int(file.read().split()[1])
        except OSError:
            return self._last_s  # the thread has ended, or the system does not say

    def since_last_s(self) -> float:
        """Since this was last asked."""
        before_s, self._last_s = self._last_s, self._now_s()
        return self._last_s - before_s


class _Work:
    """A job on a thread of its own, with what it came to."""

    def __init__(self, job: Callable[[Progress], Any]) -> None:
        self.progress, self._job = Progress(), job
        self.ended_s, self.waited_s, self.place = 0.0, 0.0, ""
        self._failed: BaseException | None = None
        self._waited: _Waited | None = None
        self.thread = threading.Thread(target=self._do)

    def _do(self) -> None:
        self._waited = _Waited(threading.get_native_id())
        try:
            self._job(self.progress)
        except Cancelled as end:
            frames = traceback.extract_tb(end.__traceback__)
            asked = [frame for frame in frames if Path(frame.filename).name != "progress.py"][-1]
            self.place = f"{Path(asked.filename).stem}:{asked.lineno}"
        except BaseException as error:
            self._failed = error
        self.ended_s = time.perf_counter()
        self.waited_s = self._waited.since_last_s()

    def cancel(self) -> None:
        """Wish it to stop; what it waited for a processor before no longer counts."""
        if self._waited is not None:
            self._waited.since_last_s()
        self.progress.cancel()

    def end(self) -> None:
        """Wait for it; raise what it raised, other than Cancelled."""
        self.thread.join()
        if self._failed is not None:
            raise self._failed


def watch(job: Callable[[Progress], Any]) -> Freezes:
    """Do the job on a worker thread with a heartbeat beside it."""
    work, gap_s = _Work(job), 0.0
    begun_s = time.perf_counter()
    work.thread.start()
    own, others = _Waited(threading.get_native_id()), _Waited(work.thread.native_id)
    last_s = time.perf_counter()
    while work.thread.is_alive():
        time.sleep(BEAT_S)
        late_s = time.perf_counter() - last_s - BEAT_S
        gap_s = max(gap_s, late_s - own.since_last_s() - others.since_last_s())
        last_s = time.perf_counter()
    work.end()
    return Freezes(max(gap_s, 1e-6), work.ended_s - begun_s)


def waits(job: Callable[[Progress], Any], took_s: float, moments: int, seed: int) -> list[Wait]:
    """Cancel the job once at each of so many random moments of the `took_s` that it takes.

    What the system let the job wait for a processor is taken off. A job that had ended by then
    adds nothing; one that finished its work in spite of the cancel counts as well.
    """
    found = []
    for share in np.random.default_rng(seed).random(moments):
        work = _Work(job)
        work.thread.start()
        time.sleep(share * took_s)
        asked_s = time.perf_counter()
        work.cancel()
        work.end()
        if work.ended_s > asked_s:
            found.append(
                Wait(max(work.ended_s - asked_s - work.waited_s, 1e-6), work.place or "done")
            )
    return found


def two_balls(facets: int) -> Mesh:
    """Two bumpy balls that overlap, of so many facets together."""
    ball = bumpy_ball(facets // 2)
    points = np.vstack([ball.vertices_mm, ball.vertices_mm + np.array([17.0, 9.3, 4.1])])
    return Mesh(points, np.vstack([ball.faces, ball.faces + len(ball.vertices_mm)]))


def jobs(part: PreparedPart, classes: np.ndarray, folder: Path) -> dict[str, Callable]:
    """The long jobs of the program, each as a function of a progress token; in this order."""
    faces = part.mesh.faces
    state = State.of_part(Part("ball", part.mesh))

    def fresh() -> Mesh:  # what is known of a mesh would be taken from memory
        return Mesh(part.mesh.vertices_mm.copy(), faces)

    def measured(tier: str) -> Callable:
        return lambda progress: measure_pose(
            _fresh(part), classes, Pose((0.3, -0.4, 0.8)), PrintSettings(), tier, progress, True
        )

    found = {
        "prepare": lambda progress: prepare_part(fresh(), progress),
        "prepare, two shells": lambda progress: prepare_part(two_balls(len(faces)), progress),
        "check": lambda progress: check_mesh(fresh(), progress=progress),
        "quick tier": measured("quick"),
        "full tier": measured("full"),
    }
    for suffix in (".stl", ".obj", ".ply", ".3mf"):
        path = folder / f"part{suffix}"
        found[f"write {suffix}"] = partial(_write, state, path)
        found[f"read {suffix}"] = partial(read_part, path)
    return found


def _write(state: State, path: Path, progress: Progress) -> None:
    write_posed(state, path, progress)


def _fresh(part: PreparedPart) -> PreparedPart:
    """The part as it is before anything is worked out that is kept with it."""
    return replace(part)
