"""A fuzzing campaign: a worker that lives on reads one changed file after another.

Each has to end as a sound part or as one of our own sentences. The watcher ends the worker that
takes too long over one, or that dies, notes the input, and goes on behind it with a new worker.

The CAD kernel is expected to crash: the program lets it work in a process of its own. Its worker
therefore reads in a fork; where that dies, the same file has to come to one sentence through the
program's own door, and is counted as a crash of the kernel. The kernel may also come to no end: its
fork may use so much of the processor for one file, and is then ended by the system.
"""

import contextlib
import json
import os
import signal
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from typing import BinaryIO, TextIO

import numpy as np

from tests.fuzz.changes import SUFFIXES, changed, seeds
from viewer.errors import FileProblem
from viewer.files import step_file, threemf_file
from viewer.files.mesh_files import read_part
from viewer.geometry.mesh import Mesh

MOST_S = 10.0  # of processor time, for one input
MOST_GROWTH_BYTES = 2_000_000_000
MOST_WALL_S = 60.0  # where it waits, on a loaded machine
KERNEL_S = 8  # of processor time, for the kernel and one file
_LOOK_EVERY_S = 0.2
ROOT = Path(__file__).resolve().parents[2]
CAD = ("step", "iges")
CRASH = "sentence after a crash of the kernel"
ENDLESS = "sentence after the kernel came to no end"


@dataclass
class Found:
    """What a campaign came to; `failures` holds input numbers and what they did."""

    inputs: int = 0
    parts: int = 0
    sentences: int = 0
    slowest_s: float = 0.0
    slowest: int = -1
    kernel_crashes: int = 0
    kernel_endless: int = 0
    growth_bytes: int = 0
    workers: int = 0
    failures: list[tuple[int, str]] = field(default_factory=list)


# --- the worker
def read_one(kind: str, path: Path) -> str:
    """Read a file the way the program does; "part" or "sentence". Raises whatever else happens."""
    try:
        if kind in CAD:
            return _read_with_kernel(path)
        state = read_part(path)
    except FileProblem as problem:
        said = str(problem)
    else:
        _look_at(state.part.mesh)
        return "part"
    return _sound(said, path)


def _look_at(mesh: Mesh) -> None:
    assert np.isfinite(mesh.vertices_mm).all(), "a corner that is no place"
    assert mesh.face_count > 0, "a part without triangles"
    assert mesh.faces.min() >= 0, "a corner that is not there"
    assert mesh.faces.max() < len(mesh.vertices_mm), "a corner that is not there"


class _NoPipe:
    def send(self, message: object) -> None:
        """Nobody listens to how far it is."""


def _read_with_kernel(path: Path) -> str:
    """What the child process of the program would do, in this one, which lives on."""
    from viewer.files.step_file import DEFAULT_CHORD_MM, _refuse_at_a_glance
    from viewer.files.step_worker import Task, _do

    _refuse_at_a_glance(path, np.fromfile(path, np.uint8))
    try:
        answer = _do(_NoPipe(), Task(DEFAULT_CHORD_MM, 0.0, path))
    except Exception:  # the kernel's own; the program says "refused" for each
        return "sentence"
    return "part" if len(answer["faces"]) else "sentence"


def work(kind: str, seed: int, first: int, end: int) -> None:
    """Read the inputs first..end-1; a line on the output before each and after each."""
    threemf_file.SMALL_BYTES = 1 << 60  # in this process, which is one that may die
    out = os.fdopen(os.dup(1), "w", buffering=1)
    nowhere = os.open(os.devnull, os.O_WRONLY)  # the kernel prints
    os.dup2(nowhere, 1)
    beginnings = seeds(kind)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / f"input{SUFFIXES[kind][0]}"
        if kind in CAD:
            _load_the_kernel()
        else:
            path.write_bytes(beginnings[0])
            read_one(kind, path)
        if kind not in CAD or not hasattr(os, "fork"):
            for number in range(first, end):
                _one_input(kind, path, changed(kind, beginnings, seed, number), number, out)
            return
        while first < end:
            first = _until_it_dies(kind, path, beginnings, seed, (first, end), out)


def _load_the_kernel() -> None:
    """All that a fork needs, but no file is read: that would start the kernel's threads, which a
    fork has not, and waits for."""
    import viewer.files.step_reading
    import viewer.files.step_sewing
    import viewer.files.step_triangles  # noqa: F401

    # Users wait longer, and can cancel.
    step_file.run_task = partial(step_file.run_task, limit_s=MOST_S)


def _one_input(kind: str, path: Path, content: bytes, number: int, out: TextIO) -> None:
    path.write_bytes(content)
    out.write(json.dumps(["begun", number, _memory()]) + "\n")
    begun_s = time.process_time()
    try:
        ended = read_one(kind, path)
    except Exception as error:
        ended = f"{type(error).__name__}: {error}"
    took_s = time.process_time() - begun_s
    out.write(json.dumps(["ended", number, ended, took_s, _memory("VmHWM")]) + "\n")
    left = [other.name for other in path.parent.iterdir() if other != path]
    assert not left, f"wrote {left}"


def _until_it_dies(
    kind: str, path: Path, beginnings: list[bytes], seed: int, numbers: tuple[int, int], out: TextIO
) -> int:
    """Read in a fork until that is through or dead; returns the first number not yet read."""
    hear_from, say_to = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(hear_from)
        try:
            for number in range(*numbers):
                os.write(say_to, b".")
                _limit_processor_time()
                content = changed(kind, beginnings, seed, number)
                _one_input(kind, path, content, number, out)
        finally:
            os._exit(0)
    os.close(say_to)
    begun = 0
    while some := os.read(hear_from, 65536):
        begun += len(some)
    os.close(hear_from)
    status = os.waitpid(child, 0)[1]
    if not os.WIFSIGNALED(status):
        return numbers[1]
    endless = os.WTERMSIG(status) == signal.SIGXCPU
    crashed = numbers[0] + begun - 1
    begun_s = time.process_time()
    try:
        through = _through_the_door(path)
        ended = (ENDLESS if endless else CRASH) if through == "sentence" else "part after a crash"
        if endless and through == "part":  # several processors make it quicker
            ended = through
    except Exception as error:
        ended = f"{type(error).__name__}: {error}"
    took_s = time.process_time() - begun_s
    out.write(json.dumps(["ended", crashed, ended, took_s, _memory("VmHWM")]) + "\n")
    return crashed + 1


def _limit_processor_time() -> None:
    """For what this process does next."""
    import resource

    spent = resource.getrusage(resource.RUSAGE_SELF)
    most_s = int(spent.ru_utime + spent.ru_stime) + 1 + KERNEL_S
    resource.setrlimit(resource.RLIMIT_CPU, (most_s, resource.RLIM_INFINITY))


def _through_the_door(path: Path) -> str:
    """As the program reads it, the kernel in a process of its own."""
    try:
        read_part(path)
    except FileProblem as problem:
        said = str(problem)
    else:
        return "part"
    return _sound(said, path)


def _sound(said: str, path: Path) -> str:
    """Looks at one of our sentences."""
    assert "\n" not in said, f"more than a line: {said}"
    assert path.name in said, f"does not name the file: {said}"
    return "sentence"


def _memory(which: str = "VmRSS") -> int:
    try:
        for line in Path("/proc/self/status").read_text().splitlines():
            if line.startswith(which):
                return 1024 * int(line.split()[1])
    except OSError:
        pass
    return 0


# --- the watcher
def campaign(kind: str, inputs: int, seed: int, keep_in: Path | None = None) -> Found:
    """Read so many changed files; what failed is written to the folder `keep_in`."""
    found, number = Found(), 0
    while number < inputs:
        number = _one_worker(kind, seed, number, inputs, found)
    if keep_in is not None and found.failures:
        keep_in.mkdir(parents=True, exist_ok=True)
        beginnings = seeds(kind)
        for failed, _ in found.failures:
            name = f"{kind}-{seed}-{failed}{SUFFIXES[kind][0]}"
            (keep_in / name).write_bytes(changed(kind, beginnings, seed, failed))
    return found


def _one_worker(kind: str, seed: int, first: int, end: int, found: Found) -> int:
    """One worker's life; returns the number of the input after the last it came to."""
    found.workers += 1
    asked = [sys.executable, "-m", "tests.fuzz", "work", kind, str(seed), str(first), str(end)]
    with (
        tempfile.NamedTemporaryFile() as lines,
        open(lines.name, "ab") as its_end,  # with a place of its own in the file
        tempfile.TemporaryFile() as errors,
    ):
        worker = subprocess.Popen(
            asked, cwd=ROOT, stdout=its_end, stderr=errors, start_new_session=True
        )
        heard = _Heard(first)
        try:
            hung = _watch(worker, lines, heard, found)
        finally:
            _end(worker)
        errors.seek(0)
        said = errors.read().decode(errors="replace").strip()[-500:]
    if hung:
        found.failures.append((heard.now, f"took more than {MOST_S:g} s"))
    elif worker.returncode == 0:
        return end
    else:
        assert heard.started, f"the worker does not start: {said}"
        found.failures.append((heard.now, f"ended the process ({worker.returncode}) {said}"))
    return heard.now + 1


@dataclass
class _Heard:
    """What a worker told: the input it is at, and the memory it began with."""

    now: int
    begun_with: int = 0
    started: bool = False
    at: int = 0

    def listen(self, lines: BinaryIO, found: Found) -> bool:
        """Take in what is new; False for nothing."""
        lines.seek(self.at)
        text = lines.read()
        complete = text[: text.rfind(b"\n") + 1]
        self.at += len(complete)
        for line in complete.splitlines():
            what, number, *rest = json.loads(line)
            if what == "begun":
                self.now, self.started = number, True
                self.begun_with = self.begun_with or rest[0]
            else:
                self.now = number + 1
                _note(found, number, *rest, self.begun_with)
        return bool(complete)


def _watch(worker: subprocess.Popen, lines: BinaryIO, heard: _Heard, found: Found) -> bool:
    """Wait until the worker ended (False) or takes too long over one input (True)."""
    since_s, spent_s = time.monotonic(), 0.0
    while True:
        over = worker.poll() is not None
        if heard.listen(lines, found):
            since_s, spent_s = time.monotonic(), _spent_s(worker.pid)
        if over:
            return False
        too_long = _spent_s(worker.pid) - spent_s > MOST_S
        if heard.started and (too_long or time.monotonic() - since_s > MOST_WALL_S):
            return True
        time.sleep(_LOOK_EVERY_S)


def _note(found: Found, number: int, ended: str, took_s: float, peak: int, begun_with: int) -> None:
    found.inputs += 1
    found.growth_bytes = max(found.growth_bytes, peak - begun_with)
    if took_s > found.slowest_s:
        found.slowest_s, found.slowest = took_s, number
    if ended == "part":
        found.parts += 1
    elif ended in ("sentence", CRASH, ENDLESS):
        found.sentences += 1
        found.kernel_crashes += ended == CRASH
        found.kernel_endless += ended == ENDLESS
    else:
        found.failures.append((number, ended))


def _end(worker: subprocess.Popen) -> None:
    """The worker, and the fork in which it lets the kernel work."""
    if hasattr(os, "killpg"):
        with contextlib.suppress(ProcessLookupError):
            os.killpg(worker.pid, signal.SIGKILL)
    worker.kill()
    worker.wait()


def _spent_s(process: int) -> float:
    """Processor time of a process so far; the wall clock where the system does not tell."""
    try:
        fields = Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()
        return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")
    except (OSError, IndexError):
        return time.monotonic()
