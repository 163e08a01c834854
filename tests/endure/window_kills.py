"""Kill the real window while strokes are painted, start it again, and take what it offers."""

import os
import random
import selectors
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests.endure.kills import MOST_MISSING_S, Tally
from tests.endure.told_strokes import fresh_state
from viewer.files.job_file import write_job

ROOT = Path(__file__).resolve().parents[2]
SHORTEST_LIFE_S, LONGEST_LIFE_S = 1.0, 12.0
WITHIN_S = 300.0  # for a start, on a loaded machine
SIZES = (5_000, 60_000)


def window_kills(runs: int, seed: int) -> Tally:
    """So many windows, each killed at a random moment; AssertionError if one loses work."""
    rng, tally = random.Random(seed), Tally()
    for run in range(runs):
        with tempfile.TemporaryDirectory() as folder:
            job = Path(folder) / "job.3mf"
            write_job(fresh_state(SIZES[run % len(SIZES)]), job)
            life_s = rng.uniform(SHORTEST_LIFE_S, LONGEST_LIFE_S)
            strokes = _killed_while_painting(Path(folder), job, seed + run, life_s)
            missing_s = _missing_s(Path(folder), strokes)
        assert missing_s <= MOST_MISSING_S, f"{missing_s:.1f} s of strokes are missing"
        tally.runs += 1
        tally.strokes += len(strokes)
        tally.most_missing_s = max(tally.most_missing_s, missing_s)
        print(
            f"{run + 1} of {runs}: {len(strokes)} changes of marks, {missing_s:.1f} s lost",
            flush=True,
        )
    return tally


def _start(folder: Path, *words: str) -> subprocess.Popen:
    """The program with settings, unsaved work and claim of its own."""
    own = {
        "SHOWSIDE_DATA": str(folder / "data"),
        "XDG_CONFIG_HOME": str(folder / "config"),
        "XDG_STATE_HOME": str(folder / "state"),
    }
    return subprocess.Popen(
        [sys.executable, "-m", "tests.endure.window_life", *words],
        cwd=ROOT, env={**os.environ, **own}, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
        text=True, bufsize=1, start_new_session=True,
    )  # fmt: skip


def _killed_while_painting(
    folder: Path, job: Path, seed: int, life_s: float
) -> list[tuple[int, float]]:
    """Checksum and moment of each change of the marks that was told."""
    program = _start(folder, "paint", str(seed), str(job))
    strokes: list[tuple[int, float]] = []
    ends_s = time.monotonic() + WITHIN_S
    with selectors.DefaultSelector() as told:
        told.register(program.stdout, selectors.EVENT_READ)
        while (left_s := ends_s - time.monotonic()) > 0.0:
            if not told.select(left_s):
                break
            line = program.stdout.readline()
            if not line:
                os.killpg(program.pid, signal.SIGKILL)
                raise AssertionError(f"the program ended by itself: {program.stderr.read()[-800:]}")
            if line.startswith("stroke "):
                if not strokes:
                    ends_s = time.monotonic() + life_s
                strokes.append((int(line.split()[2]), float(line.split()[3])))
    os.killpg(program.pid, signal.SIGKILL)  # and what works for it in processes of their own
    rest, _ = program.communicate()
    strokes += [
        (int(line.split()[2]), float(line.split()[3]))
        for line in rest.splitlines()
        if line.startswith("stroke ") and line.count(" ") == 3
    ]
    assert strokes, "nothing was painted before it was killed"
    return strokes


def _missing_s(folder: Path, strokes: list[tuple[int, float]]) -> float:
    """How many seconds of strokes are not in what the next start offers."""
    last_s = strokes[-1][1]
    if not list((folder / "data" / "recovery").glob("*/work.npz")):
        return last_s - strokes[0][1]
    program = _start(folder, "recover", "0")
    try:
        said, wrong = program.communicate(timeout=WITHIN_S)
    except subprocess.TimeoutExpired as late:
        os.killpg(program.pid, signal.SIGKILL)
        raise AssertionError(f"no work was offered: {late.stdout!r}") from late
    assert program.returncode == 0, wrong[-800:]
    lines = dict(line.split(" ", 1) for line in said.splitlines() if " " in line)
    assert "came to a sudden end" in lines.get("offered", ""), said
    found = [n for n, (checksum, _) in enumerate(strokes) if checksum == int(lines["found"])]
    assert found, "what was recovered is none of the states that were painted"
    after = strokes[found[-1] + 1 :]
    return last_s - after[0][1] if after else 0.0
