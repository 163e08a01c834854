"""Machine code is kept where it belongs, never mixed between versions, and never in the way."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

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
