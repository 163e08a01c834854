"""Machine code is kept where it belongs, never mixed between versions, and never in the way."""

import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from viewer.geometry.compiled import compiled
from viewer.geometry.kernel_cache import KEPT_FOLDERS, forget_old_folders, kernel_digest

REPOSITORY = Path(__file__).parents[2]
KERNEL = """
from viewer.geometry.face_neighbours import face_neighbours
import numpy as np
import numba
print(face_neighbours(np.array([[0, 2, 1], [0, 1, 3], [0, 3, 2], [1, 2, 3]], np.int32)).min())
print(numba.config.CACHE_DIR)
"""


def run_kernel(**environment: str) -> tuple[str, Path]:
    """A fresh process with other homes: what the kernel answers, and where its code went."""
    inherited = {key: value for key, value in os.environ.items() if key != "NUMBA_CACHE_DIR"}
    done = subprocess.run(
        [sys.executable, "-c", KERNEL],
        env={**inherited, **environment},
        capture_output=True,
        text=True,
        cwd=REPOSITORY,
        check=True,
    )
    answer, folder = done.stdout.split()
    return answer, Path(folder)


def test_frozen_arrays_need_no_code_of_their_own():
    @compiled
    def total(array):
        return array.sum()

    @compiled
    def back(array):
        return array

    free, frozen = np.arange(5.0), np.arange(5.0)
    frozen.flags.writeable = False
    assert total(free) == total(frozen) == total(frozen[1:]) == 10.0
    assert len(total.signatures) == 1
    assert not back(frozen).flags.writeable
    assert not back(frozen[1:]).flags.writeable
    assert back(free).flags.writeable


def test_code_lands_in_the_users_cache_folder(tmp_path):
    answer, folder = run_kernel(HOME=str(tmp_path), XDG_CACHE_HOME=str(tmp_path / "cache"))
    assert answer == "0"  # a closed tetrahedron has a neighbour across every edge
    assert folder.parent == tmp_path / "cache" / "showside" / "compiled"
    assert list(folder.rglob("*.nbc"))


@pytest.mark.parametrize("home", ["/dev/null/none", "/proc"])
def test_without_a_writable_home_it_still_works(home):
    answer, _ = run_kernel(HOME=home, XDG_CACHE_HOME=f"{home}/cache")
    assert answer == "0"


def test_a_change_in_any_kernel_file_makes_a_new_folder(tmp_path):
    (tmp_path / "one.py").write_text("from x import compiled\n")
    (tmp_path / "other.py").write_text("no kernels here\n")
    before = kernel_digest(tmp_path)
    (tmp_path / "other.py").write_text("still none\n")
    assert kernel_digest(tmp_path) == before
    (tmp_path / "one.py").write_text("from x import compiled  # changed\n")
    assert kernel_digest(tmp_path) != before


def test_old_folders_are_forgotten_but_never_the_present_one(tmp_path):
    for number in range(KEPT_FOLDERS + 3):
        (tmp_path / str(number)).mkdir()
        os.utime(tmp_path / str(number), (number, number))
    forget_old_folders(tmp_path / "0")
    left = sorted(int(each.name) for each in tmp_path.iterdir())
    assert left == [0, *range(3, KEPT_FOLDERS + 3)]
    forget_old_folders(tmp_path / "nowhere" / "at all")


TWICE = """
import time
import numpy as np
from numba.core.caching import IndexDataCacheFile
from viewer.geometry.compiled import compiled
from viewer.geometry.machine_code import save_in_turn

@compiled
def twice(x):
    return x + x

def call(kind):
    return str(twice(np.ones(2, kind)).sum())

def slow_and_in_turn(lock):
    # Time between reading the index and writing it, in which the other process would read it too.
    look = IndexDataCacheFile._load_index
    IndexDataCacheFile._load_index = lambda self: (look(self), time.sleep(0.2))[0]
    save_in_turn(lock)
"""
KINDS = ["int8", "int16", "int32", "int64", "float32", "float64", "complex64", "complex128"]
SIDE_BY_SIDE = """
import multiprocessing, sys
from concurrent.futures import ProcessPoolExecutor
from twice import call, slow_and_in_turn, twice

context = multiprocessing.get_context("spawn")
lock = (context.Lock(),)
with ProcessPoolExecutor(2, context, initializer=slow_and_in_turn, initargs=lock) as processes:
    assert {float(complex(x).real) for x in processes.map(call, sys.argv[1:])} == {4.0}
assert {float(complex(call(kind)).real) for kind in sys.argv[1:]} == {4.0}
print(sum(twice.stats.cache_misses.values()))
"""


def test_two_processes_compile_one_kernel_for_other_arrays_and_lose_nothing(tmp_path):
    (tmp_path / "twice.py").write_text(TWICE)
    paths = os.pathsep.join([str(tmp_path), str(REPOSITORY)])
    done = subprocess.run(
        [sys.executable, "-c", SIDE_BY_SIDE, *KINDS],
        env={**os.environ, "PYTHONPATH": paths, "NUMBA_CACHE_DIR": str(tmp_path / "code")},
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout == "0\n"
    assert len(list((tmp_path / "code").rglob("*.nbc"))) == len(KINDS)
