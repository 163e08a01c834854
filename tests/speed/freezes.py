"""How long other threads stand still beside a job, and how long a job goes on after a cancel.

A heartbeat thread asks for the time every 2 ms while a worker thread does the job. Between two
beats something may hold the interpreter lock; what the system let either thread wait for a
processor is taken off where it says so (Linux). The wish to stop is answered where the job asks
for it, so the longest time between two questions is the longest time from cancel to `Cancelled`.
"""

import threading
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np

from tests.speed.made_meshes import bumpy_ball
from viewer.document.state import Part, State
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
DEAF_LIMIT_S = 0.050


class Freezes(NamedTuple):
    """Longest stretches of a job in which no other thread ran, and in which it hears no cancel."""

    gap_s: float
    deaf_s: float


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


class _Asked(Progress):
    """Notes the longest time between two questions of the job; made on the thread that works."""

    def __init__(self) -> None:
        super().__init__()
        self._waited = _Waited(threading.get_native_id())
        self.longest_s, self._last_s = 0.0, time.perf_counter()

    def check(self) -> None:
        """Note how long it is since the last question."""
        spent_s = time.perf_counter() - self._last_s - self._waited.since_last_s()
        self.longest_s = max(self.longest_s, spent_s)
        self._last_s = time.perf_counter()


def watch(job: Callable[[Progress], Any]) -> Freezes:
    """Do the job on a worker thread with a heartbeat beside it."""
    gap_s, deaf_s, ready = 0.0, [], threading.Event()

    def work() -> None:
        asked = _Asked()
        ready.set()
        job(asked)
        asked.check()
        deaf_s.append(asked.longest_s)

    worker = threading.Thread(target=work)
    worker.start()
    ready.wait()
    own, others = _Waited(threading.get_native_id()), _Waited(worker.native_id)
    last_s = time.perf_counter()
    while worker.is_alive():
        time.sleep(BEAT_S)
        late_s = time.perf_counter() - last_s - BEAT_S
        gap_s = max(gap_s, late_s - own.since_last_s() - others.since_last_s())
        last_s = time.perf_counter()
    worker.join()
    if not deaf_s:
        raise RuntimeError("The job failed; its error is printed above.")
    return Freezes(max(gap_s, 1e-6), max(deaf_s[0], 1e-6))


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
            part, classes, Pose((0.3, -0.4, 0.8)), PrintSettings(), tier, progress, True
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
