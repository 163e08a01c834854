"""Fuzzing campaigns that anyone can repeat: good and bad files changed at random, then read.

python -m tests.fuzz stl --inputs 20000            also obj, ply, off, 3mf, step, iges
python -m tests.fuzz step --inputs 1000 --seed 2 --keep FOLDER
python -m tests.fuzz 3mf --inputs 20000 --guided   chosen by which lines of our readers they reach
                                                   (needs the package atheris)

Prints one line; exit code 1 if an input ended the process, took more than 10 s of processor time,
let memory grow by more than 2 GB, or came to anything but a sound part or one of our sentences.
Those are written to FOLDER.
"""

import argparse
import sys
import time
from pathlib import Path

from tests.fuzz.campaign import MOST_GROWTH_BYTES, campaign, work
from tests.fuzz.changes import SUFFIXES
from tests.fuzz.guided import guided, work_guided


def main(words: list[str]) -> int:
    """Run one campaign."""
    if words[:1] == ["work"]:
        work(words[1], *map(int, words[2:]))
        return 0
    if words[:1] == ["work-guided"]:
        work_guided(words[1], words[2:])
        return 0
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz", description=__doc__)
    parser.add_argument("kind", choices=list(SUFFIXES))
    parser.add_argument("--inputs", type=int, default=20_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--keep", type=Path)
    parser.add_argument("--guided", action="store_true")
    asked = parser.parse_args(words)
    if asked.guided:
        return guided(asked.kind, asked.inputs, asked.seed, asked.keep)
    begun_s = time.monotonic()
    found = campaign(asked.kind, asked.inputs, asked.seed, asked.keep)
    for number, what in found.failures[:20]:
        print(f"input {number}: {what}", file=sys.stderr)
    crashes = (
        f" ({found.kernel_crashes} after a crash of the CAD kernel in its own process, "
        f"{found.kernel_endless} where that came to no end)"
    )
    crashes = crashes if found.kernel_crashes + found.kernel_endless else ""
    print(
        f"{asked.kind}: {found.inputs:,} inputs, {found.parts:,} parts, {found.sentences:,} "
        f"sentences{crashes}, {len(found.failures)} failures, slowest {found.slowest_s:.2f} s "
        f"(input {found.slowest}), memory grew by {found.growth_bytes / 1e6:.0f} MB, "
        f"{found.workers} worker(s); {time.monotonic() - begun_s:.0f} s"
    )
    return 1 if found.failures or found.growth_bytes > MOST_GROWTH_BYTES else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
