"""Kill the program at random moments, again and again, and see what is left of the work.

One life after another goes on with what the one before left: it takes the lock of the job, makes a
stroke every few milliseconds, keeps them aside and saves the job, until it is killed without
warning. Then the job has to open with all strokes that were saved, the work kept aside with all
that were told to be kept, and no more than the last 10 s may be missing.
"""

import os
import pickle
import random
import select
import shutil
import signal
import tempfile
import threading
import time
from dataclasses import dataclass, field
from pathlib import Path

from tests.endure.told_strokes import fresh_state, marks_after, strokes_in
from viewer.document.document import Document
from viewer.document.state import State
from viewer.files.job_file import write_job
from viewer.files.job_lock import JobLock, take_lock
from viewer.files.mesh_files import read_part, write_posed
from viewer.files.recovery import Aside, lost_work, recover, throw_away

MOST_MISSING_S = 10.0
LONGEST_LIFE_S = 1.6
_START_WITHIN_S = 120.0
_KEEP_EVERY_S, _SAVE_EVERY_S, _STROKE_EVERY_S = 0.1, 0.35, 0.004
SIZES = (600, 5_000, 14_000)  # the last is more than is packed without a process of its own


@dataclass
class Told:
    """What a life told before it was killed."""

    strokes: dict[int, float] = field(default_factory=dict)  # number → moment
    kept: int = -1
    saving: set[int] = field(default_factory=set)
    saved: int = -1
    problem: str = ""

    def hear(self, line: str) -> None:
        """One line of the life: what, number, moment."""
        what, number, moment_s = line.split(" ", 2)
        if what == "stroke":
            self.strokes[int(number)] = float(moment_s)
        elif what == "kept":
            self.kept = int(number)
        elif what == "saving":
            self.saving.add(int(number))
        elif what == "saved":
            self.saved = int(number)
        else:
            self.problem = line


@dataclass
class Tally:
    """What came out of all lives."""

    runs: int = 0
    most_missing_s: float = 0.0
    strokes: int = 0
    killed_saving: int = 0
    leftovers: int = 0


# --- the life that is killed
def live(folder: Path, seed: int, say_to: int) -> None:
    """Work on the job in `folder` until killed; tells of it on a pipe."""

    def tell(what: str, number: int) -> None:
        os.write(say_to, f"{what} {number} {time.monotonic()}\n".encode())

    job, aside_in = folder / "job.3mf", folder / "recovery"
    lock = take_lock(job)
    assert isinstance(lock, JobLock), "a dead process still holds the job"
    document = Document()
    found = lost_work(aside_in)
    document.open(recover(found[0]) if found else read_part(job), job, saved=not found)
    done = strokes_in(document.state.face_classes)
    aside = Aside(aside_in)

    def keep() -> None:
        older = list(found)
        while True:
            state = document.state
            aside.keep(state, job, job)
            tell("kept", strokes_in(state.face_classes))
            while older:
                throw_away(older.pop())
            time.sleep(_KEEP_EVERY_S)

    def save() -> None:
        while True:
            time.sleep(_SAVE_EVERY_S * random.Random(seed).random())
            state = document.state
            number = strokes_in(state.face_classes)
            tell("saving", number)
            write_job(state, job)
            tell("saved", number)

    for work in (keep, save):
        threading.Thread(target=_or_tell(work, say_to), daemon=True).start()
    while True:
        done += 1
        document.set_classes(marks_after(done, len(document.state.face_classes)), "Mark")
        tell("stroke", done)
        time.sleep(_STROKE_EVERY_S)


def _or_tell(work, say_to: int):
    def attempt() -> None:
        try:
            work()
        except BaseException as error:
            os.write(say_to, f"failed {work.__name__} {error!r}\n".encode())

    return attempt


# --- the one who kills, and those who look after it
def elsewhere(function, *arguments):
    """What a function returns, called in a process of its own; raises AssertionError as it does.

    Each of these processes loads the 3MF library anew: it numbers what it writes at random, and
    processes that were forked after that would go on with the same numbers.
    """
    hear_from, say_to = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(hear_from)
        try:
            answer = (True, function(*arguments))
        except BaseException as error:
            answer = (False, repr(error))
        os.write(say_to, pickle.dumps(answer))
        os._exit(0)
    os.close(say_to)
    with open(hear_from, "rb") as stream:
        content = stream.read()
    os.waitpid(child, 0)
    assert content, f"{function.__name__} came to a sudden end"
    done, value = pickle.loads(content)
    assert done, value
    return value


def kill_once(folder: Path, life_s: float, seed: int) -> Told:
    """Start a life, kill it so many seconds after its first stroke, and hear all that it told.

    One life in eight is killed that long after its start instead, before it has done much.
    """
    hear_from, say_to = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(hear_from)
        _or_tell(lambda: live(folder, seed, say_to), say_to)()
        os._exit(1)
    os.close(say_to)
    heard = bytearray()
    ends_s = time.monotonic() + (life_s if seed % 8 == 0 else _START_WITHIN_S)
    while (left_s := ends_s - time.monotonic()) > 0.0:
        if select.select([hear_from], [], [], left_s)[0]:
            some = os.read(hear_from, 65536)
            if not heard and seed % 8:
                ends_s = time.monotonic() + life_s
            heard += some
            if not some:  # it ended by itself, and told why
                break
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    while some := os.read(hear_from, 65536):
        heard += some
    os.close(hear_from)
    told = Told()
    for line in heard.decode().splitlines():
        told.hear(line)
    return told


def look_after(folder: Path, told: Told, before: int) -> tuple[float, int]:
    """Open what is left; how many seconds of strokes are missing, and how many strokes are there.

    before : strokes that were there when that life began
    """
    assert not told.problem, told.problem
    state = read_part(folder / "job.3mf")
    assert not state.part.notes, state.part.notes
    in_job = strokes_in(state.face_classes)
    assert in_job >= told.saved, "the saved job went back"
    assert in_job <= before or in_job in told.saving, "strokes that nobody saved"
    aside = -1
    for lost in lost_work(folder / "recovery"):
        found: State = recover(lost)
        assert lost.job_path == folder / "job.3mf"
        aside = max(aside, strokes_in(found.face_classes))
    assert aside >= told.kept, "work that was kept aside is gone"
    assert max(aside, in_job) >= before, "the work of the life before is gone"
    missing = [moment for n, moment in told.strokes.items() if n > max(aside, in_job)]
    return max(told.strokes.values()) - min(missing) if missing else 0.0, max(aside, in_job)


def warm_up(folder: Path) -> None:
    """Load once what each life would load anew, other than the 3MF library."""
    write_posed(fresh_state(SIZES[0]), folder / "any.stl")
    state = read_part(folder / "any.stl")
    recovery = folder / "any"
    Aside(recovery).keep(state)


def kills(runs: int, seed: int) -> Tally:
    """So many lives, each killed at a random moment; raises AssertionError if one loses work."""
    rng, tally, left = random.Random(seed), Tally(), {}
    with tempfile.TemporaryDirectory() as above:
        warm_up(Path(above))
        for size in SIZES:
            folder = Path(above) / str(size)
            folder.mkdir()
            elsewhere(write_job, fresh_state(size), folder / "job.3mf")
        for run in range(runs):
            folder = Path(above) / str(SIZES[run % len(SIZES)])
            _one_run(folder, rng.uniform(0.0, LONGEST_LIFE_S), seed + run, left, tally)
            if (run + 1) % 20 == 0:
                print(f"{run + 1} of {runs} runs, all work there", flush=True)
        for size in SIZES:
            shutil.rmtree(Path(above) / str(size) / "recovery", ignore_errors=True)
    return tally


def _one_run(folder: Path, life_s: float, seed: int, left: dict[Path, int], tally: Tally) -> None:
    told = kill_once(folder, life_s, seed)
    missing_s, left[folder] = elsewhere(look_after, folder, told, left.get(folder, 0))
    assert missing_s <= MOST_MISSING_S, f"{missing_s:.1f} s of strokes are missing"
    tally.runs += 1
    tally.strokes += len(told.strokes)
    tally.most_missing_s = max(tally.most_missing_s, missing_s)
    tally.killed_saving += told.saved < max(told.saving, default=-1)
    halves = len(list(folder.glob(".*.part")))
    assert halves <= 1, f"{halves} half files lie beside the job, from killed saves"
    tally.leftovers = max(tally.leftovers, halves)
