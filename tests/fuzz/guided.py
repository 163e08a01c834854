"""A campaign led by coverage: what reaches new lines of our readers is kept and changed further.

libFuzzer leads it, through atheris (Apache-2.0), which is not among the packages that tests need;
kernels and libraries in C are not watched, our Python is. What changes the inputs is the same as in
the other campaign, so packages stay packages.
"""

import multiprocessing
import random
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from types import FunctionType

from tests.fuzz.campaign import CAD, MOST_GROWTH_BYTES, MOST_S, MOST_WALL_S, ROOT, read_one
from tests.fuzz.changes import MOST_SEED_BYTES, SUFFIXES, change, seeds

WATCHED = ("viewer.files",)


def guided(kind: str, inputs: int, seed: int, keep_in: Path | None = None) -> int:
    """Run it in a process of its own; its exit code, 0 where every input came to a good end.

    keep_in : folder for an input that did not
    """
    if kind in CAD:
        print("The CAD kernel is native code; coverage leads nowhere there.", file=sys.stderr)
        return 2
    with tempfile.TemporaryDirectory() as folder:
        corpus = Path(folder) / "corpus"
        corpus.mkdir()
        for number, content in enumerate(seeds(kind)):
            (corpus / f"{number}").write_bytes(content)
        kept = keep_in or Path(folder)
        kept.mkdir(parents=True, exist_ok=True)
        asked = [
            sys.executable, "-m", "tests.fuzz", "work-guided", kind, str(corpus), f"-runs={inputs}",
            f"-seed={seed}", f"-timeout={MOST_WALL_S:.0f}", f"-max_len={MOST_SEED_BYTES}",
            f"-rss_limit_mb={MOST_GROWTH_BYTES // 1_000_000}", f"-artifact_prefix={kept}/{kind}-",
            "-print_final_stats=1",
        ]  # fmt: skip
        ran = subprocess.run(asked, cwd=ROOT, stderr=subprocess.PIPE, text=True, errors="replace")
    lines = ran.stderr.strip().splitlines()
    told = [line for line in lines if "DONE" in line or line.startswith("stat::")]
    print(f"{kind}:", *(told if ran.returncode == 0 else lines[-40:]), sep="\n  ")
    return 1 if ran.returncode else 0


def work_guided(kind: str, words: list[str]) -> None:
    """Entry of that process; does not return."""
    try:
        import atheris
    except ImportError:
        sys.exit("The package atheris is not installed here; leave out --guided.")
    # What else is read in a process of its own is read in this one: its lines are watched, and
    # none is started for each input.
    multiprocessing.current_process().daemon = True
    for name in [name for name in sys.modules if name.startswith(WATCHED)]:
        for thing in vars(sys.modules[name]).values():  # kernels are no plain functions
            if isinstance(thing, FunctionType) and thing.__module__ == name:
                atheris.instrument_func(thing)
    folder = tempfile.TemporaryDirectory()
    path = Path(folder.name) / f"input{SUFFIXES[kind][0]}"
    beginnings = seeds(kind)

    def test(content: bytes) -> None:
        path.write_bytes(content)
        begun_s = time.process_time()
        read_one(kind, path)
        took_s = time.process_time() - begun_s
        assert took_s <= MOST_S, f"took {took_s:.1f} s of processor time"

    for content in beginnings:  # so that all is loaded
        test(content)

    def mutate(content: bytes, most_bytes: int, seed: int) -> bytes:
        return change(kind, content, beginnings, random.Random(seed))[:most_bytes]

    atheris.Setup([sys.argv[0], *words], test, custom_mutator=mutate)
    atheris.Fuzz()
