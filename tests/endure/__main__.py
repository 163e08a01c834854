"""Long trials that anyone can repeat; each ends with one line, and with exit code 1 if it failed.

python -m tests.endure kills --runs 200                 killed at random moments: is any work lost?
python -m tests.endure window-kills --runs 5            the same with the real window and its mouse
python -m tests.endure clicks --actions 2000 --seed 1   random actions in the real window
"""

import argparse
import contextlib
import faulthandler
import os
import sys
import tempfile
import time
from pathlib import Path


def main(words: list[str] | None = None) -> int:
    """Run one trial."""
    parser = argparse.ArgumentParser(prog="python -m tests.endure", description=__doc__)
    trials = parser.add_subparsers(dest="trial", required=True)
    kills = trials.add_parser("kills", help="kill the program at random moments")
    kills.add_argument("--runs", type=int, default=200)
    kills.add_argument("--seed", type=int, default=1)
    windows = trials.add_parser("window-kills", help="kill the real window while it is painted in")
    windows.add_argument("--runs", type=int, default=5)
    windows.add_argument("--seed", type=int, default=1)
    clicks = trials.add_parser("clicks", help="random actions in the real window")
    clicks.add_argument("--actions", type=int, default=2000)
    clicks.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args(words)
    faulthandler.enable()
    begun_s = time.monotonic()
    try:
        line = {"kills": _kills, "window-kills": _window_kills, "clicks": _clicks}[asked.trial](
            asked
        )
    except AssertionError as lost:
        print(f"failed: {lost}", file=sys.stderr)
        return 1
    print(f"{line}; {time.monotonic() - begun_s:.0f} s")
    return 0


def _kills(asked: argparse.Namespace) -> str:
    from tests.endure.kills import kills

    tally = kills(asked.runs, asked.seed)
    return (
        f"{tally.runs} runs killed, {tally.strokes:,} strokes, {tally.killed_saving} of them while "
        f"the job was saved; at most {tally.most_missing_s:.2f} s of strokes were missing, and "
        f"{tally.leftovers} half files left beside a job"
    )


def _window_kills(asked: argparse.Namespace) -> str:
    from tests.endure.window_kills import window_kills

    with _screen():
        tally = window_kills(asked.runs, asked.seed)
    return (
        f"{tally.runs} windows killed, {tally.strokes:,} changes of marks; each offered its work "
        f"at the next start, and at most {tally.most_missing_s:.2f} s of strokes were missing"
    )


def _clicks(asked: argparse.Namespace) -> str:
    with tempfile.TemporaryDirectory() as folder, _screen() as screen:
        os.environ["SHOWSIDE_DATA"] = str(Path(folder) / "data")
        from tests.endure.clicks import clicks
        from viewer.live.long_life import live_long

        live_long()
        trial = clicks(asked.actions, asked.seed, Path(folder), screen.pid if screen else 0)
    memory = trial.memory_bytes
    return (
        f"{sum(trial.done.values())} actions, {trial.undone} steps undone, nothing went wrong; the "
        f"longest moment was {trial.longest_s:.2f} s ({trial.longest_of}), memory "
        f"{memory[len(memory) // 2] / 1e6:.0f} MB half-way and {memory[-1] / 1e6:.0f} MB at the end"
    )


def _screen() -> contextlib.AbstractContextManager:
    """A virtual screen on Linux, as tests have one; elsewhere the one there is."""
    if sys.platform != "linux":
        return contextlib.nullcontext()
    from pyvirtualdisplay import Display

    os.environ["QT_QPA_PLATFORM"] = "xcb"
    return Display(visible=False, size=(1400, 1000))


if __name__ == "__main__":
    sys.exit(main())
